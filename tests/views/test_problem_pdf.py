"""A student's sheet as PDF: every problem on it, answers only where they are asked for, names that stay names."""

import io
import re

import pytest
from pypdf import PdfReader

from rigcalc.models.classroom import kinds
from rigcalc.models.classroom.problem_set import ProblemSet, assigned
from rigcalc.views.classroom.pdf import sheet_pdf
from rigcalc.words.classroom import ProblemWords

HOSTILE = "#panic() $x$ <script>alert(1)</script> `a` " + "w" * 30


def given(units="us", names=("Ada",)):
    return assigned(ProblemSet(names, tuple(kinds()), 1, units))


def squeezed(text):
    return re.sub(r"[\s\u200b]+", "", text)


def read(data):
    return squeezed("".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages))


@pytest.mark.parametrize(("units", "size"), [("us", (612, 792)), ("si", (595, 842))])
def test_every_problem_is_on_it_and_answers_where_they_are_asked_for(units, size):
    (problems,) = given(units).values()
    without, with_answers = sheet_pdf("Ada", problems), sheet_pdf("Ada", problems, answers=True)
    assert "Problems for Ada" in PdfReader(io.BytesIO(without)).metadata.title
    page = PdfReader(io.BytesIO(without)).pages[0].mediabox
    assert (round(page.width), round(page.height)) == size
    plain, solved = read(without), read(with_answers)
    for problem in problems:
        words = ProblemWords(problem)
        assert squeezed(words.text) in plain
        assert squeezed(words.text) in solved
        assert squeezed(f"That is {words.answer}.") in solved
        assert squeezed(words.working[2]) in solved
    assert "Thatis" not in plain
    assert "Dimensions" not in plain
    assert squeezed(kinds()["drawbar_power"].hints[1]) not in plain


def test_the_same_sheet_has_the_same_bytes_and_a_name_stays_a_name():
    (problems,) = given(names=(HOSTILE,)).values()
    made = sheet_pdf(HOSTILE, problems[:3])
    assert made == sheet_pdf(HOSTILE, problems[:3])
    assert squeezed(HOSTILE) in read(made)
    assert made != sheet_pdf("Ada", problems[:3])
