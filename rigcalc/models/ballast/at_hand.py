"""What is at hand: every piece and every fill of the tyres as a choice, with what it does to each axle."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.tables import table
from rigcalc.equations import ballast as book
from rigcalc.models.rig.liquid import liquid_of
from rigcalc.models.rig.parts import USUAL_FILL, Piece
from rigcalc.models.rig.rig import Rig


@dataclass(frozen=True)
class Choice:
    """One kind of ballast and the amounts it may be set to.

    name: what the rig file calls the pieces; empty for a liquid, which has its axle and its key in the table of liquids.
    options: counts on the tractor, or fill shares. masses: kg of the whole kind for each option. front, rear: kg that each
    axle would gain from what is on now (1-d arrays). handled: kg that must be put on or taken off. now: place of the option
    that is on now.
    """

    name: str
    axle: str
    options: tuple[float, ...]
    now: int
    masses: Any
    front: Any
    rear: Any
    handled: Any
    liquid: str = ""


def choices(rig: Rig) -> tuple[Choice, ...]:
    """Give every choice that the rig file puts at hand: pieces first, then liquid of front and rear tyres."""
    out = [_piece(piece, rig) for piece in rig.ballast]
    for axle, gear in (("front", rig.tractor.front), ("rear", rig.tractor.rear)):
        found = liquid_of(axle, gear)
        if found is not None and gear is not None and gear.tyre is not None and gear.tyre.volume is not None:
            levels = sorted({0.0, found.fill, *(row["fill"] / 100 for row in table("liquid_fill"))})
            place = rig.tractor.wheelbase.to("m") if axle == "front" else 0.0
            masses = [found.full_mass * level for level in levels]
            out.append(_choice("", axle, levels, levels.index(found.fill), masses, place, rig, found.liquid))
    return tuple(out)


def sets_there_are(kinds: tuple[Choice, ...]) -> int:
    """Count the sets that the choices make."""
    return math.prod(len(kind.options) for kind in kinds)


def overfilled(rig: Rig) -> tuple[str, ...]:
    """Name the axles whose tyres hold more than the usual 75 percent."""
    found = (liquid_of("front", rig.tractor.front), liquid_of("rear", rig.tractor.rear))
    return tuple(liquid.axle for liquid in found if liquid is not None and liquid.fill > USUAL_FILL)


def ahead_of_rear(piece: Piece, wheelbase: float) -> float:
    """Give how far a piece hangs ahead of the rear axle, m."""
    from_axle = piece.ahead.to("m") if piece.ahead is not None else -piece.behind.to("m") if piece.behind is not None else 0.0
    return from_axle + (wheelbase if piece.axle == "front" else 0.0)


def _piece(piece: Piece, rig: Rig) -> Choice:
    most = piece.count if piece.holds is None else min(piece.count, piece.holds)
    counts = list(range(0, most + 1, 2 if piece.in_pairs else 1))
    masses = [count * piece.mass.to("kg") for count in counts]
    place = ahead_of_rear(piece, rig.tractor.wheelbase.to("m"))
    return _choice(piece.name, piece.axle or "rear", counts, counts.index(piece.on), masses, place, rig)


def _choice(
    name: str, axle: str, options: list[Any], now: int, masses: Any, place: float, rig: Rig, liquid: str = ""
) -> Choice:
    wheelbase = rig.tractor.wheelbase.to("m")
    mass = np.asarray(masses, float)
    change = mass - mass[now]
    return Choice(
        name=name,
        axle=axle,
        options=tuple(float(option) for option in options),
        now=now,
        masses=mass,
        front=book.front_axle_gain.bare(change, place, wheelbase),
        rear=book.rear_axle_gain.bare(change, place, wheelbase),
        handled=np.abs(change),
        liquid=liquid,
    )
