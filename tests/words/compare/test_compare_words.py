"""What is said of a comparison: every outcome, both systems of units, and a line for every state."""

import dataclasses
import re

import pytest
from known_rigs import known_rig

from rigcalc.core.errors import InputError
from rigcalc.models import replaced, size
from rigcalc.models.compare import Outcome, compare
from rigcalc.models.compare.alike import alike
from rigcalc.models.compare.answer import Compared, Comparison
from rigcalc.models.compare.choice import choice
from rigcalc.models.compare.figures import FIGURES, figures
from rigcalc.models.rig.file import demo_rig
from rigcalc.models.size.verdict import Judgement, State, Verdict
from rigcalc.words import in_words
from rigcalc.words.compare.names import variation_name
from rigcalc.words.compare.rows import cell, row_words, shown_figure, title
from rigcalc.words.compare.sentence import _BEHIND, _PARTED, _SAYS, listed

BASE = size(known_rig())


def side(name, judgement, chance, state=State.UNSURE, **changed):
    answer = dataclasses.replace(
        BASE, verdict=Verdict(judgement, state), sure=dataclasses.replace(BASE.sure, chance_works=chance)
    )
    return Compared(name, answer, figures(answer) | changed)


def said(*sides, units="us"):
    comparison = Comparison(sides, choice([each.answer for each in sides], [each.figures for each in sides]), 0)
    return in_words(comparison, units).said


def test_one_is_ahead():
    text = said(side("old", Judgement.TRY, 0.62, fails_most="engine"), side("new", Judgement.GO, 0.97, State.WORKS))
    assert (text.word, text.headline) == ("new", "go, every limit holds in 97 in 100 such fields.")
    assert text.rest == (
        "old is try it first: every limit holds in 62 in 100 such fields, and elsewhere it is mostly engine power "
        "that gives out.",
    )


def test_ahead_by_chance_alone():
    text = said(side("old", Judgement.GO, 0.87, State.WORKS), side("new", Judgement.GO, 0.97, State.WORKS))
    assert text.rest[0].startswith("old is go too, but every limit holds in 87 in 100 such fields")


def test_the_line_between_two_verdicts():
    text = said(side("old", Judgement.TRY, 0.84), side("new", Judgement.GO, 0.86, State.WORKS))
    assert text.rest[-1] == "old stands within the doubt of that: the line of 85 in 100 falls between."


def test_even():
    text = said(side("old", Judgement.GO, 0.96, State.WORKS), side("new", Judgement.GO, 0.97, State.WORKS))
    assert str(text) == ("It doesn't matter which: each is go, every limit holds in 96 and 97 in 100 such fields; a difference "
                         "that small is inside the doubt about draft and soil.")  # fmt: skip


def test_even_but_one_covers_more():
    sides = [side(name, Judgement.GO, 0.96, State.WORKS, field_capacity=area) for name, area in (("13", 4.0), ("15", 5.0))]
    text = said(*sides)
    assert text.word == "For whether it works it doesn't matter which"
    assert text.headline == "each is go, every limit holds in 96 in 100 such fields."
    # 4 and 5 ha/h over 0.404686 ha an acre
    assert text.rest == ("15 covers most, 12.4 acre/h; 13 the least, 9.88 acre/h.",)
    assert said(*sides, units="si").rest == ("15 covers most, 5 ha/h; 13 the least, 4 ha/h.",)


def test_several_are_ahead():
    never = side("c", Judgement.DONT, 0.0, State.LITTLE_GRIP)
    text = said(side("a", Judgement.GO, 0.96, State.WORKS), side("b", Judgement.GO, 0.94, State.WORKS), never)
    assert text.word == "a or b"
    assert text.headline.endswith("and among them it doesn't matter which.")
    assert text.rest == ("c is don't: every limit holds in under 1 in 100 such fields, and grip can't give the pull.",)


def test_none_and_the_same():
    text = said(side("a", Judgement.DONT, 0.1, State.OVER_A_LIMIT), side("b", Judgement.DONT, 0.2, State.LITTLE_ENGINE))
    assert str(text).startswith("None of them: each is don't. a is don't: ")
    assert len(text.rest) == 2
    text = said(side("a", Judgement.DONT, 0.1), side("b", Judgement.DONT, 0.1))
    assert text.word == "It doesn't matter which"
    assert "the same in every figure; each is don't" in text.headline


def test_where_the_verdict_stands_on_more_than_the_chance_all_else_holds():
    text = said(side("a", Judgement.TRY, 0.99, State.TOO_DEEP), side("b", Judgement.TRY, 0.5))
    assert "all else holds in 99 in 100 such fields" in text.headline


def test_different_work_is_said_before_all_else():
    found = compare([known_rig(), replaced(known_rig(), {"work.depth": "16 in"})], ["shallow", "deep"])
    rest = in_words(found).said.rest
    assert rest[0] == "They aren't asked the same work, which comes into every figure: depth differs."
    assert any(line.startswith("deep goes deepest, 16 in; shallow the shallowest, 12 in") for line in rest)


def test_every_outcome_and_every_state_has_words():
    assert set(_SAYS) == set(Outcome)
    assert set(_BEHIND) == set(State)
    assert set(_PARTED) == {"depth", "field_capacity", "fuel_per_area"}


@pytest.mark.parametrize("units", ["us", "si"])
def test_rows_are_parted_into_what_differs_and_what_is_the_same(units):
    words = in_words(compare([known_rig("tracks"), known_rig(), known_rig()]), units)
    assert [row.name for row in words.rows] == [figure.name for figure in FIGURES]
    same = [row for row in words.rows if not row.differs]
    assert same
    assert words.differing
    for row in same:
        assert f"{row.title[1:]} {row.cells[0]}" in words.same
    for row in words.differing:
        assert len(set(row.cells)) > 1
        assert row.cells[1] == row.cells[2]
    assert not re.search(r"[a-z]_[a-z]|nan|None", " ".join(cell for row in words.rows for cell in row.cells) + words.same)


def test_nothing_is_the_same_where_nothing_is():
    found = compare([known_rig(), known_rig()])
    rows = row_words(found, "us")
    assert not any(row.differs for row in rows)


def test_cells_of_what_is_not():
    assert cell("slip", "1", float("nan"), "us") == "out of reach"
    assert cell("deepest", "cm", None, "us") == "none works"
    assert cell("critical_depth", "cm", None, "us") == "not known"
    assert cell("power_per_width", "kW/m", 10.0, "us") == "4.09 hp/ft"  # 10 / 0.7457 x 0.3048
    assert shown_figure("slip", "1", 0.127, "si") == (12.7, "%")
    assert shown_figure("tools", "1", 15.0, "si") == (15.0, "")
    assert shown_figure("draft", "kN", float("nan"), "us") == (None, "lbf")
    assert shown_figure("draft", "kN", None, "si") == (None, "kN")


def test_titles_call_the_tools_by_their_word():
    assert title("power_per_tool", compare([known_rig(), known_rig()])) == "Engine power a shank"


def test_names_of_variations():
    rig = known_rig()
    three = {"tools": "13", "depth": "14 in", "implement.spacing": "16 in"}
    assert variation_name(three, rig) == "13 shanks, 14 in deep, spacing 16 in"
    assert variation_name({"implement.tools": "1"}, rig) == "1 shank"
    assert variation_name({"tractor.rated_power": "400 hp", "texture": "clay"}, rig) == "rated power 400 hp, clay"


def test_listed_and_units():
    assert listed(["a", "b", "c"], "or") == "a, b or c"
    found = compare([known_rig(), known_rig()])
    assert in_words(found).units == "us"
    with pytest.raises(InputError):
        in_words(found, "imperial")


def test_why_one_tool_pulls_harder_behind_one_tractor_is_said():
    rigs = [demo_rig("front_wheel_assist"), demo_rig("articulated")]
    found = compare([alike(rig, rigs[0], "tool") for rig in rigs], names=["small", "large"])
    line = next(line for line in in_words(found, "us").said.rest if "same tool" in line)
    assert line == (
        "The same tool pulls 8,470 lbf behind large and 7,560 lbf behind small: 87 % of its width runs in wheel tracks behind "
        "the one, 67 % behind the other, and shanks there pull about twice as hard."
    )
    assert not any("same tool" in line for line in in_words(compare(rigs), "us").said.rest)
