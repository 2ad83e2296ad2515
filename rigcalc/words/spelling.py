"""Tire or tyre: the one place that spells a text for its units. Texts are written with "tyre"; names of entries stay.

American units go with "tire", metric ones with "tyre", on every page, in the terminal, on the sheet and in faults.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from rigcalc.core.errors import Fault
from rigcalc.words.numbers import System

# A word by itself: not a part of a name such as `filled_tyres`, nor an entry such as `tractor.rear.tyres` or `tyres = 4`.
_WORD = re.compile(r"(?<![\w.\[/])([Tt])yre(s?)(?!\w|\.\w|\s*=|\])")


def spelt(text: str, units: System) -> str:
    """Spell a text of our own for its units; never for what somebody typed.

    >>> spelt("Tyres hold; type tyres = 4 under [tractor.rear]", "us")
    'Tires hold; type tyres = 4 under [tractor.rear]'
    """
    if units == "si":
        return text
    return _WORD.sub(lambda found: f"{'T' if found[1] == 'T' else 't'}ire{found[2]}", text)


def fault_spelt(fault: Fault, units: System) -> Fault:
    """Spell what a fault expects; where it stands, what came and what to type stay letter by letter."""
    return Fault(fault.where, fault.got, spelt(fault.expected, units), fault.type_this)


def faults_text(text: str, faults: Iterable[Fault], units: System) -> str:
    """Spell the text of an error that lists faults: what each expects, and nothing else."""
    for fault in faults:
        text = text.replace(str(fault), str(fault_spelt(fault, units)))
    return text
