"""The model of the season's page: a rig, what the farm does with it, and how the seasons end."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import plain_number
from rigcalc.models import Rig
from rigcalc.models.rig.file import rig_from
from rigcalc.models.season import SeasonAnswer, season
from rigcalc.models.season.answer import MOST_RIGS
from rigcalc.views.rig.model import nested
from rigcalc.views.rig.weather import HoldsWeather
from rigcalc.views.season.fields import COMES, COUNTED, HELPER, LATER, OF_WEATHER, OFF, OWN, PATHS, RIGS, SUNDAYS, UNITS
from rigcalc.words.numbers import System
from rigcalc.words.season import SeasonWords
from rigcalc.words.season.boxes import at_its_box
from rigcalc.words.weather_file import FILE

_OF_PASS = ("width", "speed", "field_efficiency", "wait")
_COUNT = re.compile(r"\s*([0-9]{1,3})\s*")


@dataclass(frozen=True, eq=False)
class Found:
    """A season's answer in one system of units."""

    answer: SeasonAnswer
    units: System

    @cached_property
    def words(self) -> SeasonWords:
        """The answer in words."""
        return SeasonWords(self.answer, self.units)


class SeasonModel(HoldsWeather):
    """`results` is a Found. What is typed about the season is the page's own; it goes into its link."""

    results: Found | None
    own, own_paths, of_weather = OWN, PATHS, OF_WEATHER
    _kept: tuple[Any, SeasonAnswer] | None = None

    def compute(self, inputs: Mapping[str, str]) -> Found:
        """Run the seasons. Raises InputError with the faults of the rig and of the plan, each by its box."""
        faults: list[Fault] = []
        rig: Rig | None = None
        try:
            rig = rig_from(nested(inputs))
        except InputError as error:
            faults += error.faults
        plan, wrong = _plan(inputs)
        faults += wrong
        count = _rigs(inputs.get(RIGS, ""), faults)
        weather, of_file = self.read_weather(inputs.get(UNITS, ""))
        faults += [at_its_box(fault, OWN, PATHS) for fault in of_file]
        days = plan.get("days", {})
        if weather is not None and self.weather_file is not None:
            plan["days"] = {**days, "weather": self.weather_file.name or FILE}  # a name; no file of this machine is opened
        else:  # what is asked of a file has no meaning without one
            plan["days"] = {name: text for name, text in days.items() if f"{OWN}days.{name}" not in OF_WEATHER}
        asked = (rig, plan, count, self.weather_file)
        if not faults and self._kept is not None and self._kept[0] == asked:
            return Found(self._kept[1], self.system)  # other units alone
        try:
            # Without a rig the plan is looked at all the same, so that every fault is named at once.
            answer = season([rig or _stand_in()] * max(count, 1), plan, weather=weather)
        except InputError as error:
            faults += [at_its_box(fault, OWN, PATHS) for fault in error.faults]
        if faults:
            raise InputError(dict.fromkeys(faults))
        self._kept = (asked, answer)
        return Found(answer, self.system)

    def rig_shown(self) -> Rig | None:
        """Give the rig that the page is about."""
        return self.results.answer.rig if self.results is not None else None


def _stand_in() -> Rig:
    from rigcalc.models import demo_rig

    return demo_rig()


def _plan(inputs: Mapping[str, str]) -> tuple[dict[str, Any], list[Fault]]:
    """Give the plan's nested data of what was typed, and what is wrong with the counts, which stand in one box."""
    data: dict[str, Any] = {}
    faults: list[Fault] = []
    for path in sorted(PATHS - {RIGS}):
        text = inputs.get(path, "").strip()
        if not text:
            continue
        value: Any = text
        if path == COUNTED:
            try:
                value = [plain_number(part) for part in re.split(r"[\s,;]+", text) if part]
            except InputError:
                faults.append(Fault(path, shown(text), "days fit for work, one number for each year", "31, 24, 36, 29, 33"))
                continue
        if path == SUNDAYS:
            value = text == OFF
        if path == HELPER:
            value = text == COMES
        if path == LATER:
            value = _later(text, faults)
        part = data
        *way, last = path.removeprefix(OWN).split(".")
        for name in way:
            part = part.setdefault(name, {})
        part[last] = value
    return data, faults


def _later(text: str, faults: list[Fault]) -> list[dict[str, str]]:
    """Read the later passes: one behind a semicolon each, width, speed, field efficiency and days to wait between commas."""
    made = []
    for count, each in enumerate((part for part in text.split(";") if part.strip()), start=1):
        cells = [cell.strip() for cell in each.split(",")]
        if not 3 <= len(cells) <= len(_OF_PASS) or not all(cells):
            expected = "width, speed and field efficiency between commas, then the days to wait where there are any"
            faults.append(Fault(LATER, shown(each.strip()), expected, "40 ft, 7 mph, 80 percent, 2 day"))
            continue
        made.append({"name": f"later pass {count}", **dict(zip(_OF_PASS, cells, strict=False))})
    return made


def _rigs(text: str, faults: list[Fault]) -> int:
    """Read the number of rigs alike."""
    if not text.strip():
        return 1
    found = _COUNT.fullmatch(text)
    if found is None or not 1 <= int(found[1]) <= MOST_RIGS:
        faults.append(Fault(RIGS, shown(text), f"a whole number from 1 to {MOST_RIGS}", "2"))
        return 1
    return int(found[1])
