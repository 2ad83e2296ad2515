"""Headland and cart lanes: how much harder they pull than the open field, and how deep or fast the job goes there.

A zone's factor is the published effect of wheel tracks with a wide band, narrowed by readings of that zone where there are any.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from statistics import NormalDist
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError
from rigcalc.core.tables import table
from rigcalc.models.machine.draws import DRAWS, Draws, draws_for
from rigcalc.models.machine.field import Told, field_of, in_field, picked, ranges_of, told_of
from rigcalc.models.machine.judgement import GO_FROM
from rigcalc.models.machine.limits import NEEDS, Caps, caps, shares, works
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.posterior import Posterior, posterior
from rigcalc.models.machine.scores import draws_of, even_scores
from rigcalc.models.machine.seen import Seen, fits
from rigcalc.models.machine.sure import HIGH, chance_over, how_sure
from rigcalc.models.reading.foretold import Span, span
from rigcalc.models.rig.bare import BareRig, bare
from rigcalc.models.rig.field_reading import ZONES
from rigcalc.models.rig.rig import Rig

_SHALLOWEST, _DEPTHS = 5.0, 46  # cm, as size looks for the depth that is sure enough
_SLOWEST, _SPEEDS = 0.5, 14  # of the job's speed
_TO_COME = "to come"


@dataclass(frozen=True)
class Zone:
    """One zone of the field that the job is in.

    factor: draft over the open field's, 8 in 10. readings: how many of this zone stand behind it; 0: the published effect.
    chance, open_field: that every limit of the job holds, there and on the open field. depth in cm and speed in km/h: the
    deepest at the job's speed and the fastest at its depth with chance enough for "go", none of them beyond the job's; None
    where there is none.
    """

    name: str
    factor: Span
    readings: int
    chance: float
    open_field: float
    depth: float | None
    speed: float | None

    @property
    def holds(self) -> bool:
        """True where the job as it is has chance enough there."""
        return self.chance >= GO_FROM


@dataclass(frozen=True, eq=False)
class _ToldThere(Told):
    """What readings told of a zone: the field's combinations, each with a factor on its draft."""

    factor: Any = 1.0

    @cached_property
    def combinations(self) -> Draws:
        """The draws of the day asked about, in the zone."""
        drawn = draws_of(self.weighed.scores, self.weighed.day(self.day), *self.weighed.ranges)
        return replace(drawn, row=drawn.row * self.factor)


@lru_cache(maxsize=32)
def zones(rig: Rig) -> tuple[Zone, ...]:
    """Say how the job of a rig goes on the headland and on cart lanes. Raises InputError for readings that can't be.

    Zones of which nothing was read go alike, and are worked out once.
    """
    b, told = in_field(rig), told_of(rig)
    c = caps(rig, b)
    open_field = how_sure(b, c).chance_works
    if told is None:  # the table's field
        weighed = posterior((), ranges_of(bare(rig)), extra_day=_TO_COME)
        assert weighed is not None  # nothing was read that could not be
        told = Told(field_of(rig), _TO_COME, (Seen(-1, _TO_COME, b, 0.0, {}, "available"),), {}, weighed)
    found: dict[object, Zone] = {}
    for name in ZONES:
        seen, _ = picked(rig, told.field, name)
        key = name if seen else ""
        if key not in found:
            found[key] = _zone(b, c, told, seen, name, open_field)
        found[name] = replace(found[key], name=name)
    return tuple(found[name] for name in ZONES)


def _zone(b: BareRig, c: Caps, told: Told, seen: list[Seen], name: str, open_field: float) -> Zone:
    weighed, factor = _weighed(told.weighed, seen, name)
    there = b.at(told=_ToldThere(told.field, told.day, told.seen, told.left_out, weighed, factor))
    chance = how_sure(there, c).chance_works
    depths = np.linspace(_SHALLOWEST, float(b.depth), _DEPTHS)
    speeds = float(b.speed) * np.linspace(_SLOWEST, 1.0, _SPEEDS)
    by_speed = _chances(there.at(speed=speeds[:, None]), c)
    by_depth = chance_over(there, c, depths)[1]
    return Zone(name, span(factor, weighed.weights), len(seen), chance, open_field,
                _last(depths, by_depth), _last(speeds, by_speed))  # fmt: skip


def _chances(grid: BareRig, c: Caps) -> Any:
    """Give the chance that every limit holds in each row of a rig with columns, as `how_sure` has it."""
    return works(shares(grid, solve(grid, drawn=draws_for(grid, 0, DRAWS), want=NEEDS), c)).mean(axis=1)


def _last(values: Any, chances: Any) -> float | None:
    """Give the greatest of the values with chance enough."""
    enough = np.flatnonzero(chances >= GO_FROM)
    return float(values[enough[-1]]) if enough.size else None


def _weighed(weighed: Posterior, seen: list[Seen], name: str) -> tuple[Posterior, Any]:
    """Weigh the readings of a zone on top of the field's: (every combination with its new weight, its factor)."""
    for each in seen:
        weighed = weighed.with_day(each.day)
    columns = weighed.layout.count
    own = even_scores(len(weighed.scores), columns + 1 + len(seen), columns)  # the factor, and a stretch for each reading
    row = table("reading_doubt")["zone_tracks"]
    off = np.log(row["high"] / row["low"]) / 2 / NormalDist().inv_cdf(HIGH)
    factor = np.exp(np.log(row["low"] * row["high"]) / 2 + off * own[:, 0])
    if not seen:
        return weighed, factor
    height = np.zeros(len(factor))
    for place, each in enumerate(seen, 1):
        drawn = draws_of(weighed.scores, weighed.day(each.day), *weighed.ranges)
        height += fits(each, weighed.scores, drawn, factor * np.exp(each.spread * own[:, place]))[1]
    if not np.isfinite(height.max()):
        places = ", ".join(str(each.place + 1) for each in seen)
        raise InputError([Fault(f"readings of the {name} ({places})", "numbers that this field can't give even there",
                                "readings of this field and rig", 'set_aside = "why" in the one that is wrong')])  # fmt: skip
    weights = weighed.weights * np.exp(height - height.max())
    return replace(weighed, weights=weights / weights.sum()), factor
