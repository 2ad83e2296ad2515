"""The season's arithmetic, by hand; and that what the rig file leaves out is left out."""

import pytest
from known_rigs import known_rig

from rigcalc.core.units import factor
from rigcalc.models import replaced, size

SEASON = {
    "work.area": "900 acre",
    "work.hours_per_day": "10 h/day",
    "work.calendar_days": "21 day",
    "work.fit_days": "50 percent",
}


def test_by_hand():
    rig = replaced(known_rig(), SEASON)
    answer = size(rig)
    days, point = answer.season, answer.point.bare
    # 15 shanks 15 in apart at 5.5 mph and 85 percent: 18.75 ft x 5.5 mph x 5280 / 43560 x 0.85
    acres_an_hour = 18.75 * 5.5 * 5280 / 43560 * 0.85
    assert days.area_per_day * factor("ha", "acre") == pytest.approx(acres_an_hour * 10, rel=1e-5)
    assert days.days_needed == pytest.approx(900 / (acres_an_hour * 10), rel=1e-5)
    assert days.days_there_are == pytest.approx(10.5)
    assert days.days_in_hand == pytest.approx(10.5 - 900 / (acres_an_hour * 10), abs=1e-3)
    assert days.fuel_per_day == pytest.approx(
        (0.85 * point.fuel_rate + 0.15 * (0.22 * 0.2 + 0.096) * answer.bare_rig.rated_pto) * 10
    )
    assert days.fillings_per_day == pytest.approx(days.fuel_per_day / (300 * 3.785411784))
    assert days.def_per_day == pytest.approx(0.04 * days.fuel_per_day)


def test_short_of_time():
    answer = size(replaced(known_rig(), SEASON | {"work.fit_days": "20 percent"}))
    assert answer.season.days_in_hand < 0


@pytest.mark.parametrize("missing", sorted(SEASON))
def test_what_is_left_out_stays_out(missing):
    answer = size(replaced(known_rig(), SEASON | {missing: None}))
    if missing == "work.hours_per_day":
        assert answer.season is None
        return
    assert answer.season.area_per_day > 0
    assert (answer.season.days_needed is None) == (missing == "work.area")
    assert (answer.season.days_there_are is None) == (missing in ("work.calendar_days", "work.fit_days"))
    assert answer.season.days_in_hand is None


def test_no_tank_no_fillings():
    days = size(replaced(known_rig(), SEASON | {"tractor.fuel_tank": None})).season
    assert days.fillings_per_day is None
    assert days.fuel_per_day > 0


def test_no_fit_day_at_all():
    answer = size(replaced(known_rig(), SEASON | {"work.fit_days": "0 percent"}))
    assert answer.season.days_there_are == 0
