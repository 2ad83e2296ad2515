"""Readings in a terminal: the list, what they tell, what to read next, and how often our word came true."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rich.console import Console
from rich.table import Table
from rich.text import Text

from rigcalc.models.machine.field import Told
from rigcalc.models.reading.next_reading import Next
from rigcalc.models.reading.record import Record
from rigcalc.models.reading.tells import Telling
from rigcalc.models.reading.zones import Zone
from rigcalc.models.rig.rig import Rig
from rigcalc.views.terminal.parts import bullets, headed, safe
from rigcalc.words.numbers import System
from rigcalc.words.reading import listed, told
from rigcalc.words.reading.zones import zone_lines


def print_list(rig: Rig, found: Told | None, units: System, console: Console) -> None:
    """Print every reading in a row."""
    console.print(_table(listed.HEADS, listed.rows(rig, found, units)))


def print_telling(telling: Telling, rig: Rig, units: System, console: Console) -> None:
    """Print what the readings tell."""
    console.print(safe(told.headline(telling), style="bold"))
    for part in headed("Which number told what", _table(told.HEADS, told.rows(telling))):
        console.print(part)
    for part in headed("Beside that", bullets(told.lines(telling, rig, units))):
        console.print(part)


def print_next(found: Next, by: Told | None, units: System, console: Console) -> None:
    """Print what to read next."""
    for line in told.next_lines(found, units, by):
        console.print(safe(line))


def print_zones(found: Sequence[Zone], rig: Rig, units: System, console: Console) -> None:
    """Print how hard each zone pulls, and what to do there."""
    for line in zone_lines(found, rig, units):
        console.print(safe(line))


def print_record(record: Record, units: System, console: Console) -> None:
    """Print how often what was read lay inside the band that was said before."""
    console.print(safe(listed.record_text(record), style="bold"))
    cells = [(each.reading, each.title, each.said, each.came, each.inside) for each in listed.record_rows(record, units)]
    if cells:
        console.print(Text(""))
        console.print(_table(("", "number", "said before", "read", ""), cells))


def _table(heads: Sequence[str], cells: Iterable[Sequence[str]]) -> Table:
    table = Table(box=None, pad_edge=False, show_header=True, header_style="dim")
    for head in heads:
        table.add_column(head, overflow="fold")
    for row in cells:
        table.add_row(*(safe(cell) for cell in row))
    return table
