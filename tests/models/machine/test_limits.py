"""The limits of a rig, each by hand from what its file gives."""

import numpy as np
import pytest
from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.core.tables import table
from rigcalc.equations.fuel import specific_fuel_consumption
from rigcalc.models import replaced
from rigcalc.models.machine.case import case_of
from rigcalc.models.machine.limits import RangeUse, SlipSource, caps, limit_values, range_use, shares
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare

TO_KN = 9.80665 / 1000


def case(name="four_wheel_drive", **changes):
    return case_of(replaced(known_rig(name), {path.replace("__", "."): value for path, value in changes.items()}))


def test_an_axle_carries_the_least_of_what_is_known():
    wheels, axle = 4 * 5000 * TO_KN, 9000 * TO_KN
    both = case(tractor__rear__load_limit_each="5000 kg", tractor__rear__tyre=None, tractor__rear_axle_mass_limit="9000 kg")
    assert both.caps.rear_load == pytest.approx(axle)
    assert both.used["rear_load"] == pytest.approx(both.point.rear_load / axle)
    only = case(tractor__rear__load_limit_each="5000 kg", tractor__rear__tyre=None)
    assert only.caps.rear_load == pytest.approx(wheels)


def test_pressure_is_load_over_the_belts_of_its_own_axle():
    found = case("tracks", tractor__front__track_width="20 in", tractor__rear__pressure_limit="50 kPa",
                 tractor__front__pressure_limit="60 kPa")  # fmt: skip
    length, front, rear = found.bare.front.length, 20 * 0.0254, found.bare.rear.width
    assert found.used["front_pressure"] == pytest.approx(found.point.front_load / (2 * front * length) / 60)
    assert found.used["rear_pressure"] == pytest.approx(found.point.rear_load / (2 * rear * found.bare.rear.length) / 50)


def test_steering_standing_and_under_pull():
    found = case(tractor__front_axle_mass="8000 kg", tractor__rear_axle_mass="12000 kg", ballast=(), scale=None)
    assert found.used["steering_rest"] == pytest.approx(0.2 * 20 / 8)
    assert found.used["steering"] == pytest.approx(0.1 * 20000 * TO_KN / found.point.front_load)


def test_critical_depth_is_six_widths_of_the_point():
    """Five to seven in print."""
    assert case(implement__point_width="3 in").caps.critical_depth == pytest.approx(18 * 2.54)


def test_a_shank_s_power_by_the_table_of_ratios():
    """At the drawbar arrives 0.78 of the power take-off, which has 0.90 of net power and 0.92 x 0.90 of gross."""
    for rating, share in (("net engine", 0.9), ("gross engine", 0.92 * 0.9), ("pto", 1.0)):
        found = case(tractor__power_rating=rating, implement__rated_power_per_tool="30 kW")
        a_shank = found.point.draft * found.point.speed / 3.6 / found.point.tools / (0.78 * share)
        assert found.used["tool_power"] == pytest.approx(a_shank / 30)
        value, limit, unit = limit_values(found.bare, found.point, found.caps)["tool_power"]
        assert (value, limit, unit) == (pytest.approx(a_shank), 30, "kW")


def test_the_slip_band_lies_between_the_surfaces_by_cone_index():
    soft, tilled, firm = (table("traction_soil_classes")[name]["cone_index"] for name in ("soft", "tilled", "firm"))
    bands = {name: case(ground__surface=name).caps for name in ("soft", "tilled", "firm")}
    for cone, one, other in (((soft + tilled) / 2, "soft", "tilled"), ((tilled + firm) / 2, "tilled", "firm"),
                             (soft / 2, "soft", "soft"), (2 * firm, "firm", "firm")):  # fmt: skip
        between = case(ground__cone_index=f"{cone} kPa").caps
        for end in ("slip_low", "slip_high"):
            assert getattr(between, end) == pytest.approx((getattr(bands[one], end) + getattr(bands[other], end)) / 2)
    assert case(ground__surface="hard").caps.slip_high == bands["firm"].slip_high


@pytest.mark.parametrize(("name", "surface", "band", "source"), [
    # Of two sources on wheels the widest span: 8 to 10 and 6 to 13 percent, 11 to 13 and 8 to 16, and 14 to 16 alone.
    ("four_wheel_drive", "firm", (0.06, 0.13), SlipSource("firm", 2)),
    ("four_wheel_drive", "tilled", (0.08, 0.16), SlipSource("tilled", 2)),
    ("four_wheel_drive", "soft", (0.14, 0.16), SlipSource("soft", 1)),
    # On tracks 2 to 6 on firm ground; the rest is fitted, no print has it.
    ("tracks", "firm", (0.02, 0.06), SlipSource("track", 1)),
    ("tracks", "soft", (0.03, 0.08), SlipSource("track_fitted", 1)),
])  # fmt: skip
def test_the_slip_band_is_what_the_sources_span(name, surface, band, source):
    found = case(name, ground__surface=surface).caps
    assert (found.slip_low, found.slip_high) == pytest.approx(band)
    assert found.slip_source == source


@pytest.mark.parametrize("changes", [{}, {"ground__grade": "-20 percent", "work__depth": "3 in", "implement__tools": 5}])
@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_a_share_is_the_value_shown_over_the_limit_shown(name, changes):
    """Steering is held from below, so the other way round."""
    found = case(name, **changes)
    shown = limit_values(found.bare, found.point, found.caps)
    assert set(found.used) <= set(shown)
    for limit, (value, most, _) in shown.items():
        if limit not in found.used:
            assert most is None, limit
            continue
        share = most / value if limit.startswith("steering") else value / most
        assert found.used[limit] == pytest.approx(share), limit
    for axle, gear in (("front", found.bare.front), ("rear", found.bare.rear)):
        assert np.isfinite(shown[f"{axle}_pressure"][0]) == (gear is not None and gear.kind == "track")


def test_the_input_nearest_the_end_of_its_range():
    """The load of the fuel relation goes from 0.2 to 1: 0.9 of its upper end, and 0.2 / 0.21 of its lower one."""
    eq = specific_fuel_consumption
    about = (0.2, 1.0, "1", "load_ratio", "specific_fuel_consumption")
    assert range_use([(eq, (0.9,))]) == RangeUse(0.9, 0.9, 1.0, *about)
    assert range_use([(eq, (0.21,))]) == RangeUse(pytest.approx(0.2 / 0.21), 0.21, 0.2, *about)
    assert range_use([(eq, (0.9,)), (eq, (0.21,)), (eq, (np.nan,))]).value == 0.21
    assert range_use([]) is None


def test_braking_over_grip():
    found = case(ground__grade="-20 percent", work__depth="3 in", implement__tools=5)
    assert found.point.braking > 0
    assert found.used["holding"] == pytest.approx(found.point.braking / found.point.peak_pull)
    assert "holding" not in case().used


def test_the_middle_third_of_two_tracks():
    rig = replaced(known_rig(), {
        "tractor.drive": "track", "tractor.front": None, "tractor.front_axle_mass": "9000 kg", "setup": None, "ballast": (),
        "tractor.rear_axle_mass": "9000 kg", "tractor.wheelbase": "2.6 m", "implement.tools": 7,
        "tractor.rear": {"kind": "track", "tracks": 2, "track_width": "30 in", "contact_length": "2.4 m"},
    })  # fmt: skip
    b = bare(rig)
    p = solve(b)
    used = shares(b, p, caps(rig, b))
    assert used["resultant"] == pytest.approx(abs(p.resultant_ahead) / 0.4)
    assert used["tipping"] == pytest.approx(abs(p.resultant_ahead) / 1.2)
    assert "steering" not in used


def test_a_share_that_is_not_known_is_left_out():
    found = case(tractor__drawbar_load_limit=None, implement__rated_depth=None, implement__rated_power_per_tool=None,
                 implement__point_width=None, tractor__rear__load_limit_each=None, tractor__rear__tyre=None)  # fmt: skip
    assert not {"hitch_load", "tool_depth", "tool_power", "critical_depth", "rear_load"} & set(found.used)
    assert all(np.isfinite(share) for share in found.used.values())
