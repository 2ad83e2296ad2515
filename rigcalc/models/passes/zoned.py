"""The zones of the ground's question laid on fields as they are: headland, passes in cart lanes, the rest.

Known where the rig file says what else drove there. How much a zone is wheeled and what that does to draft is the ground's
answer for the same boundary, headland and heading; areas are those of the passes' own inside.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.ground.traffic import Traffic
from rigcalc.models.ground.traffic import machines as machines_of
from rigcalc.models.ground.zones import Hold, Zone, Zones
from rigcalc.models.ground.zones import zones as of_ground
from rigcalc.models.machine.case import Case
from rigcalc.models.passes.heading import Driven, Driving
from rigcalc.models.rig.rig import Rig

HEADLAND, LANES, REST = "headland", "lanes", "rest"
_SHALLOW, _DEEP = 1.0, 500.0  # m: headlands that the ground's question takes


@dataclass(frozen=True)
class FieldZone(Hold):
    """One zone of all fields together. area: ha; wheeled: share of its ground; rise: draft over that of ground no other machine
    ran on (low, likely, high); more: hours that it takes more than at the job's speed, NaN where it can't be worked."""

    name: str
    area: float
    wheeled: float
    rise: tuple[float, float, float]
    more: float


@dataclass(frozen=True, eq=False)
class Zoned:
    """The zones of fields. each: headland, lanes, rest, those that there are; apart: m between lanes, the narrowest
    first; in_lane: for each field, whether each pass lies in a lane."""

    each: tuple[FieldZone, ...]
    apart: tuple[float, ...]
    in_lane: tuple[Any, ...] = field(repr=False)

    @property
    def more(self) -> float:
        """Hours that the zones take more than the job's speed would."""
        return sum(zone.more for zone in self.each)

    @property
    def failing(self) -> tuple[FieldZone, ...]:
        """Zones that can't be worked at the job's depth, however slow."""
        return tuple(zone for zone in self.each if zone.hold in ("depth", "no"))


def zoned(rig: Rig, case: Case, fields: Sequence[Driven], driving: Driving) -> Zoned | None:
    """Lay zones on fields; None where nobody says what else drove there. Raises InputError for traffic that can't be."""
    texts = [each.strip() for each in (rig.ground.traffic or "").split(";") if each.strip()]
    if not texts:
        return None
    faults: list[Fault] = []
    machines = machines_of(texts, faults)
    if faults:
        raise InputError([replace(fault, where=f"ground.{fault.where}") for fault in faults])
    sums: dict[str, list[tuple[float, Zone]]] = {HEADLAND: [], LANES: [], REST: []}
    for one in fields:
        _laid(one, _asked(one, case, texts, driving), sums)
    made = tuple(_zone(name, parts, driving) for name, parts in sums.items() if parts)
    apart = tuple(sorted(each.apart for each in machines if each.lanes))
    return Zoned(made, apart, tuple(_in_lane(one, driving, machines) for one in fields))


def _asked(one: Driven, case: Case, texts: list[str], d: Driving) -> Zones | None:
    """Ask the ground about one field; None where even a narrow headland leaves nothing of it."""
    deep = min(max(one.inside.rounds * d.spacing, _SHALLOW), _DEEP)
    try:
        return of_ground(case.bare, case.caps, None, f"{deep:.6g} m", texts, (one.boundary,), one.laid.heading)
    except InputError:
        return None


def _laid(one: Driven, zones: Zones | None, sums: dict[str, list[tuple[float, Zone]]]) -> None:
    """Add the zones of one field, each with its own area."""
    if zones is None:
        return
    inner = sum(zone.area for zone in zones.each if zone.name != HEADLAND)
    edge = one.boundary.area - one.inside.area if one.inside.rounds else 0.0
    for zone in zones.each:
        area = edge if zone.name == HEADLAND else (one.boundary.area - edge) * zone.area / inner
        if area > 0:
            sums[zone.name].append((area, zone))


def _zone(name: str, parts: list[tuple[float, Zone]], d: Driving) -> FieldZone:
    """Put a zone of all fields together: shares and factors by area, and to hold what the hardest of them lets."""
    area = sum(each for each, _ in parts)

    def mean(value: Any) -> float:
        return float(sum(each * value(zone) for each, zone in parts) / area)

    hardest = min((zone for _, zone in parts), key=lambda zone: (zone.hold != "no", zone.depth, zone.speed))
    slower = 3.6 * d.speed / hardest.speed - 1 if hardest.hold != "no" else float("nan")
    rise = (mean(lambda zone: zone.rise[0]), mean(lambda zone: zone.rise[1]), mean(lambda zone: zone.rise[2]))
    return FieldZone(
        hold=hardest.hold, depth=hardest.depth, speed=hardest.speed, limit=hardest.limit, name=name, area=area,
        wheeled=mean(lambda zone: zone.wheeled), rise=rise, more=area / (d.width * d.speed * 0.36) * slower,
    )  # fmt: skip


def _in_lane(one: Driven, d: Driving, machines: Sequence[Traffic]) -> Any:
    """Say of each pass whether a lane lies under it: lanes begin half their distance from the edge of the first pass."""
    lines = one.laid.lines
    angle = np.deg2rad(one.laid.heading)
    across = lines.mean(axis=1) @ np.array([-np.cos(angle), np.sin(angle)])
    place = across - across.min() + d.width / 2 if len(across) else across
    inside = np.zeros(len(place), bool)
    for each in machines:
        if each.lanes:
            inside |= np.abs(place % each.apart - each.apart / 2) <= d.spacing / 2
    return inside
