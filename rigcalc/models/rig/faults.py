"""Every fault of a rig file at once, in words.

pydantic stops before the checks that look at several fields when one of them is bad. So a bad field is mended from a rig that
is in order and the file is checked again, until nothing new turns up; what a mended field would be blamed for is left out.
"""

from __future__ import annotations

import copy
import difflib
from functools import cache, lru_cache
from typing import Any, get_args

from pydantic import BaseModel, ValidationError

from rigcalc.core.errors import Fault, shown
from rigcalc.models.rig.rig import Rig

_ROUNDS = 4
_ACROSS = ("gear", "rig")  # errors of checks that look at several fields
# What stands in for a faulty entry that the rig in order doesn't have, where taking it out would raise faults of its own.
_STAND_INS = {"size": "710/70R42", "total_mass": "20000 kg", "front_share": "40 percent"}
_SECTIONS = ("tractor", "implement", "ground", "work", "front", "rear")


def all_faults(data: dict[str, Any], error: ValidationError, good: Rig) -> list[Fault]:
    """List every fault of `data`, given the error of its first check. good: a rig whose entries stand in for faulty ones."""
    data, pattern = copy.deepcopy(data), good.model_dump(mode="json", exclude_none=True)
    faults: dict[str, Fault] = {}
    mended: set[str] = set()
    out: set[tuple[Any, ...]] = set()  # places of what was mended: an entry that was taken out isn't missing
    for _ in range(_ROUNDS):
        entries: list[dict[str, Any]] = [dict(entry) for entry in error.errors(include_url=False)]
        entries = [entry for entry in entries if entry["type"] != "missing" or entry["loc"] not in out]
        for entry in entries:
            fault = fault_of(entry)
            if entry["type"] not in _ACROSS or not any(name in fault.got.split() for name in mended):
                faults.setdefault(f"{fault.where} {fault.got}", fault)
        fixed = [_mend(data, entry, pattern) for entry in entries if entry["type"] != "rig"]
        if not any(fixed):
            break
        out |= {tuple(entry["loc"]) for entry in entries}
        mended |= {name for name in fixed if name}
        try:
            Rig.model_validate(data)
        except ValidationError as again:
            error = again
        else:
            break
    return list(faults.values())


def _mend(data: dict[str, Any], entry: dict[str, Any], pattern: Any) -> str:
    """Mend one field in place from the pattern, or take it out. Gives its name, or "" where it can't be reached."""
    *path, last = entry["loc"]
    part: Any = data
    for name in path:
        try:
            part = part[name]
        except (KeyError, IndexError, TypeError):
            return ""
        pattern = pattern.get(name, {}) if isinstance(pattern, dict) else {}
    if not isinstance(part, dict):
        return ""
    if entry["type"] != "extra_forbidden" and isinstance(pattern, dict) and last in pattern:
        part[last] = pattern[last]
    elif entry["type"] != "extra_forbidden" and last in _STAND_INS:
        part[last] = _STAND_INS[last]
    else:
        part.pop(last, None)
    return str(last)


def fault_of(entry: dict[str, Any]) -> Fault:
    """Put one of pydantic's errors into words: what came, what was expected, what to type."""
    where = ".".join(str(part) for part in entry["loc"]) or "rig"
    kind, context, got = entry["type"], entry.get("ctx", {}), entry.get("input")
    if kind in ("measure", "gear", "rig"):
        return Fault(where, context["got"], context["expected"], context.get("type_this", ""))
    if kind == "missing":
        if entry["loc"][-1] in _SECTIONS:
            return Fault(where, "nothing", "this section", f"[{where}] and its fields, as in `rigcalc new --full`")
        return Fault(
            where, "nothing", "a value: this field must be there", f"{entry['loc'][-1]} = …, as in `rigcalc new --full`"
        )
    if kind == "extra_forbidden":
        if entry["loc"][-1] in _known_keys():
            return Fault(
                where, "a key that doesn't belong in this section", "it in its own section, as `rigcalc new --full` shows"
            )
        near = _near(str(entry["loc"][-1])[:40])
        return Fault(where, "a key that rigcalc doesn't know", "a known key", f"{near[0]}, perhaps" if near else "")
    if kind == "too_long":
        most, count = context["max_length"], context["actual_length"]
        if entry["loc"][-1] == "ballast":
            return Fault(
                where, f"{count:,} entries", f"at most {most}", "weights that are alike under one name; what stays on left out"
            )
        return Fault(where, f"{count:,} entries", f"at most {most}")
    if kind == "string_too_long":
        return Fault(where, f"{len(str(got)):,} letters", f"at most {context['max_length']}")
    if kind == "literal_error":
        return Fault(where, shown(got), f"one of {context['expected']}")
    if kind in ("int_type", "greater_than_equal", "less_than_equal", "int_from_float"):
        return Fault(where, shown(got), "a whole number from 1 to 200, without quotes", f"{entry['loc'][-1]} = 15")
    return Fault(where, shown(got), str(entry["msg"])[:200])


@lru_cache(1000)
def _near(name: str) -> list[str]:
    return difflib.get_close_matches(name, _known_keys(), n=1)


@cache
def _known_keys() -> tuple[str, ...]:
    def keys(model: type[BaseModel]) -> list[str]:
        out = []
        for name, field in model.model_fields.items():
            out.append(name)
            for part in (field.annotation, *get_args(field.annotation)):
                if isinstance(part, type) and issubclass(part, BaseModel):
                    out += keys(part)
        return out

    return tuple(dict.fromkeys(keys(Rig)))
