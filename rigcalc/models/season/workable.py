"""Which days of which years can be worked: weather run through bare ground, held against the limits of the ground's question.

Each year counts under five limits, evenly over the doubt of the one that is known: a limit that is off moves all days alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

import numpy as np

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.machine.water import DOUBTS, LEAST_YEARS, before, fit_days, soil_of
from rigcalc.models.machine.weather import Weather, bridged, load_weather
from rigcalc.models.machine.wetness import WaterLimits, water_limits
from rigcalc.models.rig.bare import texture_of
from rigcalc.models.rig.rig import Rig
from rigcalc.models.season.plan import Fit
from rigcalc.models.season.reading_plan import day_text


@dataclass(frozen=True)
class Worked:
    """What days worked out from weather rest on. fit: (years times DOUBTS, days), year by year, each 0 or 1.

    left_out: year -> the first day of it that isn't there. filled: temperatures laid between their neighbours; flagged: values
    that the archive marks as failed. shares: of the days fit in the middle year, at the dry end, the middle and the wet end of
    the limit's doubt. depth: m. place: latitude in degrees, south negative. drains: whether soaked ground comes under its limit
    by draining alone. begins: share of the water that plants can take as each year's run begins, and whether it was typed.
    """

    fit: np.ndarray
    years: tuple[int, ...]
    left_out: dict[int, date]
    filled: int
    flagged: int
    shares: tuple[float, float, float]
    texture: str
    depth: float
    place: float
    drains: bool
    measured: bool
    begins: float
    begins_typed: bool
    weather: Weather = field(repr=False)


def worked_out(typed: Fit, rigs: Sequence[Rig], start: int, by: int, weather: Weather | None = None) -> Worked:
    """Work out the days fit for work from day `start` to day `by` of a common year. weather: what the file was read as before.

    Raises InputError with every fault.
    """
    assert typed.weather is not None
    faults: list[Fault] = []
    limits = _ground(rigs, faults)
    try:
        weather = weather or load_weather(typed.weather, typed.weather_units)
    except InputError as error:
        faults += error.faults
    place = typed.latitude if typed.latitude is not None else weather.latitude if weather is not None else None
    if place is None and weather is not None:
        faults.append(Fault("days.latitude", "nothing", "the latitude, which the file doesn't say", "--latitude 46.9"))
    if faults or weather is None or place is None:
        raise InputError(faults)
    lead, left = before(start, place)
    begins = typed.water_left.to("1") if typed.water_left is not None else left[1]
    at, years, left_out, filled, held = _whole_years(weather, start, by, lead)
    depth = max(rig.work.depth.to("m") for rig in rigs)
    texture = texture_of(rigs[0])
    fit = fit_days(held, at, soil_of(limits, texture, depth), limits, place, begins)
    fit = np.array([row[:, kept] for row, kept in zip(fit, _kept(years, start, by), strict=True)])
    if typed.sundays_off:
        sundays = np.array([[day.weekday() == 6 for day in _days(year, start, by)] for year in years])
        fit = fit & ~sundays[:, None, :]
    shares = tuple(float(np.median(fit[:, which].mean(axis=1))) for which in (0, len(DOUBTS) // 2, len(DOUBTS) - 1))
    return Worked(
        fit=fit.reshape(-1, fit.shape[2]).astype(float), years=years, left_out=left_out, filled=filled,
        flagged=weather.flagged, shares=(shares[0], shares[1], shares[2]), texture=texture, depth=depth,
        place=place, drains=limits.drains_to_it, measured=limits.measured, begins=begins,
        begins_typed=typed.water_left is not None, weather=weather,
    )  # fmt: skip


def _ground(rigs: Sequence[Rig], faults: list[Fault]) -> WaterLimits:
    """Give the limits of the ground that the rigs share; a fault where they say different things of it."""
    each = [water_limits(rig) for rig in rigs]
    if any(limits != each[0] for limits in each):
        textures = " and ".join(dict.fromkeys(texture_of(rig) for rig in rigs))
        faults.append(Fault("ground", f"different ground in the rig files ({textures})", "one ground for all the rigs, "
                            "since they share the fields", "the same [ground] in each rig file"))  # fmt: skip
    return each[0]


def _days(year: int, start: int, by: int) -> list[date]:
    """Give the days of a season in one year; a leap day is left out, so that every year has as many."""
    first = date(2001, 1, 1) + timedelta(days=start - 1)
    last = date(2001, 1, 1) + timedelta(days=by - 1)
    begin, end = date(year, first.month, first.day), date(year, last.month, last.day)
    days = (begin + timedelta(days=n) for n in range((end - begin).days + 1))
    return [day for day in days if (day.month, day.day) != (2, 29)]


def _kept(years: Sequence[int], start: int, by: int) -> list[list[int]]:
    """Give, for each year, the places of its days in a run that ends with the deadline, counted from the end."""
    return [[day.toordinal() - days[-1].toordinal() - 1 for day in days] for days in (_days(y, start, by) for y in years)]


def _whole_years(
    weather: Weather, start: int, by: int, lead: int
) -> tuple[np.ndarray, tuple[int, ...], dict[int, date], int, Weather]:
    """Give places (years, days) of each whole year's run up to the deadline, the years, what was left out, temperatures filled.

    Raises InputError where too few years are whole.
    """
    first, last = int(weather.days[0]), int(weather.days[-1])
    warmest, coolest = bridged(weather.warmest), bridged(weather.coolest)
    there = np.isfinite(warmest) & np.isfinite(coolest) & np.isfinite(weather.rain)
    length = lead + by - start + 2  # a day more than a common year needs, for a leap day within it
    rows, years, left_out = [], [], {}
    for year in range(date.fromordinal(first).year, date.fromordinal(last).year + 1):
        end = _days(year, start, by)[-1].toordinal()
        begin = end - length + 1
        if end < first or begin > last:
            continue
        run = np.arange(begin, end + 1)
        inside = (run >= first) & (run <= last)
        good = np.zeros(len(run), bool)
        good[inside] = there[run[inside] - first]
        if good.all():
            rows.append(run - first)
            years.append(year)
        else:
            left_out[year] = date.fromordinal(int(run[~good][0]))
    if len(years) < LEAST_YEARS:
        gaps = "; ".join(f"in {year} {day} isn't there whole" for year, day in list(left_out.items())[:3])
        wanted = f"{LEAST_YEARS} or more, each without a gap from {lead} days before {day_text(start)} to {day_text(by)}"
        got = f"{len(years)} whole years{f' ({gaps})' if gaps else ''}"
        raise InputError([Fault("days.weather", got, wanted, "a file of more years, or days of your own (--fit)")])
    at = np.array(rows)
    used = np.zeros(len(there), bool)
    used[at] = True
    filled = int((used & (np.isnan(weather.warmest) | np.isnan(weather.coolest))).sum())
    held = Weather(weather.days, warmest, coolest, weather.rain, weather.latitude, weather.flagged)
    return at, tuple(years), left_out, filled, held
