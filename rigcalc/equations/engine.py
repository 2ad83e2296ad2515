"""What can the engine give at this speed? Full-load torque by straight lines between the points that are known."""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(
    gives=S.torque_available,
    takes=(S.torque_low, S.torque_high, S.engine_speed_low, S.engine_speed_high, S.engine_speed_ratio),
    source="rigcalc_assumption",
    sure="common practice",
)
def full_load_torque(torque_low, torque_high, engine_speed_low, engine_speed_high, engine_speed_ratio):
    """Full-load torque between two engine speeds at which it is known, by a straight line."""
    share = (engine_speed_ratio - engine_speed_low) / (engine_speed_high - engine_speed_low)
    return torque_low + (torque_high - torque_low) * share


@equation(
    gives=S.torque_available,
    takes=(S.torque_high, S.engine_speed_ratio, S.torque_peak_ratio),
    source="rigcalc_assumption",
    sure="common practice",
)
def torque_below_peak(torque_high, engine_speed_ratio, torque_peak_ratio):
    """Full-load torque below the speed of most torque: it falls by an unknown amount, taken as in proportion to speed."""
    return torque_high * engine_speed_ratio / torque_peak_ratio


@equation(
    gives=S.power,
    takes=(S.rated_pto_power, S.torque_available, S.engine_speed_ratio),
    source="statics",
    sure="computed",
)
def power_at_engine_speed(rated_pto_power, torque_available, engine_speed_ratio):
    """Most power at an engine speed: power is torque times speed."""
    return rated_pto_power * torque_available * engine_speed_ratio
