"""The page "What the field said": four boxes and a button, and what came of them."""

from __future__ import annotations

from collections.abc import Sequence

import ipywidgets

from rigcalc.views.reading.box import ReadingBox
from rigcalc.views.reading.cards import (
    ReadingAnswer,
    ReadingChanges,
    ReadingList,
    ReadingNext,
    ReadingRecord,
    ReadingSays,
    ReadingTold,
    ReadingZones,
)
from rigcalc.views.reading.log_card import ReadingLog
from rigcalc.views.reading.model import FieldModel
from rigcalc.views.reading.picture import BeforeAfter
from rigcalc.views.rig.app import RigApp


class FieldApp(RigApp):
    """The whole page. `FieldApp()` starts from the first demo rig; `FieldApp(FieldModel())` from a model of your own."""

    title = "What the field said"
    model: FieldModel

    def __init__(self, model: FieldModel | None = None, inside: bool = False):
        super().__init__(model or FieldModel(), inside)

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts in reading order."""
        model = self.model
        picture = BeforeAfter(model)
        picture.add_class("rig-tall")
        return (
            *(ReadingAnswer(model), self.entries(ReadingBox(model)), ReadingSays(model), ReadingList(model), ReadingLog(model)),
            picture,
            *(ReadingChanges(model), ReadingTold(model), ReadingNext(model), ReadingZones(model), ReadingRecord(model)),
        )
