"""A day's work: area, fuel and fillings of so many field hours. The one place for it, for every question that asks."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.models.machine.operating_point import Point
from rigcalc.models.rig.rig import Rig


@dataclass(frozen=True)
class FieldDay:
    """Bare numbers of so many field hours: ha, L, L, fillings. None where the rig's tank isn't known."""

    area: float
    fuel: float
    def_fluid: float
    fillings: float | None


def field_day(rig: Rig, point: Point, hours: float) -> FieldDay:
    """Give area, fuel and exhaust fluid of `hours` in the field, turns and stops there at their own burn."""
    fuel = float(point.mean_fuel_rate) * hours
    return FieldDay(
        area=float(point.field_capacity) * hours,
        fuel=fuel,
        def_fluid=float(point.def_rate) * hours,
        fillings=fuel / rig.tractor.fuel_tank.to("L") if rig.tractor.fuel_tank else None,
    )
