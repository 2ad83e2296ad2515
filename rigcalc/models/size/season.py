"""The season in one line, by the field hours typed: days needed, days there are, days in hand; fuel and fillings a day."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.equations.capacity import days_needed, days_there_are
from rigcalc.models.machine.day import field_day
from rigcalc.models.machine.operating_point import Point
from rigcalc.models.rig.rig import Rig


@dataclass(frozen=True)
class Season:
    """Bare numbers of the season; None where the rig file leaves out what they need."""

    area_per_day: float | None = None  # ha
    fuel_per_day: float | None = None  # L
    def_per_day: float | None = None  # L
    fillings_per_day: float | None = None
    days_needed: float | None = None
    days_there_are: float | None = None

    @property
    def days_in_hand(self) -> float | None:
        """Days left over (below zero: short of time)."""
        if self.days_needed is None or self.days_there_are is None:
            return None
        return self.days_there_are - self.days_needed


def season(rig: Rig, point: Point) -> Season | None:
    """Work out the season of a rig at its point. None when it gives no hours a day, or can't pull."""
    work = rig.work
    if work.hours_per_day is None or not point.field_capacity > 0:
        return None
    hours = work.hours_per_day.to("h/day")
    day = field_day(rig, point, hours)
    fit = work.fit_days.to("1") if work.fit_days else None
    days = work.calendar_days.to("day") if work.calendar_days else None
    return Season(
        area_per_day=day.area,
        fuel_per_day=day.fuel,
        def_per_day=day.def_fluid,
        fillings_per_day=day.fillings,
        days_needed=float(days_needed.bare(work.area.to("ha"), point.field_capacity, hours)) if work.area else None,
        days_there_are=float(days_there_are.bare(fit, days)) if fit is not None and days is not None else None,
    )
