"""Gangs that work together with the tool: coulters in front, a leveller behind; each a row of the draft table that adds up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, field_validator, model_validator

from rigcalc.core.tables import Row, table
from rigcalc.models.rig.measure import Kind, Measure
from rigcalc.models.rig.parts import Words, fault
from rigcalc.models.rig.taken import WIDTHS

if TYPE_CHECKING:
    from rigcalc.models.rig.rig import Rig

MOST_GANGS = 6  # on one frame, our choice: coulters, two ranks of something, disks, harrow, roller


class Gang(BaseModel):
    """One gang beside the tool itself: its row, how many or how wide, how deep, and whether it is in the ground."""

    model_config = ConfigDict(extra="forbid", frozen=True, validate_default=True)

    name: Words = ""
    tool: Annotated[str, Field(description="a row of the draft table, of a tool that is counted or measured by its width")]
    on: Annotated[bool, Field(description="false: lifted, it pulls nothing")] = True
    tools: Annotated[int | None, Field(ge=1, le=200, strict=True)] = None
    width: Annotated[Measure, Kind("m", "24 ft", above=0, most=60,
        usual=WIDTHS, why="a garden disk to the widest folding tool")] | None = None  # fmt: skip
    depth: Annotated[Measure, Kind("cm", "4 in", above=0, most=150, usual=(0.5, 130),
        why="scratching to the deepest ripper")] | None = None  # fmt: skip

    @field_validator("tool")
    @classmethod
    def _known(cls, value: str) -> str:
        rows = [row["tool"] for row in table("d497_draft") if may_join(row)]
        if value not in rows:
            raise fault(f"'{value[:60]}'", "a row of the draft table that is no planter or drill", ", ".join(rows))
        return value

    @model_validator(mode="after")
    def _fits(self) -> Gang:
        row = table("d497_draft")[self.tool]
        counted, deep = row["width_unit"] != "m", row["depth_matters"] == "true"
        wrong = []
        if counted and self.tools is None:
            wrong.append(("no tools", "how many stand in the gang", "tools = 12"))
        if counted and self.width is not None:
            wrong.append((f"a width of {self.width}", "tools alone: it is counted", "no width"))
        if not counted and self.tools is not None:
            wrong.append((f"{self.tools} tools", "a width, or nothing for the tool's own width", 'width = "24 ft"'))
        if deep and self.depth is None:
            wrong.append(("no depth", "how deep this gang runs", 'depth = "4 in"'))
        if not deep and self.depth is not None:
            wrong.append((f"a depth of {self.depth}", "no depth: the draft of this row hangs on none", "no depth"))
        if wrong:
            got, expected, type_this = (", ".join(parts) for parts in zip(*wrong, strict=True))
            raise fault(f"{self.tool} with {got}", expected, type_this)
        return self


@dataclass(frozen=True)
class BareGang:
    """A gang as bare numbers. kind: "counted", "width" (each with a depth) or "spread" (width without depth).

    amount: pieces or m that are typed; for_each: m for each of the tool's own pieces, where the gang is as wide as the tool.
    depth: cm, 1 where it doesn't matter. a, b, c: as in the row; factor, factor_other: of the soil groups; range: a decimal.
    """

    tool: str
    kind: str
    amount: float
    for_each: float
    depth: float
    factor: float
    factor_other: float
    a: float
    b: float
    c: float
    range: float

    def size(self, tools: Any) -> Any:
        """Give how many pieces or how many m of it there are beside so many of the tool's own pieces."""
        return self.amount + self.for_each * tools


def may_join(row: Row) -> bool:
    """Say whether a row of d497_draft may stand beside a tool: all but planters and drills that count rows without a depth."""
    return not (row["width_unit"] == "row" and row["depth_matters"] != "true")


def bare_gangs(rig: Rig, group: str, other: str) -> tuple[BareGang, ...]:
    """Give the gangs that are in the ground as bare numbers. group, other: soil groups as for the tool itself."""
    return tuple(_bare(gang, rig, group, other) for gang in rig.implement.gangs if gang.on)


def _bare(gang: Gang, rig: Rig, group: str, other: str) -> BareGang:
    row = table("d497_draft")[gang.tool]
    by_width = row["width_unit"] == "m"
    own = gang.width.to("m") if gang.width is not None else float(gang.tools or 0)
    alike = by_width and gang.width is None
    return BareGang(
        tool=gang.tool,
        kind="counted" if not by_width else "width" if row["depth_matters"] == "true" else "spread",
        amount=0.0 if alike else own,
        for_each=rig.implement.spacing.to("m") if alike else 0.0,
        depth=gang.depth.to("cm") if gang.depth is not None else 1.0,
        factor=float(row[f"f_{group}"]),
        factor_other=float(row[f"f_{other}"]),
        a=row["a_si"],
        b=row["b_si"],
        c=row["c_si"],
        range=row["range_percent"] / 100,
    )
