"""What was typed into a number field stays the truth; what is shown follows the unit system.

`14 in` stays `14 in` however often the units are switched: the other system shows `35.56 cm`, converted anew each time.
"""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.core.errors import InputError
from rigcalc.core.units import factor, parse
from rigcalc.widgets.fields import Number, System

# Names that belong to one system only. Anything else (percent, deg, rpm, h, a count) belongs to both.
_US = frozenset("in ft yd mi acre gal lb ton lbf psi hp mph degF delta_degF".split())
_SI = frozenset("m cm mm km ha L kg g t N kN Pa kPa MPa bar W kW metric_horsepower degC delta_degC".split())


@dataclass(frozen=True)
class Shown:
    """A number field as it looks now. `text` stands in the box, `number` places the slider, in `unit`."""

    text: str
    number: float | None
    unit: str
    also: str = ""
    mark: str = ""


def system_of(unit: str) -> System | None:
    """Say which unit system a unit belongs to; None when to both."""
    names = set(unit.replace("*", " ").replace("/", " ").replace("(", " ").replace(")", " ").split())
    if names & _US:
        return "us"
    return "si" if names & _SI else None


def tidy(number: float, digits: int = 4) -> str:
    """Give a number with `digits` significant figures, no exponent, no trailing zeros; whole parts stay whole."""
    if number == 0:
        return "0"
    text = f"{number:.{digits}g}"
    if "e" in text:
        text = f"{number:.0f}" if abs(number) >= 1 else f"{number:.10f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def show_number(field: Number, text: str, system: System, typed_in: System | None = None) -> Shown:
    """Say how what was typed looks in a unit system.

    `typed_in` is the system that was on when it was typed: there the box shows it letter by letter.
    """
    scale = field.scale(system)
    if not text.strip():
        return Shown("", None, scale.unit)
    try:
        number, unit = parse(text)
        here = number * factor(unit, scale.unit) if unit != scale.unit else number
    except InputError:
        return Shown(text, None, scale.unit)
    home = system_of(unit)
    as_typed = home in (None, system) or typed_in == system
    converted = f"{tidy(here)} {scale.unit}".strip()
    also = ""
    if not as_typed:
        also = f"typed: {text.strip()}"
    elif unit != _spelled(scale.unit):
        also = f"= {converted}"
    return Shown(text.strip() if as_typed else converted, here, scale.unit, also, _mark(field, here, system))


def completed(field: Number, text: str, system: System) -> str:
    """Give what was typed with the unit of the slider added when it has none: `14` becomes `14 in`."""
    try:
        _, unit = parse(text)
    except InputError:
        return text
    scale = field.scale(system)
    return f"{text.strip()} {scale.unit}" if not unit and scale.unit else text.strip()


def _spelled(unit: str) -> str:
    return parse(f"1 {unit}")[1] if unit else ""


def valid_range(field: Number, system: System) -> tuple[float, float]:
    """Give the range in which a field's numbers hold, in the unit of its slider."""
    scale = field.scale(system)
    if field.valid is None:
        return scale.low, scale.high
    low, high, unit = field.valid
    times = 1.0 if unit == scale.unit else factor(unit, scale.unit)
    return low * times, high * times


def range_text(field: Number, system: System) -> str:
    """Give that range in words, such as `4 to 6.5 mph`."""
    low, high = valid_range(field, system)
    return f"{tidy(low, 3)} to {tidy(high, 3)} {field.scale(system).unit}".strip()


def _mark(field: Number, here: float, system: System) -> str:
    low, high = valid_range(field, system)
    slack = 1e-9 * max(abs(low), abs(high))
    return "" if low - slack <= here <= high + slack else f"{field.why}: {range_text(field, system)}"
