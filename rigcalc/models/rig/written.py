"""Entries as people write them: 14", 14½ in, 1 ft 2 in, 0,35 m, 6 MPH, pounds. Each is brought to the one strict form.

What could be two numbers isn't touched: "27,500" stays thousands as everywhere in rigcalc, "0,250" is asked about, and so is
"27.500" where either is likely (see `measure.py`).
"""

from __future__ import annotations

import re
import unicodedata

from rigcalc.core.units import ALLOWED, SPELLINGS

_WORDS = {
    "pound": "lb", "pounds": "lb", "kilogram": "kg", "kilograms": "kg", "kilo": "kg", "kilos": "kg", "meter": "m", "metre": "m",
    "meters": "m", "metres": "m", "centimeter": "cm", "centimetre": "cm", "centimeters": "cm", "centimetres": "cm",
    "millimeters": "mm", "millimetres": "mm", "horsepower": "hp", "kilowatts": "kW", "tons": "ton", "minutes": "min",
    "degrees": "deg", "per cent": "percent",
}  # fmt: skip
_LONGEST = 80
_WHOLE = r"\d+(?:\.\d+)?"
_FRACTION = re.compile(r"(?P<whole>[0-9]+)?\s*(?P<part>[¼½¾⅓⅔⅛⅜⅝⅞])")
_SLASHED = re.compile(r"(?P<whole>\d+)[ -](?P<over>\d{1,2})/(?P<under>\d{1,2})(?=\s*[a-z\"'])", re.IGNORECASE | re.ASCII)
_FEET_INCHES = re.compile(
    rf"(?P<feet>\d+)\s*(?:ft|feet|foot|')\s*(?P<inches>{_WHOLE})\s*(?:in|inch|inches|\"|'')", re.IGNORECASE | re.ASCII
)
_MARKED = re.compile(rf"(?P<number>{_WHOLE})\s*(?P<mark>\"|''|')", re.ASCII)
# A comma before one, two or four and more figures parts no thousands; before three it may, and "0,250" is asked about.
_COMMA = re.compile(r"(?<![\d,.])(?P<whole>[+-]?\d+),(?P<rest>\d{1,2}|\d{4,6})(?![\d,.])", re.ASCII)
_SPLIT = re.compile(r"(?P<number>[^A-Za-z%]*\d\.?)\s*(?P<unit>[A-Za-z][A-Za-z ]*?)(?P<more>[/*^].*)?")


def plainly(text: str) -> str:
    """Give an entry in the strict form of `rigcalc.core.units.parse`; a text that needs nothing, or is no entry, as it is.

    >>> plainly('14½"'), plainly("1 ft 2 in"), plainly("9,5 km/h"), plainly("6 MPH"), plainly("27,500 pounds")
    ('14.5 in', '14 in', '9.5 km/h', '6 mph', '27,500 lb')
    """
    if len(text) > _LONGEST:
        return text
    made = text.strip().replace("”", '"').replace("″", '"').replace("’", "'").replace("′", "'")
    made = _FRACTION.sub(lambda m: f"{int(m['whole'] or 0) + unicodedata.numeric(m['part']):.6g}", made, count=1)
    made = _SLASHED.sub(_slashed, made, count=1)
    made = _COMMA.sub(lambda m: f"{m['whole']}.{m['rest']}", made, count=1)
    if found := _FEET_INCHES.fullmatch(made):
        return f"{12 * int(found['feet']) + float(found['inches']):.12g} in"
    if found := _MARKED.fullmatch(made):
        return f"{found['number']} {'ft' if found['mark'] == chr(39) else 'in'}"
    if (found := _SPLIT.fullmatch(made)) and (unit := _unit(found["unit"].strip())):
        more = found["more"] or ""
        tail = _unit(more[1:].strip()) if more else ""
        if unit != found["unit"].strip() or (tail and tail != more[1:].strip()):
            made = f"{found['number'].strip()} {unit}{more[:1] + tail if tail else more}"
    return made if made != text.strip() else text


def _slashed(match: re.Match[str]) -> str:
    under = int(match["under"])
    return f"{int(match['whole']) + int(match['over']) / under:.6g}" if under else match[0]


def _unit(name: str) -> str:
    """Give a unit's own spelling for a name in other letters or a longer word; empty where there is nothing to mend."""
    if name in ALLOWED or name in SPELLINGS:
        return name
    low = name.lower()
    if low in _WORDS:
        return _WORDS[low]
    near = {SPELLINGS.get(known, known) for known in (*ALLOWED, *SPELLINGS) if known.lower() == low}
    return near.pop() if len(near) == 1 else ""
