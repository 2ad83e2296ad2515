"""What the tables advise: mass for each unit of power, and the share on the front axle, by source; and the band they span."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.core.sources import sources
from rigcalc.core.tables import Row, table
from rigcalc.core.units import factor
from rigcalc.equations.ballast import ballast_mass
from rigcalc.models.machine.field import in_field
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.rig import Rig

SLACK = 0.01  # our assumption: a share that sources give as one number is read as that number, give or take a point


@dataclass(frozen=True)
class Advice:
    """One row of the tables that fits this tractor. kind: "mass", "mass_limit", "front_share" or "front_limit".

    low, high: kg for "mass" and its limit, shares for "front_share" and its limit; low is None for an upper bound alone.
    per_power: (low, high) in kg/kW for a mass. who: the source in words.
    """

    kind: str
    low: float | None
    high: float
    per_power: tuple[float, float] | None
    basis: str
    condition: str
    who: str
    sure: str
    note: str


@dataclass(frozen=True)
class Band:
    """The span of what several sources say: low, high, how many rows, and who; own where the rig file aims at it itself."""

    low: float
    high: float
    count: int
    who: str
    own: bool = False


def advice(rig: Rig, b: BareRig | None = None) -> tuple[Advice, ...]:
    """Give every row of the table weight_advice that fits drive, speed, hitching and suspension; none for tracks.

    b: the rig's bare numbers, here and below, where they are known already.
    """
    b = in_field(rig) if b is None else b
    return tuple(_advice(row, kind, b) for row in table("weight_advice") if _fits(row, rig, b) for kind in _kinds(row))


def mass_band(rig: Rig, b: BareRig | None = None) -> Band | None:
    """Give the span of the advised masses in kg; None where no row fits."""
    rows = [a for a in advice(rig, b) if a.kind == "mass" and a.low is not None]
    return _span(rows)


def front_band(rig: Rig, b: BareRig | None = None) -> Band | None:
    """Give the band for the share on the front axle at rest: as aimed at in the rig file, or what the sources span.

    The upper bounds that some sources give cut the band at its upper end. None where nothing is known.
    """
    setup = rig.setup
    if setup is not None and setup.front_share_low is not None and setup.front_share_high is not None:
        return Band(setup.front_share_low.to("1"), setup.front_share_high.to("1"), 1, "", own=True)
    found = advice(rig, b)
    band = _span([a for a in found if a.kind == "front_share" and a.low is not None])
    bounds = [a.high for a in found if a.kind == "front_limit"]
    if band is None or not bounds or min(bounds) <= band.low:
        return band
    return Band(band.low, min(band.high, *bounds), band.count + len(bounds), band.who)


def _span(rows: list[Advice]) -> Band | None:
    lows = [a.low for a in rows if a.low is not None]
    if not lows:
        return None
    who = sorted({a.who for a in rows})
    low, high = min(lows), max(a.high for a in rows)
    if rows[0].kind == "front_share" and high - low < 2 * SLACK:
        low, high = (low + high) / 2 - SLACK, (low + high) / 2 + SLACK
    return Band(low, high, len(rows), "; ".join(who))


def _kinds(row: Row) -> list[str]:
    kinds = []
    if row["mass_high"]:
        kinds.append("mass_limit" if row["condition"] == "limit" else "mass")
    if row["front_high"]:
        kinds.append("front_share" if row["front_low"] else "front_limit")
    return kinds


def _fits(row: Row, rig: Rig, b: BareRig) -> bool:
    drive, tractor = rig.tractor.drive, row["tractor_type"]
    suspended = rig.setup is not None and rig.setup.front_suspension
    if drive == "track":
        return False
    if "suspended" in tractor:
        if not suspended:
            return False
    elif suspended and drive == "MFWD" and row["front_high"] and not row["mass_high"]:
        return False  # the plain rows say that they hold without front suspension
    if tractor != "any" and drive not in tractor.replace(",", "").split():
        return False
    speed = b.speed * factor("km/h", "mph")
    if speed < (row["speed_low"] or 0.0) or (row["speed_high"] is not None and speed > row["speed_high"]):
        return False
    hitching = rig.setup.hitching if rig.setup else "towed"
    return row["hitchings"] == "any" or hitching in row["hitchings"].split()


def _advice(row: Row, kind: str, b: BareRig) -> Advice:
    who = str(sources()[row["source"]])
    sure = table("weight_advice").sure_of(row)
    if kind.startswith("mass"):
        to_si = factor("lb/hp", "kg/kW")
        # Where a source doesn't say which power it means, the smaller one is taken.
        power = b.rated_pto * (b.engine_per_pto if row["basis"] == "engine" else 1.0)
        per_power = (row["mass_low"] * to_si, row["mass_high"] * to_si)
        low, high = (float(ballast_mass.bare(power, each)) for each in per_power)
        return Advice(kind, low, high, per_power, row["basis"], row["condition"], who, sure, row["note"])
    low_share = row["front_low"] / 100 if row["front_low"] else None
    return Advice(kind, low_share, row["front_high"] / 100, None, "", row["condition"], who, sure, row["note"])
