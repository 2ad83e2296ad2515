"""How a tractor on two tracks stands on them: place of the resultant, peak pressure, and the load of each third."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from rigcalc.equations import contact as book

PARTS = 3


def peak_pressure(pressure: Any, ahead: Any, length: Any) -> Any:
    """Give the pressure at the heavier end, kPa; infinite where the resultant has left the contact. Arrays broadcast."""
    off = np.abs(ahead) / length
    with np.errstate(divide="ignore", invalid="ignore"):
        triangle = book.peak_pressure_triangle.bare(pressure, np.abs(ahead), length / 6, length)
        trapezoid = book.peak_pressure_trapezoid.bare(pressure, np.abs(ahead), length / 6)
    return np.where(off <= 1 / 6, trapezoid, np.where(off < 1 / 2, triangle, np.inf))[()]


@dataclass(frozen=True)
class TrackContact:
    """At one point: resultant ahead of the middle (m), contact length (m), mean and peak pressure (kPa), shares of the load.

    parts: shares of the rear, middle and front third. lifts: True where one end of the track bears nothing.
    """

    ahead: float
    length: float
    mean_pressure: float
    peak_pressure: float
    parts: tuple[float, ...]
    lifts: bool


def track_contact(load: float, area: float, length: float, ahead: float) -> TrackContact:
    """Work out how a two-track tractor stands. load in kN, area in m2 (all tracks), length and ahead in m."""
    mean = load / area
    off = ahead / length
    if abs(off) <= 1 / 6:
        ends = [part / PARTS for part in range(PARTS + 1)]
        parts = tuple(float(book.part_share_trapezoid.bare(a, b, ahead, length / 6)) for a, b in pairwise(ends))
    else:
        parts = _triangle_parts(off)
    return TrackContact(ahead, length, mean, float(peak_pressure(mean, ahead, length)), parts, abs(off) > 1 / 6)


def _triangle_parts(off: float) -> tuple[float, ...]:
    """Shares of the thirds where the load stands on a triangle of 3 times its distance from the heavier end."""
    base = 3 * (0.5 - abs(off))
    if base <= 0:
        return (0.0, 0.0, 1.0) if off > 0 else (1.0, 0.0, 0.0)

    def carried(upto: float) -> float:  # share that stands within `upto` of the heavier end
        reach = min(upto / base, 1.0)
        return 1 - (1 - reach) ** 2

    from_heavy = [carried((part + 1) / PARTS) - carried(part / PARTS) for part in range(PARTS)]
    return tuple(from_heavy[::-1]) if off > 0 else tuple(from_heavy)
