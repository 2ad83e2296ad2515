"""The operating point against bracketed root finding on the book's own equations, written out here one by one."""

import numpy as np
import pytest
from made_rigs import KINDS, many, one
from scipy.optimize import brentq

from rigcalc.equations import load_all
from rigcalc.models.machine.operating_point import UNITS, solve

E = {name: eq.bare for name, eq in load_all().items()}
EACH = 1000  # rigs of each of the eleven kinds
LEAST = 1e-5  # slip at which the bracket begins: below it the printed track equation loses its digits


def balance(rig):
    """(pull that is needed, front load, rear load), kN, and whether an end has left the ground."""
    draft = E["implement_draft"](rig.soil_factor, rig.draft_a, rig.draft_b, rig.draft_c, rig.speed, rig.tools, rig.depth) / 1000
    rolling = E["implement_rolling_resistance"](rig.rolling_ratio, rig.implement_weight * rig.wheel_share)
    pull = draft + rolling + E["grade_resistance"](rig.implement_weight, rig.grade)
    weight = rig.front_weight + rig.rear_weight
    ahead = E["center_of_gravity_ahead"](rig.front_weight, weight, rig.wheelbase)
    front = E["front_axle_load"](
        weight, ahead, rig.center_height, rig.wheelbase, pull, rig.drawbar_height, rig.hitch_load, rig.hitch_behind, rig.grade
    )
    rear = E["rear_axle_load"](weight, rig.grade, rig.hitch_load, front)
    tips = front < 0 or rear < 0
    if rig.front is None:
        off = E["resultant_ahead"](front, rear, rig.wheelbase)
        front, rear, tips = None, front + rear, abs(off) >= rig.rear.length / 2
    return pull + E["grade_resistance"](weight, rig.grade), front, rear, tips


def pull_at(rig, front, rear):
    """Net pull of the whole rig as a function of slip, kN: gross traction less motion resistance, axle by axle."""
    parts = []
    cone = rig.cone_index
    for gear, load in ((rig.front, front), (rig.rear, rear)):
        if gear is None:
            continue
        load = max(load, 1e-9)
        if gear.kind == "track":
            mobility = E["belt_mobility_number"](rig.area_factor, cone, gear.count * gear.width * gear.length, load)
            limit = E["belt_thrust_limit"](mobility, 0.88, 0.1, load)
            belt = 0.0 if gear.driven else E["belt_loss"](rig.belt_ratio, load)  # a driven belt's loss never meets the ground

            def track(slip, limit=limit, gear=gear, load=load, mobility=mobility, belt=belt):
                if not gear.driven:
                    return -load * E["belt_resistance_ratio"](mobility, 0.9, 0.5, 0.0) - belt
                thrust = E["track_thrust"](limit, rig.shear_modulus, gear.length, slip)
                return thrust - load * E["belt_resistance_ratio"](mobility, 0.9, 0.5, slip)

            parts.append(track)
            continue
        mobility = E["mobility_number"](cone, gear.width, gear.length, load / gear.count, gear.deflection_ratio)
        if gear is rig.front and rig.multipass and rig.rear.kind != "track":
            cone = E["cone_index_after_pass"](cone, mobility)
        gross, motion = E[f"gross_traction_ratio_{gear.kind}"], E[f"motion_resistance_ratio_{gear.kind}"]

        def wheel(slip, load=load, mobility=mobility, gross=gross, motion=motion, driven=gear.driven):
            if not driven:
                return -load * motion(mobility, 0.0)
            return load * E["net_traction_ratio"](gross(mobility, slip), motion(mobility, slip))

        parts.append(wheel)
    return lambda slip: sum(part(slip) for part in parts)


@pytest.mark.parametrize("kind", list(KINDS))
def test_slip_is_what_brentq_finds(kind):
    rigs = many(kind, EACH)
    with np.errstate(divide="ignore", invalid="ignore"):
        point = solve(rigs)
    tally = {"pulls": 0, "stuck": 0, "pushed": 0, "tips": 0}
    for place in range(EACH):
        rig = one(rigs, place)
        need, front, rear, tips = balance(rig)
        assert point.net_pull[place] == pytest.approx(need, rel=1e-12)
        assert (point.tipping[place] >= 1) == tips
        if tips:  # no contact to reckon with: nothing that stands on it, and no load beyond the weight there is
            tally["tips"] += 1
            assert np.isnan([point.slip[place], point.peak_pull[place], point.missing_pull[place]]).all()
            assert min(point.front_load[place], point.rear_load[place]) >= 0
            continue
        assert point.rear_load[place] == pytest.approx(rear, rel=1e-12, abs=1e-12)
        net = pull_at(rig, front, rear)
        slip, crest, peak = point.slip[place], point.slip_at_peak[place], point.peak_pull[place]
        assert peak == pytest.approx(net(max(crest, LEAST)), rel=1e-9, abs=1e-6)
        for beside in (crest - 1e-3, crest + 1e-3):
            if LEAST < beside <= 1:
                assert net(beside) <= peak + 1e-9 * abs(peak)
        if np.isnan(slip):
            tally["stuck"] += 1
            assert need > peak
            assert point.missing_pull[place] == pytest.approx(need - peak, rel=1e-9)
        elif net(LEAST) >= need:
            tally["pushed"] += 1
            assert slip <= LEAST
        else:
            tally["pulls"] += 1
            root = brentq(lambda s, net=net, need=need: net(s) - need, LEAST, crest, xtol=1e-15, rtol=1e-14, maxiter=200)
            # Right at the crest the curve is flat, and a last digit of the pull moves slip by the root of it.
            flat = (peak - need) < 1e-4 * abs(peak)
            assert abs(slip - root) <= (1e-6 if flat else 1e-10)
    assert tally["pulls"] > EACH / 4, tally
    assert tally["stuck"] > 0, tally


@pytest.mark.parametrize("kind", list(KINDS))
def test_power_chain_and_loads(kind):
    """Everything behind slip, from its own definition."""
    rigs = many(kind, 400, seed=1)
    with np.errstate(divide="ignore", invalid="ignore"):
        p = solve(rigs)
    on = np.isfinite(p.slip)
    weight = rigs.front_weight + rigs.rear_weight
    np.testing.assert_allclose(
        p.front_load + p.rear_load, weight * np.cos(np.deg2rad(rigs.grade)) + rigs.hitch_load, rtol=1e-12
    )
    np.testing.assert_allclose(p.front_load_at_rest + p.rear_load_at_rest, weight * np.cos(np.deg2rad(rigs.grade)), rtol=1e-12)
    np.testing.assert_allclose(p.no_slip_speed[on] * (1 - p.slip[on]), rigs.speed[on], rtol=1e-12)
    np.testing.assert_allclose(p.axle_power[on], p.axle_force[on] * p.no_slip_speed[on] / 3.6, rtol=1e-12)
    np.testing.assert_allclose(p.drawbar_power[on], p.drawbar_pull[on] * rigs.speed[on] / 3.6, rtol=1e-12)
    np.testing.assert_allclose(p.engine_power[on], p.axle_power[on] / 0.96 / 0.9, rtol=1e-12)
    np.testing.assert_allclose(p.engine_share[on] * rigs.rated_pto[on], p.pto_power[on], rtol=1e-12)
    pulling = on & (p.net_pull > 0)
    np.testing.assert_allclose(
        p.tractive_efficiency[pulling],
        E["tractive_efficiency"](p.slip[pulling], p.net_pull[pulling], p.axle_force[pulling]), rtol=1e-12,
    )  # fmt: skip
    assert (p.tractive_efficiency[pulling] < 1).all()
    assert (p.axle_power[pulling] > p.drawbar_power[pulling])[rigs.grade[pulling] >= 0].all(), "grip never makes power"
    np.testing.assert_allclose(p.field_capacity[on], (rigs.speed * p.width * rigs.field_efficiency / 10)[on], rtol=1e-12)
    np.testing.assert_allclose(p.fuel_per_area[on] * p.field_capacity[on], p.mean_fuel_rate[on], rtol=1e-12)
    np.testing.assert_allclose(p.def_rate[on], 0.04 * p.mean_fuel_rate[on], rtol=1e-12)
    worked = p.engine_share > 0.2
    assert (p.mean_fuel_rate < p.fuel_rate)[on & worked].all(), "turning and stops burn less than work"
    assert (p.missing_pull[on] == 0).all()


@pytest.mark.parametrize("kind", list(KINDS))
def test_beyond_grip_nothing_looks_like_an_answer(kind):
    rigs = many(kind, 400, seed=2).at(depth=np.full(400, 140.0), draft_a=np.full(400, 250.0))
    with np.errstate(divide="ignore", invalid="ignore"):
        p = solve(rigs)
    tips = p.tipping >= 1
    stuck = np.isnan(p.slip) & ~tips
    assert np.isnan(p.slip[tips]).all()
    assert np.isnan(p.peak_pull[tips]).all()
    assert stuck.any()
    assert (p.missing_pull[stuck] > 0).all()
    for name in ("axle_force", "axle_power", "pto_power", "engine_power", "engine_share", "drawbar_power",
                 "tractive_efficiency",
                 "fuel_rate", "fuel_per_area", "def_rate", "field_capacity", "no_slip_speed"):  # fmt: skip
        assert np.isnan(getattr(p, name)[stuck]).all(), name
    for name in ("draft", "net_pull", "peak_pull", "front_load", "rear_load"):
        assert np.isfinite(getattr(p, name)[stuck]).all(), name
    assert set(UNITS) >= {"draft", "slip"}


def test_threads_and_shapes_change_nothing():
    rigs = many("radials, firmer track", 1, seed=5)
    rig = one(rigs, 0)
    depths, speeds = np.linspace(5, 45, 700), np.linspace(4, 12, 300)
    with np.errstate(divide="ignore", invalid="ignore"):
        grid = solve(rig.at(depth=depths[:, None], speed=speeds))
        again = solve(rig.at(depth=depths[:, None], speed=speeds), threads=2)
        spot = solve(rig.at(depth=float(depths[350]), speed=float(speeds[100])))
    for name in UNITS:
        values = getattr(grid, name)
        assert values.shape == (700, 300)
        np.testing.assert_array_equal(values, getattr(again, name))
        np.testing.assert_allclose(values[350, 100], getattr(spot, name), rtol=1e-13)
