"""Bias, coverage and score of a set of compared rows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from rigcalc.models.measured.compare import Compared


@dataclass(frozen=True)
class Score:
    """How a set of rows did.

    rows: that could be compared. bias: median of prediction over measurement. banded, inside: rows with a band, and those
    that agree. crps: mean continuous ranked probability score of the drawn predictions as a share of the measurement (0 is
    perfect; less is better); None where nothing was drawn.
    """

    rows: int
    bias: float
    banded: int
    inside: int
    crps: float | None


def score(rows: Iterable[Compared]) -> Score | None:
    """Score rows; those that can't be compared are left out. None where none is left."""
    live = [row for row in rows if row.predicted is not None]
    if not live:
        return None
    ratios = [row.predicted / row.measured for row in live if row.predicted is not None]
    judged = [row.inside for row in live if row.inside is not None]
    ranked = [crps(row) for row in live if row.drawn is not None]
    return Score(len(live), float(np.median(ratios)), len(judged), sum(judged), float(np.mean(ranked)) if ranked else None)


def crps(row: Compared) -> float:
    """Give the ranked probability score of one row's draws, as a share of its measurement (Gneiting and Raftery 2007)."""
    drawn = np.sort(row.drawn)
    count = drawn.size
    spread = 2 * float(np.sum((np.arange(1, count + 1) - (count + 1) / 2) * drawn)) / count**2
    return (float(np.mean(np.abs(drawn - row.measured))) - spread) / row.measured
