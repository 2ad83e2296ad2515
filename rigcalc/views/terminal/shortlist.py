"""A shortlist in a terminal: the sentences, a column for each drive, what it rests on."""

from __future__ import annotations

from collections.abc import Iterable

from rich.console import Console, RenderableType
from rich.table import Table
from rich.text import Text

from rigcalc.views.terminal.parts import bullets, headed, safe
from rigcalc.words.shortlist import ShortlistWords

_STYLES = {"go": "bold green", "try": "bold yellow", "dont": "bold red"}


def print_shortlist(words: ShortlistWords, console: Console) -> None:
    """Print a shortlist."""
    for part in _parts(words):
        console.print(part)


def _parts(words: ShortlistWords) -> Iterable[RenderableType]:
    said = words.said
    yield safe(f"{said.word}: {said.headline}", style=_STYLES[words.shortlist.judgement])
    yield Text("")
    yield bullets(said.rest)
    yield from headed("By drive", _table(words))
    yield from headed("What it rests on", bullets(words.notes))


def _table(words: ShortlistWords) -> Table:
    table = Table(box=None, pad_edge=False, show_header=True, header_style="bold")
    table.add_column("", overflow="fold")
    for head in words.heads:
        table.add_column(safe(head), justify="right", overflow="fold")
    for title, cells in words.rows:
        table.add_row(title, *(safe(cell) for cell in cells))
    return table
