"""What the weather makes of the ground as JSON-ready data: worked out and not read; days beyond those looked ahead are null."""

from __future__ import annotations

from typing import Any

from rigcalc.models.ground.by_weather import AHEAD, ByWeather, Days
from rigcalc.views.json.numbers import number
from rigcalc.views.json.wetness import wetness_data


def weather_data(found: ByWeather) -> dict[str, Any]:
    """Give the state on a day, what it rests on, and days until it is fit by past years and without any rain."""
    guess = None
    if found.guess is not None:
        guess = {**_days(found.guess.days, ("least", "middle", "most")), "years": list(found.guess.years)}
    return {
        **{"worked_out": True, "verdict": found.judgement.value, "day": str(found.day), "last_day_of_file": found.last},
        "ground": wetness_data(found.wet),
        "wettest_layer": {"top": number(found.where[0], "cm"), "bottom": number(found.where[1], "cm")},
        "water_at_working_depth": number(found.deepest, "1"),
        **{"rain": number(found.rain, "mm"), "rain_keeps_off": found.soaked},
        "since_rain_that_keeps_off": number(found.since, "day"),
        "followed_from": str(found.begun),
        "begun_with": dict(zip(("low", "likely", "high"), (number(one, "1") for one in found.begins), strict=True)),
        **{"temperatures_laid_between": found.bridged, "values_marked_failed": found.flagged, "texture": found.texture},
        **{"too_wet": found.too_wet, "fit_in": guess, "whole_past_years": found.years if found.too_wet else None},
        "fit_without_rain_in": None if found.dry is None else _days(found.dry, ("wet_end", "middle", "dry_end")),
        "evaporation_of_grass": number(found.evaporation, "mm/day"),
        "looked_ahead": number(AHEAD, "day"),
    }


def _days(days: Days, names: tuple[str, str, str]) -> dict[str, Any]:
    return {name: number(one, "day") for name, one in zip(names, days, strict=True)}
