"""When a note is made, at its ends: how deep and how fast is usual, what the engine has in reserve, where to begin."""

import numpy as np
import pytest
from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.core.tables import table
from rigcalc.models import replaced, size
from rigcalc.models.machine.case import case_of
from rigcalc.models.rig.tool import usual
from rigcalc.models.size.drawbar import Drawbar
from rigcalc.models.size.verdict import GO_FROM


def notes(**changes):
    answer = size(replaced(known_rig(), {path.replace("__", "."): value for path, value in changes.items()}))
    return {note.kind: note.facts for note in answer.notes}


def test_both_ends_of_the_usual_speed_are_usual():
    low, high = usual(known_rig().implement.tool).speed
    for speed, unusual in ((low, False), (high, False), (low * 0.999, True), (high * 1.001, True)):
        assert ("unusual_speed" in notes(work__speed=f"{speed!r} km/h")) == unusual


@pytest.mark.parametrize(("depth", "extreme"), [("12 in", None), ("12.1 in", False), ("15.9 in", False), ("16 in", True)])
def test_a_chisel_goes_twelve_inches_usually_and_sixteen_is_extreme(depth, extreme):
    found = notes(work__depth=depth).get("deeper_than_usual")
    assert (found and found["extreme"]) == extreme


@pytest.mark.parametrize(("rated", "most", "reserve"), [(320, 350, False), (280, 310, True), (240, 264, False)])
def test_the_reserve_is_between_rated_and_maximum_power(rated, most, reserve):
    """The job takes 298 hp: under rated power, between rated and maximum, or over both."""
    found = notes(tractor__rated_power=f"{rated} hp", tractor__maximum_power=f"{most} hp")
    assert ("in_reserve" in found) == reserve


@pytest.mark.parametrize("row", list(table("soil_groups")), ids=lambda row: row["texture"])
def test_a_soil_group_that_farms_call_otherwise_is_said_to_differ(row):
    found = notes(ground__texture=row["texture"])
    assert ("group_differs" in found) == (row["farm_usage"] != row["group"])
    assert ("group_by_table" in found) == (row["farm_usage"] == row["group"])
    assert "group_chosen" in notes(ground__texture=row["texture"], ground__soil_group="coarse")


def test_every_input_outside_its_range_is_named_whatever_equation_came_before():
    rig = replaced(known_rig(), {"tractor.front.deflection_ratio": "40 percent", "ground.surface": "hard"})
    named = {(note.facts["equation"].__name__, note.facts["symbol"].name)
             for note in size(rig).notes if note.kind == "outside_range"}  # fmt: skip
    outside = set()
    for eq, values in case_of(rig).record:
        for symbol, value in zip(eq.takes, values, strict=True):
            low, high = eq.valid.get(symbol.name, (-np.inf, np.inf))
            if not low <= value <= high:
                outside.add((eq.__name__, symbol.name))
    assert len(named) > 1
    assert named == outside


def test_a_drawbar_at_its_greatest_height_is_not_too_high():
    at = {"most_height": 53.34, "tongue": 10.0, "most_tongue": 10.0}
    assert [Drawbar(height=height, **at).too_high for height in (53.3, 53.34, 53.35)] == [False, False, True]
    assert not Drawbar(height=53.34, **at).too_heavy
    assert Drawbar(height=53.34, **at | {"tongue": 10.01}).too_heavy
    assert not Drawbar(height=53.34, **at | {"most_tongue": None}).too_heavy


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_the_sure_depth_is_the_last_with_the_chance_for_go(name):
    answer = size(replaced(known_rig(name), {"implement.tools": 30, "implement.rated_power_per_tool": None}))
    depth = answer.sure_depth
    assert 0 < depth < float(answer.point.bare.depth)

    def chance(cm):
        return size(replaced(answer.rig, {"work.depth": f"{cm!r} cm"})).sure.chance_works

    assert chance(depth) >= GO_FROM - 0.02  # of 512 draws, not of all
    assert chance(depth - 1.0) >= GO_FROM
    assert chance(depth + 1.5) < GO_FROM
