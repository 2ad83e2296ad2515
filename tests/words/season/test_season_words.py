"""The season in words: the first sentence, tenths rounded down, both systems of units, and nothing said that isn't known."""

import pytest

from rigcalc import in_words, season
from rigcalc.models import demo_rig, replaced
from rigcalc.words.season.sentence import of_seasons

PLAN = {"start": "1 Oct", "by": "15 Nov"}


def said(rig="articulated", units="us", **plan):
    return in_words(season(rig, PLAN | plan), units)


@pytest.mark.parametrize(
    ("share", "text"),
    [(0.0, "hardly any of the autumns"), (0.05, "1 of 20 autumns"), (0.09, "1 of 10 autumns"), (0.198, "2 of 10 autumns"),
     (0.499, "4 of 10 autumns"),
     (0.5, "5 of 10 autumns"), (0.799, "7 of 10 autumns"), (0.8, "8 of 10 autumns"), (0.95, "19 of 20 autumns"),
     (1.0, "nearly all autumns")],
)  # fmt: skip
def test_no_finer_than_twenty_years_carry(share, text):
    assert of_seasons(share, True) == text


def test_spring_has_no_autumns():
    assert of_seasons(0.5, False) == "5 of 10 seasons"


def test_no_yes_and_not_surely():
    assert str(said(by="24 Oct", rig="front_wheel_assist")).startswith("No: by 24 Oct it is done in 2 of 10 autumns.")
    assert str(said()).startswith("Yes: by 15 Nov it is done in 8 of 10 autumns.")
    foreign = said(replaced(demo_rig("two_wheel_drive"), {"work.fit_days": None}))
    assert str(foreign).startswith(
        "Not surely: by 15 Nov it is done in nearly all autumns, as a northern plains state had them"
    )


def test_a_limit_is_said_before_the_days():
    words = said("two_track")
    assert str(words).startswith("No: the rear tracks press harder than their limit")
    assert "By the days alone" in words.said.headline


def test_too_late_to_begin_and_when_to():
    assert "1 Oct is too late to begin" in str(said("front_wheel_assist", by="24 Oct"))
    assert "begin by" in str(said("two_wheel_drive"))


def test_units_are_equals():
    us, si = said(units="us"), said(units="si")
    assert "acre" in str(us)
    assert "ha" in str(si)
    assert "acre" not in str(si)
    assert us.answer.finish.chance == si.answer.finish.chance


def test_the_bar_names_every_part_once_and_adds_up():
    words = said()
    bars = words.bars(words.answer.rigs[0])
    assert sum(bar.share for bar in bars) == pytest.approx(1)
    assert len({bar.title for bar in bars}) == len(bars)


def test_a_rig_that_stands_has_no_day_and_no_numbers():
    words = said(replaced(demo_rig("two_wheel_drive"), {"work.depth": "30 in", "ground.surface": "tilled"}))
    one = words.answer.rigs[0]
    assert str(words).startswith("No: ")
    assert words.bars(one) == ()
    text = f"{words} {words.day_lines(one)} {words.notes} {words.changes} {words.money_lines(one)}"
    assert "nan" not in text.lower().split()
    assert "inf" not in text.lower().split()


def test_money_is_said_by_the_area_shown():
    prices = {
        "tractor_price": 400_000,
        "tool_price": 80_000,
        "fuel_price": "3.50 per gal",
        "hire": "24 per acre",
        "crop_price": "180 per t",
    }
    us, si = said(money=prices), said(units="si", money=prices)
    one = us.answer.rigs[0]
    assert "an acre" in us.costs(one)[-1][1]
    acre, hectare = (float(words.costs(one)[-1][1].split()[0].replace(",", "")) for words in (us, si))
    assert hectare / acre == pytest.approx(2.471, rel=1e-3)
    assert any("bushels" in line for line in us.money_lines(one))
    assert any("inflation is left out" in line for line in us.money_lines(one))
    assert "money" in said().money_lines(said().answer.rigs[0])[0]


def test_another_time_of_the_year_is_never_a_yes():
    """The share in the rig file is of its own season; frost and thaw are in nobody's record here."""
    words = said(start="1 Jan", by="31 May")
    assert words.answer.seasons.borrowed
    assert words.said.word == "Not surely"
    assert "if years scatter then as they do in autumn" in words.said.headline
    assert "frost isn't counted" in words.notes[0]


def test_later_passes_that_alone_are_too_much():
    later = [{"name": "x", "width": "20 ft", "speed": "3 mph", "field_efficiency": "60 percent"}]
    text = str(said(later=later))
    assert text.startswith("No: ")
    assert "the later passes alone take more than there are in half of them" in text


def test_prices_of_nothing_are_no_fault():
    words = said(money={"tractor_price": 0, "tool_price": 0, "fuel_price": "0 per L", "hire": "0 per ha"})
    assert words.costs(words.answer.rigs[0])[-1][1] == "0.00 an acre"
    assert words.money_lines(words.answer.rigs[0])


def test_the_first_sentence_names_dates_that_nobody_typed():
    free = replaced(demo_rig("articulated"), {"work.calendar_days": None})
    both = in_words(season(free), "us").said.headline
    assert "with 1 Oct and 15 Nov taken since nobody typed them" in both
    assert "with 15 Nov taken since nobody typed it" in in_words(season(free, {"start": "1 Oct"}), "us").said.headline
    assert "nobody typed" not in said().said.headline


def test_the_first_sentence_doubts_field_hours_that_the_clock_does_not_leave():
    long = said(day={"field_hours": "14 h/day"}).said.headline
    assert "if 14 h in the field are right: 14.5 h of the clock leave 10.5 h" in long
    assert "if " not in said(day={"field_hours": "10 h/day"}).said.headline


def test_several_rigs_have_somebody_to_drive_each():
    rest = " ".join(in_words(season(["articulated"] * 2, PLAN), "us").said.rest)
    assert "2 rigs, each with somebody to drive it" in rest


@pytest.mark.parametrize(("units", "shallower", "faster"), [("us", "2 in", "0.5 mph"), ("si", "5.1 cm", "0.8 km/h")])
def test_a_change_is_said_by_the_step_that_was_run(units, shallower, faster):
    texts = [row[0] for row in said(units=units).changes]
    assert f"{shallower} shallower" in texts
    assert f"{faster} faster" in texts
