"""How deep: under the layer at the share of flags that is wanted, and no deeper."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from rigcalc.core.tables import table
from rigcalc.core.units import factor
from rigcalc.models.ground.layers import Floats, Layers
from rigcalc.models.machine.judgement import Judgement

TOO_DEEP_BY = 5.0  # cm, our choice: more than this below what is needed is worth a word
_STEP, _DEEPEST = 1.0, 120  # cm: depths of the curve of shares


class Plan(StrEnum):
    """What the flags say about the depth in the rig file, the worst first."""

    NO_LAYER = "no_layer"  # nothing to lift
    SHALLOW = "shallow"  # the depth leaves the layer at more flags than wanted
    BEYOND_TOOL = "beyond_tool"  # the depth that is needed is more than the tool is rated for
    UNREACHED = "unreached"  # readings end inside the layer at too many flags: nobody knows how deep
    BELOW_CRITICAL = "below_critical"  # the depth that is needed is below the point's critical depth
    PATCHY = "patchy"  # a layer at few of the flags
    FEW = "few"  # too few flags to say
    DEEP = "deep"  # deeper than needed
    RIGHT = "right"


_JUDGED = {Plan.NO_LAYER: Judgement.DONT, Plan.SHALLOW: Judgement.DONT, Plan.BEYOND_TOOL: Judgement.DONT,
           Plan.RIGHT: Judgement.GO}  # fmt: skip


@dataclass(frozen=True)
class DepthAdvice:
    """The depth that the flags ask for, and the share of those with a layer that each depth gets under.

    need is (least, most) in cm, None where the readings don't reach it or there is no layer. depths (cm) and shares are the
    curve to draw, steps the depths at which it rises, bottoms those of the layers (infinite where the readings end inside),
    at_work the share that the rig's depth gets under. with_layer, unreached and flags are counts. critical (cm, low and high)
    and rated are the tool's, None where unknown. sure: the middle chance of the layers, NaN by hand.
    """

    plan: Plan
    need: tuple[float, float] | None
    wanted: float
    flags: int
    with_layer: int
    unreached: int
    work: float
    at_work: float
    depths: Floats
    shares: Floats
    steps: Floats
    bottoms: Floats
    top: tuple[float, float, float]
    bottom: tuple[float, float, float]
    critical: tuple[float, float] | None
    rated: float | None
    sure: float

    @property
    def judgement(self) -> Judgement:
        """What to do about the depth in the rig file."""
        return _JUDGED.get(self.plan, Judgement.TRY)

    def under(self, depth: float) -> float:
        """Give the share of the flags with a layer that a depth in cm gets under."""
        return float(shares_under(self.bottoms, np.array([depth]), probing("below_low", "cm"))[0])

    @property
    def few(self) -> bool:
        """True where there are fewer flags than say something of a field."""
        return self.flags < probing("flags_few", "1")


def probing(name: str, unit: str) -> float:
    """Give a value of the table probing, in a unit."""
    row = table("probing")[name]
    return float(row["value"]) * factor(row["unit"], unit)


def depth_advice(
    layers: Layers, work: float, wanted: float, critical: tuple[float, float] | None, rated: float | None
) -> DepthAdvice:
    """Advise on a depth. work: the rig's depth in cm; wanted: share of the flags with a layer to get under, above 0 to 1."""
    low, high = probing("below_low", "cm"), probing("below_high", "cm")
    bottoms = np.where(layers.open_below, np.inf, layers.bottom)[layers.found]
    there = int(layers.found.sum())
    depths = np.arange(_STEP, _DEEPEST + _STEP, _STEP)
    shares = shares_under(bottoms, depths, low)
    need = _need(bottoms, wanted, low, high)
    at_work = float(shares_under(bottoms, np.array([work]), low)[0])
    plan = _plan(len(layers), there, need, work, critical, rated)
    chances = layers.chance[layers.found]
    chances = chances[np.isfinite(chances)]
    return DepthAdvice(
        plan=plan,
        need=need,
        wanted=wanted,
        flags=len(layers),
        with_layer=there,
        unreached=int(layers.open_below.sum()),
        work=work,
        at_work=at_work,
        depths=depths,
        shares=shares,
        bottoms=bottoms,
        steps=np.unique(bottoms[np.isfinite(bottoms)]) + low,
        top=_spread(layers.top[layers.found]),
        bottom=_spread(layers.bottom[layers.found]),
        critical=critical,
        rated=rated,
        sure=float(np.median(chances)) if chances.size else math.nan,
    )


def shares_under(bottoms: Floats, depths: Floats, below: float) -> Floats:
    """Give the share of the layers that each depth gets under by so much."""
    if not bottoms.size:
        return np.zeros(depths.shape)
    reached = np.sort(bottoms) + below
    return np.searchsorted(reached, depths + 1e-9, side="right") / bottoms.size


def _need(bottoms: Floats, wanted: float, low: float, high: float) -> tuple[float, float] | None:
    if not bottoms.size:
        return None
    place = max(math.ceil(wanted * bottoms.size - 1e-9), 1) - 1
    bottom = float(np.sort(bottoms)[place])
    return (bottom + low, bottom + high) if math.isfinite(bottom) else None


def _plan(
    flags: int, there: int, need: tuple[float, float] | None, work: float, critical: tuple[float, float] | None,
    rated: float | None,
) -> Plan:  # fmt: skip
    hair = 1e-6
    if not there:
        return Plan.NO_LAYER if flags >= probing("flags_few", "1") else Plan.FEW
    if need is None:
        return Plan.UNREACHED
    if rated is not None and need[0] > rated + hair:
        return Plan.BEYOND_TOOL
    if work < need[0] - hair:
        return Plan.SHALLOW
    if critical is not None and need[0] > critical[1] + hair:
        return Plan.BELOW_CRITICAL
    if there < probing("patchy", "1") * flags:
        return Plan.PATCHY
    if flags < probing("flags_few", "1"):
        return Plan.FEW
    return Plan.DEEP if work > need[1] + TOO_DEEP_BY else Plan.RIGHT


def _spread(values: Floats) -> tuple[float, float, float]:
    """Give the least, the middle and the greatest; NaN where there is none."""
    values = values[np.isfinite(values)]
    if not values.size:
        return math.nan, math.nan, math.nan
    return float(values.min()), float(np.median(values)), float(values.max())
