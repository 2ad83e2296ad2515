"""What readings leave of the doubt: combinations of everything that is uncertain, each with its weight.

Scores are drawn around the combination that agrees best with prior and readings together, and each is weighed by how much
likelier it is than it was to be drawn: exact but for the number of draws, and the same every time.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from rigcalc.models.machine.draft_force import draft_force
from rigcalc.models.machine.held import Held
from rigcalc.models.machine.scores import BEHIND, DEEP, ROW, SHARED, TEXTURE, USUAL, Layout, draws_of, even_scores
from rigcalc.models.machine.seen import Seen, fits
from rigcalc.models.machine.statics import plain
from rigcalc.models.rig.bare import BareRig

COUNT = 16384
_START = 2048  # combinations of the prior in which the search begins
_FIRST = 4096  # draws of the first round, which sets where those of the second fall
_STEPS = 14
_NEAR_TOP = 1e-3  # a step uphill by less than this ends the search: the draws fall around the top, not on it
_ENOUGH = 12  # draws for each column
_WIDER = (1.2, 1.05)  # each round draws wider than it has reason to, so that no tail is missed
_held: Held[Posterior] = Held(64 * 1024**2)


@dataclass(frozen=True)
class Posterior:
    """Combinations (rows of `scores`, columns by `layout`) and their weights, which add up to 1.

    days: in the order of the layout; those that weren't read come last. ranges: of draft and cone index, as decimals.
    misfit: (place of a reading, kind of number) -> what is left of it when all is weighed, in its own errors.
    """

    scores: Any
    weights: Any
    layout: Layout
    days: tuple[str, ...]
    ranges: tuple[float, float]
    misfit: dict[tuple[int, str], float] = field(default_factory=dict)

    @property
    def effective(self) -> float:
        """How many equally weighted draws these are worth."""
        return float(1 / np.sum(self.weights**2))

    @property
    def size(self) -> int:
        """How many bytes these take."""
        return int(self.scores.nbytes + self.weights.nbytes)

    def day(self, day: str) -> tuple[int, int]:
        """Give the columns of a day."""
        return self.layout.day(self.days.index(day))

    def with_day(self, day: str) -> Posterior:
        """Give the same with a day that wasn't read beside those that were: nothing is known of what is its own.

        So its scores are drawn from the prior, and no weight changes.
        """
        if day in self.days:
            return self
        layout = replace(self.layout, later=self.layout.later + 1)
        fresh = even_scores(len(self.scores), layout.count, self.layout.count)
        return replace(self, scores=np.hstack([self.scores, fresh]), layout=layout, days=(*self.days, day))


def posterior(
    seen: Sequence[Seen], ranges: tuple[float, float], extra_day: str | None = None, count: int = COUNT
) -> Posterior | None:
    """Weigh readings. None where no combination can give them. What was weighed lately is held.

    ranges: of draft and cone index, half the width of each, as decimals. extra_day: a day that wasn't read. count: even.
    """
    seen = sorted(seen, key=lambda each: (each.day, each.place))
    if not seen:
        days = () if extra_day is None else (extra_day,)
        layout = Layout(len(days), 0)
        return Posterior(even_scores(count, layout.count), np.full(count, 1 / count), layout, days, ranges)
    weighed = _held.of((tuple(each.key for each in seen), ranges, count), lambda: _weigh(seen, ranges, count))
    return weighed if weighed is None or extra_day is None else weighed.with_day(extra_day)


def _weigh(seen: Sequence[Seen], ranges: tuple[float, float], count: int) -> Posterior | None:
    days = tuple(dict.fromkeys(each.day for each in seen))
    layout = Layout(len(days), len(seen))

    def off(scores: Any) -> tuple[Any, Any]:
        """How far each number is off what is said of it, in its own errors; and how likely that is, as a logarithm."""
        drawn = {day: draws_of(scores, layout.day(place), *ranges) for place, day in enumerate(days)}
        parts = []
        for place, each in enumerate(seen):
            local = np.exp(each.spread * scores[:, layout.stretch(place)])
            parts.append(fits(each, scores, drawn[each.day], local))
        return np.concatenate([part for part, _ in parts], axis=1), np.sum([height for _, height in parts], axis=0)

    start = _start(off, layout)
    if start is None:
        return None
    middle, spread = _best(off, start)
    bend = _bend(middle, sorted(seen, key=lambda each: float(each.rig.depth))[len(seen) // 2].rig, layout, ranges)
    straight, _, weights, _ = _weighed(off, bend, middle, spread * _WIDER[0], min(_FIRST, count))
    if 1 / np.sum(weights**2) > _ENOUGH * layout.count:  # so many that they show how they scatter
        middle = weights @ straight
        off_middle = straight - middle
        scatter = np.einsum("ki,kj->ij", off_middle, off_middle * weights[:, None])
        spread = np.linalg.cholesky(scatter + 1e-9 * np.eye(layout.count))
    _, scores, weights, left = _weighed(off, bend, middle, spread * _WIDER[1], count)
    numbers = [(each.place, kind) for each in seen for kind in each.numbers]
    return Posterior(scores, weights, layout, days, ranges, dict(zip(numbers, left.tolist(), strict=True)))


def _height(scores: Any, likely: Any) -> Any:
    """Logarithm of prior and likelihood together, but for a constant; minus infinity where a reading can't be."""
    return likely - 0.5 * np.einsum("ij,ij->i", scores, scores)


def _start(off: Any, layout: Layout) -> Any:
    """Give the combination of the prior that agrees best with the readings; None where none can give them."""
    scores = np.zeros((_START, layout.count))
    scores[:, :SHARED] = even_scores(_START, SHARED)
    scores[0] = 0.0
    height = _height(scores, off(scores)[1])
    best = int(height.argmax())
    return scores[best] if np.isfinite(height[best]) else None


def _best(off: Any, start: Any) -> tuple[Any, Any]:
    """Go uphill from `start` by Gauss and Newton's steps; give the top, and a root of the covariance there."""
    at, columns, small = start, start.size, 1e-4
    shares = np.array([1.0, 0.6, 0.3, 0.1, 0.03, 0.01])[:, None]
    eye = np.eye(columns)
    for step in range(_STEPS + 1):
        around, likely = off(np.concatenate([at[None, :], at + small * eye, at - small * eye]))
        here, ahead, back = around[0], around[1 : columns + 1], around[columns + 1 :]
        slope = np.where(np.isfinite(ahead - back), (ahead - back) / (2 * small), 0.0)  # (column, number)
        curve = eye + slope @ slope.T
        if step == _STEPS:
            break
        way = np.linalg.solve(curve, -(at + slope @ here))
        tried = at + shares * way
        heights = _height(tried, off(tried)[1])
        top = int(heights.argmax())
        now = float(_height(at[None, :], likely[:1])[0])
        if not heights[top] > now + _NEAR_TOP:
            break
        at = tried[top]
    return at, np.linalg.cholesky(np.linalg.inv(curve))


def _bend(middle: Any, b: BareRig, layout: Layout, ranges: tuple[float, float]) -> Any:
    """Give a function that moves each combination along the field's draft score, to where a straight line has its draft.

    What else moves draft (depth, texture, wheel tracks) does so along a curve; readings hold the product, so the likely
    combinations lie along that curve too. The move leaves volumes as they are, so weights need no other term.
    """

    def moved(scores: Any) -> Any:
        drawn = draws_of(scores, layout.day(0), *ranges)
        return np.log(draft_force(b, plain, replace(drawn, row=1.0)) + np.zeros(len(scores)))

    def row(score: float) -> Any:
        at = middle.copy()
        at[ROW] = score
        return np.log(draws_of(at[None, :], layout.day(0), *ranges).row[0])

    small, inner = 1e-3, (DEEP, TEXTURE, BEHIND, USUAL)
    around = np.repeat(middle[None, :], 2 * len(inner) + 1, axis=0)
    for place, column in enumerate(inner):
        around[2 * place + 1, column] += small
        around[2 * place + 2, column] -= small
    here = moved(around)
    slopes = (here[1::2] - here[2::2]) / (2 * small)
    each = (row(middle[ROW] + small) - row(middle[ROW] - small)) / (2 * small)

    def bend(straight: Any) -> Any:
        if not each > 0:
            return straight
        bent = straight.copy(order="K")
        line = here[0] + (straight[:, inner] - middle[list(inner)]) @ slopes
        bent[:, ROW] -= (moved(straight) - line) / each
        return bent

    return bend


def _weighed(off: Any, bend: Any, middle: Any, spread: Any, count: int) -> tuple[Any, Any, Any, Any]:
    """Draw around `middle` and weigh: (scores before they are bent, scores, weights, what is left of each number).

    spread: a root of the covariance.
    """
    drawn = even_scores(count, middle.size)
    straight = (middle[:, None] + np.einsum("ij,kj->ik", spread, drawn)).T  # not by BLAS, whose threads wait on busy cores
    scores = bend(straight)
    left, likely = off(scores)
    height = _height(scores, likely) + 0.5 * np.einsum("ij,ij->i", drawn, drawn)
    weights = np.exp(height - height.max())
    weights /= weights.sum()
    return straight, scores, weights, weights @ np.where(weights[:, None] > 0, left, 0.0)
