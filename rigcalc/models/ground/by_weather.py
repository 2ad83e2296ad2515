"""How wet the ground should be by the weather so far, and when past years would have dried it: worked out, never read.

The water is that of the season's bucket of bare ground, run from the same day before with the same share of water left.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from os import PathLike
from typing import Any

import numpy as np
from pydantic_core import PydanticCustomError

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.machine.judgement import Judgement, worst_of
from rigcalc.models.machine.water import (
    DOUBTS,
    LEAST_YEARS,
    before,
    choice,
    fit_days,
    frozen_days,
    reference_of,
    run_water,
    soil_of,
)
from rigcalc.models.machine.weather import UNITS, Weather, bridged, latitude_of, load_weather
from rigcalc.models.machine.wetness import Band, Wet, Wetness, at_best, number_of, state_by_water, water_limits
from rigcalc.models.rig.bare import texture_of
from rigcalc.models.rig.measure import Kind
from rigcalc.models.rig.rig import Rig

AHEAD = 60  # days that are looked ahead: our choice, beyond them the season is another
_ENDS = (0.1, 0.5, 0.9)  # 8 in 10 and the middle
_LEFT = Kind("1", "50 percent", least=0, most=1)
Days = tuple[float, float, float]


@dataclass(frozen=True)
class Guess:
    """Days until the ground is fit by past years (of 8 in 10 the least, the middle, the most; inf: not within AHEAD)."""

    days: Days
    years: tuple[int, ...]


@dataclass(frozen=True)
class ByWeather:
    """The ground on a day as weather has made it.

    begun: the first day of the run, with `begins` (low, likely, high) of the water that plants can take, or as typed. wet: its
    state, by the wettest layer that is worked, between `where` in cm. deepest: water over dry mass in the layer at working
    depth. rain: mm that fell on the day; soaked: enough to keep off by itself. since: days since the last day of so much, None
    where there was none in the run. bridged: days of the run with a temperature that was laid between its neighbours. years:
    past years that are whole. guess: None where the ground isn't too wet or where they are fewer than LEAST_YEARS. dry: days in
    which it would be fit without any rain, at the wet end of the limit's doubt, its middle and its dry end, at `evaporation`
    in mm a day, the mean of the run; None where it isn't too wet.
    """

    day: date
    last: bool
    begun: date
    begins: Band
    begins_typed: bool
    wet: Wetness
    where: tuple[float, float]
    deepest: float
    rain: float
    soaked: bool
    since: int | None
    bridged: int
    flagged: int
    guess: Guess | None
    years: int
    dry: Days | None
    evaporation: float
    texture: str

    @property
    def judgement(self) -> Judgement:
        """What follows from it: never better than a try, since nobody has looked."""
        return worst_of(Judgement.TRY, at_best(self.wet.state))

    @property
    def too_wet(self) -> bool:
        """True where it is over its limit, whether or not beyond the doubt, or so much rain fell on the day."""
        return self.dry is not None


def by_weather(
    rig: Rig, file: str | PathLike[str] | Weather | None, units: str | None, latitude: Any, day: Any, left: Any = None
) -> ByWeather | None:  # fmt: skip
    """Work out the state of a rig's ground; None where no file is named.

    file: CSV of daily weather, or what was read from one. units: one of UNITS, where its headings don't say. latitude: in
    degrees, south negative, where the file doesn't say. day: a date or "1996-10-01"; the file's last one for None. left: share
    of the water that plants can take with which the run begins, such as "20 percent"; what is usual for None. Raises
    InputError with every fault.
    """
    faults: list[Fault] = []
    if file is not None and not isinstance(file, (str, PathLike, Weather)):
        raise InputError([Fault("weather", shown(file), "the path of a CSV file of daily weather", '"station.csv"')])
    if file is None:
        for name, value, example in (
            ("weather_units", units, "tenths"),
            ("latitude", latitude, "46.9"),
            ("day", day, "1996-10-01"),
            ("water_left", left, '"50 percent"'),
        ):
            if value is not None:
                faults.append(Fault(name, f"{shown(value)} without weather", "a file of daily weather beside it",
                                    f"--weather station.csv --{name.replace('_', '-')} {example}"))  # fmt: skip
        if faults:
            raise InputError(faults)
        return None
    unsure = units is not None and units not in UNITS
    if unsure:
        faults.append(Fault("weather_units", shown(units), ", ".join(UNITS), "--weather-units metric"))
        units = UNITS[0]  # stands in, so that what else is wrong with the file is named too
    place: float | None = None
    if latitude is not None:
        try:
            place = latitude_of(latitude)
        except InputError as error:
            faults += error.faults
    asked, typed = _day(day, faults), _left(left, faults)
    weather: Weather | None = None
    try:
        weather = file if isinstance(file, Weather) else load_weather(file, units)
    except InputError as error:
        found = [_of_ground(fault) for fault in error.faults]
        # units that stand in make values look odd that aren't
        faults += [fault for fault in found if not unsure or fault.where == "weather"]
    if weather is not None and latitude is None:
        place = weather.latitude
        if place is None:
            faults.append(Fault("latitude", "nothing", "the latitude, which the file doesn't say", "--latitude 46.9"))
    if weather is not None and asked is not None and not weather.days[0] <= asked.toordinal() <= weather.days[-1]:
        first, last = (date.fromordinal(int(weather.days[at])) for at in (0, -1))
        faults.append(Fault("day", f"{asked}", f"a day of the file, {first} to {last}", f"--day {last}"))
    if faults or weather is None or place is None:
        raise InputError(faults)
    return _worked(rig, weather, place, asked or date.fromordinal(int(weather.days[-1])), typed)


def _of_ground(fault: Fault) -> Fault:
    """Give a fault of the file with the names that it has here."""
    hint = "--weather-units tenths" if fault.where == "days.weather_units" and "[days]" in fault.type_this else fault.type_this
    return Fault(fault.where.removeprefix("days."), fault.got, fault.expected, hint)


def _left(value: Any, faults: list[Fault]) -> float | None:
    """Give the share with which the run begins, as typed; None where nobody says, or for what is a fault."""
    if value is None:
        return None
    try:
        return float(_LEFT.read(value).to("1"))
    except PydanticCustomError as error:
        about = error.context or {}
        faults.append(Fault("water_left", about["got"], about["expected"], f"--water-left {about['type_this']}"))
        return None


def _day(value: Any, faults: list[Fault]) -> date | None:
    if value is None or type(value) is date:
        return value
    try:
        if not isinstance(value, str) or len(value.strip()) != len("1996-10-01") or "W" in value:
            raise ValueError
        return date.fromisoformat(value.strip())
    except ValueError:
        faults.append(Fault("day", shown(value), "a date as year-month-day", "--day 1996-10-01"))
        return None


def _worked(rig: Rig, weather: Weather, place: float, day: date, typed: float | None) -> ByWeather:
    lead, begins = before(day.timetuple().tm_yday, place)
    begins = begins if typed is None else (typed, typed, typed)
    held = Weather(weather.days, bridged(weather.warmest), bridged(weather.coolest), weather.rain, None, weather.flagged)
    there = np.isfinite(held.warmest) & np.isfinite(held.coolest) & np.isfinite(held.rain)
    at = day.toordinal() - int(weather.days[0])
    run = np.arange(at - lead, at + 1)
    _whole(weather, there, run, day)
    limits, texture = water_limits(rig), texture_of(rig)
    soil = soil_of(limits, texture, rig.work.depth.to("m"))
    of_year = np.array([date.fromordinal(int(each)).timetuple().tm_yday for each in weather.days[run]])
    reference = reference_of(of_year, place, held.warmest[run], held.coolest[run])[None, :]
    rain = held.rain[run]
    ends = [run_water(rain[None, :], reference, soil, share)[0, -1] / limits.density for share in begins]
    wettest = int(np.argmax(ends[1]))
    likely = float(ends[1][wettest])
    # Worked out is never surer than read with a probe: our choice, since nothing published says how sure a bucket is.
    probe = number_of("probe_scatter") / limits.density
    under, over = likely - float(ends[0].max()), float(ends[2].max()) - likely
    water = (max(likely - math.hypot(under, probe), 0.0), likely, likely + math.hypot(over, probe))
    soaked = bool(rain[-1] >= choice("wet_day"))
    frozen = bool(frozen_days(((held.warmest + held.coolest) / 2)[run][None, :])[0, -1])
    state = Wet.FROZEN if frozen else Wet.WET if soaked else state_by_water(water, limits, None)
    too_wet = not frozen and (soaked or likely > limits.upper[1])
    after = _after(rain)
    # The lowest slice may reach a little beyond the points.
    edges = np.minimum(np.concatenate([[0.0], np.cumsum(soil.layers)]) * 100, rig.work.depth.to("cm"))
    guess, years, dry = None, 0, None
    mean = float(reference.mean())
    if too_wet:
        past, kept = _past(there, run, weather.days, day)
        years = len(kept)
        if years >= LEAST_YEARS:
            fit = fit_days(held, past, soil, limits, place, begins[1])[:, :, len(run) :]
            guess = Guess(_until(fit.reshape(-1, AHEAD)), kept)
        off = (limits.upper[2] - limits.upper[1]) * np.array([DOUBTS[-1], 0.0, DOUBTS[0]])
        none = np.concatenate([rain, np.zeros(AHEAD)])[None, :]
        steady = np.concatenate([reference[0], np.full(AHEAD, mean)])[None, :]
        most = run_water(none, steady, soil, begins[1])[0, len(run) :].max(axis=1)
        first = [_first(most <= (limits.upper[1] + each) * limits.density) for each in off]
        dry = (first[0], first[1], first[2])
    return ByWeather(
        day=day, last=bool(at == len(weather.days) - 1), begun=day - timedelta(days=lead), begins=begins,
        begins_typed=typed is not None,
        wet=Wetness(state, water, limits, ("weather",), False, None), where=(float(edges[wettest]), float(edges[wettest + 1])),
        deepest=float(ends[1][-1]), rain=float(rain[-1]), soaked=soaked, since=after,
        bridged=int((np.isnan(weather.warmest) | np.isnan(weather.coolest))[run].sum()), flagged=weather.flagged,
        guess=guess, years=years, dry=dry, evaporation=mean, texture=texture,
    )  # fmt: skip


def _whole(weather: Weather, there: np.ndarray, run: np.ndarray, day: date) -> None:
    """Raise InputError where the run up to the day isn't whole."""
    lead = len(run) - 1
    faults = []
    if run[0] < 0:
        begins, wanted = date.fromordinal(int(weather.days[0])), day - timedelta(days=lead)
        faults.append(Fault("weather", f"days from {begins} on", f"each of the {lead} days before {day}, from {wanted} on",
                            "a file that begins sooner, or a later --day"))  # fmt: skip
    run = run[run >= 0]
    gaps = [date.fromordinal(int(each)) for each in weather.days[run[~there[run]]]]
    if gaps:
        names = ", ".join(map(str, gaps[:3])) + (f" and {len(gaps) - 3} more" if len(gaps) > 3 else "")
        wanted_all = f"all three on each of the {lead} days up to {day}"
        faults.append(Fault("weather", f"no warmest, coolest or rain on {names}", wanted_all,
                            "another --day, or what was read written into the file"))  # fmt: skip
    if faults:
        raise InputError(faults)


def _past(there: np.ndarray, run: np.ndarray, days: np.ndarray, day: date) -> tuple[np.ndarray, tuple[int, ...]]:
    """Give places (years, run and AHEAD): the run itself, then the days of each past year that follow the day's date."""
    rows, kept = [], []
    for year in range(date.fromordinal(int(days[0])).year, day.year):
        same = date(year, 2, 28) if (day.month, day.day) == (2, 29) else day.replace(year=year)
        ahead = same.toordinal() - int(days[0]) + 1 + np.arange(AHEAD)
        if ahead[0] >= 0 and there[ahead].all():
            rows.append(np.concatenate([run, ahead]))
            kept.append(year)
    return np.array(rows, int).reshape(len(rows), len(run) + AHEAD), tuple(kept)


def _first(fit: np.ndarray) -> float:
    """Give the first day that is fit, counted from 1; inf where none is."""
    return float(np.argmax(fit)) + 1 if fit.any() else math.inf


def _until(fit: np.ndarray) -> Days:
    """Give the least, the middle and the most of 8 in 10 of the days until the first that is fit."""
    days = np.sort([_first(row) for row in fit])
    low, middle, high = (float(days[min(math.ceil(end * len(days)) - 1, len(days) - 1)]) for end in _ENDS)
    return low, middle, high


def _after(rain: np.ndarray) -> int | None:
    """Give how many days ago so much fell that it kept everybody off."""
    wet = np.flatnonzero(rain >= choice("wet_day"))
    return int(len(rain) - 1 - wet[-1]) if wet.size else None
