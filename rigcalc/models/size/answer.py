"""The answer: one sentence, the point, margins, reverse answers, how sure, season, notes and cautions."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from rigcalc.core.working import Working, working
from rigcalc.models.machine.curves import best_slip
from rigcalc.models.machine.limits import LIMITS, Caps, caps, limit_values, range_use, shares, state_of, works, worst
from rigcalc.models.machine.operating_point import OperatingPoint, Record, solve
from rigcalc.models.machine.sure import Sure, how_sure
from rigcalc.models.rig.bare import BareRig, bare
from rigcalc.models.rig.rig import Rig
from rigcalc.models.size.notes import cautions, notes
from rigcalc.models.size.reverse import Furthest, reverse_answers
from rigcalc.models.size.season import Season, season
from rigcalc.models.size.second_opinion import SecondOpinion, second_opinion
from rigcalc.words.numbers import System
from rigcalc.words.size.sentence import doubt, margin_text, reverse_text, season_text, sentence


@dataclass(frozen=True)
class Margin:
    """One limit at this point. value and limit are bare, in `unit`; used is the share, None where nothing is known."""

    name: str
    title: str
    value: float
    limit: float | None
    unit: str
    used: float | None
    hard: bool
    source: str
    text: str

    @property
    def state(self) -> str:
        """ "ok", "tight" (90 percent and up), "over", or "unknown"."""
        return state_of(self.used)


@dataclass(frozen=True)
class Reverse:
    """The answer to a reverse question: bare value in `unit` (None where there is none), what binds, and words."""

    question: str
    value: float | None
    unit: str
    binds: str
    text: str


@dataclass(frozen=True)
class Answer:
    """Everything that rigcalc says about one rig at one depth and speed. All bare numbers carry their unit beside them.

    best_slip is (low, best, high): the slip of best tractive efficiency and the band within 1 percent of it, as decimals.
    """

    rig: Rig
    units: System
    point: OperatingPoint
    sentence: str
    works: bool
    margins: tuple[Margin, ...]
    binding: Margin
    reverse: tuple[Reverse, ...]
    sure: Sure
    best_slip: tuple[float, float, float]
    second_opinion: SecondOpinion | None
    season: Season | None
    season_text: str
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    bare_rig: BareRig = field(repr=False)
    caps: Caps = field(repr=False)

    @property
    def pulls(self) -> bool:
        """True when grip and engine are enough."""
        hard = {margin.name: margin for margin in self.margins}
        return bool(self.point.pulls) and (hard["engine"].used or 0) <= 1

    @cached_property
    def working(self) -> tuple[Working, ...]:
        """Every equation used, in order, with its numbers and source. Imports sympy when first asked for."""
        record: Record = []
        solve(self.bare_rig, record=record)
        steps = {}
        for eq, values in record:
            step = working(eq, dict(zip((s.name for s in eq.takes), values, strict=True)))
            steps[step.equation, step.inputs] = step
        return tuple(steps.values())


def size(rig: Rig, *, units: System = "us", seed: int = 0) -> Answer:
    """Answer the main question for a rig: will it pull, what gives out first, and how sure is that.

    units: the system of the words ("us" or "si"); numbers don't depend on it. seed: of the draws behind "how sure".
    """
    b = bare(rig)
    c = caps(rig, b)
    record: Record = []
    p = solve(b, record=record)
    used = shares(b, p, c)
    values = limit_values(b, p, c)
    margins = tuple(_margin(name, values[name], used.get(name), units, c) for name in values)
    margins += tuple(_range_margin(record))
    _, binding = worst(used)
    answers = reverse_answers(b, c)
    sure = how_sure(b, c, seed=seed)
    by_name = {margin.name: margin for margin in margins}
    days = season(rig, p)
    second = second_opinion(rig, b, p, c)
    return Answer(
        rig=rig,
        units=units,
        point=OperatingPoint(p),
        sentence=sentence(rig, p, used, values, answers, sure, doubt(second, p, c), units),
        works=bool(works(used)),
        margins=margins,
        binding=by_name[str(binding)],
        reverse=tuple(_reverse(answer, units) for answer in answers),
        sure=sure,
        best_slip=best_slip(b),
        second_opinion=second,
        season=days,
        season_text=season_text(days, units),
        notes=tuple(notes(rig, b, p, c, second, units)),
        cautions=tuple(cautions(p.depth, units)),
        bare_rig=b,
        caps=c,
    )


def _margin(name: str, values: tuple[Any, Any, str], used: Any, units: System, c: Caps) -> Margin:
    value, limit, unit = values
    about = LIMITS[name]
    source = f"slip_bands: {c.slip_source}" if name == "slip" else about.source
    share = None if used is None or math.isnan(used) else float(used)
    limit = None if limit is None else float(limit)
    text = margin_text(about, float(value), limit, unit, share, units)
    return Margin(name, about.title, float(value), limit, unit, share, about.hard, source, text)


def _range_margin(record: Record) -> Iterator[Margin]:
    use = range_use(record)
    if use is not None:
        about = LIMITS["equation_range"]
        yield Margin(about.name, about.title, use.value, use.end, use.unit, use.share, about.hard, about.source, use.text)


def _reverse(answer: Furthest, units: System) -> Reverse:
    return Reverse(answer.question, answer.value, answer.unit, answer.binds, reverse_text(answer, units))
