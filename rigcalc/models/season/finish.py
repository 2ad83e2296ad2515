"""Whole seasons, one after another: when is it done, how often by the deadline, how many fit days are left over.

Every year of the record meets every likely field. Later passes are laid back from the deadline, each after the next; what is
left before them is this pass's own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

_LONGEST = 3650.0  # fit days: a season that takes ten years breaks down no oftener than one that takes more
LEVELS = (0.5, 0.8, 0.9)  # chances at which days in hand and latest starts are told


@dataclass(frozen=True)
class Breakdowns:
    """Field hours between two that count, and field hours lost to one."""

    between: float
    lost: float


@dataclass(frozen=True)
class Pass:
    """A later pass, bare: fit days that it needs, days to wait after the pass before it."""

    name: str
    days: float
    wait: float


@dataclass(frozen=True)
class Finish:
    """How the seasons end. chance: of being done in time; in_hand: fit days left over at `LEVELS`, below nothing where too few;
    needed: fit days that this pass takes, at 0.1, 0.5 and 0.9 of the draws; there: fit days there are before the later passes,
    at `LEVELS`; latest: the last day, counted from the start, on which to begin, at `LEVELS`, below 0 where the start is too
    late; done: chance of being done by the end of each day; by_year: chance in each year."""

    chance: float
    in_hand: tuple[float, ...]
    needed: tuple[float, ...]
    there: tuple[float, ...]
    latest: tuple[int, ...]
    done: np.ndarray
    by_year: np.ndarray


def run_seasons(
    fit: np.ndarray,
    area: float,
    per_day: Any,
    hours: float,
    rigs: int,
    down: Breakdowns,
    later: Sequence[Pass] = (),
    seed: int = 0,
    team: np.ndarray | float = 1.0,
) -> Finish:
    """Run every year with every draw.

    fit: (years, days), share of each day that is fit. area: ha. per_day: ha a fit day of all rigs together, an array of draws.
    hours: field hours a day of a rig; rigs: how many. team: share of the rigs' work that is there on each day; days of this
    pass are told as days of all of them. The same seed gives the same answer.
    """
    per_day = np.asarray(per_day, float)
    together, own = _summed(fit), _summed(fit * team)
    with np.errstate(divide="ignore"):
        bare_days = np.where(per_day > 0, area / per_day, np.inf)
    need = bare_days[None, :] + _down(bare_days, hours, rigs, down, len(fit), seed)
    ends = np.array([_laid_back(row, later) for row in together])
    there = np.where(ends >= 0, own[np.arange(len(fit)), np.maximum(ends, 0)], -np.inf)
    hand = there[:, None] - need
    starts = np.array([_latest(row, end, wanted) for row, end, wanted in zip(own, ends, need, strict=True)])
    done = np.array([(need <= own[:, day, None] + 1e-9).mean() for day in range(1, own.shape[1])])
    low = [1 - level for level in LEVELS]
    return Finish(
        chance=float((hand >= -1e-9).mean()),
        in_hand=tuple(_quantiles(hand.ravel(), low)),
        needed=tuple(_quantiles(need.ravel(), (0.1, 0.5, 0.9))),
        there=tuple(_quantiles(there, low)),
        latest=tuple(int(np.floor(v)) for v in _quantiles(starts.ravel(), low)),
        done=done,
        by_year=(hand >= -1e-9).mean(axis=1),
    )


def _summed(fit: np.ndarray) -> np.ndarray:
    """Give fit days before each day, from nothing on."""
    return np.concatenate([np.zeros((len(fit), 1)), np.cumsum(fit, axis=1)], axis=1)


def _quantiles(values: np.ndarray, levels: Sequence[float]) -> list[float]:
    """Give quantiles by linear interpolation; what borders on the endless takes the nearer end."""
    ordered = np.sort(values)
    places = np.asarray(levels) * (len(ordered) - 1)
    below, above = ordered[np.floor(places).astype(int)], ordered[np.ceil(places).astype(int)]
    part = places - np.floor(places)
    with np.errstate(invalid="ignore"):
        found = below + part * (above - below)
    return [float(v) for v in np.where(np.isfinite(found), found, np.where(part > 0.5, above, below))]


def _down(days: np.ndarray, hours: float, rigs: int, down: Breakdowns, years: int, seed: int) -> np.ndarray:
    """Give fit days lost to breakdowns, by year and draw: one of several rigs stands, the others go on."""
    if not hours > 0 or down.lost <= 0:
        return np.zeros((years, len(days)))
    random = np.random.default_rng([seed, 22])
    mean = np.where(np.isfinite(days), np.minimum(days, _LONGEST), 0) * hours * rigs / down.between
    count = random.poisson(mean, (years, len(days)))
    lost = np.where(count > 0, random.gamma(np.maximum(count, 1), down.lost), 0.0)
    made: np.ndarray = lost / (hours * rigs)
    return made


def _laid_back(together: np.ndarray, later: Sequence[Pass]) -> int:
    """Give the days from the start after which this pass has to be done in one year; -1 where none is early enough."""
    end = len(together) - 1
    for each in reversed(later):
        left = together[end] - each.days
        if left < 0:
            return -1
        end = int(np.searchsorted(together, left + 1e-12, side="right")) - 1 - int(np.ceil(each.wait))
        if end < 0:
            return -1
    return end


def _latest(together: np.ndarray, end: int, need: np.ndarray) -> np.ndarray:
    """Give the last day on which to begin, for each draw of one year; -1 where even the start is too late."""
    if end < 0:
        return np.full(len(need), -1)
    left = together[end] - need
    found: np.ndarray = np.where(left >= -1e-9, np.searchsorted(together[: end + 1], left + 1e-9, side="right") - 1, -1)
    return found
