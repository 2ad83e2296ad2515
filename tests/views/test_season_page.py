"""The page of the season without a browser: boxes, faults at their boxes, pictures and their tables, what goes along."""

import itertools

import pytest

from rigcalc import season
from rigcalc.core.errors import InputError
from rigcalc.core.units import factor
from rigcalc.views import RigPages
from rigcalc.views.season.fields import COUNTED, LATER, OF_WEATHER, OWN, PATHS, RIGS
from rigcalc.views.season.pictures import spaced
from rigcalc.widgets import (
    SeasonApp,
    SeasonBox,
    SeasonChanges,
    SeasonCost,
    SeasonDay,
    SeasonDone,
    SeasonModel,
    SeasonMoney,
    SeasonNotes,
    SeasonSays,
    SeasonVerdict,
    SizeModel,
)

DATES = {f"{OWN}start": "1 Oct", f"{OWN}by": "15 Nov"}
PRICES = {f"{OWN}money.tractor_price": "400,000", f"{OWN}money.tool_price": "80000", f"{OWN}money.fuel_price": "3.50 per gal"}
PARTS = (SeasonVerdict, SeasonBox, SeasonSays, SeasonDay, SeasonDone, SeasonChanges, SeasonCost, SeasonMoney, SeasonNotes)


def model(**more):
    made = SeasonModel()
    made.start_from("articulated")
    made.edit(DATES | {f"{OWN}{name.replace('__', '.')}": text for name, text in more.items()})
    return made


def test_the_page_says_what_the_question_says():
    found = model(days__share="55 percent").results.answer
    asked = season("articulated", {"start": "1 Oct", "by": "15 Nov", "days": {"share": "55 percent"}})
    assert found.finish.chance == asked.finish.chance
    assert found.judgement is asked.judgement


def test_every_box_does_something():
    """A box that is typed into and changes nothing would be a lie."""
    values = {
        "start": "20 Sep", "by": "5 Nov", "days.share": "60 percent", "days.counted": "20 21 22 23 24", "day.leave": "8:00",
        "day.home": "19:00", "day.field_hours": "7 h/day", "day.meals": "2 h", "day.checks": "2 h", "day.fill": "60 min",
        "day.fetch": "60 min", "day.operators": "2", "day.hand_over": "60 min", "day.fuel_helper": "comes",
        "day.pumping": "1 min", "day.helper_hours": "3 h",
        "day.move": "90 min", "day.field_area": "20 acre", "field.row_length": "600 ft",
        "money.tractor_price": "900000", "money.tool_price": "190000", "money.fuel_price": "9 per gal",
        "money.wage": "40 per h", "money.hire": "24 per acre", "rigs": "3", "days.sundays_off": "off",
        "later": "40 ft, 7 mph, 80 percent, 2 day; 60 ft, 5 mph, 65 percent", "field.turn_time": "60 s",
        "field.overlap": "18 in", "field.steering": "rtk",
        "money.wear": "2 per acre", "money.crop_price": "180 per t", "money.gain": "30 per acre",
    }  # fmt: skip
    assert {OWN + name for name in values} == PATHS - set(OF_WEATHER)  # those have a test beside their file

    def facts(made):
        found = made.results.answer
        return (found.finish.chance, found.finish.needed, found.rigs[0].day, found.rigs[0].money, len(found.rigs))

    for name, text in values.items():
        made = model()
        made.edit({"implement.field_efficiency": ""})
        if name.startswith("money."):
            made.edit(PRICES)
        elif name.startswith("day.") and name not in ("day.leave", "day.home", "day.field_hours"):
            made.edit({f"{OWN}day.leave": "6:30"})  # else the rig's own field hours stand
        if name == "day.hand_over":
            made.edit({f"{OWN}day.operators": "2"})
        if name in ("day.pumping", "day.helper_hours"):
            made.edit({f"{OWN}day.fuel_helper": "comes"})
        if name == "day.helper_hours":
            made.edit(PRICES | {f"{OWN}money.wage": "25 per h"})
        if name in ("field.turn_time", "field.overlap", "field.steering"):
            made.edit({f"{OWN}field.row_length": "2000 ft"})
        before = facts(made)
        made.edit({OWN + name: text})
        assert made.faults == (), name
        assert facts(made) != before, name


def test_faults_stand_at_their_boxes_all_at_once_and_beside_those_of_the_rig():
    made = model()
    made.edit({f"{OWN}by": "29 Feb", RIGS: "0", COUNTED: "1 2 x", f"{OWN}money.fuel_price": "cheap", "work.depth": "12"})
    assert {fault.where for fault in made.faults} == {f"{OWN}by", RIGS, COUNTED, f"{OWN}money.fuel_price", "work.depth"}
    assert made.results is None
    for part in PARTS[:1] + PARTS[2:]:
        part(made)  # each can be shown without an answer
    assert "nothing" not in SeasonDay(made).same_as_table()


def test_later_passes_of_one_box():
    made = model(later="40 ft, 7 mph, 80 percent, 2 day; 60 ft, 5 mph, 65 percent")
    first, second = made.results.answer.later
    assert (first.wait, second.wait) == (2, 0)
    later = [{"name": "a", "width": "40 ft", "speed": "7 mph", "field_efficiency": "80 percent", "wait": "2 day"},
             {"name": "b", "width": "60 ft", "speed": "5 mph", "field_efficiency": "65 percent"}]  # fmt: skip
    plan = {"start": "1 Oct", "by": "15 Nov", "later": later}
    assert made.results.answer.finish.chance == season("articulated", plan).finish.chance
    for wrong in (
        "planting",
        "40 ft, 7 mph",
        "40 ft, , 80 percent",
        "40 ft, 7 mph, 80 percent, 2 day, 3",
        "40 lb, 7 mph, 80 percent",
    ):
        made.edit({LATER: wrong})
        assert [fault.where for fault in made.faults] == [LATER], wrong


def test_sundays_off_on_the_page():
    every, six = model(), model(days__sundays_off="off")
    assert six.results.answer.finish.there[0] < every.results.answer.finish.there[0] - 2
    assert any("No work is done on Sundays" in note for note in six.results.words.notes)


def test_other_units_run_nothing_anew():
    made = model()
    before = made.results.answer
    made.switch_units("si")
    assert made.results.answer is before
    assert "ha" in str(made.results.words)


def test_a_link_brings_it_all_back():
    made = model(**{"money__tractor_price": "400,000"})
    again = SeasonModel()
    again.start_from_query(made.to_query())
    assert {path: text for path, text in again.inputs.items() if text} == {p: t for p, t in made.inputs.items() if t}


def test_the_rig_goes_along_and_the_season_stays():
    assert RigPages("season") is not None  # the page opens at its address
    made = model()
    assert not any(path.startswith(OWN) for path in made.to_carry())
    size = SizeModel()
    size.start_from("two_track")
    made.take(size.to_carry(), "us")
    assert made.inputs[f"{OWN}by"] == "15 Nov"
    assert made.results.answer.rig == size.rig_shown()
    made.start_from_demo("front_wheel_assist")
    assert made.inputs[f"{OWN}by"] == "15 Nov"


def test_bars_and_their_table_say_the_same():
    day = SeasonDay("articulated")
    bars = day.model.results.words.bars(day.model.results.answer.rigs[0])
    (drawn,) = day.spec["data"]
    assert list(drawn["y"]) == [bar.title for bar in bars]
    assert sum(drawn["x"]) == pytest.approx(14.5)
    assert all(bar.title in day.same_as_table() for bar in bars)


def test_the_line_never_falls_and_ends_at_the_chance():
    done = SeasonDone(model())
    heights = list(done.spec["data"][0]["y"])
    assert heights == sorted(heights)
    assert heights[-1] == pytest.approx(100 * done.answer.finish.chance)
    assert "15 Nov" in done.same_as_table()


def test_a_rig_that_stands_has_words_and_no_bars():
    made = model()
    made.start_from("two_wheel_drive")
    made.edit({"work.depth": "30 in", "ground.surface": "tilled", **PRICES})
    assert "No" in SeasonVerdict(made).html
    assert not SeasonDay(made).spec["data"]
    shown = "".join(part(made).html for part in (SeasonVerdict, SeasonSays, SeasonChanges, SeasonMoney, SeasonNotes))
    assert ">nan" not in shown.lower()
    assert " nan" not in shown.lower()


def test_money_by_the_boxes():
    made = model()
    assert "until these are typed" in SeasonMoney(made).html
    made.edit(PRICES)
    assert "owning the tractor" in SeasonMoney(made).html


def test_what_is_typed_is_escaped():
    made = model()
    made.edit({f"{OWN}by": "<script>alert(1)</script>"})
    page = SeasonApp(made)
    assert "<script>" not in page.faults.html


def test_a_model_of_another_question_is_refused():
    with pytest.raises(InputError, match="SeasonModel"):
        SeasonDay(SizeModel())


def test_no_link_names_a_file_of_the_server():
    """Weather is a file; a page that took its path from a link would open what lies on the machine that serves it."""
    made = model()
    path = f"{OWN}days.weather"
    assert not made.may_be(path)
    made.start_from_query(f"{made.to_query()}&{path}=/etc/hostname")
    assert path not in made.inputs
    assert made.results.answer.seasons.worked is None


def test_cost_stands_against_chance_and_each_point_is_named():
    made = model(**{name.removeprefix(OWN).replace(".", "__"): text for name, text in PRICES.items()})
    cost = SeasonCost(made)
    words = made.results.words
    lines, dots, named = cost.spec["data"]
    found = words.answer
    now = found.rigs[0].money.per_area * factor("acre", "ha"), 100 * found.finish.chance
    assert (dots["x"][0], dots["y"][0]) == pytest.approx(now)
    for at, change in enumerate(found.changes, start=1):
        assert (dots["x"][at], dots["y"][at]) == pytest.approx((change.cost * factor("acre", "ha"), 100 * change.chance))
    assert list(named["text"]) == [each.short for each in words.abreast]
    assert min(named["x"]) > max(dots["x"])  # names stand beside the points, not on them
    assert lines["x"][0::3] == dots["x"]
    assert lines["y"][1::3] == named["y"]
    assert all(each.title in cost.same_as_table() and each.cost in cost.same_as_table() for each in words.abreast)
    made.switch_units("si")
    assert cost.spec["data"][1]["x"][0] == pytest.approx(found.rigs[0].money.per_area)


def test_cost_without_prices_says_which_to_type():
    cost = SeasonCost(model())
    assert not cost.spec["data"]
    assert "price of fuel" in cost.spec["layout"]["annotations"][0]["text"]


def test_a_change_that_passes_a_limit_is_marked():
    made = model()
    made.edit({"work.depth": "16 in", **PRICES})
    shown = made.results.words.abreast
    assert any(not each.point.holds for each in shown)
    marks = SeasonCost(made).spec["data"][1]["marker"]["symbol"]
    assert [mark == "x" for mark in marks] == [not each.point.holds for each in shown]


def test_names_beside_points_keep_apart_and_in_order():
    for heights in ([99.0] * 9, [0.0] * 9, [50, 50.1, 80, 3], [100, 0], [68]):
        placed = spaced(heights)
        assert all(-1e-9 <= each <= 104 for each in placed)
        ordered = sorted(placed)
        assert all(b - a > 8.4 for a, b in itertools.pairwise(ordered))
        assert [placed[at] for at in sorted(range(len(heights)), key=lambda at: (heights[at], -at))] == ordered
    assert spaced([68]) == [68]
