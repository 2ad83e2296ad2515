"""The model of every page about a rig: the rig as typed, field by field; links, files, undo and demo rigs."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from functools import cache
from os import PathLike
from typing import Any, ClassVar, get_args, get_origin

from pydantic import BaseModel

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models import DEMO_RIGS, demo_rig, read_rig, rig_text
from rigcalc.models.rig.asked import asked
from rigcalc.models.rig.file import rig_from
from rigcalc.models.rig.rig import MOST_OF_FLAGS, Rig
from rigcalc.models.rig.tool import by_width
from rigcalc.views.rig.fields import STARTS, groups, setting
from rigcalc.widgets.model import LONGEST_LINK, AppModel
from rigcalc.words.numbers import System
from rigcalc.words.rig_name import rig_name
from rigcalc.words.taken import taken_for

_TYRE_ONLY = frozenset(
    "tyre tyres size section_width diameter rim_diameter static_loaded_radius deflection_ratio load_limit_each".split()
)
_TRACK_ONLY = frozenset(["tracks", "track_width", "contact_length", "pressure_limit"])
_COUNTS = frozenset(["tools", "tyres", "tracks", "load_index", "filled_tyres", "trial_pairs"])
# Of a tool that is counted; one that is measured by its width has none of them.
_COUNTED = frozenset(["implement.tools", "implement.spacing", "implement.point_width", "implement.rated_power_per_tool"])
_MEASURES = ("section_width", "diameter", "rim_diameter", "static_loaded_radius")  # what a tyre's size stands for
_FLAGS = frozenset(["driven", "wheels_follow_in_track", "front_suspension"])
_LONGEST_READINGS = 100_000  # letters of a list of readings, which is one entry; a hundred of them take less
_LONG = {"reading": _LONGEST_READINGS, "ground.flags": MOST_OF_FLAGS, "ground.flags_after": MOST_OF_FLAGS}
_WORDS = frozenset(["farm", "note", "name", "table_from", "flags", "flags_after", "axles"])


def flat(rig: Rig) -> dict[str, str]:
    """Give a rig as texts by path: {"work.depth": "12 in", "tractor.rear.tyres": "4", ...}; a list as its JSON."""
    out: dict[str, str] = {}

    def walk(part: Mapping[str, Any], before: str) -> None:
        for name, value in part.items():
            if isinstance(value, Mapping):
                walk(value, f"{before}{name}.")
            elif isinstance(value, list | tuple):
                if value:
                    out[before + name] = json.dumps(value, ensure_ascii=False)
            else:
                out[before + name] = str(value).lower() if isinstance(value, bool) else str(value)

    walk(rig.model_dump(mode="json", exclude_none=True), "")
    if rig.tractor.front is None:
        out["tractor.front.kind"] = "none"
    return out


def nested(inputs: Mapping[str, str]) -> dict[str, Any]:
    """Give texts by path as the nested data of a rig; what has no meaning as chosen is left out.

    Raises InputError for a path that runs through another entry, such as `farm.x`.
    """
    data: dict[str, Any] = {}
    odd = []
    for path, text in inputs.items():
        if (
            path == "rig"
            or path.startswith(("sheet.", "own."))
            or out_of_use(inputs, path)
            or (not text.strip() and path not in ("farm", "note"))
        ):
            continue
        *way, last = path.split(".")
        part: Any = data
        for name in way:
            part = part.setdefault(name, {}) if isinstance(part, dict) else None
        if isinstance(part, dict) and not isinstance(part.get(last), dict):
            part[last] = _typed(last, text)
        else:
            odd.append(Fault(path, shown(text), "the name of an entry of a rig"))
    if odd:
        raise InputError(odd)
    return data


def out_of_use(inputs: Mapping[str, str], path: str) -> bool:
    """Say whether a path has no meaning as chosen: tyres of a tracked axle, sand where a texture is named."""
    way = path.split(".")
    if path.startswith(("tractor.front.", "tractor.rear.")):
        kind = inputs.get(f"{way[0]}.{way[1]}.kind", "")
        if kind == "none":
            return True
        return way[2] in (_TYRE_ONLY if kind == "track" else _TRACK_ONLY)
    if path in _COUNTED or path == "implement.width":
        return (path in _COUNTED) == by_width(inputs.get("implement.tool", ""))
    return path in ("ground.sand", "ground.clay") and bool(inputs.get("ground.texture", ""))


def _typed(name: str, text: str) -> Any:
    if name in _COUNTS:
        return int(text) if re.fullmatch(r"\s*[0-9]{1,9}\s*", text) else text
    if name in _FLAGS and text in ("true", "false"):
        return text == "true"
    if text.startswith("[") and name not in _WORDS:
        try:
            return json.loads(text)
        except (ValueError, RecursionError):
            return text
    return text


class RigModel(AppModel):
    """A rig as typed. A page's own model adds `compute`; an entry that can't be used leaves no answer, only what to type."""

    defaults: ClassVar = {"rig": DEMO_RIGS[0], **flat(demo_rig()), "sheet.paper": ""}
    short_names: ClassVar = {
        **{"depth": "work.depth", "speed": "work.speed", "shanks": "implement.tools", "spacing": "implement.spacing"},
        **{"texture": "ground.texture", "surface": "ground.surface", "slope": "ground.grade", "power": "tractor.rated_power"},
    }
    speaks = True

    def hides(self, path: str) -> bool:
        """Hide the fields that have no meaning as chosen; never the choice itself."""
        if path.endswith(".kind"):
            return False
        return out_of_use(self.inputs, path) or self._says_nothing(path)

    def _says_nothing(self, path: str) -> bool:
        """Say whether an empty field of a tyre is one that its other way of being known makes needless."""
        axle, _, last = path.rpartition(".")
        if not axle.startswith("tractor.") or last not in (*_MEASURES, "size") or self.inputs.get(path):
            return False
        return (last == "size") == bool(self.inputs.get(f"{axle}.kind"))

    def edit(self, changes: Mapping[str, str], live: bool = False) -> None:
        """Take one change set; a new running gear or soil brings the entries that it can't do without."""
        more: dict[str, str] = {}
        if changes.get("tractor.drive") == "track" and self.inputs.get("tractor.rear.kind") != "track":
            # A drive of tracks comes with tracks, unless the same change says what the axles run on.
            changes = {"tractor.front.kind": "track", "tractor.rear.kind": "track", **changes}
        for path, text in changes.items():
            axle, _, last = path.rpartition(".")
            if last == "kind" and text in ("", "radial", "bias"):
                # By the size or by measures: what the other way left behind would contradict.
                gone = _MEASURES if not text else ("size",)
                changes = {**{f"{axle}.{name}": "" for name in gone}, **changes}
            more |= self.bring(path, text)
        left = {**self.inputs, **changes}
        missing = {path: text for path, text in more.items() if not left.get(path)}
        super().edit({**changes, **missing}, live)

    def named(self) -> str:
        """Give the rig's name by what it is; empty while an entry can't be used."""
        rig = self.rig_shown()
        return rig_name(rig, self.system) if rig is not None else ""

    def taken(self, path: str) -> dict[str, str]:
        """Give what a rule took for an entry that was left out, and the rule."""
        rig = self.rig_shown()
        found = taken_for(rig, path, self.system) if rig is not None else None
        return {} if found is None else {"taken": found[0], "rule": found[1]}

    def rig_shown(self) -> Rig | None:
        """Give the rig that the results are about, None while an entry can't be used."""
        raise NotImplementedError

    def to_carry(self) -> dict[str, str]:
        """Give what every page about this rig shares: the entries of the rig and those of the sheet, as typed."""
        return {path: text for path, text in self.inputs.items() if not self.is_own(path)}

    def take(self, carried: Mapping[str, str], system: System) -> None:
        """Go on with the rig of another page; what is this page's own stays. Nothing happens where it is the same."""
        mine = self.to_carry()
        if _said(mine) != _said(carried):
            own = {path: text for path, text in self.inputs.items() if path not in mine and self.is_own(path)}
            self.replace_all({**own, **carried}, system)
        else:
            self.switch_units(system)

    def is_own(self, path: str) -> bool:
        """Say whether an entry belongs to this page alone."""
        return False

    def bring(self, path: str, text: str) -> dict[str, str]:
        """Give the entries that a newly chosen running gear, tool or soil can't do without."""
        axle, _, last = path.rpartition(".")
        if last == "kind" and text != "none":
            starts = STARTS["track" if text == "track" else "tyres" if text else "size"]
            return {f"{axle}.{name}": start for name, start in starts.items()}
        if path == "implement.tool":
            return dict(STARTS["by_width" if by_width(text) else "counted"])
        return dict(STARTS["soil"]) if path == "ground.texture" and not text else {}

    def start_from(self, rig: Rig | str | PathLike[str]) -> None:
        """Start anew from a rig, the path of its file, or the name of a demo rig. Raises InputError where that is none."""
        if isinstance(rig, str) and rig in DEMO_RIGS:
            self.start_from_demo(rig)
        else:
            found = asked(rig)
            name = next((name for name in DEMO_RIGS if found == demo_rig(name)), DEMO_RIGS[0])
            self.replace_all({"rig": name, **flat(found), **self.sheet()})

    def start_from_demo(self, name: str) -> None:
        """Start anew from a demo rig. Raises InputError for a name that is none."""
        self.replace_all({"rig": name, **flat(_demo(name)), **self.sheet()})

    def base(self) -> Mapping[str, str]:
        """Give what a link is measured against: the demo rig it names."""
        name = self.inputs.get("rig", DEMO_RIGS[0])
        return _flat_demo(name if name in DEMO_RIGS else DEMO_RIGS[0])

    def inputs_from_link(self, known: Mapping[str, str]) -> dict[str, str]:
        """Give the demo rig that a link names with its changes; an empty text takes an entry out."""
        name = known.get("rig", DEMO_RIGS[0])
        start = {"rig": name, **flat(_demo(name)), "sheet.paper": ""}
        paths = {field.path for section in (*setting(), *groups()) for field in section.fields} | set(start)
        return {**start, **{path: text for path, text in known.items() if path in paths or self.may_be(path)}}

    def may_be(self, path: str) -> bool:
        """Say whether a path may stand in a rig without being on the page, such as a rim diameter or the ballast."""
        return path.startswith("sheet.") or is_entry(path)

    def sheet(self) -> dict[str, str]:
        """Give the entries that go on the setup sheet alone; they outlive a change of rig."""
        return {path: text for path, text in self.inputs.items() if path.startswith("sheet.")}

    def gone(self) -> dict[str, str]:
        """Give the entries of the demo rig that were taken out."""
        return {path: "" for path in self.base() if path not in self.inputs}

    def to_query(self) -> str:
        """Give the link; entries taken out stand in it as empty. Empty where it holds more than a link can."""
        query = self._query()
        return query if len(query) <= LONGEST_LINK else ""

    def fits_a_link(self) -> bool:
        """Say whether the address of the page holds everything that was entered."""
        return len(self._query()) <= LONGEST_LINK

    def _query(self) -> str:
        from urllib.parse import urlencode

        gone = self.gone()
        return "&".join(filter(None, [super().to_query(), urlencode(gone)]))

    @staticmethod
    def _clean(path: str, text: object) -> str:
        if isinstance(text, str) and len(text) <= _LONG.get(path, 0):
            return text.encode("utf-8", "replace").decode()
        return AppModel._clean(path, text)

    def inputs_from_toml(self, text: str) -> dict[str, str]:
        """Read a rig file strictly."""
        return {"rig": DEMO_RIGS[0], **flat(read_rig(text)), **self.sheet()}

    def to_toml(self) -> str:
        """Write the rig file. Raises InputError while an entry can't be used."""
        return rig_text(rig_from(nested(self.inputs)))


def _said(texts: Mapping[str, str]) -> dict[str, str]:
    """Give the entries that say something."""
    return {path: text.strip() for path, text in texts.items() if text.strip() and not out_of_use(texts, path)}


@cache
def _flat_demo(name: str) -> Mapping[str, str]:
    return {"rig": DEMO_RIGS[0], **flat(demo_rig(name)), "sheet.paper": ""}


def _demo(name: str) -> Rig:
    if name not in DEMO_RIGS:
        raise InputError([Fault("rig", shown(name), "one of the demo rigs", ", ".join(DEMO_RIGS))])
    return demo_rig(name)


def is_entry(path: str) -> bool:
    """Say whether a path names one entry of a rig: not a part of it, and nothing inside an entry."""
    part: type[BaseModel] | None = Rig
    for name in path.split("."):
        field = part.model_fields.get(name) if part else None
        if field is None:
            return False
        part = _part_in(field.annotation)
    return part is None


def _part_in(annotation: Any) -> type[BaseModel] | None:
    """Give the part of a rig that an annotation such as `Setup | None` names; a list of parts is one entry."""
    found = [kind for kind in (annotation, *get_args(annotation)) if isinstance(kind, type) and issubclass(kind, BaseModel)]
    return found[0] if found and get_origin(annotation) is not tuple else None
