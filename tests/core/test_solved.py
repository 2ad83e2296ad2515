"""Every equation solved for every argument: put back in, it gives the number it came from, or says why it can't."""

import pickle
import subprocess
import sys
from contextlib import nullcontext, suppress

import numpy as np
import pytest
from samples import bare_values, quantities

from rigcalc import solve_for
from rigcalc.core.derivative import slope
from rigcalc.core.equation import Equation
from rigcalc.core.errors import InputError, OutsideRange
from rigcalc.core.nomenclature import S
from rigcalc.core.units import Q
from rigcalc.equations import load_all

BOOK = load_all()
TRACED = sorted(name for name, eq in BOOK.items() if eq.traced)
# What has no formula, each with the reason: the argument is in an exponent and outside it.
NO_FORMULA = {
    ("inflation_by_law", "inflation_exponent"),
    ("track_thrust", "shear_modulus"),
    ("optimum_from_retention", "retention_exponent"),
    ("optimum_suction", "retention_exponent"),
    ("penetration_resistance", "water_power"),
    ("penetration_at_drained", "water_power"),
    ("sun_above", "sunset_angle"),
    ("stress_under_load", "concentration_factor"),
    ("retention_steepness", "retention_exponent"),
    ("water_at_suction", "retention_exponent"),
    ("stress_beside_load", "stress_depth"),
    ("tension_at_water", "tension_wet"),
    ("tension_at_water", "tension_dry"),
    ("tension_at_water", "drained_water"),
    ("tension_at_water", "wilting_point"),
    ("penetration_resistance", "density_power"),
    ("capital_recovery_factor", "interest"),
    ("repairs_since_new", "repair_factor_2"),
}
# Roots of sympy's that hold for some values alone, so that an answer may be refused: an exponential runs over, for example.
BY_CHANCE = {
    ("declination", "day_of_year"),  # spring and autumn
    ("sun_distance", "day_of_year"),
    ("sun_above", "latitude"),  # summer is long in the north and high in the south
    ("sun_above", "declination"),
    ("stress_depth", "concentration_factor"),
    ("track_thrust", "contact_length"),
    ("track_thrust", "slip"),
    ("belt_thrust_limit", "belt_mobility"),
    ("belt_thrust_limit", "belt_decay"),
    ("belt_thrust_limit", "belt_ceiling"),
}


@pytest.mark.parametrize("name", TRACED)
def test_solved_and_put_back(name):
    eq = BOOK[name]
    values = bare_values(eq)
    given = dict(zip((symbol.name for symbol in eq.takes), quantities(eq, values), strict=True))
    result = eq(**given)
    can_exist = eq.gives.least <= result.magnitude <= eq.gives.most
    for symbol, value in zip(eq.takes, values, strict=True):
        if (name, symbol.name) in NO_FORMULA:
            with pytest.raises(InputError, match="no formula"):
                solve_for(eq, symbol)
            continue
        found = solve_for(eq, symbol)
        assert found.text.startswith(f"{symbol.name} = ")
        assert found.latex.startswith(symbol.latex)
        assert found.gives is symbol
        rest = {other: quantity for other, quantity in given.items() if other != symbol.name}
        if not can_exist:
            with pytest.raises(InputError, match=eq.gives.name):
                found(result, **rest)
        else:
            with suppress(InputError) if (name, symbol.name) in BY_CHANCE else nullcontext():
                got = found(result, **rest)
                assert got.m_as(Q(1.0, symbol.unit).units) == pytest.approx(value, rel=1e-7)


def test_units_shapes_and_names_are_those_of_any_equation():
    depth = solve_for("implement_draft", S.depth)
    assert isinstance(depth, Equation)
    row = {"soil_factor": Q(0.85), "draft_a": Q(123.0, "N/cm"), "draft_b": Q(0.0, "N*h/(km*cm)"),
           "draft_c": Q(4.0, "N*h**2/(km**2*cm)"), "speed": Q(5.0, "mph"), "tools": Q(15.0)}  # fmt: skip
    pulls = Q([5000.0, 10_000.0, 20_000.0], "lbf")
    got = depth(pulls, **row)
    assert got.shape == (3,)
    np.testing.assert_allclose(BOOK["implement_draft"](depth=got, **row).m_as("lbf"), pulls.magnitude, rtol=1e-9)
    with pytest.raises(InputError, match="draft") as refused:
        depth(5.0, **row | {"speed": Q(5.0, "kg")})
    assert "no unit" in str(refused.value) or "speed" in str(refused.value)
    assert pickle.loads(pickle.dumps(depth)) is depth


def test_of_two_roots_the_one_that_can_be_is_given():
    speed = solve_for("implement_draft", "speed")
    assert " or " in speed.text
    row = [Q(1.0), Q(100.0, "N/cm"), Q(5.0, "N*h/(km*cm)"), Q(2.0, "N*h**2/(km**2*cm)"), Q(10.0), Q(30.0, "cm")]
    assert speed(Q(300 * (100 + 5 * 8 + 2 * 64.0), "N"), *row).m_as("km/h") == pytest.approx(8)
    with pytest.raises(InputError, match="has an answer"):
        speed(Q(1.0, "N"), *row)  # less than the draft at no speed at all
    falling = [*row]
    falling[2] = Q(0.0, "N*h/(km*cm)")
    many = speed(Q([1.0, 300 * 228.0], "N"), *falling)
    assert np.isnan(many.magnitude[0]), "a gap where there is none"
    assert many.magnitude[1] == pytest.approx(8)


def test_two_answers_are_refused_with_both():
    """Tractive efficiency over slip is one curve; power over speed with a humped curve has two crossings."""
    from rigcalc.core.nomenclature import Symbol

    hump = Symbol("hump", "h", "1", "a curve with a top")
    at = Symbol("at", "a", "1", "where on the curve", most=10.0)
    top = Symbol("top", "t", "1", "its height")

    def humped(at, top):
        """A curve with a top."""
        return top * at * (4.0 - at)

    about = {
        "source": "d497",
        "where": "",
        "sure": "from memory",
        "table": "",
        "numeric": True,
        "traced": True,
        "fitted": False,
    }
    whole = solve_for(Equation(humped, hump, (at, top), valid={}, **about), "at")
    with pytest.raises(InputError, match=r"two answers: 1 and 3"):
        whole(Q(3.0), Q(1.0))
    assert whole(Q(4.0), Q(1.0)).magnitude == pytest.approx(2)
    half = solve_for(Equation(humped, hump, (at, top), valid={"at": (0.0, 2.0)}, **about), "at")
    assert half(Q(3.0), Q(1.0)).magnitude == pytest.approx(1), "the source's range decides"


def test_a_result_of_nothing_has_an_answer_too():
    assert solve_for("drawbar_power", "speed")(Q(0.0, "kW"), Q(10.0, "kN")).m_as("km/h") == 0.0


def test_strict_holds_the_answer_to_the_range_too():
    found = solve_for("specific_fuel_consumption", "load_ratio")
    eq = BOOK["specific_fuel_consumption"]
    inside, outside = eq(Q(0.5)), eq(Q(0.19))
    assert found(inside, strict=True).magnitude == pytest.approx(0.5)
    assert found(outside).magnitude == pytest.approx(0.19)
    with pytest.raises(InputError, match="range"):
        found(outside, strict=True)
    with pytest.warns(OutsideRange, match=r"0\.19") as caught:
        found(outside, strict="warn")
    assert caught[0].filename == __file__


@pytest.mark.parametrize(("equation", "symbol", "said"), [
    ("implment_draft", "depth", "implement_draft"), ("implement_draft", "depht", "depth"), ("texture_class", "sand", "lookup"),
    ("implement_draft", "draft", "soil_factor"), (None, "depth", "the name of an equation"), ("implement_draft", 3, "depth"),
])  # fmt: skip
def test_refused_in_words(equation, symbol, said):
    with pytest.raises(InputError, match=said):
        solve_for(equation, symbol)


@pytest.mark.parametrize("name", TRACED)
def test_slope_is_the_slope_of_the_body(name):
    eq = BOOK[name]
    values = dict(zip((symbol.name for symbol in eq.takes), bare_values(eq), strict=True))
    for symbol in eq.takes:
        found = slope(eq, symbol.name, values)
        step = 1e-5 * max(abs(values[symbol.name]), 1e-3)
        ends = [eq.bare(**values | {symbol.name: values[symbol.name] + way * step}) for way in (-1, 1)]
        wanted = float(ends[1] - ends[0]) / (2 * step)
        assert found.value == pytest.approx(wanted, rel=1e-5, abs=1e-7 * abs(float(ends[0])) / abs(values[symbol.name]))
        assert found.text.startswith(f"d {eq.gives.name} / d {symbol.name} = ")
        per = Q(1.0, eq.gives.unit) / Q(1.0, symbol.unit)
        assert Q(1.0, found.unit).dimensionality == per.dimensionality


def test_slope_on_arrays_and_what_is_missing():
    eq = BOOK["implement_draft"]
    values = dict(zip((symbol.name for symbol in eq.takes), bare_values(eq), strict=True))
    many = slope(eq, "depth", values | {"speed": np.array([5.0, 8.0])})
    assert many.value.shape == (2,)
    with pytest.raises(InputError) as refused:
        slope(eq, "depth", {"depth": 30.0, "speed": 8.0})
    assert len(refused.value.faults) == 5
    with pytest.raises(InputError, match="colour"):
        slope(eq, "colour", values)
    with pytest.raises(InputError, match="lookup"):
        slope(BOOK["texture_class"], "sand", {"sand": 20.0, "clay": 20.0})


def test_without_sympy_it_says_what_to_install():
    code = """
import sys
sys.modules["sympy"] = None
from rigcalc.core.working import working
from rigcalc.equations import load_all
print(working(load_all()["drawbar_power"], {"draft": 36.0, "speed": 10.0}).text_numbers)
from rigcalc.cli.main import main
sys.argv = ["rigcalc", "find", "--solve-for", "depth", "implement_draft"]
main()"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert "pip install 'rigcalc[working]'" in done.stderr
    assert "Traceback" not in done.stderr
    assert done.stdout.startswith("36 * 10 / 3.6"), "the working itself needs no sympy"
