"""The answers around a point: depth by speed on a grid, each the model's own, and how far what lies between is off.

Made to be taken along where no model runs. Between four points of the grid figures are read in straight lines, and the
judgement is the worst of the four: no judgement improves with depth or speed (decision 0009), so nothing between is judged
more kindly than the model would. The middle of every cell is worked out too, and says what that reading costs.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.models.machine.case import case_of
from rigcalc.models.machine.limits import worst
from rigcalc.models.machine.sure import how_sure
from rigcalc.models.rig.asked import asked
from rigcalc.models.rig.file import replaced
from rigcalc.models.rig.rig import Rig
from rigcalc.models.size.verdict import Judgement, judged

JUDGED = (Judgement.GO, Judgement.TRY, Judgement.DONT)
FIGURES = ("slip", "engine_share", "drawbar_pull", "field_capacity", "fuel_per_area", "front_load", "rear_load")
DEPTHS, SPEEDS = 6, 4  # steps to either side of the point
_DEPTH_STEP, _SPEED_STEP = 1.27, 0.40234  # cm and km/h: half an inch and a quarter of a mile an hour
_LEAST_DEPTH, _LEAST_SPEED = 2.54, 1.0  # cm, km/h: no shallower and no slower than anybody works


@dataclass(frozen=True)
class Around:
    """Answers on a grid of n depths by m speeds.

    depths (n,) cm; speeds (m,) km/h; judged (n, m): 0 go, 1 try it first, 2 don't, as in JUDGED; chance (n, m); nearest (n, m):
    name of the limit to look at first, or "ground_" and its state where the ground's wetness decides; figures: name -> (n, m)
    in the units of `operating_point.UNITS`, nan where nothing is pulled. off: name -> greatest difference between figures read
    in straight lines and the model, in the middle of cells; kinder: cells that the model judges worse in their middle than at
    all of their points; these points are judged so too.
    """

    rig: Rig
    depths: Any
    speeds: Any
    judged: Any
    chance: Any
    nearest: Any
    figures: dict[str, Any]
    off: dict[str, float]
    kinder: int


def around(rig: Rig, progress: Callable[[float], None] | None = None) -> Around:
    """Work out the answers around a rig's own depth and speed.

    `progress` is told the share that is done, and may raise to stop. Raises InputError for a rig that can't be used.
    """
    rig = asked(rig)
    depths = _axis(rig.work.depth.to("cm"), _DEPTH_STEP, DEPTHS, _LEAST_DEPTH)
    speeds = _axis(rig.work.speed.to("km/h"), _SPEED_STEP, SPEEDS, _LEAST_SPEED)
    middles = [(axis[1:] + axis[:-1]) / 2 for axis in (depths, speeds)]
    total, done = depths.size * speeds.size + middles[0].size * middles[1].size, 0

    def at(depth: float, speed: float) -> tuple[int, float, str, list[float]]:
        nonlocal done
        done += 1
        if progress is not None:
            progress(done / total)
        return _judged(rig, depth, speed)

    found = [[at(depth, speed) for speed in speeds] for depth in depths]
    between = [[at(depth, speed) for speed in middles[1]] for depth in middles[0]]
    judgements, chance = (np.array([[point[place] for point in row] for row in found]) for place in (0, 1))
    figures = np.array([[point[3] for point in row] for row in found])
    read, true = _middle(figures), np.array([[point[3] for point in row] for row in between])
    with np.errstate(invalid="ignore"):
        off = np.nanmax(np.where(np.isfinite(read - true), np.abs(read - true), 0.0), axis=(0, 1))
    inside = np.array([[point[0] for point in row] for row in between])
    kinder = _worst_corner(judgements) < inside
    for i, j in np.argwhere(kinder):  # what the rule doesn't hold for is made to hold: the points around read worse
        judgements[i : i + 2, j : j + 2] = np.maximum(judgements[i : i + 2, j : j + 2], inside[i, j])
    return Around(
        rig, depths, speeds, judgements, chance, np.array([[point[2] for point in row] for row in found]),
        {name: figures[..., place] for place, name in enumerate(FIGURES)},
        {name: float(off[place]) for place, name in enumerate(FIGURES)}, int(kinder.sum()),
    )  # fmt: skip


def _axis(middle: float, step: float, steps: int, least: float) -> Any:
    values = middle + step * np.arange(-steps, steps + 1)
    return values[values >= min(least, middle)]


def _judged(rig: Rig, depth: float, speed: float) -> tuple[int, float, str, list[float]]:
    here = replaced(rig, {"work.depth": f"{float(depth)!r} cm", "work.speed": f"{float(speed)!r} km/h"})
    case = case_of(here)
    sure = how_sure(case.bare, case.caps)
    found = judged(case, sure.chance_works)
    share, binding = worst(case.used)
    critical = case.used.get("critical_depth")
    nearest = "critical_depth" if found.works and critical is not None and critical > share else str(binding)
    if found.soil is not None and found.judgement is not found.alone:
        nearest = f"ground_{found.soil}"
    values = [float(getattr(case.point, name)) for name in FIGURES]
    return JUDGED.index(found.judgement), sure.chance_works, nearest, [v if np.isfinite(v) else np.nan for v in values]


def _middle(values: Any) -> Any:
    return (values[1:, 1:] + values[1:, :-1] + values[:-1, 1:] + values[:-1, :-1]) / 4


def _worst_corner(judged: Any) -> Any:
    return np.max([judged[1:, 1:], judged[1:, :-1], judged[:-1, 1:], judged[:-1, :-1]], axis=0)
