"""How hard to pump a tyre? Load index, table of loads and pressures, deflection, contact, and stress in the soil below."""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S
from rigcalc.core.tables import table


@equation(
    gives=S.load_mass,
    takes=(S.load_index,),
    source="load_index_lists",
    where="whole list",
    sure="read in print",
    table="load_index",
    traced=False,
    numeric=True,
)
def listed_load_index_mass(load_index):
    """Mass behind a load index by the printed list (151 and up from memory). NaN for an index that isn't in the list."""
    masses = np.array([row["mass"] for row in table("load_index")])
    index = np.asarray(load_index, float)
    inside = (index >= 0) & (index < masses.size) & (index == np.round(index))
    return np.where(inside, masses[np.where(inside, index, 0).astype(int)], np.nan)[()]


@equation(
    gives=S.tyre_load,
    takes=(S.load_mass, S.mounting_factor),
    source="common_practice",
    sure="from memory",
    where="tyre yearbooks",
    table="tyre_rules",
)
def tyre_capacity(load_mass, mounting_factor):
    """Mass that one tyre may carry, given how many stand side by side: duals and triples don't share evenly."""
    return load_mass * mounting_factor


@equation(
    gives=S.inflation,
    takes=(S.tyre_load, S.load_low, S.load_high, S.inflation_low, S.inflation_high),
    source="rigcalc_rule",
    sure="computed",
)
def inflation_between_rows(tyre_load, load_low, load_high, inflation_low, inflation_high):
    """Pressure for a load between two rows of the tyre's own table, by a straight line."""
    return inflation_low + (inflation_high - inflation_low) * (tyre_load - load_low) / (load_high - load_low)


@equation(
    gives=S.inflation,
    takes=(S.listed_inflation, S.tyre_load, S.listed_load, S.inflation_exponent),
    source="common_practice",
    sure="from memory",
    where="bias-ply design exponent",
    table="tyre_rules",
)
def inflation_by_law(listed_inflation, tyre_load, listed_load, inflation_exponent):
    """Pressure for a load by a generic law from one known pair: a makeshift where the tyre's own table is missing."""
    return listed_inflation * (tyre_load / listed_load) ** (1 / inflation_exponent)


@equation(
    gives=S.deflection_ratio,
    takes=(S.rated_deflection_ratio, S.tyre_load, S.listed_load),
    source="rigcalc_assumption",
    sure="common practice",
)
def deflection_at_pressure(rated_deflection_ratio, tyre_load, listed_load):
    """Deflection ratio at a pressure: the tyre as a spring that reaches its rated deflection at the listed load."""
    return rated_deflection_ratio * tyre_load / listed_load


@equation(
    gives=S.tyre_contact_area,
    takes=(S.wheel_load, S.inflation),
    source="arvidsson_keller_2007",
    sure="read in print",
    valid={"inflation": (70, 150), "wheel_load": (11, 33)},
)
def contact_area_from_inflation(wheel_load, inflation):
    """Contact area of a tyre whose mean ground pressure is near its inflation pressure."""
    return wheel_load / inflation


@equation(
    gives=S.tyre_contact_area,
    takes=(S.section_width, S.diameter),
    source="mckyes_1985",
    sure="from memory",
)
def contact_area_quick(section_width, diameter):
    """Contact area of a tyre on firm ground by a rule of thumb; on soft ground twice as much."""
    return section_width * diameter / 4


@equation(
    gives=S.stress_depth,
    takes=(S.tyre_contact_area, S.pressure, S.stress, S.concentration_factor),
    source="sohne_1953",
    sure="from memory",
)
def stress_depth(tyre_contact_area, pressure, stress, concentration_factor):
    """Depth down to which a wheel brings a stress: a round contact, evenly loaded. The pressure is above the stress."""
    radius = np.sqrt(tyre_contact_area / np.pi)
    return radius / np.sqrt((1 - stress / pressure) ** (-2 / concentration_factor) - 1)
