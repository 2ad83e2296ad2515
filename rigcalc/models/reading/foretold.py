"""What a reading will show, said before it is made: by the table, and by the readings that were made before it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.models.machine.field import picked, quantiles, ranges_of, seen_of
from rigcalc.models.machine.posterior import COUNT, Posterior, posterior
from rigcalc.models.machine.scores import draws_of, even_scores
from rigcalc.models.machine.seen import Seen, levels_said
from rigcalc.models.machine.sure import HIGH, LOW
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.field_reading import Reading
from rigcalc.models.rig.rig import Rig

ANY = 0.005  # our choice: where so many fields and more give a number no end, it isn't said to be off


@dataclass(frozen=True)
class Span:
    """A band of 8 in 10 and its middle, bare; infinite where grip can't give the pull."""

    low: float
    middle: float
    high: float

    @property
    def width(self) -> float:
        """High over low."""
        return self.high / self.low


def foretold(rig: Rig, reading: Reading) -> dict[str, Span]:
    """Say what each number of a reading will be, from the readings that the rig holds. Slip and load are decimals, fuel is in
    L/h, pull in kN; the error of the display is in it. Empty where the rig's readings can't be."""  # fmt: skip
    seen, _ = picked(rig, reading.field)
    return foretold_by(seen, seen_of(rig, reading, len(rig.reading)), ranges_of(bare(rig)))


def foretold_by(seen: Sequence[Seen], new: Seen, ranges: tuple[float, float]) -> dict[str, Span]:
    """Say what the numbers of `new` will be, from the readings `seen`."""
    weighed = posterior(seen, ranges, extra_day=new.day)
    if weighed is None:
        return {}
    levels = levels_to_come(weighed, new)
    return {kind: span(_shown(kind, levels[:, column]), weighed.weights) for column, kind in enumerate(new.numbers)}


def _shown(kind: str, levels: Any) -> Any:
    """Give levels as a display shows them: no slip under nothing, however far a display may be off."""
    return np.maximum(levels, 0.0) if kind == "slip" else np.exp(levels)


def levels_to_come(weighed: Posterior, new: Seen) -> Any:
    """Give the levels that a display would show (rows: combinations, columns: numbers of `new`), its own error in them."""
    scores, columns = weighed.scores, weighed.layout.count
    noise = even_scores(len(scores), columns + len(new.numbers) + 1, columns)  # columns that nothing else is drawn from
    drawn = draws_of(scores, weighed.day(new.day), *weighed.ranges)
    levels = levels_said(new, scores, drawn, np.exp(new.spread * noise[:, 0]))
    return levels + new.errors * noise[:, 1:]


def span(values: Any, weights: Any) -> Span:
    """Give the band of 8 in 10 of weighted values."""
    low, middle, high = quantiles(values, weights, [LOW, 0.5, HIGH])
    return Span(float(low), float(middle), float(high))


def off_by(weighed: Posterior, new: Seen) -> dict[str, float]:
    """Give how far each number of a reading lies off what others say of it, in standard deviations of what they leave open."""
    levels, out = levels_to_come(weighed, new), {}
    for column, kind in enumerate(new.numbers):
        there = np.isfinite(levels[:, column])
        weights = weighed.weights[there]
        if weights.sum() < ANY:
            out[kind] = float("inf")
            continue
        weights, values = weights / weights.sum(), levels[there, column]
        middle = weights @ values
        out[kind] = float((new.levels[column] - middle) / np.sqrt(weights @ (values - middle) ** 2))
    return out


SMALL = COUNT // 4  # draws where one reading after another is left out
