"""Days fit for work, year by year: the record's weeks, the user's own share laid over them, or the user's own counts.

Whole seasons are kept together: weeks of one autumn hang together, so sums of bad weeks would be too bad.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache

import numpy as np

from rigcalc.core.errors import Fault, InputError
from rigcalc.core.tables import table
from rigcalc.models.machine.weather import Weather
from rigcalc.models.rig.measure import Measure
from rigcalc.models.rig.rig import Rig
from rigcalc.models.season.plan import Plan
from rigcalc.models.season.reading_plan import day_text
from rigcalc.models.season.workable import Worked, worked_out

RECORD, OWN_SHARE, COUNTED, WEATHER = "record", "own_share", "counted", "weather"
_BORROWED_FROM = 244  # 1 Sep: where the scatter of years is taken from, for a season that the record doesn't cover
_LEAST_YEARS = 8  # fewer say too little of how years scatter: our choice
_MOST_FILLED = 3  # days of a season without a report, which then count as unfit; a year with more is left out: our choice


@dataclass(frozen=True)
class Seasons:
    """Shares of days fit for work. fit: array (years, days) from the start to the deadline; years: which; kind: RECORD,
    OWN_SHARE, COUNTED or WEATHER; left_out: years without a report of every week, or with a gap; borrowed: whether the scatter
    is of another time of the year; worked: what weather rests on, whose `fit` has several rows a year."""

    fit: np.ndarray
    years: tuple[int, ...]
    kind: str
    left_out: int = 0
    borrowed: bool = False
    worked: Worked | None = None


def seasons(
    plan: Plan, start: int, by: int, own: Measure | None, rigs: Sequence[Rig] = (), known: Weather | None = None
) -> Seasons:
    """Give the seasons from day `start` to day `by` of the year, both with them. own: the share in the rig file, or None; rigs:
    whose ground the weather falls on; known: that weather, where it was read before.

    Raises InputError where the record doesn't reach and nothing is typed, and for weather that can't be used.
    """
    days = by - start + 1
    if plan.days.weather is not None:
        made = worked_out(plan.days, rigs, start, by, known)
        return Seasons(made.fit, made.years, WEATHER, len(made.left_out), worked=made)
    share = plan.days.share or own
    if plan.days.counted is not None:
        return _counted(plan.days.counted, days)
    off = plan.days.sundays_off
    fit, years, left_out = recorded(start, by, off and share is None)
    borrowed = len(years) < _LEAST_YEARS
    if borrowed and share is None:
        wanted = f"your own share of days fit from {day_text(start)} to {day_text(by)}: the record holds autumns alone"
        raise InputError([Fault("days", "nothing", wanted, '--fit "50 percent", or share = "50 percent" in [days]')])
    if borrowed:
        fit, years, left_out = recorded(_BORROWED_FROM, _BORROWED_FROM + min(days, 75) - 1)
        fit = np.tile(fit, (1, -(-days // fit.shape[1])))[:, :days]
    if share is None:
        return Seasons(fit, years, RECORD, left_out)
    laid = laid_over(fit, share.to("1"))  # the share is the weather's: Sundays off are taken from it after
    return Seasons(np.where(_sundays(years, start, days), 0.0, laid) if off else laid, years, OWN_SHARE, left_out, borrowed)


def _sundays(years: tuple[int, ...], start: int, days: int) -> np.ndarray:
    """Give an array (years, days) that is True on Sundays. start: day of a common year."""
    first = date(2001, 1, 1) + timedelta(days=start - 1)
    begins = np.array([date(year, first.month, first.day).weekday() for year in years])
    made: np.ndarray = (begins[:, None] + np.arange(days)) % 7 == 6
    return made


def _counted(counted: tuple[float, ...], days: int) -> Seasons:
    most = f"at most {days}, the days from start to deadline"
    faults = [
        Fault(f"days.counted.{at}", f"{count:g} days fit", most, "31") for at, count in enumerate(counted) if count > days
    ]
    if faults:
        raise InputError(faults)
    fit = np.repeat(np.array(counted)[:, None] / days, days, axis=1)
    return Seasons(fit, tuple(range(1, len(counted) + 1)), COUNTED)


@cache
def _weeks() -> dict[date, float]:
    """Give day -> share fit, of every day that a reported week holds."""
    out: dict[date, float] = {}
    for row in table("fieldwork_weeks"):
        end = date.fromisoformat(row["week_ending"])
        out |= {end - timedelta(days=back): row["days"] / 7 for back in range(7)}
    return out


@cache
def recorded(start: int, by: int, sundays_off: bool = False) -> tuple[np.ndarray, tuple[int, ...], int]:
    """Give (shares fit of shape (years, days), the years, how many were left out) of the record. Days of a common year."""
    weeks = _weeks()
    first, last = (date(2001, 1, 1) + timedelta(days=day - 1) for day in (start, by))
    rows, years, out = [], [], 0
    for year in sorted({day.year for day in weeks}):
        begin = date(year, first.month, first.day)
        days = [begin + timedelta(days=n) for n in range((last - first).days + 1)]
        known = [day for day in days if day in weeks]
        if len(days) - len(known) > _MOST_FILLED or not known:
            out += bool(known)
            continue
        shares = [weeks.get(day, 0.0) for day in days]
        rows.append([0.0 if sundays_off and day.weekday() == 6 else share for day, share in zip(days, shares, strict=True)])
        years.append(year)
    return np.array(rows).reshape(len(rows), by - start + 1), tuple(years), out


def laid_over(fit: np.ndarray, share: float) -> np.ndarray:
    """Give the same years, better or worse all alike, so that `share` of the days is fit in the middle one."""
    if share <= 0.005 or share >= 0.995:
        return np.full(fit.shape, float(share > 0.5))
    held = np.clip(fit, 0.02, 0.98)
    odds = np.log(held / (1 - held))

    def moved(by: float) -> np.ndarray:
        made: np.ndarray = np.where(fit == 0, 0.0, 1 / (1 + np.exp(-(odds + by))))  # a week without a fit day stays one
        return made

    low, high = -12.0, 12.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if np.median(moved(middle).mean(axis=1)) < share else (low, middle)
    return moved(low)
