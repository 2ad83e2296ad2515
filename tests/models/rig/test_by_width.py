"""Tools that are measured by their width: draft by hand, widest by the forward answer, and words without shanks."""

import numpy as np
import pytest
from known_rigs import SHEET_RIG, known_rig

from rigcalc.core.errors import InputError
from rigcalc.core.tables import table
from rigcalc.equations.draft import implement_draft_by_width
from rigcalc.models import read_rig, replaced, rig_text, size
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import rig_from
from rigcalc.models.rig.tool import by_width, workable
from rigcalc.models.size.costs import costs
from rigcalc.views.own.model import OwnModel
from rigcalc.views.rig.model import flat, nested
from rigcalc.words import in_words
from rigcalc.words.rig_name import rig_name
from rigcalc.words.taken import taken_for
from rigcalc.words.tools import counted

FOOT = 0.3048
BY_WIDTH = [row["tool"] for row in table("d497_draft") if workable(row) and row["width_unit"] == "m"]
BY_ROW = [row["tool"] for row in table("d497_draft") if workable(row) and row["width_unit"] == "row"]


def rig_of(tool="disk_tandem_primary", width="28 ft", **implement):
    data = known_rig(SHEET_RIG).model_dump(exclude_none=True)
    kept = {name: value for name, value in (("width", width), *implement.items()) if value is not None}
    return rig_from(data | {"implement": {"tool": tool} | kept})


def refused(**implement):
    with pytest.raises(InputError) as error:
        rig_of(**implement)
    return error.value.faults


def test_the_table_has_such_tools():
    assert len(BY_WIDTH) >= 9
    assert len(BY_ROW) >= 4
    assert not any(by_width(tool) for tool in (*BY_ROW, "chisel_straight", "no such tool"))


@pytest.mark.parametrize("tool", BY_WIDTH)
@pytest.mark.parametrize("width", ["3 ft", "28 ft", "7.31 m", "40 m"])
def test_draft_is_that_of_the_page_for_each_metre_of_width(tool, width):
    rig = rig_of(tool, width)
    row, speed, depth = table("d497_draft")[tool], rig.work.speed.to("km/h"), rig.work.depth.to("cm")
    by_hand = (
        (row["a_si"] + row["b_si"] * speed + row["c_si"] * speed**2) * row["f_medium"] * rig.implement.width.to("m") * depth
    )
    answer = size(rig)
    assert answer.point.bare.draft == pytest.approx(by_hand / 1000)
    assert answer.point.bare.width == pytest.approx(rig.implement.width.to("m"))


@pytest.mark.parametrize("tool", BY_ROW)
def test_rows_are_counted(tool):
    rig = rig_of(tool, None, tools=8, spacing="30 in")
    row, speed, depth = table("d497_draft")[tool], rig.work.speed.to("km/h"), rig.work.depth.to("cm")
    by_hand = (row["a_si"] + row["b_si"] * speed) * row["f_medium"] * 8 * depth
    assert size(rig).point.bare.draft == pytest.approx(by_hand / 1000)
    assert counted(rig) == "8 rows"


def test_the_page_s_own_equation_stands_in_the_working():
    answer = size(rig_of())
    assert implement_draft_by_width in answer.equations
    step = next(step for step in in_words(answer, "us").working if step.equation == "implement_draft_by_width")
    assert any(line.startswith("width = 28 ft") for line in step.inputs)
    assert any(line.startswith("width_a = 309") for line in step.inputs)


def test_the_widest_is_where_the_forward_answer_fails_first():
    answer = size(rig_of(width="20 ft"))
    widest = answer.furthest("most tools")
    assert widest.unit == "m"
    assert widest.value > 20 * FOOT
    masses = answer.rig.implement.mass.to("kg"), answer.rig.implement.hitch_load.to("kN")

    def at(metres):
        step = metres / (20 * FOOT)
        changes = {"implement.width": f"{metres:.6g} m", "implement.mass": f"{step * masses[0]:.6g} kg",
                   "implement.hitch_load": f"{step * masses[1]:.6g} kN"}  # fmt: skip
        return size(replaced(answer.rig, changes)).works

    assert at(widest.value * 0.999)
    assert not at(widest.value * 1.001 + 0.26)


def test_wheel_tracks_are_left_out_where_they_were_not_measured():
    assert bare(rig_of()).covered_width is None
    assert bare(rig_of("row_cultivator_s_tine", None, tools=8, spacing="30 in")).covered_width is None
    assert bare(known_rig(SHEET_RIG)).covered_width is not None


def test_no_shank_is_spoken_of():
    words = in_words(size(rig_of()), "us")
    assert "28 ft of disks" in str(words)
    told = (
        *words.notes,
        *words.cautions,
        str(words),
        *(said.text for said in words.reverse),
        *(one.line for one in words.first),
    )
    assert "shank" not in " ".join(told).lower()
    assert "Widest at this depth and speed" in {said.title for said in words.reverse}
    assert counted(rig_of(), "si") == "8.53 m of disks"


def test_its_name_and_why_it_is_in_sections():
    assert rig_name(rig_of(), "us").split(" + ")[1].startswith("28 ft tandem disk harrow, clay loam")
    assert rig_name(rig_of("rod_weeder"), "us").split(" + ")[1].startswith("28 ft tool")
    assert taken_for(rig_of(), "implement.tools", "us") == ("34", "So many alike sections make the width.")


def test_it_can_be_carried_to_the_page_of_three_cards():
    model = OwnModel()
    model.start_from(rig_of())
    assert model.results.missing == ()
    assert model.results.words.answer.rig.implement.width.text == "28 ft"


def test_nothing_costs_one_disk_more():
    assert [cost.entry for cost in costs(size(rig_of()))] == ["depth", "speed"]


def test_written_back_it_is_the_width_alone():
    rig = rig_of()
    text = rig_text(rig)
    assert 'width = "28 ft"' in text
    assert "spacing" not in text
    assert read_rig(text) == rig
    assert nested(flat(rig)) == nested(flat(rig_from(nested(flat(rig)))))


WRONG = {
    "no width": ({"width": None}, "no width for disk_tandem_primary"),
    "counted": ({"width": None, "tools": 9, "spacing": "15 in"}, "no width for disk_tandem_primary"),
    "both": ({"tools": 9, "spacing": "15 in"}, "tools and spacing beside a width"),
    "counted with a width": ({"tool": "chisel_straight", "tools": 9, "spacing": "15 in"},
                             "a width of 28 ft for chisel_straight"),
    "power of a piece": ({"rated_power_per_tool": "40 hp"}, "rated_power_per_tool or point_width"),
    "point": ({"point_width": "2 in"}, "rated_power_per_tool or point_width"),
    "depthless": ({"tool": "rotary_hoe"}, "'rotary_hoe', whose draft hangs on no depth"),
    "unit": ({"width": "28"}, "'28'"), "wide": ({"width": "200 ft"}, "'200 ft'"),
    "nothing": ({"width": "0 ft"}, "'0 ft'"), "lengths": ({"width": "28 lb"}, "'28 lb'"),
}  # fmt: skip


@pytest.mark.parametrize("name", WRONG)
def test_what_doesn_t_fit_is_one_fault_with_what_to_type(name):
    implement, got = WRONG[name]
    (fault,) = refused(**implement)
    assert got in fault.got
    assert fault.type_this


def test_a_tool_that_isn_t_counted_takes_no_count():
    with pytest.raises(InputError) as error:
        replaced(rig_of(), {"implement.tools": 9})
    assert error.value.faults


def test_chance_and_bands_are_finite():
    answer = size(rig_of())
    assert np.isfinite(answer.sure.chance_works)
    assert all(low is not None for low, _, _, _ in answer.sure.bands.values())
