"""A map of a log in words: what it shows, where it comes from, and the marks of its scale."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from rigcalc.models.reading.field_map import FieldMap
from rigcalc.words.numbers import System, number, percent, say, to_shown

_TITLES = {
    "draft": "Draft",
    "slip": "Slip",
    "load": "Engine load",
    "fuel_rate": "Fuel rate",
    "speed": "Speed",
    "depth": "Depth",
}
_BY = {"pull": "as the load cell shows it", "load": "as the engine load asks for it at the rig's depth",
       "torque": "as the engine torque asks for it at the rig's depth",
       "fuel_rate": "as the fuel rate asks for it at the rig's depth"}  # fmt: skip


def title(found: FieldMap) -> str:
    """Give the title of what is shown."""
    return f"{_TITLES[found.kind]}, {_BY[found.by]}" if found.by else _TITLES[found.kind]


def drafts_by(by: str) -> str:
    """Say in two words or three which column draft was told by."""
    return {"pull": "by load cell", "load": "by engine load", "torque": "by engine torque", "fuel_rate": "by fuel rate"}[by]


def scale_lines(found: FieldMap, limits: Sequence[float], units: System) -> list[str]:
    """Say the span of each class. limits: the ends of the classes, rising, in the unit of the map."""
    if found.unit == "1":
        ends = [number(100 * limit) for limit in limits]
        unit = "%"
    else:
        ends = [number(to_shown(limit, found.unit, units)[0]) for limit in limits]
        unit = to_shown(1.0, found.unit, units)[1]
    return [f"{low} to {high} {unit}" for low, high in pairwise(ends)]


def said(found: FieldMap, units: System) -> str:
    """Say the map in a sentence, for who can't see it."""
    if not found.worked.size:
        return f"{title(found)}: no number where it worked."
    low, middle, high = np.quantile(found.worked, [0.1, 0.5, 0.9])
    low, middle, high = (
        percent(value) if found.unit == "1" else say(value, found.unit, units) for value in (low, middle, high)
    )
    return f"{title(found)}: {middle} in the middle, 8 in 10 of the way from {low} to {high}."
