"""`rigcalc find`: the book of equations and the tools of the draft table, by word."""

from __future__ import annotations

from typing import Any

import click

from rigcalc.core.errors import Fault, InputError


@click.command()
@click.argument("word", nargs=-1, required=True)
@click.option("--solve-for", metavar="SYMBOL", help="Solve the equation named WORD for one of its arguments, such as depth.")
def find(word: tuple[str, ...], solve_for: str | None) -> None:
    """Find equations, and tools of the draft table, by WORD."""
    if solve_for is not None:
        _solved("_".join(" ".join(word).split()), solve_for)
        return
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


def _solved(name: str, symbol: str) -> None:
    """Print one equation solved for one of its arguments, with the unit of each symbol."""
    from rich.text import Text

    from rigcalc.core.working import text
    from rigcalc.equations import named
    from rigcalc.equations import solve_for as solved_for
    from rigcalc.views.terminal.parts import new_console, rows

    found = solved_for(named(name), symbol)
    console = new_console()
    console.print(Text(f"\n{found.of.__name__}", style="bold"), Text(found.summary))
    console.print(rows([("formula", text(found.of)), ("solved", found.text)]))
    console.print(Text("\nSymbols, in the units of the formula", style="bold"))
    symbols = [found.gives, *found.takes]
    console.print(rows([(each.name, f"[{each.unit}] {each.text}") for each in symbols]))
    place = f"{found.source}{', ' + found.where if found.where else ''} ({found.sure})"
    console.print(rows([("source", place)]))


def _place(eq: Any) -> str:
    return f"{eq.__module__.replace('.', '/')}.py:{eq.bare.__code__.co_firstlineno}"
