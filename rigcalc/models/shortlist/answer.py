"""The shortlist, as facts: for each drive the smallest tractor that has the reserve, and the widest tool for this tractor."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from os import PathLike

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import parse
from rigcalc.models.machine.wetness import Wet, at_best, wetness
from rigcalc.models.rig.asked import asked
from rigcalc.models.rig.file import replaced
from rigcalc.models.rig.measure import Measure
from rigcalc.models.rig.resize import tool_changes
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.written import plainly
from rigcalc.models.shortlist.classes import DRIVES, borders, span, with_tractor
from rigcalc.models.shortlist.trial import Trial, trial
from rigcalc.models.size.answer import Answer, size
from rigcalc.models.size.verdict import Judgement

MOST_RESERVE = 0.6  # our choice: nobody buys two and a half times the power that the work takes
MOST_TOOLS = 200
NOTHING = "nothing"  # what stops a wider tool, where no limit does as far as was looked
_STEP, _FINE = 20.0, 1.0  # kW: first steps of power, and what the answer is good to


@dataclass(frozen=True)
class Fit:
    """What was found for one drive.

    smallest: the answer to the smallest tractor that keeps every limit with the reserve in the likely case and is no "don't";
    surest: the smallest that is "go" too. None where no tractor up to `most_power` (kW) is. At that most powerful one, binds is
    the limit that is fullest and used its share, the engine's counted without the reserve; largest is its answer.
    """

    drive: str
    most_power: float
    smallest: Answer | None
    surest: Answer | None
    largest: Answer
    binds: str
    used: float

    @property
    def is_least(self) -> bool:
        """True when the smallest found is the least that is looked at of this drive: less power might do."""
        return self.smallest is not None and power_of(self.smallest) <= span(self.drive)[0]


@dataclass(frozen=True)
class Widest:
    """How wide a tool the rig's own tractor takes with the reserve: the answer to the widest that holds and is no "don't", and
    to the widest that is "go"; None where not even the narrowest is. binds: what stops one more."""

    widest: Answer | None
    surest: Answer | None
    binds: str


@dataclass(frozen=True)
class Shortlist:
    """Tractors for a tool, and tools for a tractor. `rigcalc.in_words(shortlist)` says it.

    fits: one for each drive, in the order asked. reserve: share of engine power left. wet: how wet the ground is, where that
    alone says don't; None else.
    """

    rig: Rig
    reserve: float
    fits: tuple[Fit, ...]
    widest: Widest
    wet: Wet | None
    seed: int

    @property
    def best(self) -> Fit | None:
        """The drive with the smallest tractor of all; None where none fits."""
        return min((fit for fit in self.fits if fit.smallest), key=lambda fit: power_of(fit.smallest), default=None)

    @property
    def judgement(self) -> Judgement:
        """ "go" where some tractor by class is go, "try" where some fits, "dont" where none does or the ground forbids it."""
        if self.wet is not None or self.best is None:
            return Judgement.DONT
        return Judgement.GO if any(fit.surest for fit in self.fits) else Judgement.TRY


def power_of(answer: Answer | None) -> float:
    """Give the engine power, kW, of a tractor by class."""
    assert answer is not None
    return answer.rig.tractor.rated_power.to("kW")


def shortlist(
    rig: Rig | str | PathLike[str], *, reserve: str | float = "15 percent", drives: Sequence[str] = DRIVES, seed: int = 0
) -> Shortlist:
    """Seek the smallest tractor by class for a rig's tool and work, and the widest tool for its tractor.

    A tractor by class is no machine you can buy: weight by power, split, wheelbase, hitch and tyres come from tables.

    Parameters
    ----------
    rig : Rig, str or pathlib.Path
        The rig, the path of its file, or the name of a demo rig. Tool, depth, speed and ground are its own.
    reserve : str or float, optional
        Share of engine power that is to be left, such as "15 percent" or 0.15, 0 to 60 percent. 15 to 20 is common practice.
    drives : sequence of str, optional
        Which of "2WD", "MFWD", "4WD" and "track" to look at; all where none are given.
    seed : int, optional
        Seed of the draws behind every chance, from 0 up.

    Returns
    -------
    Shortlist
        For each drive the answers to the smallest tractor that fits and to the smallest that is "go" (power to 1 kW), and what
        stops where none fits; for the rig's own tractor the widest tool. `rigcalc.in_words(found)` says it.

    Raises
    ------
    InputError
        For a rig and options that can't be used: all at once.

    Examples
    --------
    >>> found = shortlist("two_wheel_drive", reserve="20 percent", drives=["MFWD"])
    >>> bool(found.fits[0].smallest.point.bare.engine_share < 0.8)
    True
    """
    faults: list[Fault] = []
    left = _reserve(reserve, faults)
    _check_drives(drives, faults)
    rig = asked(rig, faults, seed=seed)
    wet = wetness(rig)
    forbids = wet is not None and at_best(wet.state) is Judgement.DONT
    fits = tuple(_fit(rig, drive, left, seed) for drive in dict.fromkeys(drives))
    return Shortlist(rig, left, fits, _widest(rig, left, seed), wet.state if wet is not None and forbids else None, seed)


def _reserve(text: object, faults: list[Fault]) -> float:
    number = -1.0
    if isinstance(text, (int, float)) and not isinstance(text, bool):
        number = float(text)
    elif isinstance(text, str):
        try:
            value, unit = parse(plainly(text))
            number = value / 100 if unit == "percent" else value if not unit else -1.0
        except InputError:
            pass
    if not 0 <= number <= MOST_RESERVE:
        faults.append(Fault("reserve", shown(text), f"a share of 0 to {MOST_RESERVE:.0%}; usual is 15 to 20 %", '"15 percent"'))
        return 0.0
    return number


def _check_drives(drives: object, faults: list[Fault]) -> None:
    listed = [] if isinstance(drives, (str, bytes)) or not isinstance(drives, Sequence) else list(drives)
    if not listed or any(drive not in DRIVES for drive in listed):
        faults.append(Fault("drives", shown(drives), f"a list of some of {', '.join(DRIVES)}", '["MFWD", "4WD"]'))


def _fit(rig: Rig, drive: str, reserve: float, seed: int) -> Fit:
    most = span(drive)[1]
    tried: dict[float, Trial] = {}

    def at(power: float) -> Trial:
        if power not in tried:
            tried[power] = trial(with_tractor(rig, drive, power), reserve, seed)
        return tried[power]

    def answer(power: float | None) -> Answer | None:
        return None if power is None else size(at(power).case.rig, seed=seed)

    smallest = _first(drive, lambda power: at(power).fits)
    surest = None if smallest is None else _first(drive, lambda power: power >= smallest and at(power).goes)
    name, used = at(most).binds
    return Fit(drive, most, answer(smallest), answer(surest), size(at(most).case.rig, seed=seed), name, used)


def _first(drive: str, passes: Callable[[float], bool]) -> float | None:
    """Give the first power, kW, that passes: by coarse steps, then by fine ones in the step before.

    What passes at no coarse step is not found, so what asks more can't come out smaller: its coarse step is no earlier, and
    within one step the fine ones are the same.
    """
    low, high = span(drive)
    coarse: list[float] = sorted({*np.arange(low, high, _STEP).tolist(), *borders(drive), high})
    found = next((place for place, power in enumerate(coarse) if passes(power)), None)
    if found is None:
        return None
    if found == 0:
        return coarse[0]
    fine: list[float] = np.arange(coarse[found - 1] + _FINE, coarse[found], _FINE).tolist()
    return next((power for power in fine if passes(power)), coarse[found])


def resized(rig: Rig, count: int) -> Rig:
    """Give the rig with a tool of so many pieces, or of so many sections where it is measured by its width."""
    changes = tool_changes(rig, count)
    if rig.implement.width is not None:
        del changes["implement.tools"]
        changes["implement.width"] = str(Measure.of(count * rig.implement.spacing.to("m"), "m"))
    return replaced(rig, changes)


def _widest(rig: Rig, reserve: float, seed: int) -> Widest:
    tried: dict[int, Trial | None] = {}

    def at(count: int) -> Trial | None:
        """Give the trial of a tool of so many pieces; None for one that is beyond what stands in any yard."""
        if count not in tried:
            try:
                tried[count] = trial(resized(rig, count), reserve, seed)
            except InputError:
                tried[count] = None
        return tried[count]

    def answer(count: int | None) -> Answer | None:
        found = None if count is None else at(count)
        return None if found is None else size(found.case.rig, seed=seed)

    own = rig.implement.tools
    widest = _last(lambda count: (found := at(count)) is not None and found.fits, own)
    surest = None if widest is None else _last(lambda count: (found := at(count)) is not None and found.goes, min(own, widest))
    over = at(1 if widest is None else widest + 1)
    return Widest(answer(widest), answer(surest), NOTHING if over is None else over.binds[0])


def _last(passes: Callable[[int], bool], own: int) -> int | None:
    """Give the greatest count that passes, sought upward from the narrowest, or else from the rig's own; None for neither."""
    low = next((count for count in (1, own) if passes(count)), None)
    if low is None:
        return None
    high = 2 * low
    while high <= MOST_TOOLS and passes(high):
        low, high = high, 2 * high
    high = min(high, MOST_TOOLS + 1)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if passes(middle) else (low, middle)
    return low
