"""Adding a reading to a rig: with what it was made, what was said of it before, and whether the rig can have it."""

from __future__ import annotations

from typing import Any

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.machine.field import told_of
from rigcalc.models.rig.beside import same_reading
from rigcalc.models.rig.field_reading import Reading
from rigcalc.models.rig.file import replaced
from rigcalc.models.rig.kept_setup import KEPT, kept_text
from rigcalc.models.rig.rig import Rig


def made_now(rig: Rig) -> dict[str, Any]:
    """Give the parts of a rig that a reading made with it hangs on, as a reading keeps them."""
    tractor, implement = rig.tractor, rig.implement
    return {
        "tool": implement.tool, "tools": implement.tools, "spacing": str(implement.spacing),
        "implement_mass": str(implement.mass), "hitch_load": str(implement.hitch_load),
        "front_axle_mass": str(tractor.front_axle_mass), "rear_axle_mass": str(tractor.rear_axle_mass),
        "rated_power": str(tractor.rated_power), "maximum_power": str(tractor.maximum_power or tractor.rated_power),
        "power_rating": tractor.power_rating,
        **{section: text for section in KEPT if (text := kept_text(rig, section))},
    }  # fmt: skip


def with_reading(rig: Rig, reading: Reading) -> Rig:
    """Give a rig with one reading more. Raises InputError where the rig can't have it: twice the same, or one that no field
    in the range gives."""  # fmt: skip
    same = next((place for place, each in enumerate(rig.reading, 1) if same_reading(each, reading)), None)
    if same is not None:
        raise InputError([Fault("reading", f"the same as reading {same}", "each reading once",
                                "what was read, or set the other one aside")])  # fmt: skip
    together = replaced(rig, {"reading": [each.model_dump(exclude_none=True) for each in (*rig.reading, reading)]})
    told_of(together)
    return together
