"""What stands on a sheet of problems beside the problems, and the words of the tables of marks."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum

from rigcalc.models.classroom.answers import Unread
from rigcalc.models.classroom.class_marks import StudentMarks
from rigcalc.words.classroom.marks import refused_said, told

ANSWER_HERE = '# A number and its unit between the quotation marks, such as "12.5 kN". It is read as text; nothing is run.'
HOW_TO_RETURN = (
    "Write each answer between the quotation marks of its cell, save, and return this file. Use other cells for your own work: "
    "they are not looked at."
)
NOTHING = "Nothing returned."
MARK_HEADS = ("Student", "Problem", "Kind", "Right", "What", "Typed", "Said", "File")
TOTAL_HEADS = ("Student", "Right", "Of", "Said", "File")
_LONGEST = 100  # letters of an answer in a table


def heading(student: str, answers: bool) -> str:
    """Give the heading of a sheet."""
    return f"Answers for {student}" if answers else f"Problems for {student}"


def mark_rows(marks: Iterable[StudentMarks]) -> list[list[str | float]]:
    """Give a row for each student and problem, and for each file that isn't marked."""
    rows: list[list[str | float]] = []
    for each in marks:
        if not each.marks:
            said = refused_said(each.refused) if each.refused else NOTHING
            rows.append([each.student, "", "", 0.0, _code(each.refused) if each.refused else "none", "", said, each.file])
        for number, (problem, mark) in enumerate(zip(each.problems, each.marks, strict=False), 1):
            what = _code(mark.unread or mark.outcome)
            typed = mark.typed[:_LONGEST]
            said = told(mark, problem)
            rows.append([each.student, float(number), problem.kind.name, float(mark.right), what, typed, said, each.file])
    return rows


def total_rows(marks: Iterable[StudentMarks]) -> list[list[str | float]]:
    """Give a row for each student, and for each file that is nobody's."""
    return [
        [each.student, float(each.right), float(len(each.problems)), _about(each), each.file]
        for each in marks
    ]  # fmt: skip


def _code(found: Enum) -> str:
    return str(found.value).replace("_", " ")


def _about(each: StudentMarks) -> str:
    if each.refused:
        return refused_said(each.refused)
    gone = sum(mark.unread is Unread.GONE for mark in each.marks)
    if gone:
        return "1 line for an answer is gone." if gone == 1 else f"{gone} lines for answers are gone."
    return "" if each.marks else NOTHING
