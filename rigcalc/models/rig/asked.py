"""What a question is asked with, checked in one place: the rig, and the options that several questions share."""

from __future__ import annotations

import operator
from collections.abc import Iterable
from os import PathLike
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.rig.file import load_rig
from rigcalc.models.rig.rig import Rig

_LEAST = {"seed": 0, "threads": 1}
_CHOICES: dict[str, tuple[Any, ...]] = {"units": ("us", "si"), "strict": (False, True),
                                          "job": ("light", "this", "full")}  # fmt: skip


def asked(rig: Any, faults: Iterable[Fault] = (), **options: Any) -> Rig:
    """Give the rig that a question is asked about: a Rig as it is, a path or the name of a demo rig loaded.

    options: seed, threads (whole numbers), units, job, strict (each as in `_CHOICES`), each where the question takes it.
    faults: what the question itself found wrong. Raises InputError that names everything at once.
    """
    found = [*faults, *(fault for name, value in options.items() if (fault := _option_fault(name, value)) is not None)]
    if isinstance(rig, (str, PathLike)):
        try:
            rig = load_rig(str(rig))
        except InputError as error:
            found = [*error.faults, *found]
    elif not isinstance(rig, Rig):
        found.insert(0, Fault("rig", shown(rig), "a Rig, the path of a rig file, or the name of a demo rig",
                              'rigcalc.load_rig("articulated")'))  # fmt: skip
    if found:
        raise InputError(found)
    made: Rig = rig
    return made


def _option_fault(name: str, value: Any) -> Fault | None:
    if name in _CHOICES:
        choices = _CHOICES[name]
        if any(value is choice or (isinstance(value, str) and value == choice) for choice in choices):
            return None
        return Fault(name, shown(value), f"one of {', '.join(map(str, choices))}", str(choices[-1]))
    least = _LEAST[name]
    try:
        if not isinstance(value, bool) and operator.index(value) >= least:
            return None
    except TypeError:
        pass
    return Fault(name, shown(value), f"a whole number from {least} up", str(least))
