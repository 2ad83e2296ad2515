"""One rig with variations: every combination of the values given for some of its entries."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import product
from typing import Any

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.rig.changes import short_name, typed_changes
from rigcalc.models.rig.file import replaced
from rigcalc.models.rig.rig import Rig

_CLOSE, _SPACED = re.compile(r"[0-9],[0-9]"), re.compile(r",\s")
_BARE, _WITH_UNIT = re.compile(r"[-+]?[0-9.]+"), re.compile(r"[-+]?[0-9.]+\s*[A-Za-z%\"']")

Variation = dict[str, str]  # entry -> the text that stands there


def variations(entries: Mapping[str, Sequence[str]]) -> list[Variation]:
    """Give every combination of the values of some entries, the last entry running fastest.

    >>> [list(each.values()) for each in variations({"tools": ["11", "13"], "depth": ["12 in", "14 in"]})]
    [['11', '12 in'], ['11', '14 in'], ['13', '12 in'], ['13', '14 in']]
    """
    return [dict(zip(entries, values, strict=True)) for values in product(*entries.values())]


def listed_values(text: str) -> list[str]:
    """Give the values in a text: parted by semicolons where there are any, else by commas. An empty one stays empty.

    >>> listed_values("11, 13,15"), listed_values("9,5 km/h; 11 km/h")
    (['11', '13', '15'], ['9,5 km/h', '11 km/h'])
    """
    return [value.strip() for value in text.split(";" if ";" in text else ",")]


def doubtful(text: str) -> bool:
    """Say whether a comma in a text of values may stand for a decimal point, or part thousands: that is to be asked about.

    So it is where one comma stands close between two digits, and other commas have a space behind them or only some values have
    a unit.

    >>> [doubtful(text) for text in ("9,5 km/h", "9,5 km/h, 11 km/h", "9,5; 11", "12 in, 14 in", "11,13,15")]
    [True, True, False, False, False]
    """
    if ";" in text or not _CLOSE.search(text):
        return False
    values = listed_values(text)
    mixed = any(_BARE.fullmatch(value) for value in values) and any(_WITH_UNIT.match(value) for value in values)
    return mixed or bool(_SPACED.search(text))


def varied(rig: Rig, variation: Variation) -> Rig:
    """Give the rig with these entries changed, all at once. Raises InputError that names every entry that can't be."""
    faults: list[Fault] = []
    changes: dict[str, Any] = {}
    # What changes with the number of tools comes first: a mass that is given has the last word.
    for entry in sorted(variation, key=lambda entry: short_name(entry) != "tools"):
        try:
            changes |= typed_changes(rig, entry, variation[entry])
        except InputError as error:
            faults += error.faults
    if faults:
        raise InputError(faults)
    return replaced(rig, changes)
