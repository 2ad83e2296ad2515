"""A third voice on draft: the wedge of soil before each narrow tine, with the soil squeezed aside below its critical depth.

Low confidence: strength of the ground by texture and wetness is known as an order of magnitude, rake and often the width of the
point aren't known at all. docs/decisions/0025-a-third-voice.md says what it is for.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

from rigcalc.core.tables import table
from rigcalc.equations import wedge as book
from rigcalc.models.machine.draft_force import deep_most, draft_force
from rigcalc.models.machine.draws import draws_for
from rigcalc.models.machine.failure import failure_angle
from rigcalc.models.machine.ranges import factor_at
from rigcalc.models.machine.statics import plain
from rigcalc.models.machine.sure import HIGH, LOW
from rigcalc.models.machine.wetness import Wet, Wetness, water_limits
from rigcalc.models.rig.bare import BareRig, texture_of
from rigcalc.models.rig.rig import Rig

GRAVITY = 9.80665  # m/s2
_DRAWN, _CUTS = 500, 32  # combinations drawn; depths at which a tine's critical depth is looked for
_STATES = {Wet.HARD: "dry", Wet.FROZEN: "dry", Wet.WET: "wet"}
_PRIMES = (2, 3, 5, 7, 11, 13, 17)


@dataclass(frozen=True)
class Voice:
    """What one way says of the draft of all tools: likely, and the ends of its 8-in-10 band, kN. name: "table", "row",
    "deep_row" or "wedge"."""  # fmt: skip

    name: str
    likely: float
    low: float
    high: float
    drawn: Any = field(default=None, repr=False, compare=False)  # in rising order, where they are wanted to score it

    def meets(self, other: Voice) -> bool:
        """Say whether the bands of two voices overlap."""
        return self.low <= other.high and other.low <= self.high


@dataclass(frozen=True)
class Voices:
    """The voices on one draft: what the answer goes by, each row of the table that stands behind it, and the wedge.

    wedge is None where the tool is no narrow tine. width: of the point in cm, low and high as drawn. critical: the wedge's own
    critical depth in cm (low, middle, high of 8 in 10), infinite where it lies below the depth of work.
    """

    table: Voice
    rows: tuple[Voice, ...]
    wedge: Voice | None
    width: tuple[float, float] | None
    critical: tuple[float, float, float] | None

    @property
    def apart(self) -> bool:
        """True where the wedge and what the answer goes by part by more than both bands."""
        return self.wedge is not None and not self.wedge.meets(self.table)


def voices(rig: Rig, b: BareRig, wet: Wetness | None) -> Voices:
    """Ask the table, its rows and the wedge for the draft of a rig's own tool, without gangs beside it."""
    own = b.at(gangs=())
    drawn = np.sort(np.ravel(draft_force(own, plain, draws_for(own, 0))))
    said = Voice("table", float(draft_force(own, plain)), *_ends(drawn))
    rows = []
    for name, factor, each in (
        ("row", b.soil_factor, (b.draft_a, b.draft_b, b.draft_c)),
        ("deep_row", b.deep_factor, (b.deep_a, b.deep_b, b.deep_c)),
    ):
        if name == "row" or float(np.max(deep_most(b))) > 0:
            a, per_speed, per_square = (float(value) for value in each)
            force = float(factor) * (a + per_speed * b.speed + per_square * b.speed**2) * b.tools * b.depth / 1000
            rows.append(Voice(name, force, *(force * factor_at(level, b.draft_range) for level in (LOW, HIGH))))
    found = wedge(rig, wet)
    return Voices(said, tuple(rows), *(found or (None, None, None)))


def wedge(rig: Rig, wet: Wetness | None) -> tuple[Voice, tuple[float, float], tuple[float, float, float]] | None:
    """Give the wedge's voice, the width of the point (cm) and its own critical depth (cm); None for a tool that is no tine."""
    points = next((row for row in table("tine_points") if row["tool"] == rig.implement.tool), None)
    if points is None:
        return None
    state = "moist" if wet is None else _STATES.get(wet.state, "moist")
    soil = table("tine_soil")[table("soil_groups")[texture_of(rig)]["group"], state]
    typed = rig.implement.point_width
    width = (points["width_low"], points["width_high"]) if typed is None else (typed.to("cm"),) * 2
    density = water_limits(rig).density
    ends = [(soil[f"{name}_low"], soil[f"{name}_high"]) for name in ("cohesion", "friction", "metal", "adhesion")]
    spans = [*ends, width, (points["rake_low"], points["rake_high"]), (0.9 * density, 1.1 * density)]
    at = _even(_DRAWN)
    cohesion, friction, metal, adhesion, wide, rake, dense = (
        low + share * (high - low) for (low, high), share in zip(spans, at, strict=True)
    )
    depth, speed = rig.work.depth.to("m"), rig.work.speed.to("m/s")
    force, critical = tine_force(
        rake, friction, np.minimum(metal, friction), cohesion, adhesion, dense, wide / 100, depth, speed
    )
    drawn = np.sort(force * rig.implement.tools)
    lifted = np.sort(np.where(critical < depth, 100 * critical, np.inf))
    low, middle, high = (float(lifted[int(level * _DRAWN)]) for level in (LOW, 0.5, HIGH))
    return Voice("wedge", float(np.median(drawn)), *_ends(drawn), drawn), (width[0], width[1]), (low, middle, high)


def tine_force(
    rake: Any, friction: Any, metal: Any, cohesion: Any, adhesion: Any, density: Any, width: Any, depth: float, speed: float
) -> tuple[Any, Any]:
    """Give the draft (kN) and the critical depth (m) of tines: angles in deg, kPa, g/cm3, m and m/s, an array of tines each.

    The critical depth is where lifting the soil and squeezing it aside below together take least; it is the depth itself where
    lifting alone does.
    """
    tines = [np.asarray(each, float)[:, None] for each in (rake, friction, metal, cohesion, adhesion, density, width)]
    rake, friction, metal, cohesion, adhesion, density, width = tines
    cuts = depth * (np.arange(_CUTS) + 1) / _CUTS
    weight = density * GRAVITY
    angle = failure_angle(*np.broadcast_arrays(rake, friction, metal, cuts / width))
    reach = book.crescent_ratio.bare(rake, angle)
    by_weight, by_strength = (gain.bare(reach, cuts, width) for gain in (book.side_gain_of_weight, book.side_gain_of_strength))
    angles = (rake, friction, metal, angle)
    push = book.wedge_force.bare(
        weight, cuts, book.wedge_weight_factor.bare(*angles) * by_weight,
        cohesion, book.wedge_cohesion_factor.bare(*angles) * by_strength,
        adhesion, book.wedge_adhesion_factor.bare(*angles),
        density, speed, book.wedge_inertia_factor.bare(*angles) * by_strength, width,
    )  # fmt: skip
    lifted = book.tine_draft.bare(push, rake, metal, adhesion, cuts, width)
    deep = book.deep_weight_factor.bare(friction)
    aside = book.lateral_resistance.bare(
        width, cohesion, book.deep_cohesion_factor.bare(friction, deep), depth, cuts, friction, weight, deep
    )
    both = lifted + aside
    least = both.argmin(axis=1)
    return both[np.arange(len(both)), least], cuts[least]


def _ends(drawn: Any) -> tuple[float, float]:
    return float(drawn[int(LOW * drawn.size)]), float(drawn[int(HIGH * drawn.size)])


def _even(count: int) -> Any:
    """Give places in (0, 1) for each of seven unknowns that fill the space evenly, the same each time (Halton's sequence)."""
    out = np.zeros((len(_PRIMES), count))
    for row, prime in enumerate(_PRIMES):
        left, part = np.arange(1, count + 1), 1.0
        while left.any():
            part /= prime
            out[row] += part * (left % prime)
            left = left // prime
    return out
