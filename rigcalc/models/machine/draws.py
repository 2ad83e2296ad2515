"""The draws that every "how sure" is made of: what is uncertain about draft and soil, as equally likely combinations.

docs/decisions/0002-how-sure.md says what is drawn, how the table's range is read, and why.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from statistics import NormalDist
from typing import Any

import numpy as np

from rigcalc.core.tables import table
from rigcalc.models.machine.ranges import factor_at

DRAWS = 2048
READINGS = ("two_deviations", "hard_limits")  # what "plus or minus 50 percent" may mean
READING = READINGS[0]  # scored against measured drafts in docs/how_good.md


@dataclass(frozen=True)
class Draws:
    """Combinations, as arrays of one length (or NumPy scalars for the likely case).

    row: factor on draft within the range of its row. cone: factor on cone index. deep: share, 0 to 1, of the way that the
    depth allows from the chisel row towards the subsoiler row. texture: level, 0 to 1, from the soil group taken to the
    other that texts name. behind: draft of a tine behind a wheel over one beside it. usual: average share of wheeled tines
    in the rows.
    """

    row: Any
    cone: Any
    deep: Any
    texture: Any
    behind: Any
    usual: Any


def number(name: str) -> float:
    """Give a number of the table draft_doubt."""
    return float(table("draft_doubt")[name]["value"])


@cache
def likely() -> Draws:
    """Give the one combination that the likely answer stands on: the middle of every doubt, the soil group as taken."""
    return Draws(1.0, 1.0, 0.5 ** number("deep_power"), 0.0, number("behind_wheels"), number("usual_covered"))


@cache
def draws(
    draft_range: float,
    cone_range: float,
    seed: int,
    count: int = DRAWS,
    reading: str = READING,
    correlation: float | None = None,
) -> Draws:
    """Give `count` combinations: a Latin hypercube, draft and cone index correlated.

    draft_range, cone_range: half the width of each range, as a decimal. reading: one of READINGS. correlation: of draft and
    cone index, by rank; the table's where it is None. The same seed gives the same draws.
    """
    random = np.random.default_rng(seed)
    levels = (np.arange(count) + 0.5) / count
    doubt = table("draft_doubt")
    normal = NormalDist()
    rho = number("correlation") if correlation is None else correlation
    scores = np.array([normal.inv_cdf(level) for level in levels])
    # Ranks of a normal pair: each factor keeps its own levels, so its distribution stays exact.
    paired = rho * scores + np.sqrt(1 - rho**2) * random.permutation(scores)
    cone_levels = levels[np.argsort(np.argsort(paired))]

    def between(name: str) -> Any:
        row = doubt[name]
        return row["low"] + random.permutation(levels) * (row["high"] - row["low"])

    return Draws(
        row=_factors(draft_range, levels, reading),
        cone=_factors(cone_range, cone_levels, READINGS[0]),
        deep=random.permutation(levels) ** number("deep_power"),
        texture=random.permutation(levels),
        behind=between("behind_wheels"),
        usual=between("usual_covered"),
    )


def likely_of(b: Any) -> Draws:
    """Give the one combination that a rig's likely answer stands on: what its field's readings told, where there are any."""
    found: Draws = likely() if b.told is None else b.told.likely
    return found


def draws_for(b: Any, seed: int, count: int = DRAWS, cone_spread: float | None = None, reading: str = READING) -> Draws:
    """Give a rig's combinations: those that its field's readings leave, where there are any; else those of the table."""
    if b.told is not None:
        found: Draws = b.told.draws(count, seed)
        return found
    return draws(b.draft_range, number("cone_range") if cone_spread is None else cone_spread, seed, count, reading)


def _factors(spread: float, levels: Any, reading: str) -> Any:
    """Give factors around 1 at these levels: by `ranges.py`, or even from one end of the range to the other."""
    if reading == "hard_limits":
        return 1 + spread * (2 * levels - 1)
    return np.array([factor_at(float(level), spread) for level in levels])
