"""What maps of a field share: classes of a scale with their colours, a length to measure by, which way is north."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from rigcalc.core.units import factor
from rigcalc.widgets.colours import LIGHT
from rigcalc.words.numbers import System, number

WIDE, MOST_HIGH, EDGE = 1200, 1100, 40
CLASSES = (("scale2", 2.0), ("scale3", 3.0), ("scale4", 4.2), ("scale5", 5.6), ("ink", 7.2))  # colour, and width of the line
_LENGTHS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000)


def class_ends(values: Any) -> Any:
    """Give the six ends of five classes: each a fifth of the values, or even steps where fifths fall together."""
    if not values.size:
        return np.linspace(0.0, 1.0, 6)
    limits = np.quantile(values, np.linspace(0, 1, 6))
    if (np.diff(limits) <= 1e-9 * max(abs(limits[-1]), 1e-9)).any():
        low, high = float(limits[0]), float(limits[-1])
        limits = np.linspace(low, high if high > low else low + max(abs(low), 1.0) * 0.01, 6)
    return limits


def measure(scale: float, units: System, y: float) -> Iterator[str]:
    """Draw a length to measure by, a round one that takes about a sixth of the width, and which way is north."""
    unit = "ft" if units == "us" else "m"
    one = factor(unit, "m") * scale
    length = max((each for each in _LENGTHS if each * one <= WIDE / 5), default=_LENGTHS[0])
    yield (f'<path d="M{EDGE} {y - 8:.0f}v8h{length * one:.1f}v-8" fill="none" stroke="{LIGHT["ink"]}" stroke-width="2"/>'
           f'<text x="{EDGE + length * one + 10:.0f}" y="{y:.0f}">{number(length, 5)} {unit}</text>')  # fmt: skip
    yield (f'<path class="north" d="M{WIDE - EDGE} {y:.0f}v-34m-7 10l7 -12l7 12" fill="none" stroke="{LIGHT["ink"]}" '
           f'stroke-width="2"/><text x="{WIDE - EDGE - 14}" y="{y:.0f}" text-anchor="end">N</text>')  # fmt: skip
