"""A tractor by class: what one of a drive and a power usually weighs and stands on, by the tables. No machine you can buy."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from rigcalc.core.tables import Row, table
from rigcalc.core.units import factor
from rigcalc.models.rig.file import rig_from
from rigcalc.models.rig.rig import Rig

DRIVES = ("2WD", "MFWD", "4WD", "track")
# What belongs to the tractor of the rig file, and to the pair of it and its tool: none of it holds for another tractor.
_OF_THE_TRACTOR = ("tractor", "ballast", "gears", "fuel_test", "scale", "reading", "asked")
_HITCHING = "hitching"


def span(drive: str) -> tuple[float, float]:
    """Give the least and the most engine power, kW, that tractors of a drive are looked at."""
    rows = _rows(drive)
    return float(rows[0]["power_from"]), float(rows[-1]["power_to"])


def borders(drive: str) -> tuple[float, ...]:
    """Give the powers, kW, at which a class of a drive begins."""
    return tuple(float(row["power_from"]) for row in _rows(drive))


@dataclass(frozen=True)
class Weight:
    """What a tractor weighs in the field for each unit of power: kg/kW, of which power, and the source's key.

    at: "PTO" or "engine". ours: True where the source is on another drive.
    """

    by_power: float
    at: str
    source: str
    ours: bool


def weight(drive: str, power: float) -> Weight:
    """Give what a tractor of a drive and an engine power in kW weighs, ballasted for the field, for each unit of power."""
    advice = table("weight_advice")[_row(drive, power)["weight"]]
    middle = (advice["mass_low"] + advice["mass_high"]) / 2 * factor("lb/hp", "kg/kW")
    return Weight(float(middle), str(advice["basis"]), str(advice["source"]), advice["tractor_type"] != drive)


def mass(drive: str, power: float) -> float:
    """Give the mass, kg, of a tractor of a drive and an engine power in kW."""
    by = weight(drive, power)
    pto = float(table("power_ratios")["pto_from_flywheel", "any", "any"]["value"])
    return by.by_power * power * (pto if by.at == "PTO" else 1.0)


def with_tractor(rig: Rig, drive: str, power: float) -> Rig:
    """Give the rig's tool, work and ground behind a tractor by class. power: engine power, kW.

    Split, wheelbase, hitch height and deflection are those that the rig file's own rules fill in (`rig.assumed`).
    """
    data = rig.model_dump(exclude_none=True)
    for section in _OF_THE_TRACTOR:
        data.pop(section, None)
    setup = data.pop("setup", None) or {}
    if _HITCHING in setup:
        data["setup"] = {_HITCHING: setup[_HITCHING]}
    row = _row(drive, power)
    data["tractor"] = {
        "drive": drive,
        "rated_power": f"{power:.6g} kW",
        "power_rating": "net engine",
        "total_mass": f"{mass(drive, power):.0f} kg",
        "rear": _gear(drive, row["rear"], row["rear_on"]),
    }
    if row["front"]:
        data["tractor"]["front"] = _gear(drive, row["front"], row["front_on"])
    return rig_from(data)


def _gear(drive: str, size: str, count: float) -> dict[str, Any]:
    if drive == "track":
        return {"kind": "track", "tracks": int(count), "track_width": size}
    return {"size": size, "tyres": int(count)}


def _rows(drive: str) -> list[Row]:
    return sorted((row for row in table("tractor_classes") if row["drive"] == drive), key=lambda row: float(row["power_from"]))


def _row(drive: str, power: float) -> Row:
    return [row for row in _rows(drive) if row["power_from"] <= power][-1]
