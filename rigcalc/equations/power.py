"""How much of the engine reaches the drawbar? Gross engine, flywheel, power take-off, axle, drawbar; pull and power."""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(gives=S.engine_power, takes=(S.gross_power, S.net_ratio), source="d497", where="figure 1", table="power_ratios")
def net_flywheel_power(gross_power, net_ratio):
    """Flywheel power that is left of the gross rating after fan, pumps and accessories."""
    return net_ratio * gross_power


@equation(
    gives=S.pto_power, takes=(S.engine_power, S.pto_ratio), source="arizona_machinery", sure="restated", table="power_ratios"
)
def pto_power(engine_power, pto_ratio):
    """Power at the power take-off shaft from power at the flywheel."""
    return pto_ratio * engine_power


@equation(gives=S.axle_power, takes=(S.pto_power, S.axle_ratio), source="d497", where="figure 1", table="power_ratios")
def axle_power_from_pto(pto_power, axle_ratio):
    """Power at the drive axles that goes with a power at the power take-off shaft."""
    return axle_ratio * pto_power


@equation(
    gives=S.drawbar_power,
    takes=(S.pto_power, S.drawbar_ratio),
    source="arizona_machinery",
    sure="restated",
    table="power_ratios",
)
def drawbar_power_from_pto(pto_power, drawbar_ratio):
    """Drawbar power by the ratio table, without looking at slip: the rough way, kept as a cross-check."""
    return drawbar_ratio * pto_power


@equation(gives=S.axle_power, takes=(S.axle_force, S.no_slip_speed.in_("m/s")), source="asabe_s296")
def axle_power(axle_force, no_slip_speed):
    """Power that the driven axles put into the ground: gross traction times the speed without slip."""
    return axle_force * no_slip_speed


@equation(gives=S.no_slip_speed, takes=(S.travel_speed, S.slip), source="asabe_s296")
def no_slip_speed(travel_speed, slip):
    """Speed that the wheels or tracks turn at, from travel speed and slip."""
    return travel_speed / (1 - slip)


@equation(gives=S.rated_power, takes=(S.power, S.loading), source="class_problem_tractor", sure="restated")
def rated_power_for(power, loading):
    """Rated power to buy so that a job uses only the wanted share of it."""
    return power / loading


@equation(
    gives=S.drawbar_power,
    takes=(S.draft.in_("kN"), S.speed),
    source="field_solie",
    sure="restated",
    numeric=True,
)
def drawbar_power(draft, speed):
    """Power that leaves through the drawbar: pull in kN times speed in km/h over 3.6."""
    return draft * speed / 3.6


@equation(
    gives=S.draft.in_("kN"),
    takes=(S.power, S.speed),
    source="field_solie",
    sure="restated",
    numeric=True,
)
def pull_from_power(power, speed):
    """Pull that a power gives at a speed."""
    return 3.6 * power / speed
