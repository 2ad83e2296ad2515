"""One job put to the limits and the judgement of `size`, with a reserve of engine power: does it fit, and what stops it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from rigcalc.models.machine.case import Case, case_of
from rigcalc.models.machine.limits import works, worst
from rigcalc.models.machine.sure import how_sure
from rigcalc.models.rig.rig import Rig
from rigcalc.models.size.verdict import Judgement, Verdict, beyond, verdict

OF_THE_TOOL = ("tool_depth", "tool_power")  # limits of the tool itself: no tractor mends them


@dataclass(frozen=True)
class Trial:
    """One rig on trial. Wet ground isn't looked at here: no tractor is small or large enough for it."""

    case: Case
    reserve: float
    seed: int

    @cached_property
    def load(self) -> float:
        """Engine power taken, as a share of rated power or of what is there at the engine speed set, whichever is fuller."""
        return float(max(self.case.point.engine_share, self.case.used["engine"]))

    @cached_property
    def holds(self) -> bool:
        """True when, in the likely case, every limit holds and the reserve is left."""
        return bool(works(self.case.used)) and self.load <= 1 - self.reserve

    @cached_property
    def verdict(self) -> Verdict:
        """The judgement of `size`, chance counted, before the wetness of the ground."""
        case = self.case
        chance = how_sure(case.bare, case.caps, seed=self.seed).chance_works
        return verdict(case.point, case.used, chance, beyond(case.bare))

    @property
    def fits(self) -> bool:
        """True when it holds with the reserve, and the chance is no "don't"."""
        return self.holds and self.verdict.judgement is not Judgement.DONT

    @property
    def goes(self) -> bool:
        """True when it holds with the reserve, and the judgement is "go"."""
        return self.holds and self.verdict.judgement is Judgement.GO

    @property
    def binds(self) -> tuple[str, float]:
        """The limit that is fullest and its share, the engine's counted without the reserve; one of the tool before all."""
        used: dict[str, Any] = dict(self.case.used)
        for name in OF_THE_TOOL:
            if used.get(name, 0.0) > 1:
                return name, float(used[name])
        used["engine"] = np.asarray(self.load / (1 - self.reserve))
        share, name = worst(used)
        return str(name), float(share)


def trial(rig: Rig, reserve: float, seed: int) -> Trial:
    """Put a rig on trial. reserve: share of engine power that is to be left."""
    return Trial(case_of(rig), reserve, seed)
