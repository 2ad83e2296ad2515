"""Water in bare ground, day by day and layer by layer: rain in, draining down, drying from the top as FAO-56 has it.

`fit_days` says on which days it can be worked.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from functools import cache

import numpy as np

from rigcalc.core.tables import table
from rigcalc.equations import weather as book
from rigcalc.models.machine.weather import Weather
from rigcalc.models.machine.wetness import PARTICLES, WaterLimits

DOUBTS = (-0.8, -0.4, 0.0, 0.4, 0.8)  # middles of five equal parts of the limit's doubt, either way
LEAST_YEARS = 8  # fewer say too little of how years scatter: our choice, as for the season's record
_SPRING = 152  # 1 Jun: before it ground comes out of winter, north of the equator
_HALF_YEAR = 182  # days by which seasons are moved south of it
_DRAINED = 3.0  # time constants in which draining counts as done, our choice: a twentieth of what was too much is left then
_MOST_READILY = 0.9  # share of what can evaporate: all of it at once would leave eq. 74 nothing to divide by; our choice


@cache
def choice(name: str) -> float:
    """Give a number of the table of choices, in the unit that its note names."""
    return float(table("season_choices")[name]["value"])


def before(day_of_year: int, place: float) -> tuple[int, tuple[float, float, float]]:
    """Give how many days before a day of the year its ground is followed from, and the share (low, likely, high) of the water
    that plants can take with which it begins there. place: latitude in degrees, south negative."""
    since_winter = day_of_year if place >= 0 else (day_of_year + _HALF_YEAR) % 365
    when = "spring" if since_winter < _SPRING else "autumn"
    row = table("season_choices")[f"left_{when}"]
    return round(choice(f"lead_{when}")), (float(row["low"]), float(row["value"]), float(row["high"]))


@dataclass(frozen=True)
class Soil:
    """Bare ground, bare: water as shares of the volume, mm, mm, a share of what is too much that drains in a day, m.

    layers: thickness of each from the top down; the first is the one that dries.
    """

    wilting: float
    drained: float
    full: float
    evaporable: float
    readily: float
    drains: float
    layers: tuple[float, ...]

    @property
    def mm(self) -> np.ndarray:
        """Thickness of each layer in mm."""
        return 1000 * np.array(self.layers)


def soil_of(limits: WaterLimits, texture: str, depth: float) -> Soil:
    """Give the ground of a rig down to a depth in m: the layer that dries, and slices as thick below it.

    They are as thick for every depth, so that shallower work waits for fewer of the same; one that is half worked counts.
    """
    row = table("drying_by_texture")[texture]
    top = choice("drying_layer")
    slices = int(max(depth - top, 0.0) / top + 0.5)
    wilting, drained = limits.wilting * limits.density, limits.drained * limits.density
    evaporable = float(book.evaporable.bare(drained, wilting, 1000 * top))
    return Soil(
        wilting=wilting,
        drained=drained,
        full=max(1 - limits.density / PARTICLES, drained),
        evaporable=evaporable,
        readily=min((row["rew_low"] + row["rew_high"]) / 2, _MOST_READILY * evaporable),
        drains=1 - math.exp(-_DRAINED * 24 / row["drained_in"]),
        layers=(top,) * (1 + slices),
    )


def reference_of(day_of_year: np.ndarray, latitude: float, warmest: np.ndarray, coolest: np.ndarray) -> np.ndarray:
    """Give reference evapotranspiration by Hargreaves, mm a day, never under nothing. latitude: degrees; others degC."""
    place, sun = math.radians(latitude), book.declination.bare(day_of_year)
    angle = book.sunset_angle.bare(place, sun)
    above = np.maximum(book.sun_above.bare(place, sun, angle, book.sun_distance.bare(day_of_year)), 0.0)
    mean = (warmest + coolest) / 2
    grass = book.reference_et.bare(mean, warmest - coolest, book.sun_as_water.bare(above))
    made: np.ndarray = np.maximum(grass, 0.0)
    return made


def run_water(rain: np.ndarray, reference: np.ndarray, soil: Soil, begins: float) -> np.ndarray:
    """Give water at the end of each day as shares of the volume: (years, days, layers).

    rain, reference: mm a day, (years, days). begins: share of the water that plants can take on the first morning.
    """
    years, days = rain.shape
    thick = soil.mm
    drained, full = soil.drained * thick, soil.full * thick
    water = np.repeat(((soil.wilting + begins * (soil.drained - soil.wilting)) * thick)[None, :], years, axis=0)
    out = np.empty((years, days, len(thick)))
    for day in range(days):
        missing = drained[0] - water[:, 0]  # of the evening before, as eq. 77 has it
        share = np.clip(book.drying_share.bare(soil.evaporable, missing, soil.readily), 0.0, 1.0)
        comes = rain[:, day]
        for layer in range(len(thick)):
            held = water[:, layer] + comes
            goes = np.maximum(soil.drains * np.maximum(held - drained[layer], 0.0), held - full[layer])
            water[:, layer], comes = held - goes, goes
        gone = book.bare_evaporation.bare(share, choice("bare"), reference[:, day])
        water[:, 0] = np.maximum(water[:, 0] - gone, drained[0] - soil.evaporable)
        out[:, day] = water / thick
    return out


def frozen_days(mean: np.ndarray) -> np.ndarray:
    """Say on which days the ground is frozen: (years, days) of means in degC. Cold adds up, warmth takes it away."""
    cold = np.zeros(len(mean))
    out = np.empty(mean.shape, bool)
    for day in range(mean.shape[1]):
        cold = np.maximum(cold - mean[:, day], 0.0)
        out[:, day] = cold > choice("frozen")
    return out


def fit_days(weather: Weather, at: np.ndarray, soil: Soil, limits: WaterLimits, place: float, begins: float) -> np.ndarray:
    """Say which days can be worked: array of bool (years, DOUBTS, days of the run).

    at: places of the run's days in `weather`, (years, days). place: latitude in degrees. begins: as of `run_water`.
    """
    warmest, coolest, rain = weather.warmest[at], weather.coolest[at], weather.rain[at]
    of_year = np.array([date.fromordinal(int(day)).timetuple().tm_yday for day in weather.days])[at]
    water = run_water(rain, reference_of(of_year, place, warmest, coolest), soil, begins)
    wettest = water.max(axis=2)
    off = limits.upper[2] - limits.upper[1]
    most = (limits.upper[1] + off * np.array(DOUBTS)) * limits.density
    stopped = frozen_days((warmest + coolest) / 2) | (rain >= choice("wet_day"))
    made: np.ndarray = (wettest[:, None, :] <= most[None, :, None]) & ~stopped[:, None, :]
    return made
