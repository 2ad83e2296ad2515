"""What does the ground bear before it gives? Precompression stress by density, clay and water; stress beside a load's axis."""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(
    gives=S.strength_root,
    takes=(S.bulk_density, S.clay_share, S.suction_log),
    source="schjonning_lamande_2018",
    where="regression, the root of the stress",
    sure="restated",
    fitted=True,
    numeric=True,
    valid={"suction_log": (1.5, 2.6)},
)
def precompression_root(bulk_density, clay_share, suction_log):
    """Root of the stress that the ground bears, by density, clay and suction. Below zero it bears nothing."""
    return -26.51 + 25.57 * bulk_density - 20.40 * clay_share + 10.26 * clay_share * suction_log


@equation(
    gives=S.precompression,
    takes=(
        S.strength_base, S.strength_per_density, S.bulk_density, S.strength_per_clay, S.clay_share, S.strength_per_water,
        S.water_by_mass,
    ),
    source="saffih_hdadi_2009",
    where="form of its regressions, and of Imhoff and others (2004)",
    sure="restated",
    table="precompression",
)  # fmt: skip
def precompression_from_water(
    strength_base, strength_per_density, bulk_density, strength_per_clay, clay_share, strength_per_water, water_by_mass
):
    """Stress that the ground bears by density, clay and water; below zero where the regression doesn't hold."""
    return (
        strength_base
        + strength_per_density * bulk_density
        + strength_per_clay * clay_share
        + strength_per_water * water_by_mass
    )


@equation(
    gives=S.bulk_density,
    takes=(S.particle_density, S.volume_base, S.compression_index, S.swelling_index, S.mean_stress),
    source="osullivan_1999",
    where="virgin compression, then unloaded to 1 kPa",
    sure="restated",
    numeric=True,
)
def density_after_stress(particle_density, volume_base, compression_index, swelling_index, mean_stress):
    """Dry density that a mean stress leaves behind, in ground that never bore as much: pressed, then let go to 1 kPa."""
    return particle_density / (volume_base - (compression_index - swelling_index) * np.log(mean_stress))


@equation(
    gives=S.tension,
    takes=(S.tension_wet, S.tension_dry, S.drained_water, S.wilting_point, S.soil_water),
    source="saxton_rawls_2006",
    where="eq. of tensions from 1500 to 33 kPa",
    sure="restated",
    table="soil_stress",
)
def tension_at_water(tension_wet, tension_dry, drained_water, wilting_point, soil_water):
    """Suction at a water content, on a straight line of logarithms between field capacity and wilting point."""
    power = np.log(tension_dry / tension_wet) / np.log(drained_water / wilting_point)
    return tension_wet * (drained_water / soil_water) ** power


@equation(
    gives=S.stress,
    takes=(S.wheel_load, S.concentration_factor, S.stress_depth, S.stress_aside),
    source="sohne_1953",
    where="Fröhlich's point load",
    sure="restated",
)
def stress_beside_load(wheel_load, concentration_factor, stress_depth, stress_aside):
    """Vertical stress at a depth and so far aside of a point load; with a concentration factor of 3 Boussinesq's."""
    slant = np.sqrt(stress_depth**2 + stress_aside**2)
    return concentration_factor * wheel_load / (2 * np.pi * slant**2) * (stress_depth / slant) ** concentration_factor
