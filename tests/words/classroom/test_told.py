"""What is said of an answer: a sentence for whatever can be the matter, and never the answer itself."""

from __future__ import annotations

import re

import pytest

from rigcalc.core.units import SPELLINGS, factor, parse
from rigcalc.models.classroom import Mark, Outcome, Problem, draw, kinds, mark
from rigcalc.models.classroom.answers import Unread
from rigcalc.models.classroom.chain import put_in
from rigcalc.models.classroom.kinds import SYSTEMS, Amount, System
from rigcalc.models.classroom.returned import Refused
from rigcalc.words.classroom import ProblemWords, refused_said, told
from rigcalc.words.classroom.problem import LESSONS, LEVELS, amount_said, unit_said, unit_to_type
from rigcalc.words.spelling import spelt

KINDS = [(name, system) for name in kinds() for system in SYSTEMS]
NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?")


def numbers_in(text: str) -> list[float]:
    return [float(found.replace(",", "")) for found in NUMBER.findall(text)]


@pytest.mark.parametrize("outcome", [each for each in Outcome if each is not Outcome.UNREAD])
def test_every_outcome_has_its_sentence(outcome: Outcome) -> None:
    problem = draw("drawbar_power", seed=1)
    slips = tuple(problem.slips) if outcome is Outcome.SLIP else ()
    said = told(Mark(outcome, "1 kW", slips=slips), problem)
    assert said.endswith(".")
    assert said[0].isupper()


def test_every_reason_has_its_sentence() -> None:
    problem = draw("drawbar_power", seed=1)
    said = {told(Mark(Outcome.UNREAD, "", unread=why), problem) for why in Unread}
    assert len(said) == len(Unread)
    assert len({refused_said(why) for why in Refused}) == len(Refused)


@pytest.mark.parametrize(("kind", "system"), KINDS)
def test_the_answer_is_never_given_away(kind: str, system: str) -> None:
    """No number in what is said of any answer is near the right one, in the unit asked for or another usual one."""
    for seed in range(8):
        problem = draw(kind, "somebody", seed, system)  # type: ignore[arg-type]
        words = ProblemWords(problem)
        sizes = {problem.answer}
        sizes |= {problem.answer * factor(problem.unit, unit) for unit in ("kN", "lbf") if problem.unit in ("kN", "lbf")}
        typed = [f"{problem.answer * scale:.4g} {unit}" for scale in (0.1, 1.05, -1, 3.7)
                 for unit in (problem.unit, "", "kg", "kN", "hp", "bananas")]  # fmt: skip
        typed += [f"{value:.5g} {problem.unit}" for value in problem.slips.values()]
        told_all = [told(mark(problem, each), problem) for each in typed if not mark(problem, each).right]
        for said in (*told_all, *words.hints, words.asks):
            for number in numbers_in(said):
                assert all(abs(number - size) > 0.02 * abs(size) for size in sizes) or number in (1, 2, 3, 75, 100, 550)


@pytest.mark.parametrize(("kind", "system"), KINDS)
def test_a_problem_reads_as_a_text(kind: str, system: str) -> None:
    words = ProblemWords(draw(kind, "somebody", 3, system))  # type: ignore[arg-type]
    assert not set("{}*_") & set(words.text)
    assert words.text.endswith(("?", "."))
    assert "  " not in words.text
    assert words.hints
    assert "deg" not in words.asks
    assert words.working[-1] == f"That is {words.answer}."
    for name, amount in words.problem.given.items():
        assert f"{amount.number:,g}" in words.text, name


@pytest.mark.parametrize(("kind", "system"), KINDS)
def test_the_answer_shown_is_right(kind: str, system: str) -> None:
    """What the answer sheet prints is marked right when a student copies it."""
    problem = draw(kind, "somebody", 5, system)  # type: ignore[arg-type]
    assert mark(problem, ProblemWords(problem).answer).right


def test_american_problems_have_tires_and_metric_ones_tyres() -> None:
    for system, is_there, is_not in (("us", "tire", "tyre"), ("si", "tyre", "tire")):
        said = []
        for kind in kinds():
            problem = draw(kind, "somebody", 1, system)  # type: ignore[arg-type]
            words = ProblemWords(problem)
            slips = [told(Mark(Outcome.SLIP, "", slips=(key,)), problem) for key in problem.slips]
            said += [words.title, words.text, *words.hints, *slips]
        text = re.sub(r"entire", "", " ".join(said)).lower()
        assert text.count(is_there) > 12
        assert is_not not in text


def test_right_says_more_only_of_too_many_figures() -> None:
    problem = draw("drawbar_power", seed=1)
    assert told(Mark(Outcome.RIGHT, "1"), problem) == "Right."
    assert told(Mark(Outcome.RIGHT, "1", too_many_figures=True), problem).startswith("Right. It has more figures")


def test_a_slip_of_both_systems_is_said_in_its_own_words() -> None:
    for system in SYSTEMS:
        for kind in kinds().values():
            problem = draw(kind.name, "somebody", 2, system)
            own = {slip.key: slip.say for slip in kind.slips if slip.only in ("", system)}
            for key in problem.slips:
                assert told(Mark(Outcome.SLIP, "", slips=(key,)), problem) == "Not yet. " + spelt(own[key], system)


def test_lessons_and_levels_have_names() -> None:
    for kind in kinds().values():
        assert kind.lesson in LESSONS
        assert kind.level in LEVELS


def test_units_as_they_are_written() -> None:
    assert unit_said("lbf/in/mph") == "lbf/in for each mph"
    assert unit_said("N*h/km/cm") == "N·h/km/cm"
    assert unit_said("percent") == "%"
    assert unit_said("deg") == "degrees"
    assert (unit_to_type("in"), unit_to_type("lbf")) == ("in (inches)", "lbf")
    assert unit_said("m**2") == "m²"
    assert SPELLINGS["%"] == "percent"


def test_a_sum_at_the_end_stands_in_the_working() -> None:
    problem = draw("pull_uphill", "somebody", 1, "si")
    lines = ProblemWords(problem).working
    assert lines[-3] == "Drawbar pull: draft + rolling resistance + grade resistance"
    numbers, _, result = lines[-2].removeprefix("= ").rpartition(" = ")
    assert sum(float(part) for part in numbers.split(" + ")) == pytest.approx(problem.answer, rel=1e-3)
    assert result.endswith("kN")
    assert any(line.startswith("Dimensions: [kN] = [1] * [kN]. Both sides are a force") for line in lines)


def made(kind: str, system: System, answer: float, unit: str, **given: str) -> Problem:
    amounts = {name: Amount(*parse(text)) for name, text in given.items()}
    return Problem(kinds()[kind], system, 0, amounts, {}, answer, unit)


def test_each_conversion_stands_in_the_working() -> None:
    # 10,000 lbf * 4.44822 N; 4.5 mph * 1.609344 km
    lines = ProblemWords(made("drawbar_power", "us", 120.0, "hp", draft="10000 lbf", speed="4.5 mph")).working
    assert lines[2] == "draft = 10,000 lbf = 44.48 kN; speed = 4.5 mph = 7.242 km/h"
    metric = ProblemWords(made("drawbar_power", "si", 125.0, "kW", draft="50 kN", speed="9 km/h")).working
    assert metric[2] == "= 50 * 9 / 3.6 = 125 kW", "nothing to convert"
    # 2 * 3.14159 * 30 in = 188.5 in * 0.0254 m = 4.788 m; 100 ft * 0.3048 m
    turned = ProblemWords(
        made("slip_from_distance", "us", 20.4, "percent", rolling_radius="30 in", turns="8", distance="100 ft")
    ).working
    assert turned[2] == "rolling_circumference = 2 * pi * rolling_radius = 188.5 in = 4.788 m; distance = 100 ft = 30.48 m"
    # half of an axle: said though nothing is converted
    patch = ProblemWords(made("patch_of_tyre", "si", 2500.0, "cm**2", axle_load="50 kN", inflation="100 kPa")).working
    assert patch[2] == "wheel_load = 0.5 * axle_load = 25 kN"


@pytest.mark.parametrize("kind", kinds())
@pytest.mark.parametrize("system", SYSTEMS)
def test_every_given_number_comes_into_the_working(kind: str, system: System) -> None:
    """As it stands in the text or converted beside it, so that a reader finds each number again."""
    words = ProblemWords(draw(kind, "somebody", 4, system))
    lines = "\n".join(words.working)
    used = {name for put in put_in(words.problem.kind, words.problem.given) for name in (*put.amounts, *put.put.values())}
    for name, amount in words.problem.given.items():
        if name in used:
            shown = re.escape(amount_said(amount).split(" ")[0].replace(",", ""))
            assert re.search(rf"(?<![\d.]){shown}(?![\d.]*\d)", lines.replace(",", "")), name


@pytest.mark.parametrize("kind", kinds())
def test_no_formula_has_one_name_on_both_sides(kind: str) -> None:
    for step in ProblemWords(draw(kind, "somebody", 4)).steps:
        left, _, right = step.text.partition(" = ")
        assert not re.search(rf"\b{left}\b", right), step.text


@pytest.mark.parametrize("kind", kinds())
def test_every_text_is_whole(kind: str) -> None:
    """Every number has its unit, nothing is left in braces, and no unit is spelled as a program spells it."""
    for system in ("us", "si"):
        words = ProblemWords(draw(kind, "somebody", 3, system))
        for text in (words.text, words.asks, words.answer):
            assert not set("{}*_") & set(text), text
            assert "  " not in text
        assert not any("**" in line for line in words.working)
        assert words.text.endswith("?") or "?" in words.text
        assert words.answer.split(" ")[0].replace(",", "").replace(".", "").isdigit()
