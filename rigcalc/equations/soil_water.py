"""How much water does the soil hold, and at how much does it till well? From texture, organic matter or a retention curve."""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S

_TEXTURE = (S.sand_share, S.clay_share, S.organic_matter)
_WITHIN = {"organic_matter": (0, 8), "clay_share": (0, 0.6)}


@equation(
    gives=S.wilting_point,
    takes=_TEXTURE,
    source="saxton_rawls_2006",
    where="eq. 1",
    sure="restated",
    valid=_WITHIN,
    numeric=True,
)
def wilting_point(sand_share, clay_share, organic_matter):
    """Water that plants can't take: what the soil holds at a suction of 1500 kPa."""
    first = (
        -0.024 * sand_share + 0.487 * clay_share + 0.006 * organic_matter + 0.005 * sand_share * organic_matter
        - 0.013 * clay_share * organic_matter + 0.068 * sand_share * clay_share + 0.031
    )  # fmt: skip
    return first + 0.14 * first - 0.02


@equation(
    gives=S.drained_water,
    takes=_TEXTURE,
    source="saxton_rawls_2006",
    where="eq. 2",
    sure="restated",
    valid=_WITHIN,
    numeric=True,
)
def drained_water(sand_share, clay_share, organic_matter):
    """Field capacity of the soil, the water that stays when it has drained: what it holds at a suction of 33 kPa."""
    first = (
        -0.251 * sand_share + 0.195 * clay_share + 0.011 * organic_matter + 0.006 * sand_share * organic_matter
        - 0.027 * clay_share * organic_matter + 0.452 * sand_share * clay_share + 0.299
    )  # fmt: skip
    return first + 1.283 * first**2 - 0.374 * first - 0.015


@equation(
    gives=S.saturation,
    takes=(*_TEXTURE, S.drained_water),
    source="saxton_rawls_2006",
    where="eq. 3 and 5",
    sure="restated",
    valid=_WITHIN,
    numeric=True,
)
def saturation(sand_share, clay_share, organic_matter, drained_water):
    """Water that fills every pore."""
    first = (
        0.278 * sand_share + 0.034 * clay_share + 0.022 * organic_matter - 0.018 * sand_share * organic_matter
        - 0.027 * clay_share * organic_matter - 0.584 * sand_share * clay_share + 0.078
    )  # fmt: skip
    return drained_water + first + 0.636 * first - 0.107 - 0.097 * sand_share + 0.043


@equation(
    gives=S.bulk_density,
    takes=(S.saturation, S.particle_density),
    source="saxton_rawls_2006",
    where="eq. 6",
    sure="restated",
)
def bulk_density(saturation, particle_density):
    """Dry mass of a volume of soil whose pores take this much water."""
    return (1 - saturation) * particle_density


@equation(
    gives=S.soil_water,
    takes=(S.wilting_point, S.drained_water, S.available_share),
    source="fao_56",
    where="eq. 82, turned round",
)
def water_between(wilting_point, drained_water, available_share):
    """Water of a soil that holds a share of what plants can take; one at field capacity, nothing at the wilting point."""
    return wilting_point + available_share * (drained_water - wilting_point)


@equation(
    gives=S.water_by_mass,
    takes=(S.soil_water, S.bulk_density, S.water_density.in_("g/cm**3")),
    source="statics",
    where="mass balance",
    sure="computed",
)
def water_by_mass(soil_water, bulk_density, water_density):
    """Water in a dry mass of soil, from the water in its volume."""
    return soil_water * water_density / bulk_density


@equation(
    gives=S.upper_limit,
    takes=(S.organic_matter, S.clay),
    source="terzaghi_1988",
    where="abstract",
    sure="read in print",
    numeric=True,
)
def upper_tillage_limit(organic_matter, clay):
    """Wettest that a soil tills without being kneaded, by its organic matter and clay; measured on soils of one country."""
    return 7.5 + 1.91 * organic_matter + 0.34 * clay


@equation(
    gives=S.optimum_water_mass,
    takes=(S.optimum_share, S.plastic_limit),
    source="dexter_bird_2001",
    where="as restated by others",
    sure="restated",
    table="tillage_water",
)
def optimum_from_plastic_limit(optimum_share, plastic_limit):
    """Water at which a plastic soil breaks into the most small crumbs: a little drier than its plastic limit."""
    return optimum_share * plastic_limit


@equation(
    gives=S.optimum_water,
    takes=(S.residual_water, S.saturation, S.retention_exponent),
    source="dexter_2004",
    where="eq. of the inflection point",
    sure="restated",
    table="retention_by_texture",
)
def optimum_from_retention(residual_water, saturation, retention_exponent):
    """Water at the steepest point of the retention curve, which is the best for tillage."""
    m = 1 - 1 / retention_exponent
    return residual_water + (saturation - residual_water) * (1 + 1 / m) ** -m


@equation(
    gives=S.suction,
    takes=(S.retention_alpha, S.retention_exponent),
    source="dexter_2004",
    where="eq. of the inflection point",
    sure="restated",
    table="retention_by_texture",
)
def optimum_suction(retention_alpha, retention_exponent):
    """Suction at the steepest point of the retention curve."""
    m = 1 - 1 / retention_exponent
    return (1 / m) ** (1 / retention_exponent) / retention_alpha


@equation(
    gives=S.steepness,
    takes=(S.residual_water, S.saturation, S.retention_exponent),
    source="dexter_2004",
    where="eq. of the index S",
    sure="restated",
    table="retention_by_texture",
)
def retention_steepness(residual_water, saturation, retention_exponent):
    """Steepness of the retention curve at its steepest point (index S): the larger, the better the soil crumbles."""
    m = 1 - 1 / retention_exponent
    return retention_exponent * (saturation - residual_water) * (1 + 1 / m) ** (-1 - m)


@equation(
    gives=S.upper_water,
    takes=(S.optimum_water, S.saturation, S.wet_share),
    source="dexter_bird_2001",
    table="tillage_water",
)
def upper_from_retention(optimum_water, saturation, wet_share):
    """Wettest that a soil tills, by its retention curve: so far on the way from the best to every pore full."""
    return optimum_water + wet_share * (saturation - optimum_water)


@equation(
    gives=S.soil_water,
    takes=(S.residual_water, S.saturation, S.retention_alpha, S.suction, S.retention_exponent),
    source="carsel_parrish_1988",
    where="the curve of van Genuchten",
    sure="restated",
    table="retention_by_texture",
)
def water_at_suction(residual_water, saturation, retention_alpha, suction, retention_exponent):
    """Water that a soil holds at a suction, by its retention curve."""
    m = 1 - 1 / retention_exponent
    return residual_water + (saturation - residual_water) * (1 + (retention_alpha * suction) ** retention_exponent) ** -m


@equation(
    gives=S.penetration,
    takes=(S.penetration_scale, S.soil_water, S.water_power, S.density_ratio, S.density_power),
    source="da_silva_1994",
    where="64 cores, fitted here",
    sure="computed",
    table="penetration_fit",
)
def penetration_resistance(penetration_scale, soil_water, water_power, density_ratio, density_power):
    """Cone resistance that one farm's cores had at a water content and a density, as a multiple of that of water."""
    return penetration_scale * density_ratio**density_power / soil_water**water_power


@equation(
    gives=S.penetration,
    takes=(S.penetration_read, S.soil_water, S.drained_water, S.water_power),
    source="da_silva_1994",
    where="the fit to 64 cores, the same soil at two waters",
    sure="computed",
    table="penetration_fit",
)
def penetration_at_drained(penetration_read, soil_water, drained_water, water_power):
    """Cone resistance that the same soil would have at field capacity; density is the same in both and falls out."""
    return penetration_read * (soil_water / drained_water) ** water_power
