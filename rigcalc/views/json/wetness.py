"""How wet the ground is, as JSON-ready data: shares of the dry mass have the unit "1"."""

from __future__ import annotations

from typing import Any

from rigcalc.models.machine.wetness import Band, Wetness


def wetness_data(wet: Wetness) -> dict[str, Any]:
    """Give the state of the ground, the water that it is known from, and its limits."""
    limits = wet.limits
    return {
        "state": wet.state.value,
        "known_from": list(wet.known_from),
        "readings_disagree": wet.apart,
        "sampled_above_the_work": None if wet.shallow is None else {"value": wet.shallow, "unit": "cm"},
        "water_by_mass": None if wet.water is None else _band(wet.water),
        "limits_by_mass": {
            "upper": _band(limits.upper), "measured": limits.measured, "optimum": _share(limits.optimum),
            "dry": _share(limits.dry), "field_capacity": _share(limits.drained), "wilting_point": _share(limits.wilting),
            "upper_by_retention_curve": _share(limits.by_retention),
        },
        "bulk_density": {"value": limits.density, "unit": "g/cm**3"},
        "drains_to_its_limit": limits.drains_to_it,
        "thread_says_something": limits.plastic,
    }  # fmt: skip


def _share(value: float) -> dict[str, Any]:
    return {"value": float(value), "unit": "1"}


def _band(band: Band) -> dict[str, Any]:
    return {end: _share(value) for end, value in zip(("low", "likely", "high"), band, strict=True)}
