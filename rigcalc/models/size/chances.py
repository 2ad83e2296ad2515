"""From scatter to chance: how heavy a draft can be pulled, how likely a lighter one is, and how many combinations of every
doubt grip, engine and the limits hold in."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from rigcalc.models.machine.draws import DRAWS, Draws, draws_for, likely
from rigcalc.models.machine.limits import NEEDS, Caps, shares, works
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.ranges import DEVIATIONS, level_of
from rigcalc.models.rig.bare import BareRig

MOST_TRIED = 3.0  # times the likely draft; a normal distribution of the widest row ends at double
_PARTS = 1200


@dataclass(frozen=True)
class DraftAlone:
    """What the scatter of the tool's draft does alone, all else as likely. Drafts in kN.

    likely: draft at a factor of 1. deviation: one standard deviation. most: the heaviest draft that is pulled, None where
    even three times the likely one is. gives_out: "engine" or "grip", what ends there; "" where nothing does. chance: share
    of fields with a lighter draft.
    """

    likely: float
    deviation: float
    most: float | None
    gives_out: str
    chance: float


@dataclass(frozen=True)
class Chances:
    """Where a chance comes from: of `tried` combinations of every doubt, in how many there is enough grip, enough of both
    grip and engine, and every limit held with slip in its band. alone: None where a field's readings took the range's place,
    and for a row without one."""

    tried: int
    grip: int
    pulls: int
    works: int
    alone: DraftAlone | None


def chances(b: BareRig, c: Caps, seed: int = 0) -> Chances:
    """Count what `how_sure` takes its shares from, and look at draft alone. The same seed gives the same counts."""
    drawn = draws_for(b, seed)
    grip, pulls, used = _holding(b, c, drawn)
    enough, both, all_hold = (int(np.broadcast_to(held, drawn.row.shape).sum()) for held in (grip, pulls, works(used)))
    return Chances(DRAWS, enough, both, all_hold, _alone(b, c) if b.told is None and b.draft_range > 0 else None)


def _holding(b: BareRig, c: Caps, drawn: Draws) -> tuple[Any, Any, dict[str, Any]]:
    point = solve(b, drawn=drawn, want=NEEDS)
    used = shares(b, point, c)
    grip = np.isfinite(point.slip)
    return grip, grip & (used["engine"] <= 1.0), used


def _alone(b: BareRig, c: Caps) -> DraftAlone:
    low, high, gives_out = 0.0, MOST_TRIED, ""
    for _ in range(2):  # the second time between the last that is pulled and the first that isn't
        factors = np.linspace(low, high, _PARTS + 1)
        grip, pulls, _ = _holding(b, c, replace(likely(), row=factors))
        pulls = np.broadcast_to(pulls, factors.shape)
        if pulls.all():
            break
        first = int(np.argmin(pulls))
        gives_out = "engine" if np.broadcast_to(grip, factors.shape)[first] else "grip"
        low, high = float(factors[max(first - 1, 0)]), float(factors[first])
    at = solve(b, drawn=replace(likely(), row=np.array([1.0, 1 + b.draft_range / DEVIATIONS, low])), want=("draft",)).draft
    middle, one_more, most = (float(draft) for draft in at)
    if not gives_out:
        return DraftAlone(middle, one_more - middle, None, "", 1.0)
    return DraftAlone(middle, one_more - middle, most, gives_out, level_of(low, b.draft_range))
