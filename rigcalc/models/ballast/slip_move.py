"""What to move after a slip test, in whole pieces of what is at hand: never more than hangs, never over a limit.

The model's draft is set so that the tractor slips as measured; then the sets at hand are walked as for a plan, with the slip
that each would give.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.units import mass_of, weight_of
from rigcalc.models.ballast.at_hand import choices, sets_there_are
from rigcalc.models.ballast.limits import WeightLimit, Which, checks, weight_limits
from rigcalc.models.ballast.plan import MOST_SETS, Step, steps_of
from rigcalc.models.ballast.search import Problem, closest
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.rig import Rig

AT_HAND = Which("at_hand")


@dataclass(frozen=True)
class Move:
    """The set at hand that brings slip into its band with the least to handle, or as near to it as can be.

    steps: what changes (empty where nothing helps). change: kg in all. slip: the slip to expect then. reaches: True where that
    lies in the band. cut: what stops it from going further, where it doesn't reach: limits, or "at_hand" where no piece is
    left to move. front, rear: kg that the axles gain. sets: how many there were to choose from.
    """

    steps: tuple[Step, ...]
    change: float
    front: float
    rear: float
    slip: float
    reaches: bool
    cut: tuple[Which, ...]
    sets: int

    @property
    def changes(self) -> tuple[Step, ...]:
        """The steps, all of which change something."""
        return self.steps


def move_for_slip(rig: Rig, b: BareRig, draft_factor: float, band: tuple[float, float]) -> Move | None:
    """Choose the set. draft_factor: the draft that slips as measured. None where more than `MOST_SETS` would be walked."""
    kinds = choices(rig)
    if sets_there_are(kinds) > MOST_SETS:
        return None
    limits = tuple(limit for limit in weight_limits(rig, b, draft_factor) if limit.hard)
    front, rear = (mass_of(weight) for weight in (b.front_weight, b.rear_weight))

    def slip(fronts: Any, rears: Any) -> Any:
        there = b.at(front_weight=weight_of(fronts), rear_weight=weight_of(rears))
        return np.nan_to_num(solve(there, draft_factor=draft_factor).slip, nan=1.0)

    def missed(fronts: Any, rears: Any) -> Any:
        found = slip(fronts, rears)
        return np.maximum(np.maximum(band[0] - found, found - band[1]), 0.0)

    def nearest_set(rows: tuple[tuple[float, float, float], ...]) -> tuple[int, ...]:
        problem = Problem(
            fronts=tuple(kind.front for kind in kinds),
            rears=tuple(kind.rear for kind in kinds),
            handled=tuple(kind.handled for kind in kinds),
            front=front,
            rear=rear,
            rows=rows,
        )
        found = closest(problem, missed)
        # The set that is on now passes, for a limit that is passed already only must not be passed further.
        return found.options if found is not None else tuple(kind.now for kind in kinds)

    def gains(steps: tuple[Step, ...]) -> tuple[float, float]:
        return sum(step.front for step in steps), sum(step.rear for step in steps)

    steps = steps_of(kinds, nearest_set(tuple(_row(limit, front, rear) for limit in limits)))
    to_front, to_rear = gains(steps)
    reached = float(slip(front + to_front, rear + to_rear))
    reaches = band[0] - 1e-9 <= reached <= band[1] + 1e-9
    cut: tuple[Which, ...] = ()
    if not reaches:
        more_front, more_rear = gains(steps_of(kinds, nearest_set(())))
        free = front + more_front, rear + more_rear
        cut = tuple(check.which for check in checks(limits, *free) if not check.holds)
        if not band[0] <= float(slip(*free)) <= band[1]:
            cut = (*cut, AT_HAND)
    return Move(tuple(step for step in steps if step.change), to_front + to_rear, to_front, to_rear, reached, reaches, cut,
                sets_there_are(kinds))  # fmt: skip


def _row(limit: WeightLimit, front: float, rear: float) -> tuple[float, float, float]:
    """Give a limit's row; one that is passed already is put where the tractor stands, so that it can't get worse."""
    a, b, c = limit.row
    return a, b, c - max(0.0, a * front + b * rear + c)


def room(rig: Rig, b: BareRig, draft_factor: float, front: float, rear: float) -> tuple[float, Which | None]:
    """Give how much of a change of (front, rear) kg the hard limits allow, as a share from 0 to 1, and which ends it."""
    now = [mass_of(weight) for weight in (b.front_weight, b.rear_weight)]
    share, binds = 1.0, None
    for limit in weight_limits(rig, b, draft_factor):
        a, r, c = _row(limit, *now)
        grows = a * front + r * rear
        if limit.hard and grows > 0 and -(a * now[0] + r * now[1] + c) / grows < share:
            share, binds = max(0.0, -(a * now[0] + r * now[1] + c) / grows), limit.which
    return share, binds
