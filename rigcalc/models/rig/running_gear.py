"""What one tyre or track may carry, from whatever the rig file gives: a limit, a load index, the tyre's own table."""

from __future__ import annotations

from rigcalc.core.tables import table
from rigcalc.equations import tyre as book
from rigcalc.models.rig.rig import Gear

GRAVITY = 9.80665  # m/s2, standard gravity (exact by definition, CGPM 1901)


def mounting_factor(count: int) -> float:
    """Give the share of its load that a tyre may carry, from how many stand on its axle: 2 single, 4 dual, 6 triple."""
    name = "single" if count <= 2 else "dual" if count <= 4 else "triple"
    return float(table("tyre_rules")[name]["value"])


def capacity_each(gear: Gear) -> float | None:
    """Give the kg that one tyre or track of an axle may carry: the least of what is known, None where nothing is."""
    if gear.kind == "track":
        if gear.pressure_limit is None or gear.track_width is None or gear.contact_length is None:
            return None
        return gear.pressure_limit.to("kPa") * gear.track_width.to("m") * gear.contact_length.to("m") * 1000 / GRAVITY
    known = [gear.load_limit_each.to("kg")] if gear.load_limit_each else []
    if gear.tyre and gear.tyre.load_index is not None:
        listed = book.listed_load_index_mass.bare(gear.tyre.load_index)
        known.append(float(book.tyre_capacity.bare(listed, mounting_factor(gear.tyres or 2))))
    if gear.tyre and gear.tyre.loads:
        known.append(gear.tyre.loads[-1].to("kg"))
    return min(known) if known else None
