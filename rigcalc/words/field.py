"""A field that was read, in words: which readings an answer stands on, and which fields its chances are of."""

from __future__ import annotations

from typing import Any

from rigcalc.models.rig.field_reading import ANOTHER_DAY

_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
           "December")  # fmt: skip


def day_text(day: str) -> str:
    """Say a day.

    >>> day_text("2026-11-04")
    '4 November 2026'
    """
    year, month, number = map(int, day.split("-"))
    return f"{number} {_MONTHS[month - 1]} {year}"


def readings_text(told: Any) -> str:
    """Say which readings an answer stands on: "3 readings of 4 November 2026"."""
    count, days = len(told.seen), told.days
    many = f"{count} reading{'' if count == 1 else 's'}"
    return f"{many} of {day_text(days[0])}" if len(days) == 1 else f"{many} of {len(days)} days, the last {day_text(days[-1])}"


def from_readings(told: Any) -> str:
    """Say on which readings an answer stands, and which day it is about where that isn't theirs."""
    if told.day == ANOTHER_DAY or told.day not in told.days:
        return f"from {readings_text(told)}, for another day of that field"
    return f"from {readings_text(told)}" + ("" if len(told.days) == 1 else f", as on {day_text(told.day)}")


def by_readings(told: Any) -> str:
    """Say in a sentence on which readings draft and grip stand."""
    return f"Draft and grip are those of the field, {from_readings(told)}."


def such_fields(told: Any) -> str:
    """Say of which fields a chance is the share: of those like this one, or of those that would give its readings."""
    return "such fields" if told is None else "fields that would read so"


def sure_of(told: Any) -> str:
    """Say of what a chance is, beside the chance: of such fields, or of this one where it was read."""
    return "such fields" if told is None else "for this field"
