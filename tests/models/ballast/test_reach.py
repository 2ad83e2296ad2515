"""The best mass stays where sense is: not below the bare tractor, not over the maker's limit, not outside the equations."""

import numpy as np
import pytest
from ballast_rigs import piece, plain
from known_rigs import known_rig

from rigcalc.core.units import GRAVITY
from rigcalc.equations.traction_wheel import gross_traction_ratio_radial
from rigcalc.models import replaced
from rigcalc.models.ballast.answer import ballast
from rigcalc.models.ballast.mass_curve import FLAT, best_mass, delivery_of, mass_curve, with_mass
from rigcalc.models.ballast.reach import Reach, reach_of
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare

LB = 0.45359237
HUNG = [piece("plates", "100 lb", 30, 20, ahead="1.3 m"), piece("wheel weights", "500 lb", 8, 6, axle="rear")]


def test_reach_by_hand():
    rig = replaced(plain(), {"ballast": HUNG, "setup": {"mass_limit": "60000 lb"}})
    found = reach_of(rig, bare(rig))
    assert found.low == pytest.approx((50000 - 5000) * LB)
    assert found.high == pytest.approx(60000 * LB)
    assert reach_of(plain(), bare(plain())) == Reach(pytest.approx(50000 * LB), np.inf)


@pytest.mark.parametrize("job", ["light", "this", "full"])
@pytest.mark.parametrize("name", ["four_wheel_drive", "front_wheel_assist", "tracks"])
def test_no_best_mass_of_a_demo_is_out_of_reach(name, job):
    rig = known_rig(name)
    found = ballast(rig, job)
    reach = reach_of(rig, bare(rig))
    for best in [each.best for each in found.jobs.jobs if each.best] + [found.curve.best]:
        assert reach.low - 1e-6 <= best.low <= best.mass <= best.high <= reach.high + 1e-6
        if best.cut == "bare":
            assert best.mass == pytest.approx(reach.low)


def test_a_cut_best_is_the_end_itself_and_its_flat_range_loses_one_percent():
    b = bare(plain())
    now = b.weight / GRAVITY * 1000
    free = best_mass(b)
    assert free.mass < now
    best = best_mass(b, reach=Reach(0.9 * now, np.inf))
    assert (best.cut, best.mass, best.low) == ("bare", pytest.approx(0.9 * now), pytest.approx(0.9 * now))
    there = solve(with_mass(b, np.array([best.mass, best.high])))
    assert delivery_of(there)[0] == pytest.approx(best.delivery, rel=1e-12)
    assert delivery_of(there)[1] == pytest.approx(FLAT * best.delivery, rel=1e-6)
    assert there.slip[0] == pytest.approx(best.slip)
    light = best_mass(b, draft_factor=2.0, reach=Reach(0.5 * now, 0.8 * now))
    assert (light.cut, light.mass) == ("mass_limit", pytest.approx(0.8 * now))


def test_the_equations_end_it_where_the_mobility_number_leaves_their_range():
    b = bare(plain())
    most = gross_traction_ratio_radial.valid["mobility_number"][1]
    best = best_mass(b, reach=Reach(0.0, np.inf))
    assert best.cut == "equations"
    p = solve(with_mass(b, best.mass))
    assert max(float(p.front_mobility), float(p.rear_mobility)) == pytest.approx(most, rel=2e-3)
    assert float(solve(with_mass(b, best_mass(b).mass)).front_mobility) > most


def test_a_tractor_outside_the_equations_is_not_judged_farther_out():
    b = bare(plain(ground__cone_index="4 MPa"))
    now = b.weight / GRAVITY * 1000
    assert float(solve(b).rear_mobility) > gross_traction_ratio_radial.valid["mobility_number"][1]
    assert best_mass(b, reach=Reach(0.0, np.inf)).mass >= now * (1 - 1e-9)


def test_the_picture_stays_in_reach():
    b = bare(plain())
    now = b.weight / GRAVITY * 1000
    curve = mass_curve(b, reach=Reach(0.8 * now, 1.3 * now))
    assert curve.mass[[0, -1]] == pytest.approx([0.8 * now, 1.3 * now])
    narrow = mass_curve(b, reach=Reach(now, now))
    assert narrow.mass[[0, -1]] == pytest.approx([0.95 * now, 1.05 * now])
