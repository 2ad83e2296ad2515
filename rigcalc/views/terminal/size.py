"""The answer in a terminal: the sentences first, then what it takes, the limits, the reverse answers, notes and cautions."""

from __future__ import annotations

import math
from collections.abc import Iterable

from rich.console import Console, Group, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from rigcalc.core.errors import printable
from rigcalc.views.terminal.parts import bullets, headed, safe
from rigcalc.words.numbers import System, number, percent_number, say, to_shown
from rigcalc.words.quantities import OUT_OF_REACH, QUANTITY_TITLES
from rigcalc.words.size import SizeWords
from rigcalc.words.size.parts import reverse_lines

_STYLES = {"ok": "green", "tight": "yellow", "over": "bold red", "unknown": "dim",
           "go": "bold green", "try": "bold yellow", "dont": "bold red"}  # fmt: skip
_TAKES = (
    ("draft", "kN"), ("drawbar_pull", "kN"), ("slip", "share"), ("engine_power", "kW"), ("engine_share", "share"),
    ("tractive_efficiency", "share"), ("front_load", "kN"), ("rear_load", "kN"), ("fuel_rate", "L/h"),
    ("fuel_per_area", "L/ha"),
)  # fmt: skip
MOST_NOTES = 5  # in sight; `--notes` shows them all
MOST_FIRST = 3  # in sight; `--first` shows them all


def print_answer(words: SizeWords, console: Console, all_notes: bool = False, all_first: bool = False) -> None:
    """Print an answer: the weightiest notes and what to measure first, or all of each."""
    for part in answer_parts(words, all_notes, all_first):
        console.print(part)


def answer_parts(words: SizeWords, all_notes: bool = False, all_first: bool = False) -> Iterable[RenderableType]:
    """Give the answer's parts in the order in which they are read."""
    yield safe(words, style=_STYLES[words.answer.verdict.judgement])
    yield Text("")
    yield Text(_rig_line(words), style="dim")
    if words.changed:
        yield from headed("What the readings changed", _changed(words))
    yield from headed("What it takes", _takes(words))
    if words.best_slip:
        yield Padding(Text(f"\n{words.best_slip}"), (0, 0, 0, 2))
    yield from headed("Limits, the fullest first", _limits(words))
    yield from headed("The other way round", bullets(reverse_lines(words.reverse)))
    yield from headed("How sure", Text(words.sure))
    if words.season.text:
        yield from headed("Season", Text(words.season.text))
    yield from headed("Notes", bullets(words.notes if all_notes else words.notes[:MOST_NOTES]))
    if (more := len(words.notes) - MOST_NOTES) > 0 and not all_notes:
        yield Text(f"  {more} more note{'s' if more > 1 else ''}: --notes", style="dim")
    if words.taken:
        yield from headed("Taken by rule", bullets(words.taken) if all_notes else Text(f"{words.taken_in_short} Each: --notes"))
    yield from headed("What to measure first", _first_in_full(words) if all_first else bullets(words.first_lines[:MOST_FIRST]))
    if (more := len(words.first) - MOST_FIRST) > 0 and not all_first:
        yield Text(f"  {more} more entr{'ies' if more > 1 else 'y'}, and what was tried: --first", style="dim")
    yield from headed("Cautions", bullets(words.cautions))


def _first_in_full(words: SizeWords) -> RenderableType:
    """Give every entry with what was tried and how far the answer moved; those on which little hangs in one line."""
    table = Table(box=None, pad_edge=False, show_header=True, header_style="dim", padding=(0, 2, 0, 0))
    for title in ("entry", "stands at", "tried", "chance", "slip", "engine load", "verdict"):
        table.add_column(title, overflow="fold")
    moving = [said for said, doubt in zip(words.first, words.answer.measure_first, strict=True) if doubt.matters]
    for said in moving:
        table.add_row(*map(safe, (said.name, said.stands, said.tried, said.chance, said.slip, said.engine_load, said.verdict)))
    parts: list[RenderableType] = [bullets(said.line for said in moving), Text(""), table] if moving else []
    return Group(*parts, safe(words.first_idle))


def _rig_line(words: SizeWords) -> str:
    rig, p, units = words.answer.rig, words.answer.point.bare, words.units
    parts = [rig.farm, rig.tractor.name, rig.implement.name]
    width = f"{say(p.width, 'm', units)} wide, {say(p.field_capacity, 'ha/h', units)}" if words.answer.point.pulls else ""
    return printable("; ".join(part for part in (*parts, width) if part))  # names come from a file that others may have made


def _takes(words: SizeWords) -> Table:
    answer, units = words.answer, words.units
    table = Table(box=None, pad_edge=False, show_header=True, header_style="dim")
    table.add_column("")
    table.add_column("likely", justify="right")
    table.add_column("8 fields in 10", justify="right")
    table.add_column("")
    for name, unit in _TAKES:
        value = float(getattr(answer.point.bare, name))
        low, _, high, _ = answer.sure.bands[name]
        unit_text = "%" if unit == "share" else to_shown(1.0, unit, units)[1]
        table.add_row(QUANTITY_TITLES[name], _plain(value, unit, units), _span(low, high, unit, units), unit_text)
    return table


def _changed(words: SizeWords) -> Table:
    table = Table(box=None, pad_edge=False, show_header=True, header_style="dim")
    for title, side in (("", "left"), ("without them", "right"), ("with them", "right")):
        table.add_column(title, justify=side)  # type: ignore[arg-type]
    for row in words.changed:
        table.add_row(row.title, row.before, row.after)
    return table


def _plain(value: float | None, unit: str, units: System) -> str:
    if value is None or not math.isfinite(value):
        return OUT_OF_REACH
    return percent_number(value) if unit == "share" else number(to_shown(value, unit, units)[0])


def _span(low: float | None, high: float | None, unit: str, units: System) -> str:
    if low is None or not math.isfinite(low):
        return OUT_OF_REACH
    return f"{_plain(low, unit, units)} to {_plain(high, unit, units)}"


def _limits(words: SizeWords) -> Table:
    table = Table(box=None, pad_edge=False, show_header=True, header_style="dim")
    for title, side in (("limit", "left"), ("used", "right"), ("", "left"), ("", "left")):
        table.add_column(title, justify=side)  # type: ignore[arg-type]
    for margin, said in words.fullest_first():
        table.add_row(said.title, said.used or "-", Text(said.state, style=_STYLES[margin.state]), said.text)
    if unknown := words.unknown_limits():
        table.add_row(Text("not known: " + ", ".join(unknown), style="dim"))
    return table
