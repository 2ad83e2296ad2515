"""Soil samples with their places, from a CSV file or columns in memory: clay, sand or silt, organic carbon, water, position.

Units stand in the headings and are never guessed. A sample with an empty cell is left out and counted; every fault is named.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from os import PathLike
from pathlib import Path
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import factor
from rigcalc.models.machine.wetness import number_of

LARGEST_FILE = 16 * 1024 * 1024  # bytes
MOST_POINTS = 20_000
_ROUNDED = 0.5  # percent: shares that were rounded may add up to so much more than a hundred
_MOST_FAULTS = 20
_HEADING = re.compile(r"\s*(?P<name>[^()\[\]]*?)\s*[(\[]\s*(?P<unit>[^()\[\]]*?)\s*[)\]]\s*")
_NUMBER = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)", re.ASCII)
_EMPTY = frozenset(["", "na", "nan", "n/a", "-"])
_TYPE = "x (m), y (m), clay (%), sand (%), organic carbon (%)"
# what is known by which names in a heading, without case, with blanks for underscores
_NAMES = {
    "clay": ("clay",), "sand": ("sand",), "silt": ("silt",),
    "carbon": ("organic carbon", "soil organic carbon", "soc", "oc"),
    "organic": ("organic matter", "soil organic matter", "som", "om"),
    "by_mass": ("water by mass",), "by_volume": ("water by volume",),
    "east": ("x", "east", "easting"), "north": ("y", "north", "northing"),
    "lat": ("lat", "latitude"), "lon": ("lon", "lng", "longitude"),
}  # fmt: skip
_KINDS = {known: kind for kind, names in _NAMES.items() for known in names}
# unit of the book, least, most, and what to type
_SPANS = {
    "clay": ("1", 0.0, 1.0), "sand": ("1", 0.0, 1.0), "silt": ("1", 0.0, 1.0), "carbon": ("1", 0.0, 0.3),
    "organic": ("1", 0.0, 0.5), "by_mass": ("1", 0.0, 1.0), "by_volume": ("1", 0.0, 0.8),
    "east": ("m", -2e7, 2e7), "north": ("m", -2e7, 2e7), "lat": ("deg", -89.9, 89.9), "lon": ("deg", -180.0, 180.0),
}  # fmt: skip

# Shares have few units, and an angle would pass for one; degrees have no other.
_UNITS = {
    "1": {"%": 0.01, "percent": 0.01, "g/kg": 0.001, "g/100g": 0.01, "1": 1.0, "g/g": 1.0, "kg/kg": 1.0, "m3/m3": 1.0},
    "deg": {"deg": 1.0, "\N{DEGREE SIGN}": 1.0, "degrees": 1.0},
}


@dataclass(frozen=True, eq=False)
class SoilPoints:
    """Samples as arrays of one length. clay, sand: shares of the mineral soil; organic: matter, a share of dry mass; by_mass,
    by_volume: water, shares. None for what no column tells. by_carbon: matter is worked out from organic carbon.

    place: (two of x and y in m, or of latitude and longitude), with `degrees` true for the latter. left_out: samples with an
    empty cell. aside: headings that nothing here asks for.
    """

    clay: Any
    sand: Any
    organic: Any
    by_mass: Any
    by_volume: Any
    place: tuple[Any, Any] | None
    degrees: bool
    by_carbon: bool
    left_out: int
    aside: tuple[str, ...]


def soil_points(given: Any) -> SoilPoints:
    """Read samples: the path of a CSV file, or a mapping of headings to columns, such as a data frame.

    Raises InputError with every fault.
    """
    if isinstance(given, (str, PathLike)):
        return _read(*_table(given))
    try:
        columns = {name: list(given[name]) for name in given} if not isinstance(given, bytes) else None
    except (TypeError, KeyError, IndexError, ValueError):
        columns = None
    if not columns or not all(isinstance(name, str) for name in columns):
        raise InputError([_fault("soil", shown(given), "the path of a CSV file, or headings with a column each")])
    counts = {len(column) for column in columns.values()}
    if len(counts) > 1:
        raise InputError([_fault("soil", f"columns of {min(counts)} to {max(counts)} cells", "columns of one length")])
    return _read(list(columns), list(columns.values()), 1)


def _fault(where: str, got: str, expected: str, example: str = _TYPE) -> Fault:
    return Fault(where, got, expected, example)


def _table(path: str | PathLike[str]) -> tuple[list[str], list[list[Any]], int]:
    """Give headings, columns and the line of the first sample."""
    data = b""
    try:
        if there := (file := Path(path)).is_file():
            with file.open("rb") as stream:
                data = stream.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "no such name"
        raise InputError([Fault("soil", f"{shown(str(path))} ({why})", "a file that can be read")]) from None
    if not there:
        raise InputError([Fault("soil", shown(str(path)), "a file that exists", "the path of a CSV file")])
    if len(data) > LARGEST_FILE:
        raise InputError([Fault("soil", f"more than {LARGEST_FILE // 1024**2} MiB", "a smaller file, or a part of it")])
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputError([Fault("soil", "bytes that are not text", "a CSV text file in UTF-8")]) from None
    lines = [line for line in text.replace("\r", "\n").split("\n") if line.strip()]
    if len(lines) < 2:
        raise InputError([_fault("soil", f"{len(lines)} lines", "a line of headings, then a line a sample")])
    if len(lines) - 1 > MOST_POINTS:
        raise InputError([Fault("soil", f"{len(lines) - 1:,} samples", f"at most {MOST_POINTS:,}", "those of one field")])
    mark = next((each for each in ("\t", ";") if each in lines[0]), ",")
    headings = [cell.strip().strip('"') for cell in lines[0].split(mark)]
    rows = [line.split(mark) for line in lines[1:]]
    for place, row in enumerate(rows, 2):
        if len(row) != len(headings):
            expected = f"{len(headings)}, one for each heading (decimal commas need semicolons or tabs between cells)"
            raise InputError([Fault(f"soil, line {place}", f"{len(row)} cells", expected)])
    return headings, [list(column) for column in zip(*rows, strict=True)], 2


def _read(headings: list[str], columns: list[list[Any]], first: int) -> SoilPoints:
    faults: list[Fault] = []
    found: dict[str, Any] = {}
    aside = []
    if columns and len(columns[0]) > MOST_POINTS:
        raise InputError([Fault("soil", f"{len(columns[0]):,} samples", f"at most {MOST_POINTS:,}", "those of one field")])
    for heading, column in zip(headings, columns, strict=True):
        match = _HEADING.fullmatch(heading)
        name, unit = (match["name"], match["unit"]) if match else (heading.strip(), None)
        kind = _KINDS.get(name.lower().replace("_", " ").strip())
        if kind is None:
            aside.append(heading)
        elif kind in found:
            faults.append(_fault("soil: headings", shown(heading), f"one column of {_NAMES[kind][0]}"))
        else:
            found[kind] = _column(kind, name, unit, column, first, faults)
    for one, other in (("carbon", "organic"), ("by_mass", "by_volume"), ("east", "lat"), ("sand", "silt")):
        if one in found and other in found and one != "sand":
            got = f"{_NAMES[one][0]} and {_NAMES[other][0]}"
            faults.append(_fault("soil: headings", got, "one of the two"))
    if "clay" not in found:
        faults.append(_fault("soil: headings", shown(", ".join(headings)[:80]), "a column of clay"))
    for one, other in (("east", "north"), ("lat", "lon")):
        if (one in found) != (other in found):
            have, lack = (one, other) if one in found else (other, one)
            faults.append(_fault("soil: headings", f"{_NAMES[have][0]} alone", f"{_NAMES[lack][0]} beside it"))
    if faults:
        raise InputError(faults[:_MOST_FAULTS])
    whole = np.logical_and.reduce([np.isfinite(values) for values in found.values()])
    kept = {kind: values[whole] for kind, values in found.items()}
    if not kept["clay"].size:
        raise InputError([_fault("soil", "no sample without an empty cell", "one sample at least")])
    sand = _sand(kept, np.flatnonzero(whole) + first, faults)
    if faults:
        raise InputError(faults[:_MOST_FAULTS])
    organic = kept.get("organic")
    if organic is None and "carbon" in kept:
        organic = kept["carbon"] * number_of("matter_from_carbon")
    by_degrees = "lat" in kept
    place = (kept["lat"], kept["lon"]) if by_degrees else (kept["east"], kept["north"]) if "east" in kept else None
    left = int(whole.size - whole.sum())
    return SoilPoints(
        clay=kept["clay"], sand=sand, organic=organic, by_mass=kept.get("by_mass"), by_volume=kept.get("by_volume"),
        place=place, degrees=by_degrees, by_carbon="carbon" in kept, left_out=left, aside=tuple(aside),
    )  # fmt: skip


def _sand(kept: dict[str, Any], lines: Any, faults: list[Fault]) -> Any:
    """Give sand as typed, or what clay and silt leave; None where neither is known. Too much together is a fault."""
    known = [kept[name] for name in ("clay", "sand", "silt") if name in kept]
    both = np.sum(known, axis=0)
    least = 1 - _ROUNDED / 100 if len(known) == 3 else 0.0
    off = (both > 1 + _ROUNDED / 100) | (both < least)
    expected = "100 percent together" if len(known) == 3 else "at most 100 percent together"
    for at in np.flatnonzero(off)[:_MOST_FAULTS]:
        got = f"{100 * both[at]:.4g} percent of clay, sand and silt together"
        faults.append(_fault(f"soil, line {lines[at]}", got, expected, "what the soil test says"))
    if "sand" in kept:
        return np.minimum(kept["sand"], 1 - kept["clay"])
    return np.maximum(1 - kept["clay"] - kept["silt"], 0.0) if "silt" in kept else None


def _column(kind: str, name: str, unit: str | None, cells: list[Any], first: int, faults: list[Fault]) -> Any:
    """Give a column in the unit of the book, NaN where a cell is empty."""
    book, least, most = _SPANS[kind]
    own = unit or ("deg" if book == "deg" else None)
    by = 1.0
    if own is None or (found := _factor(own, book)) is None:
        got = "no unit in its heading" if own is None else shown(own)
        example = f"{name} ({'%' if book == '1' else book})"
        faults.append(_fault(f"soil: {name}", got, f"one that converts to {_said(book)}", example))
    else:
        by = found
    values = np.full(len(cells), np.nan)
    wrong = 0
    for at, cell in enumerate(cells):
        value = _number(cell)
        if value is None:
            continue
        values[at] = value * by
        if not least <= values[at] <= most and wrong < _MOST_FAULTS:
            wrong += 1
            low, high = (f"{end / by:.4g}" for end in (least, most))
            got = shown(str(cell).strip())
            faults.append(Fault(f"soil, line {at + first}: {name}", got, f"a number, {low} to {high} {own or ''}".rstrip()))
            values[at] = np.nan
    return values


def _factor(own: str, book: str) -> float | None:
    """Give the factor from a unit in a heading to that of the book; None where it isn't one of its kind."""
    if book in _UNITS:
        return _UNITS[book].get(own.lower())
    try:
        return factor(own, book)
    except InputError:
        return None


def _said(unit: str) -> str:
    return {"1": "a share, such as % or g/kg", "deg": "degrees"}.get(unit, unit)


def _number(cell: Any) -> float | None:
    """Give what a cell holds; None for an empty one, infinity for what is no number, which no span holds."""
    if isinstance(cell, str):
        text = cell.strip().strip('"')
        if text.lower() in _EMPTY:
            return None
        return float(text.replace(",", ".")) if _NUMBER.fullmatch(text) and len(text) <= 40 else float("inf")
    if cell is None:
        return None
    try:
        value = float("inf") if isinstance(cell, (bool, np.bool_)) else float(cell)
    except (TypeError, ValueError, OverflowError):
        return float("inf")
    return None if np.isnan(value) else value
