"""Whether what is known twice agrees: a tyre's size and its typed width and diameter, a total mass and the axle masses."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from rigcalc.core.errors import InputError
from rigcalc.core.tables import table
from rigcalc.models.rig.parts import SCALE_TOLERANCE, fault
from rigcalc.models.rig.tyre_size import tyre_size

if TYPE_CHECKING:
    from rigcalc.models.rig.rig import Gear, Tractor

SHARE_TOLERANCE = 0.02  # of the whole tractor, as for scale tickets


def check_size(gear: Gear) -> None:
    """Refuse a tyre size that can't be read, and typed figures that it can't have; typed figures within tolerance stand."""
    if gear.size is None:
        return
    try:
        size = tyre_size(gear.size)
    except InputError as error:
        found = error.faults[0]
        raise fault(f"size of {found.got}", found.expected, found.type_this) from None
    most = table("tyre_rules")["flotation_tolerance" if size.known_by == "name" else "size_tolerance"]["high"]
    for name, meant in (("section_width", size.width), ("diameter", size.diameter)):
        typed: Any = getattr(gear, name)
        if abs(typed.to("m") / meant - 1) > most:
            raise fault(f"{name} of {typed} ({typed.to('m'):.3g} m) beside a size of {size.text}",
                        f"a {name} within {most:.0%} of {meant:.3f} m, which the size has",
                        f"one of the two: the size alone gives {name}")  # fmt: skip
    if gear.rim_diameter is not None and abs(gear.rim_diameter.to("m") - size.rim) > 0.005:
        raise fault(f"rim_diameter of {gear.rim_diameter} beside a size of {size.text}",
                    "the rim of the size, its last figure", "the size alone")  # fmt: skip
    if gear.kind != size.kind:
        raise fault(f'kind = "{gear.kind}" beside a size of {size.text}', f"{size.kind}: R in a size is radial, - is bias",
                    f'kind = "{size.kind}", or leave the line out')  # fmt: skip
    for name, marked in (("load_index", size.load_index), ("speed_symbol", size.speed_symbol)):
        own = getattr(gear.tyre, name) if gear.tyre else None
        if marked is not None and own is not None and own != marked:
            raise fault(f"{name} of {own} beside a size with {marked}", "the same in both places", "one of the two")


def check_total(tractor: Tractor) -> None:
    """Refuse a total mass and a share on the front that the axle masses contradict."""
    front, rear = tractor.front_axle_mass.to("kg"), tractor.rear_axle_mass.to("kg")
    total = tractor.total_mass
    if total is not None and abs(front + rear - total.to("kg")) > SCALE_TOLERANCE * total.to("kg"):
        raise fault(f"front_axle_mass and rear_axle_mass that add up to {front + rear:.0f} kg, and total_mass of {total} "
                    f"({total.to('kg'):.0f} kg)", f"masses that agree within {SCALE_TOLERANCE:.0%}",
                    "the axle masses, or total_mass alone")  # fmt: skip
    share = tractor.front_share
    if share is not None and abs(front / (front + rear) - share.to("1")) > SHARE_TOLERANCE:
        raise fault(f"front_share of {share} beside axle masses that put {front / (front + rear):.0%} on the front",
                    f"a share within {SHARE_TOLERANCE:.0%} of theirs",
                    "the axle masses, or total_mass and front_share alone")  # fmt: skip
