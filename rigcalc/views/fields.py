"""The controls of a form, declared: a number with its unit, a choice, a line of text, a section that folds.

A declaration is data. `rigcalc.views.controls.Form` draws it, `rigcalc.views.entries` reads what was typed into it.
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
    """A number with its unit. `us` and `si` are the two sliders; past their ends a typed number is marked `why`."""

    path: str
    label: str
    us: Scale
    si: Scale
    help: str = ""
    why: str = "outside the range that the numbers behind this page were measured in"
    optional: bool = False

    def scale(self, system: System) -> Scale:
        """Give the slider of a unit system."""
        return self.us if system == "us" else self.si


@dataclass(frozen=True)
class Choice:
    """One of several: `options` are (value, what is shown)."""

    path: str
    label: str
    options: tuple[tuple[str, str], ...]
    help: str = ""


@dataclass(frozen=True)
class Text:
    """A line of free text; it is only ever shown as text."""

    path: str
    label: str
    help: str = ""


Field = Number | Choice | Text


@dataclass(frozen=True)
class Section:
    """A group of fields under a heading; `open` says whether it starts unfolded."""

    title: str
    fields: tuple[Field, ...]
    open: bool = False
    note: str = ""


def plain(path: str, label: str, low: float, high: float, step: float = 1, help: str = "", **more: object) -> Number:
    """Declare a number without a unit, such as a count: the same slider in both systems."""
    scale = Scale("", low, high, step)
    return Number(path, label, scale, scale, help, **more)  # type: ignore[arg-type]
