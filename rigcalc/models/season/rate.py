"""Area an hour in each likely field: where draft or soil ask for more than there is, the rig goes slower or stands still."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.models.machine.case import Case
from rigcalc.models.machine.draws import draws_for
from rigcalc.models.machine.limits import NEEDS, shares
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.season.plan import choice

DRAWS = 256
_ROUNDS = 8


@dataclass(frozen=True)
class Rate:
    """One rig over the draws, bare arrays: ha/h and L/h in the field. slowed, stuck: shares of the draws in which it goes
    slower than wished, and in which it can't go on at all."""

    capacity: Any
    burned: Any
    slowed: float
    stuck: float


def rate(b: BareRig, case: Case, seed: int, count: int = DRAWS) -> Rate:
    """Give the area an hour that a rig does in each draw. b: its bare numbers, with the field efficiency that counts."""
    drawn = draws_for(b, seed, count)
    least, pace = choice("least_speed"), np.ones(count)
    want = tuple(dict.fromkeys((*NEEDS, "field_capacity", "mean_fuel_rate", "slip")))
    for _ in range(_ROUNDS):
        at = b.at(speed=b.speed * pace)
        point = solve(at, drawn=drawn, want=want)
        used = np.broadcast_to(shares(at, point, case.caps)["engine"], pace.shape)
        short = ~(used <= 1)
        if not (short & (pace > least)).any():
            break
        slower = np.where(np.isfinite(used), np.clip(0.995 / np.where(used > 1, used, 1), 0.5, 1), 0.9)
        pace = np.where(short, np.maximum(pace * slower, least), pace)
    goes = np.isfinite(point.slip) & (used <= 1)
    return Rate(
        capacity=np.where(goes, np.broadcast_to(point.field_capacity, pace.shape), 0.0),
        burned=np.where(goes, np.broadcast_to(point.mean_fuel_rate, pace.shape), 0.0),
        slowed=float(np.mean(goes & (pace < 0.999))),
        stuck=float(np.mean(~goes)),
    )
