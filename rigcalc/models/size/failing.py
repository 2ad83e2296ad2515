"""Which limit gives out in most fields: what the doubt is about, where the likely case names a limit that no doubt moves."""

from __future__ import annotations

import numpy as np

from rigcalc.models.machine.draws import draws_for
from rigcalc.models.machine.limits import LIMITS, NEEDS, WORKING, shares
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.size.answer import Answer


def failing(answer: Answer) -> dict[str, float]:
    """Give, by name, the share of the answer's own draws in which each limit that counts is passed; those never passed not.

    Where grip can't give the pull there is no slip and no engine load; grip alone is counted there.
    """
    b = answer.bare_rig
    drawn = draws_for(b, answer.sure.seed)
    used = shares(b, solve(b, drawn=drawn, want=NEEDS), answer.caps)
    counting = [name for name in used if LIMITS[name].hard or name in WORKING]
    parts = {name: float(np.mean(np.broadcast_to(used[name] > 1.0, drawn.row.shape))) for name in counting}
    return {name: share for name, share in parts.items() if share > 0}


def fails_most(answer: Answer) -> str | None:
    """Give the limit that is passed in most fields; None where none ever is."""
    shares_passed = failing(answer)
    return max(shares_passed, key=shares_passed.__getitem__, default=None)
