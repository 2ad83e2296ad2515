"""A season in a terminal: done in time or not, the bar of the day, what would help, what it costs, what it rests on."""

from __future__ import annotations

from collections.abc import Iterable

from rich.console import Console, RenderableType
from rich.table import Table
from rich.text import Text

from rigcalc.models.season.answer import OfRig
from rigcalc.views.terminal.parts import bullets, headed, safe
from rigcalc.words.season import SeasonWords
from rigcalc.words.season.abreast import HEADS

_STYLES = {"go": "bold green", "try": "bold yellow", "dont": "bold red"}
_WIDE = 30  # letters of a bar for the whole clock day


def print_season(words: SeasonWords, console: Console) -> None:
    """Print a season."""
    for part in _parts(words):
        console.print(part)


def _parts(words: SeasonWords) -> Iterable[RenderableType]:
    said = words.said
    yield safe(f"{said.word}: {said.headline}", style=_STYLES[words.answer.judgement])
    yield Text("")
    yield bullets(said.rest)
    for name, one in zip(words.names, words.answer.rigs, strict=True):
        title = "A day" if len(words.names) == 1 else f"A day of {name}"
        if bars := _bars(words, one):
            yield from headed(title, bars)
        yield from headed("Hours and fuel", bullets(words.day_lines(one)))
    yield from headed("What should I change?", _table(("change", "done in", "days in hand, 8 of 10", "cost"), words.changes))
    for name, one in zip(words.names, words.answer.rigs, strict=True):
        title = "Money" if len(words.names) == 1 else f"Money: {name}"
        if rows := words.costs(one):
            yield from headed(title, _table(("", "of area", "a field hour"), rows))
        if lines := words.money_lines(one):
            yield from headed("Money" if not rows else "Is it worth it?", bullets(lines))
    if not words.answer.missing_prices:
        yield from headed("Cost against chance", _table(HEADS, (each.row for each in words.abreast)))
    yield from headed("What it rests on", bullets(words.notes))


def _bars(words: SeasonWords, one: OfRig) -> Table | None:
    bars = words.bars(one)
    if not bars:
        return None
    table = Table(box=None, pad_edge=False, show_header=False)
    table.add_column()
    table.add_column(justify="right")
    table.add_column(no_wrap=True)
    for bar in bars:
        table.add_row(bar.title, bar.text, "█" * max(round(bar.share * _WIDE), 0) or "▏")
    return table


def _table(heads: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> Table:
    table = Table(box=None, pad_edge=False, show_header=True, header_style="bold")
    for at, head in enumerate(heads):
        table.add_column(safe(head), justify="left" if at == 0 else "right", overflow="fold")
    for row in rows:
        table.add_row(*(safe(cell) for cell in row))
    return table
