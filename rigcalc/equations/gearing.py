"""What does a gear do? Speed from engine and gearing, engine speed in a higher gear, torque used and torque there is.

The factor on fuel stands in fuel.py.
"""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(gives=S.engine_speed_ratio, takes=(S.no_slip_speed, S.gear_speed), source="statics", sure="computed")
def engine_speed_in_gear(no_slip_speed, gear_speed):
    """Engine speed, as a share of rated speed, that gives a wheel speed in a gear."""
    return no_slip_speed / gear_speed


@equation(gives=S.torque_used, takes=(S.load_ratio, S.engine_speed_ratio), source="statics", sure="computed")
def torque_used(load_ratio, engine_speed_ratio):
    """Torque at work over torque at rated power: power is torque times speed."""
    return load_ratio / engine_speed_ratio


@equation(
    gives=S.torque_available,
    takes=(S.torque_rise, S.engine_speed_ratio, S.torque_peak_ratio),
    source="rigcalc_assumption",
    sure="common practice",
)
def torque_available(torque_rise, engine_speed_ratio, torque_peak_ratio):
    """Full-load torque between rated speed and the speed of most torque, by a straight line."""
    return 1 + torque_rise * (1 - engine_speed_ratio) / (1 - torque_peak_ratio)


@equation(gives=S.torque_reserve, takes=(S.torque_used, S.torque_available), source="statics", sure="computed")
def torque_reserve(torque_used, torque_available):
    """Share of the torque at this engine speed that is left for hard spots."""
    return 1 - torque_used / torque_available


@equation(
    gives=S.travel_speed, takes=(S.wheel_diameter, S.engine_speed, S.total_ratio), source="exam_bank_tractor", sure="restated",
    numeric=True,
)  # fmt: skip
def travel_speed_from_engine(wheel_diameter, engine_speed, total_ratio):
    """Speed without slip from engine speed and gearing."""
    return np.pi * wheel_diameter * engine_speed / total_ratio * 60 / 1000
