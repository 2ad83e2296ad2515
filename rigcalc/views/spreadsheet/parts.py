"""What every table for other programs is made of: CSV and XLSX as bytes. A text is a text there, whatever it begins with."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from typing import Any

from rigcalc.core.errors import printable

Cell = float | str | None
Rows = Sequence[Sequence[Cell]]
# What spreadsheets read as the beginning of a formula; a mark before it makes it a text.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_NARROWEST, _WIDEST = 14, 60  # letters of a column; a longer head is wrapped


def csv_bytes(heads: Sequence[str], rows: Rows) -> bytes:
    """Give a table as CSV in UTF-8, with the mark in front by which spreadsheets know it."""
    out = io.StringIO()
    writer = csv.writer(out)
    for row in (heads, *rows):
        writer.writerow([_as_text(cell) if isinstance(cell, str) else "" if cell is None else f"{cell:.10g}" for cell in row])
    return out.getvalue().encode("utf-8-sig")


def _as_text(text: str) -> str:
    return printable(f"'{text}" if text.lstrip(" ").startswith(_FORMULA) else text)


def xlsx_bytes(sheets: dict[str, tuple[Sequence[str], Rows]]) -> bytes:
    """Give tables as a workbook, a sheet each: heads in bold that stay in sight, numbers as numbers, texts as texts."""
    import xlsxwriter

    out = io.BytesIO()
    plain = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
    with xlsxwriter.Workbook(out, plain) as book:
        bold = book.add_format({"bold": True, "text_wrap": True, "valign": "top"})
        wrapped = book.add_format({"text_wrap": True, "valign": "top"})
        number = book.add_format({"num_format": "#,##0.0##", "valign": "top"})
        for name, (heads, rows) in sheets.items():
            sheet = book.add_worksheet(name)
            sheet.freeze_panes(1, 1)
            for column, head in enumerate(heads):
                sheet.write_string(0, column, printable(head), bold)
                sheet.set_column(column, column, _wide(column, head, rows))
            for place, row in enumerate(rows, 1):
                for column, cell in enumerate(row):
                    _write(sheet, place, column, cell, wrapped, number)
    return out.getvalue()


def _wide(column: int, head: str, rows: Rows) -> int:
    longest = max((len(cell) for row in rows if isinstance(cell := row[column], str)), default=0)
    return min(max(longest, min(len(head), _NARROWEST)) + 2, _WIDEST)


def _write(sheet: Any, row: int, column: int, cell: Cell, text: Any, number: Any) -> None:
    if isinstance(cell, str):
        sheet.write_string(row, column, printable(cell), text)
    elif cell is not None:
        sheet.write_number(row, column, cell, number)
