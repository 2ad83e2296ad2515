"""A second opinion on a tyre's contact: Keller's model by its pressure, with the load it closes; refused where that's off.

The model sets the greatest stress, the outline and the shape across; what is left to meet the wheel's load is one exponent
along the tyre. That often isn't enough, so the load is added up and held against the wheel's.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from rigcalc.equations import contact_shape as book
from rigcalc.equations import precompression
from rigcalc.models.ground.layers import Floats

MOST_OFF = 0.05  # of the wheel's load: beyond it no stress is given
EXPONENTS = (1.0, 16.0)  # as the model has them
_ACROSS, _ALONG = 24, 48  # cells of the contact
_PLACES = 7  # from the middle to the edge, where the greatest stress at a depth is looked for


@dataclass(frozen=True)
class Contact:
    """The contact of one tyre: greatest stress (kPa), length (m), the load that the model closes and the wheel's (kN).

    pressure and recommended: kPa, of the tyre and what it should have at that load. low and high: greatest stress in kPa at
    depths in cm, for two concentration factors; None where the load is off by more than 5 percent.
    """

    pressure: float
    recommended: float
    peak: float
    length: float
    closed: float
    load: float
    depths: Floats
    low: Floats | None
    high: Floats | None

    @property
    def off(self) -> float:
        """How far the load that is closed is off the wheel's, as a share of it."""
        return self.closed / self.load - 1

    @property
    def holds(self) -> bool:
        """True where the load closes within 5 percent."""
        return abs(self.off) <= MOST_OFF

    def at(self, depth: float) -> tuple[float, float] | None:
        """Give the greatest stress at a depth in cm, kPa (low, high); None where the model is refused."""
        if self.low is None or self.high is None:
            return None
        return float(np.interp(depth, self.depths, self.low)), float(np.interp(depth, self.depths, self.high))


def contact(
    load: float, width: float, diameter: float, pressure: float, recommended: float, beside: Sequence[float],
    depths: Floats, factors: tuple[float, float],
) -> Contact | None:  # fmt: skip
    """Ask the model for a tyre; None where it is too wide or its outline vanishes.

    load in kN, width and diameter in m, pressures in kPa, beside: how far aside (m) other tyres of the side stand, as
    `Axle.beside` gives them: the first with a plus, depths in cm, factors: concentration factors.
    """
    peak = float(book.contact_peak.bare(pressure, load, recommended))
    length = float(book.contact_length_of_tyre.bare(diameter, pressure, recommended))
    decay = float(book.contact_decay.bare(width))
    if decay <= 0 or length <= 0 or peak <= 0:
        return None
    half = width / 2
    y = half * ((np.arange(_ACROSS) + 0.5) / _ACROSS * 2 - 1)
    from_edge = half - np.abs(y)
    shape = from_edge * np.exp(-decay * from_edge)
    top = min(1 / decay, half)
    shape = shape / (top * np.exp(-decay * top))
    square = float(book.contact_squareness.bare(width, diameter))
    reach = length / 2 * (1 - np.abs(y / half) ** square) ** (1 / square)
    # Along the tyre 1 - (x/reach)^exponent has the mean exponent / (exponent + 1), so the exponent follows from the load.
    full = peak * float(np.sum(shape * 2 * reach)) * width / _ACROSS
    lowest, highest = (one / (one + 1) for one in EXPONENTS)
    mean = min(max(load / full, lowest), highest)
    closed = mean * full
    if abs(closed / load - 1) > MOST_OFF:
        return Contact(pressure, recommended, peak, length, closed, load, depths, None, None)
    exponent = mean / (1 - mean)
    u = (np.arange(_ALONG) + 0.5) / _ALONG * 2 - 1
    along = 1 - np.abs(u) ** exponent
    along *= mean / along.mean()  # what cells miss of the curve
    each = peak * shape[:, None] * along * (2 * reach[:, None] / _ALONG) * (width / _ACROSS)  # kN on each cell
    x, where = reach[:, None] * u, np.broadcast_to(y[:, None], each.shape)
    ends = [_greatest(each, x, where, half, beside, depths / 100, factor) for factor in factors]
    return Contact(pressure, recommended, peak, length, closed, load, depths, np.minimum(*ends), np.maximum(*ends))


def _greatest(each: Floats, x: Floats, y: Floats, half: float, beside: Sequence[float], down: Floats, factor: float) -> Floats:
    """Give the greatest stress at depths in m, looked for from the middle of the tyre to its edge on the neighbour's side."""
    best = np.zeros(down.shape)
    for place in half * np.linspace(0.0, 1.0, _PLACES):
        total = np.zeros(down.shape)
        for middle in (0.0, *beside):
            far = np.hypot(x, y + middle - place).ravel()
            total += precompression.stress_beside_load.bare(each.ravel(), factor, down[:, None], far).sum(axis=-1)
        best = np.maximum(best, total)
    return best
