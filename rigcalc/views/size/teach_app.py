"""The working as a page, for whoever explains it: one step at a time beside one picture at a time."""

from __future__ import annotations

from collections.abc import Sequence

import ipywidgets

from rigcalc.views.rig.app import RigApp
from rigcalc.views.rig.fields import SLID, groups, setting, tool_of
from rigcalc.views.size.cards import AnswerCard
from rigcalc.views.size.model import SizeModel
from rigcalc.views.size.teaching import PictureStrip, StepCard
from rigcalc.widgets.controls import Form


class TeachApp(RigApp):
    """The whole page. `TeachApp()` starts from the first demo rig; `TeachApp(SizeModel())` from a model of your own."""

    title = "How is it worked out?"
    model: SizeModel

    def __init__(self, model: SizeModel | None = None, inside: bool = False):
        super().__init__(model or SizeModel(), inside)

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts in reading order."""
        model = self.model
        first = Form(model, lambda: setting(tool_of(model.inputs)), "Depth, speed and shanks", folds=False)
        machine = Form(model, lambda: groups(tool_of(model.inputs)), "Ground, implement and tractor", slides=SLID)
        return AnswerCard(model), StepCard(model), self.entries(first, machine), PictureStrip(model)
