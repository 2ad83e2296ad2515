"""A file of daily weather: a CSV with the column names of the global daily archive, its units stated, looked at line by line.

DATE, TMAX, TMIN and PRCP are read; STATION, LATITUDE and the attributes of each value are looked at where they are there.
"""

from __future__ import annotations

import csv
import io
import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from os import PathLike
from pathlib import Path

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import factor

LARGEST_WEATHER = 32 * 1024 * 1024  # bytes: a century of one station with every column has a tenth of it
TENTHS, METRIC, US = "tenths", "metric", "us"
UNITS = (TENTHS, METRIC, US)
NAMES = ("TMAX", "TMIN", "PRCP")
COLDEST, HOTTEST, WETTEST = -90.0, 60.0, 1900.0  # degC, degC, mm a day: a little beyond what was ever read (from memory)
_LEAST_WARM, _MOST_A_YEAR = 12.0, 15_000.0  # degC that some day of a year passes where crops grow; mm a year: our choice
_FIRST_YEAR, _LAST_YEAR = 1750, 2200
_MOST_FAULTS = 12
_FILLED = 3  # days in a row whose temperatures are laid between their neighbours: our choice; rain never is
_FARTHEST = 70  # degrees: nobody plows nearer to a pole
_MISSING = ("", "-9999", "9999", "-9999.0", "9999.0")
_HEADING = re.compile(r"\s*(?P<name>[A-Za-z_]+)\s*(?:[(\[]\s*(?P<unit>[^()\[\]]*?)\s*[)\]])?\s*")
_LATITUDE = re.compile(r"\s*([+-]?\d{1,2}(?:\.\d*)?)\s*(?:°|deg)?\s*([NnSs])?\s*", re.ASCII)
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)", re.ASCII)
_DAY = re.compile(r"(\d{4})-?(\d{2})-?(\d{2})(?:T.*)?", re.ASCII)
_OF_WARMTH = {"tenths": TENTHS, "tenths of c": TENTHS, "0.1 c": TENTHS, "c": METRIC, "degc": METRIC, "°c": METRIC,
              "f": US, "degf": US, "°f": US}  # fmt: skip
_OF_RAIN = {"tenths": TENTHS, "tenths of mm": TENTHS, "0.1 mm": TENTHS, "mm": METRIC, "in": US, "inches": US}
_STATED = {"TMAX": _OF_WARMTH, "TMIN": _OF_WARMTH, "PRCP": _OF_RAIN}
_EXAMPLE = "DATE,TMAX,TMIN,PRCP and a line for each day"


@dataclass(frozen=True)
class Weather:
    """Weather day by day without a gap in `days`: ordinals of dates, degC, degC, mm; NaN where nothing was read.

    latitude: degrees, None where the file doesn't say; flagged: values that the archive itself marks as failed.
    """

    days: np.ndarray
    warmest: np.ndarray
    coolest: np.ndarray
    rain: np.ndarray
    latitude: float | None
    flagged: int


def load_weather(path: str | PathLike[str], units: str | None = None) -> Weather:
    """Read a file of daily weather. units: TENTHS, METRIC or US where the headings don't say.

    Raises InputError with every fault, each with its line.
    """
    try:
        with Path(path).open("rb") as stream:
            data = stream.read(LARGEST_WEATHER + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "no name of a file"
        raise InputError([Fault("days.weather", f"{shown(str(path))} ({why})", "a file that can be read",
                                "the path of a CSV file")]) from None  # fmt: skip
    return weather_in(data, units)


def weather_in(data: bytes, units: str | None = None) -> Weather:
    """Read the bytes of a file of daily weather; as `load_weather`."""
    if len(data) > LARGEST_WEATHER:
        most = f"more than {LARGEST_WEATHER // 1024**2} MiB"
        raise InputError([Fault("days.weather", most, "one station's days", "a smaller file")])
    try:
        return read_weather(data.decode("utf-8-sig"), units)
    except UnicodeDecodeError:
        raise InputError([Fault("days.weather", "bytes that are not text", "a CSV text file in UTF-8", _EXAMPLE)]) from None


def read_weather(text: str, units: str | None = None) -> Weather:
    """Read the text of a file of daily weather; as `load_weather`."""
    mark = next((each for each in (";", "\t") if each in text.split("\n", 1)[0]), ",")
    try:
        lines = list(csv.reader(io.StringIO(text), delimiter=mark))
    except csv.Error as error:
        raise InputError([_fault(f"text that is no table ({str(error)[:80]})", "a CSV file", _EXAMPLE)]) from None
    lines = [[cell.strip() for cell in line] for line in lines]
    if not lines or not any(lines[0]):
        raise InputError([_fault("no headings", "a first line with the names of the columns", _EXAMPLE)])
    at, stated = _columns(lines[0])
    body = [(number, line) for number, line in enumerate(lines[1:], start=2) if any(line)]
    if not body:
        raise InputError([_fault("no day", "a line for each day", _EXAMPLE)])
    known = _units(at, stated, units, body)
    return _read(body, at, known)


def bridged(values: np.ndarray) -> np.ndarray:
    """Lay temperatures between their neighbours where no more than three days in a row have none."""
    out = values.copy()
    known = np.flatnonzero(np.isfinite(values))
    apart = np.diff(known)
    for at in np.flatnonzero((apart > 1) & (apart <= _FILLED + 1)):
        before, after = known[at], known[at + 1]
        out[before + 1 : after] = np.interp(np.arange(before + 1, after), [before, after], values[[before, after]])
    return out


def latitude_of(value: object) -> float:
    """Read "46.9", "46.9 N" or a number as degrees, south negative. Raises InputError with what to type."""
    found = _LATITUDE.fullmatch(value if isinstance(value, str) else f"{value}") if not isinstance(value, bool) else None
    degrees = float(found[1]) * (-1 if found[2] and found[2] in "sS" else 1) if found else 99.0
    if not abs(degrees) <= _FARTHEST:
        expected = f"a latitude in degrees, from {_FARTHEST} S to {_FARTHEST} N"
        raise InputError([Fault("latitude", shown(value), expected, "46.9")])
    return degrees


def _fault(got: str, expected: str, type_this: str = "", line: int | None = None) -> Fault:
    return Fault("days.weather" if line is None else f"days.weather, line {line}", got, expected, type_this)


def _columns(headings: Sequence[str]) -> tuple[dict[str, int], dict[str, str]]:
    """Give name -> column, and name -> unit as its heading states it. Raises InputError for what is missing or twice."""
    at: dict[str, int] = {}
    stated: dict[str, str] = {}
    faults = []
    for column, heading in enumerate(headings):
        found = _HEADING.fullmatch(heading)
        name = found["name"].upper() if found else ""
        if name in at and name in ("DATE", *NAMES):
            faults.append(_fault(f"{name} twice in the headings", "each column once", _EXAMPLE, 1))
        at.setdefault(name, column)
        if found and found["unit"] and name in NAMES:
            stated[name] = found["unit"]
    missing = [name for name in ("DATE", *NAMES) if name not in at]
    if missing:
        faults.append(_fault(f"headings without {', '.join(missing)}", f"DATE, {', '.join(NAMES)}", _EXAMPLE, 1))
    if faults:
        raise InputError(faults)
    return at, stated


def _units(
    at: dict[str, int], stated: dict[str, str], typed: str | None, body: Sequence[tuple[int, list[str]]]
) -> dict[str, str]:
    """Give name -> its units, by its heading or as typed. Raises InputError where nobody says, or the two differ."""
    faults, known = [], {}
    for name in NAMES:
        unit = stated.get(name)
        if unit is None:
            if typed is not None:
                known[name] = typed
            continue
        found = _STATED[name].get(unit.lower())
        if found is None:
            good = "mm, in or tenths" if name == "PRCP" else "C, F or tenths"
            faults.append(_fault(f"{name} ({shown(unit)})", f"a unit of it: {good}", f"{name} ({good.split(',')[0]})", 1))
        elif typed is not None and typed != found:
            faults.append(_fault(f"{name} ({shown(unit)}) beside weather_units {typed}", "one unit for each column",
                                 "weather_units left out", 1))  # fmt: skip
        else:
            known[name] = found
    unsaid = [name for name in NAMES if name not in known and name not in stated]
    if unsaid:
        warm = max((value for value in _column(body, at["TMAX"]) if abs(value) < 9000), default=math.nan)
        faults.append(Fault(
            "days.weather_units", f"nothing; the warmest {shown(f'{warm:g}')} of the file has no unit",
            f"the unit of {', '.join(unsaid)}: tenths (of a degree Celsius and of a mm, as the archive keeps them), "
            "metric (degrees Celsius and mm) or us (degrees Fahrenheit and inches)",
            '--weather-units tenths, or weather_units = "tenths" in [days]',
        ))  # fmt: skip
    if faults:
        raise InputError(faults)
    return known


def _column(body: Sequence[tuple[int, list[str]]], column: int) -> Iterator[float]:
    for _line, cells in body:
        if column < len(cells) and _NUMBER.fullmatch(cells[column]):
            yield float(cells[column])


def _read(body: Sequence[tuple[int, list[str]]], at: dict[str, int], known: dict[str, str]) -> Weather:
    faults: list[Fault] = []
    found: dict[int, tuple[int, list[float]]] = {}
    flagged, more = 0, 0
    stations = dict.fromkeys(cells[at["STATION"]] for _n, cells in body if "STATION" in at and at["STATION"] < len(cells))
    if len(stations) > 1:
        names = ", ".join(shown(name, 20) for name in list(stations)[:3])
        raise InputError([_fault(f"{len(stations)} stations ({names})", "one station", "a file of one station alone")])
    for line, cells in body:
        wrong: list[Fault] = []
        day = _day(cells[at["DATE"]] if at["DATE"] < len(cells) else "", line, wrong)
        values = []
        for name in NAMES:
            text = cells[at[name]] if at[name] < len(cells) else ""
            failed = _failed(cells, at.get(f"{name}_ATTRIBUTES"))
            flagged += failed and text not in _MISSING
            values.append(math.nan if failed else _value(text, name, known[name], line, wrong))
        if values[0] < values[1]:
            wrong.append(_fault(f"a warmest of {values[0]:.1f} under a coolest of {values[1]:.1f} C", "TMAX from TMIN up",
                                "a day mended or left empty", line))  # fmt: skip
        if day is not None and day in found:
            got = f"{date.fromordinal(day)} again, after line {found[day][0]}"
            wrong.append(_fault(got, "each day once", "the other date, or one of the two lines", line))
        elif day is not None:
            found[day] = line, values
        room = _MOST_FAULTS - len(faults)
        faults += wrong[:room]
        more += len(wrong[room:])
    if faults:
        if more:
            faults.append(_fault(f"{more:,} more of the kind", "days that can be"))
        raise InputError(faults)
    days = np.arange(min(found), max(found) + 1)
    table = np.full((len(days), len(NAMES)), np.nan)
    table[[day - days[0] for day in found]] = [values for _line, values in found.values()]
    weather = Weather(days, table[:, 0], table[:, 1], table[:, 2], _latitude(body, at), flagged)
    _likely(weather)
    return weather


def _likely(weather: Weather) -> None:
    """Raise InputError where a year of it can hardly be: the units are others then."""
    if len(weather.days) < 300:
        return
    faults = []
    if np.isfinite(weather.warmest).any() and (warm := float(np.nanmax(weather.warmest))) < _LEAST_WARM:
        faults.append(Fault("days.weather_units", f"a warmest day of {warm:.1f} C in all of the file",
                            "units in which crops can grow", "--weather-units metric, or what the file has"))  # fmt: skip
    if np.isfinite(weather.rain).any() and (wet := float(np.nanmean(weather.rain)) * 365) > _MOST_A_YEAR:
        faults.append(Fault("days.weather_units", f"{wet:,.0f} mm of rain a year", f"under {_MOST_A_YEAR:,.0f} mm",
                            "--weather-units metric, or what the file has"))  # fmt: skip
    if faults:
        raise InputError(faults)


def _day(text: str, line: int, faults: list[Fault]) -> int | None:
    found = _DAY.fullmatch(text)
    try:
        day = date(*(int(part) for part in found.groups())) if found else None
    except ValueError:  # such as 29 Feb of a year that has none
        faults.append(_fault(shown(text), "a day that the month has in that year", "1996-10-01", line))
        return None
    if day is None or not _FIRST_YEAR <= day.year <= _LAST_YEAR:
        faults.append(_fault(shown(text), "a date as year-month-day", "1996-10-01", line))
        return None
    return day.toordinal()


def _value(text: str, name: str, unit: str, line: int, faults: list[Fault]) -> float:
    """Give degC or mm; NaN where nothing was read."""
    if text in _MISSING:
        return math.nan
    if not _NUMBER.fullmatch(text):
        faults.append(_fault(f"{name} {shown(text)}", "a number, or nothing where none was read", "12.3, or nothing", line))
        return math.nan
    value = float(text)
    if unit == TENTHS:
        value /= 10
    elif unit == US:
        value = value * factor("in", "mm") if name == "PRCP" else (value - 32) * 5 / 9
    low, high = (0.0, WETTEST) if name == "PRCP" else (COLDEST, HOTTEST)
    if not low <= value <= high:
        what = "mm of rain" if name == "PRCP" else "C"
        hint = "the value mended or left empty; or other --weather-units, where all of them look so"
        faults.append(_fault(f"{name} {shown(text)}, {value:,.1f} {what}", f"{low:g} to {high:,.0f} {what}", hint, line))
        return math.nan
    return value


def _failed(cells: Sequence[str], column: int | None) -> bool:
    """Say whether the archive marks a value as failed: the second of its attributes."""
    if column is None or column >= len(cells):
        return False
    marks = cells[column].split(",")
    return len(marks) > 1 and bool(marks[1].strip())


def _latitude(body: Sequence[tuple[int, list[str]]], at: dict[str, int]) -> float | None:
    """Give the latitude that the file states."""
    if "LATITUDE" not in at:
        return None
    text = next((cells[at["LATITUDE"]] for _n, cells in body if at["LATITUDE"] < len(cells) and cells[at["LATITUDE"]]), "")
    if not text:
        return None
    if not _NUMBER.fullmatch(text) or not abs(float(text)) <= _FARTHEST:
        expected = f"degrees from -{_FARTHEST} to {_FARTHEST}, south negative"
        raise InputError([_fault(f"LATITUDE {shown(text)}", expected, "46.9")])
    return float(text)
