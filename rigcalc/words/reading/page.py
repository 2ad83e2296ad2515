"""What the page of readings says beside the words of the terminal."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.models.machine.field import Told
from rigcalc.words.reading.listed import KIND_TITLES

ASIDE = "If it is wrong, set that reading aside; until then it counts."


def misfit_lines(told: Told) -> Iterator[str]:
    """Say which numbers don't go with the rest, or that the readings hardly go together."""
    for place, kind in told.misfits:
        rest = "with the other readings" if len(told.seen) > 1 else "with what the table has"
        yield f"Look again: {KIND_TITLES[kind]} of reading {place + 1} doesn't go {rest}. {ASIDE}"
    if told.thin:
        yield "The readings hardly go together, so this is rough."
