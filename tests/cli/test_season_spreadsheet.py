"""Seasons side by side as CSV and XLSX: formulas that give what the answer gives, a picture that follows them."""

import csv
import io
import re
import zipfile
from xml.etree import ElementTree

import pytest

from rigcalc import in_words, season
from rigcalc.core.errors import InputError
from rigcalc.core.units import factor
from rigcalc.views.spreadsheet.season import season_csv, season_xlsx
from rigcalc.words.season.spreadsheet import ROWS, head

PRICES = {"tractor_price": 400_000, "tool_price": 80_000, "fuel_price": "3.50 per gal", "wage": "25 per h",
          "wear": "1 per acre", "def_price": "4 per gal"}  # fmt: skip
PLAN = {"start": "1 Oct", "by": "15 Nov", "area": "1150 acre", "days": {"share": "60 percent"}, "money": PRICES,
        "day": {"fuel_helper": True}}  # fmt: skip
BOTH = ["articulated", "two_wheel_drive"]
ARGS = ["--start", "1 Oct", "--by", "15 Nov", "--area", "1150 acre", "--fit", "60 percent"]
COSTS = ["--tractor-price", "400000", "--tool-price", "80000", "--fuel-price", "3.50 per gal"]


def words(rigs=BOTH, units="us", plan=PLAN):
    return in_words(season(rigs, plan), units)


def cells(data):
    """Give cell -> (formula or None, number) of the first sheet, and the XML of the picture."""
    with zipfile.ZipFile(io.BytesIO(data)) as book:
        sheet, chart = (book.read(f"xl/{name}").decode() for name in ("worksheets/sheet1.xml", "charts/chart1.xml"))
    out = {}
    for cell in ElementTree.fromstring(sheet).iter("{http://schemas.openxmlformats.org/spreadsheetml/2006/main}c"):
        formula, value = (cell.find(f"{{*}}{name}") for name in "fv")
        if cell.get("t") != "s" and value is not None:
            out[cell.get("r")] = (None if formula is None else formula.text, float(value.text))
    return out, chart


def reckoned(found, formula):
    """Work a formula out anew from the cells that it names."""
    plain = re.sub(r"[A-Z]\d+", lambda cell: f"({value(found, cell.group())!r})", formula)
    assert re.fullmatch(r"[\d.e+\-*/() ]+", plain)
    return eval(plain)  # digits and signs alone


def value(found, cell):
    formula, number = found[cell]
    return number if formula is None else reckoned(found, formula)


@pytest.mark.parametrize("units", ["us", "si"])
def test_formulas_give_what_the_season_of_each_rig_alone_gives(units):
    found, _chart = cells(season_xlsx(words(units=units)))
    area = 1.0 if units == "si" else factor("acre", "ha")
    for letter, rig in zip("BC", BOTH, strict=True):
        alone = season(rig, PLAN)
        at = {name: f"{letter}{row}" for row, name in enumerate(ROWS, 2)}
        assert found[at["per_area"]][0] is not None
        money = alone.rigs[0].money
        assert value(found, at["an_hour"]) == pytest.approx(money.an_hour, rel=1e-9)
        assert value(found, at["per_area"]) == pytest.approx(money.per_area * area, rel=1e-6)
        assert value(found, at["hours"]) == pytest.approx(money.hours, rel=1e-9)
        assert found[at["chance"]][1] == pytest.approx(100 * alone.finish.chance)
        for name in ROWS:  # what a reader without formulas shows
            assert found[at[name]][1] == pytest.approx(value(found, at[name]), rel=1e-9)


def test_every_shaded_figure_but_the_area_and_the_chance_moves_the_cost():
    found, _chart = cells(season_xlsx(words("articulated")))
    before = value(found, f"B{list(ROWS).index('per_area') + 2}")
    for row, name in enumerate(ROWS, 2):
        if found[f"B{row}"][0] is None and name != "chance":
            more = found | {f"B{row}": (None, found[f"B{row}"][1] * 1.1)}
            assert value(more, f"B{list(ROWS).index('per_area') + 2}") != pytest.approx(before, rel=1e-6), name


def test_the_picture_is_cost_against_chance_of_every_rig():
    chart = cells(season_xlsx(words()))[1]
    assert chart.count("<c:ser>") == 2
    for cell in ("Costs!$B$17", "Costs!$B$18", "Costs!$C$17", "Costs!$C$18", "Costs!$B$1"):
        assert cell in chart
    assert list(ROWS)[15:] == ["per_area", "chance"]


def test_csv_has_a_row_for_each_rig_and_alike_ones_once():
    rows = list(csv.reader(io.StringIO(season_csv(words([*BOTH, "articulated"])).decode("utf-8-sig"))))
    assert len(rows) == 3
    assert rows[0][1:] == [head(name, "us") for name in ROWS]
    costs = [float(row[1 + list(ROWS).index("per_area")]) for row in rows[1:]]
    for cost, rig in zip(costs, BOTH, strict=True):
        assert cost == pytest.approx(season(rig, PLAN).rigs[0].money.per_area * factor("acre", "ha"), rel=1e-6)


def test_without_prices_there_is_no_table():
    with pytest.raises(InputError, match="--tool-price, --fuel-price"):
        season_csv(words(plan=PLAN | {"money": {"tractor_price": 1}}))


def test_the_command_writes_both_and_writes_over_nothing(run, tmp_path):
    table, book = tmp_path / "s.csv", tmp_path / "s.xlsx"
    code, out, err = run("season", *BOTH, *ARGS, *COSTS, "--csv", table, "--xlsx", book)
    assert code in (0, 3)
    assert "it is done in" in out
    assert err.count("Wrote") == 2
    assert table.stat().st_size > 300
    assert zipfile.is_zipfile(book)
    code, _out, err = run("season", *BOTH, *ARGS, *COSTS, "--csv", table, "--xlsx", tmp_path / "x.txt")
    assert code == 2
    assert "--csv" in err
    assert "--xlsx" in err
    code, out, err = run("season", *BOTH, *ARGS, "--csv", tmp_path / "none.csv")
    assert code == 2
    assert "--tractor-price" in err
    assert not (tmp_path / "none.csv").exists()
