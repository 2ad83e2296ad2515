"""What readings change, depth by depth: the band of draft and the chance that every limit holds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.models.machine.draft_force import draft_force
from rigcalc.models.machine.draws import draws_for
from rigcalc.models.machine.limits import Caps
from rigcalc.models.machine.statics import plain
from rigcalc.models.machine.sure import HIGH, LOW, chance_over
from rigcalc.models.rig.bare import BareRig

_COUNT = 512  # draws at each depth, as for the chance


@dataclass(frozen=True, eq=False)
class OverDepth:
    """Arrays over depths: the ends of the band of 8 in 10 of draft in kN, and the chance that every limit holds."""

    low: Any
    high: Any
    chance: Any


def over_depth(b: BareRig, c: Caps, depths: Any) -> OverDepth:
    """Work both out for `depths` in cm, a 1-d array; by the readings where `b` was told some, else by the table."""
    depths = np.asarray(depths, float)
    drawn = draws_for(b, 0, _COUNT)
    draft = np.sort(draft_force(b.at(depth=depths[:, None]), plain, drawn) + np.zeros((depths.size, _COUNT)), axis=1)
    low, high = (draft[:, int(level * _COUNT)] for level in (LOW, HIGH))
    return OverDepth(low, high, chance_over(b, c, depths)[1])
