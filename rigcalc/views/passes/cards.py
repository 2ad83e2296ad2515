"""The parts about fields as widgets: each stands alone in a notebook, and the page is built of them."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from typing import Any

from markupsafe import Markup

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.land.boundary import MOST_BYTES
from rigcalc.views.json.passes import passes_geojson
from rigcalc.views.passes.parts import FieldsCard
from rigcalc.views.passes.picture import field_picture
from rigcalc.widgets.picked import OpensFile, Picked
from rigcalc.widgets.templates import render
from rigcalc.words.passes.answer import FARM_HEADS, HEADING_HEADS
from rigcalc.words.passes.boxes import ABOUT_FILE, FILE, file_line
from rigcalc.words.passes.zones import ZONE_HEADS

_STATES = {"go": "ok", "try": "tight", "dont": "over"}
_PAGE_WIDE = 760  # px of the picture on the page: its letters stay legible on a phone


class FieldsVerdict(FieldsCard):
    """Which way to drive, and how long it takes."""

    title, dress, is_live = "Which way to drive", "rig-answer rig-across", True

    def text(self) -> str:
        """Give the verdict."""
        if self.words is None:
            return str(render(__file__, "verdict.html.j2", state="none", word="", headline="")) + self.faults_by_itself()
        said, state = self.words.said, _STATES[self.words.answer.judgement.value]
        headline = said.headline[:1].upper() + said.headline[1:]
        return (
            str(render(__file__, "verdict.html.j2", state=state, word=said.word, headline=headline)) + self.faults_by_itself()
        )


class FieldsFile(OpensFile, FieldsCard):
    """Opens a file of boundaries: GeoJSON, or a zipped shapefile."""

    title, dress = "Boundaries", "rig-boundaries"
    button, endings, about = "Open a file of boundaries", ".geojson,.json,.zip", ABOUT_FILE
    where, wanted, most, leaving = (
        f"{FILE} file",
        "a GeoJSON file or a zipped shapefile",
        MOST_BYTES,
        "The invented field again",
    )

    def holds(self) -> tuple[bool, str]:
        """Give whether a file is open, and which fields are shown."""
        held = self.model.boundary_file
        return held is not None, file_line(held.name if held is not None else None, self.words)

    def took(self, picked: Picked | None) -> None:
        """Go on with the fields of a file, or with the invented one."""
        self.model.take_boundary(picked)


class FieldsPicture(FieldsCard):
    """The fields with their headlands and passes, and for one field the hours at each heading."""

    title, dress = "Fields and passes", "rig-fields-picture"

    def text(self) -> str:
        """Give the picture; its words stand in it for a screen reader."""
        if self.words is None:
            return ""
        drawn = Markup(field_picture(self.words, _PAGE_WIDE))  # noqa: S704 (its maker escapes)
        return str(render(__file__, "picture.html.j2", drawn=drawn))


class FieldsSays(FieldsCard):
    """What the shape costs, what could make the answer wrong, and what was taken."""

    title, dress = "What the shape costs", "rig-why"

    def text(self) -> str:
        """Give the sentences."""
        if self.words is None:
            return ""
        return str(render(__file__, "says.html.j2", texts=self.words.said.rest, season=self.words.for_season))


class FieldsTable(FieldsCard):
    """Headings of one field beside each other, or the fields of a farm in the order to work them; where the hours go."""

    title, dress = "Headings and hours", "rig-rows"

    def text(self) -> str:
        """Give both tables."""
        words = self.words
        if words is None:
            return ""
        one = words.answer.fields[0] if len(words.answer.fields) == 1 else None
        rows, heads = (words.headings(one), HEADING_HEADS) if one is not None else (words.listed, FARM_HEADS)
        return str(render(__file__, "tables.html.j2", rows=rows, heads=heads, parts=words.part_rows, one=one is not None,
                          zones=words.zones, zone_heads=ZONE_HEADS))  # fmt: skip


class FieldsNotes(FieldsCard):
    """What the answer about the fields rests on."""

    title, dress = "What the passes rest on", "rig-why"

    def text(self) -> str:
        """Give the lines in a fold."""
        return "" if self.words is None else str(render(__file__, "notes.html.j2", notes=self.words.notes))


class FieldsTake(FieldsCard):
    """Saves the passes as lines for a receiver, the picture, and the entries for a season."""

    title, dress = "Take the passes along", "rig-list"

    def text(self) -> str:
        """Give the buttons."""
        return "" if self.words is None else str(render(__file__, "take.html.j2"))

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do."""
        return {"save": self.save_as}

    def save_as(self, kind: Any) -> None:
        """Let the browser save the passes ("geojson") or the picture ("svg"). Raises InputError where there is no answer."""
        words = self.words
        if words is None:
            raise InputError([Fault("passes", "no answer", "fields whose passes can be laid")])
        if kind == "geojson":
            lines = json.dumps(passes_geojson(words), ensure_ascii=False)
            self.save("passes.geojson", lines.encode(), "application/geo+json")
        else:
            self.save("fields.svg", field_picture(words).encode(), "image/svg+xml")
