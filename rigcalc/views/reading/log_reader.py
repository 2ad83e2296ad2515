"""A log that somebody picks on the page: fetched in pieces, asked about where it must be, read, taken apart, drawn."""

from __future__ import annotations

import json
import shutil
import tempfile
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models import Rig
from rigcalc.models.machine.field import in_field
from rigcalc.models.reading.any_log import AnyLog, log_kind, read_any
from rigcalc.models.reading.can_log import SUFFIXES
from rigcalc.models.reading.field_map import field_map, kind_of, worked_drafts
from rigcalc.models.reading.log import CLOCK, COLUMNS, TELLS, Column, Passes, passes, typed_column
from rigcalc.models.reading.log_columns import headings
from rigcalc.models.reading.task_data import task_names
from rigcalc.views.reading.field_map import field_map_svg
from rigcalc.views.reading.time_line import time_line
from rigcalc.widgets.part import safe_name
from rigcalc.words.numbers import System
from rigcalc.words.reading.page_log import ASKED, LOAD_OF, columns_wanted

MOST_BYTES = 32 * 1024 * 1024
MOST_COLUMNS = 200  # of a table that is asked about


@dataclass(frozen=True, eq=False)
class TakenApart:
    """A log that was read: what it holds, taken apart, and its pictures (title, SVG) in each system of units."""

    log: AnyLog
    found: Passes
    pictures: Mapping[System, Sequence[tuple[str, str]]]


class PickedFile:
    """A file on its way here. `share` is how much of it is here. Close it to take it off the disk."""

    def __init__(self, name: str, size: int):
        self._folder = Path(tempfile.mkdtemp(prefix="rigcalc-log-"))
        self.name, self.size, self.got = safe_name(name), size, 0
        self.path = self._folder / self.name

    @property
    def share(self) -> float:
        """How much of it is here, 0 to 1."""
        return self.got / self.size

    def add(self, data: bytes) -> None:
        """Take the next piece. Raises InputError for more than was said to come."""
        if not data or self.got + len(data) > self.size:
            raise InputError([Fault(self.name, "a file that changed on its way", "one that nobody writes to", "it again")])
        with self.path.open("ab") as stream:
            stream.write(data)
        self.got += len(data)

    def close(self) -> None:
        """Take it off the disk."""
        shutil.rmtree(self._folder, ignore_errors=True)


def reads_the_bus() -> bool:
    """Say whether the libraries that read logs of the bus are installed here."""
    return find_spec("can") is not None and find_spec("cantools") is not None


def endings() -> tuple[str, ...]:
    """Give the endings of files that can be read here."""
    return (".csv", ".zip", *(SUFFIXES if reads_the_bus() else ()))


def picked(value: Any) -> PickedFile:
    """Begin to take a file: a mapping with `name` and `size`. Raises InputError where it is none, or can't be read here."""
    name, size = (value.get("name"), value.get("size")) if isinstance(value, Mapping) else (None, None)
    if not isinstance(name, str) or not isinstance(size, int) or isinstance(size, bool):
        raise InputError([Fault("the log", shown(value), "a file")])
    if Path(name).suffix.lower() not in endings():
        raise InputError([Fault("the log", shown(name), f"a file that ends in {', '.join(endings())}")])
    if not 0 < size <= MOST_BYTES:
        got = f"{shown(name)} of {size / 1e6:,.1f} MB" if size > 0 else f"{shown(name)}, an empty file"
        raise InputError([Fault("the log", got, f"a log of up to {MOST_BYTES // 1024**2} MB", "it in parts")])
    return PickedFile(name, size)


def asked_of(file: PickedFile) -> tuple[str, tuple[str, ...], tuple[tuple[str, str], ...]]:
    """Give what a log is (of any_log.KINDS), the headings of a table, and identifier and name of each task of task data."""
    kind = log_kind(file.path)
    if kind == "task":
        return kind, (), tuple((own, f"{name or own} ({logs} {'log' if logs == 1 else 'logs'})")
                               for own, name, logs in task_names(file.path))  # fmt: skip
    return kind, headings(file.path)[:MOST_COLUMNS] if kind == "csv" else (), ()


def named_columns(heads: Sequence[str], chosen: Mapping[str, tuple[str, str]], load_of: str) -> dict[str, Column]:
    """Make columns of what was chosen: quantity -> heading and unit. Raises InputError with every fault."""
    columns, faults = {}, []
    for name, (head, unit) in chosen.items():
        if not head:
            continue
        title = ASKED[name][0]
        if head not in heads:
            faults.append(Fault(title, shown(head), "a column of this log"))
            continue
        try:
            typed_column(f"{name}=x;{unit}")
            columns[name] = Column(head, unit)
        except InputError:
            also = f", or {CLOCK}" if name == "time" else ""
            faults.append(Fault(title, shown(unit), f"a unit that converts to {COLUMNS[name]}{also}", ASKED[name][1]))
    missing = [ASKED[name][0] for name in ("time", "speed") if name not in columns and not _blamed(faults, name)]
    if not set(columns) & set(TELLS) and not any(_blamed(faults, name) for name in TELLS):
        missing.append("slip, wheel speed, load, torque, fuel or pull")
    missing += [ASKED[name][0] for name, other in (("latitude", "longitude"), ("longitude", "latitude"))
                if other in columns and name not in columns and not _blamed(faults, name)]  # fmt: skip
    faults += columns_wanted(missing)
    if "load" in columns and load_of not in dict(LOAD_OF):
        faults.append(Fault("Engine load", "nothing", "what it is a share of"))
    if faults:
        raise InputError(faults)
    return columns


def _blamed(faults: Sequence[Fault], name: str) -> bool:
    return any(fault.where == ASKED[name][0] for fault in faults)


def kept_text(columns: Mapping[str, Column], load_of: str) -> str:
    """Give columns as one short text, which the page keeps in its address."""
    held = {name: [column.heading, column.unit] for name, column in columns.items()}
    return json.dumps({"load_of": load_of, **held}, ensure_ascii=False, separators=(",", ":"))


def kept_choice(text: str) -> tuple[dict[str, tuple[str, str]], str]:
    """Read what `kept_text` gave: what was chosen, and what a load is a share of. Nothing where it is no such text."""
    try:
        found = json.loads(text) if text else {}
    except (ValueError, RecursionError):
        return {}, ""
    if not isinstance(found, dict):
        return {}, ""
    load_of = found.pop("load_of", "")
    pairs = {name: tuple(pair) for name, pair in found.items() if name in ASKED and isinstance(pair, list)}
    good = {name: pair for name, pair in pairs.items() if [type(each) for each in pair] == [str, str]}
    return good, load_of if load_of in dict(LOAD_OF) else ""


def taken_apart(
    file: PickedFile,
    kind: str,
    rig: Rig,
    columns: Mapping[str, Column],
    load_of: str,
    task: str | None,
    progress: Callable[[float], None],
) -> TakenApart:
    """Read a log and take it apart, with its pictures by this rig. Raises InputError, and whatever `progress` raises."""
    log = read_any(file.path, kind, columns, load_of or None, task, progress)
    found, b = passes(log.columns), in_field(rig)
    drafts = worked_drafts(b, log.columns, found, log.load_of)
    place = None
    if "latitude" in log.columns:
        try:
            place = field_map(b, log.columns, found, kind_of(log.columns, log.load_of) or "speed", log.load_of)
        except InputError:
            place = None  # positions that no way can be drawn of: the stretches stand without a map
    systems: tuple[System, ...] = ("us", "si")
    pictures = {
        units: [
            ("Over time", time_line(log.columns, found, units, f"{file.name} over time", *drafts)),
            *([("Over the field", field_map_svg(place, units, file.name))] if place is not None else []),
        ]
        for units in systems
    }
    return TakenApart(log, found, pictures)
