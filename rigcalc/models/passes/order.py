"""In what order to work the fields of a farm: to the nearest that is left, then crossings taken out, and fields moved."""

from __future__ import annotations

from typing import Any

import numpy as np

from rigcalc.models.land.plane import apart, on_ellipsoid

_ROUNDS = 60  # of taking crossings out: far more than it takes


def ordered(middles: Any, start: int = 0) -> tuple[tuple[int, ...], float]:
    """Give an order that begins with one field, and its length, km. middles: array (n, 2) of longitude and latitude, degrees.

    Nearest first, then 2-opt, where a stretch is driven the other way round, and single fields put elsewhere, as long as that
    makes the way shorter. Straight lines between the middles; the shortest order of all isn't promised.
    """
    place = on_ellipsoid(*np.asarray(middles, float).T)
    between = apart(place[:, None], place[None])
    order = _nearest(between, start)
    for _ in range(_ROUNDS):
        better = _moved(between, _untangled(between, order))
        if length_of(between, better) > length_of(between, order) - 1e-9:
            break
        order = better
    return tuple(int(each) for each in order), length_of(between, order)


def length_of(between: Any, order: Any) -> float:
    """Give the length of a way through the fields in this order."""
    order = np.asarray(order)
    return float(between[order[:-1], order[1:]].sum())


def _nearest(between: Any, start: int) -> Any:
    left = np.ones(len(between), bool)
    order = [start]
    left[start] = False
    while left.any():
        way = np.where(left, between[order[-1]], np.inf)
        order.append(int(way.argmin()))
        left[order[-1]] = False
    return np.array(order)


def _untangled(between: Any, order: Any) -> Any:
    """Turn, once through, every stretch that is better the other way round. The first field stays."""
    count = len(order)
    order = order.copy()
    for one in range(count - 2):
        # Turning the stretch from one+1 to other changes the step into it and, unless it ends there, the step out of it.
        others = np.arange(one + 2, count)
        into = between[order[one], order[others]] - between[order[one], order[one + 1]]
        after = np.append(order[others[1:]], -1)
        out = between[order[one + 1], after] - between[order[others], after]
        out[-1] = 0.0  # an open way: nothing comes after its last field
        gain = into + out
        best = int(gain.argmin())
        if gain[best] < -1e-9:
            order[one + 1 : others[best] + 1] = order[one + 1 : others[best] + 1][::-1].copy()
    return order


def _moved(between: Any, order: Any) -> Any:
    """Put, once through, every field but the first where the way is shortest for it."""
    for place in order[1:].tolist():
        rest = order[order != place]
        into = between[rest, place]
        between_two = np.append(between[rest[:-1], rest[1:]], 0.0)
        gained = into + np.append(into[1:], 0.0) - between_two  # put after each of the rest; after the last, one way alone
        order = np.insert(rest, int(gained.argmin()) + 1, place)
    return order
