"""One entry of a rig changed by a text that somebody typed: by its path in the rig file, or by a short name."""

from __future__ import annotations

import re
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import whole_number
from rigcalc.models.rig.resize import tool_changes
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.tool import by_width

SHORT = ("depth", "speed", "tools", "texture")  # entries that a question asks about so often that they have a short name
_PATHS = {"work.depth": "depth", "work.speed": "speed", "implement.tools": "tools", "ground.texture": "texture"}
_MOST_TOOLS = 200
_WHOLE = re.compile("[0-9]{1,9}")


def short_name(entry: str) -> str:
    """Give the short name of an entry where it has one, else the entry as it is."""
    return _PATHS.get(entry, entry)


def entry_changes(rig: Rig, entry: str, text: str, where: str | None = None) -> dict[str, Any]:
    """Give the changes, by path of the rig file, that a short name stands for.

    A number of tools changes width, mass and tongue load with it; a texture takes the place of sand and clay. where: what a
    fault is to be called by. Raises InputError.
    """
    if entry == "tools" and by_width(rig.implement.tool):
        raise InputError([Fault(where or entry, shown(text), "a tool that is counted; this one is measured by its width",
                                "implement.width, in the rig file or behind --vary")])  # fmt: skip
    if entry == "tools":
        try:
            count = whole_number(text)
        except InputError:
            typed = f"{where} 13" if where else "tools=13"
            raise InputError([Fault(where or entry, shown(text), f"a whole number from 1 to {_MOST_TOOLS}", typed)]) from None
        return tool_changes(rig, count) if 1 <= count <= _MOST_TOOLS else {"implement.tools": count}
    if entry == "texture":
        return {"ground.texture": text, "ground.sand": None, "ground.clay": None}
    return {f"work.{entry}": text}


def typed_changes(rig: Rig, entry: str, text: str) -> dict[str, Any]:
    """Give what a text changes in an entry: a short name, or a path such as `implement.spacing`. Raises InputError."""
    entry = short_name(entry)
    if entry in SHORT:
        return entry_changes(rig, entry, text)
    part: Any = rig.model_dump(exclude_none=True)
    *path, last = entry.split(".")
    for name in path:
        part = part.get(name, {}) if isinstance(part, dict) else None
    there = part.get(last) if isinstance(part, dict) else None
    if not path or not isinstance(part, dict) or isinstance(there, (dict, list, tuple)):
        known = ", ".join(SHORT)
        raise InputError([Fault(entry or "entry", shown(text), f"{known}, or the path of one entry of the rig file",
                                '"implement.spacing=13 in,15 in"')])  # fmt: skip
    return {entry: text if isinstance(there, str) else _value(text)}


def _value(text: str) -> Any:
    """Give a whole number, or yes and no, where a text reads so; else the text."""
    if text in ("true", "false"):
        return text == "true"
    return int(text) if _WHOLE.fullmatch(text) else text
