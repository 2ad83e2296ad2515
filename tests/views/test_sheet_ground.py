"""The ground on the setup sheet: a few lines where somebody looked, none where nobody did, never on more than two pages."""

import pytest
from known_rigs import known_rig
from sheet_readers import pdf_pages

from rigcalc.core.errors import InputError
from rigcalc.models import replaced, size
from rigcalc.models.ground import ground
from rigcalc.views.sheet import sheet_data, sheet_html, sheet_pdf
from rigcalc.words import in_words

FLAGS = "; ".join(["8 in to 12 in"] * 6 + ["7 in to 10 in"] * 4 + ["none"] * 2)


def words(units="us", **changes):
    return in_words(size(replaced(known_rig(), {f"ground.{name}": text for name, text in changes.items()})), units)


def test_nothing_is_said_where_nobody_looked():
    assert sheet_data(words()).soil == ()
    assert "The ground</h2>" not in sheet_html(words())


def test_the_lines_say_what_the_ground_says():
    said = words(flags=FLAGS, thread_test="crumbles")
    lines = sheet_data(said).soil
    answer = in_words(ground(said.answer.rig), "us")
    assert lines[0] == f"{answer.said.word}: {answer.said.headline}"
    assert "8 in to 12 in, at 10 of 12 flags; 13 to 14 in gets under it at 80 %" in lines[1]
    assert len(lines) == 4
    assert "cm" in " ".join(sheet_data(words("si", flags=FLAGS)).soil)


def test_flags_that_end_inside_the_layer_give_no_bottom():
    assert (
        "from 9 in down, at 3 of 3 flags" in sheet_data(words(flags="9 in to deeper; 9 in to deeper; 8 in to deeper")).soil[1]
    )


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_it_stays_on_two_pages(paper):
    said = words(flags=FLAGS, thread_test="crumbles")
    front, back = pdf_pages(sheet_pdf(said, paper=paper))
    assert "The ground" in back
    assert "Layer in the middle of the flags" in back
    assert "gets under it" not in front


def test_flags_that_cannot_be_used_are_refused_and_not_left_out():
    with pytest.raises(InputError, match=r"ground\.flags: flag 2"):
        sheet_data(words(flags="8 in to 12 in; 8 12 3"))
