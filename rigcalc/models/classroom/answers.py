"""What a student typed, read as one number and one unit by fixed patterns; nothing in it is worked out or run.

Read: 1,234.5 and 1 234.5; 12 1/2 and 3/4; 1.2e4 and 1.2 x 10^4; a name and an equals sign, or "the answer is", before the
number; quotation marks or brackets around it all or around the unit; names of units in full and SI prefixes beside the names of
`ALLOWED`. A decimal comma is refused: half the world reads 1,234 so.
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
    GONE = "no_line"
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
    "“": '"', "”": '"', "″": '"', "ℓ": "L",
})  # fmt: skip
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
_LEAD = re.compile(
    r"(?:[A-Za-z][A-Za-z0-9_() ]{0,30}(?:[=:]|->|→)|[A-Za-z][A-Za-z_ ]{0,30}\s(?:is|are|was)\s|ans(?:wer)?\.?\s|=)?"
    r"\s*(?:about|approx\.?|approximately|ca\.?|roughly|~|≈)?\s*", re.IGNORECASE | re.ASCII
)  # fmt: skip
_ROUND_IT = (("(", ")"), ("[", "]"), ('"', '"'), ("'", "'"))  # what may stand around all of an answer, or around its unit
# What may be said behind an answer of how exact it is, and the marks that end a sentence.
_TAIL = re.compile(
    r"\s*(?:\(?(?:approx\.?|approximately|about|(?:to )?\d ?(?:s\.? ?f\.?|sig\.? ?figs?\.?|significant figures))\)?)?[\s.;!]*",
    re.IGNORECASE | re.ASCII,
)
_DIGITS = r"(?:\d{1,3}(?:,\d{3})+|\d{1,3}(?: \d{3})+(?!\d)|\d{1,15})"
_NUMBER = re.compile(
    rf"(?P<sign>[+-]?)\s*(?:"
    rf"(?:(?P<whole>\d{{1,6}})(?:\s+|-))?(?P<above>\d{{1,6}})\s?/\s?(?P<below>\d{{1,6}})(?![\d.])"
    rf"|(?P<digits>{_DIGITS}(?:\.\d{{0,15}})?|\.\d{{1,15}})"
    rf"(?:\s?[eE](?P<e>[+-]?\d{{1,3}})|\s?[xX*]\s?10\s?(?:\^|\*\*)\s?\(?(?P<ten>[+-]?\d{{1,3}})\)?)?)",
    re.ASCII,
)  # fmt: skip
_COMMA = re.compile(r"[+-]?\d[\d.']*,\d", re.ASCII)
# Names of units as people write them, in small letters; a blank stands for any blanks and hyphens.
_NAMES = {
    "newton": "N", "newtons": "N", "kilonewton": "kN", "kilonewtons": "kN", "kn": "kN",
    "pound force": "lbf", "pounds force": "lbf", "pound of force": "lbf", "pounds of force": "lbf", "lb f": "lbf",
    "lb force": "lbf", "lbs force": "lbf", "lbs f": "lbf", "lbs of force": "lbf", "lb of force": "lbf",
    "lbm": "lb", "lb mass": "lb", "lbs mass": "lb", "pounds mass": "lb", "pound mass": "lb", "kilo": "kg", "kilos": "kg",
    "kilogrammes": "kg", "foot pound": "ft*lbf", "foot pounds": "ft*lbf", "ft lb": "ft*lbf", "ft lbs": "ft*lbf",
    "ft lbf": "ft*lbf", "knewton": "kN", "knewtons": "kN", "kwatt": "kW", "kwatts": "kW", "kpascal": "kPa",
    "pound": "lb", "pounds": "lb", "kilogram": "kg", "kilograms": "kg", "kgs": "kg", "gram": "g", "grams": "g",
    "horsepower": "hp", "horse power": "hp", "kilowatt": "kW", "kilowatts": "kW", "kw": "kW", "watt": "W",
    "watts": "W", "lbsf": "lbf",
    "metric horsepower": "metric_horsepower", "ps": "metric_horsepower",
    "miles per hour": "mi/h", "mile per hour": "mi/h", "kmph": "km/h", "km/hr": "km/h", "mi/hr": "mi/h", "fps": "ft/s",
    "meter": "m", "meters": "m", "metre": "m", "metres": "m", "kilometer": "km", "kilometers": "km", "kilometre": "km",
    "kilometres": "km", "centimeter": "cm", "centimeters": "cm",
    "centimetre": "cm", "centimetres": "cm", "millimeter": "mm", "millimeters": "mm", "millimetre": "mm", "millimetres": "mm",
    "second": "s", "seconds": "s", "sec": "s", "minute": "min",
    "minutes": "min", "hectare": "ha", "hectares": "ha", "hrs": "h", "d": "day", "working day": "day", "working days": "day",
    "workday": "day", "workdays": "day", "work day": "day", "work days": "day", "field day": "day", "field days": "day",
    "gals": "gal", "us gal": "gal", "us gallons": "gal", "lph": "L/h", "ltr": "L", "ins": "in", '"': "in",
    "pascal": "Pa", "pascals": "Pa", "kilopascal": "kPa", "kilopascals": "kPa", "kpa": "kPa", "pct": "percent",
    "per cent": "percent", "percentage": "percent", "gph": "gal/h",
    "mph": "mph", "hp": "hp", "psi": "psi", "lbf": "lbf", "lbs": "lb", "kg": "kg", "lb": "lb", "acre": "acre", "acres": "acre",
    "ac": "acre", "ha": "ha", "km/h": "km/h", "percent": "percent", "day": "day", "days": "day", "hours": "h", "hour": "h",
}  # fmt: skip
# SI prefixes and multiples that the allow-list leaves out: letter case counts here.
_MULTIPLES = {
    "MN": (1e3, "kN"), "daN": (10.0, "N"), "mN": (1e-3, "N"), "MW": (1e3, "kW"), "mW": (1e-3, "W"), "hPa": (100.0, "Pa"),
    "GPa": (1e3, "MPa"), "mbar": (1e-3, "bar"), "kip": (1e3, "lbf"), "kips": (1e3, "lbf"), "klbf": (1e3, "lbf"),
    "kgf": (9.80665, "N"), "Mg": (1.0, "t"), "dm": (0.1, "m"), "J": (1.0, "N*m"), "kJ": (1.0, "kN*m"), "MJ": (1e3, "kN*m"),
    "Nm": (1.0, "N*m"), "N m": (1.0, "N*m"), "kNm": (1.0, "kN*m"), "kN m": (1.0, "kN*m"),
}  # fmt: skip
_POWER = re.compile(r"(.*?[A-Za-z%])(?:(?:\^|\*\*)\(?(-?\d)\)?|([23]))?", re.ASCII)  # m^2, m**2 and, as people write it, m2
_KILO = re.compile(r"\bkilo[ -]", re.IGNORECASE)
_EACH = re.compile(r" ?/ ?| (?:per|an?|each|every|in an?) ", re.IGNORECASE)
_SQUARE = re.compile(r"\b(?:square(?!d)|sq(?!u)\.?) ?([A-Za-z]+)\.?", re.IGNORECASE | re.ASCII)
_SQUARED = re.compile(r"\.? ?(?:squared|sq)\b\.?", re.IGNORECASE)
# Pounds for each square inch are pounds of force by everybody's custom: nobody writes psi out in another way.
_PRESSURES = {"lb/in**2": "psi", "lb/ft**2": "lbf/ft**2"}


def read_answer(text: str) -> Typed | Unread:
    """Read what was typed. Gives why where that can't be done; it never raises for a text."""
    if not text.strip():
        return Unread.EMPTY
    if len(text) > MOST_LETTERS:
        return Unread.LONG
    plain = re.sub(r"10([⁰¹²³⁴⁵⁶⁷⁸⁹⁻]+)", lambda match: "10^" + match[1].translate(_RAISED), text).translate(_PLAIN).strip()
    plain = _bare(re.sub(r"([\"'])\s+\1", " ", plain))
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
    after = rest[match.end() :].strip()
    for at in range(len(after)):
        if _TAIL.fullmatch(after, at):
            after = after[:at]
            break
    after = _bare(re.sub(r"^,\s+(?=[A-Za-z%])", "", after).strip())
    if after[:1] == ",":
        return Unread.COMMA
    if after[:1] in ("+", "-", "*", "/", "(", "=", "^") or re.match(r"[xX]\s*\d", after):
        return Unread.SUM
    if re.match(r"[\d.]", after) or re.search(r"\s[+-]?\d", after):
        return Unread.TWO
    number = _number(match)
    if number is None or not math.isfinite(number):
        return Unread.NOT_FINITE
    unit = read_unit(after)
    return Unread.UNIT if unit is None else Typed(number, unit[1], unit[0], *_figures(match["digits"]))


def _bare(text: str) -> str:
    """Give a text without the quotation marks or brackets around all of it, one pair within another."""
    text = text.strip().rstrip(";").rstrip()
    for first, last in _ROUND_IT:
        if len(text) > 2 and text[0] == first and text[-1] == last:
            return _bare(text[1:-1])
    return text


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
    """Give what a prefix adds as a factor and the unit as pint spells it; None for one that isn't known.

    A spelling is taken as it stands where it is known so; else without points, with points or blanks as products, and last in
    small letters.
    """
    text = re.sub(r"\s+", " ", text.strip())
    text = _EACH.sub("/", _SQUARED.sub("^2", _SQUARE.sub(r"\1^2", _KILO.sub("kilo", text))))
    undotted = text.replace(".", "")
    for spelled in (text, undotted, text.replace(".", "*"), text.replace(" ", "*"), undotted.casefold()):
        if (found := _one_unit(spelled)) is not None:
            return found[0], _PRESSURES.get(found[1], found[1])
    return None


def _one_unit(text: str) -> tuple[float, str] | None:
    if text in ("", "%"):
        return 1.0, "percent" if text else ""
    whole = _NAMES.get(re.sub(r"[\s-]+", " ", text).casefold())
    if whole is not None:
        return 1.0, canonical_unit(whole)
    parts = text.split("/")
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
            raised = match[2] or match[3]
            if "*" in unit and (at or raised):
                return None  # a product is neither divided by nor raised
            power = int(raised or 1)
            factor *= times ** (power if at == 0 else -power)
            names.append(("" if not names else "/" if at else "*") + unit + (f"**{power}" if raised else ""))
    try:
        return factor, canonical_unit("".join(names))
    except InputError:
        return None
