"""A season's plan: what is read, and every fault at once with its place; what isn't a plan never gives one."""

import random

import pytest

from rigcalc.core.errors import InputError
from rigcalc.core.units import factor
from rigcalc.models import demo_rig, replaced
from rigcalc.models.season import Plan, load_plan, plan_from, season
from rigcalc.models.season.reading_plan import day_text


def places(data):
    with pytest.raises(InputError) as refused:
        plan_from(data)
    return {fault.where for fault in refused.value.faults}


@pytest.mark.parametrize(("typed", "day"), [("1 Jan", 1), ("Jan 1", 1), ("28 Feb", 59), ("1 March", 60), ("31 Dec", 365)])
def test_days_of_the_year(typed, day):
    assert plan_from({"by": typed}).by == day
    assert plan_from({"by": day_text(day)}).by == day


@pytest.mark.parametrize(
    "typed", ["29 Feb", "31 Apr", "0 May", "1 Foo", "2026-10-01", "soon", "", 400, True, None.__class__, 1.5]
)
def test_what_is_no_day(typed):
    assert places({"by": typed}) == {"by"}


def test_the_leap_day_says_why():
    with pytest.raises(InputError, match="not every year has a leap day"):
        plan_from({"start": "29 Feb"})


@pytest.mark.parametrize(("typed", "hours"), [("6:30", 6.5), ("06.30", 6.5), ("0:00", 0), ("20:15", 20.25)])
def test_times_of_the_day(typed, hours):
    assert plan_from({"day": {"leave": typed, "home": "24:00"}}).day.leave == hours


@pytest.mark.parametrize("typed", ["25:00", "24:30", "6:61", "half past six", 6, "-1:00"])
def test_what_is_no_time(typed):
    assert places({"day": {"leave": typed}}) == {"day.leave"}


@pytest.mark.parametrize("typed", ["3.50 per gal", "$3.50/gal", "3.50 / gal", "3.50 1/gal"])
def test_prices(typed):
    assert plan_from({"money": {"fuel_price": typed}}).money.fuel_price == pytest.approx(3.5 / factor("gal", "L"))


def test_thousands_in_a_price():
    assert plan_from({"money": {"crop_price": "1,180 per t"}}).money.crop_price == 1180


@pytest.mark.parametrize(
    "typed",
    ["3.50", "3.50 gal", "-3.50 per gal", "3.50 per acre", "cheap", 3, "1,5 per L x", 3.5, -3.5, float("nan"), float("inf"),
     "3,50 per gal", "1,,2 per gal", "1.2.3 per gal"],
)  # fmt: skip
def test_what_is_no_price_of_fuel(typed):
    assert places({"money": {"fuel_price": typed}}) == {"money.fuel_price"}


def test_negative_money_and_no_number():
    assert places({"money": {"tractor_price": -1, "tool_price": "a lot"}}) == {"money.tractor_price", "money.tool_price"}


def test_every_fault_at_once_those_between_entries_too():
    bad = {"area": "-3 acre", "start": "15 Nov", "by": "1 Oct", "x": 1, "day": {"leave": "21:00", "home": "6:30", "y": 2},
           "later": [{"name": "plant", "width": "40"}]}  # fmt: skip
    assert places(bad) >= {"area", "by", "x", "day.home", "day.y", "later.0.width", "later.0.speed"}


def test_what_does_not_go_together():
    assert places({"days": {"share": "50 percent", "counted": [1, 2, 3, 4, 5]}}) == {"days"}
    assert places({"day": {"leave": "8:00", "home": "16:00", "field_hours": "10 h/day"}}) == {"day.field_hours"}
    assert places({"days": {"counted": [1, 2]}}) == {"days.counted"}


def test_counts_of_more_days_than_there_are():
    with pytest.raises(InputError, match="at most 10"):
        season("articulated", {"start": "1 Oct", "by": "10 Oct", "days": {"counted": [3, 4, 5, 6, 11]}})


def test_a_file_is_read_as_its_entries(tmp_path):
    file = tmp_path / "plan.toml"
    file.write_text('area = "900 acre"\n[money]\nyears = 12\ntractor_price = 400000\n[days]\ncounted = [1, 2, 3, 4, 5]\n')
    assert load_plan(file) == plan_from({"area": "900 acre", "money": {"years": 12, "tractor_price": 400000},
                                         "days": {"counted": [1, 2, 3, 4, 5]}})  # fmt: skip


@pytest.mark.parametrize("data", [b"\xff\xfe", b"by = ", b'by = "15 Nov', b"a" * 400_000])
def test_files_that_are_none(tmp_path, data):
    file = tmp_path / "plan.toml"
    file.write_bytes(data)
    with pytest.raises(InputError):
        load_plan(file)
    with pytest.raises(InputError, match="can be read"):
        load_plan(tmp_path / "none.toml")


def test_scrambled_files_never_leave_a_traceback(tmp_path):
    """Letters of a good plan cut, doubled and swapped: each is a plan, or refused in words."""
    good = 'area = "900 acre"\nby = "15 Nov"\n[day]\nleave = "6:30"\nmeals = "1 h"\n[money]\nfuel_price = "3.50 per gal"\n'
    file, rng = tmp_path / "plan.toml", random.Random(15)
    made = refused = 0
    for _ in range(500):
        text = list(good)
        for _ in range(rng.randint(1, 3)):
            at = rng.randrange(len(text))
            text[at : at + rng.randint(0, 3)] = rng.choice(["", text[at] * 2, '"', "[", "=", "\n", "é", "-", "9", "e"])
        file.write_text("".join(text), encoding="utf-8")
        try:
            made += isinstance(load_plan(file), Plan)
        except InputError as error:
            refused += bool(error.faults)
    assert made + refused == 500
    assert made > 10 < refused


def test_a_deadline_is_the_rig_files_days_from_the_start_and_never_before_it():
    assert season("articulated", {"start": "10 Sep"}).by == season("articulated", {"start": "9 Sep"}).by + 1
    free = replaced(demo_rig("articulated"), {"work.calendar_days": None})
    assert season(free, {"start": "10 Sep"}).taken[0] == "by"
    for rig in ("articulated", free):
        with pytest.raises(InputError, match="a deadline from 20 Dec on"):
            season(rig, {"start": "20 Dec"})
