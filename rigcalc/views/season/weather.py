"""The weather file of the season's page: picked in the browser, read strictly, with how far it is and what is wrong with it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from rigcalc.core.errors import InputError
from rigcalc.models.machine.weather import LARGEST_WEATHER
from rigcalc.views.season.parts import SeasonCard, Source
from rigcalc.widgets.sliced import Gatherer
from rigcalc.widgets.templates import render
from rigcalc.words.season.boxes import FILE, weather_line


class SeasonWeather(SeasonCard):
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

    def __init__(self, source: Source = None, **traits: Any):
        self._under_way = Gatherer(f"{FILE} file", LARGEST_WEATHER, "a CSV file of daily weather")
        super().__init__(source, **traits)

    def text(self) -> str:
        """Give the button, what the file holds, how far one is on its way."""
        model, share = self.model, self._under_way.share
        held = model.weather_file
        said = "" if held is None else weather_line(held.name, model.weather)
        percent = None if share is None else round(100 * share)
        return str(render(__file__, "weather.html.j2", most=LARGEST_WEATHER, said=said, held=held is not None, percent=percent))

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do."""
        return {"weather": self.take, "leave": lambda _value: self.leave()}

    def take(self, value: Any) -> None:
        """Take a slice of a file. Raises InputError for one that is too big or broke off."""
        self.model.forget_complaints()
        try:
            picked = self._under_way.take(value)
        except InputError:
            self.refresh()
            raise
        if picked is None:
            self.refresh()
        else:
            self.model.take_weather(picked)

    def leave(self) -> None:
        """Go on without the file."""
        self.model.take_weather(None)
