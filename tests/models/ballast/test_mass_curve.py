"""The picture: its optimum against the root of the derivative that sympy takes of the book's own formulas."""

from dataclasses import replace

import mpmath
import numpy as np
import pytest
import sympy as sp
from ballast_rigs import plain

from rigcalc.core.units import GRAVITY
from rigcalc.core.working import expression, symbol_of
from rigcalc.equations import load_all
from rigcalc.models.ballast.mass_curve import FLAT, best_mass, delivery_of, depth_of_stress, mass_curve, with_mass
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare

BOOK = load_all()


def formula(name, **values):
    """The formula of an equation of the book with expressions put in for its arguments."""
    eq = BOOK[name]
    return expression(eq).subs({symbol_of(s): values[s.name] for s in eq.takes}, simultaneous=True)


def composed(b, share, draft_factor):
    """Delivery as a function of mass (t) and slip, and the pull balance that ties them, from the readable equations."""
    mass, slip = sp.symbols("mass slip", positive=True)
    p = solve(b, draft_factor=draft_factor)
    pull = float(p.drawbar_pull)
    weight = mass * GRAVITY
    ahead = formula("center_of_gravity_ahead", axle_weight=weight * share, weight=weight, wheelbase=b.wheelbase)
    front = formula(
        "front_axle_load", weight=weight, center_ahead=ahead, center_height=b.center_height, wheelbase=b.wheelbase, pull=pull,
        drawbar_height=b.drawbar_height, hitch_load=b.hitch_load, hitch_behind=b.hitch_behind, grade=b.grade,
    )  # fmt: skip
    rear = formula("rear_axle_load", weight=weight, grade=b.grade, hitch_load=b.hitch_load, front_load=front)
    cone = b.cone_index
    gross, net = 0, 0
    for gear, load in ((b.front, front), (b.rear, rear)):
        mobility = formula("mobility_number", cone_index=cone, section_width=gear.width, diameter=gear.length,
                           wheel_load=load / gear.count, deflection_ratio=gear.deflection_ratio)  # fmt: skip
        if gear is b.front and b.multipass:
            cone = formula("cone_index_after_pass", cone_index=cone, mobility_number=mobility)
        drag = formula(f"motion_resistance_ratio_{gear.kind}", mobility_number=mobility, slip=slip if gear.driven else 0)
        grip = formula(f"gross_traction_ratio_{gear.kind}", mobility_number=mobility, slip=slip) if gear.driven else 0
        gross, net = gross + load * grip, net + load * (grip - drag)
    needed = pull + formula("grade_resistance", weight=weight, grade=b.grade)
    speed = formula("no_slip_speed", travel_speed=b.speed, slip=slip)
    axle = formula("axle_power", axle_force=gross, no_slip_speed=speed / 3.6)
    delivered = formula("drawbar_power", draft=pull, speed=b.speed) / (axle / b.axle_ratio)
    return mass, slip, delivered, net - needed


@pytest.mark.parametrize(
    ("name", "changes", "draft_factor"),
    [
        ("four_wheel_drive", {}, 1.0),
        ("four_wheel_drive", {}, 1.9),
        ("four_wheel_drive", {"ground__grade": "4 deg", "ground__surface": "soft"}, 1.2),
        ("front_wheel_assist", {"ground__surface": "tilled"}, 2.0),
        ("front_wheel_assist", {"tractor__drive": "2WD", "tractor__front__driven": False}, 1.5),
    ],
)
def test_best_mass_is_the_root_of_the_derivative(name, changes, draft_factor):
    b = bare(plain(name, **changes))
    best = best_mass(b, draft_factor=draft_factor)
    share = b.front_weight / b.weight
    mass, slip, delivered, balance = composed(b, share, draft_factor)
    # Along the balance, slip moves with mass: d slip / d mass = -(d balance / d mass) / (d balance / d slip).
    slope = sp.diff(delivered, mass) - sp.diff(delivered, slip) * sp.diff(balance, mass) / sp.diff(balance, slip)
    both = [sp.lambdify((mass, slip), part, "mpmath") for part in (balance, slope)]
    with mpmath.workdps(30):
        root = mpmath.findroot(lambda m, s: [part(m, s) for part in both], (best.mass / 1000 * 1.03, best.slip * 0.98))
        top = sp.lambdify((mass, slip), delivered, "mpmath")(*root)
    assert best.mass == pytest.approx(float(root[0]) * 1000, rel=1e-6)
    assert best.slip == pytest.approx(float(root[1]), rel=1e-6)
    assert best.delivery == pytest.approx(float(top), rel=1e-12)


@pytest.mark.parametrize("name", ["four_wheel_drive", "tracks", "front_wheel_assist"])
def test_flat_top_ends_where_one_percent_is_lost(name):
    b = bare(plain(name))
    best = best_mass(b)
    ends = solve(with_mass(b, np.array([best.low, best.high])))
    assert delivery_of(ends) == pytest.approx(FLAT * best.delivery, rel=1e-6)
    around = solve(with_mass(b, np.linspace(best.low, best.high, 50)))
    assert (delivery_of(around) >= FLAT * best.delivery * (1 - 1e-9)).all()
    assert (delivery_of(around) <= best.delivery * (1 + 1e-12)).all()


def test_more_pull_wants_more_mass():
    b = bare(plain())
    masses = [best_mass(b, draft_factor=factor).mass for factor in (0.5, 1.0, 1.5, 2.0)]
    assert masses == sorted(masses)


def test_no_pull_no_best_mass():
    # Downhill the slope pushes: nothing has to be pulled.
    b = bare(plain(ground__grade="-20 deg"))
    curve = mass_curve(b, draft_factor=0.01)
    assert curve.best is None


def test_picture_is_the_operating_point_at_other_masses():
    b = bare(plain())
    curve = mass_curve(b, count=7)
    heavier = solve(replace(b, front_weight=2 * b.front_weight, rear_weight=2 * b.rear_weight))
    assert curve.slip[-1] == pytest.approx(float(heavier.slip), rel=1e-12)
    assert curve.mass[0] == pytest.approx(curve.mass_now / 2)
    assert curve.added[2] == pytest.approx(0, abs=1e-9)
    assert np.diff(curve.slip[np.isfinite(curve.slip)]).max() < 0


def test_the_picture_goes_from_half_to_twice_the_mass_in_eighty_steps():
    curve = mass_curve(bare(plain()))
    assert (curve.mass.size, curve.added.size, curve.fuel_per_area.size) == (81, 81, 81)
    assert curve.mass[[0, -1]] == pytest.approx([curve.mass_now / 2, curve.mass_now * 2])
    assert np.diff(curve.mass) == pytest.approx(np.full(80, curve.mass_now * 1.5 / 80))


def test_as_good_to_the_end_of_the_masses_searched():
    b = bare(plain())
    best = best_mass(b, draft_factor=11.0)
    now = b.weight / GRAVITY * 1000
    assert 4 * now < best.mass < best.high
    assert best.high == pytest.approx(8 * now)
    assert float(delivery_of(solve(with_mass(b, 8 * now), draft_factor=11.0))) > FLAT * best.delivery


@pytest.mark.parametrize("draft_factor", [0.7, 1.0, 2.5])
def test_both_ends_of_the_flat_range_lose_one_percent(draft_factor):
    b = bare(plain())
    best = best_mass(b, draft_factor=draft_factor)
    ends = solve(with_mass(b, np.array([best.low, best.mass, best.high])), draft_factor=draft_factor)
    assert delivery_of(ends) / best.delivery == pytest.approx([FLAT, 1, FLAT], rel=1e-6)
    assert best.low < best.mass < best.high


def test_stress_goes_deeper_with_load_and_is_nothing_under_a_light_wheel():
    b = bare(plain())
    depth = depth_of_stress(b.rear, np.array([20.0, 80.0, 120.0, 200.0]))
    assert depth[0] == 0
    assert (np.diff(depth[1:]) > 0).all()
