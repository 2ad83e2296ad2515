"""Done by when: the record's own percentiles, whole seasons, later passes, and a plain loop over days that must agree."""

from datetime import date, timedelta

import numpy as np
import pytest

from rigcalc import season
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.season.finish import Breakdowns, Pass, run_seasons
from rigcalc.models.season.record import laid_over, recorded

NO_STOPS = Breakdowns(200.0, 0.0)
OCT_1, NOV_15 = 274, 319


def test_the_record_gives_its_own_percentiles():
    """46 days from 1 October, 22 years with reports: 33.9, 29.5 and 25.0 days in 50, 80 and 90 of 100 (worked from the same
    reports by others than this code)."""
    fit, years, _out = recorded(OCT_1, NOV_15)
    assert len(years) == 22
    assert np.quantile(fit.sum(axis=1), [0.5, 0.2, 0.1]) == pytest.approx([33.9, 29.5, 25.0], abs=0.051)


def test_bad_weeks_added_up_would_be_too_bad():
    """The sum of the weeks' own 8 in 10 is about 8 percent under that of whole seasons: weeks hang together, not wholly."""
    fit, _years, _out = recorded(OCT_1, OCT_1 + 41)
    weeks = fit.reshape(len(fit), 6, 7).sum(axis=2)
    added, whole = np.quantile(weeks, 0.2, axis=0).sum(), np.quantile(weeks.sum(axis=1), 0.2)
    assert 0.88 < added / whole < 0.98
    neighbours = [np.corrcoef(weeks[:, at], weeks[:, at + 1])[0, 1] for at in range(5)]
    assert 0.2 < np.mean(neighbours) < 0.7


def test_sundays_off_take_a_seventh():
    with_them, without = recorded(OCT_1, NOV_15)[0].sum(), recorded(OCT_1, NOV_15, True)[0].sum()
    assert without / with_them == pytest.approx(6 / 7, abs=0.02)


@pytest.mark.parametrize("share", [0.1, 0.48, 0.74, 0.95])
def test_an_own_share_is_that_of_the_middle_year(share):
    laid = laid_over(recorded(OCT_1, NOV_15)[0], share)
    assert np.median(laid.mean(axis=1)) == pytest.approx(share, abs=1e-6)
    assert laid.min() >= 0
    assert laid.max() <= 1
    assert laid.mean(axis=1).std() > 0.01


def loop(fit, area, per_day, later):
    """The same by hand, day after day, without a breakdown: share of years and draws that are done in time."""
    done = 0
    for year in fit:
        for rate in per_day:
            end = len(year)
            for each in reversed(later):
                left, day = each.days, end
                while left > 1e-9 and day > 0:
                    day -= 1
                    left -= year[day]
                end = day - int(np.ceil(each.wait)) if left <= 1e-9 else -1
            got = sum(rate * share for share in year[: max(end, 0)])
            done += end >= 0 and got >= area - 1e-9
    return done / (len(fit) * len(per_day))


@pytest.mark.parametrize(
    "later", [[], [Pass("a", 4.2, 2.0)], [Pass("a", 4.2, 2.0), Pass("b", 3.0, 0.0)], [Pass("a", 60.0, 0.0)]]
)
def test_a_plain_loop_over_days_agrees(later):
    fit = recorded(OCT_1, NOV_15)[0]
    per_day = np.random.default_rng(3).uniform(20, 60, 40)
    found = run_seasons(fit, 900.0, per_day, 10.0, 1, NO_STOPS, later)
    assert found.chance == pytest.approx(loop(fit, 900.0, per_day, later), abs=1e-12)


def test_every_day_alike_is_plain_division():
    fit = np.full((9, 20), 0.5)
    found = run_seasons(fit, 100.0, np.full(8, 20.0), 10.0, 1, NO_STOPS)
    assert found.needed == (5.0, 5.0, 5.0)
    assert found.in_hand == pytest.approx((5.0, 5.0, 5.0))
    assert found.latest == (10, 10, 10)
    assert found.done.tolist() == [0.0] * 9 + [1.0] * 11


def test_the_surer_the_fewer_days_in_hand():
    """Eleven years of 1 to 11 fit days, of which the work takes one: half of them leave 5, 8 of 10 leave 2, 9 of 10 leave 1."""
    fit = np.repeat(np.arange(1, 12)[:, None] / 20, 20, axis=1)
    found = run_seasons(fit, 10.0, np.full(8, 10.0), 10.0, 1, NO_STOPS)
    assert found.there == pytest.approx((6, 3, 2))
    assert found.in_hand == pytest.approx((5, 2, 1))
    assert found.latest[0] > found.latest[1] > found.latest[2] >= 0
    assert found.chance == 1


def test_a_rig_that_stands_is_never_done():
    found = run_seasons(np.ones((9, 20)), 100.0, np.zeros(8), 10.0, 1, NO_STOPS)
    assert found.chance == 0
    assert found.latest == (-1, -1, -1)


def test_breakdowns_cost_what_they_do_on_average():
    """1000 field hours at one breakdown in 50 h of 5 h each: 100 h, 10 days of 10 h; shared by two rigs each counts half."""
    fit, per_day = np.ones((300, 400)), np.full(200, 10.0)
    alone = run_seasons(fit, 1000.0, per_day, 10.0, 1, Breakdowns(50.0, 5.0), seed=1)
    assert alone.needed[1] == pytest.approx(110, abs=1.5)
    two = run_seasons(fit, 1000.0, per_day, 10.0, 2, Breakdowns(50.0, 5.0), seed=1)
    assert two.needed[1] == pytest.approx(110, abs=1.5)  # twice the hours, each worth half
    assert run_seasons(fit, 1000.0, per_day, 10.0, 1, Breakdowns(50.0, 5.0), seed=1).needed == alone.needed


PLAN = {"start": "1 Oct", "by": "15 Nov"}


def test_the_first_sentence_can_say_no():
    answer = season("front_wheel_assist", PLAN | {"by": "24 Oct"})
    assert answer.judgement is Judgement.DONT
    assert answer.finish.chance < 0.5


def test_somebody_elses_days_are_never_a_yes():
    own = season("two_wheel_drive", PLAN)
    from rigcalc.models import demo_rig, replaced

    foreign = season(replaced(demo_rig("two_wheel_drive"), {"work.fit_days": None}), PLAN)
    assert own.judgement is Judgement.GO
    assert foreign.finish.chance > 0.9
    assert foreign.judgement is Judgement.TRY


def test_a_rig_that_breaks_a_limit_is_no_whatever_the_days():
    answer = season("two_track", PLAN)
    assert answer.finish.chance > 0.8
    assert answer.failing.limit == "rear_pressure"
    assert answer.judgement is Judgement.DONT


def test_what_must_help_helps():
    answer = season("articulated", PLAN)
    changes = {change.name: change for change in answer.changes}
    for name in ("hour", "shallower", "second_rig", "fewer"):
        assert changes[name].chance > answer.finish.chance, name
    assert [c.chance for c in answer.changes if c.holds] == sorted((c.chance for c in answer.changes if c.holds), reverse=True)


def test_a_later_pass_takes_its_days_from_the_end():
    planting = {"name": "plant", "width": "60 ft", "speed": "5 mph", "field_efficiency": "65 percent", "wait": "2 day"}
    now, with_it = season("articulated", PLAN), season("articulated", PLAN | {"later": [planting]})
    acres_an_hour = 60 * 5 * 5280 / 43560 * 0.65
    assert with_it.later[0].days == pytest.approx(1150 / (acres_an_hour * 10), rel=1e-5)
    assert with_it.finish.chance < now.finish.chance
    assert with_it.finish.there[0] < now.finish.there[0] - with_it.later[0].days + 1e-9


def test_two_rigs_share_the_fields():
    one, two = season("articulated", PLAN | {"area": "2300 acre"}), season(["articulated"] * 2, PLAN | {"area": "2300 acre"})
    assert two.finish.chance > one.finish.chance
    assert two.rigs[0].alone == one.finish.chance
    assert two.finish.needed[1] == pytest.approx(one.finish.needed[1] / 2, rel=0.1)


def test_the_same_seed_gives_the_same_answer():
    first, again = season("articulated", PLAN, seed=4), season("articulated", PLAN, seed=4)
    assert first.finish.chance == again.finish.chance
    assert season("articulated", PLAN, seed=5).finish.chance == pytest.approx(first.finish.chance, abs=0.05)


def test_without_an_area_it_is_asked_for():
    from rigcalc.core.errors import InputError
    from rigcalc.models import demo_rig, replaced

    with pytest.raises(InputError, match="--area"):
        season(replaced(demo_rig(), {"work.area": None}), PLAN)


def test_half_the_power_is_slower_and_a_third_stands():
    """A rig that lacks a little goes slower; under half the wished speed it doesn't go on, and nothing gets done."""
    from rigcalc.models import demo_rig, replaced

    full, half, third = (
        season(replaced(demo_rig("articulated"), {"tractor.rated_power": power, "tractor.maximum_power": None}), PLAN)
        .rigs[0]
        .rate
        for power in ("500 hp", "300 hp", "130 hp")
    )
    assert full.slowed < half.slowed
    assert half.stuck < third.stuck
    assert third.stuck > 0.9
    assert half.capacity.mean() < full.capacity.mean()
    assert (third.capacity == 0).mean() == third.stuck


def test_an_hour_more_helps_where_the_day_is_built_up_too():
    answer = season("articulated", PLAN | {"day": {"meals": "1 h"}, "area": "1300 acre"})
    assert not answer.rigs[0].day.typed
    assert next(change for change in answer.changes if change.name == "hour").chance > answer.finish.chance


def test_an_own_share_is_of_all_days_and_loses_its_sundays():
    plan = {"start": "1 Oct", "by": "15 Nov"}
    for share in ("60 percent", "100 percent"):
        every, six = (season("articulated", plan | {"days": {"share": share, "sundays_off": off}}) for off in (False, True))
        assert six.finish.there[0] == pytest.approx(6 / 7 * every.finish.there[0], abs=0.8)
        off = six.seasons.fit == 0
        for row, year in enumerate(six.seasons.years):
            sundays = [day for day in range(46) if (date(year, 10, 1) + timedelta(days=day)).weekday() == 6]
            assert off[row, sundays].all()


def test_a_rig_alone_leaves_room_for_the_later_passes_too():
    later = [{"name": "again", "width": "30 ft", "speed": "5 mph", "field_efficiency": "80 percent"}]
    plan = {"start": "1 Oct", "by": "15 Nov", "later": later}
    alone = season("articulated", plan)
    assert season(["articulated"] * 2, plan).rigs[0].alone == pytest.approx(alone.finish.chance, abs=0.02)
