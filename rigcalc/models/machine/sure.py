"""How sure: the draft table's range and the soil's strength carried through the whole chain.

docs/decisions/0002-how-sure.md says how the range is read and why.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.models.machine.draws import DRAWS, READING, draws_for
from rigcalc.models.machine.limits import NEEDS, Caps, shares, works
from rigcalc.models.machine.operating_point import UNITS, solve
from rigcalc.models.rig.bare import BareRig

BANDED = ("draft", "drawbar_pull", "slip", "engine_power", "engine_share", "tractive_efficiency", "fuel_rate",
          "fuel_per_area", "front_load", "rear_load")  # fmt: skip
LOW, HIGH = 0.1, 0.9  # the band that 8 fields in 10 fall into


@dataclass(frozen=True)
class Sure:
    """How sure an answer is.

    chance_pulls: share of fields in which grip and engine are enough. chance_works: in which every hard limit holds and
    slip stays in its band. bands: name -> (low, middle, high, unit), bare; None for an end that grip can't reach.
    """

    chance_pulls: float
    chance_works: float
    bands: dict[str, tuple[float | None, float | None, float | None, str]]
    draft_range: float
    seed: int


def how_sure(b: BareRig, c: Caps, cone_spread: float | None = None, seed: int = 0, reading: str = READING) -> Sure:
    """Carry every doubt through the chain at one point. The same seed gives the same answer.

    cone_spread: range of the cone index (the table's where it is None). reading: of the draft row's range, see READINGS.
    """
    drawn = draws_for(b, seed, DRAWS, cone_spread, reading)
    point = solve(b, drawn=drawn, want=(*BANDED, *NEEDS))
    used = shares(b, point, c)
    pulls = np.isfinite(point.slip) & (used["engine"] <= 1.0)
    bands = {}
    for name in BANDED:
        values = np.broadcast_to(getattr(point, name), drawn.row.shape)
        values = np.sort(np.where(np.isnan(values), np.inf, values))
        at = [values[min(int(level * DRAWS), DRAWS - 1)] for level in (LOW, 0.5, HIGH)]
        low, middle, high = (float(v) if np.isfinite(v) else None for v in at)
        bands[name] = (low, middle, high, UNITS[name])
    return Sure(float(pulls.mean()), float(works(used).mean()), bands, b.draft_range, seed)


def chance_over(
    b: BareRig, c: Caps, depths: Any, cone_spread: float | None = None, seed: int = 0, count: int = 512
) -> tuple[Any, Any]:
    """Give (chance that it pulls, chance that it works well) for each of `depths` in cm, a 1-d array."""
    drawn = draws_for(b, seed, count, cone_spread)
    grid = b.at(depth=np.asarray(depths, float)[:, None])
    point = solve(grid, drawn=drawn, want=NEEDS)
    used = shares(grid, point, c)
    pulls = np.isfinite(point.slip) & (used["engine"] <= 1.0)
    return pulls.mean(axis=1), works(used).mean(axis=1)
