"""The same tool with more or fewer shanks: width follows spacing, frame and tongue load go by the same step."""

from __future__ import annotations

from typing import Any

from rigcalc.models.rig.measure import Measure
from rigcalc.models.rig.rig import Rig


def tool_changes(rig: Rig, tools: int) -> dict[str, Any]:
    """Give the changes, by path of the rig file, that make the rig's tool one of `tools` shanks at the same spacing.

    Mass and tongue load are taken in proportion to the shanks: an assumption, as long as the other tool wasn't weighed.
    """
    step = tools / rig.implement.tools
    changes: dict[str, Any] = {"implement.tools": tools}
    if step != 1:
        for name in ("mass", "hitch_load"):
            own: Measure = getattr(rig.implement, name)
            changes[f"implement.{name}"] = str(Measure.of(own.value * step, own.unit))
    return changes
