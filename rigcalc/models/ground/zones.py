"""Where: headland, lanes and the rest of a field, how much of each is wheeled, what that does to draft, and what to hold there.

Wheels raise the draft of the tines that run behind them; the rig's own wheels are counted already. A zone's ground is worked by
the same rig with so much more of its width in wheel tracks (equation draft_with_wheel_tracks).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.tables import table
from rigcalc.equations import draft_shift
from rigcalc.models.ground.given import gathered, number_given
from rigcalc.models.ground.parted import Parted, heading_given, of_boundaries, rectangle
from rigcalc.models.ground.traffic import Traffic
from rigcalc.models.ground.traffic import machines as machines_of
from rigcalc.models.land.boundary import Boundary
from rigcalc.models.land.files import boundaries_given
from rigcalc.models.machine.draft_force import covered_share, usual_covered
from rigcalc.models.machine.draws import likely
from rigcalc.models.machine.limits import Caps, shares, worst
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.seeking import edge
from rigcalc.models.rig.bare import BareRig

_SLOWEST, _SHALLOWEST = 3.0, 8.0  # km/h and cm, our choice: who has to go below does other work
_FIELD = (20.0, 20_000.0)  # m: a garden plot to ten miles


@dataclass(frozen=True)
class Hold:
    """What a rig can hold: "as it is", "speed" or "depth" (which of them has to give), or "no" where neither is enough; depth
    (cm) and speed (km/h) to hold; limit: the fullest one at the rig's own depth and speed."""

    hold: str
    depth: float
    speed: float
    limit: str


@dataclass(frozen=True)
class Zone(Hold):
    """A part of the field, and what to hold there. area: ha; wheeled: share of its ground that wheels ran over.

    times: how often in the mean. rise: draft over that of ground no other machine ran on (low, likely, high). hours and fuel
    (L) to work it, turns and stops counted; NaN where it can't be.
    """

    name: str
    area: float
    wheeled: float
    times: float
    rise: tuple[float, float, float]
    hours: float
    fuel: float


@dataclass(frozen=True)
class Lanes:
    """The same machines on common lanes: how far apart (m, of the narrowest), and the share of the ground that is wheeled.

    now: the share that is wheeled as they drive, the rig's own wheels counted in.
    """

    apart: float
    wheeled: float
    now: float


@dataclass(frozen=True)
class Zones:
    """The zones of a field, in m its headland, and the passes of the tool that fill it; parted: where it came from.

    often: shares of the rest that wheels of all machines, the rig's too, run over never, once, twice, and more often.
    loaded: machines whose load and crop somebody typed.
    """

    headland: float
    passes: int
    parted: Parted
    each: tuple[Zone, ...]
    often: tuple[float, ...]
    lanes: Lanes
    loaded: tuple[Traffic, ...]

    @property
    def hours(self) -> float:
        """Hours for the whole field; NaN where a zone can't be worked."""
        return sum(zone.hours for zone in self.each)

    @property
    def fuel(self) -> float:
        """Fuel for the whole field, L."""
        return sum(zone.fuel for zone in self.each)


def zones(
    b: BareRig, caps: Caps, field: Any, headland: Any, traffic: Any, boundary: Any = None, heading: Any = None
) -> Zones | None:
    """Part a field into zones and work each out; None where no field is named.

    field: "2600 ft by 1300 ft", length along the passes first. headland: its depth at each end; two widths of the tool where
    nobody says. traffic: texts such as "combine: 30 ft apart, 2 tyres of 30 in". boundary: a file of fields, instead of
    `field`; then the headland runs all round, and heading is that of the passes. Raises InputError with every fault.
    """
    nothing = field is None and headland is None and not traffic and not isinstance(traffic, str)
    if nothing and boundary is None and heading is None:
        return None
    faults: list[Fault] = []
    across = float(b.tools * b.spacing)
    sides = _sides(field, faults) if boundary is None else None
    deep = 2 * across if headland is None else number_given(headland, "m", (1.0, 500.0), "headland", '"80 ft"', faults)
    if sides is not None:
        parted = _rectangle(*sides, deep, heading, faults)
    else:
        parted = _by_boundary(field, boundary, (deep, across), heading, faults)
    machines = machines_of(traffic, faults)
    if faults or parted is None:
        raise InputError(faults)
    own = covered_share(b)
    mine = usual_covered()[1] if own is None else float(own)
    open_ground = [each for each in machines if not each.lanes]
    rest = 1 - math.prod(1 - min(each.ruts / each.apart, 1.0) for each in open_ground)
    times = sum(each.ruts / each.apart for each in open_ground)
    # At the ends everybody turns: in, across to the next pass, out again, and then along.
    often = sum(each.ruts * ((1 + parted.through) / each.apart + (0 if each.hauls else parted.ends)) for each in machines)
    # Loads go along the headland, out from a corner and back: the whole area's, over the ground of the headland.
    often += sum(each.ruts * each.crop / each.load * parted.hauled for each in machines if each.hauls)
    lane = [each for each in machines if each.lanes]
    beside = min(sum(across / each.apart for each in lane), 1.0)
    in_lane = sum(min(each.ruts / across, 1.0) for each in lane) / max(len(lane), 1)
    area = parted.rest
    parts = [("headland", parted.headland, 1 - math.exp(-often), often)]
    if lane:
        parts.append(("lanes", area * beside, 1 - (1 - rest) * (1 - in_lane), times + in_lane))
    parts.append(("rest", area * (1 - beside if lane else 1.0), rest, times))
    found = tuple(_zone(b, caps, mine, *part) for part in parts if part[1] > 0)
    everybody = [*machines, Traffic("rig", across, mine * across, False)]
    run_over = _often([min(each.ruts / each.apart, 1.0) for each in everybody if not each.lanes])
    loaded = tuple(each for each in machines if not math.isnan(each.load))
    return Zones(deep, math.ceil(deep / across - 1e-9), parted, found, run_over, _lanes(everybody), loaded)


def _rectangle(length: float, width: float, deep: float, heading: Any, faults: list[Fault]) -> Parted | None:
    if heading is not None:
        faults.append(Fault("heading", f"{shown(heading)} without a boundary", "a boundary beside it", "field.geojson"))
    if not math.isnan(length + width + deep) and not 2 * deep < length:
        faults.append(
            Fault("headland", f"{deep:.3g} m at each end of {length:.4g} m", "less than half of the length", '"80 ft"')
        )
    return None if faults else rectangle(length, width, deep)


def _by_boundary(
    field: Any, boundary: Any, wide: tuple[float, float], heading: Any, faults: list[Fault]
) -> Parted | None:  # fmt: skip
    if field is not None:
        faults.append(Fault("field", "both a field's sides and a boundary", "one of the two", "the boundary alone"))
    found: tuple[Boundary, ...] = ()
    with gathered(faults):
        found = boundary if _read_before(boundary) else boundaries_given(boundary)
    degrees = heading_given(heading, faults)
    if faults:
        return None
    parted = of_boundaries(found, *wide, degrees)
    if parted.small == len(found):
        got = f"{wide[0]:.3g} m all round, which leaves nothing"
        faults.append(Fault("headland", got, "a headland that leaves some of the field", '"40 ft"'))
    return parted


def _read_before(given: Any) -> bool:
    return isinstance(given, tuple) and bool(given) and all(isinstance(each, Boundary) for each in given)


def _often(shares: Sequence[float]) -> tuple[float, ...]:
    """Give the shares of ground run over never, once, twice, and more often, by machines that meet by chance."""
    counts = np.array([1.0])
    for share in shares:
        counts = np.convolve(counts, [1 - share, share])
    counts = np.append(counts, np.zeros(3))
    return (*(float(one) for one in counts[:3]), float(counts[3:].sum()))


def _lanes(machines: Sequence[Traffic]) -> Lanes:
    """Put machines on lanes as far apart as the narrowest passes; the widest ruts make the lane."""
    apart = min(each.apart for each in machines)
    now = 1 - math.prod(1 - min(each.ruts / each.apart, 1.0) for each in machines)
    return Lanes(apart, min(max(each.ruts for each in machines) / apart, 1.0), now)


def _zone(b: BareRig, caps: Caps, mine: float, name: str, area: float, wheeled: float, times: float) -> Zone:
    covered = 1 - (1 - mine) * (1 - wheeled)
    ends = table("draft_doubt")["behind_wheels"]
    usual = likely().usual
    rise = [
        float(draft_shift.draft_with_wheel_tracks.bare(1.0, covered, usual, behind)
              / draft_shift.draft_with_wheel_tracks.bare(1.0, mine, usual, behind))
        for behind in (ends["low"], likely().behind, ends["high"])
    ]  # fmt: skip
    here = b.at(covered_width=covered * b.tools * b.spacing)
    held = hold_of(here, caps)
    hours = fuel = math.nan
    if held.hold != "no":
        point = solve(here.at(depth=held.depth, speed=held.speed))
        hours = area / float(point.field_capacity)
        fuel = hours * float(point.mean_fuel_rate)
    return Zone(**vars(held), name=name, area=area, wheeled=wheeled, times=times, rise=(rise[0], rise[1], rise[2]), hours=hours,
                fuel=fuel)  # fmt: skip


def hold_of(b: BareRig, caps: Caps, hard_only: bool = False) -> Hold:
    """Give what a rig can hold in the likely case. hard_only: look at those limits alone that stop or break something."""

    def used(**changed: Any) -> Any:
        at = b.at(**changed)
        return worst(shares(at, solve(at), caps), hard_only=hard_only)

    share, limit = used()
    depth, speed, hold = float(b.depth), float(b.speed), "as it is"
    if not share <= 1:
        hold, depth, speed = _held(used, depth, speed)
    return Hold(hold, depth, speed, str(limit))


def _held(used: Any, depth: float, speed: float) -> tuple[str, float, float]:
    """Give what to hold: a slower speed where that is enough, else the depth that goes at the slowest, else no."""

    def slower(values: Any) -> Any:
        return used(speed=values)[0] <= 1

    def shallower(values: Any) -> Any:
        return used(depth=values, speed=slow)[0] <= 1

    slow = min(_SLOWEST, speed)
    if slower(np.array([slow]))[0]:
        return "speed", depth, float(edge(slower, slow, speed)[0])
    if depth > _SHALLOWEST and shallower(np.array([_SHALLOWEST]))[0]:
        return "depth", float(edge(shallower, _SHALLOWEST, depth)[0]), slow
    return "no", depth, speed


def _sides(text: Any, faults: list[Fault]) -> tuple[float, float]:
    parts = text.split(" by ") if isinstance(text, str) else []
    if len(parts) != 2:
        got = "nothing" if text is None else shown(text)
        faults.append(Fault("field", got, "its length along the passes by its width", '"2600 ft by 1300 ft"'))
        return math.nan, math.nan
    length, width = (number_given(part, "m", _FIELD, "field", '"2600 ft by 1300 ft"', faults) for part in parts)
    return length, width
