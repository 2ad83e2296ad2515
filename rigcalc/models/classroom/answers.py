"""What a student typed, read as one number and one unit by fixed patterns; nothing in it is worked out or run.

Read: 1,234.5 and 1 234.5; 12 1/2 and 3/4; 1.2e4 and 1.2 x 10^4; a name and an equals sign before the number; names of
units in full and SI prefixes beside the names of `ALLOWED`. A decimal comma is refused: half the world reads 1,234 so.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from enum import Enum

from rigcalc.core.errors import InputError
from rigcalc.core.units import canonical_unit

MOST_LETTERS = 80


class Unread(Enum):
    """Why an answer can't be read."""

    EMPTY = "empty"
    LONG = "long"
    NO_NUMBER = "no_number"
    COMMA = "comma"
    SUM = "sum"
    TWO = "two_numbers"
    NOT_FINITE = "not_finite"
    UNIT = "unknown_unit"


@dataclass(frozen=True)
class Typed:
    """A number that was typed: as it stands, its unit ("" for none) as pint spells it, and what a prefix adds as a factor.

    `figures` are the significant figures that it surely has, `most_figures` those that it may have (12000 has 2, maybe 5); both
    are None for a fraction, which is exact.
    """

    number: float
    unit: str
    prefix: float
    figures: int | None
    most_figures: int | None


_PLAIN = str.maketrans({
    "−": "-", "–": "-", "\N{NO-BREAK SPACE}": " ", "\N{NARROW NO-BREAK SPACE}": " ", "\N{THIN SPACE}": " ", "×": "x", "·": "*",
    "⋅": "*", "²": "^2", "³": "^3", "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⁄": "/", "’": "'", "\t": " ",
})  # fmt: skip
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
_LEAD = re.compile(
    r"(?:[A-Za-z][A-Za-z_ ]{0,30}[=:]|=)?\s*(?:about|approx\.?|approximately|ca\.?|roughly|~|≈)?\s*", re.IGNORECASE
)
_DIGITS = r"(?:\d{1,3}(?:,\d{3})+|\d{1,3}(?: \d{3})+(?!\d)|\d{1,15})"
_NUMBER = re.compile(
    rf"(?P<sign>[+-]?)\s*(?:"
    rf"(?:(?P<whole>\d{{1,6}})(?:\s+|-))?(?P<above>\d{{1,6}})\s?/\s?(?P<below>\d{{1,6}})(?![\d.])"
    rf"|(?P<digits>{_DIGITS}(?:\.\d{{0,15}})?|\.\d{{1,15}})"
    rf"(?:[eE](?P<e>[+-]?\d{{1,3}})|\s?[xX*]\s?10\s?(?:\^|\*\*)\s?\(?(?P<ten>[+-]?\d{{1,3}})\)?)?)",
    re.ASCII,
)  # fmt: skip
_COMMA = re.compile(r"[+-]?\d[\d.']*,\d", re.ASCII)
# Names of units as people write them, in small letters; a blank stands for any blanks and hyphens.
_NAMES = {
    "newton": "N", "newtons": "N", "kilonewton": "kN", "kilonewtons": "kN", "kn": "kN",
    "pound force": "lbf", "pounds force": "lbf", "pound of force": "lbf", "pounds of force": "lbf", "lb f": "lbf",
    "pound": "lb", "pounds": "lb", "kilogram": "kg", "kilograms": "kg", "kgs": "kg", "gram": "g", "grams": "g",
    "horsepower": "hp", "horse power": "hp", "h.p": "hp", "kilowatt": "kW", "kilowatts": "kW", "kw": "kW", "watt": "W",
    "watts": "W", "lbsf": "lbf",
    "metric horsepower": "metric_horsepower", "ps": "metric_horsepower",
    "miles per hour": "mi/h", "mile per hour": "mi/h", "kmph": "km/h", "km/hr": "km/h", "mi/hr": "mi/h", "fps": "ft/s",
    "meter": "m", "meters": "m", "metre": "m", "metres": "m", "kilometer": "km", "kilometers": "km", "kilometre": "km",
    "kilometres": "km", "centimeter": "cm", "centimeters": "cm", "second": "s", "seconds": "s", "sec": "s", "minute": "min",
    "minutes": "min", "hectare": "ha", "hectares": "ha", "hrs": "h", "d": "day", "working day": "day", "working days": "day",
    "pascal": "Pa", "pascals": "Pa", "kilopascal": "kPa", "kilopascals": "kPa", "kpa": "kPa", "pct": "percent",
    "per cent": "percent", "gph": "gal/h", "square inch": "in**2", "square inches": "in**2", "sq in": "in**2",
    "square foot": "ft**2", "square feet": "ft**2", "sq ft": "ft**2", "square meters": "m**2", "square metres": "m**2",
    "square centimeters": "cm**2", "square centimetres": "cm**2", "sq cm": "cm**2", "sq m": "m**2",
    "mph": "mph", "hp": "hp", "psi": "psi", "lbf": "lbf", "lbs": "lb", "kg": "kg", "lb": "lb", "acre": "acre", "acres": "acre",
    "ac": "acre", "ha": "ha", "km/h": "km/h", "percent": "percent", "day": "day", "days": "day", "hours": "h", "hour": "h",
}  # fmt: skip
# SI prefixes and multiples that the allow-list leaves out: letter case counts here.
_MULTIPLES = {
    "MN": (1e3, "kN"), "daN": (10.0, "N"), "mN": (1e-3, "N"), "MW": (1e3, "kW"), "mW": (1e-3, "W"), "hPa": (100.0, "Pa"),
    "GPa": (1e3, "MPa"), "mbar": (1e-3, "bar"), "kip": (1e3, "lbf"), "kips": (1e3, "lbf"), "klbf": (1e3, "lbf"),
    "kgf": (9.80665, "N"), "Mg": (1.0, "t"), "dm": (0.1, "m"),
}  # fmt: skip
_POWER = re.compile(r"(.*?[A-Za-z%])(?:(?:\^|\*\*)(-?\d))?", re.ASCII)


def read_answer(text: str) -> Typed | Unread:
    """Read what was typed. Gives why where that can't be done; it never raises for a text."""
    if not text.strip():
        return Unread.EMPTY
    if len(text) > MOST_LETTERS:
        return Unread.LONG
    plain = re.sub(r"10([⁰¹²³⁴⁵⁶⁷⁸⁹⁻]+)", lambda match: "10^" + match[1].translate(_RAISED), text).translate(_PLAIN).strip()
    lead = _LEAD.match(plain)
    rest = plain[lead.end() if lead else 0 :]
    match = _NUMBER.match(rest)
    if _COMMA.match(rest) and (match is None or rest[match.end() : match.end() + 1] == ","):
        return Unread.COMMA
    if match is None:
        return Unread.NO_NUMBER
    digits = match["digits"] or ""
    if "," in digits and (digits.startswith("0") or rest[match.end() : match.end() + 1].isdigit()):
        return Unread.COMMA  # 0,250 is a quarter for half the world
    after = rest[match.end() :].strip().removesuffix(".").strip()
    if after[:1] in ("+", "-", "*", "/", "(", "=", "^", ",") or re.match(r"[xX]\s*\d", after):
        return Unread.SUM
    if re.match(r"[\d.]", after) or re.search(r"\s[+-]?\d", after):
        return Unread.TWO
    number = _number(match)
    if number is None or not math.isfinite(number):
        return Unread.NOT_FINITE
    unit = read_unit(after)
    return Unread.UNIT if unit is None else Typed(number, unit[1], unit[0], *_figures(match["digits"]))


def _number(match: re.Match[str]) -> float | None:
    if match["above"]:
        if not int(match["below"]):
            return None
        size = int(match["whole"] or 0) + int(match["above"]) / int(match["below"])
    else:
        size = float(match["digits"].replace(",", "").replace(" ", "") + "e" + (match["e"] or match["ten"] or "0"))
    return -size if match["sign"] == "-" else size


def _figures(digits: str | None) -> tuple[int, int] | tuple[None, None]:
    """Count the significant figures: those that are there for sure, and with the zeros at the end of a whole number."""
    if digits is None:
        return None, None
    bare = digits.replace(",", "").replace(" ", "")
    all_of_them = len(bare.replace(".", "").lstrip("0"))
    sure = all_of_them if "." in bare else len(bare.strip("0"))
    return max(sure, 1), max(all_of_them, 1)


def read_unit(text: str) -> tuple[float, str] | None:
    """Give what a prefix adds as a factor and the unit as pint spells it; None for one that isn't known."""
    text = text.strip()
    if text in ("", "%"):
        return 1.0, "percent" if text else ""
    whole = _NAMES.get(re.sub(r"[\s-]+", " ", text).casefold())
    if whole is not None:
        return 1.0, canonical_unit(whole)
    parts = re.sub(r"\s+per\s+", "/", text, flags=re.IGNORECASE).split("/")
    if len(parts) > 3:
        return None
    factor = 1.0
    names: list[str] = []
    for at, part in enumerate(parts):
        for name in re.split(r"\s*(?<!\*)\*(?!\*)\s*", part):
            match = _POWER.fullmatch(name.strip())
            if match is None:
                return None
            known = re.sub(r"[\s-]+", " ", match[1])
            times, unit = _MULTIPLES.get(known, (1.0, _NAMES.get(known.casefold(), known)))
            power = int(match[2] or 1)
            factor *= times ** (power if at == 0 else -power)
            names.append(("" if not names else "/" if at else "*") + unit + (f"**{power}" if match[2] else ""))
    try:
        return factor, canonical_unit("".join(names))
    except InputError:
        return None
