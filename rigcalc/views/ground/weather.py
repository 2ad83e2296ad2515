"""The weather file of the page about the ground: picked in the browser; how wet it makes the ground, when it may be fit."""

from __future__ import annotations

from rigcalc.views.ground.parts import GroundCard
from rigcalc.views.rig.weather import OpensWeather
from rigcalc.widgets.templates import render
from rigcalc.words.weather_file import COLUMNS, FOR_GROUND


class SoilWeather(OpensWeather, GroundCard):
    """Picks a file of daily weather (CSV) and says how wet the ground should be by it, and when past years would have dried it.

    Parameters
    ----------
    source : GroundModel, Rig, path or name of a demo rig
        Whose ground it is; a GroundModel is shared with other parts.

    Examples
    --------
    >>> from rigcalc.widgets import SoilWeather
    >>> card = SoilWeather("articulated")
    >>> card.model.weather is None
    True
    """

    title, dress = "By the weather", "rig-weather"
    about = f"{COLUMNS} {FOR_GROUND}"

    def text(self) -> str:
        """Give the button, what the file holds, and what the weather makes of the ground."""
        lines = self.words.weather if self.words is not None else ()
        return super().text() + (str(render(__file__, "lines.html.j2", title="", lines=lines)) if lines else "")
