"""Several rigs share the fields: their files must agree, each keeps its own hours, hours that can't be are doubted."""

from dataclasses import replace

import pytest

from rigcalc import in_words, season
from rigcalc.core.errors import InputError
from rigcalc.models import demo_rig, replaced
from rigcalc.models.machine.judgement import Judgement

PLAN = {"start": "1 Oct", "by": "15 Nov"}
ONE = demo_rig("articulated")


def other(**work):
    return replaced(ONE, {f"work.{name}": value for name, value in work.items()})


@pytest.mark.parametrize(
    ("entry", "value", "names"),
    [("area", "900 acre", "--area"), ("fit_days", "30 percent", "--fit"), ("calendar_days", "20 day", "--by")],
)
def test_rig_files_that_differ_about_the_shared_fields_are_asked(entry, value, names):
    plan = {"start": "1 Oct"} if entry == "calendar_days" else PLAN
    with pytest.raises(InputError, match=names) as error:
        season([ONE, other(**{entry: value})], plan)
    assert f"work.{entry}" in error.value.faults[0].got
    typed = {"area": {"area": "900 acre"}, "fit_days": {"days": {"share": "50 percent"}}, "calendar_days": {"by": "15 Nov"}}
    assert season([ONE, other(**{entry: value})], plan | typed[entry]).finish.chance > 0


def test_two_of_them_are_told_at_once():
    with pytest.raises(InputError) as error:
        season([ONE, other(area="900 acre", fit_days="30 percent")], PLAN)
    assert {fault.where for fault in error.value.faults} == {"area", "days"}


def test_the_same_area_in_other_units_is_the_same():
    area = ONE.work.area.to("ha")
    assert season([ONE, other(area=f"{area:.9g} ha")], PLAN).area == pytest.approx(area)


def test_the_fields_of_the_second_rig_count_where_the_first_says_nothing():
    assert season([other(area=None), ONE], PLAN).area == pytest.approx(ONE.work.area.to("ha"))


def test_each_rig_has_an_hour_more_than_its_own():
    """Two rigs that type different hours: an hour more is worth more to the one with fewer; both get it."""
    short = other(hours_per_day="6 h/day")
    rigs = season([ONE, short], PLAN | {"area": "1900 acre"})
    assert [one.day.field for one in rigs.rigs] == [10, 6]
    hour = next(change for change in rigs.changes if change.name == "hour")
    both = season([other(hours_per_day="11 h/day"), other(hours_per_day="7 h/day")], PLAN | {"area": "1900 acre"})
    assert hour.chance == pytest.approx(both.finish.chance, abs=0.02)
    assert hour.chance > rigs.finish.chance


def test_breakdowns_are_no_part_of_the_day():
    """Typing how often it breaks down leaves the rig's own field hours as they are; typing meals doesn't."""
    assert season(ONE, PLAN | {"day": {"breakdown_hours": "150 h"}}).rigs[0].day.typed
    meals = season(ONE, PLAN | {"day": {"meals": "1 h"}})
    assert not meals.rigs[0].day.typed
    assert any("10 h/day in the field are left aside" in note for note in in_words(meals, "us").notes)
    assert not any("left aside" in note for note in in_words(season(ONE, PLAN), "us").notes)


def test_hours_that_the_clock_does_not_leave_are_never_a_plain_yes():
    sound, wild = season(ONE, PLAN), season(ONE, PLAN | {"day": {"field_hours": "14 h/day"}})
    assert wild.finish.chance > sound.finish.chance > 0.8
    assert sound.judgement is Judgement.GO
    assert sound.doubted is None
    assert wild.judgement is Judgement.TRY
    assert wild.doubted.field == 14
    words = in_words(wild, "us")
    assert words.said.word == "Not surely"
    assert "if 14 h in the field are right: 14.5 h of the clock leave" in words.said.headline
    assert not any(line.startswith(("What helps", "None of the changes")) for line in words.said.rest)


def test_the_doubted_day_is_the_furthest_off():
    rigs = [other(hours_per_day="13 h/day"), other(hours_per_day="14 h/day")]
    assert season(rigs, PLAN).doubted.field == 14


def test_what_helps_a_rig_that_passes_a_limit_passes_none():
    words = in_words(season("two_track", PLAN), "us")
    helped = [line for line in words.said.rest if line.startswith("What helps most")]
    for change in words.answer.changes:
        assert not helped or change.holds or change.name not in helped[0]
    assert helped or any("None of the changes" in line for line in words.said.rest)


def test_passing_no_limit_any_more_is_a_help_even_where_there_is_time_enough():
    """Every change of this rig leaves its limit passed; here one of them is said to hold."""
    found = season("two_track", PLAN | {"area": "100 acre", "days": {"share": "60 percent"}})
    assert found.failing is not None
    assert found.finish.chance == 1
    vars(found)["changes"] = tuple(replace(each, holds=each.name == "shallower") for each in found.changes)
    assert any(line.startswith("What helps most") and "shallower" in line for line in in_words(found, "us").said.rest)


def test_later_passes_say_whose_hours_they_have():
    later = [{"name": "again", "width": "60 ft", "speed": "6 mph", "field_efficiency": "80 percent"}]
    one = in_words(season(ONE, PLAN | {"later": later}), "us").notes
    two = in_words(season([ONE, ONE], PLAN | {"later": later}), "us").notes
    assert any(note.startswith("Later passes have 10 h in the field") for note in one)
    assert any(note.startswith("Later passes have the first rig's 10 h") for note in two)
    typed = [later[0] | {"field_hours": "9 h/day"}]
    assert not any(note.startswith("Later passes have") for note in in_words(season(ONE, PLAN | {"later": typed}), "us").notes)
