"""The marks of a class as CSV."""

from __future__ import annotations

from collections.abc import Iterable

from rigcalc.models.classroom.class_marks import StudentMarks
from rigcalc.views.spreadsheet.parts import csv_bytes
from rigcalc.words.classroom.sheet import MARK_HEADS, TOTAL_HEADS, mark_rows, total_rows


def marks_csv(marks: Iterable[StudentMarks]) -> bytes:
    """Give a row for each student and problem."""
    return csv_bytes(MARK_HEADS, mark_rows(marks))


def totals_csv(marks: Iterable[StudentMarks]) -> bytes:
    """Give a row for each student."""
    return csv_bytes(TOTAL_HEADS, total_rows(marks))
