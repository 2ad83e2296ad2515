"""Fields in a terminal: which way to drive, headings beside each other, the farm in order, where the hours go."""

from __future__ import annotations

from collections.abc import Iterable

from rich.console import Console, RenderableType
from rich.table import Table
from rich.text import Text

from rigcalc.views.terminal.parts import bullets, headed, safe
from rigcalc.words.passes import FieldWords
from rigcalc.words.passes.zones import ZONE_HEADS

_STYLES = {"go": "bold green", "try": "bold yellow", "dont": "bold red"}
_WIDE = 30  # letters of a bar for all hours
_HEADS = ("heading", "degrees", "passes", "turns", "worked twice", "hours", "more")
_FARM = ("", "field", "area", "heading", "passes", "hours", "efficiency", "rounds")
_MOST_LISTED = 60


def print_fields(words: FieldWords, console: Console) -> None:
    """Print fields."""
    for part in _parts(words):
        console.print(part)


def _parts(words: FieldWords) -> Iterable[RenderableType]:
    said, found = words.said, words.answer
    yield safe(f"{said.word}: {said.headline}", style=_STYLES[found.judgement])
    yield Text("")
    yield bullets(said.rest)
    if len(found.fields) == 1:
        yield from headed("Headings compared", _table(_HEADS, words.headings(found.fields[0]), 2))
    else:
        shown = words.listed[:_MOST_LISTED]
        yield from headed("The fields in order", _table(_FARM, shown, 2))
        if len(words.listed) > len(shown):
            yield safe(f"  and {len(words.listed) - len(shown):,} more; --json has them all")
    yield from headed("Where the field hours go", _bars(words))
    if words.zones:
        yield from headed("Headland, lanes and the rest", _table(ZONE_HEADS, words.zones, 1))
    yield from headed("What to type elsewhere", bullets(words.to_type))
    yield from headed("What it rests on", bullets(words.notes))


def _bars(words: FieldWords) -> Table:
    table = Table(box=None, pad_edge=False, show_header=False)
    table.add_column()
    table.add_column(justify="right")
    table.add_column(no_wrap=True)
    for title, text, share in words.parts:
        table.add_row(title, text, "█" * max(round(share * _WIDE), 0) or "▏")
    return table


def _table(heads: tuple[str, ...], rows: Iterable[tuple[str, ...]], left: int) -> Table:
    table = Table(box=None, pad_edge=False, show_header=True, header_style="bold")
    for at, head in enumerate(heads):
        table.add_column(safe(head), justify="left" if at < left else "right", overflow="fold")
    for row in rows:
        table.add_row(*(safe(cell) for cell in row))
    return table
