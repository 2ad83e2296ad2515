"""The page "The season": is it done in time, where the day goes, what would help, what it costs."""

from __future__ import annotations

from collections.abc import Sequence

import ipywidgets

from rigcalc.views.rig.app import RigApp
from rigcalc.views.season.cards import SeasonBox, SeasonChanges, SeasonMoney, SeasonNotes, SeasonSays, SeasonVerdict
from rigcalc.views.season.fields import WEATHER
from rigcalc.views.season.model import SeasonModel
from rigcalc.views.season.pictures import SeasonCost, SeasonDay, SeasonDone
from rigcalc.views.season.weather import SeasonWeather
from rigcalc.widgets.controls import Form


class SeasonApp(RigApp):
    """The whole page. `SeasonApp()` starts from the first demo rig; `SeasonApp(SeasonModel())` from a model of your own."""

    title = "The season"
    model: SeasonModel

    def __init__(self, model: SeasonModel | None = None, inside: bool = False):
        super().__init__(model or SeasonModel(), inside)

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts in reading order."""
        model = self.model
        of_file = Form(
            model, lambda: WEATHER if model.weather_file is not None else (), "The weather file", folds=False, slides=()
        )
        return (
            *(SeasonVerdict(model), self.entries(SeasonBox(model), SeasonWeather(model), of_file), SeasonSays(model)),
            *(SeasonDay(model), SeasonDone(model), SeasonChanges(model), SeasonCost(model), SeasonMoney(model)),
            SeasonNotes(model),
        )
