"""The drawbar as it was entered, against what the table of cautions and the rig file allow."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.core.tables import table
from rigcalc.core.units import factor
from rigcalc.models.rig.rig import Rig

CAUTION = "drawbar_height"  # the caution whose second value is the greatest height


@dataclass(frozen=True)
class Drawbar:
    """Height and greatest height in cm, tongue load and its limit in kN; the limit is None where the rig file has none."""

    height: float
    most_height: float
    tongue: float
    most_tongue: float | None

    @property
    def too_high(self) -> bool:
        """True where the hitch point stands higher than a drawbar should."""
        return self.height > self.most_height * (1 + 1e-9)

    @property
    def too_heavy(self) -> bool:
        """True where the tongue load is over its limit."""
        return self.most_tongue is not None and self.tongue > self.most_tongue


def drawbar(rig: Rig) -> Drawbar:
    """Read a rig's drawbar."""
    row, tractor = table("cautions")[CAUTION], rig.tractor
    limit = tractor.drawbar_load_limit
    return Drawbar(
        height=tractor.drawbar_height.to("cm"),
        most_height=row["value_2"] * factor(row["unit"], "cm"),
        tongue=rig.implement.hitch_load.to("kN"),
        most_tongue=limit.to("kN") if limit else None,
    )
