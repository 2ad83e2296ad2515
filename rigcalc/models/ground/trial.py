"""A strip trial: how many pairs of strips, with and without the pass, show a difference in yield of so much.

The power of a paired t test, from the normal law and the law of the scatter's own estimate (Student 1908; the noncentral t as
in any text on statistics), integrated here so that no statistics package is needed.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import parse

POWER, FALSE_ALARM = 0.8, 0.05  # common practice: seen in 8 of 10 trials; 1 in 20 shows what isn't there
SCATTER = (0.05, 0.12)  # of the yield, from memory, low confidence: what the two strips of a pair differ by for no reason
FEWEST, MOST = 2, 1000
_SPREAD = 9.0  # the law of the scatter is gone within this of its middle, to 1e-15
_erf = np.vectorize(math.erf, otypes=[float])


@dataclass(frozen=True)
class Trial:
    """A trial in pairs of strips; shares of the yield as decimals.

    see: the difference to see, None where nobody named one. scatter: (low, high), the standard deviation of the difference
    within a pair; known: somebody typed it. pairs: how many there are, None where nobody said. needed: (low, high) pairs, None
    where no difference is named, an end None where more than 1000. shows: (low, high) least difference that the pairs show.
    """

    see: float | None
    scatter: tuple[float, float]
    known: bool
    pairs: int | None
    needed: tuple[int | None, int | None] | None
    shows: tuple[float, float] | None

    @property
    def enough(self) -> bool | None:
        """True where the pairs surely do, False where they surely don't; None between, and where either isn't named."""
        if self.needed is None or self.pairs is None:
            return None
        low, high = (math.inf if end is None else end for end in self.needed)
        return True if high <= self.pairs else False if low > self.pairs else None


def strip_trial(see: str | None, scatter: str | None, pairs: Any) -> Trial | None:
    """Plan a trial. see and scatter: "5 percent" of the yield; pairs: a whole number, 2 to 1000. None where nothing is asked.

    Raises InputError with every fault.
    """
    if see is None and scatter is None and pairs is None:
        return None
    faults: list[Fault] = []
    wanted = _share("see", see, "5 percent", faults)
    typed = _share("scatter", scatter, "8 percent", faults)
    if pairs is not None and (isinstance(pairs, bool) or not isinstance(pairs, int) or not FEWEST <= pairs <= MOST):
        faults.append(Fault("pairs", shown(pairs), f"a whole number of pairs, {FEWEST} to {MOST}", "6"))
    if see is None and pairs is None:
        faults.append(Fault("scatter", "no difference and no pairs", "what to see, or how many pairs", 'see "5 percent"'))
    if faults:
        raise InputError(faults)
    low, high = (typed, typed) if typed is not None else SCATTER
    return Trial(
        see=wanted,
        scatter=(low, high),
        known=typed is not None,
        pairs=pairs,
        needed=None if wanted is None else (pairs_needed(wanted / low), pairs_needed(wanted / high)),
        shows=None if pairs is None else (low * least_shown(pairs), high * least_shown(pairs)),
    )


def trial_of(typed: Mapping[str, Any], own: Mapping[str, Any]) -> Trial | None:
    """Plan a trial as typed, and for what isn't typed as the rig file says (`own`): see, scatter, pairs.

    None where nothing is asked: a scatter in the rig file alone asks nothing. Raises InputError with every fault.
    """
    given = {name: own.get(name) if typed.get(name) is None else typed[name] for name in ("see", "scatter", "pairs")}
    if all(value is None for value in typed.values()) and given["see"] is None and given["pairs"] is None:
        return None
    try:
        return strip_trial(given["see"], given["scatter"], given["pairs"])
    except InputError as error:
        of_file = {name for name in given if typed.get(name) is None and own.get(name) is not None}
        faults = [replace(each, where=f"ground.trial_{each.where}") if each.where in of_file else each for each in error.faults]
        raise InputError(faults) from None


def pairs_needed(ratio: float, power: float = POWER, false_alarm: float = FALSE_ALARM) -> int | None:
    """Give the pairs that show a difference of `ratio` standard deviations (of differences); None for more than 1000."""
    low, high = FEWEST - 1, FEWEST
    while paired_power(high, ratio, false_alarm) < power:
        if high >= MOST:
            return None
        low, high = high, min(2 * high, MOST)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if paired_power(middle, ratio, false_alarm) >= power else (middle, high)
    return high


def least_shown(pairs: int, power: float = POWER, false_alarm: float = FALSE_ALARM) -> float:
    """Give the least difference, in standard deviations of differences, that so many pairs show with a power."""
    low, high = 0.0, 100.0
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (low, middle) if paired_power(pairs, middle, false_alarm) >= power else (middle, high)
    return high


def paired_power(pairs: int, ratio: float, false_alarm: float = FALSE_ALARM) -> float:
    """Give the chance that a two-sided paired t test shows a difference of `ratio` standard deviations of differences."""
    return t_power(pairs - 1, ratio * math.sqrt(pairs), false_alarm)


def t_power(freedom: float, shift: float, false_alarm: float) -> float:
    """Give the chance that t with degrees of freedom and a shift lies outside what chance alone leaves inside."""
    edge = _edge(freedom, false_alarm)
    return 1 - _t_below(edge, freedom, shift) + _t_below(-edge, freedom, shift)


@lru_cache(maxsize=4096)
def _edge(freedom: float, false_alarm: float) -> float:
    low, high = 0.0, 2.0
    while _t_below(high, freedom, 0.0) < 1 - false_alarm / 2:
        high *= 2
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if _t_below(middle, freedom, 0.0) >= 1 - false_alarm / 2 else (middle, high)
    return high


@lru_cache(maxsize=256)
def _scatters(freedom: float) -> tuple[Any, Any]:
    """Give places and weights of the estimated scatter over the true one."""
    middle = math.sqrt(freedom)
    low, high = max(0.0, middle - _SPREAD), middle + _SPREAD
    nodes, weights = np.polynomial.legendre.leggauss(96)
    x = (high + low) / 2 + (high - low) / 2 * nodes
    logs = (1 - freedom / 2) * math.log(2) + (freedom - 1) * np.log(x) - x * x / 2 - math.lgamma(freedom / 2)
    return x / middle, weights * (high - low) / 2 * np.exp(logs)


def _t_below(t: float, freedom: float, shift: float) -> float:
    scatter, weights = _scatters(freedom)
    return float(np.sum(weights * 0.5 * (1 + _erf((t * scatter - shift) / math.sqrt(2)))))


def _share(name: str, text: Any, example: str, faults: list[Fault]) -> float | None:
    if text is None:
        return None
    try:
        value, unit = parse(text)
    except InputError:
        value, unit = math.nan, ""
    if unit != "percent" or not 0.1 <= value <= 100:
        faults.append(Fault(name, shown(text), "0.1 to 100 percent of the yield", f'"{example}"'))
        return None
    return value / 100
