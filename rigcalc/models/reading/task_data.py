"""Task data of ISO 11783-10: the time logs of one task, decoded by what a reading needs and laid on one line of time.

The standard wasn't at hand. How a record is laid out and what the numbers of the data dictionary (ISO 11783-11) stand for is
as public readers and lists of it show (seen 2026-11-26); what is from memory says so beside it.
"""

from __future__ import annotations

import datetime
from array import array
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.reading.log import MOST_ROWS, sound
from rigcalc.models.reading.positions import on_a_plane, speed_and_heading
from rigcalc.models.reading.task_files import MAIN, TaskFiles, opened
from rigcalc.models.reading.task_header import Header, header_of
from rigcalc.models.reading.task_xml import MOST_XML, Element, element_of

# A record: milliseconds of the day (4 bytes), days since 1980-01-01 (2 bytes; that year as one public reader of three has it,
# and from memory), then what the header leaves to it, then how many values follow, each of 5 bytes: which line of the header,
# and a number.
_FIRST_DAY = datetime.date(1980, 1, 1)
_EARLIEST = datetime.date(1990, 1, 1)  # a clock that says less was never set
_DAY = 86_400
_VALUE = 5
_MOST_LOG = 128 * 1024 * 1024  # bytes of one time log
_NO_FIX = (0, 14, 15)  # ways of having a position (0 none, 14 error, 15 not available) that give none
_NUMBERS_END = 2**31 - 1  # either end of a number's range is a mark, not a value (from memory)
# Our choices, in s.
_OLD = 10.0  # a number older than this isn't the present one: logs hold one when it changes, or at intervals
_STAYS = ("tool_down", "depth")  # but these stay until the next, as long as their log goes on
_BACK = 1.0  # records may stand in the wrong order by less
_EVERY = 200_000  # records between two words of progress
_TELLS = ("load", "torque", "fuel_rate", "wheel_speed", "pull")


@dataclass(frozen=True, eq=False)
class TaskLog:
    """What the time logs of one task hold.

    columns: by name, an array in the unit of `log.COLUMNS`. task: its name. start: s since 1980-01-01 at time 0. logs: how
    many. speed_from: "radar" (ground-based speed of the bus), "positions", or "actual" (the speed that the machine goes by).
    """

    columns: dict[str, Any]
    task: str
    start: float
    logs: int
    speed_from: str

    def day(self, row: int) -> str | None:
        """Give the day of a row, such as 2026-11-04; None where the clock was never set."""
        found = _FIRST_DAY + datetime.timedelta(days=float(self.start + self.columns["time"][row]) // _DAY)
        return found.isoformat() if found >= _EARLIEST else None


@dataclass(frozen=True, eq=False)
class _Series:
    """One quantity of one element over one log: when a number came, what it was, and until when the last one holds at most."""

    name: str
    element: str
    time: Any
    values: Any
    ends: Any


def read_task_data(path: Path, task: str | None = None, progress: Callable[[float], None] | None = None) -> TaskLog:
    """Read the time logs of a task.

    path: a folder, a zip, or TASKDATA.XML. task: its identifier or name, where several have logs. progress: told
    the share that is done; it may raise to stop. Raises InputError for anything that can't be used.
    """
    files = opened(path)
    try:
        named = _tasks(files)
        title, logs = _picked(named, task, files.name)
        series, rows, count = [], [], 0
        for place, log in enumerate(logs):
            told = None if progress is None else (lambda share, at=place: progress((at + share) / len(logs)))
            header = header_of(files.read(f"{log}.XML", MOST_XML), f"{files.name}, {log}.XML")
            time, found = _decoded(files.read(f"{log}.BIN", _MOST_LOG), header, f"{files.name}, {log}.BIN", count, told)
            series += found
            rows.append(time)
            count += time.size
    finally:
        files.close()
    return _together(series, np.unique(np.concatenate(rows)), title, len(logs), files.name)


def task_names(path: Path) -> tuple[tuple[str, str, int], ...]:
    """Give (identifier, name, how many logs) of each task that has logs. Raises InputError for files that can't be used."""
    files = opened(path)
    try:
        return tuple((own, name, len(logs)) for own, name, logs in _tasks(files))
    finally:
        files.close()


def _tasks(files: TaskFiles) -> list[tuple[str, str, list[str]]]:
    """Give (identifier, name, time logs) of each task that has logs; tasks in files of their own too."""
    root = element_of(files.read(MAIN, MOST_XML), f"{files.name}, {MAIN}", "ISO11783_TaskData")
    tasks = list(root.all("TSK"))
    for other in root.all("XFR"):  # a part of the task data that stands in a file beside
        name = other.attributes.get("A", "")
        if name.upper().startswith("TSK"):
            _checked(name, "TSK", f"{files.name}, {MAIN}")
            tasks += element_of(files.read(f"{name}.XML", MOST_XML), f"{files.name}, {name}.XML", "XFC").all("TSK")
    found = []
    for each in tasks:
        logs = [log.attributes.get("A", "") for log in each.all("TLG")]
        for log in logs:
            _checked(log, "TLG", f"{files.name}, {MAIN}")
        if logs:
            found.append((_text(each, "A"), _text(each, "B"), list(dict.fromkeys(log.upper() for log in logs))))
    return found


def _text(element: Element, name: str) -> str:
    return element.attributes.get(name, "")[:100]


def _checked(name: str, kind: str, where: str) -> None:
    """Refuse a name of a file that isn't of the standard's form: three letters and five digits."""
    if not (len(name) == 8 and name.isascii() and name[:3].upper() == kind and name[3:].isdigit()):
        raise InputError([Fault(where, f"a file named {shown(name)}", f"{kind} and five digits", f"{kind}00001")])


def _picked(tasks: Sequence[tuple[str, str, list[str]]], task: str | None, name: str) -> tuple[str, list[str]]:
    """Give name and time logs of the task that is meant."""
    if not tasks:
        raise InputError([Fault(name, "no task with a time log", "task data that a terminal wrote while it worked")])
    meant = [each for each in tasks if task is None or task in each[:2]]
    if len(meant) != 1:
        known = "; ".join(f"{own} ({title}, {len(logs)} logs)" for own, title, logs in tasks[:12])
        raise InputError([Fault("--task", f"{len(tasks)} tasks with time logs" if task is None else shown(task),
                                "one of them, by its identifier or its name", known[:400])])  # fmt: skip
    own, title, logs = meant[0]
    return title or own, logs


def _decoded(
    data: bytes, header: Header, name: str, before: int, told: Callable[[float], None] | None
) -> tuple[Any, list[_Series]]:
    """Give the time of each record in s since 1980, and what the log holds. before: records of the logs before it."""
    starts = _starts(data, header.fixed, name, MOST_ROWS - before, told)
    raw = np.frombuffer(data, np.uint8)
    milliseconds, days = _numbers(raw, starts, "<u4"), _numbers(raw, starts + 4, "<u2")
    if (milliseconds >= 1000 * _DAY).any():
        at = int(np.argmax(milliseconds >= 1000 * _DAY))
        raise InputError([Fault(f"{name}, record {at + 1}", "a time of over 24 hours",
                                "records as the XML beside it lays them out", "both files as they were written")])  # fmt: skip
    time = days * float(_DAY) + milliseconds / 1000
    back = np.diff(time)
    if back.size and back.min() < -_BACK:
        raise InputError([Fault(f"{name}, record {int(np.argmin(back)) + 2}", "time that runs backward",
                                "records in the order of time", "the log as the terminal wrote it")])  # fmt: skip
    last, found = float(time.max()), []
    for quantity, element, rows, values in (*_positions(raw, starts, header), *_values(raw, starts, header, name)):
        stays = np.full(rows.size, last) if quantity in _STAYS else time[rows]
        found.append(_Series(quantity, element, time[rows], values, stays + _OLD))
    # What the header itself says holds until a record says another: laid last, it fills what is left open.
    for line in header.lines:
        if line is not None and line.value is not None:
            found.append(
                _Series(line.name, line.element, time[:1], line.scaled(np.array([line.value])), np.array([last + _OLD]))
            )
    return time, found


def _starts(data: bytes, fixed: int, name: str, most: int, told: Callable[[float], None] | None) -> Any:
    """Give where each record begins: how long one is stands in it."""
    at, end, starts = 0, len(data), array("q")
    while at < end:
        if len(starts) >= most:
            raise InputError([Fault(name, f"more than {MOST_ROWS:,} records", "logs of a day or two", "fewer of them")])
        starts.append(at)
        at += fixed + 1 + _VALUE * (data[at + fixed] if at + fixed < end else 0)
        if told is not None and len(starts) % _EVERY == 0:
            told(at / end)
    if at != end or not starts:
        raise InputError([Fault(name, f"a log that breaks off after {max(len(starts) - 1, 0):,} records",
                                "whole records", "the file as the terminal wrote it")])  # fmt: skip
    return np.frombuffer(starts, np.int64)


def _numbers(raw: Any, places: Any, kind: str) -> Any:
    """Give the numbers that begin at places among bytes, as floats."""
    wide = np.dtype(kind).itemsize
    return raw[places[:, None] + np.arange(wide)].view(kind)[:, 0].astype(float)


def _positions(raw: Any, starts: Any, header: Header) -> list[tuple[str, str, Any, Any]]:
    """Give (name, element, records, values) of latitude and longitude in degrees; none where the header has no position."""
    if "north" not in header.places or "east" not in header.places:
        return []
    north, east = (_numbers(raw, starts + header.places[name], "<i4") * 1e-7 for name in ("north", "east"))
    known = (np.abs(north) <= 90) & (np.abs(east) <= 180) & ((north != 0) | (east != 0))
    if "status" in header.places:
        known &= ~np.isin(raw[starts + header.places["status"]], _NO_FIX)
    rows = np.arange(starts.size)
    return [("latitude", "", rows, np.where(known, north, np.nan)), ("longitude", "", rows, np.where(known, east, np.nan))]


def _values(raw: Any, starts: Any, header: Header, name: str) -> list[tuple[str, str, Any, Any]]:
    """Give (name, element, records, values) of each line of the header that a reading needs."""
    counts = raw[starts + header.fixed].astype(int)
    parts: dict[int, list[tuple[Any, Any]]] = {}
    for place in range(int(counts.max())):
        rows = np.flatnonzero(counts > place)
        at = starts[rows] + header.fixed + 1 + _VALUE * place
        line = raw[at]
        if (line >= len(header.lines)).any():
            first = int(np.argmax(line >= len(header.lines)))
            raise InputError([Fault(f"{name}, record {rows[first] + 1}", f"a value of line {line[first] + 1}",
                                    f"one of the {len(header.lines)} lines of the XML beside it",
                                    "both files as the terminal wrote them")])  # fmt: skip
        for number, own in enumerate(header.lines):
            if own is not None and (here := line == number).any():
                values = _numbers(raw, at[here] + 1, "<i4")
                values[np.abs(values) >= _NUMBERS_END] = np.nan
                parts.setdefault(number, []).append((rows[here], own.scaled(values)))
    out = []
    for number, found in parts.items():
        own = header.lines[number]
        assert own is not None
        rows, values = (np.concatenate(each) for each in zip(*found, strict=True))
        order = np.argsort(rows, kind="stable")
        out.append((own.name, own.element, rows[order], values[order]))
    return out


def _together(series: Sequence[_Series], base: Any, title: str, logs: int, name: str) -> TaskLog:
    """Lay all on the times of the records. Of several elements the tool works where one does, and depth is their mean."""
    found: dict[str, dict[str, Any]] = {}
    for each in series:  # of one element in several logs: what the first of them says that says anything
        own, column = found.setdefault(each.name, {}), _laid(each, base)
        own[each.element] = (
            np.where(np.isfinite(own[each.element]), own[each.element], column) if each.element in own else column
        )
    out = {}
    for quantity, columns in found.items():
        told = [column for column in columns.values() if np.isfinite(column).any()]
        if told:
            out[quantity] = _one(quantity, np.stack(told))
    if "latitude" not in out or "longitude" not in out:
        out.pop("latitude", None)
        out.pop("longitude", None)
    speed_from = _with_speed(out, base)
    missing = []
    if "speed" not in out:
        missing.append(Fault(name, "neither ground speed nor positions", "a log that says how fast it went"))
    if not set(out) & set(_TELLS):
        missing.append(
            Fault(name, "no engine load or torque, fuel rate, wheel speed or pull", "a log that says how hard it pulled")
        )
    if missing:
        raise InputError(missing, title="This log can't be used as it stands")
    if "tool_down" in out and not all((out["tool_down"] == state).any() for state in (0, 1)):
        del out["tool_down"]  # one that never moves tells nothing of work and turns
    return TaskLog(sound({"time": base - base[0], **out}, name), title, float(base[0]), logs, speed_from)


def _laid(series: _Series, base: Any) -> Any:
    """Give a series at the times of the records: the number that came last, unless it is old."""
    order = np.argsort(series.time, kind="stable")
    time, values, ends = series.time[order], series.values[order], series.ends[order]
    last = np.searchsorted(time, base, side="right") - 1
    at = np.maximum(last, 0)
    return np.where((last >= 0) & (base <= ends[at]), values[at], np.nan)


def _one(name: str, columns: Any) -> Any:
    """Make one column of those of several elements (rows)."""
    known = np.isfinite(columns)
    if name == "tool_down":
        return np.where(known.any(axis=0), np.where(known, columns, -1.0).max(axis=0), np.nan)
    if name == "depth":
        return np.where(known.any(axis=0), np.where(known, columns, 0.0).sum(axis=0) / np.maximum(known.sum(axis=0), 1), np.nan)
    return columns[int(known.sum(axis=1).argmax())]


def _with_speed(out: dict[str, Any], base: Any) -> str:
    """Take the best speed over the ground: radar or satellite on the bus, then positions, then what the machine goes by."""
    actual = out.pop("actual_speed", None)
    if "speed" in out:
        return "radar"
    if "latitude" in out:
        out["speed"] = speed_and_heading(base, *on_a_plane(out["latitude"], out["longitude"]))[0]
        return "positions"
    if actual is not None:
        out["speed"] = actual
    return "actual"
