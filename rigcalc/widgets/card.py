"""A card: a panel with a title that stands on a page or by itself, where it says its own faults; and one that folds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from rigcalc.widgets.html import fault_list
from rigcalc.widgets.model import AppModel
from rigcalc.widgets.panel import Panel
from rigcalc.words.spelling import fault_spelt


class Card(Panel):
    """Base of the parts that are text. A subclass gives `text` and, where it has buttons, `what_it_does`."""

    title = ""
    dress = ""  # its classes in the style sheet
    is_live = False  # whether a screen reader says each change
    _listens = False

    def __init__(self, model: AppModel, **traits: Any):
        traits.setdefault("label", self.title)
        live = "polite" if self.is_live else ""
        super().__init__(model, self.text, self.title, self.what_it_does(), self.dress, role="region", live=live, **traits)
        self.watch(self.told, self.title)
        if not self.model.dressed:
            self._listens = True
            self.model.observe(self._faults_changed, names="faults")

    def text(self) -> str:
        """Give what is shown, as HTML."""
        raise NotImplementedError

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do, by name."""
        return {}

    def told(self) -> None:
        """Follow the model with the traits of its own that it has."""

    def faults_by_itself(self) -> str:
        """Give what needs mending, where no page has a box of its own for it."""
        faults = () if self.model.dressed else [fault_spelt(fault, self.model.system) for fault in self.model.faults]
        return fault_list(faults, "This needs mending")

    def close(self) -> None:
        """Take the card away; the model it showed goes on without it."""
        if self._listens:
            self._listens = False
            self.model.unobserve(self._faults_changed, names="faults")
        super().close()

    def _faults_changed(self, _change: Any) -> None:
        self.refresh()


class Folds:
    """What a card that folds has in common: its inside is made when somebody opens it, and kept up to date from then on."""

    opened = False
    refresh: Callable[[], None]

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what opening it does."""
        return {"open": self.unfold}

    def unfold(self, _name: Any = "") -> None:
        """Make the inside, now that somebody wants to see it."""
        self.opened = True
        self.refresh()

    def complete(self) -> None:
        """Make the inside."""
        self.unfold()
