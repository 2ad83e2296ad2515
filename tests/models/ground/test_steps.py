"""The same depth in two passes beside one, and wings: sections and counts by hand, and answers that say no."""

import math
from dataclasses import replace

import pytest

import rigcalc
from rigcalc.core.errors import InputError
from rigcalc.models.ground.shanks import shanks
from rigcalc.models.ground.steps import two_passes
from rigcalc.models.machine.draft_force import draft_force
from rigcalc.models.machine.limits import caps
from rigcalc.models.machine.statics import plain
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import load_rig, replaced
from rigcalc.words.ground.steps import two_passes_lines

BASE = load_rig("articulated")
SIX = {"implement.spacing": "30 cm", "implement.point_width": "6 cm", "work.depth": "30 cm"}


def test_what_the_second_pass_breaks_anew_by_hand():
    """Shanks 30 cm apart, points 6 cm wide, sides at 45 deg: 756 cm2 at 30 cm; at 18 cm 18 x 30 less a ridge of 144 cm2."""
    rig = replaced(BASE, SIX)
    found = rigcalc.ground(rig).two
    assert (found.first.depth, found.one.depth) == (pytest.approx(18.0), pytest.approx(30.0))
    assert found.anew == pytest.approx(1 - (540 - 144) / 756)
    one, shallow = (float(draft_force(bare(rig).at(depth=depth), plain)) for depth in (30.0, 18.0))
    assert (found.one.draft, found.first.draft) == (pytest.approx(one), pytest.approx(shallow))
    assert found.second[0].draft == pytest.approx(found.anew * one)
    assert found.second[1] is found.one, "at worst the first pass spares nothing"
    assert rigcalc.ground(rig, first="20 cm").two.anew == pytest.approx(1 - (600 - 144) / 756)


def test_two_passes_take_the_hours_of_both_and_fuel_between_its_ends():
    rig = replaced(BASE, SIX | {"work.depth": "20 cm", "work.speed": "6 km/h"})
    found = rigcalc.ground(rig).two
    assert found.one.hold.hold == "as it is"
    assert found.hours == pytest.approx((2 * found.one.hours, 2 * found.one.hours))
    assert found.one.fuel < found.fuel[0] < found.fuel[1]
    assert found.fuel[1] == pytest.approx(found.first.fuel + found.one.fuel)
    lines = rigcalc.in_words(rigcalc.ground(rig), "si").tool
    (said,) = [line for line in lines if line.startswith("Both take")]
    assert said.startswith("Both take 2 times the hours and 1.")


def test_each_pass_goes_by_hard_limits_as_the_answer_does():
    """26 shanks slip more than is advised at 30 cm, which stops nobody."""
    slips = replaced(load_rig("front_wheel_assist"), {"work.depth": "30 cm", "work.speed": "5 km/h", "implement.tools": 26})
    answer = rigcalc.ground(slips)
    assert answer.two.one.hold == answer.holds
    assert answer.holds.hold == "as it is"


def test_what_one_pass_cannot_pull_the_second_of_two_perhaps_can():
    """Shank by shank, until one pass gives out at any speed; many more, and neither can."""
    deep = replaced(BASE, {"work.depth": "36 cm"})
    seen = []
    for tools in (5, *range(11, 60, 4), 150):
        rig = replaced(deep, {"implement.tools": tools})
        b = bare(rig)
        found = two_passes(b, caps(rig, b), rig.implement.tool, shanks(rig, b, 36.0), None)
        seen.append((found.one.hold.hold in ("depth", "no"), found.opens))
        lines = " ".join(two_passes_lines(found, "us"))
        if seen[-1] == (True, True):
            assert "One pass at this depth is over a limit of the rig at any speed; the second of two perhaps isn't" in lines
            assert math.isnan(found.hours[1])
            assert replace(found, one=replace(found.one, hold=replace(found.one.hold, hold="no"))).opens
    assert seen[0] == (False, False)
    assert (True, True) in seen
    assert seen[-1] == (True, False)
    assert "and so is the second of two" in lines


def test_winged_shanks_by_hand():
    """30 cm deep, 1.5 to 2 times the depth apart; 25 to 55 % more for each."""
    rig = replaced(BASE, SIX)
    found = rigcalc.ground(rig).wings
    width = 30.0 * rig.implement.tools
    assert found.apart == pytest.approx((45.0, 60.0))
    assert found.count == (math.ceil(width / 60 - 1e-9), math.ceil(width / 45 - 1e-9))
    each = float(draft_force(bare(rig), plain)) / rig.implement.tools
    assert found.draft == pytest.approx((found.count[0] * each * 1.25, found.count[1] * each * 1.55))
    assert found.leading_apart == pytest.approx((60.0, 75.0))
    assert found.leading_count == (math.ceil(width / 75 - 1e-9), found.count[0])
    lines = " ".join(rigcalc.in_words(rigcalc.ground(rig), "si").tool)
    assert f"{found.count[0]} to {found.count[1]} do for the width of these {rig.implement.tools}" in lines
    assert "25 % to 40 % shallower saved 15 % of the fuel in one trial, 33 cm deep" in lines


@pytest.mark.parametrize("first", ["8", "8 kg", "2 in", "40 cm", "-8 in", "", 8, None])
def test_a_first_pass_that_is_none_is_refused_with_the_rest(first):
    if first is None:
        assert rigcalc.ground(replaced(BASE, {"work.depth": "12 cm"})).two is None, "too shallow for two"
        return
    with pytest.raises(InputError, match=r"(?s)first: .*8 cm to less than") as error:
        rigcalc.ground(replaced(BASE, SIX), first=first, slope="steep")
    assert {fault.where for fault in error.value.faults} == {"first", "slope"}


def test_a_tool_with_wings_or_without_shanks_says_nothing_of_them():
    winged = replaced(BASE, SIX | {"implement.tool": "subsoiler_winged"})
    assert rigcalc.ground(winged).wings is None
    assert rigcalc.ground(winged).two is not None
    disk = replaced(BASE, {"implement.tool": "coulter_bubble_or_flute", "work.depth": "15 cm"})
    answer = rigcalc.ground(disk)
    assert (answer.two, answer.wings) == (None, None)
    with pytest.raises(InputError, match="first: got '8 cm' for coulter_bubble_or_flute; expected nothing"):
        rigcalc.ground(disk, first="8 cm")
    assert "two passes" not in " ".join(rigcalc.in_words(answer).tool)
