"""People who take turns on one rig, and a helper who fuels at the field: what they change of day, chance and money."""

import pytest

from rigcalc import in_words, season
from rigcalc.core.errors import InputError
from rigcalc.models import demo_rig, replaced
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.season.plan import choice

PLAN = {"start": "1 Oct", "by": "15 Nov"}
PRICES = {"tractor_price": 400_000, "tool_price": 80_000, "fuel_price": "3.50 per gal", "wage": "25 per h"}
RIG = replaced(demo_rig("articulated"), {"work.hours_per_day": None})


def answer(rig=RIG, area="1500 acre", money=None, **day):
    return season(rig, PLAN | {"area": area, "day": day, "money": money or {}})


def day_of(**day):
    return answer(**day).rigs[0].day


def change(found, name):
    return next((each for each in found.changes if each.name == name), None)


def test_two_people_by_hand():
    """20 h of the clock, one hand-over of half an hour, no meal, nothing lost by the hour: 19.5 h in the field."""
    off = {"checks": "0 h", "way": "0 h", "other": "0 h", "fill": "0 h", "move": "0 h", "stops": "0 percent"}
    day = day_of(operators=2, leave="6:00", home="2:00", meals="1 h", hand_over="30 min", **off)
    assert (day.clock, day.people) == (20, 2)
    assert day.field == pytest.approx(19.5)
    assert day.each == pytest.approx(10.25)
    assert "meals" not in day.parts
    assert day.parts["hand_over"] == pytest.approx(0.5)


def test_round_the_clock_has_a_hand_over_for_each():
    """From six to six the rig changes hands as often as there are people; the first of them has to get on too."""
    day = day_of(operators="3", leave="6:00", home="6:00", hand_over="20 min")
    assert day.clock == 24
    assert day.parts["hand_over"] == pytest.approx(1)
    assert day.each == pytest.approx(25 / 3)


def test_the_parts_still_add_up():
    for day in (day_of(operators=2), day_of(fuel_helper=True), day_of(operators=4, fuel_helper=True)):
        assert sum(day.parts.values()) == pytest.approx(day.clock, rel=1e-12)
        assert min(day.parts.values()) > 0


def test_one_person_is_as_nobody_typed():
    assert day_of(operators=1) == day_of()
    assert day_of().each == day_of().clock == 14.5


def test_nobody_goes_past_midnight_alone():
    with pytest.raises(InputError, match="operators who take turns"):
        day_of(home="2:00")


@pytest.mark.parametrize("wrong", [0, 5, "2.5", "two", True, "²", 2.0])
def test_people_are_counted(wrong):
    with pytest.raises(InputError, match="a whole number from 1 to 4") as error:
        answer(operators=wrong, hand_over="x", fuel_helper="yes")
    assert {fault.where for fault in error.value.faults} == {"day.operators", "day.hand_over", "day.fuel_helper"}


def test_a_filling_with_a_helper_takes_what_the_pump_takes():
    """A tank of 1,440 L or so at 100 L in a minute; no way to the fuel, and never longer than filling it oneself."""
    alone, helped = day_of(fetch="30 min"), day_of(fetch="30 min", fuel_helper=True)
    tank = RIG.tractor.fuel_tank.to("L") * choice("usable")
    in_field = helped.fuel_parts["field"] + helped.fuel_parts["moves"]
    assert helped.parts["filling"] == pytest.approx(in_field / tank * tank / 100 / 60)
    assert helped.field > alone.field + 0.5
    assert day_of(fuel_helper=True, pumping="12 h").field == pytest.approx(day_of().field)
    assert day_of(fuel_helper=True, pumping="0 h").parts["filling"] == 0


def test_the_helpers_hours_cost_a_wage_and_nothing_on_top():
    found = answer(fuel_helper=True, helper_hours="90 min", money=PRICES).rigs[0]
    assert found.money.parts["helper"] == pytest.approx(25 * 1.5 * found.day.fills / found.day.field)
    assert "helper" not in answer(money=PRICES).rigs[0].money.parts
    unpaid = answer(fuel_helper=True, money={name: price for name, price in PRICES.items() if name != "wage"})
    assert "helper" not in unpaid.rigs[0].money.parts
    assert any(note.startswith("No wage is typed") for note in in_words(unpaid, "us").notes)


def test_a_change_brings_what_typing_it_brings():
    now = answer(money=PRICES)
    for name, day in (("second_driver", {"operators": 2}), ("fuel_helper", {"fuel_helper": True})):
        typed, made = answer(money=PRICES, **day), change(now, name)
        assert made.chance == typed.finish.chance > now.finish.chance, name
        assert made.cost == pytest.approx(typed.rigs[0].money.per_area), name


def test_typed_field_hours_gain_as_much_as_the_parts():
    """The rig types 10 h; a helper or a second driver brings it what they bring the day that is built up."""
    built, typed = answer(), answer(demo_rig("articulated"))
    assert typed.rigs[0].day.field == 10
    more = day_of(operators=2).field - built.rigs[0].day.field
    longer = answer(replaced(demo_rig("articulated"), {"work.hours_per_day": f"{10 + more:.12g} h/day"}))
    assert change(typed, "second_driver").chance == pytest.approx(longer.finish.chance)
    assert change(typed, "fuel_helper").chance > typed.finish.chance


def test_who_is_there_already_is_no_change():
    assert change(answer(fuel_helper=True), "fuel_helper") is None
    assert change(answer(operators=4), "second_driver") is None
    assert change(answer(operators=2, leave="6:00", home="6:00"), "second_driver") is None
    no_tank = replaced(RIG, {"tractor.fuel_tank": None})
    assert change(answer(no_tank), "fuel_helper") is None
    assert any("type how much yours holds" in note for note in in_words(answer(no_tank, fuel_helper=True), "us").notes)


def test_an_hour_more_past_midnight_ends_at_a_whole_day():
    assert change(answer(operators=2, leave="6:00", home="2:00"), "hour").clock == 21
    assert change(answer(operators=2, leave="6:00", home="5:30"), "hour").clock == 24


def test_a_day_too_long_for_one_person_is_never_a_plain_yes():
    for day in ({"leave": "4:00", "home": "23:00"}, {"operators": 2, "leave": "4:00", "home": "4:00", "hand_over": "3 h"}):
        found = answer(area="500 acre", **day)
        assert found.finish.chance > 0.9
        assert found.judgement is Judgement.TRY
        assert "can keep up" in in_words(found, "us").said.headline
    usual = answer(area="500 acre")
    assert usual.judgement is Judgement.GO
    assert any("tired drivers get hurt" in line for line in in_words(usual, "us").day_lines(usual.rigs[0]))
    assert answer(area="500 acre", operators=2).judgement is Judgement.GO


def test_hours_that_nobody_typed_are_named_first():
    words = in_words(answer(operators=2), "us")
    assert "with 20 h of the clock taken for 2 people since nobody typed when they end" in words.said.headline
    assert "taken for" not in in_words(answer(operators=2, home="1:00"), "us").said.headline
    assert any("2 people take turns: each has 10.1 h" in line for line in words.day_lines(words.answer.rigs[0]))
    assert any(row[0] == "one driver more, 24 h of the clock" for row in words.changes)
