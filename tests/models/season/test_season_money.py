"""Money: sums by hand, hire against owning, what nobody typed isn't made up."""

import pytest

from rigcalc import season
from rigcalc.core.errors import InputError
from rigcalc.core.units import factor
from rigcalc.models import demo_rig, replaced

PRICES = {"tractor_price": 400_000, "tool_price": 80_000, "fuel_price": "3.50 per gal"}
PLAN = {"start": "1 Oct", "by": "15 Nov"}
SHARED = {"area": "1150 acre", "days": {"share": "60 percent"}}  # the two demo rigs say different things of both


def money(**more):
    return season("articulated", PLAN | {"money": PRICES | more}).rigs[0].money


def test_nothing_is_said_without_prices():
    answer = season("articulated", PLAN | {"money": {"tractor_price": 400_000}})
    assert answer.rigs[0].money is None
    assert answer.missing_prices == ("tool_price", "fuel_price")
    assert all(change.cost is None for change in answer.changes)


def test_fuel_by_hand():
    answer = season("articulated", PLAN | {"money": PRICES})
    one = answer.rigs[0]
    by_hand = one.day.fuel * factor("L", "gal") * 3.5 / one.day.field
    assert one.money.parts["fuel"] == pytest.approx(by_hand)
    assert one.money.parts["oil"] == pytest.approx(0.15 * by_hand)


def test_owning_by_hand():
    """400,000 paid over 10 years at 5 percent, 400 h a year; a like tractor lists at 400,000 / 0.85. Over 112 kW."""
    made = money(years=10, interest="5 percent", tractor_hours="400 h")
    left = (0.976 - 0.119 * 10**0.5 - 0.0019 * 400**0.5) ** 2
    salvage = left * 400_000 / 0.85
    factor_of_ten = 0.05 * 1.05**10 / (1.05**10 - 1)
    a_year = (400_000 - salvage) * factor_of_ten + salvage * 0.05 + 0.01 * (400_000 + salvage) / 2
    assert made.salvage["tractor"] == pytest.approx(left)
    assert made.parts["owning_tractor"] == pytest.approx(a_year / 400)


def test_repairs_by_hand():
    """A four-wheel drive: 0.003 of list and the square of thousands of hours, over ten years of 400 h."""
    made = money(years=10, tractor_hours="400 h")
    assert made.parts["repairs_tractor"] == pytest.approx(0.003 * 400_000 / 0.85 * 4.0**2 / 4000)


def test_without_interest_it_is_plain_division():
    made = money(years=10, interest="0 percent", tractor_hours="400 h")
    salvage = made.salvage["tractor"] * 400_000 / 0.85
    a_year = (400_000 - salvage) / 10 + 0.01 * (400_000 + salvage) / 2
    assert made.parts["owning_tractor"] == pytest.approx(a_year / 400)


def test_the_parts_add_up():
    made = money(wage="25 per h", wear="1 per acre", def_price="4 per gal")
    assert made.parts["labour"] == pytest.approx(27.5)
    assert made.per_area == pytest.approx(sum(made.parts.values()) * made.hours / made.area)
    assert made.a_year == pytest.approx(made.per_area * made.area)
    assert made.parts["wear"] * made.hours == pytest.approx(1150.0, rel=1e-6)


def test_at_the_break_even_hire_costs_the_same():
    made = money(hire="30 per acre")
    owning = (made.parts["owning_tractor"] + made.parts["owning_tool"]) * made.hours
    running = made.per_area - owning / made.area
    assert owning / made.break_even + running == pytest.approx(made.hire)
    assert money(hire="1 per acre").break_even is None
    assert money().break_even is None


def test_what_it_has_to_gain():
    made = money(crop_price="180 per t", gain="20 per acre")
    assert made.gain_needed == pytest.approx(made.per_area / 180)
    assert made.margin == pytest.approx(20 * factor("1/acre", "1/ha") - made.per_area)


def test_delay_by_hand():
    """What is done on the last day has waited for all of the season, what is done on the first for none of it."""
    prices = PRICES | {"loss_a_day": "0.3 percent/day", "crop_value": "700 per acre"}
    found = season("articulated", PLAN | {"area": "600 acre", "days": {"share": "60 percent"}, "money": prices})
    days = 600 * factor("acre", "ha") / found.rigs[0].day.area / 0.6
    assert found.rigs[0].money.delay == pytest.approx(0.003 * 700 * 600 * days / 2, rel=1e-3)


def test_delay_grows_with_the_square_of_the_area():
    plan = {"loss_a_day": "0.3 percent/day", "crop_value": "700 per acre"}
    small = season("articulated", PLAN | {"area": "500 acre", "money": PRICES | plan}).rigs[0].money
    large = season("articulated", PLAN | {"area": "1000 acre", "money": PRICES | plan}).rigs[0].money
    assert large.delay == pytest.approx(4 * small.delay)


def test_carbon_and_energy_are_those_of_the_fuel():
    made = money()
    assert made.carbon / made.energy == pytest.approx(2.64 / 35.8)


def test_a_rig_that_cannot_pull_has_no_cost():
    stuck = replaced(demo_rig("two_wheel_drive"), {"work.depth": "30 in", "ground.surface": "tilled"})
    answer = season(stuck, PLAN | {"money": PRICES})
    assert answer.rigs[0].limit is not None
    assert answer.rigs[0].money is None or answer.finish.chance < 0.1


def test_rigs_share_the_area_by_what_they_do():
    answer = season(["articulated", "two_wheel_drive"], PLAN | SHARED | {"money": PRICES})
    first, second = answer.rigs
    assert first.money.area + second.money.area == pytest.approx(answer.area)
    assert first.money.area / second.money.area == pytest.approx(first.day.area / second.day.area)
    assert first.money.area > second.money.area


def test_a_changes_cost_is_all_the_rigs_costs_over_all_the_area():
    found = season(["articulated", "two_wheel_drive"], PLAN | SHARED | {"money": PRICES})
    fewer = season(["articulated", "two_wheel_drive"], PLAN | SHARED | {"area": "1035 acre", "money": PRICES})
    cost = next(change.cost for change in found.changes if change.name == "fewer")
    costs = [one.money for one in fewer.rigs]
    assert cost == pytest.approx(sum(each.a_year for each in costs) / sum(each.area for each in costs))
    assert cost != pytest.approx(sum(each.per_area for each in costs) / 2, rel=0.01)


def test_owning_by_an_annuity_of_discounted_years():
    """Another way than the book's: the price less what is left, both as of today, over the sum of ten discounted payments."""
    found = money(interest="6 percent", years=10.0, tractor_hours="500 h")
    left = found.salvage["tractor"] * 400_000 / 0.85
    today = sum(1.06**-year for year in range(1, 11))
    a_year = (400_000 - left * 1.06**-10) / today + 0.01 * (400_000 + left) / 2
    assert found.parts["owning_tractor"] * 500 == pytest.approx(a_year)
    assert found.salvage["tractor"] == pytest.approx((0.976 - 0.119 * 10**0.5 - 0.0019 * 500**0.5) ** 2)
    assert found.parts["repairs_tractor"] == pytest.approx(0.003 * 400_000 / 0.85 * 5**2 / 5000)


def test_a_machine_is_not_kept_beyond_the_hours_of_its_life():
    """16,000 h of life at 4,000 h a year are 4 years, whatever the usual 15."""
    found = money(tractor_hours="4000 h")
    assert found.salvage["tractor"] == pytest.approx((0.976 - 0.119 * 4**0.5 - 0.0019 * 4000**0.5) ** 2)


def test_every_coefficient_of_the_tables_can_be_typed():
    """Each alone, by hand: what it moves and by how much."""
    base = {"years": 10, "interest": "5 percent", "tractor_hours": "400 h", "wage": "20 per h"}
    made = money(**base)

    def parts(**typed):
        return money(**base, **typed).parts

    assert parts(oil="30 percent")["oil"] == pytest.approx(2 * made.parts["oil"])
    assert parts(labour_factor=1.2)["labour"] == pytest.approx(20 * 1.2)
    more = parts(holding="3 percent")["owning_tractor"] - made.parts["owning_tractor"]
    assert more == pytest.approx(0.02 * (400_000 + made.salvage["tractor"] * 400_000 / 0.85) / 2 / 400)
    left = money(**base, salvage_tractor="10 percent", salvage_tool="0 percent").salvage
    assert left == {"tractor": pytest.approx(0.1), "tool": 0.0}
    assert parts(salvage_tractor="10 percent")["owning_tractor"] > made.parts["owning_tractor"]
    assert parts(repairs_tractor="20 percent")["repairs_tractor"] == pytest.approx(0.2 * 400_000 / 0.85 / 4000)
    hours = money(**base).hours
    assert parts(repairs_tool="50 percent")["repairs_tool"] == pytest.approx(0.5 * 80_000 / 0.85 / (10 * hours))
    assert parts(price_of_list="100 percent")["repairs_tractor"] == pytest.approx(0.85 * made.parts["repairs_tractor"])


def test_coefficients_that_cannot_be_are_refused():
    wrong = {"oil": "-1 percent", "labour_factor": 0.5, "price_of_list": "0 percent", "holding": "50 percent",
             "salvage_tool": "3 acre", "repairs_tractor": "900 percent"}  # fmt: skip
    with pytest.raises(InputError) as error:
        money(**wrong)
    assert {fault.where for fault in error.value.faults} == {f"money.{name}" for name in wrong}
