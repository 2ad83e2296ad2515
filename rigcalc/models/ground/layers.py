"""Where does a cone meet a layer, and how sure is that: one search for ten readings or two hundred, for one site or many.

The layer is the stretch over the limit with the greatest sum of what is over it; its ends are where readings cross the limit.
docs/decisions/0019-wetness-and-depth.md says why, and what was measured.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

CLEAR = 1.6  # our choice: how many times its own doubt the mean of a stretch has to lie over the limit
CLEAR_OF_FEW = 0.5  # the same where a site has few readings, as by hand: nearly the plain rule "over the limit"
THINNEST = 4.0  # cm, our choice: what is thinner is a stone or a reading gone wrong
NOISE = 400.0  # kPa: what readings side by side scatter by; taken where a site has too few to say
_NOISE_SPAN = (150.0, 600.0)  # kPa, our choice
_FEW = 8  # readings from which a site's own scatter is taken
_FAR = -1e12

Floats = np.ndarray[Any, np.dtype[np.float64]]
Flags = np.ndarray[Any, np.dtype[np.bool_]]


@dataclass(frozen=True)
class Layers:
    """The layer at each site, as arrays of one value a site: depths in cm, resistance in kPa.

    found: there is one. top, hardest, bottom: NaN where there is none. peak: the highest reading in it. chance: how sure it is
    that the stretch lies over the limit (0 to 1), of the likeliest stretch also where none is found; NaN by hand. open_below:
    the readings end inside it. from_top: they begin inside it.
    """

    names: tuple[str, ...]
    found: Flags
    top: Floats
    hardest: Floats
    bottom: Floats
    peak: Floats
    chance: Floats
    open_below: Flags
    from_top: Flags

    def __len__(self) -> int:
        """Count the sites."""
        return len(self.names)

    def joined(self, other: Layers) -> Layers:
        """Give these sites and others behind them."""
        arrays = {
            name: np.concatenate([getattr(self, name), getattr(other, name)])
            for name in ("found", "top", "hardest", "bottom", "peak", "chance", "open_below", "from_top")
        }
        return Layers(self.names + other.names, **arrays)


def find_layers(names: tuple[str, ...], depth: Floats, reading: Floats, limit: float) -> Layers:
    """Find the layer at every site: the shallowest stretch that is clearly over the limit.

    depth (cm, rising) and reading (kPa) have a row for each site, with NaN behind the last reading; limit in kPa.
    """
    over = np.where(np.isfinite(reading), reading - limit, _FAR)
    noise = _noise(reading)
    count = np.isfinite(reading).sum(axis=1)
    needed = np.where(count < _FEW, CLEAR_OF_FEW, CLEAR)
    first, last, clear, doubt = _stretch(depth, over, noise, needed)
    # A firm subsoil often outweighs the layer above it: look once more above what was found.
    above = np.where(np.arange(over.shape[1]) < first[:, None], over, _FAR)
    first_above, last_above, clear_above, doubt_above = _stretch(depth, above, noise, needed)
    use = clear & clear_above
    first, last = np.where(use, first_above, first), np.where(use, last_above, last)
    doubt = np.where(use, doubt_above, doubt)
    sites = np.arange(len(names))
    inside = (np.arange(over.shape[1]) >= first[:, None]) & (np.arange(over.shape[1]) <= last[:, None])
    hardest = np.where(inside, over, -np.inf).argmax(axis=1)
    top = _crossing(depth, over, first - 1, first)
    bottom = _crossing(depth, over, last + 1, last)
    hidden = ~clear
    return Layers(
        names=names,
        found=clear,
        top=np.where(hidden, np.nan, top),
        hardest=np.where(hidden, np.nan, depth[sites, hardest]),
        bottom=np.where(hidden, np.nan, bottom),
        peak=np.where(hidden, np.nan, reading[sites, hardest]),
        chance=_chances(doubt),
        open_below=clear & (last == count - 1),
        from_top=clear & (first == 0),
    )


def _noise(reading: Floats) -> Floats:
    """Give what neighbouring readings scatter by at each site, in kPa: from second differences, a straight rise taken out."""
    if reading.shape[1] < _FEW:
        return np.full(len(reading), NOISE)
    bend = np.abs(reading[:, 2:] - 2 * reading[:, 1:-1] + reading[:, :-2])
    enough = np.isfinite(bend).sum(axis=1) >= _FEW - 2
    middle = np.full(len(reading), np.nan)
    middle[enough] = np.nanmedian(bend[enough], axis=1) if enough.any() else np.nan
    return np.clip(np.where(enough, middle / (0.6745 * math.sqrt(6)), NOISE), *_NOISE_SPAN)


def _stretch(depth: Floats, over: Floats, noise: Floats, needed: Floats) -> tuple[Any, Any, Flags, Floats]:
    """Give the stretch with the greatest sum over the limit: first and last reading, whether it is clear, mean over doubt."""
    sites, points = over.shape
    best, total = np.full(sites, -np.inf), np.full(sites, -np.inf)
    first = last = start = np.zeros(sites, dtype=int)
    for at in range(points):
        fresh = total <= 0
        total = np.where(fresh, over[:, at], total + over[:, at])
        start = np.where(fresh, at, start)
        better = total > best
        best, first, last = np.where(better, total, best), np.where(better, start, first), np.where(better, at, last)
    rows = np.arange(sites)
    doubt = best / (noise * np.sqrt(last - first + 1))
    # A reading stands for the ground half way to its neighbours.
    ends = np.stack([depth[rows, np.maximum(first - 1, 0)], depth[rows, first], depth[rows, last],
                     depth[rows, np.minimum(last + 1, points - 1)]])  # fmt: skip
    ends = np.where(np.isfinite(ends), ends, depth[rows, last])
    thick = (ends[3] + ends[2] - ends[1] - ends[0]) / 2
    return first, last, (doubt >= needed) & (thick >= THINNEST), doubt


def _crossing(depth: Floats, over: Floats, outside: Any, inside: Any) -> Floats:
    """Give the depth at which the line between two readings crosses the limit; the inner one's own where there is no other."""
    rows = np.arange(len(depth))
    there = (outside >= 0) & (outside < depth.shape[1])
    outer = np.where(there, outside, inside)
    low, high = over[rows, outer], over[rows, inside]
    there &= low > _FAR
    part = np.where(there & (high > low), high / np.where(high > low, high - low, 1.0), 0.0)
    a, b = depth[rows, inside], np.where(there, depth[rows, outer], depth[rows, inside])
    return np.asarray(a + part * (b - a))


def _chances(doubt: Floats) -> Floats:
    """Give the chance that goes with so many times the doubt: the normal law, by an approximation good to 1e-7."""
    x = np.clip(np.where(np.isfinite(doubt), doubt, -9.0), -9.0, 9.0)
    t = 1 / (1 + 0.2316419 * np.abs(x))
    tail = np.exp(-x * x / 2) / math.sqrt(2 * math.pi) * t * (
        0.319381530 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))  # fmt: skip
    return np.asarray(np.where(x >= 0, 1 - tail, tail))
