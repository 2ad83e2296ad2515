"""A comparison in words: the facts with everything that is said about them, in one system of units."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from rigcalc.models.compare.answer import Comparison
from rigcalc.words.compare.rows import RowWords, row_words, same_text
from rigcalc.words.compare.sentence import say_comparison
from rigcalc.words.numbers import System
from rigcalc.words.said import Said
from rigcalc.words.size.sentence import say_answer


@dataclass(frozen=True)
class CompareWords:
    """A comparison with its words, in American ("us") or metric ("si") units.

    `comparison` holds the facts; `str()` gives the sentences.
    said: word, headline, rest. rows: every figure, those of one row in the order of the rigs. each: what is said of each rig
    by itself.
    """

    comparison: Comparison
    units: System

    @cached_property
    def said(self) -> Said:
        """What is said first: which one, why, and when it doesn't matter."""
        return say_comparison(self.comparison, self.units)

    @cached_property
    def rows(self) -> tuple[RowWords, ...]:
        """Every figure in words."""
        return row_words(self.comparison, self.units)

    @property
    def differing(self) -> tuple[RowWords, ...]:
        """The rows whose cells differ."""
        return tuple(row for row in self.rows if row.differs)

    @cached_property
    def same(self) -> str:
        """What is the same in all, in one line; empty where nothing is."""
        return same_text(self.rows)

    @cached_property
    def each(self) -> tuple[tuple[str, Said], ...]:
        """What is said of each rig by itself: its name, and the sentences that `size` has for it."""
        return tuple((side.name, say_answer(side.answer, self.units)) for side in self.comparison.rigs)

    def __str__(self) -> str:
        """Give the comparison's sentences."""
        return str(self.said)
