"""A problem in words: its text with the numbers, the hints, the answer, and the working step by step."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from rigcalc.core.dimensions import by_hand
from rigcalc.core.equation import words
from rigcalc.core.working import Working, working
from rigcalc.models.classroom.chain import PutIn, put_in, times_of, worked
from rigcalc.models.classroom.kinds import Amount
from rigcalc.models.classroom.problem import Problem
from rigcalc.words.dimensions import LETTERS, dimensions_said
from rigcalc.words.numbers import number
from rigcalc.words.spelling import spelt

LESSONS = {
    "draft": "Draft and where it comes from",
    "power": "Engine to drawbar",
    "slip": "Slip and efficiency",
    "weight": "Ballast and weight transfer",
    "capacity": "Capacity and days",
    "soil": "Deep tillage and compaction",
}
LEVELS = {1: "one step", 2: "two steps", 3: "several steps, or a harder formula"}
_TIMES_SAID = {6.283185307179586: "2 * pi"}
_FIGURES = 4  # of an answer; so many that three can be checked against it
_SPELLED = {"percent": "%", "1": "", "h/day": "h", "acre": "acres", "day": "days", "deg": "degrees"}


@dataclass(frozen=True)
class ProblemWords:
    """A problem for people: `title`, `text`, `hints`, `asks`, `answer`, `steps`."""

    problem: Problem

    @property
    def title(self) -> str:
        """Give the kind's title."""
        return spelt(self.problem.kind.title, self.problem.system)

    @cached_property
    def text(self) -> str:
        """Give the text with its numbers."""
        shown = {name: amount_said(amount) for name, amount in self.problem.given.items()}
        return spelt(self.problem.kind.text.format_map({**shown, **self.problem.texts}), self.problem.system)

    @property
    def hints(self) -> tuple[str, ...]:
        """Give the hints, from the first thought to the way."""
        return tuple(spelt(hint, self.problem.system) for hint in self.problem.kind.hints)

    @property
    def asks(self) -> str:
        """Say how to answer."""
        unit = unit_to_type(self.problem.unit)
        return (
            f"Answer with a number and a unit of your choice, such as {unit}. Three figures are enough; round at the end alone."
        )

    @property
    def answer(self) -> str:
        """Give the right answer with its unit."""
        return amount_said(Amount(self.problem.answer, self.problem.unit), _FIGURES)

    @property
    def steps(self) -> list[Working]:
        """Give the working: each equation with the numbers put in, in the units of the book."""
        return [working(put.equation, put.numbers) for put in put_in(self.problem.kind, self.problem.given)]

    @property
    def working(self) -> list[str]:
        """Give the working as lines of text, and the last result in the unit that was asked for."""
        lines = [f"Numbers put into a formula stand in the units of its source. {LETTERS}"]
        for put, step in zip(put_in(self.problem.kind, self.problem.given), self.steps, strict=True):
            lines.append(f"{words(step.equation).capitalize()}: {step.text}")
            if converted := _converted(put):
                lines.append(converted)
            figure, _, unit = step.result.partition(" ")
            lines.append(f"= {step.text_numbers} = {figure} {unit_said(unit)}".rstrip())
            if step.dimensions is not None:
                lines.append(f"Dimensions: {step.dimensions.text}. {dimensions_said(step.dimensions)}")
        values = worked(self.problem.kind, self.problem.given) if self.problem.kind.totals else {}
        for total in self.problem.kind.totals:
            unit = values[total.of[0]].unit
            parts = " + ".join(words(name) for name in total.of)
            numbers = " + ".join(number(float(values[name].in_(unit)), _FIGURES) for name in total.of)
            result = amount_said(values[total.gives], _FIGURES)
            lines += [f"{words(total.gives).capitalize()}: {parts}", f"= {numbers} = {result}"]
        lines.append(f"That is {self.answer}.")
        return lines


def _converted(put: PutIn) -> str:
    """Say of each amount where it is from, if it is a multiple of a given one, and what it is in the unit of the formula."""
    said = []
    for symbol in put.equation.takes:
        amount, number_in = put.amounts[symbol.name], put.numbers[symbol.name]
        parts = [symbol.name]
        if times := times_of(put.put.get(symbol.name, "")):
            factor, name = times
            parts.append(f"{_TIMES_SAID.get(factor, f'{factor:g}')} * {name}")
        parts.append(amount_said(amount, _FIGURES if times else 6))
        if number_in != amount.number:
            parts.append(amount_said(Amount(number_in, symbol.unit), _FIGURES))
        if len(parts) > 2 and number_in:
            said.append(" = ".join(parts))
    return "; ".join(said)


def amount_said(amount: Amount, figures: int = 6) -> str:
    """Give a number and its unit as they are read in a text."""
    unit = unit_said(amount.unit)
    return f"{number(float(amount.number), figures)} {unit}".strip()


def unit_to_type(unit: str) -> str:
    """Give a unit that may be typed behind a number, where a sentence ends with it: "in" alone reads as a word."""
    return "in (inches)" if unit == "in" else unit_said(unit)


def unit_said(unit: str) -> str:
    """Give a unit as it is written by hand: lbf/in for each mph, N·h/km/cm, %, m²."""
    if unit in _SPELLED:
        return _SPELLED[unit]
    head, slash, last = unit.rpartition("/")
    if slash and last in ("mph",):
        return f"{unit_said(head)} for each {last}"
    return by_hand(unit)
