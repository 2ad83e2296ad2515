"""A problem in words: its text with the numbers, the hints, the answer, and the working step by step."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from rigcalc.core.dimensions import by_hand
from rigcalc.core.equation import words
from rigcalc.core.working import Working, working
from rigcalc.models.classroom.chain import put_in, worked
from rigcalc.models.classroom.kinds import Amount
from rigcalc.models.classroom.problem import Problem
from rigcalc.words.dimensions import LETTERS, dimensions_said
from rigcalc.words.numbers import number

LESSONS = {
    "draft": "Draft and where it comes from",
    "power": "Engine to drawbar",
    "slip": "Slip and efficiency",
    "weight": "Ballast and weight transfer",
    "capacity": "Capacity and days",
    "soil": "Deep tillage and compaction",
}
LEVELS = {1: "one step", 2: "two steps", 3: "several steps, or a harder formula"}
_FIGURES = 4  # of an answer; so many that three can be checked against it
_SPELLED = {"percent": "%", "1": "", "h/day": "h", "acre": "acres", "day": "days", "deg": "degrees"}


@dataclass(frozen=True)
class ProblemWords:
    """A problem for people: `title`, `text`, `hints`, `asks`, `answer`, `steps`."""

    problem: Problem

    @property
    def title(self) -> str:
        """Give the kind's title."""
        return self.problem.kind.title

    @cached_property
    def text(self) -> str:
        """Give the text with its numbers."""
        shown = {name: amount_said(amount) for name, amount in self.problem.given.items()}
        return self.problem.kind.text.format_map({**shown, **self.problem.texts})

    @property
    def hints(self) -> tuple[str, ...]:
        """Give the hints, from the first thought to the way."""
        return self.problem.kind.hints

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
        return [working(eq, numbers) for eq, numbers in put_in(self.problem.kind, self.problem.given)]

    @property
    def working(self) -> list[str]:
        """Give the working as lines of text, and the last result in the unit that was asked for."""
        lines = [f"Numbers put into a formula stand in the units of its source. {LETTERS}"]
        for step in self.steps:
            lines.append(f"{words(step.equation).capitalize()}: {step.text}")
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
