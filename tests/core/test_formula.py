"""The formula on the page, the formula that sympy traces, and the numbers put in: all say what the body does."""

import math

import numpy as np
import pytest
import sympy as sp
from samples import bare_values

from rigcalc.core import formula
from rigcalc.core.equation import Equation
from rigcalc.core.errors import InputError
from rigcalc.core.nomenclature import S
from rigcalc.core.working import derivative, expression, latex, symbol_of, text, working
from rigcalc.equations import load_all

BOOK = load_all()
TRACED = sorted(name for name, eq in BOOK.items() if eq.traced)
every = pytest.mark.parametrize("name", TRACED)


def parsed(eq, values=None):
    """The plain text read by sympy, knowing nothing of the body."""
    plain = formula.plain(eq, values).replace("°", "*pi/180").replace("^", "**")
    names = {symbol.name: symbol_of(symbol) for symbol in eq.takes}
    return sp.sympify(plain, locals=names)


@every
def test_plain_text_is_what_the_body_does(name):
    eq = BOOK[name]
    page, traced = parsed(eq), expression(eq)
    for seed in range(5):
        values = bare_values(eq, seed=seed)
        put = {symbol_of(symbol): value for symbol, value in zip(eq.takes, values, strict=True)}
        body = float(eq.bare(*values))
        assert float(page.subs(put)) == pytest.approx(body, rel=1e-12)
        assert float(traced.subs(put)) == pytest.approx(body, rel=1e-12)


@every
def test_every_argument_stands_in_the_formula(name):
    eq = BOOK[name]
    assert {str(free) for free in expression(eq).free_symbols} == {symbol.name for symbol in eq.takes}
    page = latex(eq)
    assert page.startswith(f"{eq.gives.latex} = ")
    assert all(symbol.latex in page for symbol in eq.takes)
    assert page.count("{") == page.count("}")
    assert page.count(r"\left(") == page.count(r"\right)")
    assert text(eq).startswith(f"{eq.gives.name} = ")


@every
def test_numbers_put_in_give_the_result(name):
    eq = BOOK[name]
    values = bare_values(eq)
    shown = working(eq, dict(zip((s.name for s in eq.takes), values, strict=True)))
    typed = float(sp.sympify(shown.text_numbers.replace("°", "*pi/180").replace("^", "**")))
    assert typed == pytest.approx(float(eq.bare(*(float(f"{value:.4g}") for value in values))), rel=1e-9), "four digits shown"
    number = shown.result.split()[0].strip("()")
    assert float(number) == pytest.approx(float(eq.bare(*values)), rel=1e-3)
    assert len(shown.inputs) == len(eq.takes)
    assert shown.source
    assert shown.sure == eq.sure


def read(page):
    """The value of a right-hand side in LaTeX with numbers in it, by Python's own arithmetic."""
    for mark, meant in ((r"\frac", ""), ("}{", "}/{"), (r"^{\circ}", "*pi/180"), ("e^{", "exp{"), ("^{", "**{"),
                        (r"\times", "*"), (r"\left", ""), (r"\right", ""), (r"\ln", "log")):  # fmt: skip
        page = page.replace(mark, meant)
    page = page.replace("\\", "").replace("{", "(").replace("}", ")")
    return eval(
        page, {"__builtins__": {}}, {name: getattr(math, name) for name in ("exp", "log", "sqrt", "sin", "cos", "tan", "pi")}
    )


@every
def test_the_page_with_numbers_gives_the_result(name):
    eq = BOOK[name]
    for seed in range(3):
        values = bare_values(eq, seed=seed)
        shown = working(eq, dict(zip((s.name for s in eq.takes), values, strict=True)))
        left, right = shown.latex_numbers.split(" = ")
        assert left == eq.gives.latex
        assert read(right) == pytest.approx(float(eq.bare(*(float(f"{value:.4g}") for value in values))), rel=1e-9)


def test_what_is_taken_away_as_a_whole_stands_in_a_fence():
    def made_up(draft, speed, width):
        """Text."""
        return draft - (speed + width) - speed * width

    about = {"source": "d497", "where": "", "sure": "from memory", "table": "", "numeric": True, "traced": True, "valid": {}}
    eq = Equation(made_up, S.pull, (S.draft, S.speed, S.width), **about)
    assert formula.plain(eq) == "draft - (speed + width) - speed * width"
    letters = {"draft": "D", "speed": "v", "width": "w"}
    assert formula.latex(eq, letters) == r"D - \left(v + w\right) - v \times w"


@pytest.mark.parametrize(("draft", "shown"), [
    (44_460.0, "123500 kW"), (4.4464e8, "1.235e+09 kW"), (0.000446, "0.001239 kW"), (-44_460.0, "(-123500) kW"),
])  # fmt: skip
def test_numbers_stand_plainly_as_far_as_they_are_read_so(draft, shown):
    assert working(BOOK["drawbar_power"], {"draft": draft, "speed": 10.0}).result == shown


@every
def test_derivative_is_the_slope_of_the_body(name):
    eq = BOOK[name]
    values = bare_values(eq)
    put = {symbol_of(s): v for s, v in zip(eq.takes, values, strict=True)}
    for place, symbol in enumerate(eq.takes):
        slope = float(derivative(eq, symbol.name).subs(put))
        step = 1e-5 * max(abs(values[place]), 1e-3)
        ahead, behind = [*values], [*values]
        ahead[place] += step
        behind[place] -= step
        measured = (eq.bare(*ahead) - eq.bare(*behind)) / (2 * step)
        assert slope == pytest.approx(float(measured), rel=1e-5, abs=1e-7 * abs(float(eq.bare(*values))) / abs(values[place]))


def test_a_lookup_has_no_formula():
    eq = BOOK["texture_class"]
    assert latex(eq) == ""
    assert text(eq) == "texture = lookup(sand, clay)"
    for ask in (expression, lambda e: derivative(e, "sand")):
        with pytest.raises(InputError, match="lookup"):
            ask(eq)
    assert working(eq, {"sand": 20.0, "clay": 20.0}).result == "silt loam"


def test_what_is_missing_is_said():
    eq = BOOK["drawbar_power"]
    with pytest.raises(InputError, match="speed"):
        working(eq, {"draft": 1.0})
    with pytest.raises(InputError, match="colour"):
        derivative(eq, "colour")


def test_symbols_are_said_once():
    assert len({symbol.name for symbol in S}) == len(list(S))
    for symbol in S:
        assert symbol.least < symbol.most
        assert symbol.text
        assert symbol.latex
    assert np.isinf(S.pull.least)
