"""How fast does bare ground dry? Sun above the air, reference evaporation by Hargreaves, the drying layer of FAO-56."""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(gives=S.sun_distance, takes=(S.day_of_year,), source="fao_56", where="eq. 23", sure="restated", fitted=True)
def sun_distance(day_of_year):
    """How much nearer the sun is than on the mean day, squared: nearest in January."""
    return 1 + 0.033 * np.cos(2 * np.pi / 365 * day_of_year)


@equation(gives=S.declination, takes=(S.day_of_year,), source="fao_56", where="eq. 24", sure="restated", numeric=True)
def declination(day_of_year):
    """Height of the sun over the equator at noon: highest in June."""
    return 0.409 * np.sin(2 * np.pi / 365 * day_of_year - 1.39)


@equation(
    gives=S.sunset_angle, takes=(S.latitude, S.declination), source="fao_56", where="eq. 25", sure="restated", traced=False
)
def sunset_angle(latitude, declination):
    """Angle from noon to sunset; half a turn where the sun doesn't set, nothing where it doesn't rise."""
    return np.arccos(np.clip(-np.tan(latitude) * np.tan(declination), -1, 1))


@equation(
    gives=S.sun_above,
    takes=(S.latitude, S.declination, S.sunset_angle, S.sun_distance),
    source="fao_56",
    where="eq. 21, with the solar constant of 0.0820 MJ/(m2 min)",
    sure="restated",
    numeric=True,
)
def sun_above(latitude, declination, sunset_angle, sun_distance):
    """Radiation of the sun above the air over a whole day."""
    rising = sunset_angle * np.sin(latitude) * np.sin(declination)
    passing = np.cos(latitude) * np.cos(declination) * np.sin(sunset_angle)
    return 24 * 60 / np.pi * 0.0820 * sun_distance * (rising + passing)


@equation(gives=S.sun_as_water, takes=(S.sun_above,), source="fao_56", where="eq. 20", sure="restated", numeric=True)
def sun_as_water(sun_above):
    """Radiation as the water that it could evaporate: 2.45 MJ go with each kilogram."""
    return 0.408 * sun_above


@equation(
    gives=S.reference_et,
    takes=(S.day_mean, S.day_span, S.sun_as_water),
    source="fao_56",
    where="eq. 52",
    sure="restated",
    numeric=True,
)
def reference_et(day_mean, day_span, sun_as_water):
    """Evaporation of the reference grass by the temperatures of the day alone (Hargreaves)."""
    return 0.0023 * (day_mean + 17.8) * day_span**0.5 * sun_as_water


@equation(
    gives=S.evaporable, takes=(S.drained_water, S.wilting_point, S.drying_depth), source="fao_56", where="eq. 73",
    sure="restated", fitted=True,
)  # fmt: skip
def evaporable(drained_water, wilting_point, drying_depth):
    """Water that can evaporate from a layer wet through: down to half of what plants leave in it."""
    return (drained_water - 0.5 * wilting_point) * drying_depth


@equation(gives=S.drying_share, takes=(S.evaporable, S.missing, S.readily), source="fao_56", where="eq. 74", sure="restated")
def drying_share(evaporable, missing, readily):
    """Share of the air's pull that a drying layer follows, beyond what evaporates readily; at most one, nothing once dry."""
    return (evaporable - missing) / (evaporable - readily)


@equation(
    gives=S.bare_evaporation,
    takes=(S.drying_share, S.bare_coefficient, S.reference_et),
    source="fao_56",
    where="eq. 71, without a crop",
    sure="restated",
)
def bare_evaporation(drying_share, bare_coefficient, reference_et):
    """Evaporation of bare ground."""
    return drying_share * bare_coefficient * reference_et
