"""Each rig's calendar: a plain loop over days agrees; a rig that comes later helps less; what can't be is refused."""

import numpy as np
import pytest

from rigcalc import in_words, season
from rigcalc.core.errors import InputError
from rigcalc.models.season.calendar import share_of_work, there
from rigcalc.models.season.finish import Breakdowns, run_seasons
from rigcalc.models.season.plan import plan_from

PLAN = {"area": "3000 acre", "start": "1 Oct", "by": "15 Nov", "days": {"counted": [22, 25, 28, 30, 31, 33, 34, 36, 38, 40]}}
MONEY = {"money": {"tractor_price": 400_000, "tool_price": 80_000, "fuel_price": "3.50 per gal"}}
BOTH = ["articulated", "two_track"]


def run(*calendars, rigs=BOTH, **more):
    return season(rigs, {**PLAN, **({"calendar": list(calendars)} if calendars else {}), **more})


def test_a_plain_loop_over_days_agrees():
    random = np.random.default_rng(5)
    fit, per_day = random.uniform(0, 1, (30, 46)), random.uniform(30, 60, 40)
    present = np.array([np.arange(46) < 30, np.arange(46) >= 12], float)
    team = share_of_work(present, [1.0, 3.0])
    found = run_seasons(fit, 700.0, per_day, 10.0, 2, Breakdowns(200.0, 0.0), team=team)
    done = np.zeros(46)
    for year in fit:
        for rate in per_day:
            left = 700.0
            for day, share in enumerate(year):
                left -= share * rate * (0.25 * (day < 30) + 0.75 * (day >= 12))
                if left <= 1e-9:
                    done[day:] += 1
                    break
    assert found.done == pytest.approx(done / (len(fit) * len(per_day)), abs=1e-12)
    assert found.chance == pytest.approx(done[-1] / (len(fit) * len(per_day)), abs=1e-12)


def test_the_latest_start_is_before_a_day_on_which_nobody_is_there():
    fit, team = np.ones((5, 10)), np.array([1, 1, 0, 0, 0, 1, 1, 1, 0, 0.0])
    found = run_seasons(fit, 30.0, np.full(4, 10.0), 10.0, 1, Breakdowns(200.0, 0.0), team=team)
    assert found.latest == (5, 5, 5)
    assert found.there == (5, 5, 5)
    assert found.in_hand == (2, 2, 2)


def test_calendars_of_the_whole_season_change_nothing():
    plain, typed = run(), run({}, {"comes": "1 Oct", "goes": "15 Nov"})
    assert typed.finish.chance == plain.finish.chance
    assert typed.finish.in_hand == plain.finish.in_hand
    assert [one.alone for one in typed.rigs] == [one.alone for one in plain.rigs]


def test_a_rig_that_comes_later_lies_between_both_and_one_alone():
    both, late, alone = run(), run({}, {"comes": "25 Oct"}), run(rigs=BOTH[:1])
    assert both.finish.chance > late.finish.chance > alone.finish.chance
    assert both.finish.in_hand[0] > late.finish.in_hand[0]
    assert late.rigs[0].alone == both.rigs[0].alone
    assert late.rigs[1].alone < both.rigs[1].alone
    one = late.of_one(1)
    assert one.finish.chance == late.rigs[1].alone
    assert {change.name: change.chance for change in late.changes}["second_rig"] > late.finish.chance


def test_each_does_what_its_days_allow():
    both, late = run(**MONEY), run({}, {"comes": "8 Nov"}, **MONEY)
    assert both.rigs[1].money.area > 2 * late.rigs[1].money.area > 0
    assert sum(one.money.area for one in late.rigs) == pytest.approx(late.area)


def test_it_says_when_each_is_there():
    text = str(in_words(run({"goes": "5 Nov"}, {"comes": "25 Oct"}), "us").said)
    assert "is there 1 Oct to 5 Nov; " in text
    assert "is there 25 Oct to 15 Nov. A day without one of them counts by what the others do." in text
    assert "is there" not in str(in_words(run(), "us").said)


@pytest.mark.parametrize(("calendars", "where"), [
    ([{}], "calendar"), ([{}, {}, {}], "calendar"),
    ([{"comes": "20 Sep"}, {}], "calendar.0"), ([{}, {"goes": "20 Nov"}], "calendar.1"),
    ([{"comes": "9 Nov", "goes": "1 Nov"}, {}], "calendar.0"), ([{"comes": "30 Feb"}, {}], "calendar.0.comes"),
    ([{"from": "9 Nov"}, {}], "calendar.0.from"),
])  # fmt: skip
def test_what_cannot_be_is_refused(calendars, where):
    with pytest.raises(InputError) as found:
        run(*calendars)
    assert [fault.where for fault in found.value.faults] == [where]
    assert found.value.faults[0].expected


def test_the_share_of_work_by_hand():
    present = there(plan_from({"calendar": [{"comes": "3 Oct"}, {"goes": "4 Oct"}]}), 3, 274, 278)
    assert present.tolist() == [[0, 0, 1, 1, 1], [1, 1, 1, 1, 0], [0, 0, 1, 1, 1]]  # a third has the first one's
    assert share_of_work(present, [2.0, 1.0, 1.0]).tolist() == [0.25, 0.25, 1, 1, 0.75]
    assert share_of_work(present, [0.0, 0.0, 0.0]) == pytest.approx([1 / 3, 1 / 3, 1, 1, 2 / 3])
