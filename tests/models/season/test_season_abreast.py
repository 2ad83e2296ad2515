"""Cost against chance: each rig alone is its own season, prices of its own count, and the season as it stands is there."""

import pytest

from rigcalc import in_words, season
from rigcalc.core.errors import InputError
from rigcalc.core.units import factor
from rigcalc.models import demo_rig, replaced
from rigcalc.models.season.abreast import NOW, RIG, alone, points
from rigcalc.views.json.season import season_data

PRICES = {"tractor_price": 400_000, "tool_price": 80_000, "fuel_price": "3.50 per gal"}
PLAN = {"start": "1 Oct", "by": "15 Nov", "area": "1150 acre", "days": {"share": "60 percent"}, "money": PRICES}
BOTH = ["articulated", "two_wheel_drive"]


def dearer(**own):
    return {**PLAN, "money": {**PRICES, "each": [own, {}]}}


def test_a_rig_alone_is_the_season_of_that_rig():
    for each, name in zip(alone(season(BOTH, PLAN)), BOTH, strict=True):
        by_itself = season(name, PLAN)
        assert each.found.finish.chance == by_itself.finish.chance
        assert each.found.rigs[0].money.per_area == pytest.approx(by_itself.rigs[0].money.per_area, rel=1e-12)


def test_what_the_rigs_share_stays_shared_where_one_is_alone():
    """Area, days and dates that one rig file says are said for all; the other alone would have none."""
    said = {"work.area": "1150 acre", "work.fit_days": "60 percent", "work.calendar_days": "46 day"}
    silent = {name: None for name in said}
    first, second = (replaced(demo_rig(BOTH[0]), said), replaced(demo_rig(BOTH[1]), silent))
    found = season([first, second], {"start": "1 Oct", "money": PRICES})
    each = alone(found)[1].found
    assert (each.area, each.by, each.seasons.kind) == (found.area, found.by, "own_share")
    assert each.finish.chance == season(second, PLAN).finish.chance


def test_rigs_that_are_alike_stand_once_unless_their_prices_differ():
    assert [each.place for each in alone(season([BOTH[0]] * 3, PLAN))] == [0]
    assert [each.place for each in alone(season([BOTH[0]] * 2, dearer(tractor_price=500_000)))] == [0, 1]


def test_the_price_of_one_rig_makes_that_rig_dearer_and_no_other():
    before, after = (season(BOTH, plan) for plan in (PLAN, dearer(tractor_price=500_000)))
    first, second = zip((one.money for one in before.rigs), (one.money for one in after.rigs), strict=True)
    assert first[1].parts["owning_tractor"] > 1.1 * first[0].parts["owning_tractor"]
    assert first[1].parts["owning_tool"] == first[0].parts["owning_tool"]
    assert second[1] == second[0]
    plain = season(BOTH[0], {**PLAN, "money": {**PRICES, "tractor_price": 500_000}})
    assert alone(after)[0].found.rigs[0].money.per_area == pytest.approx(plain.rigs[0].money.per_area)


def test_a_price_that_only_one_rig_has_is_missing_of_the_other():
    each = [{"tractor_price": 400_000}, {}]
    found = season(BOTH, {**PLAN, "money": {"tool_price": 80_000, "fuel_price": "3.50 per gal", "each": each}})
    assert found.missing_prices == ("tractor_price",)
    with pytest.raises(InputError, match=r"money\.each: got prices of 2 rigs"):
        season(BOTH[0], dearer())
    with pytest.raises(InputError, match=r"money\.each\.0\.tractor_price"):
        season(BOTH, dearer(tractor_price="-1"))


def test_points_are_the_season_the_rigs_and_the_changes():
    found = season(BOTH, PLAN)
    made = points(found)
    assert [each.name for each in made] == [NOW, RIG, RIG, *(change.name for change in found.changes)]
    assert made[0].chance == found.finish.chance
    costs = [one.money for one in found.rigs]
    assert made[0].cost == pytest.approx(sum(c.a_year for c in costs) / found.area)
    assert min(each.cost for each in made[1:3]) < made[0].cost  # two rigs on the fields of one are dearer than the cheaper
    assert [each.name for each in points(season(BOTH[0], PLAN))].count(RIG) == 0


@pytest.mark.parametrize(("units", "area"), [("us", factor("acre", "ha")), ("si", 1.0)])
def test_words_and_json_have_the_same_points(units, area):
    words = in_words(season(BOTH, PLAN), units)
    data = season_data(words)["abreast"]
    assert len(data) == len(words.abreast)
    for each, told in zip(words.abreast, data, strict=True):
        assert each.an_area == pytest.approx(told["cost_per_area"]["value"] * area)
        assert f"{each.an_area:,.2f}" in each.cost
        assert len(each.short) <= 16
    assert words.abreast[0].title == "the 2 rigs together, as it stands"
    assert words.abreast[1].title.endswith(" alone")


def test_without_prices_a_point_has_a_chance_and_no_cost():
    words = in_words(season(BOTH[0], {**PLAN, "money": {}}), "us")
    assert [each.row[2] for each in words.abreast] == ["-"] * len(words.abreast)
    assert words.abreast[0].point.chance == words.answer.finish.chance
    assert "price of the tractor" in words.no_prices
