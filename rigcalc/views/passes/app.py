"""The page "Which way to drive?": fields as they are, with their passes."""

from __future__ import annotations

from collections.abc import Sequence

import ipywidgets

from rigcalc.views.passes.cards import (
    FieldsFile,
    FieldsNotes,
    FieldsPicture,
    FieldsSays,
    FieldsTable,
    FieldsTake,
    FieldsVerdict,
)
from rigcalc.views.passes.fields import sections
from rigcalc.views.passes.model import PassesModel
from rigcalc.views.rig.app import RigApp
from rigcalc.widgets.controls import Form


class PassesApp(RigApp):
    """The whole page. `PassesApp()` starts from the first demo rig; `PassesApp(PassesModel())` from a model of your own."""

    title = "Which way to drive?"
    model: PassesModel

    def __init__(self, model: PassesModel | None = None, inside: bool = False):
        super().__init__(model or PassesModel(), inside)

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts in reading order."""
        model = self.model
        form = Form(model, lambda: sections(model.system), "How the fields are driven", folds=False, slides=())
        return (
            *(FieldsVerdict(model), self.entries(FieldsFile(model), form), FieldsPicture(model), FieldsSays(model)),
            *(FieldsTable(model), FieldsTake(model), FieldsNotes(model)),
        )
