"""The exact search: of all sets of pieces, the one that keeps every limit with the least mass handled.

Every set is one option of each choice. Axle gains and handled mass add up, so the sets are walked as outer sums: an inner
block of options sorted by what they cost to handle, and an outer list sorted the same way. Once enough sets are found that
keep the straight limits, every set that costs more is passed over; none is left out that could win.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

INNER = 16_384  # most sets looked at in one go: their arrays stay in the processor's cache
FIRST = 1024  # sets whose delivery is worked out first, in about the time of 64; each further lot is 16 times as large
# What the programme may do in one plan, counted so that the answer doesn't hang on how fast a computer is. Measured on two
# cores on 2026-11-25: a call costs about a thousandth of a second an option, so the two together hold a plan under 5 s.
EFFORT = 1_500  # calls times options
NODES = 30_000  # branches of one call times options
MOST_OPTIONS = 2_500  # of all choices together
_SLACK = 1e-9  # kg: rounding of sums must not part two sets that cost the same
_KEPT = 1e-6  # kg: rounding is forgiven, so that a set which lies on a limit keeps it

Accept = Callable[[Any, Any], tuple[Any, Any]]


@dataclass(frozen=True)
class Problem:
    """What the search works on. All masses in kg.

    fronts, rears, handled: for each choice the axle gains and the mass handled of its options (1-d arrays). front, rear:
    static axle masses now. rows: one straight function (a, b, c) for each limit, kept where a*F + b*R + c <= 0. accept:
    takes arrays of F and R, gives (a mask of sets that pass what isn't straight, delivery).
    """

    fronts: tuple[Any, ...]
    rears: tuple[Any, ...]
    handled: tuple[Any, ...]
    front: float
    rear: float
    rows: tuple[tuple[float, float, float], ...]
    accept: Accept | None = None

    @property
    def sizes(self) -> tuple[int, ...]:
        """How many options each choice has."""
        return tuple(len(part) for part in self.handled)


@dataclass(frozen=True)
class Found:
    """A set: the option of each choice, mass handled in kg, and delivery."""

    options: tuple[int, ...]
    handled: float
    delivery: float


def search(problem: Problem, wanted: int = 2) -> list[Found]:
    """Give the `wanted` best sets, best first: least mass handled, then most delivered. Fewer where fewer pass.

    First the cheapest sets that keep the straight limits; then the delivery of those alone. Where too few of them pass, more
    are taken, up to all.
    """
    inner, outer = _parted(problem)
    lot = FIRST
    while True:
        cost, places, rows = _cheapest(problem, inner, outer, lot)
        if not cost.size:
            return []
        assert problem.accept is not None
        fits, delivery = problem.accept(
            problem.front + outer.front[places] + inner.front[rows], problem.rear + outer.rear[places] + inner.rear[rows]
        )
        passing = np.flatnonzero(fits)
        order = np.lexsort((rows[passing], places[passing], -delivery[passing], np.round(cost[passing], 6)))
        best = passing[order[:wanted]]
        # Below the dearest set of the lot none is missing, so what passes there is final.
        whole = cost.size < lot
        if whole or (best.size == wanted and cost[best[-1]] < cost.max() - _SLACK):
            return [_found(problem, inner, outer, cost[k], delivery[k], places[k], rows[k]) for k in best]
        lot *= 16


def _cheapest(problem: Problem, inner: _Sums, outer: _Sums, lot: int) -> tuple[Any, Any, Any]:
    """Give handled mass and places (outer, inner) of the `lot` cheapest sets that keep the straight limits.

    More where the last cost the same, fewer where there are no more.
    """
    inside = [a * inner.front + b * inner.rear for a, b, _ in problem.rows]
    outside = [a * (problem.front + outer.front) + b * (problem.rear + outer.rear) + c for a, b, c in problem.rows]
    ends = [(float(part.min()), float(part.max())) for part in inside]
    alive = np.ones(outer.handled.size, bool)
    for out, (least, _) in zip(outside, ends, strict=True):
        alive &= out + least <= _KEPT
    places = np.flatnonzero(alive)
    many = max(1, INNER // inner.handled.size)
    cost, where, rows = np.zeros(0), np.zeros(0, int), np.zeros(0, int)
    bound = np.inf
    for start in range(0, places.size, many):
        batch = places[start : start + many]
        spent = outer.handled[batch]
        if spent[0] + inner.handled[0] > bound + _SLACK:
            break
        count = int(np.searchsorted(inner.handled, bound - spent[0] + _SLACK, side="right"))
        keeps = inner.handled[:count] <= (bound + _SLACK - spent)[:, None]
        for part, out, (_, most) in zip(inside, outside, ends, strict=True):
            taken = out[batch]
            if taken.max() + most > _KEPT:
                keeps &= part[:count] <= (_KEPT - taken)[:, None]
        found = np.flatnonzero(keeps)
        if not found.size:
            continue
        new, row = np.divmod(found, count)
        cost = np.concatenate([cost, spent[new] + inner.handled[row]])
        where, rows = np.concatenate([where, batch[new]]), np.concatenate([rows, row])
        if cost.size >= lot:
            bound = float(np.partition(cost, lot - 1)[lot - 1])
            kept = cost <= bound + _SLACK
            cost, where, rows = cost[kept], where[kept], rows[kept]
    return cost, where, rows


def nearest(problem: Problem, scale: float, floor: float) -> tuple[Found, float]:
    """Give the set that misses least, where none passes, and the most that any set delivers (limits aside).

    A set is as bad as its worst miss as a share. scale: kg that a limit's excess is measured against. floor: the delivery
    that was wanted. Walks every set.
    """
    inner, outer = _parted(problem)
    best: tuple[float, float, float, int, int] | None = None
    most = 0.0
    for place in range(outer.handled.size):
        front = problem.front + outer.front[place] + inner.front
        rear = problem.rear + outer.rear[place] + inner.rear
        worst = np.zeros(front.shape)
        for a, b, c in problem.rows:
            np.maximum(worst, (a * front + b * rear + c) / scale, out=worst)
        assert problem.accept is not None
        _, delivery = problem.accept(front, rear)
        known = np.where(np.isfinite(delivery), delivery, 0.0)
        most = max(most, float(known.max()))
        np.maximum(worst, 1 - known / floor, out=worst)
        cost = outer.handled[place] + inner.handled
        row = int(np.lexsort((cost, np.round(worst, 9)))[0])
        entry = (float(np.round(worst[row], 9)), float(cost[row]), float(delivery[row]), place, row)
        if best is None or entry[:2] < best[:2]:
            best = entry
    assert best is not None
    return _found(problem, inner, outer, *best[1:]), most


def closest(problem: Problem, missed: Callable[[Any, Any], Any]) -> Found | None:
    """Give the set that keeps every row and misses least, then costs least; None where no set keeps them and can be judged.

    missed: takes arrays of F and R, gives how much is missed (infinite where a set is out of question). Walks every set.
    """
    inner, outer = _parted(problem)
    best: tuple[float, float, int, int] | None = None
    for place in range(outer.handled.size):
        front = problem.front + outer.front[place] + inner.front
        rear = problem.rear + outer.rear[place] + inner.rear
        keeps = np.ones(front.shape, bool)
        for a, b, c in problem.rows:
            keeps &= a * front + b * rear + c <= _KEPT
        rows = np.flatnonzero(keeps)
        if not rows.size:
            continue
        miss = np.round(missed(front[rows], rear[rows]), 9)
        cost = outer.handled[place] + inner.handled[rows]
        first = int(np.lexsort((cost, miss))[0])
        entry = (float(miss[first]), float(cost[first]), place, int(rows[first]))
        if np.isfinite(entry[0]) and (best is None or entry[:2] < best[:2]):
            best = entry
    return None if best is None else _found(problem, inner, outer, best[1], float("nan"), *best[2:])


def least_excess(problem: Problem, row: tuple[float, float, float]) -> float:
    """Give the least excess of one limit over all sets: each choice at its own best, for the limit is straight."""
    a, b, c = row
    gains = (float((a * f + b * r).min()) for f, r in zip(problem.fronts, problem.rears, strict=True))
    return a * problem.front + b * problem.rear + c + sum(gains)


class TooLargeError(Exception):
    """The programme came to the end of its effort before it knew whether a set works."""


class Effort:
    """What is left of the programme's calls in one plan; each question that is put to it gets two at least."""

    def __init__(self, problem: Problem):
        self.calls = max(2, EFFORT // max(1, sum(problem.sizes)))


def by_programme(
    problem: Problem, low: float, high: float, wanted: int = 2, soft: tuple[tuple[float, float, float], ...] = (),
    effort: Effort | None = None,
) -> list[Found]:  # fmt: skip
    """Give the `wanted` best sets of a space too large to walk, by integer programming (scipy).

    low, high: total mass in kg between which delivery is near its best; every set found is then held against the exact
    delivery, and shut out where it fails. soft: rows that may be passed; with them the set comes first that passes them least.
    Raises ImportError without scipy, TooLargeError where it can't be told with the effort that is left.
    """
    effort = effort or Effort(problem)
    # The band holds for the split as it stands; with another split a mass a little outside may deliver well. So a wider band
    # goes first. Where too much of what it brings fails, the band itself brings sets that pass.
    for wider in (1.01, 1.0):
        choose = _programme(problem, low / wider, high * wider, soft)
        shut: list[Any] = []
        out: list[Found] = []
        none_left = False
        tries = max(1, effort.calls // 2)
        while len(out) < wanted and len(shut) < tries:
            effort.calls -= 1
            try:
                found = choose(shut, bool(soft))
            except TooLargeError:
                break
            if found is None:
                none_left = True
                break
            taken, set_ = found
            shut.append(taken)
            assert problem.accept is not None
            fits, delivery = problem.accept(*_masses(problem, set_.options))
            if fits[0]:
                out.append(Found(set_.options, set_.handled, float(delivery[0])))
        if out or none_left:
            return out
    raise TooLargeError


def nearest_by_programme(problem: Problem, low: float, high: float) -> Found:
    """Give the set that misses least where none passes, by integer programming; see `by_programme`."""
    found = _programme(problem, low, high)([], True)
    assert found is not None  # of all sets one misses least
    assert problem.accept is not None
    _, delivery = problem.accept(*_masses(problem, found[1].options))
    return Found(found[1].options, found[1].handled, float(delivery[0]))


def _masses(problem: Problem, options: tuple[int, ...]) -> tuple[Any, Any]:
    front = problem.front + sum(part[at] for part, at in zip(problem.fronts, options, strict=True))
    rear = problem.rear + sum(part[at] for part, at in zip(problem.rears, options, strict=True))
    return np.array([front]), np.array([rear])


def _programme(
    problem: Problem, low: float, high: float, soft: tuple[tuple[float, float, float], ...] = ()
) -> Callable[[list[Any], bool], tuple[Any, Found] | None]:
    """Set up the programme: a switch for each option, and a last variable for how much may be missed, of `soft` or of all."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    if sum(problem.sizes) > MOST_OPTIONS:
        raise TooLargeError
    front, rear, cost = (np.concatenate(part) for part in (problem.fronts, problem.rears, problem.handled))
    starts = np.concatenate([[0], np.cumsum(problem.sizes)])
    switches = front.size
    one_of_each = np.zeros((len(problem.sizes), switches + 1))
    for choice, (first, last) in enumerate(pairwise(starts)):
        one_of_each[choice, first:last] = 1.0
    rows = [*problem.rows, (1.0, 1.0, -high), (-1.0, -1.0, low), *soft]
    missed = np.full((len(rows), 1), -(problem.front + problem.rear))
    if soft:
        missed[: -len(soft)] = 0.0
    straight = np.hstack([np.array([a * front + b * rear for a, b, _ in rows]), missed])
    most = np.array([-(c + a * problem.front + b * problem.rear) for a, b, c in rows])
    whole = np.r_[np.ones(switches), 0.0]
    options = {"mip_rel_gap": 0.0, "node_limit": NODES // switches + 1}

    def choose(shut: list[Any], missing: bool) -> tuple[Any, Found] | None:
        limits = [LinearConstraint(one_of_each, 1, 1), LinearConstraint(straight, -np.inf, most)]
        if shut:
            limits.append(LinearConstraint(np.hstack([np.array(shut), np.zeros((len(shut), 1))]), -np.inf,
                                           len(problem.sizes) - 1))  # fmt: skip
        price = np.r_[cost * (1e-6 if missing else 1.0), problem.front + problem.rear if missing else 0.0]
        answer = milp(price, integrality=whole, constraints=limits, options=options,
                      bounds=Bounds(0, np.r_[np.ones(switches), np.inf if missing else 0.0]))  # fmt: skip
        if answer.status == 1:
            raise TooLargeError
        if answer.x is None:
            return None
        taken = np.round(answer.x[:switches])
        chosen = tuple(int(taken[first:last].argmax()) for first, last in pairwise(starts))
        return taken, Found(chosen, float(taken @ cost), float("nan"))

    return choose


@dataclass(frozen=True)
class _Sums:
    """Outer sums over some of the choices, sorted by handled mass; `order` leads back to the options."""

    front: Any
    rear: Any
    handled: Any
    order: Any
    sizes: tuple[int, ...]


def _parted(problem: Problem) -> tuple[_Sums, _Sums]:
    """Part the choices into an inner block of some thousand sets at most and the rest."""
    sizes = problem.sizes
    cut = len(sizes)
    total = 1
    while cut > 0 and (total * sizes[cut - 1] <= INNER // 4 or cut == len(sizes)):
        cut -= 1
        total *= sizes[cut]
    return _sums(problem, cut, len(sizes)), _sums(problem, 0, cut)


def _sums(problem: Problem, first: int, last: int) -> _Sums:
    def added(parts: tuple[Any, ...]) -> Any:
        total = np.zeros(1)
        for part in parts[first:last]:
            total = np.add.outer(total, np.asarray(part, float)).ravel()
        return total

    handled = added(problem.handled)
    order = np.argsort(handled, kind="stable")
    return _Sums(added(problem.fronts)[order], added(problem.rears)[order], handled[order], order,
                 problem.sizes[first:last])  # fmt: skip


def _found(problem: Problem, inner: _Sums, outer: _Sums, cost: float, delivery: float, place: int, row: int) -> Found:
    options = []
    for sums, at in ((outer, place), (inner, row)):
        options += [int(part) for part in np.unravel_index(sums.order[at], sums.sizes)] if sums.sizes else []
    return Found(tuple(options), float(cost), float(delivery))
