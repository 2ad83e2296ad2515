"""The searches over sets against walking every set by hand, on problems made up of random numbers."""

import itertools

import numpy as np
import pytest

from rigcalc.models.ballast import search as searching
from rigcalc.models.ballast.search import Problem, closest, nearest, search

FLOOR = 0.8


@pytest.fixture(params=[searching.INNER, 24], ids=["in one block", "in many"])
def blocks(request, monkeypatch):
    """All sets in one block, or in blocks of a few."""
    monkeypatch.setattr(searching, "INNER", request.param)


def made_up(seed):
    """A problem with three choices; limits that pull against each other and a delivery that grows with the rear mass."""
    random = np.random.default_rng(seed)
    sizes = (4, 5, 3)
    fronts, rears = (tuple(random.uniform(-300, 300, size) for size in sizes) for _ in range(2))
    handled = tuple(random.uniform(0, 400, size) for size in sizes)
    rows = tuple((*random.uniform(-1, 1, 2), random.uniform(-50, 500)) for _ in range(3))

    def accept(front, rear):
        delivery = 0.7 + (rear - front) / 10_000
        return delivery >= FLOOR, delivery

    return Problem(fronts, rears, handled, 1000.0, 1000.0, rows, accept)


def every_set(problem):
    for options in itertools.product(*(range(size) for size in problem.sizes)):
        front, rear, cost = (
            start + sum(part[at] for part, at in zip(parts, options, strict=True))
            for start, parts in ((problem.front, problem.fronts), (problem.rear, problem.rears), (0.0, problem.handled))
        )
        yield options, front, rear, cost


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.usefixtures("blocks")
def test_search_gives_the_cheapest_that_pass(seed):
    problem = made_up(seed)
    walked = sorted(
        (cost, options)
        for options, front, rear, cost in every_set(problem)
        if 0.7 + (rear - front) / 10_000 >= FLOOR and all(a * front + b * rear + c <= 1e-6 for a, b, c in problem.rows)
    )
    found = search(problem, wanted=3)
    assert [each.options for each in found] == [options for _, options in walked[:3]]
    assert [each.handled for each in found] == pytest.approx([cost for cost, _ in walked[:3]])


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.usefixtures("blocks")
def test_nearest_misses_least_then_costs_least(seed):
    problem, scale = made_up(seed), 2000.0

    def miss(front, rear):
        over = max((a * front + b * rear + c) / scale for a, b, c in problem.rows)
        return round(max(over, 1 - (0.7 + (rear - front) / 10_000) / FLOOR, 0.0), 9)

    walked = [(miss(front, rear), cost, options) for options, front, rear, cost in every_set(problem)]
    found, most = nearest(problem, scale, FLOOR)
    assert found.options == min(walked)[2]
    assert most == pytest.approx(max(0.7 + (rear - front) / 10_000 for _, front, rear, _ in every_set(problem)))


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.usefixtures("blocks")
def test_closest_keeps_every_row_then_misses_least(seed):
    problem = made_up(seed)

    def missed(front, rear):
        return np.where(rear > 900, np.abs(front - 1100.0), np.inf)

    walked = [
        (round(abs(front - 1100.0), 9), cost, options)
        for options, front, rear, cost in every_set(problem)
        if rear > 900 and all(a * front + b * rear + c <= 1e-6 for a, b, c in problem.rows)
    ]
    found = closest(problem, missed)
    assert (found.options if found else None) == (min(walked)[2] if walked else None)
