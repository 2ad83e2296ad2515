"""Readings as JSON-ready data: what they tell, what to read next, what was said before; what can't be a number is null."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from rigcalc.models.machine.field import Told, left_out_of
from rigcalc.models.reading.foretold import Span
from rigcalc.models.reading.log import COLUMNS, Passes, Stretch
from rigcalc.models.reading.next_reading import Next
from rigcalc.models.reading.record import Record
from rigcalc.models.reading.task_data import TaskLog
from rigcalc.models.reading.tells import Telling
from rigcalc.models.reading.zones import Zone
from rigcalc.models.rig.field_reading import Reading
from rigcalc.models.rig.rig import Rig
from rigcalc.words.field import from_readings
from rigcalc.words.numbers import System
from rigcalc.words.reading.listed import KIND_UNITS, record_text
from rigcalc.words.reading.told import headline, lines

VERSION = 1  # raised when a name or a unit changes


def list_data(rig: Rig, told: Told | None) -> dict[str, Any]:
    """Give every reading as typed, with what was read in bare units and whether it counts."""
    why = left_out_of(rig, told)
    return {
        "version": VERSION,
        "readings": [
            {"reading": place + 1, "counts": told is not None and any(each.place == place for each in told.seen),
             "left_out": why.get(place),
             "numbers": {
                 kind: {**_n(value, KIND_UNITS[kind]), "error": error, "error_of": "points" if kind == "slip" else "share"}
                 for kind, (value, error) in reading.numbers.items()
             },
             "typed": reading.model_dump(mode="json", exclude_none=True)}
            for place, reading in enumerate(rig.reading)
        ],
    }  # fmt: skip


def telling_data(telling: Telling, rig: Rig, units: System) -> dict[str, Any]:
    """Give what the readings tell. Factors have the unit "1"; by: "before", each kind of number alone, "all"."""
    told = telling.told
    return {
        "version": VERSION, "headline": headline(telling), "lines": list(lines(telling, rig, units)),
        "field": told.field, "day": told.day, "from": from_readings(told),
        "draft": {name: _span(span) for name, span in telling.draft.items()},
        "cone_index": {name: _span(span) for name, span in telling.cone.items()},
        "monitor": {kind: _span(span) for kind, span in telling.monitor.items()},
        "contradictions": [
            {"reading": each.place + 1, "number": each.kind, "why": each.why,
             "off": each.off if math.isfinite(each.off) else None}
            for each in telling.contradictions
        ],
        "draws_worth": round(told.weighed.effective),
    }  # fmt: skip


def added_data(added: Sequence[tuple[int, Reading, dict[str, Span]]], file: str) -> dict[str, Any]:
    """Give readings that were added, each as (place from 1, itself, what was said before)."""
    return {
        "version": VERSION, "file": file,
        "added": [
            {"reading": place, "numbers": [
                {"number": kind, "unit": KIND_UNITS[kind], "read": made.numbers[kind][0], "said": _span(span),
                 "inside": span.low <= made.numbers[kind][0] <= span.high} for kind, span in said.items()
            ]} for place, made, said in added
        ],
    }  # fmt: skip


def log_data(found: Passes, task: TaskLog | None = None) -> dict[str, Any]:
    """Give a log that was taken apart: seconds of each state, and the steady stretches, the longest first. task: its task."""
    return {
        "version": VERSION,
        "seconds": {state: _n(seconds, "s") for state, seconds in found.seconds.items()},
        "stretches": [_stretch(each) for each in found.stretches],
        "headland": [_stretch(each) for each in found.headland],
        "task": None
        if task is None
        else {"name": task.task, "day": task.day(0), "logs": task.logs, "speed_from": task.speed_from},
    }


def _stretch(each: Stretch) -> dict[str, Any]:
    return {
        "seconds": _n(each.seconds, "s"), "rows": [each.first, each.end],
        "means": {name: _n(value, COLUMNS[name]) for name, value in each.means.items()},
    }  # fmt: skip


def next_data(found: Next) -> dict[str, Any]:
    """Give what to read next, the most telling first; leaves is the share of the doubt about the job's draft."""
    return {
        "version": VERSION, "stop": found.stop, "chance": found.chance, "draft_known_within": found.width,
        "candidates": [
            {"name": each.name, "depth": _n(each.depth, "cm"), "speed": _n(each.speed, "km/h"), "numbers": list(each.kinds),
             "leaves": each.leaves} for each in found.candidates
        ],
    }  # fmt: skip


def zones_data(found: Sequence[Zone]) -> dict[str, Any]:
    """Give how hard each zone pulls over the open field, and how deep or fast the job goes there; null where it doesn't."""
    return {
        "version": VERSION,
        "zones": [
            {"name": each.name, "factor": _span(each.factor), "readings": each.readings, "chance": each.chance,
             "open_field": each.open_field, "depth": None if each.depth is None else _n(each.depth, "cm"),
             "speed": None if each.speed is None else _n(each.speed, "km/h")} for each in found
        ],
    }  # fmt: skip


def record_data(record: Record) -> dict[str, Any]:
    """Give what was said and what came."""
    return {
        "version": VERSION, "text": record_text(record), "inside": record.inside, "of": len(record.kept), "few": record.few,
        "usual": list(record.usual), "state": record.state,
        "by_number": {kind: {"below": below, "inside": inside, "above": above}
                      for kind, (below, inside, above) in record.by_kind.items()},
        "numbers": [
            {"reading": each.place + 1, "number": each.kind, "unit": KIND_UNITS[each.kind], "read": each.read, "low": each.low,
             "high": each.high if math.isfinite(each.high) else None, "inside": each.inside} for each in record.kept
        ],
    }  # fmt: skip


def _n(value: float, unit: str) -> dict[str, Any]:
    return {"value": value, "unit": unit}


def _span(span: Span) -> dict[str, float | None]:
    return {name: value if math.isfinite(value) else None for name, value in vars(span).items()}
