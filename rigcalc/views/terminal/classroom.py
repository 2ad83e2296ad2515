"""Problems and marks in a terminal: what kinds there are, a student's problems, a line for each student's marks."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from rigcalc.models.classroom.class_marks import StudentMarks
from rigcalc.models.classroom.kinds import Kind, System
from rigcalc.models.classroom.problem import Problem
from rigcalc.views.terminal.parts import safe
from rigcalc.words.classroom.problem import LESSONS, LEVELS, ProblemWords
from rigcalc.words.classroom.sheet import TOTAL_HEADS, total_rows
from rigcalc.words.spelling import spelt


def print_kinds(kinds: Iterable[Kind], units: System, console: Console) -> None:
    """Print what kinds of problems there are, spelled for their units."""
    rows = [(kind.name, spelt(kind.title, units), LESSONS[kind.lesson], LEVELS[kind.level]) for kind in kinds]
    table = _table(("Kind", "Title", "Lesson", "Level"), rows)
    table.columns[0].no_wrap = True  # it is typed as it stands here
    console.print(table)


def print_problems(problems: Sequence[Problem], answers: bool, console: Console) -> None:
    """Print problems, with hints, or with answers and working."""
    for number, problem in enumerate(problems, 1):
        words = ProblemWords(problem)
        console.print(Text(f"{number}. {words.title}", style="bold"))
        console.print(Padding(Text(words.text), (0, 0, 0, 3)))
        for line in (words.answer, *words.working) if answers else (words.asks, *words.hints):
            console.print(Padding(Text(line, style="" if line == words.answer else "dim"), (0, 0, 0, 3)))
        console.print()


def print_totals(marks: Iterable[StudentMarks], console: Console) -> None:
    """Print a line for each student, and for each file that is nobody's."""
    rows = [[f"{cell:g}" if isinstance(cell, float) else cell for cell in row] for row in total_rows(marks)]
    console.print(_table(TOTAL_HEADS, rows))


def _table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> Table:
    table = Table(box=None, pad_edge=False, header_style="bold")
    for head in heads:
        table.add_column(head, overflow="fold")
    for row in rows:
        table.add_row(*(safe(cell) for cell in row))
    return table
