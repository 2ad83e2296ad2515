"""The ranges that sources give with their equations, apart from the declarations; and that leaving one is said."""

import numpy as np
import pytest

from rigcalc.equations import load_all

BOOK = load_all()

# equation -> argument -> (low, high) in the declared unit, and where it comes from
TRACTION = {"mobility_number": (5, 80), "slip": (0, 0.5)}  # brixius_1987, from memory: 80 is the hard soil of d497
TEXTURE = {"organic_matter": (0, 8), "clay_share": (0, 0.6)}  # saxton_rawls_2006: what the equations were fitted to
RAKE = {"rake": (0, 90)}  # grisso_perumpral_1985: the models hold to an upright face
RANGES = {
    "wedge_weight_factor": RAKE, "wedge_cohesion_factor": RAKE, "wedge_adhesion_factor": RAKE, "wedge_inertia_factor": RAKE,
    "crescent_ratio": RAKE, "tine_draft": RAKE,
    "wilting_point": TEXTURE, "drained_water": TEXTURE, "saturation": TEXTURE,
    "precompression_root": {"suction_log": (1.5, 2.6)},  # schjonning_lamande_2018, from memory: the suctions measured
    "critical_depth": {"aspect_ratio_critical": (5, 7)},  # bc_soil_handbook: five to seven times the point's width
    "contact_area_from_inflation": {"inflation": (70, 150), "wheel_load": (11, 33)},  # arvidsson_keller_2007: tyres tested
    "brine_gain_over_water": {"dose": (0.13, 0.60)},  # tyre_maker_guide: first and last row of its mix table
    "partial_throttle_multiplier": {"load_ratio": (0.2, 1.0)},  # d497, from memory
    "specific_fuel_consumption": {"load_ratio": (0.2, 1.0)},
    "fuel_rate": {"load_ratio": (0.0, 1.0)},  # a straight line from idle on; at idle there is no fuel for each unit of work
    "mobility_number": {"deflection_ratio": (0.1, 0.3)},  # brixius_1987, from memory
    "gross_traction_ratio_bias": TRACTION, "gross_traction_ratio_radial": TRACTION,
    "motion_resistance_ratio_bias": TRACTION, "motion_resistance_ratio_radial": TRACTION,
}  # fmt: skip


def test_every_range_is_listed():
    assert {name: dict(eq.valid) for name, eq in BOOK.items() if eq.valid} == RANGES


@pytest.mark.parametrize("name", sorted(RANGES))
def test_the_ends_belong_to_the_range_and_a_hair_beyond_is_said(name):
    eq = BOOK[name]
    for argument, (low, high) in RANGES[name].items():
        hair = 1e-9 * (high - low)
        assert eq.outside({argument: np.array([low, high])}) == []
        for value in (low - hair, high + hair):
            (note,) = eq.outside({argument: value})
            assert f"{low:g} to {high:g}" in note
            assert argument.replace("_", " ") in note
