"""What the pictures show, as bare arrays: limits over depth and speed, pull and efficiency over slip, where power goes.

Plain data, no plotting: the app, the sheet and a notebook draw from the same numbers.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.models.machine.draft_force import gangs_force
from rigcalc.models.machine.limits import LIMITS, NEEDS, WORKING, Caps, shares, worst
from rigcalc.models.machine.operating_point import Point, slip_sweep, solve
from rigcalc.models.rig.bare import BareRig

WITHIN = 0.99  # the band of best slip: efficiency within 1 percent of its peak


@dataclass(frozen=True)
class LimitsMap:
    """Over depth (rows, cm) and speed (columns, km/h): the greatest share, the limit that has it, slip, engine share."""

    depths: Any
    speeds: Any
    worst: Any
    binding: Any
    slip: Any
    engine_share: Any


def limits_map(b: BareRig, c: Caps, depths: Any, speeds: Any) -> LimitsMap:
    """Compute the map for 1-d arrays of depths (cm) and speeds (km/h). NaN slip where it can't be pulled."""
    depths, speeds = np.asarray(depths, float), np.asarray(speeds, float)
    grid = b.at(depth=depths[:, None], speed=speeds[None, :])
    p = solve(grid, want=NEEDS)
    share, names = worst(shares(grid, p, c))
    return LimitsMap(depths, speeds, share, names, p.slip, p.engine_share)


@dataclass(frozen=True)
class SlipCurve:
    """At the axle loads of one point, over slip: net pull (kN), tractive efficiency, and drawbar power at full engine (kW).

    best is the slip of best efficiency; low and high bound the band within 1 percent of it. All NaN as in `best_slip`.
    """

    slip: Any
    net_pull: Any
    efficiency: Any
    low: float
    best: float
    high: float


def slip_curve(b: BareRig, slips: Any | None = None) -> SlipCurve:
    """Compute pull and efficiency over slip at the axle loads that the rig has at its own point."""
    slip = np.linspace(0.002, 0.6, 300) if slips is None else np.asarray(slips, float)
    pull, force = slip_sweep(b, slip)
    efficiency = pull / force * (1 - slip)
    low, best, high = best_slip(b)
    return SlipCurve(slip, pull, efficiency, low, best, high)


def best_slip(b: BareRig) -> tuple[float, float, float]:
    """Give (low, best, high): the slip of best tractive efficiency and the band within 1 percent of it.

    All NaN where the running gear can't even roll itself along (mud), so that no slip has an efficiency above 0.
    """
    slip = np.linspace(0.0005, 0.5, 4000)
    pull, force = slip_sweep(b, slip)
    efficiency = np.fmax(pull / force * (1 - slip), 0.0)  # what can't be worked out counts as none
    top = int(efficiency.argmax())
    if not efficiency[top] > 0:
        return math.nan, math.nan, math.nan
    inside = np.flatnonzero(efficiency >= WITHIN * efficiency[top])
    return float(slip[inside[0]]), float(slip[top]), float(slip[inside[-1]])


@dataclass(frozen=True)
class Flow:
    """One stretch of the way from engine to soil: its name, and its power in kW."""

    name: str
    power: float


def power_flow(b: BareRig, p: Point) -> list[Flow]:
    """Split engine power into losses and useful work, in the order in which it flows; the parts add up to the first.

    Gives an empty list where the rig can't pull.
    """
    if not np.isfinite(p.slip):
        return []
    engine, pto, axle = float(p.engine_power), float(p.pto_power), float(p.axle_power)
    slip_loss = axle * float(p.slip)
    arrives = float(p.net_pull) * float(p.speed) / 3.6
    rolling = axle - slip_loss - arrives
    gangs = float(gangs_force(b)) * float(p.speed) / 3.6
    soil = float(p.draft) * float(p.speed) / 3.6 - gangs
    return [
        Flow("engine", engine),
        Flow("engine_losses", engine - pto),
        Flow("axle_losses", pto - axle),
        Flow("slip", slip_loss),
        Flow("rolling", rolling),
        Flow("implement", arrives - soil - gangs),
        *([Flow("gangs", gangs)] if b.gangs else []),
        Flow("soil", soil),
    ]


def room_left(used: dict[str, Any]) -> list[tuple[str, float]]:
    """Give the hard and working limits with their shares, the fullest first."""
    pairs = [(name, float(share)) for name, share in used.items() if LIMITS[name].hard or name in WORKING]
    return sorted(pairs, key=lambda pair: -pair[1])
