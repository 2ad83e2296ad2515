"""What does a narrow tine pull, by the wedge of soil before it? Factors of weight, strength and inertia, and the draft.

Formulas in sums of angles aren't given to sympy: its solver doesn't come to an end on them.
"""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S

_ANGLES = (S.rake, S.friction_angle, S.metal_friction, S.failure_angle)
_STEEPEST = {"rake": (0, 90)}


@equation(
    gives=S.weight_factor,
    takes=_ANGLES,
    source="mckyes_1985",
    where="ch. 3",
    sure="restated",
    valid=_STEEPEST,
    traced=False,
)
def wedge_weight_factor(rake, friction_angle, metal_friction, failure_angle):
    """Force from the weight of a wide wedge of soil. Of all failure angles the soil takes the one with the least."""
    a, b, f, m = np.deg2rad(rake), np.deg2rad(failure_angle), np.deg2rad(friction_angle), np.deg2rad(metal_friction)
    return (1 / np.tan(a) + 1 / np.tan(b)) * np.sin(b + f) / (2 * np.sin(a + b + f + m))


@equation(
    gives=S.cohesion_factor,
    takes=_ANGLES,
    source="mckyes_1985",
    where="ch. 3",
    sure="restated",
    valid=_STEEPEST,
    traced=False,
)
def wedge_cohesion_factor(rake, friction_angle, metal_friction, failure_angle):
    """Force from the cohesion of a wide wedge of soil."""
    a, b, f, m = np.deg2rad(rake), np.deg2rad(failure_angle), np.deg2rad(friction_angle), np.deg2rad(metal_friction)
    return np.cos(f) / (np.sin(b) * np.sin(a + b + f + m))


@equation(
    gives=S.adhesion_factor,
    takes=_ANGLES,
    source="mckyes_1985",
    where="ch. 3",
    sure="restated",
    valid=_STEEPEST,
    traced=False,
)
def wedge_adhesion_factor(rake, friction_angle, metal_friction, failure_angle):
    """Force from soil that sticks to the tine's face; below zero where it carries a part of the wedge."""
    a, b, f, m = np.deg2rad(rake), np.deg2rad(failure_angle), np.deg2rad(friction_angle), np.deg2rad(metal_friction)
    return -np.cos(a + b + f) / (np.sin(a) * np.sin(a + b + f + m))


@equation(
    gives=S.inertia_factor,
    takes=_ANGLES,
    source="mckyes_1985",
    where="as quoted by Godwin and O'Dogherty",
    sure="restated",
    valid=_STEEPEST,
    traced=False,
)
def wedge_inertia_factor(rake, friction_angle, metal_friction, failure_angle):
    """Force from setting the soil in motion."""
    a, b, f, m = np.deg2rad(rake), np.deg2rad(failure_angle), np.deg2rad(friction_angle), np.deg2rad(metal_friction)
    return np.sin(a) * np.cos(f) / (np.sin(a + b) * np.sin(a + b + f + m))


@equation(gives=S.crescent_ratio, takes=(S.rake, S.failure_angle), source="mckyes_ali_1977", valid=_STEEPEST, traced=False)
def crescent_ratio(rake, failure_angle):
    """How far the soil breaks to each side of a narrow tine, as a multiple of its depth."""
    a, b = np.deg2rad(rake), np.deg2rad(failure_angle)
    return np.sqrt((1 / np.tan(b)) ** 2 + 2 / (np.tan(a) * np.tan(b)))


@equation(
    gives=S.side_gain,
    takes=(S.crescent_ratio, S.loosened_depth, S.tool_width),
    source="mckyes_ali_1977",
    fitted=True,
)
def side_gain_of_weight(crescent_ratio, loosened_depth, tool_width):
    """What the crescents at the sides of a narrow tine add to the force from weight: that force over the wide wedge's."""
    return 1 + 2 * crescent_ratio * loosened_depth / (3 * tool_width)


@equation(gives=S.side_gain, takes=(S.crescent_ratio, S.loosened_depth, S.tool_width), source="mckyes_ali_1977")
def side_gain_of_strength(crescent_ratio, loosened_depth, tool_width):
    """What they add to the forces from cohesion and inertia."""
    return 1 + crescent_ratio * loosened_depth / tool_width


@equation(
    gives=S.tine_force,
    takes=(
        S.unit_weight, S.loosened_depth, S.weight_factor, S.cohesion, S.cohesion_factor, S.adhesion, S.adhesion_factor,
        S.bulk_density.in_("t/m**3"), S.speed.in_("m/s"), S.inertia_factor, S.tool_width,
    ),
    source="reece_1964",
    where="with the inertia term of McKyes",
    sure="restated",
)  # fmt: skip
def wedge_force(
    unit_weight, loosened_depth, weight_factor, cohesion, cohesion_factor, adhesion, adhesion_factor, bulk_density, speed,
    inertia_factor, tool_width,
):  # fmt: skip
    """Force of the soil on a tine, at the angle of soil on metal to its face. The factors hold the side gains."""
    weight = unit_weight * loosened_depth**2 * weight_factor
    strength = cohesion * loosened_depth * cohesion_factor + adhesion * loosened_depth * adhesion_factor
    return (weight + strength + bulk_density * speed**2 * loosened_depth * inertia_factor) * tool_width


@equation(
    gives=S.draft.in_("kN"),
    takes=(S.tine_force, S.rake, S.metal_friction, S.adhesion, S.loosened_depth, S.tool_width),
    source="reece_1964",
    sure="restated",
    valid=_STEEPEST,
    traced=False,
)
def tine_draft(tine_force, rake, metal_friction, adhesion, loosened_depth, tool_width):
    """The part of a tine's force that is pulled along the ground, soil that sticks counted in."""
    a = np.deg2rad(rake)
    return tine_force * np.sin(a + np.deg2rad(metal_friction)) + adhesion * loosened_depth * tool_width / np.tan(a)


@equation(
    gives=S.passive_ratio,
    takes=(S.rake, S.friction_angle, S.metal_friction),
    source="soil_mechanics_text",
    where="eq. 13.39",
    sure="read in print",
    traced=False,
)
def coulomb_passive(rake, friction_angle, metal_friction):
    """Coulomb's passive earth pressure of a wall that leans like the tine: twice the least weight factor of a wide wedge."""
    a, f, m = np.deg2rad(rake), np.deg2rad(friction_angle), np.deg2rad(metal_friction)
    lost = np.sqrt(np.sin(f + m) * np.sin(f) / (np.sin(a + m) * np.sin(a)))
    return np.sin(a - f) ** 2 / (np.sin(a) ** 2 * np.sin(a + m) * (1 - lost) ** 2)


@equation(
    gives=S.deep_weight_factor,
    takes=(S.friction_angle,),
    source="godwin_spoor_1977",
    where="after a deep footing",
    traced=False,
)
def deep_weight_factor(friction_angle):
    """How hard soil is squeezed aside below the critical depth, by its friction: a deep footing laid on its side."""
    f = np.deg2rad(friction_angle)
    return (1 + np.sin(f)) / (1 - np.sin(f)) * np.exp(2 * np.pi * np.tan(f))


@equation(
    gives=S.deep_cohesion_factor,
    takes=(S.friction_angle, S.deep_weight_factor),
    source="godwin_spoor_1977",
    where="after a deep footing",
    traced=False,
)
def deep_cohesion_factor(friction_angle, deep_weight_factor):
    """The same by its cohesion; 2 + 2 pi where friction comes to nothing."""
    return (deep_weight_factor - 1) / np.tan(np.deg2rad(friction_angle))


@equation(
    gives=S.lateral_force,
    takes=(
        S.tool_width, S.cohesion, S.deep_cohesion_factor, S.tine_depth, S.loosened_depth, S.friction_angle, S.unit_weight,
        S.deep_weight_factor,
    ),
    source="godwin_spoor_1977",
    traced=False,
)  # fmt: skip
def lateral_resistance(
    tool_width, cohesion, deep_cohesion_factor, tine_depth, loosened_depth, friction_angle, unit_weight, deep_weight_factor
):
    """Force on a point that runs below the depth to which soil is lifted, from the soil that it squeezes aside there."""
    strength = cohesion * deep_cohesion_factor * (tine_depth - loosened_depth)
    at_rest = 1 - np.sin(np.deg2rad(friction_angle))
    weight = at_rest * unit_weight * deep_weight_factor * (tine_depth**2 - loosened_depth**2) / 2
    return tool_width * (strength + weight)
