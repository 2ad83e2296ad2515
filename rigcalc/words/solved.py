"""A step of the working solved for another of its symbols: the formula turned round, the numbers put in, what comes out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from rigcalc.core.equation import words
from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.solved import solve
from rigcalc.core.working import Working
from rigcalc.equations import named, solve_for


@dataclass(frozen=True)
class SolvedWords:
    """The formula for one symbol in LaTeX and plain text, with numbers in LaTeX, and the symbol with the number that comes out.

    `where` says which other symbols are zero, where their parts had to fall away before.
    """

    latex: str
    latex_numbers: str
    text: str
    result: str
    where: str = ""


def hold_to_symbols(steps: Iterable[Working], symbol: str) -> None:
    """Refuse a symbol that no step of a working may be solved for. Raises InputError with those there are."""
    there_are = sorted({name for step in steps for name in step.numbers})
    if symbol not in there_are:
        raise InputError([Fault("--solve-for", shown(symbol), f"one of {', '.join(there_are)}", "--solve-for depth")])


def solved_line(step: Working, symbol: str) -> str:
    """Say a step solved for a symbol in one line of plain text; why not where that can't be, "" where it hasn't the symbol."""
    if symbol not in step.numbers:
        return ""
    try:
        solved = solved_words(step, symbol)
    except InputError as error:
        return "; ".join(f"{fault.where}: {fault.got}" for fault in error.faults)
    return " ".join(part for part in (solved.where, f"{solved.text}, so {solved.result}") if part)


def solved_words(step: Working, symbol: str) -> SolvedWords:
    """Say a step solved for one of its symbols.

    Raises InputError for a symbol that it hasn't, where sympy finds no formula or isn't installed, and where the numbers of
    the step don't come out again.
    """
    eq = named(step.equation)
    if symbol not in step.numbers:
        has = f"one of {', '.join(step.numbers)}" if step.numbers else "a step of one formula, which this isn't"
        raise InputError([Fault(step.equation, shown(symbol), has)])
    place = list(step.numbers).index(symbol)
    result = step.inputs[place].partition(": ")[0]
    zero = tuple(name for name, number in step.numbers.items() if number == 0 and name != symbol)
    found = solve_for(eq, symbol)
    try:
        return SolvedWords(found.latex, found.put_in(step.numbers), found.text, result)
    except InputError:
        try:  # without the parts that are zero here it may hold: a curve whose bend is zero is a line
            found = solve(eq, symbol, zero)
            numbers = found.put_in(step.numbers)
        except InputError:
            got = "numbers of this step with which it makes no difference, or has no one value"
            raise InputError([Fault(words(symbol), got, "a step in which it counts")]) from None
    where = f"Here {' and '.join(words(name) for name in zero)} {'is' if len(zero) == 1 else 'are'} 0."
    return SolvedWords(found.latex, numbers, found.text, result, where)
