"""The judgement, from facts alone: one place decides it, and `words/size/sentence.py` is the one place that says it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from rigcalc.models.machine.limits import LIMITS, Caps, works
from rigcalc.models.machine.operating_point import Point
from rigcalc.models.size.second_opinion import SecondOpinion


class State(StrEnum):
    """What becomes of the job, the worst first. In the first three it isn't pulled."""

    NO_GRIP = "no_grip"  # grip gives no pull at all
    LITTLE_GRIP = "little_grip"
    LITTLE_ENGINE = "little_engine"
    OVER_A_LIMIT = "over_a_limit"  # it pulls, but a hard limit is passed
    MUCH_SLIP = "much_slip"  # it pulls, every hard limit holds, slip leaves its band
    WORKS = "works"


@dataclass(frozen=True)
class Verdict:
    """The judgement: its state, the hard limits passed apart from grip and engine, and whether a second opinion doubts it.

    doubted: at a depth that counts as extreme, the other row of the draft table says that it can't be pulled.
    """

    state: State
    passed: tuple[str, ...] = ()
    doubted: bool = False

    @property
    def pulls(self) -> bool:
        """True when grip and engine are enough."""
        return self.state in (State.OVER_A_LIMIT, State.MUCH_SLIP, State.WORKS)

    @property
    def works(self) -> bool:
        """True when every hard limit holds and slip stays in its band."""
        return self.state is State.WORKS


def verdict(p: Point, used: dict[str, Any], c: Caps, second: SecondOpinion | None) -> Verdict:
    """Judge a point by the shares used of its limits."""
    if not math.isfinite(float(p.slip)):
        return Verdict(State.NO_GRIP if p.peak_pull <= 0 else State.LITTLE_GRIP)
    if used["engine"] > 1:
        return Verdict(State.LITTLE_ENGINE)
    passed = tuple(name for name, share in used.items() if LIMITS[name].hard and share > 1)
    if passed:
        return Verdict(State.OVER_A_LIMIT, passed)
    deep = c.extreme_depth is not None and bool(p.depth >= c.extreme_depth)
    doubted = deep and second is not None and not second.goes
    return Verdict(State.WORKS if works(used) else State.MUCH_SLIP, (), doubted)
