"""What the page says about a log: what each column may be, how it goes on, and what is wrong with it in words of the page."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.reading.log import typed_column

# Quantity of a log -> its name, and the unit that stands at first.
ASKED = {
    "time": ("Time", "s"), "speed": ("Speed over the ground", "km/h"), "wheel_speed": ("Wheel speed", "km/h"),
    "slip": ("Slip", "percent"), "load": ("Engine load", "percent"), "torque": ("Engine torque", "percent"),
    "fuel_rate": ("Fuel rate", "L/h"), "engine_speed": ("Engine speed", "rpm"), "pull": ("Drawbar pull", "kN"),
    "depth": ("Depth", "cm"), "heading": ("Heading", "deg"), "tool_down": ("Tool down (1 or 0)", "1"),
    "latitude": ("Latitude", "deg"), "longitude": ("Longitude", "deg"),
}  # fmt: skip
# What a heading may say too, in small letters and without its unit.
ALSO = {"speed": ("ground speed", "gps speed", "radar speed"), "load": ("load",), "torque": ("torque",), "pull": ("pull",),
        "slip": ("wheel slip",), "fuel_rate": ("fuel",), "engine_speed": ("rpm",), "latitude": ("lat",),
        "longitude": ("lon", "long", "lng")}  # fmt: skip
LOAD_OF = (("available", "of what the engine gives now (most displays)"), ("rated", "of rated power"))
ABOUT = "Which column is which? Time, speed and one of slip, wheel speed, load, torque, fuel and pull are needed."
NO_STRETCH = "No steady stretch: half a minute and more at an even speed and load is needed."
OTHER_RIG = "The rig was changed since: choose the log again for its pictures."
OWN_DEPTH = "the depth of the log where the box is empty"
_UNIT = re.compile(r"[\[(]([^\])]{1,20})[\])]\s*$")  # a unit in brackets at the end of a heading
_WHERE = {"--column": "columns", "--load-of": "engine load", "LOG": "the log", "--task": "the task"}


def what_to_choose(bus: bool, most: int) -> str:
    """Say which files may be chosen. bus: whether logs of the tractor's bus can be read here. most: bytes."""
    own = ", a log of the tractor's own bus (.asc, .log or .trc)" if bus else ""
    return (f"A table from a display (.csv){own} or task data (a .zip of its folder), up to {most // 1024**2} MB. "
            "Its steady stretches become readings; dig, and type the depth into its box of the reading.")  # fmt: skip


def log_faults(faults: Iterable[Fault]) -> list[Fault]:
    """Give faults of a log as the page says them: by its own names, and without what is typed at a terminal."""
    return [
        replace(fault, where=_WHERE.get(fault.where, fault.where), type_this="" if "--" in fault.type_this else fault.type_this)
        for fault in faults
    ]


def columns_wanted(missing: Iterable[str]) -> list[Fault]:
    """Say which columns are missing."""
    return [Fault(name, "no column", "the column of the log that holds it") for name in missing]


def proposed(heads: Sequence[str]) -> dict[str, tuple[str, str]]:
    """Propose a column and a unit for each quantity, by headings that say it; the unit in brackets where it converts."""
    out = {}
    for name, (title, usual) in ASKED.items():
        said = [head for head in heads if _plain(head) in (_plain(title), _plain(name), *ALSO.get(name, ()))]
        head = said[0] if len(said) == 1 and heads.count(said[0]) == 1 else ""
        out[name] = (head, unit_of(name, head) if head else usual)
    return out


def unit_of(name: str, head: str) -> str:
    """Give the unit that stands in brackets in a heading; the usual one where there is none, or none that converts."""
    found = _UNIT.search(head)
    unit = {"%": "percent", "l/h": "L/h", "°": "deg"}.get(found[1], found[1]) if found else ""
    try:
        typed_column(f"{name}=x;{unit}")
    except InputError:
        return ASKED[name][1]
    return unit or ASKED[name][1]


def _plain(text: str) -> str:
    return re.sub(r"[^a-z0-9]+", " ", _UNIT.sub("", text).lower()).strip()
