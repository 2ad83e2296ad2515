"""How a printed range is read: "plus or minus 50 percent" as factors on the figure. Decision 0002 says why."""

from __future__ import annotations

from statistics import NormalDist
from typing import Any

import numpy as np

DEVIATIONS = 2.0  # a printed range is this many standard deviations: the one line that decides how ranges are read


def factor_at(level: float, spread: float) -> float:
    """Give the factor on a figure that a share `level` of fields stays below. spread: the printed range as a decimal.

    A normal distribution around 1, cut off at nothing and at double.
    """
    if spread == 0:
        return 1.0
    normal, sigma = NormalDist(), spread / DEVIATIONS
    low, high = normal.cdf(-1 / sigma), normal.cdf(1 / sigma)
    return 1 + sigma * normal.inv_cdf(low + level * (high - low))


def level_of(factor: float, spread: float) -> float:
    """Give the share of fields that stay below a factor, from 0 to 1: `factor_at` the other way round, for a spread over 0."""
    normal, sigma = NormalDist(), spread / DEVIATIONS
    low, high = normal.cdf(-1 / sigma), normal.cdf(1 / sigma)
    return min(max((normal.cdf((factor - 1) / sigma) - low) / (high - low), 0.0), 1.0)


def factors(spread: float, count: int) -> Any:
    """Give `count` factors in rising order, one from the middle of each of as many equally likely parts."""
    if spread == 0:
        return np.ones(count)
    return np.array([factor_at(level, spread) for level in (np.arange(count) + 0.5) / count])
