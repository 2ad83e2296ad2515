"""The weather file of the season's page: picked in the browser, read strictly, with how far it is and what is wrong with it."""

from __future__ import annotations

from rigcalc.models.machine.weather import LARGEST_WEATHER
from rigcalc.views.season.parts import SeasonCard
from rigcalc.widgets.picked import OpensFile, Picked
from rigcalc.words.season.boxes import ABOUT_WEATHER, FILE, weather_line


class SeasonWeather(OpensFile, SeasonCard):
    """Picks a file of daily weather (CSV) from which the days fit for work are worked out, and says what it holds.

    Parameters
    ----------
    source : SeasonModel, Rig, path or name of a demo rig
        What the season is of; a SeasonModel is shared with other parts.

    Examples
    --------
    >>> from rigcalc.widgets import SeasonWeather
    >>> card = SeasonWeather("articulated")
    >>> card.model.weather is None
    True
    """

    title, dress = "Days by the weather", "rig-weather"
    button, endings, about = "Open a weather file", ".csv,.txt", ABOUT_WEATHER
    where, wanted, most = f"{FILE} file", "a CSV file of daily weather", LARGEST_WEATHER

    def holds(self) -> tuple[bool, str]:
        """Give whether a file is open, and what it holds."""
        held = self.model.weather_file
        return held is not None, "" if held is None else weather_line(held.name, self.model.weather)

    def took(self, picked: Picked | None) -> None:
        """Go on with a file, or with days as typed."""
        self.model.take_weather(picked)
