"""The model of the page "The ground": a rig as typed with what was seen of its ground, and the answer about it."""

from __future__ import annotations

from collections.abc import Mapping

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.ground import ground
from rigcalc.models.rig.file import demo_rig, rig_from
from rigcalc.models.rig.rig import Rig
from rigcalc.views.ground.fields import FLAGS, FLAGS_AFTER, OF_WEATHER, OWN, UNITS, with_units
from rigcalc.views.rig.model import nested
from rigcalc.views.rig.weather import HoldsWeather
from rigcalc.words.ground import GroundWords
from rigcalc.words.weather_file import of_ground_at_its_box


class GroundModel(HoldsWeather):
    """`results` is a GroundWords. What is typed here is of the rig's ground, so that every page goes by it; a file of weather
    and what is asked about it are this page's own."""

    own, own_paths, of_weather = OWN, OF_WEATHER, OF_WEATHER
    results: GroundWords | None

    def compute(self, inputs: Mapping[str, str]) -> GroundWords:
        """Give the answer. Raises InputError for an entry that can't be used, each at its box."""
        faults: list[Fault] = []
        rig: Rig | None = None
        try:
            rig = rig_from(nested(inputs))
        except InputError as error:
            faults += error.faults
        weather, wrong = self.read_weather(inputs.get(UNITS, ""))
        faults += [of_ground_at_its_box(fault, OWN) for fault in wrong]
        if faults and weather is None:
            raise InputError(faults)
        # What is asked of a file has no meaning without one.
        where, day, left = ((inputs.get(path, "").strip() or None) if weather is not None else None for path in OF_WEATHER[1:])
        try:
            # A rig that is refused leaves the weather to be looked at all the same, so that every fault is named at once.
            answer = ground(rig or demo_rig(), weather=weather, latitude=where, day=day, water_left=left)
        except InputError as error:
            faults += [of_ground_at_its_box(fault, OWN) for fault in error.faults]
        if faults:
            raise InputError(dict.fromkeys(faults))
        return GroundWords(answer, self.system, on_page=True)

    def rig_shown(self) -> Rig | None:
        """Give the rig that the page is about."""
        return self.results.answer.rig if self.results is not None else None

    def edit(self, changes: Mapping[str, str], live: bool = False) -> None:
        """Take one change set; flags without units get those that stand at the box."""
        typed = {path: with_units(changes[path], self.system) for path in (FLAGS, FLAGS_AFTER) if path in changes}
        changes = {**changes, **typed}
        super().edit(changes, live)
