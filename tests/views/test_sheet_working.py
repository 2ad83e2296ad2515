"""The working behind the setup sheet: every step with its formula; what isn't a formula of the book never gets to typst."""

import io

import pytest
import typst
from pypdf import PdfReader
from sheet_readers import flat, pdf_pages, read_html

from rigcalc.core.dimensions import dimensions
from rigcalc.core.formula import latex
from rigcalc.core.typst_math import typst_math
from rigcalc.equations import load_all
from rigcalc.models import demo_rig, replaced, size
from rigcalc.views.sheet import sheet_data, sheet_html, sheet_pdf
from rigcalc.words import in_words

BOOK = [eq for eq in load_all().values() if eq.traced]


@pytest.fixture(scope="module", params=["us", "si"])
def words(request):
    return in_words(size(demo_rig("two_track")), request.param)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (r"P_d = \frac{F \, v}{3.6}", "P _(d) = frac(F thin v, 3.6)"),
        (r"\sqrt{\theta_{max}}", "sqrt(theta _(m a x))"),
        (r"e^{-k \cdot 2}", "e ^(- k dot.op 2)"),
        (r"\sin\left(\theta^{\circ}\right)", "sin ( theta ^(compose) )"),
        (r"\text{[N/cm]} \times 0.85", '"[N/cm]" times 0.85'),
        ("a / b", r"a \/ b"),
    ],
)
def test_by_hand(text, expected):
    assert typst_math(text) == expected


@pytest.mark.parametrize(
    "text",
    [r"\input{x}", '#read("x")', "a$b", '"x', r"\frac{a}", r"\frac{a}b", "{a", "a}", "a_{b", "é", r"\\", "a&b", "a^"],
)
def test_what_is_no_formula_of_the_book_is_refused(text):
    with pytest.raises(ValueError, match=r"bracket|known|stands"):
        typst_math(text)


def test_a_text_in_a_formula_stays_a_text():
    assert typst_math(r'\text{a" + sys.inputs + "b}') == '"a + sys.inputs + b"'


def test_the_whole_book_is_set():
    lines = [f"$ {typst_math(eq.gives.latex)} = {typst_math(latex(eq))} $" for eq in BOOK]
    lines += [f"${typst_math(symbol.latex)}$" for eq in BOOK for symbol in eq.takes]
    lines += [f"$ {typst_math(check.latex)} $" for check in map(dimensions, BOOK) if check is not None]
    assert len(lines) > 300
    typst.compile("\n".join(lines).encode(), format="pdf", ignore_system_fonts=True)


def test_every_step_is_printed(words):
    reader = PdfReader(io.BytesIO(sheet_pdf(words, working=True)))
    pages = [flat(page.extract_text()) for page in reader.pages]
    assert len(pages) > 4
    front, behind = " ".join(pages[:2]), " ".join(pages[2:])
    assert "How each number is worked out" in behind
    assert "How each number is worked out" not in front
    assert len(words.working) > 25
    for step in words.working:
        for said in (step.title, step.result, *step.inputs, step.source):
            assert flat(said) in behind, said
    assert behind.count("Dimensions.") == sum(step.dimensions is not None for step in words.working)


def test_the_page_has_formulas_set_and_all_that_is_said(words):
    page = sheet_html(words, working=True)
    said = flat(" ".join(read_html(page).words))
    for step in words.working:
        for text in (f"{step.title}: {step.result}", *step.inputs):
            assert flat(text) in said, text
    assert page.count("<math") > 2 * sum(bool(step.latex) for step in words.working)
    assert "<script" not in page


def test_without_it_the_sheet_is_two_pages_as_ever(words):
    assert sheet_data(words).working == ()
    assert len(pdf_pages(sheet_pdf(words))) == 2
    assert "How each number is worked out" not in sheet_html(words)


@pytest.mark.parametrize("changes", [{"implement.tools": 60, "work.depth": "60 cm"}, {"ground.grade": "-12 percent"}])
def test_what_cannot_be_pulled_and_what_is_below_zero_have_their_steps(changes):
    words = in_words(size(replaced(demo_rig("articulated"), changes)), "us")
    steps = sheet_data(words, working=True).working
    assert len(steps) == len(words.working) >= 20
    assert not [step.title for step in steps if "nan" in f"{step.result} {step.text}"]
    assert not [step.title for step in steps for text in step.formulas if "n a n" in text or "i n f" in text]
