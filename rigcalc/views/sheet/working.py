"""The working as a sheet prints it: each step with its formula in the symbols of its source, its numbers, and that source."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.core.typst_math import typst_math
from rigcalc.core.working import Working
from rigcalc.words.dimensions import LETTERS, dimensions_said
from rigcalc.words.size import SizeWords

TITLE = "How each number is worked out"
NOTE = (
    f"Formulas and the numbers put in stand in the units of their source; beside each number are the units chosen. {LETTERS} "
    "In square brackets under a formula stands the unit of each symbol in its place."
)


@dataclass(frozen=True)
class WorkedStep:
    """A step of the working. formulas, symbols and units are in typst's notation; text stands where there is no formula.

    symbols is empty, or as long as inputs. check and units say whether both sides measure the same; empty where a step has
    no such check.
    """

    title: str
    result: str
    formulas: tuple[str, ...]
    text: tuple[str, ...]
    symbols: tuple[str, ...]
    inputs: tuple[str, ...]
    check: str
    units: str
    source: str


def worked_steps(words: SizeWords) -> tuple[WorkedStep, ...]:
    """Give every step of an answer's working, in the order of the story."""
    return tuple(map(_step, words.working))


def _step(step: Working) -> WorkedStep:
    check = step.dimensions
    numbers = f"{step.text_numbers} = {step.result}" if step.text_numbers else ""
    return WorkedStep(
        title=step.title,
        result=step.result,
        formulas=tuple(typst_math(text) for text in (step.latex, step.latex_numbers) if text),
        text=() if step.latex else tuple(text for text in (step.text, numbers) if text),
        symbols=tuple(map(typst_math, step.symbols)),
        inputs=step.inputs,
        check="" if check is None else dimensions_said(check),
        units="" if check is None or not check.latex else typst_math(check.latex),
        source=f"{step.source} ({step.sure})",
    )
