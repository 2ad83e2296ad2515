"""A comparison as a file: what is asked of all, and every rig with its name."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.compare.answer import MOST
from rigcalc.models.rig.file import rig_from, rig_text
from rigcalc.models.rig.rig import Rig


def comparison_text(asked: Mapping[str, str], rigs: Sequence[tuple[str, Rig]]) -> str:
    """Write a comparison as TOML: `compare` holds what is asked of all, `rigs` the rigs, each as in a rig file."""
    import tomlkit

    data = {
        "compare": {name: text for name, text in asked.items() if text},
        "rigs": [{"name": name, "rig": tomllib.loads(rig_text(rig))} for name, rig in rigs],
    }
    text = tomlkit.dumps(data)
    # What can't be seen, such as a mark that turns the reading direction, is spelled out.
    return "".join(c if c.isprintable() or c == "\n" else f"\\U{ord(c):08x}" for c in text)


def rigs_in(text: str) -> tuple[dict[str, str], list[tuple[str, Rig]]] | None:
    """Read what `comparison_text` wrote; None where the text is something else, such as a rig file.

    Raises InputError that names every fault of every rig.
    """
    try:
        data = tomllib.loads(text)
    except (ValueError, RecursionError):
        return None
    found = data.get("rigs")
    if not isinstance(found, list):
        return None
    if not 1 <= len(found) <= MOST:
        raise InputError([Fault("file", f"{len(found)} rigs", f"one to {MOST} rigs")])
    asked, rigs, faults = data.get("compare", {}), [], []
    if not isinstance(asked, Mapping) or not all(isinstance(value, str) for value in asked.values()):
        faults.append(Fault("file, compare", shown(asked), "texts by name", 'same = "work"'))
        asked = {}
    for place, each in enumerate(found, 1):
        name = each.get("name") if isinstance(each, Mapping) else None
        name = name if isinstance(name, str) else f"rig {place}"
        try:
            inside: Any = each.get("rig") if isinstance(each, Mapping) else each
            rigs.append((name, rig_from(inside)))
        except InputError as error:
            faults += [Fault(f"{name}, {fault.where}", fault.got, fault.expected, fault.type_this) for fault in error.faults]
    if faults:
        raise InputError(faults)
    return dict(asked), rigs
