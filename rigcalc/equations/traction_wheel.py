"""How do wheels grip? Mobility number, gross traction, resistance, efficiency, travel reduction, following in a track."""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S

# The fits hold for lugged drive tyres on soil that has cohesion; not for dry sand and not for hard pavement.
_RANGE = {"mobility_number": (5, 80), "slip": (0, 0.5)}


@equation(
    gives=S.mobility_number,
    takes=(S.cone_index, S.section_width, S.diameter, S.wheel_load, S.deflection_ratio),
    source="brixius_1987",
    valid={"deflection_ratio": (0.1, 0.3)},
    fitted=True,
)
def mobility_number(cone_index, section_width, diameter, wheel_load, deflection_ratio):
    """Mobility number: how firm the soil is for one tyre under its load."""
    wheel_number = cone_index * section_width * diameter / wheel_load
    return wheel_number * (1 + 5 * deflection_ratio) / (1 + 3 * section_width / diameter)


@equation(gives=S.gross_traction_ratio, takes=(S.mobility_number, S.slip), source="brixius_1987", valid=_RANGE, fitted=True)
def gross_traction_ratio_bias(mobility_number, slip):
    """Gross traction of a bias-ply drive tyre as a share of its load."""
    return 0.88 * (1 - np.exp(-0.1 * mobility_number)) * (1 - np.exp(-7.5 * slip)) + 0.04


@equation(gives=S.gross_traction_ratio, takes=(S.mobility_number, S.slip), source="zoz_grisso_2003", valid=_RANGE, fitted=True)
def gross_traction_ratio_radial(mobility_number, slip):
    """Gross traction of a radial drive tyre as a share of its load."""
    return 0.88 * (1 - np.exp(-0.1 * mobility_number)) * (1 - np.exp(-9.5 * slip)) + 0.0325


@equation(gives=S.motion_resistance_ratio, takes=(S.mobility_number, S.slip), source="brixius_1987", valid=_RANGE, fitted=True)
def motion_resistance_ratio_bias(mobility_number, slip):
    """Motion resistance of a bias-ply tyre as a share of its load."""
    return 1 / mobility_number + 0.04 + 0.5 * slip / np.sqrt(mobility_number)


@equation(
    gives=S.motion_resistance_ratio, takes=(S.mobility_number, S.slip), source="zoz_grisso_2003", valid=_RANGE, fitted=True
)
def motion_resistance_ratio_radial(mobility_number, slip):
    """Motion resistance of a radial tyre as a share of its load."""
    return 0.9 / mobility_number + 0.0325 + 0.5 * slip / np.sqrt(mobility_number)


@equation(gives=S.net_traction_ratio, takes=(S.gross_traction_ratio, S.motion_resistance_ratio), source="asabe_s296")
def net_traction_ratio(gross_traction_ratio, motion_resistance_ratio):
    """Pull as a share of load: what gross traction leaves after motion resistance."""
    return gross_traction_ratio - motion_resistance_ratio


@equation(
    gives=S.tractive_efficiency,
    takes=(S.slip, S.net_traction_ratio, S.gross_traction_ratio),
    source="asabe_s296",
)
def tractive_efficiency(slip, net_traction_ratio, gross_traction_ratio):
    """Share of axle power that arrives as pull at ground speed."""
    return (1 - slip) * net_traction_ratio / gross_traction_ratio


@equation(
    gives=S.cone_index_after, takes=(S.cone_index, S.mobility_number), source="brixius_1987", where="as textbook eq. 7.16",
    sure="restated", fitted=True,
)  # fmt: skip
def cone_index_after_pass(cone_index, mobility_number):
    """Cone index that a following wheel meets in the track of the first (multipass)."""
    return cone_index * (1 + 1.8 * np.exp(-0.11 * mobility_number))


@equation(gives=S.slip, takes=(S.advance, S.advance_unloaded), source="arizona_machinery", sure="restated")
def travel_reduction(advance, advance_unloaded):
    """Slip from the advance for one wheel turn with and without load; the base is the advance without load."""
    return 1 - advance / advance_unloaded
