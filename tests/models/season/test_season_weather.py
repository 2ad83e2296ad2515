"""Weather files: what is read, what is refused and where, leap days, gaps, and days fit for work that answer to the weather."""

import math
from datetime import date, timedelta

import numpy as np
import pytest

from rigcalc import in_words, season
from rigcalc.core.errors import InputError
from rigcalc.models import demo_rig, replaced
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.machine.water import DOUBTS, before
from rigcalc.models.machine.weather import bridged, load_weather, read_weather
from rigcalc.models.season.plan import Fit, plan_from
from rigcalc.models.season.workable import worked_out

OCT_1, NOV_15 = 274, 319
RIG = replaced(demo_rig("articulated"), {"ground.texture": "loam", "work.depth": "30 cm"})
HEAD = "DATE,TMAX (C),TMIN (C),PRCP (mm)"


def written(folder, first=1995, last=2010, rain=lambda day: 0.0, mean=None, skip=(), head=HEAD, latitude=True):
    """A file of invented weather in metric units; a year's warmth is a wave."""
    lines = [head + (",LATITUDE" if latitude else "")]
    day = date(first, 1, 1)
    while day <= date(last, 12, 31):
        if day not in skip:
            warm = mean(day) if mean else 8 - 16 * math.cos(2 * math.pi * (day.timetuple().tm_yday - 20) / 365)
            lines.append(f"{day},{warm + 6:.1f},{warm - 6:.1f},{rain(day):.1f}{',46.9' if latitude else ''}")
        day += timedelta(days=1)
    path = folder / "station.csv"
    path.write_text("\n".join(lines) + "\n")
    return path


def worked(path, rig=RIG, start=OCT_1, by=NOV_15, **more):
    return worked_out(Fit(weather=str(path), **more), [rig], start, by)


def faults(text, units=None):
    with pytest.raises(InputError) as error:
        read_weather(text, units)
    return error.value.faults


def showers(day):
    """Rain every other day, under what stops the work by itself."""
    return 4.5 if day.day % 2 == 0 else 0.0


def cool(day):
    """Days that never freeze and dry little."""
    return 7.0


LINE = "1996-10-01,20.0,4.0,1.5"


def test_three_systems_of_units_read_the_same():
    metric = read_weather(f"{HEAD}\n{LINE}")
    tenths = read_weather("DATE,TMAX,TMIN,PRCP\n19961001,200,40,15", "tenths")
    us = read_weather("PRCP,DATE,TMIN,TMAX\n0.0590551,1996-10-01,39.2,68", "us")
    stated = read_weather("date;tmax [F];tmin (°F);prcp (in)\n1996-10-01;68;39.2;0.0590551")
    for found in (metric, tenths, us, stated):
        assert (found.warmest[0], found.coolest[0], found.rain[0]) == pytest.approx((20, 4, 1.5), rel=1e-5)


def test_units_that_nobody_states_are_asked_for():
    (fault,) = faults("DATE,TMAX,TMIN,PRCP\n1996-10-01,356,40,15")
    assert fault.where == "days.weather_units"
    assert "356" in fault.got
    assert "tenths" in fault.type_this
    (part,) = faults("DATE,TMAX (C),TMIN (C),PRCP\n" + LINE)
    assert "the unit of PRCP" in part.expected
    assert "beside weather_units us" in faults(f"{HEAD}\n{LINE}", "us")[0].got
    assert "'furlong'" in faults("DATE,TMAX (furlong),TMIN (C),PRCP (mm)\n" + LINE)[0].got


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("1996-10-01,70.0,4.0,1.5", "-90 to 60 C"),
        ("1996-10-01,20.0,-95,1.5", "-90 to 60 C"),
        ("1996-10-01,20.0,4.0,-1", "0 to 1,900 mm of rain"),
        ("1996-10-01,20.0,4.0,2000", "0 to 1,900 mm of rain"),
        ("1996-10-01,4.0,20.0,1.5", "TMAX from TMIN up"),
        ("1995-02-29,20.0,4.0,1.5", "a day that the month has in that year"),
        ("1.10.1996,20.0,4.0,1.5", "a date as year-month-day"),
        ("0001-10-01,20.0,4.0,1.5", "a date as year-month-day"),
        ("1996-10-01,warm,4.0,1.5", "a number, or nothing"),
        ("1996-10-01,1e3,4.0,1.5", "a number, or nothing"),
        ("1996-09-30,20.0,4.0,1.5", "each day once"),
    ],
)
def test_what_cannot_be_is_named_with_its_line(line, says):
    (fault,) = faults(f"{HEAD}\n1996-09-30,20.0,4.0,0\n{line}\n")
    assert fault.where == "days.weather, line 3"
    assert says in fault.expected


def test_many_faults_are_told_at_once_and_the_rest_is_counted():
    text = "\n".join([HEAD, *(f"1996-10-{day:02d},99,4,1" for day in range(1, 31))])
    found = faults(text)
    assert len(found) == 13
    assert "18 more" in found[-1].got


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "no headings"),
        (HEAD, "no day"),
        ("DATE,TMAX (C)\n1996-10-01,3", "without TMIN, PRCP"),
        ("DATE,TMAX (C),TMIN (C),PRCP (mm),TMAX (C)\n1996-10-01,3,1,0,3", "TMAX twice"),
        (f"{HEAD},STATION\n{LINE},A\n1996-10-02,3,1,0,B", "2 stations"),
        (f"{HEAD},LATITUDE\n{LINE},north", "LATITUDE 'north'"),
        (f"{HEAD},LATITUDE\n{LINE},-71", "LATITUDE '-71'"),
    ],
)
def test_files_that_are_none(text, says):
    assert says in faults(text)[0].got


def test_units_that_can_hardly_be_are_asked_about(tmp_path):
    text = written(tmp_path, 1995, 1996, lambda day: 3.0).read_text()
    bare = "\n".join(["DATE,TMAX,TMIN,PRCP,LATITUDE", *text.split("\n")[1:]])
    assert "a warmest day of 3.0 C" in faults(bare, "tenths")[0].got
    assert read_weather(bare, "metric").latitude == 46.9
    wet = bare.replace("PRCP", "PRCP (in)").replace("TMAX", "TMAX (C)").replace("TMIN", "TMIN (C)")
    assert "mm of rain a year" in faults(wet)[0].got


def test_nothing_read_is_nothing_and_failed_values_count_as_nothing():
    head = "DATE,TMAX (C),TMAX_ATTRIBUTES,TMIN (C),TMIN_ATTRIBUTES,PRCP (mm),PRCP_ATTRIBUTES"
    found = read_weather(f'{head}\n1996-10-01,20,",,S",4,",I,S",,\n1996-10-03,-9999,,4,,1.5,"T,,S"\n')
    assert found.flagged == 1
    assert np.isnan(found.coolest[0])
    assert np.isnan(found.rain[0])
    assert np.isnan(found.warmest).tolist() == [False, True, True]
    assert found.rain[2] == 1.5
    assert len(found.days) == 3


def test_a_file_that_cannot_be_read(tmp_path):
    with pytest.raises(InputError, match="can be read"):
        load_weather(tmp_path / "none.csv")
    (tmp_path / "bytes.csv").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(InputError, match="UTF-8"):
        load_weather(tmp_path / "bytes.csv")
    with pytest.raises(InputError, match="can be read"):
        load_weather("\0")


def test_dry_warm_years_are_all_fit_and_each_year_counts_five_times(tmp_path):
    found = worked(written(tmp_path, mean=lambda day: 15.0))
    assert found.fit.shape == (16 * len(DOUBTS), 46)
    assert found.years == tuple(range(1995, 2011))
    assert found.fit.all()
    assert found.shares == (1, 1, 1)


def test_a_soaking_stops_the_work_and_what_stays_wet_below_stays_so(tmp_path):
    """120 mm on 10 October: loam drains to more than its middle limit, sand comes under its own within days."""
    path = written(tmp_path, rain=lambda day: 120.0 if (day.month, day.day) == (10, 10) else 0.0, mean=lambda day: 15.0)
    middle = len(DOUBTS) // 2
    loam = worked(path).fit.reshape(16, len(DOUBTS), 46)
    assert loam[:, :, :9].all()
    assert not loam[:, :, 9].any()
    assert not loam[:, middle, 9:].any()
    assert loam[:, -1, 30:].all()
    sand = worked(path, replaced(RIG, {"ground.texture": "sandy loam"})).fit.reshape(16, len(DOUBTS), 46)
    assert not sand[:, :, 9].any()
    assert sand[:, middle, 16:].all()


def test_the_wetter_the_limit_the_more_days(tmp_path):
    path = written(tmp_path, rain=showers, mean=cool)
    found = worked(path)
    assert found.shares[0] < found.shares[1] < found.shares[2]
    fit = found.fit.reshape(16, len(DOUBTS), 46)
    assert (np.diff(fit, axis=1) >= 0).all()
    shallow = worked(path, replaced(RIG, {"work.depth": "12 cm"}))
    assert (shallow.fit >= found.fit).all()
    assert shallow.fit.sum() > found.fit.sum()
    dry = worked(path, water_left=plan_from({"days": {"weather": "x", "water_left": "10 percent"}}).days.water_left)
    assert dry.fit.sum() > found.fit.sum()
    assert (dry.begins, dry.begins_typed, found.begins_typed) == (0.1, True, False)


def test_winter_is_where_it_is_south_of_the_equator_too(tmp_path):
    """Full after winter, half of it left by a ripe crop: half a year apart."""
    assert [before(day, 46.9)[0] for day in (1, 151, 152, 365)] == [120, 120, 30, 30]
    assert [before(day, -33.0)[0] for day in (1, 182, 183, 334, 335)] == [30, 30, 120, 120, 30]
    path = written(tmp_path, rain=showers, mean=cool)
    plan = {"start": "1 Oct", "by": "15 Nov", "area": "300 acre", "days": {"weather": str(path), "latitude": "33 S"}}
    answer = season(RIG, plan)
    assert answer.seasons.worked.begins == 1
    headline = in_words(answer, "us").said.headline
    assert "seasons" in headline
    assert "autumn" not in headline


def test_the_deepest_of_several_rigs_waits_for_the_most_layers(tmp_path):
    path = written(tmp_path, rain=showers, mean=cool)
    shallow = replaced(RIG, {"work.depth": "12 cm"})
    both = worked_out(Fit(weather=str(path)), [shallow, RIG], OCT_1, NOV_15)
    assert both.depth == pytest.approx(0.30)
    assert (both.fit == worked(path).fit).all()
    assert both.fit.sum() < worked(path, shallow).fit.sum()


def test_rain_of_the_day_and_frost_stop_dry_ground_too(tmp_path):
    wet_days = worked(written(tmp_path, rain=lambda day: 5.0 if day.day == 20 else 0.0, mean=lambda day: 15.0))
    assert not wet_days.fit[:, 19].any()
    assert wet_days.fit[:, 18].all()
    cold = worked(written(tmp_path, mean=lambda day: -6.0 if (day.month, day.day) >= (11, 10) else 8.0))
    assert cold.fit[:, : 31 + 10].all()  # 10 Nov: 6 degree-days so far
    assert not cold.fit[:, 31 + 10 :].any()


def test_sundays_are_those_of_the_years(tmp_path):
    found = worked(written(tmp_path, mean=lambda day: 15.0), sundays_off=True)
    for year, rows in zip(found.years, found.fit.reshape(16, len(DOUBTS), 46), strict=True):
        off = [(date(year, 10, 1) + timedelta(days=day)).weekday() == 6 for day in range(46)]
        assert (rows[0] == ~np.array(off)).all()


def test_a_leap_day_is_no_day_of_a_season_but_its_rain_falls(tmp_path):
    """15 Feb to 15 Mar in mild years: 29 days each; 5 mm on 1 March are on the same place in every year."""
    path = written(tmp_path, rain=lambda day: 5.0 if (day.month, day.day) == (3, 1) else 0.0, mean=lambda day: 15.0)
    mild = replaced(RIG, {"ground.texture": "sand"})
    found = worked(path, mild, start=46, by=74)
    assert found.fit.shape[1] == 29
    assert found.years[0] == 1996  # the first winter isn't whole
    assert (found.fit[:, 14] == 0).all()
    assert found.fit[:, 13].all()
    leap = written(tmp_path, rain=lambda day: 200.0 if (day.month, day.day) == (2, 29) else 0.0, mean=lambda day: 15.0)
    clay = worked(leap, replaced(RIG, {"ground.texture": "clay loam"}), start=46, by=74)
    fit = dict(zip(clay.years, clay.fit.reshape(len(clay.years), -1, 29)[:, -1, 14:].sum(axis=1), strict=True))
    assert fit[1996] == fit[2000] < fit[1997] == fit[1999]


def test_gaps_leave_their_years_out_by_name(tmp_path):
    gap = [date(1999, 10, 3)]
    found = worked(written(tmp_path, skip=gap))
    assert 1999 not in found.years
    assert found.left_out == {1999: date(1999, 10, 3)}
    edges = worked(written(tmp_path, skip=[date(1999, 9, 1), date(2001, 8, 30)]))
    assert edges.left_out == {1999: date(1999, 9, 1)}  # 30 days before 1 October; what was before doesn't count
    few = [date(year, 10, 3) for year in range(1995, 2004)]
    with pytest.raises(InputError, match=r"7 whole years \(in 1995 1995-10-03 isn't there whole"):
        worked(written(tmp_path, skip=few))


def test_a_temperature_or_three_are_laid_between_their_neighbours(tmp_path):
    lines = written(tmp_path).read_text().split("\n")

    def without(first, days):
        out = list(lines)
        for at, line in enumerate(out):
            if any(line.startswith(str(first + timedelta(days=n))) for n in range(days)):
                cells = line.split(",")
                out[at] = ",".join([cells[0], "", *cells[2:]])
        path = tmp_path / "gaps.csv"
        path.write_text("\n".join(out))
        return worked(path)

    three = without(date(1999, 10, 3), 3)
    assert three.filled == 3
    assert (three.fit == worked(written(tmp_path)).fit).all()  # a smooth autumn lies between its neighbours
    assert np.allclose(bridged(np.array([np.nan, 2, np.nan, np.nan, np.nan, 10, np.nan])), [np.nan, 2, 4, 6, 8, 10, np.nan],
                       equal_nan=True)  # fmt: skip
    assert 1999 in three.years
    four = without(date(1999, 10, 3), 4)
    assert 1999 not in four.years
    assert four.left_out[1999] == date(1999, 10, 3)


def test_the_answer_is_never_a_yes_and_says_whose_days_they_are(tmp_path):
    path = written(tmp_path, mean=lambda day: 15.0)
    answer = season(RIG, {"start": "1 Oct", "by": "15 Nov", "days": {"weather": str(path)}})
    assert answer.finish.chance > 0.95
    assert answer.judgement is Judgement.TRY
    assert answer.by_year.shape == (16,)
    words = in_words(answer, "us")
    assert words.said.word == "Not surely"
    assert "days that nobody counted: 16 years of weather worked out on bare loam" in words.said.headline
    notes = " ".join(words.notes)
    for part in ("1995 to 2010", "down to 12 in", "a limit by clay and organic matter", "which nobody typed", "0.2 in of rain",
                 "drains to more than its limit", "own 48 percent of days fit are left aside"):  # fmt: skip
        assert part in notes, part
    assert "nobody counted" not in in_words(season(RIG, {"start": "1 Oct", "by": "15 Nov"}), "us").said.headline


def test_shallower_has_fewer_layers_to_wait_for(tmp_path):
    path = written(tmp_path, rain=showers, mean=cool)
    plan = {"start": "1 Oct", "by": "15 Nov", "area": "1500 acre", "days": {"weather": str(path)}}
    answer = season(RIG, plan)
    path.unlink()  # the weather is read once
    shallower = next(change for change in answer.changes if change.name == "shallower")
    written(tmp_path, rain=showers, mean=cool)
    assert shallower.chance == pytest.approx(season(replaced(RIG, {"work.depth": "25 cm"}), plan).finish.chance, abs=1e-9)
    assert shallower.chance > answer.finish.chance


def test_faults_of_a_plan_with_weather(tmp_path):
    path = written(tmp_path, latitude=False)
    plan = {"start": "1 Oct", "by": "15 Nov"}
    with pytest.raises(InputError, match="--latitude"):
        season(RIG, plan | {"days": {"weather": str(path)}})
    assert season(RIG, plan | {"days": {"weather": str(path), "latitude": "46.9 N"}}).seasons.kind == "weather"
    with pytest.raises(InputError, match="share and weather at once"):
        season(RIG, plan | {"days": {"weather": str(path), "share": "50 percent"}})
    with pytest.raises(InputError, match="latitude without weather"):
        season(RIG, plan | {"days": {"latitude": 46.9}})
    with pytest.raises(InputError, match="weather_units"):
        season(RIG, plan | {"days": {"weather": str(path), "weather_units": "furlongs"}})
    for wrong in ("80", "pole", "-70.5", True):
        with pytest.raises(InputError, match="a latitude in degrees"):
            plan_from({"days": {"weather": "x", "latitude": wrong}})
    other = replaced(RIG, {"ground.texture": "clay"})
    with pytest.raises(InputError, match="different ground"):
        season([RIG, other], plan | {"days": {"weather": str(path), "latitude": 46.9}})


@pytest.mark.parametrize(("typed", "degrees"), [("46.9", 46.9), ("46.9 N", 46.9), ("33° S", -33), (-33, -33), (46.9, 46.9)])
def test_latitudes(typed, degrees):
    assert plan_from({"days": {"weather": "x", "latitude": typed}}).days.latitude == degrees
