"""What is wrong with the boxes of a reading, each said at its box: what is expected there and what to type."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from rigcalc.core.errors import Fault
from rigcalc.words.numbers import System

_NUMBERS = ("slip", "load", "fuel_rate", "wheel_speed", "turns_loaded", "turns_unloaded", "pull")
# Boxes whose faults are said as they come.
_OTHERS = (
    *("wheel_speed", "turns_loaded", "turns_unloaded", "engine_speed", "pull", "note", "field"),
    *("depth_error", "slip_error", "load_error", "fuel_error", "pull_error"),
)
# Box -> what belongs there, and what to type in American and in metric units.
_BELONGS = {
    "date": ("the day of the reading; the button Today puts it in", "2026-11-04", "2026-11-04"),
    "depth": ("how deep the slot is that was dug out", "14 in", "36 cm"),
    "depth_behind": ("a whole number from 1 to 50", "3", "3"),
    "speed": ("the speed over the ground", "5.1 mph", "8.2 km/h"),
    "slip": ("the slip as it is shown, from 0 to 95 percent", "12 percent", "12 percent"),
    "load": ("the engine load as it is shown, up to 150 percent", "82 percent", "82 percent"),
    "load_of": ("what the engine load is a share of: of what the engine gives now, as most displays show it, or of rated power",
                "", ""),
    "fuel_rate": ("the fuel rate at work", "22 gal/h", "83 L/h"),
}  # fmt: skip
_ALWAYS = ("depth_behind", "slip", "load")  # said in our words even where something was typed


def box_faults(faults: Collection[Fault], typed: Collection[str], units: System, before: str) -> Iterator[Fault]:
    """Give the faults of a reading as they stand at the boxes. typed: the boxes in which something stands. before: what stands
    before the name of an entry in that of its box."""  # fmt: skip
    for fault in faults:
        name = fault.where
        if name in _BELONGS:
            expected, us, si = _BELONGS[name]
            own = fault.got == "nothing" or name in _ALWAYS
            yield Fault(before + name, fault.got, expected if own else fault.expected, us if units == "us" else si)
        elif name in _OTHERS:
            yield replace(fault, where=before + name)
        elif "load_of" in fault.got:
            yield Fault(f"{before}load_of", "nothing", _BELONGS["load_of"][0])
        elif any(number in typed for number in _NUMBERS):
            if "without slip" not in fault.got:  # the one that was typed is refused by itself
                yield replace(fault, where=before + "slip")
        else:
            yield Fault(f"{before}slip", "no number that tells of the pull", "one of slip, engine load and fuel rate at least")
