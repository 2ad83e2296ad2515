"""A shortlist in words: the facts with everything that is said about them, in one system of units."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from rigcalc.core.sources import sources
from rigcalc.core.units import factor
from rigcalc.models.shortlist.answer import Fit, Shortlist, power_of
from rigcalc.models.shortlist.classes import weight
from rigcalc.models.size.answer import Answer
from rigcalc.words.numbers import System, chance_short, number, percent, say
from rigcalc.words.rig_name import DRIVES
from rigcalc.words.said import Said
from rigcalc.words.shortlist.sentence import say_shortlist, why_none
from rigcalc.words.spelling import spelt
from rigcalc.words.taken import taken_lines

_TITLES = ("Smallest with the reserve", "Go from", "Weight", "Stands on", "Engine load", "Slip", "Every limit holds in",
           "What stops it")  # fmt: skip
_NOTES = (
    "A tractor by class is no machine you can buy: weight by power as tractors are ballasted for the field, axle split, "
    "wheelbase, hitch and tyres from tables. One that is lighter, or on smaller tyres, slips more; put yours in a rig file.",
    "What its tyres, axles and drawbar may carry isn't known by class: look at the data sheet.",
    "A reserve of engine power is for hard spots and hills. The doubt about draft is another matter: it stands in the chance.",
)
_READ = "Readings tell of the tractor that they were made with: tractors by class stand on the table, your own on its readings."
_POWERS = {"PTO": "power at the power take-off", "engine": "engine power"}
_NOTHING = "-"


@dataclass(frozen=True)
class ShortlistWords:
    """A shortlist with its words, in American ("us") or metric ("si") units.

    shortlist: the facts; `str()` gives the sentences. heads: the drives. rows: a title, and a cell for each drive. notes: what
    it rests on.
    """

    shortlist: Shortlist
    units: System

    @cached_property
    def said(self) -> Said:
        """What is said first: the smallest tractor of all, the other drives, the widest tool."""
        return say_shortlist(self.shortlist, self.units)

    @property
    def heads(self) -> tuple[str, ...]:
        """The drives, as heads of the columns."""
        return tuple(DRIVES[fit.drive] for fit in self.shortlist.fits)

    @cached_property
    def rows(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """What was found, drive by drive; rows that say nothing of any drive are left out."""
        columns = [self._column(fit) for fit in self.shortlist.fits]
        rows = ((title, tuple(column[at] for column in columns)) for at, title in enumerate(_TITLES))
        return tuple((title, cells) for title, cells in rows if set(cells) != {_NOTHING})

    @cached_property
    def notes(self) -> tuple[str, ...]:
        """What the shortlist rests on, and what rules filled in for the smallest tractor of all."""
        general = tuple(spelt(note, self.units) for note in (*_NOTES, *([_READ] if self.shortlist.rig.reading else [])))
        best = self.shortlist.best
        if best is None or best.smallest is None:
            return general
        of_the_tool = taken_lines(self.shortlist.rig, self.units)
        lines = [line for line in taken_lines(best.smallest.rig, self.units) if line not in of_the_tool]
        return (*general, self._weight(best), *lines)

    def _weight(self, best: Fit) -> str:
        by = weight(best.drive, power_of(best.smallest))
        unit = "kg/kW" if self.units == "si" else "lb/hp"
        shown = f"{number(by.by_power * factor('kg/kW', unit))} {unit}"
        whose = "our own rule after" if by.ours else "as in"
        return f"Weight {shown} of {_POWERS[by.at]}, {whose}: {sources()[by.source].title}."

    def _column(self, fit: Fit) -> tuple[str, ...]:
        found = fit.smallest
        if found is None:
            none = f"none up to {say(fit.most_power, 'kW', self.units)}"
            return (none, *[_NOTHING] * (len(_TITLES) - 2), why_none(fit, self.units))
        p, tractor = found.point.bare, found.rig.tractor
        assert tractor.total_mass is not None
        return (
            self._power(found),
            _NOTHING if fit.surest is None else self._power(fit.surest),
            say(tractor.total_mass.to("kg"), "kg", self.units),
            self._stands_on(found),
            percent(p.engine_share),
            percent(p.slip),
            chance_short(found.sure.chance_works),
            _NOTHING,
        )

    def _power(self, answer: Answer) -> str:
        return say(power_of(answer), "kW", self.units)

    def _stands_on(self, answer: Answer) -> str:
        """Say what a tractor by class stands on, the rear first: "4 x 480/80R46, 2 x 420/85R34"."""
        gears = [gear for gear in (answer.rig.tractor.rear, answer.rig.tractor.front) if gear is not None]
        return ", ".join(
            f"{gear.tyres} x {gear.size}" if gear.track_width is None
            else f"{gear.tracks} tracks {say(gear.track_width.to('cm'), 'cm', self.units)} wide"
            for gear in gears
        )  # fmt: skip

    def __str__(self) -> str:
        """Give the shortlist's sentences."""
        return str(self.said)
