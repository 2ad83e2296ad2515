"""The answer, as facts: the verdict, the point, margins, reverse answers, how sure, season, notes and cautions by key."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from os import PathLike
from typing import Any

import numpy as np

from rigcalc.core.equation import Equation
from rigcalc.core.working import Working, working
from rigcalc.models.machine.case import case_of
from rigcalc.models.machine.cautions import depth_cautions
from rigcalc.models.machine.limits import LIMITS, Caps, RangeUse, limit_values, range_use, state_of, worst
from rigcalc.models.machine.operating_point import OperatingPoint, Record, hold_to_range, solve
from rigcalc.models.machine.sure import Sure, chance_over, how_sure
from rigcalc.models.machine.wetness import Wetness, wetness
from rigcalc.models.rig.asked import asked
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.file import replaced
from rigcalc.models.rig.rig import Rig
from rigcalc.models.size.first import Doubt, Outcome, measure_first
from rigcalc.models.size.notes import Note, notes
from rigcalc.models.size.reverse import Furthest, reverse_answers
from rigcalc.models.size.season import Season, season
from rigcalc.models.size.second_opinion import SecondOpinion, second_opinion
from rigcalc.models.size.verdict import GO_FROM, Verdict, judged

_SHALLOWEST, _DEPTHS = 5.0, 91  # cm; steps of a fifth of an inch or so on a usual depth


@dataclass(frozen=True)
class Margin:
    """One limit at this point. value and limit are bare, in `unit`; used is the share, None where nothing is known."""

    name: str
    value: float
    limit: float | None
    unit: str
    used: float | None
    hard: bool

    @property
    def state(self) -> str:
        """ "ok", "tight" (90 percent and up), "over", or "unknown"."""
        return state_of(self.used)


@dataclass(frozen=True)
class Answer:
    """Everything that rigcalc finds about one rig at one depth and speed. All bare numbers carry their unit beside them.

    best_slip is (low, best, high): the slip of best tractive efficiency and the band within 1 percent of it, as decimals;
    NaN where the running gear can't even roll itself along.
    range_use is the equation's input nearest to the end of its range; equations are those used, in order. cautions are keys
    of the table of cautions. wetness is None where the rig file says nothing about it. before: where readings from the field
    stand behind this answer, the one without them.
    `rigcalc.in_words(answer)` says all of it.
    """

    rig: Rig
    point: OperatingPoint
    verdict: Verdict
    margins: tuple[Margin, ...]
    binding: Margin
    reverse: tuple[Furthest, ...]
    sure: Sure
    best_slip: tuple[float, float, float]
    second_opinion: SecondOpinion | None
    season: Season | None
    wetness: Wetness | None
    notes: tuple[Note, ...]
    cautions: tuple[str, ...]
    range_use: RangeUse | None
    equations: tuple[Equation, ...] = field(repr=False)
    bare_rig: BareRig = field(repr=False)
    caps: Caps = field(repr=False)
    before: Answer | None = field(default=None, repr=False)

    @property
    def pulls(self) -> bool:
        """True when grip and engine are enough in the likely case."""
        return self.verdict.pulls

    @property
    def works(self) -> bool:
        """True when every hard limit holds and slip stays in its band in the likely case; `verdict` counts doubt too."""
        return self.verdict.works

    @cached_property
    def sure_depth(self) -> float | None:
        """The greatest depth, cm, no deeper than this one, with chance enough for "go"; None where no depth has it."""
        depths = np.linspace(_SHALLOWEST, float(self.point.bare.depth), _DEPTHS)
        _, chances = chance_over(self.bare_rig, self.caps, depths, seed=self.sure.seed)
        enough = np.flatnonzero(chances >= GO_FROM)
        return float(depths[enough[-1]]) if enough.size else None

    @cached_property
    def measure_first(self) -> tuple[Doubt, ...]:
        """Every entry of the rig with a usual scatter and how far the answer moves with it, the one that moves most first."""
        p, v = self.point.bare, self.verdict
        slip, engine = (float(value) if math.isfinite(value) else None for value in (p.slip, p.engine_share))
        here = Outcome("", v.judgement, v.state, self.sure.chance_works, slip, engine)
        return measure_first(self.rig, here, self.caps.slip_high, self.sure.seed)

    @property
    def nearest(self) -> Margin:
        """The limit to look at first: `binding`, or critical depth where that is fuller and all that is hard holds."""
        depth, used = self.margin("critical_depth"), self.binding.used
        if depth is None or depth.used is None or used is None or not self.works:
            return self.binding
        return depth if depth.used > used else self.binding

    def margin(self, name: str) -> Margin | None:
        """Give a margin by the name of its limit; None where this rig has none of that name."""
        return next((margin for margin in self.margins if margin.name == name), None)

    def furthest(self, question: str) -> Furthest:
        """Give the answer to a reverse question by its name."""
        return next(found for found in self.reverse if found.question == question)

    @cached_property
    def working(self) -> tuple[Working, ...]:
        """Every equation used, in order, with its numbers and source."""
        record: Record = []
        solve(self.bare_rig, record=record)
        steps = {}
        for eq, values in record:
            step = working(eq, dict(zip((s.name for s in eq.takes), values, strict=True)))
            steps[step.equation, step.inputs] = step
        return tuple(steps.values())


def size(rig: Rig | str | PathLike[str], *, seed: int = 0, strict: bool = False) -> Answer:
    """Answer the main question for a rig: will it pull, what gives out first, and how sure is that.

    Parameters
    ----------
    rig : Rig, str or pathlib.Path
        The rig, the path of its file, or the name of a demo rig. Depth, speed and tools are its own.
    seed : int, optional
        Seed of the draws behind "how sure", from 0 up; the same seed gives the same answer.
    strict : bool, optional
        True refuses a rig that leaves the range of an equation's source; else the answer notes it.

    Returns
    -------
    Answer
        Facts in bare numbers, each with its unit beside it; `point` holds quantities. `rigcalc.in_words(answer)` says them in
        either system of units.

    Raises
    ------
    InputError
        For a rig that can't be read and options that aren't known: all at once.

    Examples
    --------
    >>> answer = size("front_wheel_assist")
    >>> answer.works, answer.binding.name
    (True, 'tool_depth')
    """
    rig = asked(rig, seed=seed, strict=strict)
    answer = _answer(rig, seed, strict)
    if answer.bare_rig.told is None:
        return answer
    return replace(answer, before=_without(replaced(rig, {"reading": None, "asked": None}), seed, strict))


@lru_cache(maxsize=8)
def _without(rig: Rig, seed: int, strict: bool) -> Answer:
    """Give the answer without readings; held, for it stays the same while readings are added."""
    return _answer(rig, seed, strict)


def _answer(rig: Rig, seed: int, strict: bool) -> Answer:
    case = case_of(rig)
    b, c, p, record, used = case.bare, case.caps, case.point, case.record, case.used
    if strict:
        hold_to_range(record)
    use = range_use(record)
    margins = (*_margins(limit_values(b, p, c), used), *_range_margin(use))
    _, binding = worst(used)
    second = second_opinion(rig, b, p, c)
    sure = how_sure(b, c, seed=seed)
    return Answer(
        rig=rig,
        point=OperatingPoint(p),
        verdict=judged(case, sure.chance_works),
        margins=margins,
        binding=next(margin for margin in margins if margin.name == str(binding)),
        reverse=tuple(reverse_answers(b, c, p)),
        sure=sure,
        best_slip=case.best_slip,
        second_opinion=second,
        season=season(rig, p),
        wetness=wetness(rig),
        notes=notes(rig, b, p, c, second, record),
        cautions=depth_cautions(float(p.depth)),
        range_use=use,
        equations=tuple(dict.fromkeys(eq for eq, _ in record)),
        bare_rig=b,
        caps=c,
    )


def _margins(values: dict[str, tuple[Any, Any, str]], used: dict[str, Any]) -> Iterator[Margin]:
    for name, (value, limit, unit) in values.items():
        share = used.get(name)
        share = None if share is None or math.isnan(share) else float(share)
        yield Margin(name, float(value), None if limit is None else float(limit), unit, share, LIMITS[name].hard)


def _range_margin(use: RangeUse | None) -> Iterator[Margin]:
    if use is not None:
        yield Margin("equation_range", use.value, use.end, use.unit, use.share, LIMITS["equation_range"].hard)
