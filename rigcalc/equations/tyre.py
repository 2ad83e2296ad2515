"""What is the tyre? Section height, deflection, rolling radius; the mass behind its load index and what it may carry."""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S
from rigcalc.core.tables import table


@equation(gives=S.section_height, takes=(S.section_width, S.aspect_ratio), source="tyre_markings_press", sure="restated")
def section_height(section_width, aspect_ratio):
    """Section height from the figures on the sidewall."""
    return section_width * aspect_ratio


@equation(
    gives=S.section_height,
    takes=(S.diameter, S.rim_diameter),
    source="traction_theory_notes",
    sure="restated",
    fitted=True,
)
def section_height_from_rim(diameter, rim_diameter):
    """Section height from the overall diameter; the bead seat is taken as 1.06 times the nominal rim diameter."""
    return (diameter - 1.06 * rim_diameter) / 2


@equation(gives=S.diameter, takes=(S.rim_diameter, S.section_height), source="unece_r106", sure="restated")
def tyre_diameter(rim_diameter, section_height):
    """Overall diameter of a new tyre without load, from the nominal rim diameter and the section height."""
    return rim_diameter + 2 * section_height


@equation(gives=S.deflection, takes=(S.diameter, S.static_loaded_radius), source="traction_theory_notes", sure="restated")
def tyre_deflection(diameter, static_loaded_radius):
    """Deflection on hard ground: half the diameter less the static loaded radius."""
    return diameter / 2 - static_loaded_radius


@equation(gives=S.deflection_ratio, takes=(S.deflection, S.section_height), source="brixius_1987")
def deflection_ratio(deflection, section_height):
    """Deflection as a share of section height."""
    return deflection / section_height


@equation(
    gives=S.rolling_radius,
    takes=(S.diameter, S.static_loaded_radius),
    source="traction_theory_notes",
    sure="restated",
    fitted=True,
)
def rolling_radius(diameter, static_loaded_radius):
    """Rolling radius between the free radius and the static loaded radius."""
    return 2.5 * (diameter / 2) * static_loaded_radius / (1.5 * (diameter / 2) + static_loaded_radius)


@equation(gives=S.load_mass, takes=(S.load_index,), source="rigcalc_rule", sure="computed", numeric=True, table="load_index")
def load_index_mass(load_index):
    """Mass behind a load index by a smooth rule that follows the printed list within 2 percent; the list is better."""
    return 45 * 10 ** (load_index / 80)


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
