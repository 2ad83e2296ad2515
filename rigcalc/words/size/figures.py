"""Numbers of the working: four figures at most, in the units chosen with those of the source beside them."""

from __future__ import annotations

from rigcalc.core.dimensions import by_hand
from rigcalc.core.units import factor
from rigcalc.words.numbers import System, number, to_shown

_FIGURES = 4
# Units of the book that aren't shown as they are: the one to go by.
_BY = {"N": "kN", "m/s": "km/h"}


def plain(value: float) -> str:
    """Give a number as it is put into a formula: no commas."""
    return number(value, _FIGURES).replace(",", "")


def both(value: float, unit: str, units: System) -> str:
    """Give a number in the units chosen, and in those of the source beside it where they differ."""
    own = f"{plain(value)} {'' if unit in ('1', 'text') else by_hand(unit)}".strip()
    by = _BY.get(unit, unit)
    shown, target = to_shown(value * factor(unit, by) if by != unit else value, by, units)
    return own if target == unit else f"{number(shown, _FIGURES)} {by_hand(target)} ({own})"
