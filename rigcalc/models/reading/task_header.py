"""The header of a time log (TLG00001.XML): where in a record a position stands, and what each value is."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.reading.task_xml import Element, element_of

_CLOCK = 6  # bytes of time and day in front of each record
# Attributes of a position, in the order in which a record holds them: name and bytes. One that is there and empty stands in the
# record; one with a value holds for the whole log. Seen in three public readers, which agree.
_POSITION = {"A": ("north", 4), "B": ("east", 4), "C": ("up", 4), "D": ("status", 1), "E": ("pdop", 2), "F": ("hdop", 2),
             "G": ("satellites", 1), "H": ("utc time", 4), "I": ("utc day", 2)}  # fmt: skip
# Number of the data dictionary -> quantity of a log, and the factor to its unit. Seen in two public lists of ISO 11783-11,
# which agree: 52 actual tillage depth, mm; 141 actual work state; 149 instantaneous fuel consumption, mm3/s; 397 actual speed,
# mm/s; and in one of them 484 actual engine speed, a ten-thousandth of a turn a minute. That a work state is 0 (off), 1 (on) or
# 2 and 3 (error, not there) is from memory.
_ENTRIES = {52: ("depth", 0.1), 141: ("tool_down", 1.0), 149: ("fuel_rate", 0.0036), 397: ("actual_speed", 0.0036),
            484: ("engine_speed", 0.0001)}  # fmt: skip
_STATES_FROM = 2  # a work state from here up is none
# A value that is a piece of a message of the bus: its group, first and last bit. Places and scales are those of tractor.dbc,
# which says where each was seen; that the bits count from 0 is from memory.
_OF_THE_BUS = 0xDFFE  # seen in two public readers
_MESSAGES = {
    (65097, 0, 15): ("speed", 0.0036), (65096, 0, 15): ("wheel_speed", 0.0036), (61443, 16, 23): ("load", 0.01),
    (61444, 16, 23): ("torque", 0.01),
    (65266, 0, 15): ("fuel_rate", 0.05), (61444, 24, 39): ("engine_speed", 0.125), (65093, 14, 15): ("tool_down", 1.0),
}  # fmt: skip
_NOUGHT = {"torque": 125.0}  # the raw number that stands for nought, where it isn't nought
_MISSING = {2: 2, 8: 0xFB, 16: 0xFB00}  # bits -> from here up a piece of a message holds no value (SAE J1939-71)
_HEX, _WHOLE = re.compile(r"[0-9A-Fa-f]{1,4}"), re.compile(r"-?\d{1,10}")
_MOST_LINES = 255


@dataclass(frozen=True)
class Line:
    """What a value is. name: of the quantity. missing: raw numbers from here up are none. element: of the machine that gives
    it. value: raw, where the header holds it."""  # fmt: skip

    name: str
    factor: float
    missing: float
    element: str = ""
    value: float | None = None

    def scaled(self, raw: Any) -> Any:
        """Give raw numbers (array) in the quantity's unit; NaN for none."""
        return np.where((raw >= self.missing) | ((raw < 0) & (self.name != "actual_speed")), np.nan,
                        (raw - _NOUGHT.get(self.name, 0.0)) * self.factor)  # fmt: skip


@dataclass(frozen=True)
class Header:
    """fixed: bytes of a record before the count of its values. places: where in it a position's parts begin. lines: what each
    value is, None for what a reading doesn't need."""  # fmt: skip

    fixed: int
    places: dict[str, int]
    lines: tuple[Line | None, ...]


def header_of(data: bytes, name: str) -> Header:
    """Read a header. name: of its file, for faults. Raises InputError."""
    root = element_of(data, name, "TIM")
    faults = []
    if root.attributes.get("A", "") != "":
        faults.append(Fault(f"{name}, TIM", f"a time for all records ({shown(root.attributes['A'])})", "a time in each record"))
    positions, lines = list(root.all("PTN")), list(root.all("DLV"))
    if len(positions) > 1 or len(lines) > _MOST_LINES:
        faults.append(Fault(name, f"{len(positions)} positions and {len(lines)} values in a record",
                            f"one position at most and {_MOST_LINES} values"))  # fmt: skip
    at, places = _CLOCK, {}
    for attribute, (part, wide) in _POSITION.items():
        if positions and positions[0].attributes.get(attribute) == "":
            places[part] = at
            at += wide
    found = [_line(each, f"{name}, DLV {place}", faults) for place, each in enumerate(lines, 1)]
    if faults:
        raise InputError(faults, title="This log can't be used as it stands")
    return Header(at, places, tuple(found))


def _line(element: Element, where: str, faults: list[Fault]) -> Line | None:
    number, held = element.attributes.get("A", ""), element.attributes.get("B", "")
    if not _HEX.fullmatch(number) or not (held == "" or _WHOLE.fullmatch(held)):
        faults.append(
            Fault(where, shown(f"{number} {held}".strip()), "a number of the data dictionary in hexadecimal, such as 008D")
        )
        return None
    value, of = float(held) if held else None, element.attributes.get("C", "")
    if int(number, 16) == _OF_THE_BUS:
        bits = [element.attributes.get(each, "") for each in "DEF"]
        if not all(_WHOLE.fullmatch(each) for each in bits):
            faults.append(Fault(where, shown(" ".join(bits)), "a group of the bus, its first and its last bit"))
            return None
        group, first, last = map(int, bits)
        known = _MESSAGES.get((group, first, last))
        return None if known is None else Line(*known, _MISSING[last - first + 1], of, value)
    known = _ENTRIES.get(int(number, 16))
    if known is None:
        return None
    return Line(*known, _STATES_FROM if known[0] == "tool_down" else np.inf, of, value)
