"""The text parts of the season as widgets: each stands alone in a notebook, and the page is built of them."""

from __future__ import annotations

from typing import Any

from rigcalc.views.season.fields import SECTIONS
from rigcalc.views.season.parts import AboutSeason, SeasonCard, Source, season_model
from rigcalc.widgets.controls import Form
from rigcalc.widgets.templates import render

_STATES = {"go": "ok", "try": "tight", "dont": "over"}
_HEADS = ("Change", "Done in", "Fit days in hand, 8 of 10", "Cost")


class SeasonVerdict(SeasonCard):
    """Is it done in time: yes, not surely, or no."""

    title, dress, is_live = "Is it done in time?", "rig-answer rig-across", True

    def text(self) -> str:
        """Give the verdict."""
        if self.found is None:
            shown = render(__file__, "verdict.html.j2", state="none", word="", headline="")
        else:
            said, state = self.found.words.said, _STATES[self.found.answer.judgement]
            headline = said.headline[:1].upper() + said.headline[1:]
            shown = render(__file__, "verdict.html.j2", state=state, word=said.word, headline=headline)
        return str(shown) + self.faults_by_itself()


class SeasonBox(AboutSeason, Form):
    """The boxes of a season: area, dates, days fit for work, the parts of the day, prices.

    Parameters
    ----------
    source : SeasonModel, Rig, path or name of a demo rig
        What the season is of; a SeasonModel is shared with other parts.

    Examples
    --------
    >>> from rigcalc.widgets import SeasonBox
    >>> box = SeasonBox("articulated")
    >>> box.edit("own.season.by", "15 Nov")
    >>> box.edit("own.season.start", "1 Oct")
    >>> box.answer.judgement.value
    'go'
    """

    def __init__(self, source: Source = None, **traits: Any):
        Form.__init__(self, season_model(source), SECTIONS, "The season", slides=(), **traits)
        self.watch(self.told, "the season's boxes")


class SeasonSays(SeasonCard):
    """Field hours, days needed and in hand, when to begin, what helps most."""

    title, dress = "Days and dates", "rig-why"

    def text(self) -> str:
        """Give the sentences."""
        return "" if self.found is None else str(render(__file__, "says.html.j2", texts=self.found.words.said.rest))


class SeasonChanges(SeasonCard):
    """What an hour a day more, less depth, more speed, more tools, a second rig or less area would bring."""

    title, dress = "What should I change?", "rig-rows"

    def text(self) -> str:
        """Give the table."""
        if self.found is None:
            return ""
        return str(render(__file__, "changes.html.j2", heads=_HEADS, rows=self.found.words.changes))


class SeasonMoney(SeasonCard):
    """What the work costs, hire beside owning, what it has to gain; or which prices are missing."""

    title, dress = "Money", "rig-rows"

    def text(self) -> str:
        """Give the table and what is said beside it."""
        if self.found is None:
            return ""
        words, one = self.found.words, self.found.answer.rigs[0]
        return str(render(__file__, "money.html.j2", rows=words.costs(one), texts=words.money_lines(one)))


class SeasonNotes(SeasonCard):
    """Hours, field efficiency and fuel of a day; whose days fit for work these are, and what was taken."""

    title, dress = "Hours and fuel", "rig-why"

    def text(self) -> str:
        """Give the lines, and what it rests on in a fold."""
        if self.found is None:
            return ""
        words = self.found.words
        day = words.day_lines(self.found.answer.rigs[0])
        return str(render(__file__, "notes.html.j2", day=day, notes=words.notes))
