"""A step of the working solved for another symbol: by hand, with what is zero, and where there is nothing to solve for."""

import os

import pytest

from rigcalc.core.errors import InputError
from rigcalc.core.working import working
from rigcalc.equations import load_all, solve_for
from rigcalc.models import demo_rig, replaced, size
from rigcalc.words import in_words
from rigcalc.words.solved import hold_to_symbols, solved_line, solved_words

BOOK = load_all()
LONG = bool(os.environ.get("RIGCALC_LONG"))


def step(name, **numbers):
    return working(BOOK[name], numbers)


def test_by_hand():
    # 125 kW = 50 kN * 9 km/h / 3.6
    solved = solved_words(step("drawbar_power", draft=50.0, speed=9.0), "speed")
    assert solved.text == "speed = 3.6*drawbar_power/draft"
    assert solved.latex_numbers == r"S = \frac{3.6 \times 125}{50}"
    assert solved.result == "speed = 9 km/h"
    assert solved.where == ""


def test_a_notebook_shows_a_step_and_an_equation_that_was_solved():
    shown = step("drawbar_power", draft=50.0, speed=9.0)._repr_latex_()
    lines = shown.removeprefix(r"$$\begin{aligned}").removesuffix(r"\end{aligned}$$").split(r" \\ ")
    assert lines[1].endswith(r"\frac{50 \times 9}{3.6} = \text{125 kW}")
    assert lines[2] == r"\text{[kW]} &= \frac{\text{[kN]} \times \text{[km/h]}}{3.6}"
    assert len(lines) == 3
    assert step("texture_class", sand=20.0, clay=20.0)._repr_latex_() == ""
    solved = solve_for("drawbar_power", "speed")._repr_latex_()
    assert solved == r"$$\begin{aligned}P_{db} &= \frac{D \, S}{3.6} \\ S &= \frac{3.6 P_{db}}{D}\end{aligned}$$"


def test_of_two_roots_the_numbers_go_into_the_one_that_gives_what_was_put_in():
    table = {"soil_factor": 1.0, "draft_a": 100.0, "draft_b": -30.0, "draft_c": 2.0, "tools": 1.0, "depth": 1.0}
    # 100 - 30 S + 2 S² is 12 at 4 km/h and 12 at 11 km/h: the sum of the two is 15, half of 30
    shown = []
    for speed in (4.0, 11.0):
        solved = solved_words(step("implement_draft", speed=speed, **table), "speed")
        assert " or " in solved.text
        assert solved.result == f"speed = {speed:g} km/h"
        shown.append(solved.latex_numbers)
    assert shown[0] != shown[1]
    assert shown[0].count("12") == shown[1].count("12") > 0


def test_what_is_zero_falls_away_before():
    table = {"soil_factor": 0.5, "draft_a": 100.0, "draft_b": 5.0, "draft_c": 0.0, "tools": 4.0, "depth": 20.0}
    solved = solved_words(step("implement_draft", speed=8.0, **table), "speed")
    assert solved.where == "Here draft c is 0."
    assert "draft_c" not in solved.text
    assert solved.latex_numbers == r"S = - \frac{100}{5} + \frac{5600}{20 \times 5 \times 0.5 \times 4}"


def test_where_it_makes_no_difference_it_says_so():
    flat = step("grade_resistance", weight=100.0, grade=0.0)
    with pytest.raises(InputError, match="makes no difference"):
        solved_words(flat, "weight")
    assert "makes no difference" in solved_line(flat, "weight")
    with pytest.raises(InputError, match="no formula"):
        solved_words(step("capital_recovery_factor", interest=0.05, years=10.0), "interest")


def test_a_symbol_that_the_step_hasn_t_is_refused_with_those_it_has():
    with pytest.raises(InputError, match="drawbar_power: got 'depth'; expected one of draft, speed"):
        solved_words(step("drawbar_power", draft=50.0, speed=9.0), "depth")
    with pytest.raises(InputError, match="a step of one formula"):
        solved_words(step("texture_class", sand=20.0, clay=20.0), "sand")


def test_numbers_that_are_missing_are_named_each_of_them():
    found = solve_for("drawbar_power", "speed")
    assert found.put_in({"draft": 50.0, "speed": 9.0}) == r"S = \frac{3.6 \times 125}{50}"
    for given, missing in (({"draft": 50.0}, ["speed"]), ({}, ["draft", "speed"])):
        with pytest.raises(InputError) as error:
            found.put_in(given)
        assert [fault.where.rpartition(": ")[2] for fault in error.value.faults] == missing


def test_every_step_of_a_rig_is_solved_for_every_symbol_or_says_why():
    words = in_words(size(replaced(demo_rig(), {"ground.grade": "3 deg"})), "us")
    refused = set()
    for place, each in enumerate(words.working):
        for name, number in list(each.numbers.items())[0 if LONG else place % 3 :: 1 if LONG else 3]:
            try:
                solved = solved_words(each, name)
            except InputError:
                refused.add((each.equation, name))
            else:
                assert solved.result in [line.partition(": ")[0] for line in each.inputs]
                assert solved.result.startswith(f"{name} = ")
                assert solved.latex_numbers.count("=") == 1
                assert number is not None
    flat = {("partial_throttle_multiplier", "load_ratio")}  # at rated engine speed load makes no difference
    assert refused == flat if LONG else refused <= flat


def test_sums_and_rows_looked_up_have_nothing_to_solve_for():
    words = in_words(size(demo_rig()), "us")
    without = [each.title for each in words.working if not each.numbers]
    assert without[0].endswith("looked up")
    assert {"drawbar pull", "engine load", "balance that gives slip"} < set(without)
    assert all(each.dimensions.agree for each in words.working[1:] if not each.numbers)
    hold_to_symbols(words.working, "depth")
    with pytest.raises(InputError, match="one of axle_force"):
        hold_to_symbols(words.working, "depht")
    assert solved_line(words.working[0], "depth") == ""
    assert solved_line(words.working[1], "depth").endswith("so depth = 10 in (25.4 cm)")
