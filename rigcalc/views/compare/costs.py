"""Cost of an acre against the chance to finish, a point for each rig that is compared: one picture."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from rigcalc.views.compare.model import CompareModel
from rigcalc.views.compare.parts import AboutComparison, Source, compare_model
from rigcalc.views.season.pictures import costs_drawn
from rigcalc.widgets.figure import Picture
from rigcalc.widgets.html import esc, table
from rigcalc.widgets.plot import blank
from rigcalc.words.compare.costs import missing_text
from rigcalc.words.season.abreast import HEADS, Shown


class CompareCost(AboutComparison, Picture):
    """Cost against chance: each rig with all of the fields to itself, up is safer and left is cheaper."""

    model: CompareModel
    title = "What each costs, and is it done in time?"

    def __init__(self, source: Source = None, **traits: Any):
        traits.setdefault(
            "note", "Each has all of the fields to itself. Up is safer, left is cheaper; a cross: a limit is passed."
        )
        text = traits.pop("label", self.title)
        Picture.__init__(self, compare_model(source), self.description, text, write_twin=self.same_as_table, **traits)
        self.watch(self.told, self.title)

    @property
    def shown(self) -> tuple[Shown, ...]:
        """The points; none without prices."""
        return self.model.costs

    @property
    def lacking(self) -> str:
        """What has to be typed before there is a picture."""
        return missing_text(self.model.season_typed()) or "no answer yet"

    def description(self) -> Mapping[str, Any]:
        """Describe the picture; a few words where prices are missing."""
        return costs_drawn(self.shown, self.model.system) or blank(self.lacking)

    def same_as_table(self) -> str:
        """Give the table that says the same, as HTML; what is missing where there is none."""
        if not self.shown:
            return f"<p>{esc(self.lacking)}</p>"
        return table("Cost against chance of the rigs", HEADS, [each.row for each in self.shown])
