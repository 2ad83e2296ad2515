"""The thirty rigs in full, and each by what its dealer's sheet and a look out of the cab tell."""

import copy
import tomllib
from pathlib import Path

from rigcalc.core.units import factor, parse

RIGS = {
    data["farm"]: data for data in tomllib.loads((Path(__file__).parent / "in_full.toml").read_text(encoding="utf-8"))["rig"]
}
TRACTOR = ("drive", "rated_power", "power_rating")
GEAR = ("size", "kind", "tracks", "track_width")
IMPLEMENT = ("tool", "tools", "spacing")


def kilograms(text):
    number, unit = parse(text)
    return number * factor(unit, "kg")


def by_its_sheet(data):
    """Leave of a full rig what the smallest rig file holds: power, drive, total, tyres or track width, tool, ground, work."""
    tractor, implement = data["tractor"], data["implement"]
    total = kilograms(tractor["front_axle_mass"]) + kilograms(tractor["rear_axle_mass"])
    out = {"tractor": {name: tractor[name] for name in TRACTOR} | {"total_mass": f"{total:.0f} kg"}}
    for axle in ("front", "rear"):
        if axle in tractor:
            out["tractor"][axle] = {name: tractor[axle][name] for name in GEAR if name in tractor[axle]}
    out["implement"] = {name: implement[name] for name in IMPLEMENT}
    return out | {"ground": copy.deepcopy(data["ground"]), "work": copy.deepcopy(data["work"])}
