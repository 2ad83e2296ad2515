"""What do the marks in the field say? Slip from turns, distance or speeds, a count's error, the wrong base of charts."""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(gives=S.slip, takes=(S.travel_speed, S.no_slip_speed), source="asabe_s296")
def slip_from_speeds(travel_speed, no_slip_speed):
    """Slip from ground speed and wheel speed read at the same time."""
    return 1 - travel_speed / no_slip_speed


@equation(gives=S.slip_error, takes=(S.count_error, S.slip, S.turns_loaded), source="rigcalc_rule", sure="computed")
def slip_count_error(count_error, slip, turns_loaded):
    """How far slip may be off, either way, when both counts of turns may be off: first order in the error."""
    return count_error * (2 - slip) / turns_loaded


@equation(
    gives=S.slip_wrong_base,
    takes=(S.turns, S.rolling_circumference, S.distance),
    source="dealer_slip_page",
    where="example",
    sure="read in print",
)
def slip_over_ground_distance(turns, rolling_circumference, distance):
    """The wrong base, kept so that printed charts can be understood: travel lost over the ground covered."""
    return turns * rolling_circumference / distance - 1


@equation(
    gives=S.slip_wrong_base,
    takes=(S.turns_loaded, S.turns_unloaded),
    source="dealer_slip_page",
    where="its rule, on turns",
    sure="computed",
)
def slip_over_unloaded_turns(turns_loaded, turns_unloaded):
    """The same wrong base on counted turns: the extra turns over those without load."""
    return (turns_loaded - turns_unloaded) / turns_unloaded


@equation(gives=S.slip, takes=(S.turns_loaded, S.turns_unloaded), source="arizona_machinery", sure="restated")
def slip_from_turns(turns_loaded, turns_unloaded):
    """Slip from wheel turns counted over one marked distance, with and without load."""
    return (turns_loaded - turns_unloaded) / turns_loaded


@equation(gives=S.slip, takes=(S.turns, S.rolling_circumference, S.distance), source="asabe_s296")
def slip_from_distance(turns, rolling_circumference, distance):
    """Slip from the distance covered in a counted number of turns; the base is the distance without slip."""
    return 1 - distance / (turns * rolling_circumference)
