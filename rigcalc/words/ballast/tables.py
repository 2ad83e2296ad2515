"""The words of what stands around a ballast plan: advice, tyres, liquids, stress in the soil."""

from __future__ import annotations

import math

from rigcalc.core.units import factor
from rigcalc.models.ballast.advice import Advice, Band
from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.ballast.mass_curve import STRESS
from rigcalc.models.ballast.tyres import TyreLoad
from rigcalc.models.rig.liquid import Liquid
from rigcalc.words.ballast.steps import liquid_name
from rigcalc.words.numbers import System, number, percent, say
from rigcalc.words.spelling import spelt


def per_power_text(per_power: float, units: System) -> str:
    """Say a mass in kg for each kW."""
    return f"{number(per_power * factor('kg/kW', 'lb/hp'))} lb/hp" if units == "us" else f"{number(per_power)} kg/kW"


def advice_text(row: Advice, units: System) -> str:
    """Say the span that a row of the tables advises."""
    if row.per_power is None:
        return f"at most {percent(row.high)}" if row.low is None else _span(percent(row.low), percent(row.high))
    return _span(say(row.low or 0, "kg", units), say(row.high, "kg", units))


def mass_band_text(band: Band | None, units: System) -> str:
    """Say what the tables advise for the mass."""
    if band is None:
        return "no table gives a mass for this tractor, speed and hitching"
    rows = f"{band.count} row{'s' if band.count > 1 else ''}"
    return f"{say(band.low, 'kg', units)} to {say(band.high, 'kg', units)} ({rows} of tables, which differ)"


def front_band_text(band: Band | None) -> str:
    """Say what the tables advise for the share on the front axle."""
    if band is None:
        return "no table gives a share for this tractor and hitching"
    return f"{percent(band.low)} to {percent(band.high)} of the mass at rest"


def kind_text(row: Advice) -> str:
    """Say what a row is about."""
    return {"mass": "mass", "mass_limit": "mass limit", "front_share": "front share", "front_limit": "front limit"}[row.kind]


def pressure_text(load: TyreLoad, units: System) -> str:
    """Say the pressure that a load asks for; that it isn't known where it isn't."""
    pressure = load.inflation.pressure
    return "not known" if pressure is None else say(pressure, "kPa", units, 2)


def how_text(load: TyreLoad, units: System) -> str:
    """Say how the pressure is known, or why it isn't."""
    needs = load.inflation
    if needs.how == "over":
        most = say(needs.most, "kg", units)
        return spelt(f"{say(load.each, 'kg', units)} is more than the table's {most}: too much for this tyre", units)
    said = {
        "table": "by the tyre's own table",
        "lowest": "the table's lowest pressure; it goes no lower",
        "law": "by a generic law: a makeshift; put in the tyre's own table",
        "unknown": "put in the tyre's own table of loads and pressures",
        "track": "a track",
    }[needs.how]
    return spelt(said, units)


def liquid_text(liquid: Liquid, units: System) -> str:
    """Say what is in an axle's tyres, and when it freezes."""
    freezes = "freezing point not known"
    if liquid.freezes is not None:
        degrees = f"{number(liquid.freezes * 1.8 + 32, 2)} °F" if units == "us" else f"{number(liquid.freezes, 2)} °C"
        freezes = f"freezes at {degrees}"
    name = liquid_name(liquid.liquid)
    if not liquid.fill:
        return f"no liquid in them now; {name} is at hand, which {freezes} ({liquid.sure})"
    return f"{name}, {percent(liquid.fill)} full, {say(liquid.mass, 'kg', units)}; {freezes} ({liquid.sure})"


def depth_text(depth: float, units: System) -> str:
    """Say how deep the stress of the 50-50 rule reaches; depth in m, NaN where the tractor can't pull."""
    if not math.isfinite(depth):
        return "it can't pull"
    stress = f"{STRESS:.0f} kPa" + (f" ({say(STRESS, 'kPa', units, 1)})" if units == "us" else "")
    if depth <= 0:
        return f"stress in the soil stays under {stress}"
    return f"stress of {stress} in the soil down to {say(100 * depth, 'cm', units, 2)}"


def curve_text(answer: BallastAnswer, place: int) -> str:
    """Say one point of the mass curve in a line."""
    curve, units = answer.curve, answer.units
    if not math.isfinite(curve.delivery[place]):
        return "too light to pull it"
    depth = max(curve.front_depth[place], curve.rear_depth[place])
    fuel = f"{say(curve.fuel_per_area[place], 'L/ha', units)} of fuel"
    slip = f"power delivery {percent(curve.delivery[place])}, {percent(curve.slip[place])} slip"
    return f"{slip}, {fuel}, {depth_text(depth, units)}"


def _span(low: str, high: str) -> str:
    return low if low == high else f"{low} to {high}"
