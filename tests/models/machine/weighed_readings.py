"""Readings of a known rig, weighed, and the means and deviations that they leave: for tests of the posterior."""

from __future__ import annotations

import os

import numpy as np

from rigcalc.models.machine.draws import number
from rigcalc.models.machine.posterior import Posterior, posterior
from rigcalc.models.machine.scores import draws_of
from rigcalc.models.machine.seen import Seen
from rigcalc.models.rig.bare import BareRig, bare
from rigcalc.models.rig.file import demo_rig

# Fifty cases and two thousand fields take minutes: all of them with RIGCALC_LONG=1, a share of them without.
LONG = bool(os.environ.get("RIGCALC_LONG"))
RIG = bare(demo_rig("articulated"))
PLAIN = RIG.at(deep_from=None, soil_factor_other=None, covered_width=None)  # draft by its row alone
RANGES = (RIG.draft_range, number("cone_range"))
Numbers = dict[str, tuple[float, float]]


def seen(numbers: Numbers, b: BareRig = RIG, place: int = 0, day: str = "a", depth: float = 33.0, spread: float = 0.08) -> Seen:
    return Seen(place, day, b.at(depth=depth, speed=8.0), spread, numbers, "available")


def weighed(*readings: Seen, ranges: tuple[float, float] = RANGES, count: int = 16384, day: str | None = None) -> Posterior:
    found = posterior(readings, ranges, extra_day=day, count=count)
    assert found is not None
    return found


def moments(found: Posterior, day: str = "a") -> dict[str, float]:
    """Mean and standard deviation of draft's row and of the cone index factor."""
    drawn = draws_of(found.scores, found.day(day), *found.ranges)
    out = {}
    for name in ("row", "cone"):
        values = getattr(drawn, name)
        mean = float(found.weights @ values)
        out |= {name: mean, f"{name} off": float(np.sqrt(found.weights @ (values - mean) ** 2))}
    return out
