"""A second opinion where a tool works deeper than usual: the same job by another row of the same table."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rigcalc.core.tables import table
from rigcalc.models.machine.engine import available_pto
from rigcalc.models.machine.limits import Caps
from rigcalc.models.machine.operating_point import Point, solve
from rigcalc.models.rig.bare import BareRig, soil_factor, soil_group_of
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.tool import usual


@dataclass(frozen=True)
class SecondOpinion:
    """The row that was asked, its draft in kN and share of rated power (None where grip can't give it), whether it goes."""

    row: str
    draft: float
    engine_share: float | None
    goes: bool


def second_opinion(rig: Rig, b: BareRig, p: Point, c: Caps) -> SecondOpinion | None:
    """Ask the row that the tool's own row names, if it works deeper than usual; None otherwise."""
    other = usual(rig.implement.tool).second_opinion
    if other is None or c.usual_depth is None or p.depth <= c.usual_depth[1]:
        return None
    row = table("d497_draft")[other]
    factor = soil_factor(row, soil_group_of(rig))
    changed = b.at(soil_factor=factor, draft_a=row["a_si"], draft_b=row["b_si"], draft_c=row["c_si"], deep_from=None, told=None)
    point = solve(changed, want=("draft", "slip", "engine_share"))
    pulls = bool(np.isfinite(point.slip))
    share = float(point.engine_share) if pulls else None
    goes = share is not None and bool(share * b.rated_pto <= available_pto(b))
    return SecondOpinion(other, float(point.draft), share, goes)
