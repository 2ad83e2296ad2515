"""What two rigs are asked alike: the work and ground of the first, and its tool or its tractor too."""

from __future__ import annotations

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.rig.file import rig_from
from rigcalc.models.rig.rig import Rig

# What is the same in all -> the sections that the others take from the first.
SAME = {
    "": (),
    "work": ("work", "ground"),
    "tool": ("work", "ground", "implement"),
    "tractor": ("work", "ground", "tractor", "ballast", "setup", "gears", "fuel_test"),
}
_OF_ITS_FIELD = ("reading", "asked")  # slip and load that were read tell of the ground, tool and tractor they were read with
_OF_THE_PAIR = "scale"  # tickets with the tool raised: they hold for this tool behind this tractor alone


def alike(rig: Rig, first: Rig, same: str) -> Rig:
    """Give the rig with the sections that are to be the same taken from the first. Raises InputError."""
    if same not in SAME:
        known = ", ".join(name for name in SAME if name)
        raise InputError([Fault("same", shown(same), f"one of {known}, or nothing", "work")])
    if not SAME[same] or rig is first:
        return rig
    data, other = rig.model_dump(exclude_none=True), first.model_dump(exclude_none=True)
    for section in _OF_ITS_FIELD:
        data.pop(section, None)
    for section in SAME[same]:
        data.pop(section, None)
        if section in other:
            data[section] = other[section]
    if same != "work":
        data.pop(_OF_THE_PAIR, None)
    return rig_from(data)
