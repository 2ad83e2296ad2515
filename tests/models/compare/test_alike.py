"""What rigs are asked alike: which sections come from the first, and what holds for one pair alone is left out."""

import pytest
from known_rigs import known_rig

from rigcalc.core.errors import InputError
from rigcalc.models import replaced, size
from rigcalc.models.compare.alike import alike

FIRST, OTHER = known_rig("four_wheel_drive"), replaced(
    known_rig("front_wheel_assist"), {"ground.texture": "clay", "work.depth": "20 cm", "work.area": "77 ha"}
)  # fmt: skip


@pytest.mark.parametrize(("same", "taken"), [("work", "work ground"), ("tool", "work ground implement"),
                                             ("tractor", "work ground tractor ballast setup")])  # fmt: skip
def test_sections_come_from_the_first_and_the_others_stay(same, taken):
    made = alike(OTHER, FIRST, same)
    for section in ("work", "ground", "implement", "tractor", "ballast", "setup"):
        assert getattr(made, section) == getattr(FIRST if section in taken.split() else OTHER, section)


def test_nothing_asked_leaves_the_rig_and_the_first_stays_itself():
    assert alike(OTHER, FIRST, "") is OTHER
    assert alike(FIRST, FIRST, "tool") is FIRST


def test_tickets_of_a_tool_and_its_tractor_hold_for_no_other_pair():
    front = 0.5 * OTHER.tractor.front_axle_mass.to("kg")
    weight = OTHER.tractor.front_axle_mass.to("kg") + OTHER.tractor.rear_axle_mass.to("kg")
    weighed = replaced(OTHER, {"scale.front_raised": f"{front} kg", "scale.rear_raised": f"{weight + 1000 - front} kg"})
    assert alike(weighed, FIRST, "work").scale == weighed.scale
    assert alike(weighed, FIRST, "tool").scale is None
    assert alike(weighed, FIRST, "tractor").scale is None


@pytest.mark.parametrize("same", ["work", "tool", "tractor"])
def test_readings_stay_with_the_rig_that_made_them(same):
    """Slip behind one tractor in one field, taken for that behind another in another, would be a wrong draft."""
    reading = {"date": "2026-11-04", "depth": "10 in", "speed": "5 mph", "slip": "9 percent"}
    read = replaced(OTHER, {"reading": [reading], "asked": {"day": "another"}})
    made = alike(read, FIRST, same)
    assert read.reading
    assert not made.reading
    assert made.asked is None
    assert alike(read, read, same).reading == read.reading


def test_one_tractor_with_two_tools_pulls_with_the_same_weight():
    made, first = size(alike(OTHER, FIRST, "tractor")), size(FIRST)
    assert (made.bare_rig.front_weight, made.bare_rig.rated_pto) == (first.bare_rig.front_weight, first.bare_rig.rated_pto)
    assert made.point.bare.tools != first.point.bare.tools


def test_a_word_that_is_none_is_refused():
    with pytest.raises(InputError, match="one of work, tool, tractor"):
        alike(OTHER, FIRST, "everything")
