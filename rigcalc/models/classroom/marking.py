"""An answer marked: right, or what is the matter with it. Facts alone; the words stand in `words/classroom`.

What is looked at, in this order: can it be read, has it a unit, does the unit measure what was asked, is the number right; and
if it isn't, is it the right number rounded too far, does it fit a common slip of this kind of problem, another unit than was
written, the other sign, a power of ten.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from rigcalc.core.errors import InputError
from rigcalc.core.units import factor
from rigcalc.models.classroom.answers import Typed, Unread, read_answer
from rigcalc.models.classroom.problem import Problem

_FEW, _MANY = 2, 5  # significant figures: so few may have been rounded too far, more than so many claim what no field gives
_ROOM = 1 + 1e-9
_CLOCK, _HOURS = ("h", "min", "s"), "hours_for_days"
# Units that measure the same, by one of them, in which a number may have come out that was labelled otherwise.
_FAMILIES = (
    ("N", "kN", "lbf"),
    ("W", "kW", "hp", "metric_horsepower"),
    ("m/s", "km/h", "mph", "ft/s", "ft/min"),
    ("ha/h", "acre/h", "m**2/h", "m**2/s", "ft**2/h"),
    ("kPa", "Pa", "psi", "bar", "MPa", "lbf/ft**2"),
    ("kg", "lb", "t", "ton"),
    ("day", "h", "min"),
    ("L/h", "gal/h"),
    ("L/ha", "gal/acre"),
    ("m", "cm", "mm", "in", "ft"),
    ("m**2", "cm**2", "in**2", "ft**2"),
)


class Outcome(Enum):
    """What is the matter with an answer. Only RIGHT is right."""

    RIGHT = "right"
    ROUNDED = "rounded"
    SLIP = "slip"
    OTHER_UNIT = "other_unit"
    HORSEPOWER = "horsepower"
    TEN = "ten"
    SIGN = "sign"
    WRONG = "wrong"
    DIMENSION = "dimension"
    MASS = "mass"
    FORCE = "force"
    NO_UNIT = "no_unit"
    UNREAD = "unread"


@dataclass(frozen=True)
class Mark:
    """What an answer is worth: the outcome, which slips it fits, why it can't be read, and whether it has too many figures."""

    outcome: Outcome
    typed: str
    slips: tuple[str, ...] = ()
    unread: Unread | None = None
    too_many_figures: bool = False

    @property
    def right(self) -> bool:
        """Say whether the answer counts."""
        return self.outcome is Outcome.RIGHT


def mark(problem: Problem, typed: str) -> Mark:
    """Mark what a student typed as the answer of a problem.

    Parameters
    ----------
    problem : Problem
        As `draw` gives it.
    typed : str
        A number and a unit of the student's choice, such as "12.5 kN" or "2,800 lbf". It is read by patterns, never run.

    Returns
    -------
    Mark
        What is the matter with it. It holds nothing from which the right answer could be told.

    Raises
    ------
    TypeError
        For what is no text.

    Examples
    --------
    >>> from rigcalc.models.classroom import draw, mark
    >>> problem = draw("drawbar_power", seed=1, system="si")
    >>> mark(problem, f"{problem.answer:.4g} kW").outcome, mark(problem, "12 bananas").outcome
    (<Outcome.RIGHT: 'right'>, <Outcome.UNREAD: 'unread'>)
    """
    if not isinstance(typed, str):
        raise TypeError(f"an answer is a text, not {type(typed).__name__}")
    read = read_answer(typed)
    if isinstance(read, Unread):
        return Mark(Outcome.UNREAD, typed, unread=read)
    plain = problem.unit in ("", "1", "percent")
    if not plain and not read.unit:
        return Mark(Outcome.NO_UNIT, typed)
    if plain and read.unit not in ("", "percent"):
        return Mark(Outcome.DIMENSION, typed)
    if problem.unit == "day" and read.unit in _CLOCK:
        return _by_the_clock(problem, typed, read)
    try:
        to_typed = factor(problem.unit, read.unit) / read.prefix
    except InputError:
        return Mark(_dimension(problem.unit, read.unit), typed)
    return _judged(problem, typed, read, to_typed)


def _judged(problem: Problem, typed: str, read: Typed, to_typed: float) -> Mark:
    """Judge the number, in the unit that was typed."""
    right = problem.answer * to_typed
    relative = problem.kind.relative
    if _near(read.number, right, relative):
        return Mark(Outcome.RIGHT, typed, too_many_figures=bool(read.figures and read.figures > _MANY))
    slips = tuple(key for key, value in problem.slips.items() if _near(read.number, value * to_typed, relative))
    if _rounded(read, right) and not (slips and read.figures == 1):  # 20 for 16 is more likely what comes out with a slip
        return Mark(Outcome.ROUNDED, typed)
    if slips:
        return Mark(Outcome.SLIP, typed, slips=slips)
    if other := _other_unit(problem, read):
        return Mark(Outcome.HORSEPOWER if other == "horsepower" else Outcome.OTHER_UNIT, typed)
    if _near(-read.number, right, relative):
        return Mark(Outcome.SIGN, typed)
    if read.number * right > 0:
        power = round(math.log10(read.number / right))  # never 0 here: that is right
        if _near(read.number / 10.0**power, right, relative):
            if power == 3 and "," in typed:  # 4,165 for 4.165, as half the world writes it
                return Mark(Outcome.UNREAD, typed, unread=Unread.COMMA)
            return Mark(Outcome.TEN, typed)
    return Mark(Outcome.WRONG, typed)


def _by_the_clock(problem: Problem, typed: str, read: Typed) -> Mark:
    """Judge hours where working days are asked for: no working day has twenty-four of them, so they aren't converted."""
    hours = problem.slips.get(_HOURS)
    if hours is not None and _near(read.number * factor(read.unit, "h"), hours, problem.kind.relative):
        return Mark(Outcome.SLIP, typed, slips=(_HOURS,))
    return Mark(Outcome.DIMENSION, typed)


def _near(number: float, right: float, relative: float) -> bool:
    return abs(number - right) <= relative * abs(right) * _ROOM


def _rounded(read: Typed, right: float) -> bool:
    """Say whether this is the right number with so few figures that it went out of tolerance; days are rounded up, too."""
    if read.figures is None or read.figures > _FEW or read.number * right <= 0:
        return False
    if read.unit == "day" and read.number == math.ceil(right):
        return True
    place = 10.0 ** (math.floor(math.log10(abs(right))) - read.figures + 1)
    multiple = read.number / place
    return _near(multiple, round(multiple), 1e-9) and abs(read.number - right) <= place / 2 * _ROOM


def _other_unit(problem: Problem, read: Typed) -> str:
    """Give the unit in which the number would be right; "" where there is none."""
    metric = "metric_horsepower"
    for family in _FAMILIES:
        if problem.unit in family:
            twin = {"hp": metric, metric: "hp"}.get(read.unit, "")
            for unit in family:
                if _near(read.number * read.prefix, problem.answer * factor(problem.unit, unit), problem.kind.relative):
                    return "horsepower" if unit == twin else unit
    return ""


def _dimension(asked: str, typed: str) -> Outcome:
    if "lbf" in asked or asked in ("kN", "N"):
        return Outcome.MASS if _is(typed, "kg") else Outcome.DIMENSION
    return Outcome.FORCE if asked in ("kg", "lb") and _is(typed, "kN") else Outcome.DIMENSION


def _is(unit: str, like: str) -> bool:
    try:
        return bool(factor(unit, like))
    except InputError:
        return False
