"""`rigcalc find`: the book of equations and the tools of the draft table, by word."""

from __future__ import annotations

from typing import Any

import click

from rigcalc.core.errors import Fault, InputError


@click.command()
@click.argument("word", nargs=-1, required=True)
def find(word: tuple[str, ...]) -> None:
    """Find equations, and tools of the draft table, by WORD."""
    from rich.text import Text

    from rigcalc.core.tables import table
    from rigcalc.core.working import text
    from rigcalc.equations import find as find_equations
    from rigcalc.views.terminal.parts import new_console, rows

    wanted = " ".join(word)
    found = find_equations(wanted)
    tools = [row for row in table("d497_draft") if wanted.lower() in f"{row['tool']} {row['title']}".lower().replace("_", " ")]
    console = new_console()
    for eq in found:
        console.print(Text(f"\n{eq.__name__}", style="bold"), Text(eq.summary))
        unit = "" if eq.gives.unit in ("1", "text") else f" [{eq.gives.unit}]"
        place = f"{eq.source}{', ' + eq.where if eq.where else ''} ({eq.sure})"
        console.print(rows([("formula", text(eq) + unit), ("file", _place(eq)), ("source", place)]))
    if tools:
        console.print(Text("\nTools of the draft table", style="bold"))
        console.print(rows([(row["tool"], row["title"]) for row in tools]))
    if not found and not tools:
        raise InputError([Fault("find", repr(wanted), "a word of an equation or tool", "rigcalc find slip")])


def _place(eq: Any) -> str:
    return f"{eq.__module__.replace('.', '/')}.py:{eq.bare.__code__.co_firstlineno}"
