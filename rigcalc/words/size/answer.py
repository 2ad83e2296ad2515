"""An answer in words: the facts with everything that is said about them, in one system of units."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from rigcalc.core.working import Working
from rigcalc.models.size.answer import Answer, Margin
from rigcalc.words.cautions import caution_texts
from rigcalc.words.field import sure_of
from rigcalc.words.numbers import System
from rigcalc.words.said import Said
from rigcalc.words.size.first import FirstWords, first_lines, first_words, idle_line
from rigcalc.words.size.notes import note_texts
from rigcalc.words.size.parts import (
    MarginWords,
    ReverseWords,
    SeasonWords,
    best_slip_text,
    margin_words,
    reverse_words,
    season_words,
    sure_text,
)
from rigcalc.words.size.readings_said import Changed, changed_rows
from rigcalc.words.size.sentence import JUDGEMENTS, say_answer
from rigcalc.words.size.working import working_steps
from rigcalc.words.taken import taken_in_short, taken_lines
from rigcalc.words.wetness import wetness_notes


@dataclass(frozen=True)
class SizeWords:
    """An answer with its words, in American ("us") or metric ("si") units. `answer` holds the facts; `str()` the sentences.

    Each part is worded when it is first asked for. margins and reverse stand in the order of the answer's own.
    """

    answer: Answer
    units: System

    @cached_property
    def said(self) -> Said:
        """What is said first: word, headline, rest."""
        return say_answer(self.answer, self.units)

    @cached_property
    def margins(self) -> tuple[MarginWords, ...]:
        """Every limit in words."""
        return tuple(margin_words(margin, self.answer, self.units) for margin in self.answer.margins)

    @property
    def binding(self) -> MarginWords:
        """The limit that gives out first."""
        return next(margin for margin in self.margins if margin.name == self.answer.binding.name)

    @property
    def nearest(self) -> MarginWords:
        """The limit to look at first, which may be the point's critical depth."""
        return next(margin for margin in self.margins if margin.name == self.answer.nearest.name)

    def fullest_first(self) -> list[tuple[Margin, MarginWords]]:
        """Give the limits of which something is known, each with its words, the fullest first."""
        pairs = [(m, said) for m, said in zip(self.answer.margins, self.margins, strict=True) if m.used is not None]
        return sorted(pairs, key=lambda pair: -(pair[0].used or 0.0))

    def unknown_limits(self) -> list[str]:
        """Give the titles of limits that the rig file leaves open; the pressure under tyres is no limit that it could give."""
        pairs = zip(self.answer.margins, self.margins, strict=True)
        return [said.title for m, said in pairs if m.limit is None and m.unit != "kPa"]

    @cached_property
    def reverse(self) -> tuple[ReverseWords, ...]:
        """The reverse answers in words."""
        tool = self.answer.rig.implement.tool
        return tuple(reverse_words(found, tool, self.units) for found in self.answer.reverse)

    @cached_property
    def changed(self) -> tuple[Changed, ...]:
        """What the field's readings changed, before and after side by side; empty where there are none."""
        return changed_rows(self.answer, self.units, {judgement.value: word for judgement, word in JUDGEMENTS.items()})

    @cached_property
    def season(self) -> SeasonWords:
        """The season in words; empty where the rig file doesn't ask for it."""
        return season_words(self.answer.season, self.units)

    @cached_property
    def notes(self) -> tuple[str, ...]:
        """The notes, the weightiest first."""
        wet = self.answer.wetness
        return (*note_texts(self.answer, self.units), *(wetness_notes(wet, self.units) if wet is not None else ()))

    @cached_property
    def taken(self) -> tuple[str, ...]:
        """What rules filled in where the rig file says nothing, a line each; empty where nothing is left out."""
        return taken_lines(self.answer.rig, self.units)

    @cached_property
    def taken_in_short(self) -> str:
        """The same in one line."""
        return taken_in_short(self.answer.rig, self.units)

    @cached_property
    def first(self) -> tuple[FirstWords, ...]:
        """Every entry of the rig that may be off, in words: what to do about it and what hangs on it, the first first."""
        return first_words(self.answer, self.units)

    @property
    def first_lines(self) -> tuple[str, ...]:
        """A line for each entry on which something hangs, the first first; one that says so where little hangs on any."""
        return first_lines(self.first, self.answer)

    @property
    def first_idle(self) -> str:
        """The entries on which little hangs, in one line; empty where there is none."""
        return idle_line(self.first, self.answer)

    @cached_property
    def best_slip(self) -> str:
        """The slip of best tractive efficiency with the flat top around it; empty where nothing is pulled."""
        return best_slip_text(self.answer)

    @cached_property
    def working(self) -> tuple[Working, ...]:
        """Every step from draft to fuel, each with its axle named, in these units."""
        return working_steps(self.answer, self.units)

    @cached_property
    def cautions(self) -> tuple[str, ...]:
        """The cautions that go with the work."""
        return caution_texts(self.answer.cautions, self.answer.rig, self.units)

    @cached_property
    def sure(self) -> str:
        """How sure the answer is."""
        return sure_text(self.answer)

    @property
    def sure_of(self) -> str:
        """Of what the chance is: such fields, or this one where it was read."""
        return sure_of(self.answer.bare_rig.told)

    def __str__(self) -> str:
        """Give the answer's sentences."""
        return str(self.said)
