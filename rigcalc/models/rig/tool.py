"""What the tables say about a tool apart from its draft: how deep and fast it usually works, and what is asked beside it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from rigcalc.core.tables import Row, Table, table
from rigcalc.core.units import factor

Span = tuple[float, float]


@dataclass(frozen=True)
class Usual:
    """How a tool usually works, by the tables; None where none says.

    operation: key of the kind of work, empty where no table knows it. piece: what is counted ("shank", "coulter", "row"), or
    what a width is of ("disk"). depth: cm; extreme: depth in cm from which it counts as extreme. speed: km/h. efficiency:
    field efficiency as shares. critical_ratio: critical depth as a multiple of the point's width, low and high end.
    second_opinion: the row of the draft table that is asked too where the tool works deeper than usual.
    """

    operation: str
    piece: str
    depth: Span | None
    extreme: float | None
    speed: Span | None
    efficiency: Span | None
    critical_ratio: Span | None
    second_opinion: str | None


@cache
def usual(tool: str) -> Usual:
    """Look up a tool of d497_draft in the tables that its row names. Raises InputError for a tool that is none."""
    row = table("d497_draft")[tool]
    depth = _row(table("usual_depths"), row["operation"])
    field = _row(table("d497_field_operations"), row["operation"])
    critical = table("critical_depth")[row["critical_depth"]] if row["critical_depth"] else None
    return Usual(
        operation=row["operation"],
        piece=row["piece"],
        depth=_span(depth, "usual", "in", "cm") if depth else None,
        extreme=depth["extreme"] * factor("in", "cm") if depth and depth["extreme"] else None,
        speed=_span(field, "speed", "mph", "km/h") if field else None,
        efficiency=(field["efficiency_low"] / 100, field["efficiency_high"] / 100) if field else None,
        critical_ratio=(critical["low"], critical["high"]) if critical else None,
        second_opinion=row["second_opinion"] or None,
    )


def workable(row: Row) -> bool:
    """Say whether a row of d497_draft is of a tool that works at a depth: the tool of a rig is one of these."""
    return bool(row["depth_matters"] == "true")


def by_width(tool: str) -> bool:
    """Say whether a tool's row of d497_draft counts its width, not pieces or rows; False for what is no tool of the table."""
    return any(row["tool"] == tool and row["width_unit"] == "m" for row in table("d497_draft"))


def least_efficiency(tool: str) -> float:
    """Give the lowest usual field efficiency of a tool as a share; of any work in the field where the tables don't know it."""
    known = usual(tool).efficiency
    if known is not None:
        return known[0]
    return float(min(row["efficiency_low"] for row in table("d497_field_operations") if row["efficiency_low"])) / 100


def _row(rows: Table, key: str) -> Row | None:
    return next((row for row in rows if row["operation"] == key), None)


def _span(row: Row, name: str, unit: str, to: str) -> Span:
    """Give the two ends of a span in a table's row, in another unit."""
    return row[f"{name}_low"] * factor(unit, to), row[f"{name}_high"] * factor(unit, to)
