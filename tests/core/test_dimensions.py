"""The check of dimensions that stands at each step: against the proof by quantities, by hand, and where it has to say no."""

from fractions import Fraction

import numpy as np
import pytest

from rigcalc.core.dimensions import Dimensions, bracketed, dimensions, of_terms, powers_text
from rigcalc.core.equation import Equation
from rigcalc.core.nomenclature import S
from rigcalc.core.units import dimension
from rigcalc.equations import load_all
from rigcalc.words.dimensions import dimensions_said

BOOK = load_all()
# Formulas whose bare numbers carry units, by hand: fits and rules that hold in one set of units.
CARRY = {
    "compaction_resistance", "fuel_rate", "fuel_rate_average", "load_index_mass", "precompression_root", "repairs_since_new",
    "specific_fuel_consumption", "track_sinkage",
}  # fmt: skip


def made_up(body, gives, takes, numeric=False):
    about = {"source": "d497", "where": "", "sure": "from memory", "table": "", "numeric": numeric, "traced": True, "valid": {}}
    return Equation(body, gives, takes, **about)


def test_every_formula_agrees_but_those_whose_numbers_carry_units():
    """tests/core/test_dimension_proof.py proves the same of all without bare numbers, by running them on quantities."""
    checks = {name: dimensions(eq) for name, eq in BOOK.items()}
    assert {name for name, check in checks.items() if check is None} == {name for name, eq in BOOK.items() if not eq.traced}
    apart = {name for name, check in checks.items() if check is not None and not check.agree}
    assert apart >= CARRY
    assert all(BOOK[name].numeric for name in apart)


@pytest.mark.parametrize(("name", "text", "said"), [
    ("drawbar_power", "[kW] = [kN] * [km/h] / 3.6",
     "Both sides are a power, M·L²·T⁻³; the formula's own numbers go with the units shown and hold in them alone."),
    ("specific_draft", "[kPa] = [kN] / ([m] * [m])",
     "Both sides are a pressure, M·L⁻¹·T⁻²; it holds in any units that go together."),
    ("slip_from_speeds", "[1] = 1 - [km/h] / [km/h]", "Both sides are plain numbers; it holds in any units that go together."),
    ("fuel_rate_average", "[L/h] = 0.223 * [kW]",
     "The result is L³·T⁻¹; plain numbers in the formula carry units, so it holds in the units shown alone."),
    ("grade_resistance", "[kN] = [kN] * sin([deg])",
     "Both sides are a force, M·L·T⁻²; it holds in any units that go together."),
])  # fmt: skip
def test_by_hand(name, text, said):
    check = dimensions(BOOK[name])
    assert (check.text, dimensions_said(check)) == (text, said)
    assert check.latex.count(r"\text{[") == text.count("[")


def test_a_wrong_formula_is_told():
    def too_often(draft, width, depth):
        """Text."""
        return draft / (width * depth * depth)

    def apples_and_pears(draft, width, depth):
        """Text."""
        return draft + width * depth

    def one_term_fits(draft, width, depth):
        """Text."""
        return draft / (width * depth) + draft

    def of_a_length(draft, width, depth):
        """Text."""
        return np.exp(depth) * draft / (width * depth * depth)

    def exponent(draft, width, depth):
        """Text."""
        return draft * 2.0 ** (width / depth**2)

    def unit_hangs_on_a_value(draft, width, depth):
        """Text."""
        return (draft / (width * width)) ** (width / depth)

    takes = (S.draft.in_("kN"), S.width, S.depth.in_("m"))
    for body in (too_often, apples_and_pears, one_term_fits, of_a_length, exponent, unit_hangs_on_a_value):
        check = dimensions(made_up(body, S.specific_draft, takes))
        assert not check.agree
        assert dimensions_said(check).startswith("The sides don't agree")


def test_a_root_halves_and_a_power_multiplies():
    def root(wheel_load, pressure):
        """Text."""
        return (wheel_load / pressure) ** 0.5 * (wheel_load / pressure) ** -1 * (wheel_load / pressure)

    check = dimensions(made_up(root, S.stress_depth, (S.wheel_load, S.pressure)))
    assert check.found == (Fraction(1), 0, 0, 0)


def test_sums_and_quotients_of_the_working():
    assert of_terms(["kN", "kN", "kN"], " + ", "kN").agree
    assert not of_terms(["kN", "kW", "kN"], " + ", "kN").agree
    assert of_terms(["kW", "kW"], " / ", "1").agree
    assert not of_terms(["kW", "1"], " / ", "kN").agree
    assert of_terms(["kW", "1"], " * ", "kW").text == "[kW] = [kW] * [1]"


def test_units_and_powers_as_they_are_written():
    assert dimension("N*h**2/(km**2*cm)") == (-2, 1, 0, 0)
    assert bracketed("N*h**2/km**2/cm") == "[N·h²/km²/cm]"
    assert bracketed("N*m**-2") == "[N·m⁻²]"
    assert bracketed("") == bracketed("1") == "[1]"
    assert powers_text((Fraction(2), Fraction(1), Fraction(-3), Fraction(0))) == "M·L²·T⁻³"
    assert powers_text((Fraction(1, 2), Fraction(0), Fraction(0), Fraction(0))) == "L^(1/2)"
    assert isinstance(dimensions(BOOK["specific_draft"]), Dimensions)
