"""Numbers as people read them: American or metric units, a sensible number of digits, and how a share is said."""

from __future__ import annotations

from typing import Any, Literal

from rigcalc.core.units import factor

System = Literal["us", "si"]

# Unit of the book -> (American unit, metric unit) in which it is shown.
SHOWN: dict[str, tuple[str, str]] = {
    "cm": ("in", "cm"), "m": ("ft", "m"), "km/h": ("mph", "km/h"), "kN": ("lbf", "kN"), "kW": ("hp", "kW"),
    "kW/m": ("hp/ft", "kW/m"),
    "kPa": ("psi", "kPa"), "kg": ("lb", "kg"), "L": ("gal", "L"), "L/h": ("gal/h", "L/h"), "L/ha": ("gal/acre", "L/ha"),
    "ha": ("acre", "ha"), "ha/h": ("acre/h", "ha/h"), "ha/day": ("acre/day", "ha/day"), "1": ("1", "1"),
    "day": ("day", "day"), "deg": ("deg", "deg"),
}  # fmt: skip


def to_shown(value: float, unit: str, system: System) -> tuple[float, str]:
    """Convert a bare number in a unit of the book into the unit it is shown in."""
    target = SHOWN.get(unit, (unit, unit))[0 if system == "us" else 1]
    return (value if target == unit else value * factor(unit, target)), target


def number(value: float, digits: int = 3) -> str:
    """Give a number with `digits` significant digits, thousands parted by commas, never in powers of ten.

    >>> number(53939.0), number(3.5773), number(0.0)
    ('53,900', '3.58', '0')
    """
    if value == 0:
        return "0"
    from math import floor, log10

    places = digits - 1 - floor(log10(abs(value)))
    rounded = round(value, places)
    text = f"{rounded:,.{max(places, 0)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def say(value: Any, unit: str, system: System, digits: int = 3) -> str:
    """Give a bare number, in a unit of the book, as text in the unit it is shown in.

    >>> say(35.56, "cm", "us"), say(53.939, "kN", "si")
    ('14 in', '53.9 kN')
    """
    converted, target = to_shown(float(value), unit, system)
    return f"{number(converted, digits)} {target}".removesuffix(" 1")


def figure(value: Any, unit: str, system: System, digits: int = 3) -> tuple[str, str]:
    """Give a number and its unit as `say` does, apart, for where they are printed in two sizes; a share in per cent.

    >>> figure(35.56, "cm", "us"), figure(0.127, "1", "si")
    (('14', 'in'), ('13', '%'))
    """
    if unit == "1":
        return percent_number(value), "%"
    converted, target = to_shown(float(value), unit, system)
    return number(converted, digits), target


def percent_number(share: Any, digits: int = 2) -> str:
    """Give a share in hundredths without a sign: 0.127 is "13"; at least `digits` digits below ten, whole above."""
    value = 100 * float(share)
    return f"{value:.0f}" if abs(value) >= 10 or digits < 2 else number(value, digits)


def percent(share: Any, digits: int = 2) -> str:
    """Give a share as a percentage: 0.127 is "13 %"; at least `digits` digits below ten, whole above."""
    return f"{percent_number(share, digits)} %"


def units_of(rig: Any) -> System:
    """Give the system in which a rig's depth is typed, for whoever doesn't ask for one."""
    return "us" if rig.work.depth.unit in ("in", "ft", "yd") else "si"


def capital(text: str) -> str:
    """Give a text with its first letter large, as at the head of a line; the other letters stay as they are."""
    return text[:1].upper() + text[1:]


def chance(share: float) -> str:
    """Say a chance without claiming more than a range can carry."""
    if share > 0.99:
        return "more than 99 in 100"
    if share < 0.01:
        return "less than 1 in 100"
    return f"{round(100 * share)} in 100"


def chance_short(share: float) -> str:
    """Say a chance where there is room for a few letters alone."""
    return "99+ in 100" if share > 0.99 else "under 1 in 100" if share < 0.01 else chance(share)
