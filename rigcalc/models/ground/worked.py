"""Did it work: readings before and after the pass, side by side, and how sure a share of flags makes that."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from rigcalc.models.ground.layers import Floats, Layers
from rigcalc.models.ground.readings import Profiles
from rigcalc.models.machine.judgement import Judgement

SURE = 0.9  # our choice: the chance from which "it worked" and "it didn't" are said
WATER = 400.0  # kPa, our choice: half of what water and density leave unsaid of a reading
_BENEATH = (7.5, 30.0)  # cm under the depth, our choice: ground that no shank touched
_CELLS = 20_001  # fine enough for the shares of 50,000 sites


class Result(StrEnum):
    """What the readings after the pass say of it."""

    NOTHING = "nothing"  # no layer before: nothing to lift
    WATER = "water"  # the ground that no shank touched reads otherwise too
    NO = "no"  # surely less than half of the layer's share is gone
    PARTLY = "partly"  # surely half is gone, but less than wanted
    UNSURE = "unsure"  # too few flags for either
    YES = "yes"


_JUDGED = {Result.YES: Judgement.GO, Result.NO: Judgement.DONT}


@dataclass(frozen=True)
class Worked:
    """What became of the layer. before and after: (flags with a layer, flags).

    gone: the share of the layer that is no longer met, from the two shares (below 0 where there is more of it). chance: that at
    least half is gone. inside and below: flags whose layer after the pass begins above and below the depth of the pass. peaks:
    the middle of the hardest readings before and after in kPa, NaN where none is known. beneath: what readings below the
    pass fell by, in kPa, NaN where nobody logged there.
    """

    result: Result
    before: tuple[int, int]
    after: tuple[int, int]
    wanted: float
    gone: float
    chance: float
    inside: int
    below: int
    peaks: tuple[float, float]
    beneath: float
    work: float

    @property
    def judgement(self) -> Judgement:
        """Go where it worked, don't where it didn't, try where nobody can say yet."""
        return _JUDGED.get(self.result, Judgement.TRY)


def did_it_work(
    before: Layers, after: Layers, work: float, wanted: float, logs: tuple[Profiles | None, Profiles | None]
) -> Worked:
    """Compare layers before and after a pass at a depth in cm.

    wanted: the share of the layer that was to be lifted, above 0 to 1. logs: readings before and after, None where flags were
    written down by hand.
    """
    one, two = (int(before.found.sum()), len(before)), (int(after.found.sum()), len(after))
    gone = 1 - (two[0] / two[1]) / (one[0] / one[1]) if one[0] else math.nan
    chance = chance_of_less(one, two, 0.5)
    beneath = _beneath(logs, work)
    inside = int((after.found & (after.top < work)).sum())
    return Worked(
        result=_result(one[0], gone, chance, wanted, beneath),
        before=one,
        after=two,
        wanted=wanted,
        gone=gone,
        chance=chance,
        inside=inside,
        below=two[0] - inside,
        peaks=(_middle(before.peak), _middle(after.peak)),
        beneath=beneath,
        work=work,
    )


def chance_of_less(before: tuple[int, int], after: tuple[int, int], part: float) -> float:
    """Give the chance that the share after is at most `part` of the share before; each is (count, of how many).

    Every share from 0 to 1 is held for equally likely beforehand (Laplace's rule), and the flags after for others than before.
    """
    share = (np.arange(_CELLS) + 0.5) / _CELLS
    first, second = _likely(share, *before), _likely(share, *after)
    return float(np.clip(np.sum(first * np.interp(part * share, share + 0.5 / _CELLS, np.cumsum(second))), 0.0, 1.0))


def _likely(share: Floats, count: int, of: int) -> Floats:
    logs = count * np.log(share) + (of - count) * np.log1p(-share)
    weights = np.exp(logs - logs.max())
    return np.asarray(weights / weights.sum())


def _result(had: int, gone: float, chance: float, wanted: float, beneath: float) -> Result:
    if not had:
        return Result.NOTHING
    plain = Result.UNSURE
    if chance >= SURE:
        plain = Result.YES if gone >= wanted - 1e-9 else Result.PARTLY
    elif chance <= 1 - SURE:
        plain = Result.NO
    # Wetter ground reads softer and drier ground harder without any shank.
    misled = (beneath > WATER and plain in (Result.YES, Result.PARTLY)) or (beneath < -WATER and plain is Result.NO)
    return Result.WATER if misled else plain


def _beneath(logs: tuple[Profiles | None, Profiles | None], work: float) -> float:
    one, two = (_below(each, work) for each in logs)
    return one - two


def _below(log: Profiles | None, work: float) -> float:
    """Give the middle over the sites of the mean reading in the ground under the pass, kPa; NaN where there is none."""
    if log is None:
        return math.nan
    there = (log.depth > work + _BENEATH[0]) & (log.depth < work + _BENEATH[1]) & np.isfinite(log.reading)
    count = there.sum(axis=1)
    means = np.where(there, log.reading, 0.0).sum(axis=1)[count >= 2] / count[count >= 2]
    return _middle(means)


def _middle(values: Floats) -> float:
    known = values[np.isfinite(values)]
    return float(np.median(known)) if known.size else math.nan
