"""A second opinion where a chisel works deeper than chisels do: the same job by the subsoiler row of the same table."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rigcalc.core.tables import table
from rigcalc.models.machine.limits import Caps
from rigcalc.models.machine.operating_point import Point, solve
from rigcalc.models.rig.bare import BareRig, soil_factor, soil_group_of
from rigcalc.models.rig.rig import Rig

ROW = "subsoiler_narrow"


@dataclass(frozen=True)
class SecondOpinion:
    """Draft in kN and share of rated power by the subsoiler row (None where grip can't give it), and whether it goes."""

    draft: float
    engine_share: float | None
    goes: bool


def second_opinion(rig: Rig, b: BareRig, p: Point, c: Caps) -> SecondOpinion | None:
    """Ask the subsoiler row, if the tool is a chisel deeper than usual; None otherwise."""
    if not rig.implement.tool.startswith("chisel") or c.usual_depth is None or p.depth <= c.usual_depth[1]:
        return None
    row = table("d497_draft")[ROW]
    factor = soil_factor(row, soil_group_of(rig))
    other = solve(b.at(soil_factor=factor, draft_a=row["a_si"], draft_b=row["b_si"], draft_c=row["c_si"]))
    pulls = bool(np.isfinite(other.slip))
    share = float(other.engine_share) if pulls else None
    goes = share is not None and share * b.rated_pto <= b.maximum_pto
    return SecondOpinion(float(other.draft), share, goes)
