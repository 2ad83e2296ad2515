"""Gangs beside the tool: their rows add up, each at its own depth; lifted they pull nothing; working and flow name them."""

import numpy as np
import pytest
from known_rigs import SHEET_RIG, known_rig

from rigcalc.core.errors import InputError
from rigcalc.core.tables import table
from rigcalc.models import operating_point, read_rig, replaced, rig_text, size
from rigcalc.models.machine.curves import power_flow
from rigcalc.models.machine.draft_force import draft_force, gang_forces
from rigcalc.models.machine.draws import DRAWS, draws, number
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import rig_from
from rigcalc.models.rig.gang import may_join
from rigcalc.models.size.steps import Sum, steps
from rigcalc.views.rig.model import flat, nested
from rigcalc.words import in_words

COULTERS = {"tool": "coulter_smooth_or_ripple", "tools": 14, "depth": "4 in"}
HARROW = {"tool": "coil_tine_harrow"}
DISKS = {"tool": "disk_gang_secondary", "width": "3 m", "depth": "8 cm"}
ALONE = replaced(known_rig(SHEET_RIG), {"ground.texture": "loam"})  # medium by every text


def rig_of(*gangs):
    return replaced(ALONE, {"implement.gangs": list(gangs)})


def row_draft(tool, size_, depth):
    """Draft in kN of a row by hand, in medium soil at the rig's 5 mph."""
    row, speed = table("d497_draft")[tool], 5 * 1.609344
    return row["f_medium"] * (row["a_si"] + row["b_si"] * speed + row["c_si"] * speed**2) * size_ * depth / 1000


BY_HAND = {
    "coulters": (COULTERS, row_draft("coulter_smooth_or_ripple", 14, 4 * 2.54)),
    "harrow": (HARROW, row_draft("coil_tine_harrow", 9 * 15 * 0.0254, 1)),
    "disks": (DISKS, row_draft("disk_gang_secondary", 3, 8)),
}


@pytest.mark.parametrize("name", BY_HAND)
def test_a_gang_adds_its_own_row(name):
    gang, force = BY_HAND[name]
    alone, together = (operating_point(rig).bare.draft for rig in (ALONE, rig_of(gang)))
    assert together - alone == pytest.approx(force)


def test_gangs_add_up_and_lifted_they_pull_nothing():
    alone = operating_point(ALONE).bare.draft
    together = operating_point(rig_of(COULTERS, HARROW, DISKS)).bare.draft
    assert together - alone == pytest.approx(sum(force for _, force in BY_HAND.values()))
    lifted = operating_point(rig_of(COULTERS | {"on": False}, HARROW)).bare.draft
    assert lifted - alone == pytest.approx(BY_HAND["harrow"][1])
    assert size(rig_of(*(gang | {"on": False} for gang, _ in BY_HAND.values()))).point.bare.draft == pytest.approx(alone)


def test_deeper_shanks_leave_a_gang_at_its_depth():
    shallow, deep = (bare(replaced(rig_of(COULTERS), {"work.depth": depth})) for depth in ("8 in", "12 in"))
    assert gang_forces(shallow) == gang_forces(deep)


def test_a_wider_tool_has_a_wider_harrow_and_the_same_coulters():
    one = bare(rig_of(COULTERS, HARROW))
    coulters, harrow = gang_forces(one)
    wider = gang_forces(one.at(tools=2 * one.tools))
    assert wider == pytest.approx([coulters, 2 * harrow])
    rig = replaced(rig_of(COULTERS, HARROW), {"implement.tools": 18})
    assert gang_forces(bare(rig)) == pytest.approx(wider)


@pytest.mark.parametrize("gangs", [(COULTERS,), (COULTERS, HARROW, DISKS)])
def test_the_quick_way_and_the_recorded_one_agree(gangs):
    b = bare(rig_of(*gangs))
    record = []
    assert solve(b, record=record).draft == pytest.approx(float(solve(b).draft))
    many = b.at(depth=np.linspace(10, 40, 7))
    drawn = draws(b.draft_range, number("cone_range"), 0, 64)
    each = [float(draft_force(b.at(depth=depth), lambda eq, *values: eq.bare(*values))) for depth in np.linspace(10, 40, 7)]
    assert solve(many, want=("draft",)).draft == pytest.approx(each)
    assert np.shape(draft_force(b, drawn=drawn, use=lambda eq, *values: eq.bare(*values))) == (64,)


def test_a_gang_scatters_by_its_own_range():
    b = bare(rig_of(COULTERS))
    drawn = draws(b.draft_range, number("cone_range"), 0, DRAWS)
    (force,) = gang_forces(b, drawn=drawn)
    assert force.std() / force.mean() == pytest.approx(0.25 / 2, rel=0.05)  # the row's 25 percent are two deviations
    assert force.mean() == pytest.approx(gang_forces(b)[0], rel=0.01)


def test_what_a_shank_is_rated_for_counts_its_own_draft():
    rated = {"implement.rated_power_per_tool": "60 hp"}
    alone, together = (size(replaced(rig, rated)) for rig in (ALONE, rig_of(COULTERS, HARROW)))
    assert together.margin("tool_power").value == pytest.approx(alone.margin("tool_power").value)
    assert together.margin("engine").value > alone.margin("engine").value


def test_the_working_names_each_gang_and_adds_up():
    answer = size(rig_of(COULTERS, HARROW))
    (added,) = [step for step in steps(answer.bare_rig) if isinstance(step, Sum) and step.name == "draft"]
    assert added.value == pytest.approx(sum(value for _, value, _ in added.terms))
    assert [name for name, _, _ in added.terms] == ["own_draft", "coulter_smooth_or_ripple", "coil_tine_harrow"]
    titles = [step.title for step in in_words(answer, "us").working]
    assert {"implement draft", "implement draft, coulters, smooth or ripple", "draft without depth, coil tine harrow",
            "draft of the whole tool"} <= set(titles)  # fmt: skip
    assert "draft of the whole tool" not in [step.title for step in in_words(size(ALONE), "us").working]


def test_the_deep_row_is_the_tool_s_own():
    answer = size(replaced(rig_of(COULTERS), {"work.depth": "15 in"}))
    titles = [step.title for step in in_words(answer, "us").working]
    assert titles.count("implement draft") == 2
    assert titles.count("implement draft, coulters, smooth or ripple") == 1


def test_the_power_flow_has_a_line_of_its_own_and_adds_up():
    answer = size(rig_of(COULTERS, HARROW))
    engine, *parts = power_flow(answer.bare_rig, answer.point.bare)
    assert sum(part.power for part in parts) == pytest.approx(engine.power)
    gangs = next(part.power for part in parts if part.name == "gangs")
    assert gangs == pytest.approx((BY_HAND["coulters"][1] + BY_HAND["harrow"][1]) * answer.point.bare.speed / 3.6)
    assert "gangs" not in {part.name for part in power_flow(bare(ALONE), solve(bare(ALONE)))}


def test_a_note_says_what_works_beside_the_tool():
    words = in_words(size(rig_of(COULTERS, HARROW)), "si")
    (note,) = [note for note in words.notes if note.startswith("Beside the tool itself")]
    assert "coulters, smooth or ripple (9.6 kN) and coil tine harrow (0.857 kN), 27 % of the draft" in note


def test_the_deepest_holds_with_gangs():
    answer = size(rig_of(COULTERS, HARROW))
    deepest = answer.furthest("deepest")
    limit = deepest.uncut or deepest.value
    assert size(replaced(answer.rig, {"work.depth": f"{0.999 * limit:.6g} cm"})).works
    assert not size(replaced(answer.rig, {"work.depth": f"{1.001 * limit:.6g} cm"})).works
    assert limit < (size(ALONE).furthest("deepest").uncut or size(ALONE).furthest("deepest").value)


def test_written_read_and_on_a_page_they_stay():
    rig = rig_of(COULTERS | {"name": "in front"}, HARROW, DISKS | {"on": False})
    assert read_rig(rig_text(rig)) == rig
    assert rig_from(nested(flat(rig))) == rig
    assert "gangs" not in rig_text(ALONE)


WRONG = {
    "no count": ({"tool": "coulter_smooth_or_ripple", "depth": "4 in"}, "no tools"),
    "no depth": ({"tool": "coulter_smooth_or_ripple", "tools": 9}, "no depth"),
    "neither": ({"tool": "coulter_smooth_or_ripple"}, "no tools, no depth"),
    "width of coulters": (COULTERS | {"width": "3 m"}, "a width of 3 m"),
    "count of a harrow": (HARROW | {"tools": 3}, "3 tools"),
    "depth of a harrow": (HARROW | {"depth": "2 in"}, "a depth of 2 in"),
    "planter": ({"tool": "planter_drawn"}, "'planter_drawn'"), "no row": ({"tool": "harow"}, "'harow'"),
    "unit": (COULTERS | {"depth": "4"}, "'4'"), "many": (COULTERS | {"tools": 201}, "201"),
    "half": (COULTERS | {"tools": 1.5}, "1.5"),
    "key": (HARROW | {"dept": "4 in"}, "a key"),
}  # fmt: skip


@pytest.mark.parametrize("name", WRONG)
def test_what_doesn_t_fit_is_one_fault_with_what_to_type(name):
    gang, got = WRONG[name]
    with pytest.raises(InputError) as error:
        rig_of(gang)
    (fault,) = error.value.faults
    assert got in fault.got
    assert "gangs" in fault.where


def test_at_most_six():
    with pytest.raises(InputError):
        rig_of(*[HARROW] * 7)
    assert len(rig_of(*[HARROW] * 6).implement.gangs) == 6


def test_every_row_but_planters_and_drills_may_join():
    rows = [row for row in table("d497_draft") if may_join(row)]
    assert len(rows) >= 30
    for row in rows:
        counted = row["width_unit"] != "m"
        gang = {"tool": row["tool"]} | ({"tools": 3} if counted else {})
        gang |= {"depth": "2 in"} if row["depth_matters"] == "true" else {}
        assert gang_forces(bare(rig_of(gang)))[0] > 0
