"""One problem drawn: round numbers for a student and a seed, the right answer, and what each slip would give.

All combinations of a kind's round values are worked at once, and those that are physical are kept. A student and a seed point
at one of them, so that no two seeds of a student give the same problem until all of them have been given.
"""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from math import gcd

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.classroom.chain import answer, worked
from rigcalc.models.classroom.kinds import SYSTEMS, Amount, Kind, System, kinds

MOST_SEED = 10**9
_GOLDEN = 0.6180339887498949  # a stride near this share of all spreads neighbouring seeds as far apart as can be
_APART = 2.5  # tolerances between the right answer and one with a slip; nearer, nobody could tell them apart


@dataclass(frozen=True)
class Problem:
    """A problem with its numbers.

    `given` holds the amounts and `texts` the words by the names in the kind's text; `answer` is right, in `unit`. `place` says
    which of the kind's problems this is.
    """

    kind: Kind
    system: System
    place: int
    given: Mapping[str, Amount]
    texts: Mapping[str, str]
    answer: float
    unit: str

    @cached_property
    def slips(self) -> Mapping[str, float]:
        """Give what comes out with each slip that can be told from the right answer here, in the same unit."""
        out = {}
        for slip in self.kind.slips:
            if slip.only in ("", self.system):
                value = float(answer(self.kind, self.given, self.unit, slip))
                if np.isfinite(value) and abs(value - self.answer) > _APART * self.kind.relative * abs(self.answer):
                    out[slip.key] = value
        return out


def draw(kind: str, student: str = "", seed: int = 0, system: System = "us", taken: Collection[int] = ()) -> Problem:
    """Draw a problem of a kind for a student.

    Parameters
    ----------
    kind : str
        A name of `kinds()`.
    student : str, optional
        Any name; another name starts elsewhere among the kind's problems.
    seed : int, optional
        From 0 to a thousand million; the next seed gives another problem.
    system : {"us", "si"}, optional
        American or metric numbers: both are round in their own system.
    taken : collection of int, optional
        Places of problems that others have, which are passed over while there are others left.

    Returns
    -------
    Problem
        The same for the same arguments, on every machine.

    Raises
    ------
    InputError
        For a kind, a seed or a system that there isn't, all at once.

    Examples
    --------
    >>> problem = draw("drawbar_power", "a student", seed=1, system="si")
    >>> problem.unit, sorted(problem.given)
    ('kW', ['draft', 'speed'])
    """
    faults = []
    if kind not in kinds():
        faults.append(Fault("kind", shown(kind), "a kind of problem", ", ".join(kinds())))
    if not isinstance(seed, int) or isinstance(seed, bool) or not 0 <= seed <= MOST_SEED:
        faults.append(Fault("seed", shown(seed), f"a whole number from 0 to {MOST_SEED:,}", "1"))
    if system not in SYSTEMS:
        faults.append(Fault("system", shown(system), "us or si", "us"))
    if faults:
        raise InputError(faults)
    there_are = places(kind, system)
    stride = _stride(len(there_are))
    digest = hashlib.sha256(f"{kind}\n{system}\n{student}".encode("utf-8", "replace")).digest()
    at = (int.from_bytes(digest[:8], "big") + seed * stride) % len(there_are)
    for _ in range(len(there_are)):
        if there_are[at] not in taken:
            break
        at = (at + stride) % len(there_are)
    return at_place(kind, system, int(there_are[at]))


def at_place(kind_name: str, system: System, place: int) -> Problem:
    """Give the problem at a place of `places`."""
    kind = kinds()[kind_name]
    given: dict[str, Amount] = {}
    texts: dict[str, str] = {}
    left = place
    for name, span in kind.given[system].items():
        left, index = divmod(left, len(span.values))
        given[name] = Amount(span.values[index], span.unit)
    for options in kind.picks[system]:
        left, index = divmod(left, len(options))
        for name, value in options[index].items():
            if isinstance(value, str):
                texts[name] = value
            else:
                given[name] = value
    unit = kind.units[system]
    return Problem(kind, system, place, given, texts, float(answer(kind, given, unit)), unit)


@cache
def places(kind_name: str, system: System) -> np.ndarray:
    """Give the places of all problems of a kind that are physical, as an array of whole numbers."""
    kind = kinds()[kind_name]
    spans, picks = kind.given[system], kind.picks[system]
    sizes = [len(span.values) for span in spans.values()] + [len(options) for options in picks]
    left = np.arange(int(np.prod(sizes)))
    every = left.copy()
    given: dict[str, Amount] = {}
    for name, span in spans.items():
        left, index = np.divmod(left, len(span.values))
        given[name] = Amount(np.array(span.values)[index], span.unit)
    for options in picks:
        left, index = np.divmod(left, len(options))
        for name, value in options[0].items():
            if not isinstance(value, str):
                numbers = [option[name].in_(value.unit) for option in options]  # type: ignore[union-attr]
                given[name] = Amount(np.array(numbers)[index], value.unit)
    values = worked(kind, given)
    good = np.ones(every.shape, dtype=bool)
    for name, (low, high) in kind.within.items():
        found = values[name].in_(low.unit)
        good &= (found >= low.number) & (found <= high.in_(low.unit))
    return every[good]


@cache
def _stride(count: int) -> int:
    stride = max(1, round(count * _GOLDEN))
    while gcd(stride, count) != 1:
        stride += 1
    return stride
