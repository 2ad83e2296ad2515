"""A class list: a CSV file with a student in each line. It is read whole or refused with every fault."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from os import PathLike
from pathlib import Path

from rigcalc.core.errors import Fault, InputError, shown

LARGEST_LIST = 1024 * 1024  # bytes
MOST_STUDENTS = 1000
_LONGEST_NAME = 80
_HEADS = ("student", "students", "name", "full name", "id", "student id", "number")
_EXAMPLE = "a first line that says student, then a name in each line"


def load_class(path: str | PathLike[str]) -> tuple[str, ...]:
    """Give the names of a class list in their order. Raises InputError for a file that can't be read or used."""
    try:
        with Path(path).open("rb") as stream:
            data = stream.read(LARGEST_LIST + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "no file name"
        raise InputError(
            [Fault("class list", f"{shown(str(path))} ({why})", "a CSV file that can be read", "class.csv")]
        ) from None
    if len(data) > LARGEST_LIST:
        raise InputError([Fault("class list", f"more than {LARGEST_LIST // 1024} KiB", f"at most {MOST_STUDENTS:,} names")])
    try:
        return read_class(data.decode("utf-8-sig"))
    except UnicodeDecodeError:
        raise InputError(
            [Fault("class list", "bytes that are not text", "a CSV file in UTF-8", "save it as CSV UTF-8")]
        ) from None


def read_class(text: str) -> tuple[str, ...]:
    """Read the text of a class list: the column headed student, name or id, or the only column. Raises InputError."""
    first = text.split("\n", 1)[0]
    mark = next((each for each in ("\t", ";") if each in first), ",")
    try:
        rows = [row for row in csv.reader(io.StringIO(text), delimiter=mark) if any(cell.strip() for cell in row)]
    except csv.Error as error:
        raise InputError([Fault("class list", str(error), "a CSV file", _EXAMPLE)]) from None
    heads = [cell.strip().casefold().replace("_", " ") for cell in rows[0]] if rows else []
    column = next((heads.index(head) for head in _HEADS if head in heads), None)
    if column is None and len(heads) > 1:
        raise InputError([Fault("class list, line 1", shown(first.strip()), "a column headed student", _EXAMPLE)])
    body = rows[1:] if column is not None else rows
    names = [row[column or 0].strip() if len(row) > (column or 0) else "" for row in body]
    if faults := name_faults(names):
        raise InputError(faults)
    return tuple(names)


def name_faults(names: Sequence[str]) -> list[Fault]:
    """Give what is wrong with the names of a class: empty, too long, not to be printed, twice, too many."""
    faults = []
    seen: dict[str, int] = {}
    for place, name in enumerate(names, 1):
        where = f"class list, student {place}"
        if not name or not name.isprintable() or len(name) > _LONGEST_NAME:
            faults.append(Fault(where, shown(name), f"a name of 1 to {_LONGEST_NAME} letters"))
        elif name.casefold() in seen:
            expected = f"a name that isn't that of student {seen[name.casefold()]} already"
            faults.append(Fault(where, shown(name), expected, f"{name} 2"))
        seen.setdefault(name.casefold(), place)
    if not 1 <= len(names) <= MOST_STUDENTS:
        faults.append(Fault("class list", f"{len(names):,} students", f"1 to {MOST_STUDENTS:,}", _EXAMPLE))
    return faults
