"""How hard does it press on the soil? Contact area of a tyre, and how deep a stress goes.

The pressure under tracks stands in traction_track.py.
"""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(
    gives=S.tyre_contact_area,
    takes=(S.section_width, S.diameter),
    source="mckyes_1985",
    sure="from memory",
    fitted=True,
)
def contact_area_quick(section_width, diameter):
    """Contact area of a tyre on firm ground by a rule of thumb; on soft ground twice as much."""
    return section_width * diameter / 4


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
    gives=S.stress,
    takes=(S.tyre_contact_area, S.pressure, S.stress_depth, S.concentration_factor),
    source="sohne_1953",
)
def stress_under_load(tyre_contact_area, pressure, stress_depth, concentration_factor):
    """Vertical stress under the middle of a round, evenly loaded contact; with a concentration factor of 3 Boussinesq's."""
    slant = np.sqrt(tyre_contact_area / np.pi + stress_depth**2)
    return pressure * (1 - (stress_depth / slant) ** concentration_factor)


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
