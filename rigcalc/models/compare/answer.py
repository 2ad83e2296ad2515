"""The comparison, as facts: the answer to each rig, made with the same draws, and which one is ahead."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from os import PathLike
from pathlib import Path

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.compare.choice import Choice, choice
from rigcalc.models.compare.figures import Value, figures
from rigcalc.models.rig.asked import asked
from rigcalc.models.rig.file import DEMO_RIGS
from rigcalc.models.rig.rig import Rig
from rigcalc.models.size.answer import Answer, size

FEWEST, MOST = 2, 8
_LONGEST_NAME = 60

AnyRig = Rig | str | PathLike[str]


@dataclass(frozen=True)
class Compared:
    """One rig of a comparison: what it is called, its answer, and its figures by name (bare; `figures.UNITS` has the units)."""

    name: str
    answer: Answer
    figures: dict[str, Value]


@dataclass(frozen=True)
class Comparison:
    """Two to eight rigs side by side, in the order given, and which is ahead. `rigcalc.in_words(comparison)` says it."""

    rigs: tuple[Compared, ...]
    choice: Choice
    seed: int

    @property
    def ahead(self) -> tuple[str, ...]:
        """The names of the rigs that are ahead: one, or several that are even."""
        return tuple(self.rigs[at].name for at in self.choice.front)


def compare(rigs: Sequence[AnyRig], names: Sequence[str] | None = None, *, seed: int = 0) -> Comparison:
    """Lay two to eight rigs side by side: which one, why, and whether it matters.

    Every rig is asked the question of `size` with the same draws of draft and soil, so that a difference between two chances
    is one between the rigs. "Even" means one verdict and chances within 5 of 100: our choice.

    Parameters
    ----------
    rigs : sequence of Rig, str or pathlib.Path
        Two to eight rigs, each a rig, the path of its file, or the name of a demo rig; with their own depths and speeds.
    names : sequence of str, optional
        What each is called; from its file or its place where none is given. Equal ones get a number.
    seed : int, optional
        Seed of the draws behind every chance, from 0 up; the same for all rigs.

    Returns
    -------
    Comparison
        For each rig its answer and its figures in bare numbers (chance 1, draft kN, power kW and kW/m, area ha/h, fuel L/ha,
        depth cm), and the choice. `rigcalc.in_words(comparison)` says it in either system of units.

    Raises
    ------
    InputError
        For fewer than two and more than eight rigs, and for rigs and options that can't be used: all at once, each by name.

    Examples
    --------
    >>> found = compare(["front_wheel_assist", "two_wheel_drive"])
    >>> found.choice.outcome.value, found.ahead
    ('even', ('front_wheel_assist', 'two_wheel_drive'))
    """
    faults = _faults(rigs, names)
    if faults:
        raise InputError(faults)
    called = distinct(names if names is not None else default_names(rigs))
    loaded: list[Rig] = []
    for name, rig in zip(called, rigs, strict=True):
        try:
            loaded.append(asked(rig))
        except InputError as error:
            faults += [Fault(f"{name}: {fault.where}", fault.got, fault.expected, fault.type_this) for fault in error.faults]
    try:
        asked(DEMO_RIGS[0], seed=seed)  # the option once, not for each rig
    except InputError as error:
        faults += error.faults
    if faults:
        raise InputError(faults)
    answers = [size(rig, seed=seed) for rig in loaded]
    sides = tuple(Compared(name, answer, figures(answer)) for name, answer in zip(called, answers, strict=True))
    return Comparison(sides, choice(answers, [side.figures for side in sides]), seed)


def default_names(rigs: Sequence[object]) -> list[str]:
    """Give what each rig is called: its file's name without the end, a demo rig's name, or its place among the rigs.

    Files of one name in different folders are called by their paths.
    """
    paths = {str(rig) for rig in rigs if isinstance(rig, (str, PathLike))}
    stems = [Path(path).stem for path in paths]
    out = []
    for place, rig in enumerate(rigs, 1):
        stem = Path(rig).stem if isinstance(rig, (str, PathLike)) else f"rig {place}"
        out.append(stem if stems.count(stem) <= 1 and stem else str(rig))
    return out


def distinct(names: Sequence[str]) -> list[str]:
    """Give the names, each a second time with a number, so that no two are the same."""
    out: list[str] = []
    for name in names:
        name = name.strip()[:_LONGEST_NAME] or "rig"
        count, made = 1, name
        while made in out:
            count += 1
            made = f"{name} ({count})"
        out.append(made)
    return out


def _faults(rigs: object, names: object) -> list[Fault]:
    type_this = 'rigcalc.compare(["articulated", "two_track"])'
    if isinstance(rigs, (str, bytes)) or not isinstance(rigs, Sequence):
        return [Fault("rigs", shown(rigs), "a list of two to eight rigs", type_this)]
    out = []
    if not FEWEST <= len(rigs) <= MOST:
        out.append(Fault("rigs", f"{len(rigs)} of them", "two to eight rigs", type_this))
    if names is not None:
        if isinstance(names, (str, bytes)) or not isinstance(names, Sequence) or not all(isinstance(n, str) for n in names):
            out.append(Fault("names", shown(names), "a list of texts", 'names=["this one", "that one"]'))
        elif len(names) != len(rigs):
            out.append(Fault("names", f"{len(names)} of them", f"one for each of {len(rigs)} rigs", "names=None"))
    return out
