"""What every answer in a terminal is made of: headings, lists, tables, the working; and the console they are printed to."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from rich.console import Console, ConsoleOptions, RenderableType
from rich.padding import Padding
from rich.segment import Segment
from rich.table import Table
from rich.text import Text

from rigcalc.core.errors import printable
from rigcalc.core.working import Working
from rigcalc.words.dimensions import LETTERS, dimensions_said
from rigcalc.words.solved import solved_line

_NARROWEST = 20  # columns


def print_working(steps: Iterable[Working], console: Console, ranges: Iterable[str] = (), solve_for: str = "") -> None:
    """Print every equation used: formula, numbers put in, result, dimensions, source, how sure; which inputs left their range.

    solve_for: a symbol for which each step that has it is solved, too.
    """
    console.print(Text("\nWorking", style="bold"))
    above = f"Numbers put into a formula stand in the units of its source. {LETTERS}"
    console.print(Padding(Text(above, style="dim"), (0, 0, 0, 3)))
    for line in ranges:
        console.print(Padding(Text(line), (0, 0, 0, 3)))
    for place, step in enumerate(steps, 1):
        console.print(Text(f"\n{place}. {step.title}", style="bold"))
        console.print(Padding(Text(step.text), (0, 0, 0, 3)))
        console.print(Padding(Text(f"{step.gives} = {step.text_numbers} = {step.result}"), (0, 0, 0, 3)))
        for line in step.inputs:
            console.print(Padding(Text(line, style="dim"), (0, 0, 0, 5)))
        if line := solved_line(step, solve_for):
            console.print(Padding(Text(line), (0, 0, 0, 3)))
        if step.dimensions is not None:
            check = f"{step.dimensions.text}: {dimensions_said(step.dimensions)}"
            console.print(Padding(Text(check, style="dim"), (0, 0, 0, 3)))
        console.print(Padding(Text(f"{step.source} ({step.sure})", style="italic"), (0, 0, 0, 3)))


def headed(title: str, body: RenderableType) -> Iterable[RenderableType]:
    """Give a heading and, indented under it, its body."""
    yield safe(f"\n{title}", style="bold")
    yield Padding(body, (0, 0, 0, 2))


def bullets(lines: Iterable[str]) -> Table:
    """Give lines as a list whose long lines hang."""
    table = Table.grid(padding=(0, 1, 0, 0))
    for line in lines:
        table.add_row("-", safe(line))
    return table


def new_console() -> Console:
    """Make the console that every command prints to: names from a file are never read as markup nor obeyed."""
    console = _Console(highlight=False, markup=False, emoji=False, soft_wrap=False)
    if console.width < _NARROWEST:  # COLUMNS=0, as in some scheduled jobs, says that nobody knows
        console.width = 80
    return console


class _Console(Console):
    """A console that shows a mark in place of what a terminal would obey, whatever part of the answer it stands in."""

    def render(self, renderable: RenderableType, options: ConsoleOptions | None = None) -> Iterable[Segment]:
        """Give the pieces of a part of the answer."""
        for piece in super().render(renderable, options):
            if piece.control or piece.text.isprintable() or piece.text == "\n":
                yield piece
            else:
                yield Segment("\n".join(printable(line) for line in piece.text.split("\n")), piece.style)


def safe(text: object, style: str = "") -> Text:
    """Give a text that may hold names from a file: what could steer the terminal is replaced by a mark."""
    return Text("\n".join(printable(line) for line in str(text).split("\n")), style=style)


def rows(pairs: Iterable[tuple[str, Any]]) -> Table:
    """Give a plain two-column table."""
    table = Table(box=None, pad_edge=False, show_header=False)
    table.add_column(style="bold")
    table.add_column()
    for left, right in pairs:
        table.add_row(safe(left), right if isinstance(right, Text) else safe(right))
    return table
