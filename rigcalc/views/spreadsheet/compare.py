"""A comparison as CSV and XLSX: a row for each rig, a column for each figure with its unit in the head."""

from __future__ import annotations

from rigcalc.models.compare.figures import FIGURES
from rigcalc.views.spreadsheet.parts import Cell, csv_bytes, xlsx_bytes
from rigcalc.words.compare import CompareWords
from rigcalc.words.compare.rows import shown_figure, title


def comparison_csv(words: CompareWords) -> bytes:
    """Give the figures as CSV."""
    return csv_bytes(*_figures(words))


def comparison_xlsx(words: CompareWords) -> bytes:
    """Give the figures on one sheet, the sentences on another."""
    answer: list[list[Cell]] = [["", str(words)]]
    answer += [[name, str(said)] for name, said in words.each]
    return xlsx_bytes({"Figures": _figures(words), "Answer": (["Rig", "Answer"], answer)})


def _figures(words: CompareWords) -> tuple[list[str], list[list[Cell]]]:
    heads, columns = ["Rig"], []
    for figure in FIGURES:
        values = [side.figures[figure.name] for side in words.comparison.rigs]
        shown = [shown_figure(figure.name, figure.unit, value, words.units) for value in values]
        unit = shown[0][1]
        heads.append(f"{title(figure.name, words.comparison)}{f', {unit}' if unit else ''}")
        columns.append([value for value, _ in shown])
    names = [side.name for side in words.comparison.rigs]
    return heads, [[name, *(column[at] for column in columns)] for at, name in enumerate(names)]
