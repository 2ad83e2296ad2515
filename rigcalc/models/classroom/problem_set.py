"""A set of problems for a class: what the teacher keeps in one small file, from which every sheet and every mark follows."""

from __future__ import annotations

import re
import tomllib
import unicodedata
from dataclasses import dataclass
from os import PathLike
from pathlib import Path
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.classroom.class_list import name_faults
from rigcalc.models.classroom.kinds import SYSTEMS, System, kinds
from rigcalc.models.classroom.problem import MOST_SEED, Problem, draw

MOST_PROBLEMS = 30
SET_FILE = "problem-set.toml"
_LARGEST = 1024 * 1024  # bytes
_KEYS = ("seed", "units", "kinds", "students")


@dataclass(frozen=True)
class ProblemSet:
    """Who gets which kinds of problems, in this order, from which seed, in American or metric units.

    Raises InputError for what can't be meant, every fault at once.
    """

    students: tuple[str, ...]
    kinds: tuple[str, ...]
    seed: int
    units: System

    def __post_init__(self) -> None:
        faults = [
            Fault("kinds", shown(name), "a kind of problem", ", ".join(kinds())) for name in self.kinds if name not in kinds()
        ]
        if not 1 <= len(self.kinds) <= MOST_PROBLEMS:
            faults.append(Fault("kinds", f"{len(self.kinds)} problems", f"1 to {MOST_PROBLEMS} for each student"))
        if not isinstance(self.seed, int) or isinstance(self.seed, bool) or not 0 <= self.seed <= MOST_SEED:
            faults.append(Fault("seed", shown(self.seed), f"a whole number from 0 to {MOST_SEED:,}", "1"))
        if self.units not in SYSTEMS:
            faults.append(Fault("units", shown(self.units), "us or si", "us"))
        faults += name_faults(self.students)
        if faults:
            raise InputError(faults, title="This set of problems can't be used as it stands")


def assigned(given_out: ProblemSet) -> dict[str, list[Problem]]:
    """Give each student's problems in order. No two are the same while there are others."""
    taken: dict[str, set[int]] = {kind: set() for kind in given_out.kinds}
    out: dict[str, list[Problem]] = {}
    for student in given_out.students:
        out[student] = []
        for kind in given_out.kinds:
            problem = draw(kind, student, given_out.seed, given_out.units, taken[kind])
            taken[kind].add(problem.place)
            out[student].append(problem)
    return out


def token(problem: Problem) -> str:
    """Give a short name of one problem, by which a returned sheet is known to be the one given out."""
    return f"{problem.kind.name}-{problem.system}-{problem.place}"


def file_stem(number: int, student: str) -> str:
    """Give the name of a student's sheet without its end: a number, then what of the name is plain letters."""
    plain = unicodedata.normalize("NFKD", student).encode("ascii", "ignore").decode()
    return f"{number:03d}_{re.sub(r'[^A-Za-z0-9]+', '_', plain).strip('_')[:40] or 'student'}"


def set_text(given_out: ProblemSet) -> str:
    """Give the file that the teacher keeps."""
    import tomlkit

    page = tomlkit.document()
    page.add(tomlkit.comment("rigcalc mark needs this file: it says who got which problems."))
    for key in _KEYS:
        value = getattr(given_out, key)
        page[key] = list(value) if isinstance(value, tuple) else value
    return tomlkit.dumps(page)


def load_set(path: str | PathLike[str]) -> ProblemSet:
    """Read the file that the teacher keeps. Raises InputError for one that can't be read or used."""
    where, expected = "problem set", f"the {SET_FILE} that rigcalc problems wrote"
    try:
        with Path(path).open("rb") as stream:
            data = stream.read(_LARGEST + 1)
        page: dict[str, Any] = tomllib.loads(data[:_LARGEST].decode("utf-8"))
    except OSError as error:
        raise InputError([Fault(where, f"{shown(str(path))} ({error.strerror})", expected, f"sheets/{SET_FILE}")]) from None
    except (ValueError, RecursionError):
        raise InputError([Fault(where, shown(str(path)), expected, f"sheets/{SET_FILE}")]) from None
    faults = [Fault(f"{where}: {key}", "nothing", expected) for key in _KEYS if key not in page]
    faults += [Fault(f"{where}: {key}", "an unknown entry", f"one of {', '.join(_KEYS)}") for key in page if key not in _KEYS]
    for key in ("kinds", "students"):
        if key in page and not (isinstance(page[key], list) and all(isinstance(entry, str) for entry in page[key])):
            faults.append(Fault(f"{where}: {key}", shown(page[key]), "a list of texts"))
    if faults:
        raise InputError(faults)
    return ProblemSet(tuple(page["students"]), tuple(page["kinds"]), page["seed"], page["units"])
