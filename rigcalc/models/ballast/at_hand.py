"""What is at hand: every piece and every fill of the tyres as a choice, with what it does to each axle."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.tables import table
from rigcalc.core.units import factor
from rigcalc.equations import ballast as book
from rigcalc.models.rig.parts import BRINE, USUAL_FILL, Piece, Tyre
from rigcalc.models.rig.rig import Gear, Rig

FILLED_TYRES = 2  # our assumption where the rig file doesn't say: one tyre on each side holds liquid


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


@dataclass(frozen=True)
class Liquid:
    """Liquid of one axle's tyres. density in kg/L, freezes in degC (None where no table says), mass in kg at this fill."""

    axle: str
    liquid: str
    density: float
    freezes: float | None
    fill: float
    mass: float
    full_mass: float
    sure: str


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


def liquid_of(axle: str, gear: Gear | None) -> Liquid | None:
    """Give the liquid of an axle's tyres: in them now, or named for filling. None where the rig file has none."""
    tyre = gear.tyre if gear else None
    if gear is None or tyre is None or tyre.volume is None or tyre.liquid is None:
        return None
    density, freezes, sure = density_of(tyre)
    count = tyre.filled_tyres or min(FILLED_TYRES, gear.tyres or FILLED_TYRES)
    full = float(book.liquid_mass.bare(tyre.volume.to("L"), 1.0, density, count))
    fill = tyre.fill.to("1") if tyre.fill else 0.0
    return Liquid(axle, tyre.liquid, density, freezes, fill, full * fill, full, sure)


def density_of(tyre: Tyre) -> tuple[float, float | None, str]:
    """Give (density in kg/L, freezing point in degC or None, how sure) of the liquid that a tyre's section names."""
    rows = table("liquid_ballast")
    to_si = factor("lb/gal", "kg/L")
    if tyre.liquid == BRINE and tyre.dose is not None:
        mix = table("calcium_chloride_mix")
        dose = tyre.dose.to("kg/L")
        gain = book.brine_gain_over_water.bare(dose)
        freezes = float(np.interp(dose, [row["dose"] for row in mix], [row["freezes"] for row in mix]))
        return float(book.brine_density.bare(rows["water"]["density"] * to_si, gain / 100)), freezes, mix.sure
    row = rows[str(tyre.liquid)]
    return row["density"] * to_si, row["freezes"], rows.sure_of(row)


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
