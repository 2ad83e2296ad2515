"""The judgement, from facts alone: one place decides it, and `words/size/sentence.py` is the one place that says it.

docs/decisions/0009-three-verdicts.md says where the thresholds come from.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from rigcalc.core.tables import table
from rigcalc.models.machine.case import Case
from rigcalc.models.machine.judgement import GO_FROM as GO_FROM
from rigcalc.models.machine.judgement import Judgement as Judgement
from rigcalc.models.machine.judgement import worst_of
from rigcalc.models.machine.limits import LIMITS, WORKING, works
from rigcalc.models.machine.operating_point import Point
from rigcalc.models.machine.wetness import Wet, at_best, wetness
from rigcalc.models.rig.bare import BareRig

DONT_BELOW = 0.25  # our choice: under this chance it isn't worth the try
STEEPEST = 15.0  # deg, our choice: past this up or down, sums of straight pull on firm footing are no ground for a "go"
SOFTEST: float = min(row["cone_index"] for row in table("traction_soil_classes"))  # kPa: no softer ground has a row


class State(StrEnum):
    """Why, the worst first. The first five are hard: no judgement but "don't" goes with them."""

    TIPS = "tips"  # the front comes off the ground: tipping over backward
    NO_GRIP = "no_grip"  # grip gives no pull at all
    LITTLE_GRIP = "little_grip"
    LITTLE_ENGINE = "little_engine"
    OVER_A_LIMIT = "over_a_limit"  # it pulls, but a hard limit is passed
    MUCH_SLIP = "much_slip"  # it pulls, every hard limit holds, slip or another matter of good work leaves its band
    TOO_DEEP = "too_deep"  # it pulls, but below the critical depth of the point it loosens no deeper
    PUSHED = "pushed"  # slope and tool push harder than the tractor rolls: engine and brakes hold it back all the way
    SOFTER_THAN_KNOWN = "softer_than_known"  # it pulls, on ground that is softer than any row of the tables
    STEEP = "steep"  # it pulls, on a slope steeper than such sums are good for
    LIGHT_FRONT = "light_front"  # it pulls, but the front axle keeps less than a tractor needs to steer
    UNSURE = "unsure"  # likely all is well, but in too few fields
    WORKS = "works"


HARD = (State.TIPS, State.NO_GRIP, State.LITTLE_GRIP, State.LITTLE_ENGINE, State.OVER_A_LIMIT)


@dataclass(frozen=True)
class Verdict:
    """The judgement, why, and the limits passed apart from grip and engine.

    passed: names of limits; the hard ones for OVER_A_LIMIT, those of good work for MUCH_SLIP. soil: how wet the ground is,
    None where the rig file doesn't say; alone: the judgement by pull and limits, before the ground was looked at.
    """

    judgement: Judgement
    state: State
    passed: tuple[str, ...] = ()
    soil: Wet | None = None
    alone: Judgement | None = None

    @property
    def by_soil(self) -> bool:
        """True when it is the ground that keeps this from a better judgement."""
        return self.soil in (Wet.FROZEN, Wet.WET) or self.judgement is not (self.alone or self.judgement)

    @property
    def pulls(self) -> bool:
        """True when grip and engine are enough in the likely case, and the tractor stays on its wheels."""
        return self.state not in HARD or self.state is State.OVER_A_LIMIT

    @property
    def works(self) -> bool:
        """True when every hard limit holds and the work goes well in the likely case."""
        return self.pulls and self.state not in (State.OVER_A_LIMIT, State.MUCH_SLIP)


def beyond(b: BareRig) -> State | None:
    """Say whether a rig stands on ground that the sums are no ground for a "go" on: too soft, or too steep; None if not."""
    if b.cone_index < SOFTEST:
        return State.SOFTER_THAN_KNOWN
    return State.STEEP if abs(b.grade) > STEEPEST else None


def verdict(p: Point, used: dict[str, Any], chance: float, there: State | None = None) -> Verdict:
    """Judge a point by the shares used of its limits, and by the chance (0 to 1) that all of them are kept.

    there: what `beyond` says of the ground.
    """
    state, passed = _state(p, used)
    if state is State.WORKS and there:
        state = there
    if state is State.WORKS and chance < GO_FROM:
        state = State.UNSURE
    if state in HARD or chance < DONT_BELOW:
        return Verdict(Judgement.DONT, state, passed)
    return Verdict(Judgement.GO if state is State.WORKS else Judgement.TRY, state, passed)


def with_soil(found: Verdict, soil: Wet | None) -> Verdict:
    """Add how wet the ground is: wet or frozen beats any pull, near the limit or hard asks for a try."""
    if soil is None:
        return found
    return replace(found, judgement=worst_of(found.judgement, at_best(soil)), soil=soil, alone=found.judgement)


def judged(case: Case, chance: float) -> Verdict:
    """Judge a case as every answer does: its limits, the ground that it stands on, and how wet that is at working depth.

    chance: that every limit is kept, 0 to 1.
    """
    wet = wetness(case.rig)
    return with_soil(verdict(case.point, case.used, chance, beyond(case.bare)), None if wet is None else wet.state)


def _state(p: Point, used: dict[str, Any]) -> tuple[State, tuple[str, ...]]:
    if used.get("tipping", 0.0) >= 1:
        return State.TIPS, ("tipping",)
    if not math.isfinite(float(p.slip)):
        return (State.NO_GRIP if p.peak_pull <= 0 else State.LITTLE_GRIP), ()
    if not used["engine"] <= 1:
        return State.LITTLE_ENGINE, ()
    hard = tuple(name for name, share in used.items() if LIMITS[name].hard and not share <= 1)
    if hard:
        return State.OVER_A_LIMIT, hard
    if not works(used):
        return State.MUCH_SLIP, tuple(name for name, share in used.items() if name in WORKING and not share <= 1)
    # What passes no hard limit and counts in no draw, yet nobody would sign as a plain "go".
    if p.braking > 0:
        return State.PUSHED, ()
    if used.get("critical_depth", 0.0) > 1:
        return State.TOO_DEEP, ()
    return (State.LIGHT_FRONT if used.get("steering", 0.0) > 1 else State.WORKS), ()
