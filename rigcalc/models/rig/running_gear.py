"""What stands on the ground: the area that one tyre or track touches, and what each may carry by all that a rig file gives."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from rigcalc.core.tables import table
from rigcalc.core.units import mass_of
from rigcalc.equations import stress
from rigcalc.equations import tyre as book
from rigcalc.models.rig.rig import Gear


@dataclass(frozen=True)
class Capacity:
    """What one tyre or track may carry, in kg, by one source. name: "pressure" (of a track), "tyres", "index" or "table"."""

    name: str
    each: float
    source: str


def area_each(kind: str, width: Any, length: Any) -> Any:
    """Give the contact area of one track or, by the rule of thumb for firm ground, of one tyre, m2.

    kind: "track", "radial" or "bias". length: contact length of a track, overall diameter of a tyre. Both in m.
    """
    return width * length if kind == "track" else stress.contact_area_quick.bare(width, length)


def sizes(gear: Gear) -> tuple[int, float, float]:
    """Give how many tyres or tracks an axle has, their width, and their diameter or contact length in m."""
    count, width, length = (
        (gear.tracks, gear.track_width, gear.contact_length)
        if gear.kind == "track"
        else (gear.tyres, gear.section_width, gear.diameter)
    )
    assert count is not None
    assert width is not None
    assert length is not None
    return count, width.to("m"), length.to("m")


def mounting_factor(count: int) -> float:
    """Give the share of its load that a tyre may carry, from how many stand on its axle: 2 single, 4 dual, 6 triple."""
    name = "single" if count <= 2 else "dual" if count <= 4 else "triple"
    return float(table("tyre_rules")[name]["value"])


def capacities(gear: Gear) -> tuple[Capacity, ...]:
    """Give what one tyre or track of an axle may carry by each source that is known; empty where none is."""
    if gear.kind == "track":
        if gear.pressure_limit is None:
            return ()
        _, width, length = sizes(gear)
        most = mass_of(gear.pressure_limit.to("kPa") * area_each(gear.kind, width, length))
        return (Capacity("pressure", most, "rig file"),)
    out = [Capacity("tyres", gear.load_limit_each.to("kg"), "rig file")] if gear.load_limit_each else []
    if gear.tyre and gear.tyre.load_index is not None:
        listed = book.listed_load_index_mass.bare(gear.tyre.load_index)
        each = float(book.tyre_capacity.bare(listed, mounting_factor(gear.tyres or 2)))
        out.append(Capacity("index", each, "load_index, tyre_rules"))
    if gear.tyre and gear.tyre.loads:
        out.append(Capacity("table", gear.tyre.loads[-1].to("kg"), gear.tyre.table_from or "rig file"))
    return tuple(out)


def capacity_each(gear: Gear) -> float | None:
    """Give the kg that one tyre or track of an axle may carry: the least of what is known, None where nothing is."""
    return min((known.each for known in capacities(gear)), default=None)
