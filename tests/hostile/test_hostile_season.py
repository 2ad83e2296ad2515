"""Plans and weather files that nobody meant: refused with places, or answered; never a traceback, never a NaN."""

import json
import math
import os
import random

import pytest

from rigcalc import in_words, season
from rigcalc.core.errors import InputError
from rigcalc.models.machine.weather import read_weather
from rigcalc.models.season.plan import load_plan, plan_from
from rigcalc.views.json.season import season_data

COUNT = 5000 if os.environ.get("RIGCALC_LONG") else 500
SEASONS = 25  # one plan in so many that can be used is answered too
JUNK = ["", " ", "x", "-1", "0", "1e400", "NaN", "inf", "12", "12 lb", "1,5 ha", "24:01", "31 Feb", "\0", "é" * 300, -1, 0, 1.5,
        1e300, math.nan, math.inf, True, None, [], {}, [1] * 200, {"a": {"b": {"c": 1}}}]  # fmt: skip
GOOD = {
    "area": ["900 acre", "20 ha"], "start": ["1 Oct", "15 Apr", "Sep 30", 250], "by": ["15 Nov", "30 Nov", "1 Jun", 364],
    "day.leave": ["6:30", "0:00"], "day.home": ["21:00", "24:00"], "day.meals": ["1 h", "0 min"],
    "day.field_hours": ["9 h/day"], "day.operators": [2, "4"], "day.fuel_helper": [True], "day.hand_over": ["12 h"],
    "day.pumping": ["0 h"], "day.helper_hours": ["12 h"],
    "day.stops": ["5 percent"], "day.move": ["12 h"], "day.field_area": ["1 acre"], "day.breakdown_hours": ["2 h"],
    "day.repair_hours": ["12 h"], "field.row_length": ["2000 ft", "6 m"], "field.overlap": ["10 m"], "field.steering": ["rtk"],
    "field.turn_time": ["600 s"], "days.share": ["60 percent", "0 percent", "100 percent"], "days.sundays_off": [True],
    "days.counted": [[20, 21, 22, 23, 24], [0, 0, 0, 0, 0]], "money.tractor_price": [400000, "0"],
    "money.tool_price": ["80,000"],
    "money.fuel_price": ["3.50 per gal", "0 per L"], "money.wage": ["25 per h"], "money.years": [0.1, 40],
    "money.interest": ["0 percent"], "money.hire": ["24 per acre"], "money.crop_price": ["0 per t", "180 per t"],
    "money.gain": ["30 per acre"], "money.loss_a_day": ["20 percent/day"], "money.crop_value": ["900 per acre"],
    "money.tractor_hours": ["5000 h"], "days.weather": ["no/such/file.csv"], "days.latitude": [46.9],
    "later": [[{"name": "a", "width": "40 ft", "speed": "7 mph", "field_efficiency": "80 percent", "wait": "120 day"}]],
}  # fmt: skip


def planned(draw):
    """A plan of a few entries, some of them wrong in what they hold or in where they stand."""
    data = {}
    bad = draw.random() < 0.7
    for path in draw.sample(sorted(GOOD), draw.randint(0, 8)):
        *way, last = path.split(".")
        part = data
        for name in way:
            part = part.setdefault(name, {})
        if not isinstance(part, dict):
            continue
        part[last] = draw.choice(JUNK) if bad and draw.random() < 0.4 else draw.choice(GOOD[path])
        if bad and draw.random() < 0.05:
            part[draw.choice(["x", "Area", "a.b", "", "later"])] = draw.choice(JUNK)
    return data


def refused(call, *args):
    """Give what a call gives, None where it refuses; what is refused has to say where, what came and what was expected."""
    try:
        return call(*args)
    except InputError as error:
        faults = error.faults
    assert faults
    for fault in faults:
        assert fault.got
        assert fault.expected
        assert str(fault).isprintable()
    return None


def test_plans_are_refused_or_answered():
    draw, used, answered = random.Random(20261126), 0, 0
    for _ in range(COUNT):
        data = planned(draw)
        plan = refused(plan_from, data)
        if plan is None:
            continue
        used += 1
        if used % SEASONS == 0 and (found := refused(season, "articulated", plan)) is not None:
            answered += 1
            text = json.dumps(season_data(in_words(found, draw.choice(["us", "si"]))), allow_nan=False)
            assert "nan" not in text.lower().split()
            assert 0 <= found.finish.chance <= 1
    assert COUNT / 5 < used < COUNT
    assert answered > COUNT / 500


PLAN = """area = "1150 acre"
start = "1 Oct"
by = "15 Nov"
[day]
leave = "6:30"
[days]
counted = [20, 21, 22, 23, 24]
[[later]]
name = "planting"
width = "60 ft"
speed = "5 mph"
field_efficiency = "65 percent"
"""
WEATHER = "DATE,TMAX (C),TMIN (C),PRCP (mm),LATITUDE\n" + "".join(
    f"2001-10-{day:02d},{20 - day / 2:.1f},{5 - day / 2:.1f},{day % 3 * 4.5:.1f},46.9\n" for day in range(1, 31)
)
MARKS = '\0\r\n\t",;=[]{}#.-+eE9é\ud7ff()'


def spoiled(text, draw):
    """The text with a few letters changed, taken out, put in, or a stretch of it twice."""
    for _ in range(draw.randint(1, 4)):
        at, kind = draw.randrange(len(text)), draw.randrange(4)
        before, mark = text[:at], draw.choice(MARKS)
        text = (
            before + mark + text[at + 1 :],
            before + text[at + 1 :],
            before + mark + text[at:],
            text[: at + 40] + text[at:],
        )[kind]
    return text


def test_spoiled_files_are_refused_or_read(tmp_path):
    draw, path, read = random.Random(7), tmp_path / "plan.toml", 0
    for _ in range(COUNT):
        path.write_bytes(spoiled(PLAN, draw).encode("utf-8", "surrogatepass"))
        read += refused(load_plan, path) is not None
    assert 0 < read < COUNT


@pytest.mark.parametrize("units", [None, "tenths"])
def test_spoiled_weather_is_refused_or_read(units):
    draw, read = random.Random(8), 0
    text = WEATHER if units is None else WEATHER.replace(" (C)", "").replace(" (mm)", "")
    for _ in range(COUNT):
        found = refused(read_weather, spoiled(text, draw), units)
        if found is not None:
            read += 1
            warm, rain = found.warmest[found.warmest == found.warmest], found.rain[found.rain == found.rain]
            assert ((warm >= -90) & (warm <= 60)).all()
            assert ((rain >= 0) & (rain <= 1900)).all()
            assert len(found.days) == len(found.rain) > 0
    assert 0 < read < COUNT
