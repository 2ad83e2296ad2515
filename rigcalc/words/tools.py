"""Tools in words: what a kind of work is called, and what its tool is counted in."""

from __future__ import annotations

from typing import NamedTuple

from rigcalc.core.tables import table
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.tool import usual
from rigcalc.words.numbers import System, say


class ToolWords(NamedTuple):
    """The words for a kind of tool: one, many, and how its row of the draft table is called."""

    one: str
    many: str
    row: str


_TOOLS = {
    "chisel_plow_or_coulter_chisel": ToolWords("a chisel", "chisels", "chisel row"),
    "subsoiler": ToolWords("a subsoiler", "subsoilers", "subsoiler row"),
    "tandem_disk_harrow": ToolWords("a tandem disk harrow", "tandem disk harrows", "disk row"),
    "heavy_duty_disk": ToolWords("a heavy disk harrow", "heavy disk harrows", "disk row"),
    "moldboard_plow": ToolWords("a moldboard plow", "moldboard plows", "plow row"),
    "row_crop_cultivator": ToolWords("a row crop cultivator", "row crop cultivators", "cultivator row"),
    "field_cultivator": ToolWords("a field cultivator", "field cultivators", "field cultivator row"),
}
_ANY = ToolWords("such a tool", "such tools", "tool's own row")
_PIECES = {
    "shank": ("shank", "shanks"), "coulter": ("coulter", "coulters"), "row": ("row", "rows"),
    # of a width: "24 ft of disks"
    "disk": ("disk", "disks"), "plow": ("plow", "plow"), "sweep": ("sweep", "sweeps"), "rod": ("rod", "rod"),
}  # fmt: skip
_PIECE = ("tool", "tools")


def tool_words(tool: str) -> ToolWords:
    """Give the words for a tool of the draft table."""
    return _TOOLS.get(usual(tool).operation, _ANY)


def gang_name(tool: str) -> str:
    """Name a gang by its row of the draft table: "coulters, smooth or ripple"."""
    return str(table("d497_draft")[tool]["title"])


def piece(tool: str) -> str:
    """Give the word for one piece of a tool, such as "shank"."""
    return _PIECES.get(usual(tool).piece, _PIECE)[0]


def pieces(tool: str) -> str:
    """Give the word for its pieces, such as "shanks"."""
    return _PIECES.get(usual(tool).piece, _PIECE)[1]


def counted(rig: Rig, units: System | None = None) -> str:
    """Give the number of pieces with their word, "15 shanks"; of a width, "24 ft of disks", as typed without units."""
    if (width := rig.implement.width) is not None:
        return f"{say(width.to('m'), 'm', units) if units else width} of {pieces(rig.implement.tool)}"
    tools, tool = rig.implement.tools, rig.implement.tool
    return f"{tools} {piece(tool) if tools == 1 else pieces(tool)}"


def counted_as_one(rig: Rig) -> str:
    """Give the number of pieces as part of a name, "15-shank"; of a tool that isn't counted its width, "28 ft"."""
    if rig.implement.width is not None:
        return str(rig.implement.width)
    return f"{rig.implement.tools}-{piece(rig.implement.tool)}"
