"""The readings of a rig in a CSV file beside its rig file: read strictly, added to at the end, never written over.

`my_rig.toml` has `my_rig.readings.csv` beside it: a line of entry names, a line a reading, each cell as in a rig file.
"""

from __future__ import annotations

import csv
import io
import os
import re
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.rig.bounds import LARGEST_FILE
from rigcalc.models.rig.faults import fault_of
from rigcalc.models.rig.field_reading import MOST_READINGS, MadeWith, Reading

_WITH = "made_with."
COLUMNS = (*(name for name in Reading.model_fields if name != "made_with"), *(_WITH + name for name in MadeWith.model_fields))
_WHOLE = ("depth_behind", _WITH + "tools")
_COUNT = re.compile(r"\d{1,3}")
_STAND_INS = {"date": "2026-11-04", "depth": "12 in", "speed": "0.2 km/h"}  # so slow that no wheel turns slower
_LONGEST = 500  # letters of a cell
_FORMULA = ("=", "+", "-", "@", "\t", "\r")  # a spreadsheet would work out a cell that begins so


def beside(rig_file: Path) -> Path:
    """Give the CSV file that goes with a rig file."""
    return rig_file.with_name(f"{rig_file.stem}.readings.csv")


def load_beside(rig_file: Path) -> list[dict[str, Any]]:
    """Read the readings beside a rig file, as they stand in one; none where there is no file. Raises InputError."""
    file = beside(rig_file)
    try:
        if not file.exists():
            return []
        with file.open("rb") as stream:
            data = stream.read(LARGEST_FILE + 1)
    except OSError as error:
        raise InputError([Fault(file.name, f"a file that can't be read ({error.strerror})", "a CSV file")]) from None
    if len(data) > LARGEST_FILE:
        raise InputError([Fault(file.name, f"more than {LARGEST_FILE // 1024} KiB", f"at most {MOST_READINGS} readings")])
    try:
        return read_rows(data.decode("utf-8-sig"), file.name)
    except UnicodeDecodeError:
        raise InputError([Fault(file.name, "bytes that are not text", "a CSV file in UTF-8")]) from None


def read_rows(text: str, name: str) -> list[dict[str, Any]]:
    """Read the text of such a file. Raises InputError that lists every fault with its row and column."""
    rows = _parted(text, name)
    if not rows:
        return []
    (_, head), *lines = rows
    faults = [
        Fault(f"{name}, row 1", shown(column), "the name of an entry of a reading, each once", ", ".join(COLUMNS[:5]) + ", …")
        for place, column in enumerate(head)
        if column not in COLUMNS or column in head[:place]
    ]
    if len(lines) > MOST_READINGS:
        faults.append(Fault(name, f"{len(lines):,} rows", f"at most {MOST_READINGS}", "a file for each field"))
    out = []
    for place, cells in [] if faults else lines:
        where = f"{name}, row {place}"
        if len(cells) != len(head):
            faults.append(Fault(where, f"{len(cells)} cells", f"{len(head)}, as the first row names them"))
            continue
        data = _nested({column: cell for column, cell in zip(head, cells, strict=True) if cell})
        try:
            reading_from(data)
        except InputError as error:
            faults += [Fault(f"{where}, {each.where}", each.got, each.expected, each.type_this) for each in error.faults]
        out.append(data)
    if faults:
        raise InputError(faults, title="These readings can't be used as they stand")
    return out


def add_beside(rig_file: Path, reading: Reading) -> Path:
    """Add a reading at the end of the file beside a rig file, made where there is none; what stands there is left alone.

    Raises InputError where the file can't be read or written, lacks a column, or holds the same reading already.
    """
    file, cells = beside(rig_file), _flat(reading)
    there = load_beside(rig_file)
    faults = [
        Fault(
            file.name, f"the same reading as row {place + 2}", "each reading once", "what was read, or set the other one aside"
        )
        for place, data in enumerate(there)
        if same_reading(Reading.model_validate(data), reading)
    ]
    faults += [
        Fault(column, shown(cell), "a text that a spreadsheet takes for no formula", "a letter in front")
        for column, cell in cells.items()
        if cell.startswith(_FORMULA)
    ]
    if len(there) >= MOST_READINGS:
        faults.append(Fault(file.name, f"{len(there)} readings", f"at most {MOST_READINGS}", "a rig file for each field"))
    if faults:
        raise InputError(faults, title="This reading isn't added")
    try:
        with file.open("a+b") as stream:  # what is written goes to the end, whoever else writes there
            stream.seek(0)
            before = stream.read(LARGEST_FILE + 1)
            head = _head(before, file.name)
            missing = [column for column in cells if column not in head]
            if missing:
                raise InputError([Fault(f"{file.name}, row 1", f"no column {', '.join(missing)}",
                                        "a column for each entry of the reading",
                                        f",{','.join(missing)} at its end, and as many commas at each row's")])  # fmt: skip
            out = io.StringIO()
            writer = csv.writer(out, lineterminator="\n")
            if not before:
                writer.writerow(head)
            writer.writerow([cells.get(column, "") for column in head])
            line = out.getvalue()
            stream.write((line if not before or before.endswith(b"\n") else "\n" + line).encode())
            stream.flush()
            os.fsync(stream.fileno())
    except OSError as error:
        raise InputError([Fault(file.name, f"a file that can't be written ({error.strerror})", "a place for it")]) from None
    return file


def reading_from(data: dict[str, Any]) -> Reading:
    """Make a reading of its entries. Raises InputError that lists every fault, those between entries too."""
    faults: dict[str, Fault] = {}
    bad: set[str] = set()
    for _ in range(2):  # once more with what is bad out of the way, for the checks between entries
        try:
            made = Reading.model_validate(data)
        except ValidationError as error:
            for entry in error.errors(include_url=False):
                found = fault_of(dict(entry))
                if entry["loc"] or not any(name in found.got for name in bad):
                    faults.setdefault(found.where, found)
            bad |= {str(entry["loc"][0]) for entry in error.errors(include_url=False) if entry["loc"]}
            data = {name: value for name, value in data.items() if name not in bad}
            data |= {name: value for name, value in _STAND_INS.items() if name in bad}
            continue
        if not faults:
            return made
    raise InputError([
        Fault("reading" if where == "rig" else where, found.got, found.expected, found.type_this)
        for where, found in faults.items()
    ])  # fmt: skip


def same_reading(one: Reading, other: Reading) -> bool:
    """Say whether two readings are one and the same: what was read, where and when; whatever was said of it before."""
    beside_it = {"set_aside", "note", "said_slip", "said_load", "said_fuel", "said_pull"}
    return one.model_dump(exclude=beside_it) == other.model_dump(exclude=beside_it)


def _parted(text: str, name: str) -> list[tuple[int, list[str]]]:
    """Give (number, cells) of each row that isn't blank; cells are stripped."""
    if "\0" in text:
        raise InputError([Fault(name, "bytes that are not text", "a CSV file in UTF-8")])
    out = []
    try:
        for place, row in enumerate(csv.reader(io.StringIO(text, newline=""), strict=True), 1):
            cells = [cell.strip() for cell in row]
            if any(len(cell) > _LONGEST for cell in cells):
                raise InputError([Fault(f"{name}, row {place}", f"a cell of {max(map(len, cells)):,} letters",
                                        f"at most {_LONGEST}")])  # fmt: skip
            if any(cells):
                out.append((place, cells))
    except csv.Error as error:
        raise InputError([Fault(name, f"rows that break off ({error})", "a CSV file, a row a reading")]) from None
    return out


def _head(before: bytes, name: str) -> list[str]:
    rows = _parted(before.decode("utf-8-sig"), name)
    return rows[0][1] if rows else list(COLUMNS)


def _nested(cells: dict[str, str]) -> dict[str, Any]:
    data: dict[str, Any] = {}
    for column, cell in cells.items():
        value = int(cell) if column in _WHOLE and _COUNT.fullmatch(cell) else cell
        if column.startswith(_WITH):
            data.setdefault("made_with", {})[column.removeprefix(_WITH)] = value
        else:
            data[column] = value
    return data


def _flat(reading: Reading) -> dict[str, str]:
    data = reading.model_dump(mode="json", exclude_none=True)
    made_with = data.pop("made_with", {})
    flat = {**data, **{_WITH + name: value for name, value in made_with.items()}}
    return {column: str(value) for column, value in flat.items() if value != ""}
