"""The one way in which rigcalc refuses bad input: every fault at once, each with what to type instead."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

_MOST_LINES = 40  # of a text; a file with more faults than that is no rig file at all


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong: where it stands, what came, what was expected and what to type instead."""

    where: str
    got: str
    expected: str
    type_this: str = ""

    def __str__(self) -> str:
        """Give the fault as one line of plain words."""
        where = self.where if len(self.where) <= 100 else f"{self.where[:100]}…"
        line = f"{where}: got {self.got}; expected {self.expected}."
        return printable(f"{line} Type {self.type_this}" if self.type_this else line)


class RigcalcError(ValueError):
    """Base of every error that rigcalc raises on purpose; its text is fit to be shown to the user as it is."""


class InputError(RigcalcError):
    """Bad input: a ValueError whose text lists every fault, not just the first.

    Attributes
    ----------
    faults : tuple of Fault
        Each with where it was, what was got, what was expected, and what to type instead.

    Examples
    --------
    >>> import rigcalc
    >>> try:
    ...     rigcalc.size("two_track", seed=-1, strict="yes")
    ... except rigcalc.InputError as error:
    ...     print([fault.where for fault in error.faults])
    ['seed', 'strict']
    """

    def __init__(self, faults: Iterable[Fault], title: str = "This can't be used as it stands"):
        self.faults: tuple[Fault, ...] = tuple(faults)
        lines = [f"  - {fault}" for fault in self.faults[:_MOST_LINES]]
        more = len(self.faults) - len(lines)
        super().__init__("\n".join([f"{title}:", *lines, *([f"  - and {more:,} more"] if more else [])]))


class DeclarationError(RigcalcError):
    """A mistake in an equation's declaration, found when its file is imported."""


class OutsideRange(UserWarning):
    """A value outside the range that an equation's source gives, where `strict="warn"` asked to be told.

    Python shows it once for each place in the code; `warnings.simplefilter` says otherwise.
    """


def shown(value: object, longest: int = 60) -> str:
    """Give `value` as a short, safe, one-line text for an error message."""
    text = value if isinstance(value, str) else repr(value)
    text = printable(text[: longest + 1])
    text = text if len(text) <= longest else text[:longest] + "…"
    return f"'{text}'" if isinstance(value, str) else text


def printable(text: str) -> str:
    """Give `text` with a mark in place of what a terminal would obey rather than show."""
    return "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text)
