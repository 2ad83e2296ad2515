"""What somebody who starts a rig file is asked: about a dozen entries, each read at once; and the file's data of the answers.

The rest is left to the rules (`taken.py`). A bare number is read in the unit that its question names.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any, get_args

from pydantic import BaseModel
from pydantic_core import PydanticCustomError

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.tables import table
from rigcalc.core.units import plain_number, whole_number
from rigcalc.models.rig.measure import Kind
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.tool import by_width, workable
from rigcalc.models.rig.tyre_size import tyre_size
from rigcalc.models.rig.written import plainly

MOST_TOOLS = 200
Answers = dict[str, Any]  # by the name of the question; None where the asked doesn't know


@dataclass(frozen=True)
class Question:
    """One question. kind: "choice", "measure", "count" or "size". paths: the entries of the rig file that it fills.

    units: American and metric unit of a bare number. needed: whether no rule can stand in. drives: those it is asked of; all
    where empty.
    """

    name: str
    kind: str
    paths: tuple[str, ...]
    choices: tuple[str, ...] = ()
    units: tuple[str, str] = ("", "")
    needed: bool = True
    drives: tuple[str, ...] = ()


@cache
def questions() -> tuple[Question, ...]:
    """Give every question in the order in which they are asked."""
    wheels = ("2WD", "MFWD", "4WD")
    return (
        Question("drive", "choice", ("tractor.drive",), (*wheels, "track")),
        Question("power", "measure", ("tractor.rated_power",), units=("hp", "kW")),
        Question("rating", "choice", ("tractor.power_rating",), ("pto", "net engine", "gross engine")),
        Question("total", "measure", ("tractor.total_mass",), units=("lb", "kg")),
        Question("rear_size", "size", ("tractor.rear.size",), drives=wheels),
        Question("tyres", "choice", ("tractor.rear.tyres", "tractor.front.tyres"), ("2", "4", "6"), needed=False,
                 drives=wheels),
        Question("front_size", "size", ("tractor.front.size",), drives=wheels),
        Question("belts", "choice", (), ("two", "four"), drives=("track",)),
        Question("belt", "measure", ("tractor.rear.track_width", "tractor.front.track_width"), units=("in", "mm"),
                 drives=("track",)),
        Question("tool", "choice", ("implement.tool",), tuple(row["tool"] for row in table("d497_draft") if workable(row))),
        Question("tools", "count", ("implement.tools",)),
        Question("spacing", "measure", ("implement.spacing",), units=("in", "cm")),
        Question("width", "measure", ("implement.width",), units=("ft", "m")),
        Question("texture", "choice", ("ground.texture",), tuple(row["texture"] for row in table("soil_groups"))),
        Question("surface", "choice", ("ground.surface",), ("firm", "tilled", "soft", "hard"), needed=False),
        Question("depth", "measure", ("work.depth",), units=("in", "cm")),
        Question("speed", "measure", ("work.speed",), units=("mph", "km/h")),
    )  # fmt: skip


def asked_of(question: Question, answers: Answers) -> bool:
    """Say whether a question is asked, by drive and tool; tyres and pieces where those aren't known."""
    if question.name in ("tools", "spacing", "width"):
        return (question.name == "width") == by_width(answers.get("tool") or "")
    return not question.drives or (answers.get("drive") or "MFWD") in question.drives


def read_answer(question: Question, text: str, metric: bool) -> Any:
    """Read an answer. None where it is empty: the asked doesn't know. Raises InputError with what to type."""
    typed = text.strip()
    if not typed:
        return None
    if question.kind == "choice":
        return _choice(question, typed)
    if question.kind == "count":
        return _count(question, typed)
    if question.kind == "size":
        size = tyre_size(typed)
        mark = f" {size.load_index}{size.speed_symbol}" if size.load_index is not None else ""
        return f"{size.text}{mark}"
    return _measure(question, typed, question.units[metric])


def _choice(question: Question, typed: str) -> str:
    low = typed.lower().replace("_", " ")
    names = {choice.lower().replace("_", " "): choice for choice in question.choices}
    if low in names:
        return names[low]
    if typed.isascii() and typed.isdigit() and len(typed) < 4 and 1 <= int(typed) <= len(question.choices):
        return question.choices[int(typed) - 1]
    near = [choice for name, choice in names.items() if name.startswith(low)]
    if len(near) == 1:
        return near[0]
    listed = ", ".join(near or question.choices)
    raise InputError([Fault(question.name, shown(typed), f"a number from 1 to {len(question.choices)}, or one of {listed}",
                            (near or question.choices)[0])])  # fmt: skip


def _count(question: Question, typed: str) -> int:
    try:
        count = whole_number(typed)
    except InputError:
        count = 0
    if not 1 <= count <= MOST_TOOLS:
        raise InputError([Fault(question.name, shown(typed), f"a whole number from 1 to {MOST_TOOLS}", "11")])
    return count


def _measure(question: Question, typed: str, unit: str) -> str:
    try:
        plain_number(plainly(typed))
    except InputError:
        pass
    else:
        typed = f"{typed} {unit}"
    try:
        return kind_of(question.paths[0]).read(typed).text
    except PydanticCustomError as error:
        about = error.context or {}
        raise InputError([Fault(question.name, about["got"], about["expected"], about["type_this"].strip('"'))]) from None


@cache
def kind_of(path: str) -> Kind:
    """Give what an entry of the rig file may hold, by its path."""
    *sections, last = path.split(".")
    model: type[BaseModel] = Rig
    for name in sections:
        found: Any = model.model_fields[name].annotation
        model = next(part for part in (found, *get_args(found)) if isinstance(part, type) and issubclass(part, BaseModel))
    field = model.model_fields[last]
    held = [*field.metadata, *(mark for part in get_args(field.annotation) for mark in getattr(part, "__metadata__", ()))]
    return next(mark for mark in held if isinstance(mark, Kind))


def data_of(answers: Answers) -> dict[str, Any]:
    """Give the rig file's nested data of the answers; what isn't known is left out."""
    data: dict[str, Any] = {}
    alike = answers.get("belts") == "four" or answers.get("drive") == "4WD"
    for question in questions():
        value = answers.get(question.name)
        if value is None or not asked_of(question, answers):
            continue
        for path in question.paths if alike else question.paths[:1]:
            *sections, last = path.split(".")
            part = data
            for name in sections:
                part = part.setdefault(name, {})
            part[last] = int(value) if question.name == "tyres" else value
            if question.name == "belt":
                part |= {"kind": "track", "tracks": 2}
    return data


def still_missing(answers: Answers) -> tuple[Question, ...]:
    """Give the questions without an answer that no rule can stand in for."""
    return tuple(q for q in questions() if q.needed and asked_of(q, answers) and answers.get(q.name) is None)


def blamed(faults: tuple[Fault, ...], answers: Answers) -> tuple[Question, ...]:
    """Give the questions, answered, that faults of the whole rig are about."""
    places = [fault.where for fault in faults]
    return tuple(
        q for q in questions() if answers.get(q.name) is not None and asked_of(q, answers)
        and any(path == place or path.startswith(f"{place}.") for path in q.paths for place in places)
    )  # fmt: skip
