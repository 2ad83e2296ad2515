"""What each slip of a kind of problem comes to, worked by hand beside it, and told by its key."""

from __future__ import annotations

import pytest

from rigcalc.core.units import parse
from rigcalc.models.classroom import Outcome, Problem, kinds, mark
from rigcalc.models.classroom.chain import answer
from rigcalc.models.classroom.kinds import Amount, System

# kind: (the right answer, its unit, the amounts given, what each slip gives by its key)
Row = tuple[float, str, dict[str, str], dict[str, float]]
BY_HAND: dict[str, Row] = {
    # 36 kN at 9 km/h; without slip 10 km/h = 2.778 m/s: 100 kW. At 9 km/h 90, at 8.1 km/h 81, by 10 as if m/s 360
    "power_at_axles": (100.0, "kW", {"axle_force": "36 kN", "travel_speed": "9 km/h", "slip": "10 percent"},
                       {"no_slip": 90.0, "wrong_way": 81.0, "kmh_for_ms": 360.0}),
    # 60 kPa on 4 m x 0.25 m = 60 kN at 2.5 m/s = 150 kW, over 0.8; times 0.8 is 120, times 1.2 is 180
    "power_of_tool": (187.5, "kW", {"width": "4 m", "depth": "25 cm", "specific_draft": "60 kPa", "speed": "9 km/h",
                                    "loading": "80 percent"},
                      {"no_reserve": 150.0, "wrong_way": 120.0, "reserve_added": 180.0, "kmh_for_ms": 675.0}),
    # 100 kN * 1.2 m / 0.5 m; by the wheelbase 3 m: 100 * 1.2 / 3 = 40 and 100 * 3 / 0.5 = 600; 100 * 0.5 / 1.2 = 41.67
    "lifting_pull": (240.0, "kN", {"weight": "100 kN", "center_ahead": "1.2 m", "wheelbase": "3 m", "drawbar_height": "0.5 m"},
                     {"front_load": 40.0, "wheelbase_for_center": 600.0, "upside_down": 41.667}),
    # 2 * 600 L * 0.75 * 1.32 kg/L; one tyre 594, full 1584, a quarter 396, as much water 900
    "liquid_in_tyres": (1188.0, "kg", {"tyre_volume": "600 L", "fill": "75 percent", "liquid_density": "1.32 kg/L"},
                        {"one_tyre": 594.0, "full": 1584.0, "what_is_air": 396.0, "water": 900.0}),
    # 80 % * 0.6 = 48 %, * 0.5 = 24 %; 80 * 0.5 = 40; 76 % are bare; 0.6 * 0.5 = 30 % of the residue
    "residue_after": (24.0, "percent", {"start": "80 percent", "first_left": "60 percent", "second_left": "50 percent"},
                      {"one_pass": 48.0, "of_the_start": 40.0, "what_is_lost": 76.0, "share_of_residue": 30.0}),
    # (652 + 5.1 * 64) * 0.7 * 3 * 20 = 41.09 kN; A alone 27.38; 5.1 * 8 29.10; 2.222 m/s squared is 4.938: 28.44
    "draft_of_plow": (41.0928, "kN", {"width": "3 m", "depth": "20 cm", "speed": "8 km/h", "soil_factor": "0.7",
                                      "width_a": "652 N/m/cm", "width_c": "5.1 N*h**2/km**2/m/cm"},
                      {"no_soil_factor": 58.704, "no_speed": 27.384, "not_squared": 29.0976, "ms_for_kmh": 28.4418}),
    # Bn = 1000 * 0.5 * 2 / 25 * 2 / 1.75 = 45.71; thrust 0.5666, rolling 0.0596, net 0.5070; bias 0.4995 and 0.0693
    "efficiency_of_tyre": (80.535, "percent", {"section_width": "0.5 m", "diameter": "2 m", "wheel_load": "25 kN",
                                               "deflection_ratio": "20 percent", "cone_index": "1000 kPa",
                                               "slip": "10 percent"},
                           {"net_ratio": 50.700, "no_slip_lost": 89.484, "no_rolling": 90.0, "bias": 77.519}),
    # (100 * (1.2 * 0.99452 - 1 * 0.10453) - 30 * 0.5) / 3; level (120 - 15) / 3; down (129.80 - 15) / 3
    "front_uphill": (31.2966, "kN", {"weight": "100 kN", "center_ahead": "1.2 m", "center_height": "1 m", "wheelbase": "3 m",
                                     "pull": "30 kN", "drawbar_height": "0.5 m", "grade": "6 deg"},
                     {"on_the_level": 35.0, "downhill": 38.2651, "no_pull": 36.2966, "pull_adds": 41.2966}),
    # 180 / 3.6 = 50 L/h over 5 * 8 * 0.8 / 10 = 3.2 ha/h; over 4 ha/h 12.5, over 5 ha/h 10
    "fuel_of_acre": (15.625, "L/ha", {"power": "180 kW", "fuel_efficiency": "3.6 kW*h/L", "width": "5 m", "speed": "8 km/h",
                                      "field_efficiency": "80 percent"},
                     {"no_efficiency": 12.5, "wrong_way": 10.0, "825_for_ten": 12.890625}),
    # 1 of 10 km/h; over 9 it is 11.1 %
    "slip_from_speeds": (10.0, "percent", {"travel_speed": "9 km/h", "no_slip_speed": "10 km/h"},
                         {"wrong_base": 11.111, "what_is_left": 90.0}),
    # 8 of 10 h
    "efficiency_from_time": (80.0, "percent", {"working_time": "8 h", "total_time": "10 h"},
                             {"upside_down": 125.0, "what_is_lost": 20.0}),
    # 60 kN over 4 m x 0.25 m; over 4 m x 1 m 15; over half of it 120
    "strength_from_draft": (60.0, "kPa", {"draft": "60 kN", "width": "4 m", "depth": "25 cm"},
                            {"no_depth": 15.0, "triangle": 120.0}),
    # r = root of (0.2 / pi) = 0.2523 m; cosine 0.5^(1/5) = 0.87055, sine 0.49207; third root 0.7937 and 0.60832; 0.5 and 0.866
    "depth_of_stress": (44.638, "cm", {"wheel_load": "20 kN", "inflation": "100 kPa", "stress": "50 kPa",
                                       "concentration_factor": "5"},
                        {"diameter_for_radius": 89.276, "radius_for_diameter": 22.319, "boussinesq": 32.920,
                         "without_power": 14.567}),
}  # fmt: skip


# The same in American units, where other slips are made.
BY_HAND_US: dict[str, Row] = {
    # 14,400 lbf on 120 in x 10 in; on 10 x 10 144 psi, for each square foot 144 times as much, on 120 in x 1 in 120
    "strength_from_draft": (12.0, "psi", {"draft": "14400 lbf", "width": "10 ft", "depth": "10 in"},
                            {"feet_for_inches": 144.0, "square_feet": 1728.0, "no_depth": 120.0, "triangle": 24.0}),
    # (113 + 2.3 * 25) * 0.7 * 10 * 8; A alone 6328; 2.3 * 5 6972; 8.047 km/h squared is 64.75: 14,668
    "draft_of_plow": (9548.0, "lbf", {"width": "10 ft", "depth": "8 in", "speed": "5 mph", "soil_factor": "0.7",
                                      "width_a": "113 lbf/ft/in", "width_c": "2.3 lbf/ft/in/mph**2"},
                      {"no_soil_factor": 13640.0, "no_speed": 6328.0, "not_squared": 6972.0, "kmh_for_mph": 14667.8,
                       "inches_for_feet": 114576.0}),
    # 7500 lbf at 4.5 mph; without slip 5 mph: 7500 * 5 / 375; at 5 ft/s 7500 * 5 / 550
    "power_at_axles": (100.0, "hp", {"axle_force": "7500 lbf", "travel_speed": "4.5 mph", "slip": "10 percent"},
                       {"no_slip": 90.0, "wrong_way": 81.0, "mph_for_fps": 68.1818}),
    # 10 psi on 120 in x 10 in = 12,000 lbf at 3.75 mph = 120 hp, over 0.8; at 3.75 ft/s 81.82 / 0.8; on 10 in x 10 in a 12th
    "power_of_tool": (150.0, "hp", {"width": "10 ft", "depth": "10 in", "specific_draft": "10 psi", "speed": "3.75 mph",
                                    "loading": "80 percent"},
                      {"no_reserve": 120.0, "wrong_way": 96.0, "reserve_added": 144.0, "mph_for_fps": 102.273,
                       "feet_for_inches": 12.5}),
    # 160 / 16 = 10 gal/h over 11 * 5 * 0.75 / 8.25 = 5 acre/h; over 6.667 1.5, over 8.889 1.125, over 4.125 2.424
    "fuel_of_acre": (2.0, "gal/acre", {"power": "160 hp", "fuel_efficiency": "16 hp*h/gal", "width": "11 ft",
                                       "speed": "5 mph", "field_efficiency": "75 percent"},
                     {"no_efficiency": 1.5, "wrong_way": 1.125, "ten_for_825": 2.42424, "liters_for_gallons": 7.57082}),
    # 2 * 200 gal * 0.75 * 11 lb/gal; as much water has 8.3454 lb/gal
    "liquid_in_tyres": (3300.0, "lb", {"tyre_volume": "200 gal", "fill": "75 percent", "liquid_density": "11 lb/gal"},
                        {"one_tyre": 1650.0, "full": 4400.0, "what_is_air": 1100.0, "water": 2503.62, "kg_for_lb": 1496.85}),
}  # fmt: skip
SYSTEMS: dict[System, dict[str, Row]] = {"si": BY_HAND, "us": BY_HAND_US}


def problem(name: str, system: System) -> Problem:
    right, unit, given, _ = SYSTEMS[system][name]
    return Problem(kinds()[name], system, 0, {key: Amount(*parse(text)) for key, text in given.items()}, {}, right, unit)


@pytest.mark.parametrize(("system", "name"), [(system, name) for system, rows in SYSTEMS.items() for name in rows])
def test_the_right_answer_and_every_slip(system: System, name: str) -> None:
    made = problem(name, system)
    assert float(answer(made.kind, made.given, made.unit)) == pytest.approx(made.answer, rel=1e-4)
    by_hand = SYSTEMS[system][name][3]
    assert set(by_hand) <= set(made.slips)
    there_are = {slip.key for slip in made.kind.slips if slip.only in ("", system)}
    assert there_are - set(by_hand) <= {"radians"}, "each slip has its number by hand"
    for key, value in by_hand.items():
        assert made.slips[key] == pytest.approx(value, rel=1e-4), key
        marked = mark(made, f"{value:.6g} {made.unit}")
        assert marked.outcome is Outcome.SLIP
        assert key in marked.slips
