"""What is uncertain about a field, as standard normal scores: a day has scores of its own, and so has each steady stretch.

Scores that are all independent and normal give the draws of `draws.py` for every single day: the same distributions, the same
correlation. What two days of one field share is set by the table reading_doubt. docs/decisions/0018-readings.md says why.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from statistics import NormalDist
from typing import Any

import numpy as np

from rigcalc.core.tables import table
from rigcalc.models.machine.draws import READING, READINGS, Draws, number
from rigcalc.models.machine.ranges import factor_at

# The scores that all readings share, by place: the field's draft and cone index; what moves draft; a monitor's two biases.
ROW, CONE, DEEP, TEXTURE, BEHIND, USUAL, LOAD, FUEL = range(8)
SHARED = 8
_FAR = 6.5  # scores beyond are taken as this: one field in ten thousand million
_STEPS = 2601
_SEED = 0


@cache
def doubt(name: str) -> float:
    """Give a number of the table reading_doubt."""
    return float(table("reading_doubt")[name]["value"])


@dataclass(frozen=True)
class Layout:
    """Which column holds what: the shared scores, two for each day, one for each stretch, then two for each `later` day, which
    wasn't read."""  # fmt: skip

    days: int
    stretches: int
    later: int = 0

    @property
    def count(self) -> int:
        """Number of columns."""
        return SHARED + 2 * (self.days + self.later) + self.stretches

    def day(self, place: int) -> tuple[int, int]:
        """Give the two columns of a day: its draft, its cone index."""
        first = SHARED + 2 * place + (self.stretches if place >= self.days else 0)
        return first, first + 1

    def stretch(self, place: int) -> int:
        """Give the column of a stretch."""
        return SHARED + 2 * self.days + place


def draws_of(scores: Any, columns: tuple[int, int], draft_range: float, cone_range: float) -> Draws:
    """Give the draws of one day. scores: array (combinations, columns). columns: those of the day, by `Layout.day`.

    draft_range, cone_range: half the width of each range, as a decimal.
    """
    at = scores.T
    own, stays, rho, power, ends = _fixed()
    row = stays * at[ROW] + own * at[columns[0]]
    cone = rho * row + np.sqrt(1 - rho**2) * (stays * at[CONE] + own * at[columns[1]])

    def between(name: str, place: int) -> Any:
        low, high = ends[name]
        return low + level_of(at[place]) * (high - low)

    return Draws(
        row=_factor(row, draft_range, READING),
        cone=_factor(cone, cone_range, READINGS[0]),
        deep=level_of(at[DEEP]) ** power,
        texture=level_of(at[TEXTURE]),
        behind=between("behind_wheels", BEHIND),
        usual=between("usual_covered", USUAL),
    )


def level_of(score: Any) -> Any:
    """Give the share of a normal distribution that lies below a score."""
    return _read_off(score, _levels()[1])


def _read_off(score: Any, values: Any) -> Any:
    """Read values off by straight lines between scores that lie evenly apart: the same as np.interp, without its search."""
    at = np.clip((score + _FAR) * ((_STEPS - 1) / (2 * _FAR)), 0.0, _STEPS - 1.001)
    low = at.astype(np.intp)
    here = values[low]
    return here + (at - low) * (values[low + 1] - here)


def _factor(score: Any, spread: float, reading: str) -> Any:
    if reading == "hard_limits":
        return 1 + spread * (2 * level_of(score) - 1)
    return _read_off(score, _factors(spread))


@cache
def _fixed() -> tuple[float, float, float, float, dict[str, tuple[float, float]]]:
    """Give what the tables say, looked up once: the parts of a day and of a field, correlation, power, ends of even draws."""
    rows, share = table("draft_doubt"), doubt("day_share")
    ends = {name: (rows[name]["low"], rows[name]["high"]) for name in ("behind_wheels", "usual_covered")}
    return float(np.sqrt(share)), float(np.sqrt(1 - share)), number("correlation"), number("deep_power"), ends


@cache
def _levels() -> tuple[Any, Any]:
    grid = np.linspace(-_FAR, _FAR, _STEPS)
    return grid, np.array([NormalDist().cdf(score) for score in grid])


@cache
def _factors(spread: float) -> Any:
    return np.array([factor_at(float(level), spread) for level in _levels()[1]])


def even_scores(count: int, columns: int, first: int = 0) -> Any:
    """Give `count` normal scores in each column from `first` to before `columns`: a Latin hypercube, the same points always.

    Each column holds the same scores in an order of its own, so each is spread evenly; a column lies together in memory.
    """
    return np.stack([_shuffled(count, place) for place in range(first, columns)]).T


@lru_cache(maxsize=128)
def _shuffled(count: int, place: int) -> Any:
    out = np.random.default_rng((_SEED, place)).permutation(_even(count))
    out.setflags(write=False)
    return out


@lru_cache(maxsize=16)
def _even(count: int) -> Any:
    normal = NormalDist()
    half = np.array([normal.inv_cdf((place + 0.5) / count) for place in range(count // 2, count)])
    return np.concatenate([-half[::-1], half])
