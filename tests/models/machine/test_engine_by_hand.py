"""The engine's straight lines by hand, and a tractor that tips the other way."""

import numpy as np
import pytest
from known_rigs import known_rig

from rigcalc.equations.fuel import partial_throttle_multiplier
from rigcalc.models import replaced
from rigcalc.models.machine.engine import available_pto, saved_by_throttling, torque_at
from rigcalc.models.machine.facts import facts
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare

# 1.5 of the torque at rated power at 0.6 of rated speed; 1.1 of the power, so 1.1 / 0.9 of the torque, at 0.9.
CURVE = bare(known_rig()).at(
    rated_pto=200.0, maximum_pto=220.0, torque_rise=0.5, torque_peak_speed=0.6, maximum_power_speed=0.9
)
AT_MOST_POWER = 1.1 / 0.9


@pytest.mark.parametrize(("speed", "torque"), [
    (1.0, 1.0), (0.95, (1 + AT_MOST_POWER) / 2), (0.9, AT_MOST_POWER), (0.75, (1.5 + AT_MOST_POWER) / 2), (0.6, 1.5),
    (0.5, 1.5 * 0.5 / 0.6),
])  # fmt: skip
def test_torque_goes_straight_from_point_to_point(speed, torque):
    assert torque_at(CURVE, speed) == pytest.approx(torque)
    power = 220 if speed >= 0.9 else min(200 * torque * speed, 220)
    assert available_pto(CURVE.at(engine_speed_share=speed)) == pytest.approx(power)


def test_throttling_saves_what_the_multiplier_takes_off():
    assert saved_by_throttling(0.5, 0.7) == pytest.approx(1 - partial_throttle_multiplier.bare(0.5, 0.7))
    assert 0 < saved_by_throttling(0.5, 0.7) < 0.5


@pytest.mark.parametrize(("report", "said"), [((), True), ([{"power": "300 kW", "fuel": "85 L/h"}], False)])
def test_the_relation_s_allowance_is_said_only_where_the_relation_is_used(report, said):
    rig = replaced(known_rig(), {"fuel_test": report})
    b = bare(rig)
    assert ("fuel_over_test" in [fact.name for fact in facts(rig, b, solve(b))]) == said


def test_a_rear_axle_in_the_air_is_tipping_too():
    p = solve(bare(known_rig()).at(grade=-25.0, center_height=8.0, hitch_load=0.0, depth=2.0))
    assert p.tipping >= 1
    assert np.isnan(p.slip)
    assert p.rear_load == 0


def test_two_tracks_tip_at_the_end_of_their_contact_and_not_before():
    b = bare(known_rig("tracks")).at(front=None, front_weight=90.0, rear_weight=90.0, wheelbase=2.4, depth=10.0)
    p = solve(b.at(hitch_load=np.linspace(0, 200, 801)))
    near = np.abs(p.resultant_ahead) / (b.rear.length / 2)
    assert ((near > 0.7) & (near < 1)).any()
    np.testing.assert_array_equal(np.isfinite(p.slip), near < 1)
    np.testing.assert_allclose(p.tipping, near)
