"""How hard to pump a tyre? Its own table of loads and pressures, a law where there is none, and deflection."""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


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
