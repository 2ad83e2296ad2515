"""How does a tyre press? The contact model of Keller (2005): greatest stress, length and shape of the contact, and its load."""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S

_PRESSED = (S.inflation, S.recommended_inflation)


@equation(
    gives=S.contact_peak,
    takes=(S.inflation, S.wheel_load, S.recommended_inflation),
    source="keller_2005",
    where="greatest stress in the contact",
    sure="restated",
    fitted=True,
    numeric=True,
)
def contact_peak(inflation, wheel_load, recommended_inflation):
    """Greatest vertical stress under a tyre, by its pressure, its load and the pressure that it should have at that load."""
    return 34.4 + 1.13 * inflation + 0.72 * wheel_load - 33.4 * np.log(inflation / recommended_inflation)


@equation(
    gives=S.tyre_contact_length,
    takes=(S.diameter, *_PRESSED),
    source="keller_2005",
    where="length of the contact",
    sure="restated",
    fitted=True,
    numeric=True,
)
def contact_length_of_tyre(diameter, inflation, recommended_inflation):
    """Length of the contact of a tyre, by its diameter and how its pressure stands to the one that it should have."""
    return 0.47 + 0.11 * diameter**2 - 0.16 * np.log(inflation / recommended_inflation)


@equation(
    gives=S.contact_squareness,
    takes=(S.section_width, S.diameter),
    source="keller_2005",
    where="exponent of the superellipse",
    sure="restated",
    fitted=True,
    numeric=True,
)
def contact_squareness(section_width, diameter):
    """Exponent of the outline of the contact: 2 is an ellipse, more is squarer."""
    return 2.1 * (section_width * diameter) ** 2 + 2


@equation(
    gives=S.contact_decay,
    takes=(S.section_width,),
    source="keller_2005",
    where="shape across the tyre",
    sure="restated",
    fitted=True,
    numeric=True,
)
def contact_decay(section_width):
    """How fast stress falls from near the edge of the contact to its middle: large for narrow tyres."""
    return 9.3 - 7.3 * section_width
