"""Notebooks that come back: the answers are taken out of their text. No cell is run, no link followed, no large file read.

An answer stands in a line `answer_1 = "12.5 kN"` of a code cell; what is behind the equals sign is a text, whatever it is. A
sheet that lacks such a line was changed, and that is told apart from an answer that wasn't given.
"""

from __future__ import annotations

import json
import os
import re
import stat
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import Enum
from pathlib import Path
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.classroom.problem import Problem
from rigcalc.models.classroom.problem_set import token

LARGEST_NOTEBOOK = 8 * 1024 * 1024  # bytes; a student's pictures may be in it
MOST_FILES = 2000
_LONGEST_LINE = 400
_ANSWER = re.compile(r"\s*answer[_ ]?(\d{1,2})\s*(?::\s*str\s*)?=(?!=)\s*(.*)", re.ASCII | re.IGNORECASE)
_QUOTED = re.compile(r"[A-Za-z]{0,2}(\"\"\"|'''|\"|')(.*?)\1\s*;?\s*(?:#.*)?")


class Refused(Enum):
    """Why a file in the folder isn't marked."""

    LINK = "link"
    NO_FILE = "no_file"
    LARGE = "large"
    UNREADABLE = "unreadable"
    NO_NOTEBOOK = "no_notebook"
    STRANGER = "stranger"
    OTHER_SHEET = "other_sheet"
    TWICE = "twice"


@dataclass(frozen=True)
class Returned:
    """A file that came back: whose it is, the answers by the number of the problem, which problems have no line for an answer
    any more, or why it isn't marked."""

    file: str
    student: str = ""
    answers: Mapping[int, str] = field(default_factory=dict)
    refused: Refused | None = None
    gone: frozenset[int] = frozenset()


def read_returned(folder: str | os.PathLike[str], given_out: Mapping[str, list[Problem]]) -> Iterator[Returned]:
    """Read every notebook of a folder, in order of name, not those of folders in it.

    given_out: each student's problems, as `assigned` gives them. Of two sheets of one student neither is marked: the
    teacher knows which counts. Raises InputError for a folder that can't be read or has more than `MOST_FILES` notebooks.
    """
    where = Path(folder)
    try:
        names = sorted(entry.name for entry in os.scandir(where) if entry.name.lower().endswith(".ipynb"))
    except OSError as error:
        raise InputError(
            [Fault("folder", f"{shown(str(folder))} ({error.strerror})", "a folder with the notebooks", "returned")]
        ) from None
    if not 1 <= len(names) <= MOST_FILES:
        raise InputError([Fault("folder", f"{len(names):,} notebooks", f"1 to {MOST_FILES:,}, whose names end in .ipynb")])
    read = [_read(where / name, given_out) for name in names]
    whose = [each.student for each in read if each.refused is None]
    for each in read:
        twice = each.refused is None and whose.count(each.student) > 1
        yield Returned(each.file, each.student, refused=Refused.TWICE) if twice else each


def _read(path: Path, given_out: Mapping[str, list[Problem]]) -> Returned:
    data = _bytes(path)
    if isinstance(data, Refused):
        return Returned(path.name, refused=data)
    try:
        page = json.loads(data)
    except (ValueError, RecursionError, MemoryError):
        return Returned(path.name, refused=Refused.NO_NOTEBOOK)
    cells = page.get("cells") if isinstance(page, dict) else None
    if not isinstance(cells, list):
        return Returned(path.name, refused=Refused.NO_NOTEBOOK)
    about = _inside(page, "metadata", "rigcalc", "classroom")
    student, sheet = about.get("student"), about.get("problems")
    if not isinstance(student, str) or student not in given_out:
        return Returned(path.name, refused=Refused.STRANGER)
    if sheet != [token(problem) for problem in given_out[student]]:
        return Returned(path.name, student, refused=Refused.OTHER_SHEET)
    count = len(given_out[student])
    lines = _lines(cells, count)
    answers = {number: text for number, text in lines.items() if text}
    return Returned(path.name, student, answers, gone=frozenset(range(1, count + 1)) - lines.keys())


def _bytes(path: Path) -> bytes | Refused:
    """Read a plain file of moderate size; what it is is asked of the open file, so that nobody can swap it in between."""
    if path.is_symlink():
        return Refused.LINK
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    try:
        handle = os.open(path, flags)
    except OSError:
        return Refused.UNREADABLE
    try:
        about = os.fstat(handle)
        if not stat.S_ISREG(about.st_mode):
            return Refused.NO_FILE
        if about.st_size > LARGEST_NOTEBOOK:
            return Refused.LARGE
        with os.fdopen(handle, "rb", closefd=False) as stream:
            data = stream.read(LARGEST_NOTEBOOK + 1)
    except OSError:
        return Refused.UNREADABLE
    finally:
        os.close(handle)
    return data if len(data) <= LARGEST_NOTEBOOK else Refused.LARGE


def _inside(page: Any, *keys: str) -> dict[str, Any]:
    for key in keys:
        page = page.get(key) if isinstance(page, dict) else None
    return page if isinstance(page, dict) else {}


def _lines(cells: list[Any], count: int) -> dict[int, str]:
    """Give the last answer that isn't empty to each problem that has a line for one; "" where all of its lines are."""
    out: dict[int, str] = {}
    for cell in cells:
        if not isinstance(cell, dict) or cell.get("cell_type") != "code":
            continue
        source = cell.get("source")
        if isinstance(source, list):
            source = "".join(line for line in source if isinstance(line, str))
        for line in source.split("\n") if isinstance(source, str) else ():
            match = _ANSWER.fullmatch(line[:_LONGEST_LINE].rstrip())
            if match and 1 <= int(match[1]) <= count:
                quoted = _QUOTED.fullmatch(match[2])
                text = (quoted[2] if quoted else match[2].split("#")[0]).strip()
                out[int(match[1])] = text if text.strip(" \"'") else out.get(int(match[1]), "")
    return out
