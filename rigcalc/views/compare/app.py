"""The comparing app: this one or that one, and does it matter."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import ipywidgets

from rigcalc.models.compare import Comparison
from rigcalc.views.compare import fields
from rigcalc.views.compare.cards import (
    CompareAnswer,
    CompareCards,
    CompareReasons,
    CompareRigs,
    CompareRows,
    CompareTables,
)
from rigcalc.views.compare.costs import CompareCost
from rigcalc.views.compare.inputs import entries_of, places
from rigcalc.views.compare.model import CompareModel
from rigcalc.views.compare.picture import CompareLimits
from rigcalc.views.rig.fields import tool_of
from rigcalc.widgets.app import App
from rigcalc.widgets.controls import Form
from rigcalc.widgets.fields import Section


class RigEntries(Form):
    """A few entries of every rig on the list, a section for each under its name."""

    title_is_typed = True

    model: CompareModel

    def __init__(self, model: CompareModel):
        self.there: list[tuple[int, str]] = []
        super().__init__(model, (), "Entries of each rig")

    def refresh(self) -> None:
        """Show the rigs that are on the list, each under its name."""
        inputs = self.model.inputs
        found = [(place, tool_of(entries_of(inputs, place))) for place in places(inputs)]
        with self.hold_sync():
            if found != self.there:
                self.there = found
                self.set_sections(tuple(self._section(place, tool) for place, tool in found))
            self.titles = [self._title(place) for place, _ in found]
            super().refresh()

    def _section(self, place: int, tool: str) -> Section:
        return fields.of_rig(place, self._title(place), tool)

    def _title(self, place: int) -> str:
        return self.model.inputs.get(f"{place}.name", "").strip() or f"rig {place + 1}"


class CompareApp(App):
    """The whole page. `CompareApp()` starts from two demo rigs; `CompareApp(CompareModel())` from a model of your own."""

    title = "This one or that one?"
    is_about_rig = False
    model: CompareModel

    def __init__(self, model: CompareModel | None = None, inside: bool = False):
        super().__init__(model or CompareModel(), inside)

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts in reading order."""
        model = self.model
        self.rigs = CompareRigs(model)
        asked = Form(model, lambda: fields.asked(model.tool(), len(places(model.inputs))), "What to compare", folds=False)
        asked.add_class("rig-ask")
        costs = Form(model, fields.COSTS, "Cost against chance", slides=())
        picture = CompareLimits(model)
        picture.add_class("rig-tall")
        return (
            *(CompareAnswer(model), CompareReasons(model), self.entries(self.rigs, asked, RigEntries(model), costs)),
            *(CompareCards(model), CompareRows(model), CompareCost(model), picture, CompareTables(model)),
        )

    def load(self, value: Any) -> None:
        """Take a file that was picked: a comparison that was saved, or a rig file, which is added to the list."""
        self.rigs.load(value)

    @property
    def comparison(self) -> Comparison | None:
        """The facts, None while there are fewer than two rigs that can be used."""
        words = self.model.results.words if self.model.results is not None else None
        return words.comparison if words is not None else None
