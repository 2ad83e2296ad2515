"""A value as it would stand in a field, on the steps of its slider."""

from __future__ import annotations

from rigcalc.core.units import factor
from rigcalc.widgets.entries import tidy
from rigcalc.widgets.fields import Field, Number
from rigcalc.words.numbers import System


def stepped(field: Field, value: float, unit: str, system: System, down: bool = False) -> str:
    """Give a value in `unit` as text for a number's field, rounded to a step of its slider; `down` never rounds up."""
    assert isinstance(field, Number)
    scale = field.scale(system)
    own = value * factor(unit, scale.unit) if unit != scale.unit else value
    steps = (own - scale.low) / scale.step
    whole = int(steps + 1e-6) if down else round(steps)
    number = scale.low + whole * scale.step
    if down and (number > own + 1e-6 or number <= 0):
        return f"{tidy(own)} {scale.unit}".strip()
    return f"{tidy(min(max(number, scale.low), scale.high) if not down else number)} {scale.unit}".strip()
