"""What a rig is called, by what it is: "430 hp two-track + 13-shank chisel, clay loam, tilled"."""

from __future__ import annotations

from rigcalc.models.rig.rig import Rig
from rigcalc.words.numbers import System, say
from rigcalc.words.tools import counted_as_one, tool_words

DRIVES = {"2WD": "two-wheel drive", "MFWD": "front-wheel assist", "4WD": "four-wheel drive", "track": "tracks"}
_NUMBERS = {1: "one", 2: "two", 3: "three", 4: "four", 6: "six", 8: "eight"}


def rig_name(rig: Rig, units: System) -> str:
    """Give a rig's name: power, drive, tool, ground. It follows the rig, so that nobody has to think of one."""
    tool = tool_words(rig.implement.tool).one.removeprefix("such ").removeprefix("a ")
    ground = rig.ground.texture or "soil by sand and clay"
    firm = "" if rig.ground.cone_index is not None else f", {rig.ground.surface}"
    power = say(rig.tractor.rated_power.to("kW"), "kW", units)
    return f"{power} {_drive(rig)} + {counted_as_one(rig)} {tool}, {ground}{firm}"


def _drive(rig: Rig) -> str:
    if rig.tractor.drive != "track":
        return DRIVES[rig.tractor.drive]
    gears = [gear for gear in (rig.tractor.front, rig.tractor.rear) if gear is not None]
    tracks = sum(gear.tracks or 0 for gear in gears if gear.kind == "track")
    return f"{_NUMBERS.get(tracks, str(tracks))}-track"
