"""Seasons of several rigs side by side, each alone: CSV, and XLSX whose costs are formulas, with cost against chance drawn."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from rigcalc.core.errors import Fault, InputError, printable
from rigcalc.core.units import factor
from rigcalc.models.season.abreast import alone
from rigcalc.models.season.answer import SeasonAnswer
from rigcalc.models.season.plan import Costs
from rigcalc.views.spreadsheet.parts import csv_bytes
from rigcalc.words.numbers import System
from rigcalc.words.season import SeasonWords
from rigcalc.words.season.spreadsheet import ROWS, SHEETS, head, note, picture


@dataclass(frozen=True)
class _Alone:
    """One rig that has the fields to itself: what it is called and its season."""

    name: str
    words: SeasonWords


def season_csv(words: SeasonWords) -> bytes:
    """Give the rigs of a season, each alone, as CSV: a row each, a column for each figure. Raises InputError without prices."""
    rigs = _alone(words)
    figures = [_figures(rig.words.answer, words.units) for rig in rigs]
    heads = ["", *(head(name, words.units) for name in ROWS)]
    return csv_bytes(heads, [[rig.name, *(each[name] for name in ROWS)] for rig, each in zip(rigs, figures, strict=True)])


def season_xlsx(words: SeasonWords) -> bytes:
    """Give the same as a workbook whose hours and costs are formulas, with a picture. Raises InputError without prices."""
    import xlsxwriter

    rigs = _alone(words)
    out = io.BytesIO()
    plain = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
    with xlsxwriter.Workbook(out, plain) as book:
        bold = book.add_format({"bold": True, "text_wrap": True, "valign": "top"})
        typed = book.add_format({"num_format": "#,##0.0##", "bg_color": "#FFF6D6"})
        made = book.add_format({"num_format": "#,##0.00"})
        wrapped = book.add_format({"text_wrap": True, "valign": "top"})
        sheet = book.add_worksheet(SHEETS[0])
        sheet.freeze_panes(1, 1)
        sheet.set_column(0, 0, 44)
        sheet.set_column(1, len(rigs), 20)
        for row, name in enumerate(ROWS, 1):
            sheet.write_string(row, 0, head(name, words.units), bold)
        for column, rig in enumerate(rigs, 1):
            _column(sheet, column, rig, words.units, (bold, typed, made))
        sheet.write_string(len(ROWS) + 2, 0, note(), wrapped)
        sheet.insert_chart(len(ROWS) + 4, 0, _picture(book, len(rigs), words.units))
        answers = book.add_worksheet(SHEETS[1])
        answers.set_column(0, 0, 30)
        answers.set_column(1, 1, 110)
        for row, (name, said) in enumerate([("", str(words)), *((rig.name, str(rig.words)) for rig in rigs)]):
            answers.write_string(row, 0, printable(name), bold)
            answers.write_string(row, 1, printable(said), wrapped)
    return out.getvalue()


def _alone(words: SeasonWords) -> list[_Alone]:
    """Run the season of each rig by itself; alike ones once."""
    found = words.answer
    if missing := found.missing_prices:
        wanted = ", ".join(f"--{name.replace('_', '-')}" for name in missing)
        raise InputError([Fault("money", f"no {' and no '.join(missing)}", "prices, since the table is about costs", wanted)])
    made = [_Alone(words.names[each.place], SeasonWords(each.found, words.units)) for each in alone(found)]
    if stands := [rig.name for rig in made if rig.words.answer.rigs[0].money is None]:
        raise InputError(
            [Fault("rigs", f"{' and '.join(stands)}, which can't do the work", "rigs that can pull", "less --depth")]
        )
    return made


def _figures(found: SeasonAnswer, units: System) -> dict[str, float]:
    """Give every figure of one rig alone, in the units shown."""
    (one,), costs = found.rigs, found.plan.money
    money = one.money
    assert money is not None
    area, volume = (1.0, 1.0) if units == "si" else (factor("ha", "acre"), factor("L", "gal"))
    return {
        "area": money.area * area,
        "capacity": money.area / money.hours * area,
        "hours": money.hours,
        "owning_tractor": money.parts["owning_tractor"] * money.hours,
        "owning_tool": money.parts["owning_tool"] * money.hours,
        "repairs_tractor": money.parts["repairs_tractor"],
        "repairs_tool": money.parts["repairs_tool"],
        "fuel": one.day.fuel / one.day.field * volume,
        "fuel_price": _known(costs, "fuel_price") / volume,
        "oil": costs.coefficient("oil"),
        "def": money.parts.get("def", 0.0),
        "labour": money.parts.get("labour", 0.0),
        "helper": money.parts.get("helper", 0.0),
        "wear": _known(costs, "wear") / area,
        "an_hour": money.an_hour,
        "per_area": money.per_area / area,
        "chance": 100 * found.finish.chance,
    }


def _known(costs: Costs, name: str) -> float:
    value: float | None = getattr(costs, name)
    return 0.0 if value is None else value


def formulas(letter: str) -> dict[str, str]:
    """Give name -> the formula of a figure that others make, for the rig in a column."""
    at = {name: f"{letter}{row}" for row, name in enumerate(ROWS, 2)}
    hour = [
        f"({at['owning_tractor']}+{at['owning_tool']})/{at['hours']}", at["repairs_tractor"], at["repairs_tool"],
        f"{at['fuel']}*{at['fuel_price']}*(1+{at['oil']})", at["def"], at["labour"], at["helper"],
        f"{at['wear']}*{at['capacity']}",
    ]  # fmt: skip
    return {
        "hours": f"={at['area']}/{at['capacity']}",
        "an_hour": f"={'+'.join(hour)}",
        "per_area": f"={at['an_hour']}/{at['capacity']}",
    }


def _column(sheet: Any, column: int, rig: _Alone, units: System, formats: Sequence[Any]) -> None:
    bold, typed, made = formats
    figures, live = _figures(rig.words.answer, units), formulas(chr(ord("A") + column))
    sheet.write_string(0, column, printable(rig.name), bold)
    for row, name in enumerate(ROWS, 1):
        if name in live:
            sheet.write_formula(row, column, live[name], made, figures[name])
        else:
            sheet.write_number(row, column, figures[name], typed)


def _picture(book: Any, rigs: int, units: System) -> Any:
    """Draw cost against chance, a mark for each rig; it follows the formulas."""
    chart = book.add_chart({"type": "scatter"})
    across, up = list(ROWS).index("per_area") + 1, list(ROWS).index("chance") + 1
    for column in range(1, rigs + 1):
        chart.add_series({
            "name": [SHEETS[0], 0, column],
            "categories": [SHEETS[0], across, column, across, column],
            "values": [SHEETS[0], up, column, up, column],
            "marker": {"type": ("circle", "square", "diamond", "triangle")[(column - 1) % 4], "size": 10},
        })  # fmt: skip
    title, x, y = picture(units)
    chart.set_title({"name": title, "overlay": False})
    chart.set_x_axis({"name": x, "major_gridlines": {"visible": True}})
    chart.set_y_axis({"name": y, "min": 0, "max": 100})
    chart.set_size({"width": 760, "height": 420})
    return chart
