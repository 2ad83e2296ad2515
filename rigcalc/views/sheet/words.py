"""Text from outside, made fit for one printed page: control signs gone, one line, no longer than there is room for."""

from __future__ import annotations

import unicodedata

from rigcalc.core.errors import Fault, InputError

# Room on the sheet for each text that the user gives, in characters.
ROOM = {"who": 60, "where": 60, "when": 40, "gear": 16, "comment": 240}
MOST_MARKS = 2  # marks stacked on one letter; more would run into the lines above


def clean(text: str, longest: int) -> str:
    """Give `text` as one line of at most `longest` characters, its end replaced by an ellipsis where it is longer.

    Signs that print nothing or turn the direction of the line are left out.
    """
    out: list[str] = []
    marks = 0
    for sign in text[: 4 * longest + 4]:
        kind = unicodedata.category(sign)
        marks = marks + 1 if kind[0] == "M" else 0
        if kind == "Cf" or marks > MOST_MARKS:
            continue
        out.append(" " if kind == "Cc" or kind[0] == "Z" else "\N{REPLACEMENT CHARACTER}" if kind[0] == "C" else sign)
    line = " ".join("".join(out).split())
    return line if len(line) <= longest else line[: longest - 1].rstrip() + "…"


def clean_about(about: dict[str, str | None]) -> dict[str, str]:
    """Clean the optional texts of a sheet. Raises InputError for one that isn't text, or that the sheet doesn't have."""
    faults = [
        Fault(name, "a text that the sheet has no room for", f"one of {', '.join(ROOM)}") for name in about if name not in ROOM
    ]
    faults += [
        Fault(name, type(value).__name__, "text", f'{name}="…"')
        for name, value in about.items()
        if name in ROOM and value is not None and not isinstance(value, str)
    ]
    if faults:
        raise InputError(faults)
    return {name: clean(about.get(name) or "", room) for name, room in ROOM.items()}
