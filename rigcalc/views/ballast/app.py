"""The ballast app: where should the weight go, and did it work?"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import ipywidgets

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.views.ballast import fields, panels_field
from rigcalc.views.ballast.cards import (
    MassBars,
    MassCurve,
    WeightAdvice,
    WeightAnswer,
    WeightFigures,
    WeightJobs,
    WeightLimits,
    WeightNotes,
    WeightPlan,
    WeightWorking,
)
from rigcalc.views.ballast.field_cards import TyrePressures, WeightGears, WeightSheet
from rigcalc.views.ballast.model import BallastModel
from rigcalc.views.ballast.rig_inputs import places
from rigcalc.views.rig.app import RigApp
from rigcalc.views.rig.fields import SLID, tool_of
from rigcalc.widgets.controls import Form
from rigcalc.widgets.panel import Panel


class Weights(Form):
    """One section for each kind of weight at hand; they come and go with the list."""

    title_is_typed = True

    model: BallastModel

    def __init__(self, model: BallastModel):
        self.there: list[int] = []
        super().__init__(model, (), "Weights at hand", slides=SLID)
        self.add_class("rig-pieces")

    def refresh(self) -> None:
        """Show the weights that are on the list, each under its name and how many of them are on."""
        found, told = places(self.model.inputs), self.model.piece
        with self.hold_sync():
            if found != self.there:
                new = set(found) - set(self.there) if self.there else set()
                self.there = found
                self.set_sections(tuple(fields.piece(place, told(place), place in new) for place in found))
            self.titles = [told(place) for place in found]
            super().refresh()


class BallastApp(RigApp):
    """The whole page. `BallastApp()` starts from the first demo rig; `BallastApp(BallastModel())` from your own model."""

    title = "Where should the weight go?"
    model: BallastModel

    def __init__(self, model: BallastModel | None = None, inside: bool = False):
        super().__init__(model or BallastModel(), inside)

    @property
    def answer(self) -> BallastAnswer | None:
        """The answer on ballast, None while an entry can't be used."""
        return self.model.results.ballast if self.model.results else None

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts in reading order."""
        model = self.model
        weights = Panel(
            model,
            lambda: panels_field.weights((place, model.piece(place, short=True)) for place in places(model.inputs)),
            "the weights",
            {"add": lambda _value: model.add_piece(), "remove": model.remove_piece},
        )
        first = Form(model, lambda: fields.job(tool_of(model.inputs)), "The job", folds=False, slides=SLID)
        machine = Form(model, lambda: fields.more(tool_of(model.inputs)), "Tickets, limits and machine", slides=SLID)
        entries = self.entries(first, weights, Weights(model), machine)
        slip = Form(model, fields.slip_test(), "Slip test", folds=False, slides=SLID)
        slip.add_class("rig-test")
        figure = MassCurve(model)
        figure.add_class("rig-tall")
        return (
            *(
                WeightAnswer(model),
                MassBars(model),
                WeightFigures(model),
                WeightPlan(model),
                entries,
                WeightLimits(model),
                figure,
            ),
            *(WeightJobs(model), WeightAdvice(model), TyrePressures(model), WeightGears(model)),
            self._told("How to test slip", lambda: panels_field.slip_how(model.results)),
            slip,
            self._told(
                "Verdict of the slip test",
                lambda: panels_field.slip_verdict(model.results, model.inputs.get("slip.way", "")),
                live="polite",
            ),
            *(WeightSheet(model), WeightWorking(model), WeightNotes(model)),
        )

    def _told(self, name: str, write: Callable[[], str], **more: Any) -> Panel:
        return Panel(self.model, write, name, role="region", label=name, **more)
