"""A file of daily weather on a page: held by the page's model, opened by a card."""

from __future__ import annotations

from typing import ClassVar

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.machine.weather import LARGEST_WEATHER, Weather, weather_in
from rigcalc.views.rig.own_entries import OwnEntries
from rigcalc.widgets.picked import OpensFile, Picked
from rigcalc.words.weather_file import FILE, weather_line


class HoldsWeather(OwnEntries):
    """A model with a file of weather, which is the farm's: it outlives a change of rig, and no link holds it."""

    weather_file: Picked | None = None
    of_weather: ClassVar[tuple[str, ...]] = ()  # what is asked about the file: hidden while there is none
    _read: tuple[Picked, str, Weather | None, tuple[Fault, ...]] | None = None

    @property
    def weather(self) -> Weather | None:
        """What the weather file holds; None where there is none, or where it can't be read."""
        return self._read[2] if self._read is not None and self._read[0] is self.weather_file else None

    def read_weather(self, units: str) -> tuple[Weather | None, tuple[Fault, ...]]:
        """Read the weather file, once for each of its units; give what it holds and what is wrong with it."""
        if self.weather_file is None:
            return None, ()
        if self._read is None or self._read[0] is not self.weather_file or self._read[1] != units:
            try:
                self._read = (self.weather_file, units, weather_in(self.weather_file.data, units or None), ())
            except InputError as error:
                self._read = (self.weather_file, units, None, tuple(error.faults))
        return self._read[2], self._read[3]

    def take_weather(self, picked: Picked | None) -> None:
        """Go on with a weather file that was picked, or without one any more."""
        self.weather_file = picked
        self._computed_from = None
        if picked is None:
            self.edit(dict.fromkeys(self.of_weather, ""))
        self.recompute()

    def hides(self, path: str) -> bool:
        """Hide what is asked of a weather file while there is none."""
        return super().hides(path) or (path in self.of_weather and self.weather_file is None)

    def fits_a_link(self) -> bool:
        """Say whether the address of the page holds everything: never a file of weather."""
        return super().fits_a_link() and self.weather_file is None


class OpensWeather(OpensFile):
    """What the cards that open a file of weather have in common; `about` says what is made of it."""

    model: HoldsWeather
    button, endings = "Open a weather file", ".csv,.txt"
    where, wanted, most = f"{FILE} file", "a CSV file of daily weather", LARGEST_WEATHER

    def holds(self) -> tuple[bool, str]:
        """Give whether a file is open, and what it holds."""
        held = self.model.weather_file
        return held is not None, "" if held is None else weather_line(held.name, self.model.weather)

    def took(self, picked: Picked | None) -> None:
        """Go on with a file, or without one."""
        self.model.take_weather(picked)
