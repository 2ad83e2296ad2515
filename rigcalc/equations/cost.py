"""What does it cost? Owning, repairs, fuel, oil, labour; hire instead; delay. Money is a number in the user's own."""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(
    gives=S.value_share,
    takes=(S.value_c1, S.value_c2, S.value_c3, S.years, S.hours_a_year),
    source="d497",
    where="table 4",
    numeric=True,
    table="remaining_value",
)
def remaining_value(value_c1, value_c2, value_c3, years, hours_a_year):
    """What a machine brings after some years, as a share of list price: the double square root after Cross and Perry."""
    return (value_c1 - value_c2 * years**0.5 - value_c3 * hours_a_year**0.5) ** 2


@equation(gives=S.recovery_factor, takes=(S.interest, S.years), source="ep496", where="cl. 6")
def capital_recovery_factor(interest, years):
    """Payment at the end of each year that pays a unit of price back with interest."""
    return interest * (1 + interest) ** years / ((1 + interest) ** years - 1)


@equation(gives=S.cost_a_year, takes=(S.price, S.salvage, S.recovery_factor, S.interest), source="ep496", where="cl. 6")
def capital_recovery(price, salvage, recovery_factor, interest):
    """Depreciation and interest together, as a cost each year: what is lost is paid back, what is left bears interest."""
    return (price - salvage) * recovery_factor + salvage * interest


@equation(gives=S.cost_a_year, takes=(S.holding_share, S.price, S.salvage), source="isu_a3_29", sure="read in print")
def taxes_insurance_housing(holding_share, price, salvage):
    """Taxes, insurance and housing a year, on the mean of price and salvage."""
    return holding_share * (price + salvage) / 2


@equation(
    gives=S.repair_cost,
    takes=(S.repair_factor_1, S.repair_factor_2, S.list_price, S.hours_of_use),
    source="ep496",
    where="cl. 6.3.1",
    numeric=True,
    table="d497_field_operations",
)
def repairs_since_new(repair_factor_1, repair_factor_2, list_price, hours_of_use):
    """Repairs and maintenance since new: they grow faster than the hours do."""
    return repair_factor_1 * list_price * (hours_of_use / 1000) ** repair_factor_2


@equation(gives=S.fuel_cost, takes=(S.fuel_price, S.fuel_rate), source="tractor_cost_press", sure="restated")
def fuel_cost(fuel_price, fuel_rate):
    """Cost of fuel for each hour."""
    return fuel_price * fuel_rate


@equation(gives=S.oil_cost, takes=(S.oil_share, S.fuel_cost), source="tractor_cost_press", sure="restated")
def oil_cost(oil_share, fuel_cost):
    """Cost of oil and filters for each hour, as a share of the fuel's."""
    return oil_share * fuel_cost


@equation(gives=S.labour_cost, takes=(S.wage, S.labour_factor), source="tractor_cost_press", sure="restated")
def labour_cost(wage, labour_factor):
    """Cost of labour for each hour of the machine: people work longer than machines do."""
    return wage * labour_factor


@equation(gives=S.cost_per_area, takes=(S.cost_an_hour, S.field_capacity), source="ep496", where="cl. 6")
def cost_per_area(cost_an_hour, field_capacity):
    """Cost for each unit of area, of a cost an hour."""
    return cost_an_hour / field_capacity


@equation(gives=S.cost_per_area, takes=(S.ownership_a_year, S.area, S.running_per_area), source="break_even_page",
          sure="read in print")  # fmt: skip
def owned_cost_per_area(ownership_a_year, area, running_per_area):
    """Whole cost for each unit of area: owning spread over the area of a year, and what each unit costs to work."""
    return ownership_a_year / area + running_per_area


@equation(gives=S.area, takes=(S.ownership_a_year, S.hire_rate, S.running_per_area), source="break_even_page",
          sure="read in print")  # fmt: skip
def break_even_area(ownership_a_year, hire_rate, running_per_area):
    """Area a year from which owning is cheaper than hiring."""
    return ownership_a_year / (hire_rate - running_per_area)


@equation(
    gives=S.timeliness_cost,
    takes=(S.loss_a_day, S.area, S.crop_value, S.timeliness_factor, S.field_capacity, S.hours_per_day, S.share_of_days),
    source="ep496",
    where="cl. 8",
)
def timeliness_cost(loss_a_day, area, crop_value, timeliness_factor, field_capacity, hours_per_day, share_of_days):
    """Value of the crop that delay costs in a season: it grows with the square of the area."""
    return loss_a_day * area**2 * crop_value / (timeliness_factor * field_capacity * hours_per_day * share_of_days)


@equation(gives=S.yield_gain, takes=(S.cost_per_area, S.crop_price), source="statics", sure="computed")
def gain_to_pay(cost_per_area, crop_price):
    """Crop for each unit of area that a pass has to gain to pay for itself."""
    return cost_per_area / crop_price


@equation(gives=S.carbon_per_area, takes=(S.fuel_per_area, S.carbon_per_fuel), source="diesel_carbon", sure="restated")
def carbon_per_area(fuel_per_area, carbon_per_fuel):
    """Carbon dioxide from the fuel of a unit of area, burned; making the fuel isn't counted."""
    return fuel_per_area * carbon_per_fuel
