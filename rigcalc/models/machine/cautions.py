"""Which cautions go with the work."""

from __future__ import annotations

from rigcalc.core.tables import table
from rigcalc.core.units import factor


def depth_cautions(depth: float) -> tuple[str, ...]:
    """Give the keys, in the table of cautions, of those that go with tillage at a depth in cm."""
    return tuple(
        row["id"]
        for row in table("cautions")
        if row["when"] in ("always", "hitch", "hydraulics")
        or (row["when"] == "depth" and depth > row["over"] * factor("in", "cm"))
    )
