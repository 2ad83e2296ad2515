"""Printed widths and diameters of tyres beside what their sizes say. Every number is from print, none from our own output.

Left out of the catalogue, each for its reason: treads with deep lugs (rice, R-2), which stand 3 to 4.5 percent higher than any
other of their size; 230/95R44, whose row repeats that of 230/95R48; 11.00-16 on page 64, which page 65 contradicts.
"""

import csv
import tomllib
from pathlib import Path

import pytest

from rigcalc.models.rig.tyre_size import tyre_size

ROOT = Path(__file__).parents[2]
SOURCES = tomllib.loads((ROOT / "reference_tables" / "sources.toml").read_text(encoding="utf-8"))
FLOTATION = 0.065, 0.05  # a size in inches across is a name: makers of turf tyres stay under it
DIAMETERS, WIDTHS = 0.025, 0.032  # makers differ by more among themselves: 480/65R24 is printed as 1238 and as 1250 mm
with (Path(__file__).parent / "printed_tyre_sizes.csv").open(encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['size']} {row['source']}")
def test_printed_size(row):
    size = tyre_size(row["size"])
    across, wide = FLOTATION if "x" in size.text else (DIAMETERS, WIDTHS)
    assert size.diameter * 1000 == pytest.approx(float(row["diameter"]), rel=across)
    if row["width"]:
        assert size.width * 1000 == pytest.approx(float(row["width"]), rel=wide)
    if row["radius"]:  # loaded: between the rim and the free radius
        assert size.rim / 2 < float(row["radius"]) / 1000 < size.diameter / 2


def test_there_are_enough_sizes_and_sources():
    assert len({tyre_size(row["size"]).text for row in ROWS}) >= 150
    assert len({row["source"] for row in ROWS}) >= 5
    assert {row["source"] for row in ROWS} <= set(SOURCES)
    assert all(row["where"] for row in ROWS)


def test_all_forms_and_marks_are_there():
    texts = {tyre_size(row["size"]).text for row in ROWS}
    assert sum("x" in text for text in texts) >= 6
    assert sum(text.startswith("VF ") for text in texts) >= 8


def test_no_lean_to_either_side():
    rows = [row for row in ROWS if "x" not in row["size"]]
    off = [float(row["diameter"]) / 1000 / tyre_size(row["size"]).diameter - 1 for row in rows]
    assert abs(sum(off)) / len(off) < 0.005
    inch = [share for share, row in zip(off, rows, strict=True) if tyre_size(row["size"]).known_by == "table"]
    assert abs(sum(inch)) / len(inch) < 0.01
