"""The page "The ground": what people have seen and probed, three questions answered from it, and a picture of the soil."""

from __future__ import annotations

from collections.abc import Sequence

import ipywidgets

from rigcalc.views.ground import fields
from rigcalc.views.ground.cards import (
    SoilAnswer,
    SoilDepth,
    SoilNotes,
    SoilPressing,
    SoilQuestions,
    SoilResidue,
    SoilTool,
    SoilWhere,
)
from rigcalc.views.ground.model import GroundModel
from rigcalc.views.ground.picture import SoilPicture
from rigcalc.views.ground.weather import SoilWeather
from rigcalc.views.rig.app import RigApp
from rigcalc.views.rig.fields import SLID
from rigcalc.widgets.controls import Form


class GroundApp(RigApp):
    """The whole page. `GroundApp()` starts from the first demo rig; `GroundApp(GroundModel())` from a model of your own."""

    title = "The ground"
    model: GroundModel

    def __init__(self, model: GroundModel | None = None, inside: bool = False):
        super().__init__(model or GroundModel(), inside)

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts in reading order."""
        model = self.model
        picture = SoilPicture(model)
        picture.add_class("rig-tall")
        seen = Form(model, lambda: fields.seen(model.system), "What you see and probe", folds=False, slides=SLID)
        more = Form(model, lambda: fields.more(model.system), "After the pass, slope, soil, wheels, residue", slides=SLID)
        of_file = Form(
            model, lambda: fields.WEATHER if model.weather_file is not None else (), "The weather file", folds=False, slides=()
        )
        asked = self.entries(seen, SoilWeather(model), of_file, more)
        return (
            *(SoilAnswer(model), asked, SoilQuestions(model), picture, SoilDepth(model), SoilTool(model)),
            *(SoilPressing(model), SoilWhere(model), SoilResidue(model), SoilNotes(model)),
        )
