"""How the texts of a season's plan are read: a time of the day, a day of the year, a price for a unit."""

from __future__ import annotations

import re
from datetime import date
from typing import Annotated, Any

from pydantic import BeforeValidator
from pydantic_core import PydanticCustomError

from rigcalc.core.errors import InputError, shown
from rigcalc.core.units import factor, plain_number
from rigcalc.models.machine.weather import latitude_of
from rigcalc.models.rig.measure import Measure

_CLOCK = re.compile(r"\s*([01]?\d|2[0-4])[:.]([0-5]\d)\s*")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_DAY = re.compile(r"\s*(?:(\d{1,2})\.?\s+([A-Za-z]{3,9})|([A-Za-z]{3,9})\s+(\d{1,2}))\.?\s*")
_PRICE = re.compile(r"\s*[^\w\s.,+-]?\s*([\d.,]*\d)\s*(?:/|per\s|1\s?/)\s*([A-Za-z]+)\s*", re.ASCII)
_COMMON_YEAR = 2001  # no leap day
MOST_MONEY = 1e9
MOST_PEOPLE = 4
_PEOPLE = frozenset(str(count) for count in range(1, MOST_PEOPLE + 1))


def _wrong(got: Any, expected: str, type_this: str) -> PydanticCustomError:
    about = {"got": shown(got), "expected": expected, "type_this": type_this}
    return PydanticCustomError("measure", "got {got}; expected {expected}. Type {type_this}", about)


def clock(value: Any) -> float:
    """Read "6:30" as hours of the day. Raises a pydantic error with what to type."""
    if isinstance(value, float) and 0 <= value <= 24:
        return value
    found = _CLOCK.fullmatch(value) if isinstance(value, str) else None
    hours = int(found[1]) + int(found[2]) / 60 if found else -1.0
    if not 0 <= hours <= 24:
        raise _wrong(value, "a time of the day, from 0:00 to 24:00", '"6:30"')
    return hours


def day_of_year(value: Any) -> int:
    """Read "1 Oct" or "Oct 1" as a day of a common year, 1 to 365. Raises a pydantic error with what to type."""
    if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= 365:
        return value
    found = _DAY.fullmatch(value) if isinstance(value, str) else None
    month = (found[2] or found[3]).lower()[:3] if found else ""
    if found is None or month not in _MONTHS:
        raise _wrong(value, "a day and a month, without the year", '"15 Nov"')
    number = int(found[1] or found[4])
    try:
        return date(_COMMON_YEAR, _MONTHS.index(month) + 1, number).timetuple().tm_yday
    except ValueError:
        why = "28 Feb or 1 Mar: not every year has a leap day" if (month, number) == ("feb", 29) else "a day that the month has"
        raise _wrong(value, why, '"28 Feb"' if month == "feb" else '"15 Nov"') from None


def day_text(day: int) -> str:
    """Give a day of a common year as "15 Nov"; days past its end go on into the next."""
    found = date.fromordinal(date(_COMMON_YEAR, 1, 1).toordinal() + day - 1)
    return f"{found.day} {_MONTHS[found.month - 1].capitalize()}"


def money(value: Any) -> float:
    """Read an amount, a bare number from 0 up; a sign of the currency before it is let pass."""
    number = -1.0
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        number = float(value)
    elif isinstance(value, str):
        try:
            number = plain_number(re.sub(r"^\s*[^\w\s.+-]", "", value))
        except InputError:
            pass
    if not 0 <= number <= MOST_MONEY:
        raise _wrong(value, "an amount from 0 up, without a unit", "420000")
    return number


def latitude(value: Any) -> float:
    """Read "46.9", "46.9 N" or a number as degrees, south negative. Raises a pydantic error with what to type."""
    try:
        return latitude_of(value)
    except InputError as error:
        fault = error.faults[0]
        raise _wrong(value, fault.expected, fault.type_this) from None


def people(value: Any) -> int:
    """Read how many people take turns on one rig. Raises a pydantic error with what to type."""
    text = value.strip() if isinstance(value, str) else value if type(value) is int else ""
    if str(text) not in _PEOPLE:
        raise _wrong(value, f"a whole number from 1 to {MOST_PEOPLE}, of those who take turns on one rig", "2")
    return int(text)


class PriceFor:
    """Reads "3.50 per gal" as a number for each `unit` of the book. Raises a pydantic error with what to type."""

    def __init__(self, unit: str, example: str):
        self.unit, self.example = unit, example

    def __call__(self, value: Any) -> float:
        """Read one."""
        found = _PRICE.fullmatch(value) if isinstance(value, str) else None
        try:
            number = plain_number(found[1]) / factor(found[2], self.unit) if found else -1.0
        except InputError:
            number = -1.0
        if not 0 <= number <= MOST_MONEY:
            raise _wrong(value, f"an amount from 0 up for each {self.unit} or a unit like it", f'"{self.example}"')
        return number


Clock = Annotated[float, BeforeValidator(clock)]
Day = Annotated[int, BeforeValidator(day_of_year)]
Latitude = Annotated[float, BeforeValidator(latitude)]
Money = Annotated[float, BeforeValidator(money)]
People = Annotated[int, BeforeValidator(people)]
__all__ = ["Clock", "Day", "Latitude", "Measure", "Money", "People", "PriceFor", "day_text"]
