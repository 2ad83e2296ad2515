"""A display's log: read strictly and in bounded memory, taken apart into work, turns and stops; only steady stretches count."""

from __future__ import annotations

import csv
import math
import re
from array import array
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TextIO

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import factor
from rigcalc.models.reading.positions import on_a_plane, speed_and_heading

# What a column may hold, and the unit that it is brought to. Torque is the engine's, as a share of its reference torque.
COLUMNS = {"time": "s", "speed": "km/h", "wheel_speed": "km/h", "slip": "1", "load": "1", "fuel_rate": "L/h",
           "engine_speed": "rpm", "pull": "kN", "depth": "cm", "heading": "deg", "tool_down": "1", "latitude": "deg",
           "longitude": "deg", "torque": "1"}  # fmt: skip
TELLS = ("slip", "wheel_speed", "load", "torque", "fuel_rate", "pull")  # a log has one of these at least
CLOCK = "clock"  # the unit of a time that is written 10:31:05
MOST_ROWS, MOST_BYTES = 2_000_000, 400 * 1024 * 1024
_LONGEST_LINE, _MOST_FAULTS = 20_000, 20
_EVERY = 5000  # rows between two words of progress
_NUMBER = re.compile(r"[+-]?(\d{1,12}(\.\d{0,12})?|\.\d{1,12})([eE][+-]?\d{1,2})?")
_TIME = re.compile(r"(\d{1,2}):(\d{2}):(\d{2}(?:\.\d{1,6})?)")
_EXAMPLE = '--column "speed=Ground speed;km/h"'

# Our choices, in s, km/h and shares.
STOPPED = 0.7  # slower than this it stands
_WINDOW = 12.0  # over which work is taken to be even
_OFF_SPEED, _OFF_LOAD = 0.08, 0.15  # farther from the mean of the window than this it isn't steady
_LITTLE = 0.65  # under this share of the usual load nothing is worked
SHORTEST, _ENDS = 25.0, 3.0  # a stretch, and what is cut off at each of its ends
_ACROSS = 30.0  # degrees off the way in which most is worked: across the field, on its headland
_NO_MEAN = ("time", "tool_down", "heading", "latitude", "longitude")
_GAP = 5.0  # without a row for longer than this a stretch ends


@dataclass(frozen=True)
class Column:
    """Where a quantity stands in a log: the heading of its column, and its unit."""

    heading: str
    unit: str


@dataclass(frozen=True)
class Stretch:
    """A steady stretch: rows from `first` to before `end`, its seconds, and the mean of each column, bare."""

    first: int
    end: int
    seconds: float
    means: dict[str, float]


@dataclass(frozen=True)
class Passes:
    """A log taken apart. states: of each row, by its place in STATES. seconds: of each state. stretches: the longest first.

    headland: the steady stretches that run across the others, likewise; none where the log has no heading.
    """

    states: Any
    seconds: dict[str, float]
    stretches: tuple[Stretch, ...]
    headland: tuple[Stretch, ...] = ()


STATES = ("steady", "unsteady", "short", "turning", "stopped", "no_data", "headland")


def typed_column(text: str) -> tuple[str, Column]:
    """Read "speed=Ground speed;km/h". Raises InputError."""
    name, found, rest = text.partition("=")
    heading, _, unit = rest.rpartition(";")
    name, heading, unit = name.strip(), heading.strip(), unit.strip()
    if not found or name not in COLUMNS or not heading:
        known = ", ".join(COLUMNS)
        raise InputError([Fault("--column", shown(text), f"one of {known}; =, the heading, ; and the unit", _EXAMPLE)])
    if not (name == "time" and unit == CLOCK):
        _scale(name, unit)
    return name, Column(heading, unit)


def read_log(file: Path, columns: Mapping[str, Column], progress: Callable[[float], None] | None = None) -> dict[str, Any]:
    """Read a CSV log: by name, an array in the unit of COLUMNS; NaN for an empty cell. Raises InputError with every fault.

    progress: told the share that is done now and then; what it raises stops the reading.
    """
    missing = [name for name in ("time", "speed") if name not in columns]
    if not set(columns) & set(TELLS):
        missing.append(f"one of {', '.join(TELLS)}")
    pair = {"latitude", "longitude"}
    missing += sorted(pair - set(columns)) if pair & set(columns) else []
    if missing:
        raise InputError([Fault("--column", f"no column for {name}", "where it stands", _EXAMPLE) for name in missing])
    try:
        if file.stat().st_size > MOST_BYTES:
            raise InputError([Fault(file.name, f"more than {MOST_BYTES // 1024**2} MiB", "a log of a day", "it in parts")])
        whole = max(file.stat().st_size, 1)
        with file.open(encoding="utf-8-sig", newline="") as stream:
            told = None if progress is None else lambda letters: progress(min(letters / whole, 1.0))
            return _read(stream, file.name, columns, told)
    except (OSError, ValueError) as error:
        if isinstance(error, InputError):
            raise
        why = getattr(error, "strerror", None) or "bytes that are not text"
        raise InputError([Fault("LOG", f"{shown(str(file))} ({why})", "a CSV file that can be read")]) from None


def _read(stream: TextIO, name: str, columns: Mapping[str, Column], told: Callable[[int], None] | None) -> dict[str, Any]:
    try:
        rows = csv.reader(_lines(stream, name, told), strict=True)
        head = [cell.strip() for cell in next(rows, [])]
        places = _places(head, name, columns)
        held = {column: array("d") for column in columns}
        faults: list[Fault] = []
        for number, row in enumerate(rows, 2):
            if not any(row):
                continue
            if number > MOST_ROWS:
                raise InputError([Fault(name, f"more than {MOST_ROWS:,} rows", "a log of a day or two", "it in parts")])
            if len(row) != len(head):
                faults.append(Fault(f"{name}, row {number}", f"{len(row)} cells", f"{len(head)}, as in the first row"))
            else:
                for column, place in places.items():
                    held[column].append(_value(row[place].strip(), column, columns[column], f"{name}, row {number}", faults))
            if len(faults) >= _MOST_FAULTS:
                break
    except csv.Error as error:
        raise InputError([Fault(name, f"rows that break off ({error})", "a CSV file")]) from None
    if faults:
        raise InputError(faults, title="This log can't be used as it stands")
    found = {column: np.frombuffer(values, float) if values else np.empty(0) for column, values in held.items()}
    return sound(found, name)


def _lines(stream: TextIO, name: str, told: Callable[[int], None] | None) -> Iterator[str]:
    letters = number = 0
    while line := stream.readline(_LONGEST_LINE + 1):
        letters, number = letters + len(line), number + 1
        if told is not None and number % _EVERY == 0:
            told(letters)
        if len(line) > _LONGEST_LINE or "\0" in line:
            raise InputError([Fault(name, "a line without end, or bytes that are not text", "a CSV file")])
        yield line


def _places(head: list[str], name: str, columns: Mapping[str, Column]) -> dict[str, int]:
    faults = [
        Fault(f"{name}, row 1", f"{head.count(column.heading)} columns headed {shown(column.heading)}", f"one, for {key}",
              ", ".join(head)[:200])
        for key, column in columns.items() if head.count(column.heading) != 1
    ]  # fmt: skip
    if faults:
        raise InputError(faults, title="This log can't be used as it stands")
    return {key: head.index(column.heading) for key, column in columns.items()}


def _value(cell: str, name: str, column: Column, where: str, faults: list[Fault]) -> float:
    if not cell and name != "time":
        return math.nan
    if column.unit == CLOCK:
        if (found := _TIME.fullmatch(cell)) is not None:
            return 3600 * int(found[1]) + 60 * int(found[2]) + float(found[3])
    elif _NUMBER.fullmatch(cell):
        return float(cell) * _scale(name, column.unit)
    faults.append(Fault(f"{where}, {column.heading}", shown(cell), "a clock time" if column.unit == CLOCK else "a number"))
    return math.nan


def _scale(name: str, unit: str) -> float:
    try:
        return factor(unit if unit != "1" else "", COLUMNS[name] if COLUMNS[name] != "1" else "")
    except InputError:
        raise InputError([Fault("--column", f"{name} in {shown(unit)}", f"a unit that converts to {COLUMNS[name]}",
                                _EXAMPLE)]) from None  # fmt: skip


_MOST = {
    "heading": 360.0,
    "speed": 80.0,
    "wheel_speed": 80.0,
    "slip": 1.0,
    "load": 1.5,
    "torque": 1.5,
    "fuel_rate": 1000.0,
    "engine_speed": 6000.0,
    "pull": 2000.0,
    "depth": 150.0,
    "latitude": 90.0,
    "longitude": 180.0,
}


def sound(found: dict[str, Any], name: str) -> dict[str, Any]:
    """Refuse what can't be: no rows, time that runs backward, numbers beyond any tractor (a wrong unit, mostly).

    Positions give the heading where the log has none.
    """
    time, faults = found["time"], []
    if time.size < 2:
        faults.append(Fault(name, f"{time.size} rows", "rows over a pass at least"))
    back = np.flatnonzero(np.diff(time) < 0)
    if back.size:
        faults.append(Fault(f"{name}, row {int(back[0]) + 3}", "time that runs backward", "rows in the order of time",
                            "the log of one day"))  # fmt: skip
    for column, most in _MOST.items():
        values = found.get(column, np.empty(0))
        usual = np.nanmedian(values) if np.isfinite(values).any() else 0.0
        if abs(usual) > most:
            faults.append(Fault(f"{name}, {column}", f"mostly {usual:.4g} {COLUMNS[column]}", f"at most {most:g}",
                                "the column's unit again"))  # fmt: skip
    if faults:
        raise InputError(faults, title="This log can't be used as it stands")
    if "latitude" in found and "heading" not in found:
        found["heading"] = speed_and_heading(time, *on_a_plane(found["latitude"], found["longitude"]))[1]
    return found


def passes(log: Mapping[str, Any]) -> Passes:
    """Take a log apart. log: arrays as `read_log` gives them."""
    time, speed = log["time"], log["speed"]
    load = next((log[name] for name in ("load", "torque", "fuel_rate", "pull") if name in log), None)
    step = np.minimum(np.diff(time, append=time[-1]), _GAP)
    nothing = ~np.isfinite(speed) | (~np.isfinite(load) if load is not None else False)
    stopped = speed < STOPPED
    pulls = load if load is not None else _slip_around(log, time, ~(nothing | stopped))
    turning = _turning(speed, pulls, log.get("tool_down"), nothing | stopped)
    working = ~(nothing | stopped | turning)
    even = working & _even(time, speed, working, _OFF_SPEED)
    if load is not None:
        even &= _even(time, load, working, _OFF_LOAD)
    across = working & _across(log["heading"], step, working) if "heading" in log else np.zeros(time.shape, bool)
    states = np.select([nothing, stopped, turning, across, even], [5, 4, 3, 6, 0], default=1)
    stretches, short = _stretches(log, even & ~across)
    for run in short:
        states[run] = 2
    seconds = {state: float(step[states == place].sum()) for place, state in enumerate(STATES)}
    return Passes(states, seconds, stretches, _stretches(log, even & across)[0])


def _stretches(log: Mapping[str, Any], steady: Any) -> tuple[tuple[Stretch, ...], list[slice]]:
    """Give the stretches of steady rows, the longest first, and the runs that are too short."""
    time, found, short = log["time"], [], []
    for first, end in _runs(steady, time):
        kept = _inner(time, first, end)
        if kept is None:
            short.append(slice(first, end))
            continue
        means = {name: float(np.nanmean(values[kept])) for name, values in log.items()
                 if name not in _NO_MEAN and np.isfinite(values[kept]).any()}  # fmt: skip
        found.append(Stretch(kept.start, kept.stop, float(time[kept.stop - 1] - time[kept.start]), means))
    return tuple(sorted(found, key=lambda each: -each.seconds)), short


def _across(heading: Any, step: Any, working: Any) -> Any:
    """Say where it works across the way in which most is worked; there and back are one way."""
    twice = np.exp(2j * np.radians(np.where(np.isfinite(heading), heading, 0.0)))
    main = np.sum((twice * step)[working & np.isfinite(heading)])
    if not abs(main) > 0:
        return np.zeros(heading.shape, bool)
    off = np.abs(np.degrees(np.angle(twice * np.conj(main)))) / 2
    return (off > _ACROSS) & np.isfinite(heading)


def _turning(speed: Any, load: Any, down: Any, out: Any) -> Any:
    """Say where it moves without working: the tool is up, or load (slip, where there is none) falls far under what is usual."""
    if down is not None:
        return ~out & ~(down > 0.5)
    if load is None or out.all():
        return np.zeros(speed.shape, bool)
    return ~out & (load < _LITTLE * np.nanmedian(load[~out]))


def _slip_around(log: Mapping[str, Any], time: Any, moving: Any) -> Any:
    """Give slip over the window around each row, for at one row two speeds scatter too much; None where nothing tells it."""
    slip = slip_of(log)
    if slip is None:
        return None
    known = moving & np.isfinite(slip)
    return np.where(known, _mean_around(time, slip, known), np.nan) if known.any() else None


def slip_of(log: Mapping[str, Any]) -> Any:
    """Give slip as a log has it, or from its two speeds; None where it has neither. NaN where the wheels stand."""
    if "slip" in log:
        return log["slip"]
    if "wheel_speed" not in log:
        return None
    with np.errstate(all="ignore"):
        return np.where(log["wheel_speed"] > 0, 1 - log["speed"] / log["wheel_speed"], np.nan)


def _even(time: Any, values: Any, among: Any, most: float) -> Any:
    """Say where the values stay near the mean of the window around them, over the rows that count."""
    mean = _mean_around(time, values, among)
    return np.abs(values - mean) <= most * np.abs(mean)


def _mean_around(time: Any, values: Any, among: Any) -> Any:
    """Give the mean over the window around each row, of the rows that count."""
    kept = np.where(among, values, 0.0)
    total, count = (np.concatenate([[0.0], np.cumsum(each)]) for each in (kept, among.astype(float)))
    low, high = np.searchsorted(time, time - _WINDOW / 2), np.searchsorted(time, time + _WINDOW / 2, side="right")
    return (total[high] - total[low]) / np.maximum(count[high] - count[low], 1)


def _runs(steady: Any, time: Any) -> Iterator[tuple[int, int]]:
    """Give (first, end) of each run of steady rows; single rows that aren't are passed over."""
    places = np.flatnonzero(steady)
    if not places.size:
        return
    breaks = np.flatnonzero(np.diff(time[places]) > _GAP) + 1
    for part in np.split(places, breaks):
        yield int(part[0]), int(part[-1]) + 1


def _inner(time: Any, first: int, end: int) -> slice | None:
    """Give a run without its ends; None where it is too short."""
    if time[end - 1] - time[first] < SHORTEST:
        return None
    low = int(np.searchsorted(time, time[first] + _ENDS))
    return slice(low, int(np.searchsorted(time, time[end - 1] - _ENDS, side="right")))


def entries(stretch: Stretch, load_of: str | None) -> dict[str, str]:
    """Give what a stretch read, as entries of a reading."""
    means = stretch.means
    units = {"speed": "km/h", "wheel_speed": "km/h", "fuel_rate": "L/h", "engine_speed": "rpm", "pull": "kN", "depth": "cm"}
    out = {name: f"{means[name]:.5g} {unit}" for name, unit in units.items() if name in means}
    for name in ("slip", "load"):
        if name in means:
            out[name] = f"{100 * means[name]:.4g} percent"
    if "slip" in out:
        out.pop("wheel_speed", None)
    if "load" not in out and means.get("torque", 0.0) > 0:  # load says the same, and what it is a share of
        return out | {"load": f"{100 * means['torque']:.4g} percent", "load_of": "torque"}
    return out | ({"load_of": load_of} if load_of and "load" in out else {})
