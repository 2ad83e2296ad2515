"""A field that was read, as JSON-ready data: on which readings an answer stands, the same in every question."""

from __future__ import annotations

from typing import Any

from rigcalc.models.machine.field import Told
from rigcalc.words.field import from_readings


def told_data(told: Told) -> dict[str, Any]:
    """Give on which readings an answer stands, and which of them weren't counted or don't fit."""
    return {
        "field": told.field, "day": told.day, "days": list(told.days), "from": from_readings(told),
        "counted": [each.place + 1 for each in told.seen],
        "left_out": [{"reading": place + 1, "why": why} for place, why in told.left_out.items()],
        "do_not_fit": [{"reading": place + 1, "number": kind} for place, kind in told.misfits],
        "draws_worth": round(told.weighed.effective),
    }  # fmt: skip
