"""What the tables say about each tool: its own operation, never a chisel's by default."""

import pytest

from rigcalc.core.tables import table
from rigcalc.models.rig.tool import least_efficiency, usual, workable

TOOLS = [row["tool"] for row in table("d497_draft") if workable(row)]


@pytest.mark.parametrize("row", list(table("d497_draft")), ids=lambda row: row["tool"])
def test_names_in_a_row_are_rows_of_their_tables(row):
    known = {other["operation"] for name in ("d497_field_operations", "usual_depths") for other in table(name)}
    assert not row["operation"] or row["operation"] in known
    assert not row["second_opinion"] or table("d497_draft")[row["second_opinion"]]["unit_si"] == row["unit_si"]
    assert not row["critical_depth"] or table("critical_depth")[row["critical_depth"]]
    assert bool(row["piece"]) == (row["tool"] in TOOLS)


def test_each_tool_has_the_ranges_of_its_own_operation():
    chisel, subsoiler = usual("chisel_straight"), usual("subsoiler_narrow")
    assert chisel.depth == pytest.approx((25.4, 30.48))
    assert chisel.extreme == pytest.approx(40.64)
    assert chisel.speed == pytest.approx((4 * 1.609344, 6.5 * 1.609344))
    assert (chisel.efficiency, chisel.critical_ratio, chisel.second_opinion) == ((0.7, 0.9), (5, 7), "subsoiler_narrow")
    assert subsoiler.depth == pytest.approx((30.48, 50.8))
    assert (subsoiler.speed, subsoiler.extreme, subsoiler.second_opinion) == (None, None, None)
    assert usual("field_cultivator_primary").speed == pytest.approx((5 * 1.609344, 8 * 1.609344))
    assert usual("coulter_bubble_or_flute").depth is None


def test_the_lowest_efficiency_of_a_tool_no_table_knows_is_that_of_any_work():
    assert least_efficiency("chisel_straight") == 0.7
    assert least_efficiency("subsoiler_narrow") == 0.5
