"""Typed numbers: the typed text is the truth, the box follows the unit system."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.widgets.entries import completed, show_number, system_of, tidy
from rigcalc.widgets.fields import Number, Scale, plain

DEPTH = Number("depth", "Depth", Scale("in", 2, 20, 0.5), Scale("cm", 5, 50, 1))


@pytest.mark.parametrize(
    ("typed", "system", "typed_in", "text", "also"),
    [
        ("14 in", "us", None, "14 in", ""),
        ("14 in", "si", None, "35.56 cm", "typed: 14 in"),
        ("0.35 m", "si", None, "0.35 m", "= 35 cm"),
        ("0.35 m", "us", "us", "0.35 m", "= 13.78 in"),
        ("0.35 m", "us", "si", "13.78 in", "typed: 0.35 m"),
        ("rubbish", "us", None, "rubbish", ""),
        ("3 kg", "us", None, "3 kg", ""),
        ("", "us", None, "", ""),
    ],
)
def test_what_the_box_shows(typed, system, typed_in, text, also):
    shown = show_number(DEPTH, typed, system, typed_in)
    assert (shown.text, shown.also) == (text, also)


def test_a_number_past_the_range_is_marked_in_words():
    assert show_number(DEPTH, "20 in", "us").mark == ""
    assert show_number(DEPTH, "51 cm", "us").mark.endswith("2 to 20 in")
    assert show_number(DEPTH, "1 in", "si").mark.endswith("5 to 50 cm")


def test_a_bare_number_gets_the_unit_of_the_slider():
    assert completed(DEPTH, "14", "us") == "14 in"
    assert completed(DEPTH, " 14 ", "si") == "14 cm"
    assert completed(DEPTH, "14 ft", "us") == "14 ft"
    assert completed(DEPTH, "deep", "us") == "deep"
    assert completed(plain("tools", "Shanks", "1 40 1"), "7", "us") == "7"


@pytest.mark.parametrize(
    ("unit", "system"),
    [("in", "us"), ("km/h", "si"), ("lb", "us"), ("percent", None), ("", None), ("gal/acre", "us"), ("L/ha", "si")],
)
def test_units_know_their_system(unit, system):
    assert system_of(unit) == system


@given(st.floats(min_value=-1e12, max_value=1e12, allow_nan=False))
def test_tidy_numbers_read_back_to_four_digits(number):
    text = tidy(number)
    assert "e" not in text
    assert float(text) == pytest.approx(number, rel=6e-4, abs=1e-10)
