"""Seeking: where a condition that holds stops holding, by grids that narrow the bracket around the edge.

A grid costs one call of the chain however many values it holds, so a few wide grids beat many single steps.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np


def first_run(passes: Any) -> tuple[int, int] | None:
    """Give the places of the first and last value of the first run that passes; None where nothing does.

    passes: 1-d array of bool. A run needn't start at the first value.
    """
    passes = np.asarray(passes)
    if not passes.any():
        return None
    start = int(passes.argmax())
    fails = np.flatnonzero(~passes[start:])
    return start, start + int(fails[0]) - 1 if fails.size else passes.size - 1


def bracket(inside: Any, outside: Any, points: int) -> Any:
    """Give a grid of `points` from a value that passes to one that doesn't: rows along the way, a column a bracket."""
    return np.linspace(inside, outside, points)


def narrowed(grid: Any, passes: Any) -> tuple[Any, Any, Any]:
    """Give the part of each column of a grid in which `passes` first stops holding, as (inside, outside, row of outside).

    The first row is taken to pass and the last to fail, whatever rounding says of them.
    """
    passes = np.array(passes, bool).reshape(np.shape(grid))
    passes[0], passes[-1] = True, False
    place = np.expand_dims(passes.argmin(axis=0), 0)
    inside, outside = np.take_along_axis(grid, place - 1, axis=0), np.take_along_axis(grid, place, axis=0)
    return inside[0], outside[0], place[0]


def edge(passes: Callable[[Any], Any], inside: Any, outside: Any, *, points: int = 257, rounds: int = 3) -> tuple[Any, Any]:
    """Narrow one bracket, or several at once, to the edge between what passes and what doesn't.

    passes: takes a flat array of values, gives an array of bool. inside, outside: a value that passes and one that doesn't,
    or 1-d arrays of them. Gives the narrowed (inside, outside): each round brings them `points - 1` times closer.
    """
    shape = np.shape(inside)
    inside, outside = np.atleast_1d(np.asarray(inside, float)), np.atleast_1d(np.asarray(outside, float))
    for _ in range(rounds):
        grid = bracket(inside, outside, points)
        inside, outside, _ = narrowed(grid, passes(grid.ravel()))
    return inside.reshape(shape)[()], outside.reshape(shape)[()]
