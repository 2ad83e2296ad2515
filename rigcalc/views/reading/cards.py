"""The text parts about readings as widgets: each stands alone in a notebook, and the page is built of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.views.reading import panels
from rigcalc.views.reading.parts import ReadingCard
from rigcalc.widgets.card import Folds


class ReadingAnswer(ReadingCard):
    """The answer as it stands with the readings: go, try it first, or don't."""

    title, dress, is_live = "Answer by the field", "rig-answer rig-across", True

    def text(self) -> str:
        """Give the verdict."""
        return panels.verdict(self.found) + self.faults_by_itself()


class ReadingSays(ReadingCard):
    """What the field said, in a sentence; what the answer would be without; and what to look at again."""

    title, dress = "What the field said", "rig-why"

    def text(self) -> str:
        """Give the sentences."""
        return panels.says(self.found)


class ReadingList(ReadingCard):
    """Every reading, and whether it counts. One is set aside by a button, which asks why, and counted again by another."""

    title, dress = "Readings", "rig-list"
    _asking: int | None = None
    _why = ""

    def text(self) -> str:
        """Give the list."""
        return panels.listed(self.found, self._asking, self._why, self.model.fits_a_link())

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do."""
        return {"ask": self.ask, "why": self._heard_why, "aside": self.put_aside, "keep": self._keep, "count": self.count_again}

    def ask(self, place: Any) -> None:
        """Ask why a reading is to be set aside."""
        self._asking, self._why = _place(place), ""
        self.refresh()

    def put_aside(self, _value: Any = "") -> None:
        """Set the reading aside that was asked about. Raises InputError without a reason."""
        if self._asking is None:
            return
        if not self._why.strip():
            raise InputError([Fault("why", "nothing", "why this reading isn't to be counted", "display not calibrated")])
        place, self._asking = self._asking, None
        self.model.set_aside(place, self._why)

    def count_again(self, place: Any) -> None:
        """Count a reading again that was set aside."""
        self.model.set_aside(_place(place), "")

    def _heard_why(self, text: Any) -> None:
        self._why = str(text)[:2000]  # no new text on the page: the button is about to be pressed

    def _keep(self, _value: Any) -> None:
        self._asking = None
        self.refresh()


def _place(value: Any) -> int:
    text = str(value)
    if not (text.isascii() and text.isdigit() and len(text) < 4):
        raise InputError([Fault("reading", shown(value), "a reading of the list")])
    return int(text)


class ReadingChanges(ReadingCard):
    """Verdict, chance, draft, slip, load, fuel and how far it goes, before the readings and after."""

    title, dress = "What they change", "rig-rows"

    def text(self) -> str:
        """Give the table; nothing where no reading counts."""
        return panels.changes(self.found)


class ReadingTold(Folds, ReadingCard):
    """Which number told what, what the display is off, and which numbers don't go together."""

    title = "What each number told"

    def text(self) -> str:
        """Give the fold."""
        return panels.told(self.found, self.opened)


class ReadingNext(Folds, ReadingCard):
    """What to read next to learn most, or that it is time to stop."""

    title = "What to read next"

    def text(self) -> str:
        """Give the fold."""
        return panels.next_one(self.found, self.opened)


class ReadingZones(Folds, ReadingCard):
    """Headland and cart lanes: how much harder they pull, and how deep or fast the job goes there."""

    title = "Headland and cart lanes"

    def text(self) -> str:
        """Give the fold."""
        return panels.zones(self.found, self.opened)


class ReadingRecord(ReadingCard):
    """Did we say it right: how often what was read lay inside the band that was said before it."""

    title = "Did we say it right?"

    def text(self) -> str:
        """Give the count, and each number in a fold."""
        return panels.record(self.found)
