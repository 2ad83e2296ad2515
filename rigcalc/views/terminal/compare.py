"""A comparison in a terminal: the sentences, the rows that differ, what is the same in one line, each rig by itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rich.console import Console, RenderableType
from rich.table import Table
from rich.text import Text

from rigcalc.views.terminal.parts import bullets, headed, safe
from rigcalc.words.compare import CompareWords
from rigcalc.words.compare.rows import RowWords

_STYLES = {"go": "bold green", "try": "bold yellow", "dont": "bold red"}
_TITLES, _RIG = 30, 15  # columns of the terminal that the titles, and each rig, are given


def print_comparison(words: CompareWords, console: Console) -> None:
    """Print a comparison."""
    for part in comparison_parts(words, console.width):
        console.print(part)


def comparison_parts(words: CompareWords, width: int) -> Iterable[RenderableType]:
    """Give the comparison's parts in the order in which they are read; as many rigs beside each other as `width` takes."""
    yield safe(words, style=_STYLES[words.comparison.choice.judgement])
    names = [side.name for side in words.comparison.rigs]
    beside = max((width - _TITLES) // _RIG, 1)
    for start in range(0, len(names), beside):
        places = range(start, min(start + beside, len(names)))
        if words.differing:
            yield from headed(
                "What differs" if start == 0 else "What differs, the next", _table(words.differing, names, places)
            )
    if words.same:
        yield Text("")
        yield safe(words.same, style="dim")
    if len({str(said) for _, said in words.each}) == 1:
        yield from headed("Each by itself", safe(words.each[0][1]))
    else:
        yield from headed("Each by itself", bullets(f"{name} - {said}" for name, said in words.each))


def _table(rows: Sequence[RowWords], names: Sequence[str], places: Iterable[int]) -> Table:
    table = Table(box=None, pad_edge=False, show_header=True, header_style="bold")
    table.add_column("", overflow="fold")
    for place in places:
        table.add_column(safe(names[place]), justify="right", overflow="fold")
    for row in rows:
        table.add_row(row.title, *(safe(row.cells[place]) for place in places))
    return table
