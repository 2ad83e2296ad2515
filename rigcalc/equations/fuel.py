"""What will it burn? Fuel at part load and reduced engine speed, for each hour and each area; exhaust fluid."""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(gives=S.fuel_rate, takes=(S.pto_power,), source="grisso_fuel", sure="restated", numeric=True)
def fuel_rate_average(pto_power):
    """Fuel for each hour as an average over a year of mixed work; too low for heavy tillage."""
    return 0.223 * pto_power


@equation(
    gives=S.specific_fuel,
    takes=(S.load_ratio,),
    source="grisso_2004",
    valid={"load_ratio": (0.2, 1.0)},
    numeric=True,
    table="fuel_coefficients",
)
def specific_fuel_consumption(load_ratio):
    """Fuel for each unit of work at full throttle and part load."""
    return 0.22 + 0.096 / load_ratio


@equation(
    gives=S.throttle_multiplier,
    takes=(S.load_ratio, S.engine_speed_ratio),
    source="d497",
    where="cl. 3",
    valid={"load_ratio": (0.2, 1.0)},
    fitted=True,
)
def partial_throttle_multiplier(load_ratio, engine_speed_ratio):
    """Factor on fuel for doing the same work in a higher gear at reduced engine speed."""
    return 1 - (engine_speed_ratio - 1) * (0.45 * load_ratio - 0.877)


@equation(
    gives=S.fuel_rate,
    takes=(S.rated_pto_power, S.load_ratio),
    source="grisso_2004",
    valid={"load_ratio": (0.0, 1.0)},
    numeric=True,
    table="fuel_coefficients",
)
def fuel_rate(rated_pto_power, load_ratio):
    """Fuel for each hour at full throttle and part load."""
    return (0.22 * load_ratio + 0.096) * rated_pto_power


@equation(gives=S.fuel_per_area, takes=(S.fuel_rate, S.field_capacity), source="d497", where="cl. 3")
def fuel_per_area(fuel_rate, field_capacity):
    """Fuel for each unit of area, from hourly fuel and effective field capacity."""
    return fuel_rate / field_capacity


@equation(gives=S.fuel_rate, takes=(S.power, S.fuel_efficiency), source="nebraska_press", sure="restated")
def fuel_rate_from_efficiency(power, fuel_efficiency):
    """Fuel for each hour from a test report's work for each unit of fuel."""
    return power / fuel_efficiency


@equation(gives=S.def_volume, takes=(S.fuel, S.def_share.in_("1")), source="def_press", sure="restated", table="def_share")
def def_use(fuel, def_share):
    """Diesel exhaust fluid that goes with an amount of fuel."""
    return fuel * def_share


@equation(gives=S.fuel_rate, takes=(S.test_idle, S.test_slope, S.pto_power), source="statics", sure="computed")
def fuel_rate_by_test(test_idle, test_slope, pto_power):
    """Fuel for each hour by the straight line through the points of the tractor's own test report."""
    return test_idle + test_slope * pto_power


@equation(
    gives=S.mean_fuel_rate, takes=(S.fuel_rate, S.turning_rate, S.field_efficiency), source="rigcalc_assumption",
    where="docs/decisions/0012-engine-and-fuel.md", sure="common practice",
)  # fmt: skip
def fuel_rate_in_field(fuel_rate, turning_rate, field_efficiency):
    """Fuel for each hour in the field: work burns one rate, turns and stops another, by their shares of the time."""
    return field_efficiency * fuel_rate + (1 - field_efficiency) * turning_rate
