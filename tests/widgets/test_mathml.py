"""Formulas as MathML: every one of the book, with symbols and with numbers; what could steer a page stays text."""

from xml.etree import ElementTree

import pytest

from rigcalc.core.working import latex, working
from rigcalc.equations import load_all
from rigcalc.widgets.mathml import mathml

BOOK = {name: eq for name, eq in load_all().items() if eq.traced}
SPACE = "{http://www.w3.org/1998/Math/MathML}"


@pytest.mark.parametrize("name", sorted(BOOK))
def test_every_formula_of_the_book_is_set(name):
    eq = BOOK[name]
    tree = ElementTree.fromstring(mathml(latex(eq)))
    assert tree.tag == f"{SPACE}math"
    assert tree.get("display") == "block"
    tags = {element.tag.removeprefix(SPACE) for element in tree.iter()}
    assert tags <= {"math", "mrow", "mi", "mo", "mn", "msub", "msup", "msubsup", "mfrac", "msqrt", "mtext", "mspace"}
    shown = "".join(tree.itertext())
    assert "\\" not in shown, "a command that is not set"
    assert latex(eq).count(r"\frac") == len(tree.findall(f".//{SPACE}mfrac"))


def test_a_small_number_keeps_its_power_of_ten():
    shown = working(BOOK["drawbar_power"], {"draft": 1.25e-5, "speed": 8.0})
    assert r"1.250 \times 10^{-5}" in shown.latex_numbers
    raised = ElementTree.fromstring(mathml(shown.latex_numbers)).find(f".//{SPACE}msup")
    assert "".join(raised.itertext()) == "10\N{MINUS SIGN}5"
    assert "1.250e-05" in shown.text_numbers


@pytest.mark.parametrize("odd", [
    r"\text{<script>alert(1)</script>}", r"\href{javascript:alert(1)}{x}", r"\style{position:fixed}{x}", r"\class{a}{x}",
    "a & b", r"\frac{1", "}", "^", "x_", "{" * 5000, r"\nosuch{x}", r"\left(", "<b>", r"\unicode{60}", r"\begin{matrix}",
])  # fmt: skip
def test_what_could_steer_the_page_or_cannot_be_read_stays_text(odd):
    made = mathml(odd)
    tree = ElementTree.fromstring(made)
    assert tree.tag == "code"
    assert tree.text == odd
    assert len(tree) == 0
