"""The masses that a tractor can have: never below itself without ballast, never over the maker's limit."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rigcalc.core.units import mass_of
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.liquid import hung_mass
from rigcalc.models.rig.rig import Rig


@dataclass(frozen=True)
class Reach:
    """Least and most mass in kg. The least is "bare": all that the rig file lists as hung taken off; the most "mass_limit"."""

    low: float
    high: float


def reach_of(rig: Rig, b: BareRig) -> Reach:
    """Give the reach of a rig. What the file doesn't list can't come off; without a maker's limit there is no upper end."""
    now = mass_of(b.weight)
    low = now - hung_mass(rig)
    most = rig.setup.mass_limit.to("kg") if rig.setup is not None and rig.setup.mass_limit is not None else math.inf
    return Reach(low, max(low, most))
