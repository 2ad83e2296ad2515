"""Cost against chance on the comparing page: a point for each rig at its prices, faults at their boxes, none without prices."""

import pytest

from rigcalc import season
from rigcalc.core.units import factor
from rigcalc.models import demo_rig
from rigcalc.views.compare.fields import OF_SEASON, SEASON
from rigcalc.widgets import CompareApp, CompareCost, CompareModel

BOTH = ["articulated", "two_wheel_drive"]
TYPED = {"money.tractor_price": "400000; 250000", "money.tool_price": "80000", "money.fuel_price": "3.50 per gal",
         "area": "1150 acre", "start": "1 Oct", "by": "15 Nov", "days.share": "60 percent"}  # fmt: skip
PLAN = {"area": "1150 acre", "start": "1 Oct", "by": "15 Nov", "days": {"share": "60 percent"},
        "money": {"tool_price": 80_000, "fuel_price": "3.50 per gal"}}  # fmt: skip


def model(**typed):
    made = CompareModel()
    made.start_from([demo_rig(name) for name in BOTH], BOTH)
    made.edit({OF_SEASON + path: text for path, text in {**TYPED, **typed}.items()})
    return made


def test_a_point_for_each_rig_at_its_own_prices():
    made = model()
    assert made.faults == ()
    dots = CompareCost(made).spec["data"][1]
    for at, (name, price) in enumerate(zip(BOTH, (400_000, 250_000), strict=True)):
        alone = season(name, {**PLAN, "money": {**PLAN["money"], "tractor_price": price}})
        assert dots["y"][at] == pytest.approx(100 * alone.finish.chance)
        assert dots["x"][at] == pytest.approx(alone.rigs[0].money.per_area * factor("acre", "ha"))
    assert set(dots["marker"]["symbol"]) == {"square"}
    twin = CompareCost(made).same_as_table()
    assert all(f"{name} alone" in twin for name in BOTH)
    made.switch_units("si")
    assert CompareCost(made).spec["data"][1]["x"][0] == pytest.approx(dots["x"][0] / factor("acre", "ha"))


def test_one_price_for_all_and_a_count_that_is_wrong():
    same = model(**{"money.tractor_price": "400000"})
    assert len(same.costs) == 2
    wrong = model(**{"money.tractor_price": "1; 2; 3", "money.tool_price": "80000;"})
    assert {fault.where for fault in wrong.faults} == {f"{OF_SEASON}money.tractor_price", f"{OF_SEASON}money.tool_price"}
    assert wrong.costs == ()
    assert wrong.results.words is not None  # what is compared stands all the same


def test_faults_stand_at_their_boxes_and_name_no_terminal():
    made = model(by="29 Feb", area="", **{"money.fuel_price": "cheap", "money.tractor_price": "400000; dear"})
    where = {fault.where for fault in made.faults}
    assert where == {OF_SEASON + path for path in ("by", "money.fuel_price", "money.tractor_price")}
    late = model(start="20 Nov")
    assert {fault.where for fault in late.faults} == {f"{OF_SEASON}by"}
    differing = model(area="")  # the demo rigs say different areas
    assert [fault.where for fault in differing.faults] == [f"{OF_SEASON}area"]
    for fault in (*made.faults, *late.faults, *differing.faults):
        assert "--" not in fault.type_this
    assert "own." not in CompareApp(made).faults.html


def test_without_prices_it_says_which_are_missing_and_runs_nothing():
    made = CompareModel()
    cost = CompareCost(made)
    assert made.costs == ()
    lines = cost.spec["layout"]["annotations"][0]["text"].split("<br>")
    assert "price of each tractor" in " ".join(lines)
    assert max(map(len, lines)) <= 36, "a phone has room for no more"
    assert "price of each tractor" in cost.same_as_table()
    assert "<table" not in cost.same_as_table()
    assert "price of fuel" not in CompareCost(model(**{"money.tool_price": ""})).spec["layout"]["annotations"][0]["text"]


def test_links_and_files_hold_the_season():
    made = model()
    again = CompareModel()
    again.start_from_query(made.to_query())
    assert [again.inputs[path] for path in SEASON] == [made.inputs[path] for path in SEASON]
    other = CompareModel()
    other.start_from_toml(made.to_toml())
    assert [each.an_area for each in other.costs] == [each.an_area for each in made.costs]
