"""What the pictures show: where the power goes, and the slip of best efficiency."""

import numpy as np
import pytest
from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.models import replaced
from rigcalc.models.machine.curves import best_slip, power_flow, slip_curve
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_the_parts_of_the_power_add_up_to_the_engine_s(name):
    b = bare(known_rig(name))
    p = solve(b)
    engine, *parts = power_flow(b, p)
    assert engine.power == float(p.engine_power)
    assert sum(part.power for part in parts) == pytest.approx(engine.power, rel=1e-12)
    assert all(part.power > 0 for part in parts)
    flow = {part.name: part.power for part in parts}
    # By hand: what slips is lost at the axle, what reaches the soil is draft times speed in m/s.
    assert flow["slip"] == pytest.approx(float(p.axle_power) * float(p.slip))
    assert flow["soil"] == pytest.approx(float(p.draft) * b.speed / 3.6)
    assert flow["implement"] == pytest.approx((float(p.net_pull) - float(p.draft)) * b.speed / 3.6)


def test_no_flow_where_it_cannot_pull():
    b = bare(replaced(known_rig(), {"work.depth": "24 in", "implement.tools": 90}))
    assert power_flow(b, solve(b)) == []


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_best_slip_is_the_top_of_the_curve_and_its_band_one_percent_under_it(name):
    b = bare(known_rig(name))
    low, best, high = best_slip(b)
    curve = slip_curve(b, np.array([low, best, high, low - 0.002, high + 0.002, best * 0.98, best * 1.02]))
    lower, top, upper, before, beyond, *beside = curve.efficiency
    assert low < best < high
    assert max(beside) < top
    assert (lower / top, upper / top) == (pytest.approx(0.99, abs=1e-3), pytest.approx(0.99, abs=1e-3))
    assert max(before, beyond) < 0.99 * top
