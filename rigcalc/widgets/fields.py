"""The controls of a form, declared: a number with its unit, a choice, a line of text, a section that folds.

A declaration is data: `controls.Form` draws it, `entries` reads what was typed into it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

System = Literal["us", "si"]


@dataclass(frozen=True)
class Scale:
    """How a slider runs in one unit system: its `unit`, from `low` to `high`, `step` at a time."""

    unit: str
    low: float
    high: float
    step: float


@dataclass(frozen=True)
class Number:
    """A number with its unit. `us` and `si` are the two sliders.

    `valid` is the range (low, high, unit) in which the numbers behind the page hold: shown at the slider after the word
    `range_is`, and a number outside it is marked with `why`. Without it the ends of the slider stand for it.
    """

    path: str
    label: str
    us: Scale
    si: Scale
    help: str = ""
    valid: tuple[float, float, str] | None = None
    range_is: str = "usual"
    why: str = "outside the range of this slider"
    optional: bool = False

    def scale(self, system: System) -> Scale:
        """Give the slider of a unit system."""
        return self.us if system == "us" else self.si


@dataclass(frozen=True)
class Choice:
    """One of several: `options` are (value, what is shown).

    With `pictures`, by value as SVG, each stands in sight beside its words; without, all are in a list.
    `in_sight` shows the words of each beside one another: one touch instead of two.
    """

    path: str
    label: str
    options: tuple[tuple[str, str], ...]
    help: str = ""
    pictures: tuple[tuple[str, str], ...] = ()
    in_sight: bool = False


@dataclass(frozen=True)
class Text:
    """A line of free text; it is only ever shown as text."""

    path: str
    label: str
    help: str = ""


@dataclass(frozen=True)
class Lines:
    """Several lines of text, such as a table that is pasted in; `rows` of them are in sight."""

    path: str
    label: str
    help: str = ""
    rows: int = 6


Field = Number | Choice | Text | Lines


@dataclass(frozen=True)
class Section:
    """A group of fields under a heading; `open` says whether it starts unfolded."""

    title: str
    fields: tuple[Field, ...]
    open: bool = False
    note: str = ""


def number(path: str, label: str, us: str, si: str, help: str = "", **more: object) -> Number:
    """Declare a number shortly: `number("work.depth", "Depth", "2 24 0.5 in", "5 60 1 cm")`: low, high, step, unit."""
    return Number(path, label, _scale(us), _scale(si), help, **more)  # type: ignore[arg-type]


def plain(path: str, label: str, both: str, help: str = "", **more: object) -> Number:
    """Declare a number whose slider is the same in both systems, such as a count or a percentage."""
    return number(path, label, both, both, help, **more)


def _scale(text: str) -> Scale:
    low, high, step, *unit = text.split()
    return Scale(unit[0] if unit else "", float(low), float(high), float(step))
