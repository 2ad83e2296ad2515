"""The ground by weather: water by hand, each state, a clod before it, days until it is fit by past years, what is refused."""

import math
from dataclasses import replace
from datetime import date, timedelta

import pytest

from rigcalc import ground, in_words
from rigcalc.core.errors import InputError
from rigcalc.models import demo_rig, replaced
from rigcalc.models.ground.by_weather import AHEAD, by_weather
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.machine.water import soil_of
from rigcalc.models.machine.wetness import Wet, number_of, water_limits
from rigcalc.words.ground.by_weather import weather_headline

RIG = replaced(demo_rig("front_wheel_assist"), {"ground.texture": "sandy loam", "work.depth": "25 cm"})
ANY_WATER = replaced(RIG, {"ground.plastic_limit": "45 percent"})  # so that rain of the day alone keeps off
LOAM = replaced(RIG, {"ground.texture": "loam"})
LAST = date(2010, 10, 14)
TEN = ["7 in to 8 in"] * 8 + ["none"] * 2


def written(folder, first=date(2010, 8, 1), last=LAST, rain=None, mean=15.0, half=0.0, skip=()):
    """A file of invented weather; half: half of the day's span, which is what evaporates."""
    lines, day = ["DATE,TMAX (C),TMIN (C),PRCP (mm),LATITUDE"], first
    while day <= last:
        if day not in skip:
            warm = mean(day) if callable(mean) else mean
            lines.append(f"{day},{warm + half},{warm - half},{rain(day) if rain else 0},46.9")
        day += timedelta(days=1)
    path = folder / "station.csv"
    path.write_text("\n".join(lines))
    return path


def on(day, mm):
    """So much rain on one day."""
    return lambda each: mm if each == day else 0.0


def found(path, rig=RIG, day=None):
    return by_weather(rig, path, None, None, day)


def test_what_a_crop_left_is_what_the_run_begins_with(tmp_path):
    path, limits = written(tmp_path), water_limits(RIG)
    span, probe = limits.drained - limits.wilting, number_of("probe_scatter") / limits.density
    made = ground(RIG, weather=path, water_left="20 percent")
    low, likely, high = made.weather.wet.water
    assert likely == pytest.approx(limits.wilting + 0.2 * span)
    assert (likely - low, high - likely) == (pytest.approx(probe), pytest.approx(probe))
    lines = in_words(made, "us").weather
    assert any("begun with 20 % of the water that plants can take (as typed)" in line for line in lines)
    for left in ("120 percent", "much", 20, True):
        with pytest.raises(InputError, match="water_left"):
            ground(RIG, weather=path, water_left=left)
    with pytest.raises(InputError, match="water_left"):
        ground(RIG, water_left="20 percent")


def test_without_rain_and_drying_the_water_is_what_was_left(tmp_path):
    """Half of what plants can take, 20 to 90 % at the ends of the doubt, which a probe's scatter joins."""
    made, limits = found(written(tmp_path)), water_limits(RIG)
    span, probe = limits.drained - limits.wilting, number_of("probe_scatter") / limits.density
    low, likely, high = made.wet.water
    assert likely == made.deepest == pytest.approx(limits.wilting + 0.5 * span)
    assert likely - low == pytest.approx(math.hypot(0.3 * span, probe))
    assert high - likely == pytest.approx(math.hypot(0.4 * span, probe))
    assert (made.day, made.last, made.begun, made.since) == (LAST, True, LAST - timedelta(days=30), None)
    assert (made.guess, made.dry, made.too_wet) == (None, None, False)
    assert made.evaporation == 0


@pytest.mark.parametrize(
    ("rig", "state", "judgement", "weather"),
    [
        (RIG, Wet.NEAR, Judgement.TRY, {"rain": on(LAST - timedelta(days=9), 30.0)}),
        (RIG, Wet.READY, Judgement.TRY, {"half": 7.0}),
        (RIG, Wet.WET, Judgement.DONT, {"rain": on(LAST, 5.0)}),
        (RIG, Wet.READY, Judgement.TRY, {"rain": on(LAST, 4.9), "half": 7.0}),
        (LOAM, Wet.WET, Judgement.DONT, {"rain": on(LAST - timedelta(days=1), 300.0)}),
        (RIG, Wet.FROZEN, Judgement.DONT, {"mean": lambda day: -6.0 if day > date(2010, 10, 12) else 9.0}),
        (replaced(RIG, {"work.depth": "10 cm"}), Wet.HARD, Judgement.TRY, {"mean": 25.0, "half": 9.0}),
    ],
)  # fmt: skip
def test_states_by_weather_and_never_a_go(tmp_path, rig, state, judgement, weather):
    made = found(written(tmp_path, **weather), rig)
    assert (made.wet.state, made.judgement) == (state, judgement)


def test_the_wettest_layer_counts_and_where_it_lies(tmp_path):
    made = found(written(tmp_path, rain=on(LAST, 4.0)))
    assert made.where == (0.0, 10.0)
    assert made.wet.water[1] > made.deepest
    path = written(tmp_path, half=8.0, rain=on(LAST - timedelta(days=3), 150.0))
    soaked = found(path, replaced(RIG, {"work.depth": "26 cm"}))
    assert soaked.where == (20.0, 26.0)  # no lower than the points
    assert soaked.since == 3


def test_temperatures_laid_between_their_neighbours_are_counted_and_said(tmp_path):
    path = written(tmp_path)
    path.write_text(path.read_text().replace("2010-10-03,15.0,", "2010-10-03,,").replace("2010-08-20,15.0,", "2010-08-20,,"))
    assert found(path).bridged == 1, "the other one is before the run"
    said = in_words(ground(RIG, weather=path), "us").weather
    assert "Temperatures of 1 day were laid between their neighbours" in said


def test_a_clod_counts_before_the_weather(tmp_path):
    wet = written(tmp_path, rain=on(LAST, 20.0))
    crumbles = ground(replaced(RIG, {"ground.thread_test": "crumbles"}), TEN, weather=wet)
    assert (crumbles.weather.judgement, crumbles.judgement) == (Judgement.DONT, Judgement.GO)
    assert any("The two part" in line for line in in_words(crumbles, "us").weather)
    alone = ground(RIG, TEN, weather=wet)
    assert alone.judgement is Judgement.DONT
    dry = written(tmp_path, half=7.0)
    assert ground(RIG, TEN, weather=dry).judgement is Judgement.TRY  # everything else is a go
    rolls = ground(replaced(RIG, {"ground.thread_test": "rolls"}), TEN, weather=dry)
    assert rolls.judgement is Judgement.DONT
    assert any("The two part" in line for line in in_words(rolls, "us").weather)
    assert ground(RIG, TEN).weather is None


def rainy(first):
    """From 15 October on as many days of 5 mm as the year is after `first`; 20 mm on the last day of all."""

    def rain(day):
        if day == LAST:
            return 20.0
        return 5.0 if 0 <= (day - date(day.year, 10, 15)).days < day.year - first else 0.0

    return rain


def test_days_until_it_is_fit_by_hand(tmp_path):
    """Ten past years whose rain keeps off for 0 to 9 days: fit on day 1 to 10, five times each; of 50 the 5th, 25th, 45th."""
    path = written(tmp_path, first=date(2000, 9, 1), rain=rainy(2000))
    made = found(path, ANY_WATER)
    assert made.guess.days == (1, 5, 9)
    assert made.guess.years == tuple(range(2000, 2010))
    assert made.dry == (1, 1, 1)
    for units in ("us", "si"):
        text = str(in_words(ground(ANY_WATER, weather=path), units))
        assert "worked out from weather and not read" in text
        assert "Fit again by past years in 5 days, about 19 Oct (8 in 10 from 15 Oct to 23 Oct)." in text


@pytest.mark.parametrize(
    ("days", "said"),
    [
        ((3, 10, math.inf), "in 10 days, about 24 Oct (1 in 10 by 17 Oct, and 1 in 10 or more not within 60 days)."),
        ((3, math.inf, math.inf), "more often than not it isn't fit within 60 days (1 in 10 by 17 Oct, and"),
    ],
)
def test_years_that_never_dry_are_said_with_the_others(tmp_path, days, said):
    made = found(written(tmp_path, first=date(2000, 9, 1), rain=rainy(2000)), ANY_WATER)
    assert said in weather_headline(replace(made, guess=replace(made.guess, days=days)), ANY_WATER, "us")


def test_only_whole_past_years_count_and_seven_are_too_few(tmp_path):
    path = written(tmp_path, first=date(2000, 9, 1), rain=rainy(2000), skip={date(2003, 11, 2), date(2001, 12, 14)})
    eight = found(path, ANY_WATER)  # a day without rain read isn't whole; 14 Dec is past the 60 days
    assert eight.guess.years == (2000, 2001, 2002, *range(2004, 2010))
    seven = found(path, ANY_WATER, "2009-10-15")  # 14 Dec is the last of its 60 days
    assert (seven.guess, seven.years) == (None, 7)
    few = in_words(ground(ANY_WATER, weather=path, day="2009-10-15"), "us")
    assert "No guess of a date: the file has 7 whole past years of this date, under 8 say too little" in str(few)
    assert "it would take 1 day" in str(few)


def test_dry_days_by_the_draining_alone(tmp_path):
    """One layer that dries by draining alone: what is over field capacity shrinks by the same share each day."""
    limit = f"{100 * water_limits(LOAM).drained + 3:.3f} percent"
    loam = replaced(LOAM, {"work.depth": "10 cm", "ground.plastic_limit": limit})
    limits = water_limits(loam)
    soil = soil_of(limits, "loam", 0.1)
    made = found(written(tmp_path, rain=on(LAST, 200.0)), loam)
    over = (soil.full - soil.drained) / limits.density
    assert made.wet.water[1] == pytest.approx(limits.drained + over)
    off = limits.upper[2] - limits.upper[1]
    expected = []
    for doubt in (0.8, 0.0, -0.8):
        room = limits.upper[1] + doubt * off - limits.drained
        assert 0 < room < over
        expected.append(math.ceil(math.log(room / over) / math.log(1 - soil.drains)))
    assert made.dry == tuple(expected)
    assert made.dry[0] < made.dry[2]


def test_what_never_drains_under_its_limit_gets_no_date(tmp_path):
    path = written(tmp_path, first=date(2000, 9, 1), rain=on(LAST, 200.0), half=3.0)
    made = found(path, replaced(RIG, {"ground.texture": "clay loam", "ground.plastic_limit": "16 percent"}))
    assert made.guess.days == (math.inf,) * 3
    assert made.dry == (math.inf,) * 3
    said = in_words(ground(replaced(LOAM, {"ground.plastic_limit": "12 percent"}), weather=path), "us")
    assert f"isn't fit within {AHEAD} days" in str(said)
    assert any("still be too wet after 60 days" in line for line in said.weather)


def test_a_leap_day_takes_the_last_of_february_of_other_years(tmp_path):
    leap = date(2008, 2, 29)
    path = written(tmp_path, first=date(1999, 9, 1), last=leap, rain=on(leap, 20.0))
    made = found(path, ANY_WATER)
    assert made.begun == leap - timedelta(days=120)
    assert made.begins == (0.7, 1.0, 1.0)
    assert made.guess.years == tuple(range(2000, 2008))


def faults(**given):
    with pytest.raises(InputError) as error:
        ground(given.pop("rig", RIG), **given)
    return {fault.where: fault for fault in error.value.faults}


def test_every_fault_at_once(tmp_path):
    path = written(tmp_path)
    path.write_text(path.read_text().replace("2010-08-03,15.0", "2010-08-03,99"))
    many = faults(weather=path, latitude="pole", day="14.10.2010", share=7.0, weather_units="furlong")
    assert set(many) == {"weather_units", "latitude", "day", "share"}  # lines wait for the units
    assert set(faults(weather=path, latitude="pole", day="2010-13-01")) == {"weather, line 4", "latitude", "day"}
    assert set(faults(weather_units="us", latitude=46.9, day="2010-10-14")) == {"weather_units", "latitude", "day"}
    assert set(faults(weather=tmp_path / "none.csv", rig="no_such_rig")) == {"weather", "rig file"}
    assert set(faults(weather=5)) == {"weather"}


ODD = ("", " ", "nan", "1e999", "<b>", "\x00", "٣", "9" * 400, "2010-W41-4", "2010-10-1", 0.5, True, math.nan, [], 10**400)


@pytest.mark.parametrize("odd", ODD, ids=range(len(ODD)))
def test_odd_values_are_refused_in_words(tmp_path, odd):
    path = written(tmp_path)
    for entry in ("latitude", "day", "weather_units"):
        if (entry, odd) != ("latitude", 0.5):
            assert set(faults(weather=path, **{entry: odd})) == {entry}
    assert "weather" in faults(weather=odd)


def test_days_that_the_file_does_not_hold(tmp_path):
    path = written(tmp_path, skip={date(2010, 10, 1)})
    assert "2010-08-01 to 2010-10-14" in faults(weather=path, day="2010-10-15")["day"].expected
    assert "2010-10-01" in faults(weather=path)["weather"].got
    assert "from 2010-07-11 on" in faults(weather=path, day="2010-08-10")["weather"].expected
    assert found(path, day="2010-09-30").last is False
    bare = tmp_path / "bare.csv"
    bare.write_text(
        "\n".join(line.rsplit(",", 1)[0] for line in path.read_text().split("\n")).replace(" (C)", "").replace(" (mm)", "")
    )
    assert "--weather-units tenths" == faults(weather=bare)["weather_units"].type_this
    assert "--latitude" in faults(weather=bare, weather_units="metric")["latitude"].type_this
