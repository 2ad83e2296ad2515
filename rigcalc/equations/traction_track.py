"""How do tracks grip? Thrust from shear strength and contact, resistance from pressing the soil down, belt loss."""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(
    gives=S.thrust_limit,
    takes=(S.contact_area, S.cohesion, S.track_load, S.friction_angle),
    source="janosi_hanamoto_1961",
)
def track_thrust_limit(contact_area, cohesion, track_load, friction_angle):
    """Most thrust that the soil under the tracks can bear: cohesion over the area and friction under the load."""
    return contact_area * cohesion + track_load * np.tan(np.deg2rad(friction_angle))


@equation(
    gives=S.thrust,
    takes=(S.thrust_limit, S.shear_modulus, S.contact_length, S.slip),
    source="janosi_hanamoto_1961",
)
def track_thrust(thrust_limit, shear_modulus, contact_length, slip):
    """Thrust at a slip, for pressure that is even along the contact length. Slip is above zero."""
    stretch = shear_modulus / (slip * contact_length)
    return thrust_limit * (1 - stretch * (1 - np.exp(-1 / stretch)))


@equation(
    gives=S.pressure,
    takes=(S.track_load, S.contact_area),
    source="wong_2008",
)
def ground_pressure(track_load, contact_area):
    """Mean pressure under the tracks, as if the load were spread evenly."""
    return track_load / contact_area


@equation(
    gives=S.sinkage,
    takes=(S.pressure, S.cohesive_modulus, S.frictional_modulus, S.track_width, S.sinkage_exponent),
    source="bekker_1956",
    sure="restated",
    table="terrain_values",
    numeric=True,
)
def track_sinkage(pressure, cohesive_modulus, frictional_modulus, track_width, sinkage_exponent):
    """Sinkage of a flat track from the pressure-sinkage curve."""
    return (pressure / (cohesive_modulus / track_width + frictional_modulus)) ** (1 / sinkage_exponent)


@equation(
    gives=S.compaction_resistance,
    takes=(S.track_count, S.track_width, S.cohesive_modulus, S.frictional_modulus, S.sinkage_exponent, S.sinkage),
    source="bekker_1956",
    table="terrain_values",
    numeric=True,
)
def compaction_resistance(track_count, track_width, cohesive_modulus, frictional_modulus, sinkage_exponent, sinkage):
    """Force that goes into pressing the soil down under the tracks."""
    modulus = cohesive_modulus / track_width + frictional_modulus
    return track_count * track_width * modulus * sinkage ** (sinkage_exponent + 1) / (sinkage_exponent + 1)


@equation(gives=S.belt_loss, takes=(S.belt_ratio, S.track_load), source="rigcalc_assumption", sure="common practice")
def belt_loss(belt_ratio, track_load):
    """Loss inside belt, rollers and guides, taken in proportion to the load on the tracks: an assumption of ours."""
    return belt_ratio * track_load


@equation(
    gives=S.belt_mobility,
    takes=(S.area_factor, S.cone_index, S.contact_area, S.track_load),
    source="rigcalc_assumption",
    where="docs/decisions/0003-tracks.md",
    sure="common practice",
    table="belt_grip",
)
def belt_mobility_number(area_factor, cone_index, contact_area, track_load):
    """Mobility number of a belt: a wheel's, with the belt's contact area in place of tyre width times diameter."""
    return area_factor * cone_index * contact_area / track_load


@equation(
    gives=S.thrust_limit,
    takes=(S.belt_mobility, S.belt_ceiling, S.belt_decay, S.track_load),
    source="rigcalc_assumption",
    where="docs/decisions/0003-tracks.md: the ceiling of brixius_1987",
    sure="common practice",
    table="belt_grip",
)
def belt_thrust_limit(belt_mobility, belt_ceiling, belt_decay, track_load):
    """Most thrust that the soil under a belt can bear: the ceiling of a drive tyre at the belt's mobility number."""
    return track_load * belt_ceiling * (1 - np.exp(-belt_decay * belt_mobility))


@equation(
    gives=S.belt_resistance_ratio,
    takes=(S.belt_mobility, S.belt_rolling, S.belt_drag, S.slip),
    source="rigcalc_assumption",
    where="docs/decisions/0003-tracks.md: the soil terms of zoz_grisso_2003",
    sure="common practice",
    table="belt_grip",
)
def belt_resistance_ratio(belt_mobility, belt_rolling, belt_drag, slip):
    """Motion resistance of a belt on the soil: pressing it down, and sinking by slip. No flexing of tyres in it."""
    return belt_rolling / belt_mobility + belt_drag * slip / np.sqrt(belt_mobility)
