"""What the ground bears before it gives: precompression stress by each regression that holds, over the span of its water."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rigcalc.core.tables import table
from rigcalc.core.units import factor
from rigcalc.equations import precompression as book
from rigcalc.models.machine.wetness import WaterLimits, Wet, Wetness, water_limits
from rigcalc.models.rig.bare import texture_of
from rigcalc.models.rig.rig import Rig

_FINE, _VERY_FINE, _COARSE = 0.35, 0.60, (0.18, 0.65)  # clay; clay and sand: the FAO map's classes, from memory
_LITTLE_SAND = 0.15


@dataclass(frozen=True)
class Strength:
    """What one regression gives, kPa (low, high over the water). holds: it gives what ground can have; decides: it counts."""

    name: str
    kpa: tuple[float, float]
    holds: bool
    decides: bool


@dataclass(frozen=True)
class Bearing:
    """What the ground bears, kPa, over all regressions that hold and decide; None where none does.

    Its ends hold the doubt of the regressions. measured: water was read, else field capacity is taken. dry: it is dry and
    hard, and bears more than that, nobody knows how much: the high end is infinite. each: every regression, those that decide
    nothing too.
    """

    kpa: tuple[float, float] | None
    each: tuple[Strength, ...]
    water: tuple[float, float]
    density: float
    measured: bool
    dry: bool


def stress_value(name: str, unit: str) -> float:
    """Give a value of the table soil_stress in a unit."""
    row = table("soil_stress")[name]
    return float(row["value"]) * (1.0 if row["unit"] == unit else factor(row["unit"], unit))


def bearing(rig: Rig, wet: Wetness | None) -> Bearing:
    """Work out what a rig's ground bears: at the water that was read, else at field capacity."""
    limits = wet.limits if wet is not None else water_limits(rig)
    read = wet.water if wet is not None else None
    water = (limits.drained, limits.drained) if read is None else (read[0], read[2])
    sand, clay = shares(rig)
    least = stress_value("strength_least", "kPa")
    each = [_by_density(limits, clay, water, least)]
    soil = fao_class(sand, clay)
    for row in table("precompression"):
        if row["soil"] in (soil, "any"):
            ends = [_by_water(row, limits.density, clay, one) for one in water]
            each.append(Strength(str(row["name"]), (min(ends), max(ends)), min(ends) >= least, row["decides"] == "yes"))
    used = [one.kpa for one in each if one.holds and one.decides]
    dry = wet is not None and wet.state is Wet.HARD
    off = stress_value("strength_scatter", "percent") / 100
    span = None
    if used:
        most = math.inf if dry else (1 + off) * max(high for _, high in used)
        span = ((1 - off) * min(low for low, _ in used), most)
    return Bearing(span, tuple(each), water, limits.density, read is not None, dry)


def shares(rig: Rig) -> tuple[float, float]:
    """Give sand and clay as shares: as typed, else the middle of the texture class."""
    middle = table("texture_middles")[texture_of(rig)]
    sand, clay = rig.ground.sand, rig.ground.clay
    return (
        sand.to("1") if sand is not None else middle["sand"] / 100,
        clay.to("1") if clay is not None else middle["clay"] / 100,
    )


def fao_class(sand: float, clay: float) -> str:
    """Give the class of the FAO map that Saffih's regressions go by."""
    if clay >= _FINE:
        return "very_fine" if clay > _VERY_FINE else "fine"
    if clay < _COARSE[0] and sand > _COARSE[1]:
        return "coarse"
    return "medium_fine" if sand < _LITTLE_SAND else "medium"


def _by_density(limits: WaterLimits, clay: float, water: tuple[float, float], least: float) -> Strength:
    """Ask the regression with suction, held to the suctions from nearly full pores to field capacity."""
    wet, dry = stress_value("tension_wet", "kPa"), stress_value("tension_dry", "kPa")
    ends = []
    for one in water:
        # the curve is a power of the ratio of waters, which is the same by mass
        suction = book.tension_at_water.bare(wet, dry, limits.drained, limits.wilting, max(one, limits.wilting / 2))
        held = min(max(float(suction), stress_value("tension_least", "kPa")), wet)
        root = float(book.precompression_root.bare(limits.density, clay, math.log10(10 * held)))
        ends.append(max(root, 0.0) ** 2)  # a root below zero bears nothing, and its square would say otherwise
    return Strength("schjonning", (min(ends), max(ends)), min(ends) >= least, True)


def _by_water(row: dict[str, float], density: float, clay: float, water: float) -> float:
    rises = (row["per_density"], density, row["per_clay"], clay, row["per_water"], water)
    return float(book.precompression_from_water.bare(row["base"], *rises))
