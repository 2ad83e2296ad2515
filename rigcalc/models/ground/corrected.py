"""Readings in dry ground overstate: what they would be at field capacity, where water and density of the ground are known."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from rigcalc.core.tables import table
from rigcalc.equations import soil_water as book
from rigcalc.models.ground.depth import probing
from rigcalc.models.ground.layers import Layers, find_layers
from rigcalc.models.ground.readings import Readings
from rigcalc.models.machine.wetness import Band, Wetness
from rigcalc.models.rig.rig import Rig

_WATER = ("water_by_mass", "water_by_volume")


class Uncorrected(StrEnum):
    """Why readings stay as they were read."""

    WATER = "water"  # nobody weighed or probed it
    DENSITY = "density"  # nobody dried a ring
    SHALLOW = "shallow"  # the sample is from well above the points
    RANGE = "range"  # drier, wetter, looser or denser than any core that the relation was found on
    NOTHING = "nothing"  # only flags whose hardest reading nobody wrote down


@dataclass(frozen=True)
class Corrected:
    """Readings as they would be at field capacity.

    water and drained: shares of the volume, as read (low, likely, high) and at field capacity. factor: what readings are
    multiplied by (low, likely, high). layers: those of the likely factor; flags whose hardest reading nobody wrote down stay
    as they are, `left` of them. passes: flags with a layer (low, likely, high), the scatter of the relation counted in.
    """

    water: Band
    drained: float
    factor: Band
    layers: Layers
    passes: tuple[int, int, int]
    left: int


def corrected(rig: Rig, wet: Wetness | None, readings: list[Readings], limit: float) -> Corrected | Uncorrected:
    """Correct readings to field capacity by the water that was measured and the density of a dried ring. limit: in kPa.

    The relation is that of one farm's cores; what it leaves unsaid, in kPa either way, is in the ends of `passes`.
    """
    density = rig.ground.bulk_density
    if wet is None or wet.water is None or not any(name in wet.known_from for name in _WATER):
        return Uncorrected.WATER
    if density is None:
        return Uncorrected.DENSITY
    if wet.shallow is not None:
        return Uncorrected.SHALLOW
    dense, cores = density.to("g/cm**3"), table("penetration_cores")
    low, likely, high = (one * dense for one in wet.water)
    drained = wet.limits.drained * dense
    spans = [(min(row[name] for row in cores), max(row[name] for row in cores)) for name in ("soil_water", "bulk_density")]
    inside = [spans[0][0] <= one <= spans[0][1] for one in (likely, drained)] + [spans[1][0] <= dense <= spans[1][1]]
    if not all(inside):
        return Uncorrected.RANGE
    power = table("penetration_fit")["one farm"]["water_power"]
    ends = [float(book.penetration_at_drained.bare(1.0, one, drained, power)) for one in (low, likely, high)]
    scatter = probing("reading_scatter", "kPa")
    found = [_at(readings, limit, *each) for each in zip(ends, (-scatter, 0.0, scatter), strict=True)]
    left = sum(int((~np.isfinite(part.by_hand.peak)).sum()) for part in readings if part.by_hand is not None)
    if left == sum(len(each) for each in found[1]):
        return Uncorrected.NOTHING
    counts = [sum(int(each.found.sum()) for each in parts) for parts in found]
    layers = found[1][0] if len(found[1]) == 1 else found[1][0].joined(found[1][1])
    return Corrected((low, likely, high), drained, (ends[0], ends[1], ends[2]), layers, (counts[0], counts[1], counts[2]), left)


def _at(readings: list[Readings], limit: float, factor: float, off: float) -> list[Layers]:
    """Find the layers of readings times a factor and moved by so many kPa."""
    out = []
    for part in readings:
        logs, hand = part.profiles, part.by_hand
        if logs is not None:
            out.append(find_layers(logs.names, logs.depth, np.maximum(logs.reading * factor + off, 0.0), limit))
        if hand is not None:
            gone = hand.found & (hand.peak * factor + off < limit)  # no comparison holds for a peak that isn't known
            none = np.where(gone, np.nan, 0.0)
            ends = {name: getattr(hand, name) + none for name in ("top", "hardest", "bottom")}
            peak = np.maximum(hand.peak * factor + off, 0.0) + none
            out.append(replace(hand, found=hand.found & ~gone, open_below=hand.open_below & ~gone, peak=peak, **ends))
    return out
