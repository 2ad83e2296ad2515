"""Limits on weight: axles, tyres, road, maker, steering, share on the front; each straight in the masses on the axles.

At rest, under pull and on the road the load on an axle is a straight function of the two static axle masses, so a limit is
three numbers, and a million sets are checked by adding arrays.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.units import mass_of
from rigcalc.models.ballast.advice import front_band
from rigcalc.models.machine import statics
from rigcalc.models.machine.field import in_field
from rigcalc.models.machine.limits import STEER_PULL_SHARE, STEER_SHARE
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.statics import Situations
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.rig import Gear, Rig
from rigcalc.models.rig.running_gear import capacities, sizes

_SOURCE = {"pressure": "rig_file", "tyres": "rig_file", "index": "load_index", "table": "tyre_table"}


@dataclass(frozen=True)
class Which:
    """Which limit it is: what is limited, on which axle ("" for the whole tractor), and when ("" where it always holds).

    what: "axle", "tyres", "index" (tyres by load index), "table" (tyres by their own table), "pressure" (of tracks),
    "road_limit" (by law), "mass_limit" (by the maker), "steer", "front_share_low", "front_share_high", or "delivery" (not a
    limit on weight, but a plan may miss it as well).
    """

    what: str
    axle: str = ""
    when: str = ""

    @property
    def name(self) -> str:
        """A key for all of it, such as front_axle_pull."""
        return "_".join(part for part in (self.axle, self.what, self.when) if part)


@dataclass(frozen=True)
class WeightLimit:
    """One limit. value and limit are (per kg on the front axle, per kg on the rear axle, kg): straight functions, in kg.

    most: True where the value may be no more than the limit, False where no less. share: True where people read both as a
    share of the tractor's mass. source: "rig_file", "load_index", "tyre_table", "steering" (standing), "steering_pull" or
    "advice"; cited is who says so where the source alone doesn't tell. hard: False for advice that a plan keeps where it can.
    """

    which: Which
    value: tuple[float, float, float]
    limit: tuple[float, float, float]
    most: bool
    source: str
    cited: str = ""
    share: bool = False
    hard: bool = True

    @property
    def name(self) -> str:
        """The limit's key."""
        return self.which.name

    def excess(self, front: Any, rear: Any) -> Any:
        """Give how far the limit is passed, kg; at or below zero it holds. front, rear: static axle masses, kg."""
        a, b, c = self.row
        return a * front + b * rear + c

    @property
    def row(self) -> tuple[float, float, float]:
        """The limit as one straight function that must not pass zero."""
        sign = 1.0 if self.most else -1.0
        a, b, c = (sign * (v - w) for v, w in zip(self.value, self.limit, strict=True))
        return a, b, c


@dataclass(frozen=True)
class Check:
    """A limit at one pair of axle masses. value and limit in kg, or shares of the tractor's mass where `share`.

    used: 1.0 at the limit; short: kg by which it is missed (0 where it holds). The rest as in `WeightLimit`.
    """

    which: Which
    value: float
    limit: float
    used: float
    short: float
    most: bool
    share: bool
    source: str
    cited: str
    hard: bool

    @property
    def name(self) -> str:
        """The limit's key."""
        return self.which.name

    @property
    def holds(self) -> bool:
        """True where the limit is kept."""
        return self.short <= 0


def situations(rig: Rig, b: BareRig, draft_factor: float = 1.0) -> Situations:
    """Give the axle loads (kg) at rest, under pull, on the road and with a raised tool, for a multiple of the draft."""
    return statics.situations(rig, b, float(solve(b, draft_factor=draft_factor).drawbar_pull))


def weight_limits(
    rig: Rig, b: BareRig | None = None, draft_factor: float = 1.0, at: Situations | None = None
) -> tuple[WeightLimit, ...]:
    """Give every limit on weight that the rig file and the tables know, for one job.

    b, at: the rig's bare numbers and the job's situations, where they are known already.
    """
    b = in_field(rig) if b is None else b
    at = situations(rig, b, draft_factor) if at is None else at
    out: list[WeightLimit] = []
    if b.front is None:
        area = b.rear.contact_area
        if b.rear.pressure_limit is not None:
            most = mass_of(b.rear.pressure_limit * area)
            out.append(WeightLimit(Which("track_pressure"), (1, 1, mass_of(b.hitch_load)), (0, 0, most), True, "rig_file"))
        return (*out, *_maker(rig))
    for axle, side, gear, mass in (
        ("front", 0, rig.tractor.front, rig.tractor.front_axle_mass_limit),
        ("rear", 1, rig.tractor.rear, rig.tractor.rear_axle_mass_limit),
    ):
        for what, most, source, cited in _capacities(gear, mass.to("kg") if mass else None):
            out += [
                WeightLimit(Which(what, axle, when), loads[side], (0.0, 0.0, most), True, source, cited)
                for when, loads in at.each().items()
            ]
        legal = rig.setup and (rig.setup.road_front_limit if axle == "front" else rig.setup.road_rear_limit)
        if legal:
            out.append(WeightLimit(Which("road_limit", axle), at.road[side], (0.0, 0.0, legal.to("kg")), True, "rig_file"))
    return (*out, *_maker(rig), *_steering(at), *_band(rig, b))


def checks(limits: tuple[WeightLimit, ...], front: float, rear: float) -> tuple[Check, ...]:
    """Say of every limit how much of it is used at one pair of static axle masses in kg, the fullest first."""
    out = []
    total = front + rear
    for limit in limits:
        value, bound = (a * front + b * rear + c for a, b, c in (limit.value, limit.limit))
        with np.errstate(divide="ignore", invalid="ignore"):
            part, whole = (value, bound) if limit.most else (bound, value)
            used = float(np.divide(part, whole)) if whole > 0 else math.inf
        scale = total if limit.share else 1.0
        short = max(0.0, float(limit.excess(front, rear)))
        short = 0.0 if short <= 1e-9 * total else short
        out.append(Check(limit.which, value / scale, bound / scale, used, short, limit.most, limit.share, limit.source,
                         limit.cited, limit.hard))  # fmt: skip
    return tuple(sorted(out, key=lambda check: -check.used))


Tip = tuple[float, float, float]
TIPPING = ("peak_pull", "net_pull", "drawbar_pull")  # the outputs that `tips` takes


def tipping(b: BareRig, draft_factor: float = 1.0) -> Tip | None:
    """Check that grip gives out before the front axle lifts. Gives (used, lifting pull in kN, most pull in kN) on the grade.

    The pull that takes the last load off the front axle is compared with the most that the tyres could hold at that moment,
    with all weight on the rear. Over 1.0 the tyres could lift the front. None for a tractor on two tracks.
    """
    if b.front is None:
        return None
    at_work = solve(b, draft_factor=draft_factor, want=("draft", "drawbar_pull"))
    lifts, factor = tipping_draft(b, draft_factor, float(at_work.draft), float(at_work.drawbar_pull))
    tipped = solve(b, draft_factor=factor, want=TIPPING)
    return tips(lifts, tipped.peak_pull, tipped.net_pull, tipped.drawbar_pull)[0]


def tipping_draft(b: BareRig, draft_factor: float, draft: float, pull: float) -> tuple[Any, Any]:
    """Give (lifting pull in kN, the multiple of the rig's draft at which the front is about to lift).

    The weights of `b` may be arrays. draft, pull: those of the job, kN; neither depends on what the tractor weighs. Where the
    front stays up by no pull at all, the job's own multiple.
    """
    lifts = np.asarray(statics.lifting_pull(b), float)
    rest = pull - draft
    # A hair before it tips: there is still contact.
    return lifts, np.where(lifts > 0, (lifts - rest) / (draft / draft_factor) * (1 - 1e-9), draft_factor)[()]


def tips(lifts: Any, peak: Any, net: Any, pull: Any) -> list[Tip]:
    """Put together what `tipping` gives, one for each lifting pull; the others are the `TIPPING` outputs at `tipping_draft`."""
    rows = np.stack(np.broadcast_arrays(lifts, peak, peak - (net - pull)), axis=-1).reshape(-1, 3).tolist()
    return [(holds / lift, lift, holds) if lift > 0 else (math.inf, lift, most) for lift, most, holds in rows]


def _capacities(gear: Gear | None, mass: float | None) -> list[tuple[str, float, str, str]]:
    """Give (what, most in kg, source, cited) of everything that limits the load on an axle."""
    out = [("axle", mass, "rig_file", "")] if mass else []
    if gear is None:
        return out
    count, _, _ = sizes(gear)
    cited = {"table": gear.tyre.table_from if gear.tyre else ""}
    return out + [(c.name, c.each * count, _SOURCE[c.name], cited.get(c.name, "")) for c in capacities(gear)]


def _maker(rig: Rig) -> list[WeightLimit]:
    if rig.setup is None or rig.setup.mass_limit is None:
        return []
    most = (0.0, 0.0, rig.setup.mass_limit.to("kg"))
    return [WeightLimit(Which("mass_limit"), (1.0, 1.0, 0.0), most, True, "rig_file")]


def _steering(at: Situations) -> list[WeightLimit]:
    """The front keeps enough to steer: standing and with a raised tool as manuals ask, under pull as advice."""
    whens = {"rest": at.rest, "pull": at.pull} | ({"raised": at.raised} if at.raised is not None else {})
    return [
        WeightLimit(
            Which("steer", when=when),
            loads[0],
            (least, least, 0.0),
            False,
            "steering_pull" if when == "pull" else "steering",
            share=True,
            hard=when != "pull",
        )
        for when, loads in whens.items()
        for least in (STEER_PULL_SHARE if when == "pull" else STEER_SHARE,)
    ]


def _band(rig: Rig, b: BareRig) -> list[WeightLimit]:
    band = front_band(rig, b)
    if band is None:
        return []
    source = "rig_file" if band.own else "advice"
    return [
        WeightLimit(
            Which(f"front_share_{end}"), (1.0, 0.0, 0.0), (share, share, 0.0), most, source, band.who, share=True, hard=band.own
        )
        for end, share, most in (("low", band.low, False), ("high", band.high, True))
    ]
