"""The weather file of the season's page: picked in the browser, read strictly, with how far it is and what is wrong with it."""

from __future__ import annotations

from rigcalc.views.rig.weather import OpensWeather
from rigcalc.views.season.parts import SeasonCard
from rigcalc.words.weather_file import COLUMNS, FOR_DAYS


class SeasonWeather(OpensWeather, SeasonCard):
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
    about = f"{COLUMNS} {FOR_DAYS}"
