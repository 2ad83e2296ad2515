"""Liquid in tyres: what a rig file's tyres hold, how heavy it is, when it freezes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rigcalc.core.tables import table
from rigcalc.core.units import factor
from rigcalc.equations import ballast as book
from rigcalc.models.rig.parts import BRINE, Tyre
from rigcalc.models.rig.rig import Gear, Rig

FILLED_TYRES = 2  # our assumption where the rig file doesn't say: one tyre on each side holds liquid


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


def hung_mass(rig: Rig) -> float:
    """Give the ballast that the rig file lists as on the tractor when it was weighed, kg: pieces and liquid."""
    liquids = [liquid_of("front", rig.tractor.front), liquid_of("rear", rig.tractor.rear)]
    pieces = sum(piece.mass.to("kg") * piece.on for piece in rig.ballast)
    return pieces + sum(liquid.mass for liquid in liquids if liquid is not None)
