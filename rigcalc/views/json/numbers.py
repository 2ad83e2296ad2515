"""Numbers as JSON has them: each with its unit, and null where there is none, since JSON knows neither infinity nor NaN."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any


def number(value: Any, unit: str) -> dict[str, Any] | None:
    """Give a bare number with its unit; None where there is none, or none that JSON can hold."""
    held = _held(value)
    return None if held is None else {"value": held, "unit": unit}


def span(ends: tuple[float, float], unit: str) -> dict[str, Any]:
    """Give the low and the high end of a span, each with its unit."""
    return {"low": number(ends[0], unit), "high": number(ends[1], unit)}


def array(values: Iterable[Any], unit: str) -> dict[str, Any]:
    """Give bare numbers in a row with the unit of all; None in the place of one that JSON can't hold."""
    return {"values": [_held(value) for value in values], "unit": unit}


def _held(value: Any) -> float | None:
    return float(value) if value is not None and math.isfinite(float(value)) else None
