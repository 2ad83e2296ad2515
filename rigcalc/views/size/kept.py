"""The card that keeps an answer, so that the next change stands beside it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from rigcalc.core.errors import Fault, InputError
from rigcalc.views.size.cards import SizeCard
from rigcalc.views.size.parts import Source
from rigcalc.widgets.templates import render
from rigcalc.words.size import SizeWords
from rigcalc.words.size.kept import kept_rows


class KeptCard(SizeCard):
    """Keeps the answer as it stands; whatever is changed then stands beside it, what differs marked."""

    title, dress = "Kept answer", "rig-kept"

    def __init__(self, source: Source = None, **traits: Any):
        self.kept: SizeWords | None = None
        super().__init__(source, **traits)

    def text(self) -> str:
        """Give the button; once an answer is kept, both side by side."""
        now = self.words
        rows = kept_rows(self.kept, now) if self.kept is not None and now is not None else []
        return str(render(__file__, "kept.html.j2", rows=rows, kept=self.kept is not None, off=now is None))

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do."""
        return {"keep": lambda _value: self.keep(), "forget": lambda _value: self.forget(), "back": lambda _value: self.back()}

    def keep(self) -> None:
        """Keep the answer that stands. Raises InputError where there is none."""
        if self.words is None:
            raise InputError([Fault("keep this", "an entry that can't be used", "a rig that has an answer")])
        self.kept = self.words
        self.refresh()

    def forget(self) -> None:
        """Keep nothing any more."""
        self.kept = None
        self.refresh()

    def back(self) -> None:
        """Go back to the rig of the kept answer; one step of undo comes back to this one."""
        if self.kept is not None:
            self.model.start_from(self.kept.answer.rig)
