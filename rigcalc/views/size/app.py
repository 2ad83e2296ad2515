"""The sizing app: will it pull, what gives out first, how sure is that."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

import ipywidgets

from rigcalc.models import Answer
from rigcalc.views.rig.app import RigApp
from rigcalc.views.rig.fields import SLID, groups, setting, tool_of
from rigcalc.views.size.cards import (
    AnswerCard,
    CabCard,
    FirstCard,
    Gauges,
    NotesCard,
    NumbersTable,
    ReachCard,
    SheetCard,
    SideDrawing,
    WorkingSteps,
)
from rigcalc.views.size.kept import KeptCard
from rigcalc.views.size.model import SizeModel
from rigcalc.views.size.picture import PICTURES
from rigcalc.widgets.controls import Form
from rigcalc.widgets.one_layout import one_layout
from rigcalc.words.size import SizeWords

P = TypeVar("P", bound=ipywidgets.Widget)


class SizeApp(RigApp):
    """The whole page. `SizeApp()` starts from the first demo rig; `SizeApp(SizeModel())` from a model of your own."""

    title = "Will it pull?"
    model: SizeModel

    def __init__(self, model: SizeModel | None = None, inside: bool = False):
        super().__init__(model or SizeModel(), inside)

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts in reading order."""
        model = self.model
        pictures = [picture(model) for picture in PICTURES]
        pictures[0].add_class("rig-big")
        shown = ipywidgets.VBox(pictures, layout=one_layout())
        shown.add_class("rig-pictures")
        return (
            *(
                AnswerCard(model),
                SideDrawing(model),
                self.entries(*self.forms()),
                CabCard(model),
                KeptCard(model),
                Gauges(model),
                shown,
            ),
            *(ReachCard(model), SheetCard(model), NumbersTable(model), FirstCard(model), WorkingSteps(model), NotesCard(model)),
        )

    def forms(self) -> Sequence[Form]:
        """Give the forms: what is set for each pass, then what a rig is."""
        model = self.model
        first = Form(model, lambda: setting(tool_of(model.inputs)), "Depth, speed and shanks", folds=False)
        return first, Form(model, lambda: groups(tool_of(model.inputs)), "Ground, implement and tractor", slides=SLID)

    def part(self, kind: type[P]) -> P:
        """Give the page's part of a kind, such as `LimitsMap`. Raises StopIteration where it has none."""
        inside = [child for part in self.children for child in (part, *getattr(part, "children", ()))]
        return next(part for part in inside if isinstance(part, kind))

    @property
    def words(self) -> SizeWords | None:
        """The answer in words, None while an entry can't be used."""
        return self.model.results

    @property
    def answer(self) -> Answer | None:
        """The answer's facts, None while an entry can't be used."""
        return self.words.answer if self.words is not None else None
