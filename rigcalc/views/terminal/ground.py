"""The answer about the ground in a terminal: the sentences, the layer, the flags, the tool, notes and cautions."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from rigcalc.core.errors import printable
from rigcalc.views.terminal.parts import bullets, headed, safe
from rigcalc.views.terminal.parts import rows as pairs
from rigcalc.words.ground import GroundWords

_STYLES = {"go": "bold green", "try": "bold yellow", "dont": "bold red"}
MOST_FLAGS = 25  # rows in sight; --json holds them all


def print_ground(words: GroundWords, console: Console) -> None:
    """Print an answer about the ground."""
    for part in _parts(words):
        console.print(part)


def _parts(words: GroundWords) -> Iterable[RenderableType]:
    answer = words.answer
    yield safe(words, style=_STYLES[answer.judgement])
    yield Text("")
    yield Text(printable("; ".join(part for part in (answer.rig.farm, answer.rig.implement.name) if part)), style="dim")
    if words.worked:
        yield from headed("Did it work", bullets(words.worked))
    if words.trial:
        yield from headed("Strip trial", bullets(words.trial))
    if words.weather:
        yield from headed("By the weather", bullets(words.weather))
    if words.layer:
        yield from headed("The layer", bullets(words.layer))
    if words.shares:
        yield from headed("Depth, and the layers that it gets under", pairs(words.shares))
    if words.flags:
        yield from headed("Flags", _flags(words))
    yield from headed("The tool", bullets(words.tool))
    yield from headed("Putting it back", Group(_table(words.axles), bullets(words.pressing)))
    if words.zones:
        yield from headed("Where", Group(_table(words.zones), bullets(words.zone_lines)))
    if words.soil:
        yield from headed("The field by its samples", Group(_table(words.soil), bullets(words.soil_lines)))
    if words.residue:
        yield from headed("Residue", bullets(words.residue))
    yield from headed("Notes", bullets(words.notes))
    yield from headed("Cautions", bullets(words.cautions))


def _table(rows: Sequence[Sequence[str]]) -> Table:
    titles, *lines = rows
    table = Table(box=None, pad_edge=False, show_header=True, header_style="dim")
    for title in titles:
        table.add_column(title, justify="right" if title else "left", overflow="fold")
    for line in lines:
        table.add_row(*map(safe, line))
    return table


def _flags(words: GroundWords) -> Table:
    table = Table(box=None, pad_edge=False, show_header=True, header_style="dim")
    for title in ("", "top", "hardest", "bottom", "how sure"):
        table.add_column(title, justify="left" if not title else "right", overflow="fold")
    for row in words.flags[:MOST_FLAGS]:
        table.add_row(*map(safe, row))
    if (more := len(words.flags) - MOST_FLAGS) > 0:
        table.add_row(Text(f"{more:,} more: --json", style="dim"))
    return table
