"""How wet is the ground at working depth, and may it be worked: from a thread, a handful, a weighed sample or a probe.

docs/decisions/0019-wetness-and-depth.md says how readings are put together and why.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

import numpy as np

from rigcalc.core.tables import table
from rigcalc.equations import soil_water as book
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.rig.bare import texture_of
from rigcalc.models.rig.rig import Rig

ENTRIES = ("thread_test", "wetness", "water_by_mass", "water_by_volume")  # of the rig file's ground, the surest first
PARTICLES, WATER = 2.65, 1.0  # g/cm3: grains as Saxton and Rawls (2006) take them; water
SHALLOWER = 5.0  # cm, our choice: a sample from so much above the point says nothing of the point

Band = tuple[float, float, float]


class Wet(StrEnum):
    """What the ground is like for the tool, the worst first."""

    FROZEN = "frozen"
    WET = "wet"  # shanks smear and press it rather than break it
    NEAR = "near"  # within the doubt of the limit, or two readings that disagree
    HARD = "hard"  # dry and hard: it takes more than the rows of draft say
    READY = "ready"


@dataclass(frozen=True)
class WaterLimits:
    """Water contents of a soil, as shares of its dry mass. upper is (low, likely, high): the wettest that tills.

    measured: a plastic limit was typed, else upper is the regression with clay and organic matter. by_retention: the upper
    limit by the class's retention curve, a second opinion. plastic: a thread says something about this soil.
    """

    wilting: float
    drained: float
    dry: float
    optimum: float
    upper: Band
    by_retention: float
    density: float
    measured: bool
    plastic: bool

    @property
    def drains_to_it(self) -> bool:
        """True when a soaked soil comes under its limit by draining; else evaporation and crops have to dry it."""
        return self.drained <= self.upper[1]


@dataclass(frozen=True)
class Wetness:
    """The state of the ground, the water that it is known from (share of dry mass: low, likely, high), and its limits.

    known_from: entries of the rig file. apart: two of them disagree. shallow: depth in cm of a sample from above the work.
    """

    state: Wet
    water: Band | None
    limits: WaterLimits
    known_from: tuple[str, ...]
    apart: bool
    shallow: float | None


def at_best(state: Wet) -> Judgement:
    """Give the best judgement that goes with a state of the ground."""
    return {Wet.READY: Judgement.GO, Wet.NEAR: Judgement.TRY, Wet.HARD: Judgement.TRY}.get(state, Judgement.DONT)


def number_of(name: str) -> float:
    """Give a value of the table tillage_water, a share where the table says percent."""
    row = table("tillage_water")[name]
    return float(row["value"]) / (100 if row["unit"] == "percent" else 1)


def water_limits(rig: Rig) -> WaterLimits:
    """Work out the limits of a rig's ground: from what is typed, else from the middle of its texture class."""
    ground, texture = rig.ground, texture_of(rig)
    middle = table("texture_middles")[texture]
    return limits_of(
        texture,
        ground.sand.to("1") if ground.sand is not None else middle["sand"] / 100,
        ground.clay.to("1") if ground.clay is not None else middle["clay"] / 100,
        100 * ground.organic_matter.to("1") if ground.organic_matter is not None else middle["organic_matter"],
        density=None if ground.bulk_density is None else ground.bulk_density.to("g/cm**3"),
        plastic_limit=None if ground.plastic_limit is None else ground.plastic_limit.to("1"),
    )


def limits_of(
    texture: str, sand: Any, clay: Any, organic: Any, *, density: Any = None, plastic_limit: float | None = None
) -> WaterLimits:  # fmt: skip
    """Work out the limits of soils of one texture class: numbers, or arrays of them, where arrays go in.

    sand, clay: shares. organic: matter in percent. density: dry, g/cm3, by the equation where None. plastic_limit: measured, a
    share of dry mass.
    """
    shares, curve = (sand, clay, organic), table("retention_by_texture")[texture]
    wilting, drained = (eq.bare(*shares) for eq in (book.wilting_point, book.drained_water))
    if density is None:
        density = book.bulk_density.bare(book.saturation.bare(*shares, drained), PARTICLES)
    if plastic_limit is not None:
        likely, off = plastic_limit, number_of("water_scatter")
    else:
        likely, off = book.upper_tillage_limit.bare(organic, 100 * clay) / 100, number_of("limit_scatter")
    optimum = book.optimum_from_plastic_limit.bare(number_of("optimum_share"), likely)
    best = book.optimum_from_retention.bare(curve["residual_water"], curve["saturation"], curve["exponent"])
    by_curve = book.upper_from_retention.bare(best, curve["saturation"], number_of("wet_share"))
    in_mass = book.water_by_mass.bare
    # The regression begins at 7.5 %, more than sand ever holds: what feels dry bounds what is called dry.
    dry_by_feel = book.water_between.bare(wilting, drained, table("wetness_classes")["dry"]["high"])
    return WaterLimits(
        wilting=in_mass(wilting, density, WATER),
        drained=in_mass(drained, density, WATER),
        dry=_least(optimum * _drier(), in_mass(dry_by_feel, density, WATER)),
        optimum=optimum,
        upper=(likely - off, likely, likely + off),
        by_retention=float(in_mass(by_curve, (1 - curve["saturation"]) * PARTICLES, WATER)),
        density=density,
        measured=plastic_limit is not None,
        plastic=clay >= number_of("thread_unsure_clay"),
    )


def _least(one: Any, other: Any) -> Any:
    return min(one, other) if np.ndim(one) == 0 else np.minimum(one, other)


def _drier() -> float:
    """Give the share of the best water at which resistance is as many times as high as the table allows."""
    return float(number_of("dry_strength") ** (-1 / table("penetration_fit")["one farm"]["water_power"]))


def wetness(rig: Rig) -> Wetness | None:
    """Say how wet a rig's ground is at its working depth; None where the rig file says nothing about it."""
    ground = rig.ground
    known = tuple(name for name in ENTRIES if getattr(ground, name) is not None)
    if not known:
        return None
    limits = water_limits(rig)
    water = _water(rig, limits)
    by_water = None if water is None else state_by_water(water, limits, ground.wetness)
    state, apart = _state(ground.thread_test if limits.plastic or ground.thread_test == "rolls" else None, by_water)
    if ground.wetness == "frozen":
        state = Wet.FROZEN
    at = None if ground.sampled_at is None else ground.sampled_at.to("cm")
    shallow = at if at is not None and at < rig.work.depth.to("cm") - SHALLOWER else None
    if shallow is not None and state in (Wet.READY, Wet.HARD):
        state = Wet.NEAR
    return Wetness(state, water, limits, known, apart, shallow)


def _water(rig: Rig, limits: WaterLimits) -> Band | None:
    """Give water over dry mass, by the surest reading that has one."""
    ground = rig.ground
    if ground.water_by_mass is not None:
        likely, off = ground.water_by_mass.to("1"), number_of("water_scatter")
        return max(likely - off, 0.0), likely, likely + off
    if ground.water_by_volume is not None:
        likely, off = ground.water_by_volume.to("1"), number_of("probe_scatter")
        low, middle, high = (max(value, 0.0) / limits.density for value in (likely - off, likely, likely + off))
        return low, middle, high
    if ground.wetness is None or ground.wetness == "frozen":
        return None
    row = table("wetness_classes")[ground.wetness]
    low, high = (float(book.water_between.bare(limits.wilting, limits.drained, row[end])) for end in ("low", "high"))
    return low, (low + high) / 2, high


def state_by_water(water: Band, limits: WaterLimits, feel: str | None) -> Wet:
    """Judge by water: over the limit by more than both doubts together, under it likewise, or near."""
    low, likely, high = water
    if feel == "wet" and limits.plastic:
        return Wet.WET  # over field capacity: no soil with clay in it breaks then
    off = math.hypot((high - low) / 2, (limits.upper[2] - limits.upper[0]) / 2)
    if likely > limits.upper[1] + off:
        return Wet.WET
    if likely > limits.upper[1] - off:
        return Wet.NEAR
    return Wet.HARD if feel == "dry" or likely < limits.dry else Wet.READY


def _state(thread: str | None, by_water: Wet | None) -> tuple[Wet, bool]:
    """Put thread and water together: the thread decides, unless the water says the opposite beyond its doubt."""
    if thread == "rolls":
        apart = by_water in (Wet.READY, Wet.HARD)
        return (Wet.NEAR if apart else Wet.WET), apart
    if thread == "crumbles":
        if by_water is Wet.WET:
            return Wet.NEAR, True
        return (Wet.HARD if by_water is Wet.HARD else Wet.READY), False
    return by_water or Wet.NEAR, False
