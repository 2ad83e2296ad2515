"""How much soil does a shank loosen? The section that it breaks, the ridge that stays between two, and draft for each area."""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(
    gives=S.loosened_section,
    takes=(S.loosened_depth, S.tool_width, S.side_angle),
    source="godwin_spoor_1977",
    where="geometry of the section",
)
def section_of_one(loosened_depth, tool_width, side_angle):
    """Section that one shank loosens alone: as wide as its point at the bottom, opening to the surface."""
    return loosened_depth * (tool_width + loosened_depth / np.tan(np.deg2rad(side_angle)))


@equation(
    gives=S.ridge,
    takes=(S.shank_spacing, S.tool_width, S.side_angle),
    source="statics",
    where="geometry",
    sure="computed",
)
def ridge_between(shank_spacing, tool_width, side_angle):
    """Height of the ridge that stays between two shanks whose sections meet; where it comes out above the depth, they don't."""
    return (shank_spacing - tool_width) * np.tan(np.deg2rad(side_angle)) / 2


@equation(
    gives=S.loosened_section,
    takes=(S.loosened_depth, S.shank_spacing, S.tool_width, S.ridge),
    source="statics",
    where="geometry",
    sure="computed",
)
def section_with_ridge(loosened_depth, shank_spacing, tool_width, ridge):
    """Section that each shank loosens where neighbours meet: all of its width down to the depth, less the ridge."""
    return shank_spacing * loosened_depth - ridge * (shank_spacing - tool_width) / 2


@equation(gives=S.draft_per_section, takes=(S.draft, S.loosened_section), source="statics", where="definition", sure="computed")
def draft_for_area(draft, loosened_section):
    """Draft for each unit of the section that is loosened: the lower, the cheaper the work."""
    return draft / loosened_section
