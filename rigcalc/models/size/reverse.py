"""The reverse questions: deepest, fastest, most tools, smallest engine, least mass; each with what binds there.

All are answered by the forward relations on a grid that is refined around the first point that fails, so an answer can
never contradict the forward calculation.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from rigcalc.core.units import mass_of
from rigcalc.models.machine.limits import Caps, shares, worst
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import BareRig

_GRID = 257
_DEEPEST = 100.0  # cm
_FASTEST = 20.0  # km/h


@dataclass(frozen=True)
class Furthest:
    """The answer to one reverse question: bare value (None where there is none), its unit, and the limit that binds."""

    question: str
    value: float | None
    unit: str
    binds: str


def reverse_answers(b: BareRig, c: Caps) -> list[Furthest]:
    """Answer all five questions for one rig."""
    return [
        Furthest("deepest", *_largest(lambda x: _used(b.at(depth=x), c), 1.0, _DEEPEST, "cm")),
        Furthest("fastest", *_largest(lambda x: _used(b.at(speed=x), c), 0.5, _FASTEST, "km/h")),
        _most_tools(b, c),
        _smallest_engine(b, c),
        _least_mass(b, c),
    ]


def _used(b: BareRig, c: Caps) -> dict[str, Any]:
    return shares(b, solve(b), c)


def _largest(used: Callable[[Any], dict[str, Any]], low: float, high: float, unit: str) -> tuple[float | None, str, str]:
    """Find the end of the first run of values, from `low` up, that pass every limit."""
    grid = np.linspace(low, high, _GRID)
    for _ in range(4):  # each pass narrows the bracket 256 times
        end, bind = _first_run(used(grid), grid.shape)
        if end is None or end == grid.size - 1:
            return (None if end is None else float(grid[end])), unit, bind
        grid = np.linspace(grid[end], grid[end + 1], _GRID)
    return float(grid[0]), unit, bind


def _first_run(used: dict[str, Any], shape: tuple[int, ...]) -> tuple[int | None, str]:
    """Give the last index of the first run that passes, and what binds just after it. None where nothing passes.

    A run needn't start at the first value: one shank alone may break a rating that many shanks share.
    """
    share, names = (np.broadcast_to(part, shape) for part in worst(used))
    passes = share <= 1.0
    if not passes.any():
        return None, str(names[int(np.argmin(share))])
    start = int(passes.argmax())
    fails = np.flatnonzero(~passes[start:])
    if not fails.size:
        return shape[0] - 1, "nothing up to there"
    return start + int(fails[0]) - 1, str(names[start + int(fails[0])])


def _most_tools(b: BareRig, c: Caps) -> Furthest:
    counts = np.arange(1.0, 201.0)
    end, bind = _first_run(_used(b.at(tools=counts), c), counts.shape)
    return Furthest("most tools", None if end is None else float(counts[end]), "1", bind)


def _smallest_engine(b: BareRig, c: Caps) -> Furthest:
    """The least maximum power (in the rating of the rig file) that does this job with this grip."""
    point = solve(b)
    used = {name: share for name, share in shares(b, point, c).items() if name not in ("engine",)}
    share, name = worst(used)
    if share > 1.0:
        return Furthest("smallest engine", None, "kW", str(name))
    return Furthest("smallest engine", float(point.engine_power), "kW", "engine")


def _least_mass(b: BareRig, c: Caps) -> Furthest:
    """The least tractor mass, spread over the axles as it is now, that still passes every limit."""

    def used(inverse: Any) -> dict[str, Any]:
        scale = 1.0 / inverse
        lighter = replace(b, front_weight=b.front_weight * scale, rear_weight=b.rear_weight * scale)
        return _used(lighter, c)

    # A load limit may bind at the heavy end, so start at the mass as it stands and go lighter; if that fails, go heavier.
    start = 1.0
    if worst(used(np.asarray(1.0)))[0] > 1.0:
        heavier = np.linspace(1.0, 1 / 3.0, _GRID)
        share, _ = worst(used(heavier))
        passes = np.flatnonzero(np.broadcast_to(share, heavier.shape) <= 1.0)
        if not passes.size:
            return Furthest("least mass", None, "kg", str(worst(used(np.asarray(1.0)))[1]))
        start = float(heavier[passes[0]])
    inverse, _, name = _largest(used, start, 20.0, "kg")
    if inverse is None:
        return Furthest("least mass", None, "kg", name)
    return Furthest("least mass", mass_of(b.weight / inverse), "kg", name)
