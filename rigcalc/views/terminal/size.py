"""The answer in a terminal: the sentence first, then what it takes, the limits, the reverse answers, notes and cautions."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any

from rich.console import Console, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from rigcalc.core.errors import printable
from rigcalc.core.working import Working
from rigcalc.models.size.answer import Answer
from rigcalc.words.numbers import System, chance, number, percent, say, to_shown

_MARK = {
    "ok": ("holds", "green"),
    "tight": ("tight", "yellow"),
    "over": ("PASSED", "bold red"),
    "unknown": ("not known", "dim"),
}
_TAKES = (
    ("draft", "Draft", "kN"), ("drawbar_pull", "Drawbar pull", "kN"), ("slip", "Slip", "share"),
    ("engine_power", "Engine power", "kW"), ("engine_share", "Share of rated power", "share"),
    ("tractive_efficiency", "Tractive efficiency", "share"), ("front_load", "Front axle load", "kN"),
    ("rear_load", "Rear axle load", "kN"), ("fuel_rate", "Fuel each hour", "L/h"), ("fuel_per_area", "Fuel each area", "L/ha"),
)  # fmt: skip


def print_answer(answer: Answer, console: Console) -> None:
    """Print a whole answer."""
    for part in answer_parts(answer):
        console.print(part)


def answer_parts(answer: Answer) -> Iterable[RenderableType]:
    """Give the answer's parts in the order in which they are read."""
    yield Text(answer.sentence, style="bold green" if answer.works else "bold red")
    yield Text("")
    yield Text(_rig_line(answer), style="dim")
    yield from headed("What it takes", _takes(answer))
    yield from headed("Limits, the fullest first", _limits(answer))
    yield from headed("The other way round", bullets(line.text for line in answer.reverse))
    yield from headed("How sure", _sure(answer))
    if answer.season_text:
        yield from headed("Season", Text(answer.season_text))
    yield from headed("Notes", bullets(answer.notes))
    yield from headed("Cautions", bullets(answer.cautions))


def print_working(steps: Iterable[Working], console: Console) -> None:
    """Print every equation used: formula, numbers put in, result, source, how sure."""
    console.print(Text("\nWorking", style="bold"))
    for place, step in enumerate(steps, 1):
        left = step.text.split(" = ", 1)[0]
        console.print(Text(f"\n{place}. {step.title}", style="bold"))
        console.print(Padding(Text(step.text), (0, 0, 0, 3)))
        console.print(Padding(Text(f"{left} = {step.text_numbers} = {step.result}"), (0, 0, 0, 3)))
        for line in step.inputs:
            console.print(Padding(Text(line, style="dim"), (0, 0, 0, 5)))
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


def _rig_line(answer: Answer) -> str:
    rig, p, units = answer.rig, answer.point.bare, answer.units
    parts = [rig.farm, rig.tractor.name, rig.implement.name]
    width = f"{say(p.width, 'm', units)} wide, {say(p.field_capacity, 'ha/h', units)}" if answer.point.pulls else ""
    return printable("; ".join(part for part in (*parts, width) if part))  # names come from a file that others may have made


def _takes(answer: Answer) -> Table:
    table = Table(box=None, pad_edge=False, show_header=True, header_style="dim")
    table.add_column("")
    table.add_column("likely", justify="right")
    table.add_column("8 fields in 10", justify="right")
    table.add_column("")
    for name, title, unit in _TAKES:
        value = float(getattr(answer.point.bare, name))
        low, _, high, _ = answer.sure.bands[name]
        shown_unit = "%" if unit == "share" else to_shown(1.0, unit, answer.units)[1]
        table.add_row(title, _plain(value, unit, answer.units), _span(low, high, unit, answer.units), shown_unit)
        if name == "slip":
            low, best, high = answer.best_slip
            table.add_row(
                "Slip of best efficiency", _plain(best, unit, answer.units), _span(low, high, unit, answer.units), "%"
            )
    return table


def _plain(value: float | None, unit: str, units: System) -> str:
    if value is None or not math.isfinite(value):
        return "beyond grip"
    return percent(value).removesuffix(" %") if unit == "share" else number(to_shown(value, unit, units)[0])


def _span(low: float | None, high: float | None, unit: str, units: System) -> str:
    return f"{_plain(low, unit, units)} to {_plain(high, unit, units)}" if low is not None else "beyond grip"


def _limits(answer: Answer) -> Table:
    table = Table(box=None, pad_edge=False, show_header=True, header_style="dim")
    for title, side in (("limit", "left"), ("used", "right"), ("", "left"), ("", "left")):
        table.add_column(title, justify=side)  # type: ignore[arg-type]
    known = sorted((m for m in answer.margins if m.used is not None), key=lambda m: -(m.used or 0))
    for margin in known:
        words, style = _MARK[margin.state]
        used = percent(margin.used) if math.isfinite(margin.used or 0) else "-"
        table.add_row(margin.title, used, Text(words, style=style), margin.text)
    unknown = [m.title for m in answer.margins if m.limit is None and "pressure" not in m.name]
    if unknown:
        table.add_row(Text("not known: " + ", ".join(unknown), style="dim"))
    return table


def _sure(answer: Answer) -> Text:
    sure = answer.sure
    return Text(
        f"Enough grip and engine in {chance(sure.chance_pulls)} such fields; every limit kept, slip too, in "
        f"{chance(sure.chance_works)}. The draft table scatters by {percent(sure.draft_range)} either way, and soil strength "
        f"is taken to scatter too; most of the coefficients stand here from memory of the standard (see docs/equations.md)."
    )


def new_console() -> Console:
    """Make the console that every command prints to: names from a file are never read as markup."""
    return Console(highlight=False, markup=False, emoji=False, soft_wrap=False)


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
