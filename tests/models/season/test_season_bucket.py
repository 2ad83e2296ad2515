"""Water in bare ground: FAO-56's own bucket day by day on real weather, sums that must hold, and what dries what."""

import csv
import dataclasses
import importlib.util
import os
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from rigcalc.models import demo_rig, replaced
from rigcalc.models.machine.water import Soil, frozen_days, reference_of, run_water, soil_of
from rigcalc.models.machine.wetness import water_limits

# One layer that drains at once, as FAO-56 has it: sandy loam of its example 35 with 8 mm that evaporate readily.
BOOK = Soil(wilting=0.10, drained=0.23, full=0.5, evaporable=18.0, readily=8.0, drains=1.0, layers=(0.10,))
LOAM = soil_of(water_limits(replaced(demo_rig(), {"ground.texture": "loam"})), "loam", 0.40)


def real_weather():
    """Dates, mm, degC and degC of the daily weather that a package of sample data ships: four years of one station."""
    folder = Path(importlib.util.find_spec("vega_datasets").origin).parent / "_data"
    rows = list(csv.DictReader(next(folder.glob("*-weather.csv")).read_text().splitlines()))
    days = [date(*map(int, row["date"].split("/"))) for row in rows]
    return days, *(np.array([float(row[name]) for row in rows]) for name in ("precipitation", "temp_max", "temp_min"))


def test_the_bucket_day_by_day_against_a_library():
    """pyfao56 with a crop that takes nothing: what the drying layer has lost each evening, over a dry summer and a wet
    autumn; over four years with RIGCALC_LONG."""
    import pandas as pd
    import pyfao56 as fao

    part = slice(None) if os.environ.get("RIGCALC_LONG") else slice(190, 340)
    days, rain, warmest, coolest = (each[part] for each in real_weather())
    et = reference_of(np.array([day.timetuple().tm_yday for day in days]), 47.4, warmest, coolest)
    keys = [f"{day:%Y-%j}" for day in days]
    weather = fao.Weather()
    weather.wndht, weather.rfcrp = 2.0, "S"
    table = pd.DataFrame(np.nan, index=keys, columns=weather.cnames)
    table["Rain"], table["ETref"], table["Wndsp"], table["RHmin"] = rain, et, 2.0, 45.0
    table["Tmax"], table["Tmin"] = warmest, coolest
    weather.wdata = table
    bare = fao.Parameters(Kcbini=0.0, Kcbmid=0.01, Kcbend=0.0, Lini=9999, Ldev=1, Lmid=1, Lend=1, hini=0.0, hmax=0.0,
                          thetaFC=0.23, thetaWP=0.10, theta0=0.10, Zrini=0.1, Zrmax=0.1, pbase=0.5, Ze=0.10,
                          REW=8.0)  # fmt: skip
    model = fao.Model(keys[0], keys[-1], bare, weather)
    model.run()
    theirs = model.odata
    assert float(theirs["Kcmax"].iloc[5]) == pytest.approx(1.2, abs=1e-5)
    begins = (0.5 * BOOK.wilting - BOOK.wilting) / (BOOK.drained - BOOK.wilting)  # it begins wholly dry
    water = run_water(rain[None, :], et[None, :], BOOK, begins)[0, :, 0]
    lost = 100 * (BOOK.drained - water)
    assert lost == pytest.approx(theirs["De"].to_numpy(float), abs=1e-4)
    assert 0 < np.mean(lost < 1) < 1
    assert (np.isclose(lost, 18, atol=0.5)).sum() > 30


# By pyet 1.5.0, run once on 2026-11-26: radiation above the air in MJ/(m2 day), and Hargreaves' evapotranspiration in mm a day,
# for which it takes the heat of evaporation at the day's temperature where FAO-56 takes 2.45 MJ/kg.
DAYS = (15, 100, 185, 274, 319)
WARM, COOL = np.array([-4.0, 14.5, 31.2, 19.8, 6.3]), np.array([-15.0, 1.2, 16.4, 5.1, -3.9])
OF_PYET = {
    46.9: ([10.7674, 31.2799, 41.4358, 22.4533, 12.0531], [0.2702, 2.711, 6.2385, 2.4233, 0.6734]),
    -33.0: ([43.2982, 26.9608, 17.0748, 33.8937, 42.0584], [1.0864, 2.3366, 2.5708, 3.6581, 2.3497]),
}


@pytest.mark.parametrize("place", OF_PYET)
def test_reference_evaporation_against_a_library(place):
    from rigcalc.equations import weather as book

    days, (sun, theirs) = np.array(DAYS), OF_PYET[place]
    low = book.declination.bare(days)
    angle = book.sunset_angle.bare(np.radians(place), low)
    assert book.sun_above.bare(np.radians(place), low, angle, book.sun_distance.bare(days)) == pytest.approx(sun, rel=1e-3)
    heat = 2.501 - 0.002361 * (WARM + COOL) / 2
    assert reference_of(days, place, WARM, COOL) * 2.45 / heat == pytest.approx(np.array(theirs), rel=0.006)


def test_no_day_evaporates_less_than_nothing_and_no_sun_is_none():
    assert reference_of(np.array([15]), 60.0, np.array([-30.0]), np.array([-40.0])) == 0
    assert reference_of(np.array([355]), 70.0, np.array([5.0]), np.array([0.0])) == 0
    assert reference_of(np.array([172]), 70.0, np.array([15.0]), np.array([5.0])) > 2


def test_water_is_neither_made_nor_lost():
    """What fell is in the ground, went up or went down; here nothing goes up, and little enough falls that nothing leaves."""
    rain = np.zeros((1, 60))
    rain[0, 3], rain[0, 4] = 12.0, 6.0
    water = run_water(rain, np.zeros((1, 60)), LOAM, 0.3)
    total = (water * LOAM.mm).sum(axis=2)[0]
    assert total[-1] - total[0] == pytest.approx(18.0)
    assert total[2] == pytest.approx(total[0])


def test_soaked_ground_drains_to_field_capacity_and_no_further():
    """A soaking of 300 mm: full at first, then down to field capacity, sand much sooner than loam."""
    rain = np.zeros((1, 40))
    rain[0, 0] = 300.0
    water = run_water(rain, np.zeros((1, 40)), LOAM, 1.0)[0]
    assert water.max() <= LOAM.full + 1e-12
    assert water[0, 0] > LOAM.drained
    assert water[-1] == pytest.approx(LOAM.drained, abs=0.002)
    assert (water >= LOAM.drained - 1e-12).all()
    sand = soil_of(water_limits(replaced(demo_rig(), {"ground.texture": "sand"})), "sand", 0.40)
    soon = run_water(rain, np.zeros((1, 40)), sand, 1.0)[0]
    assert (soon[3] - sand.drained).sum() < 0.3 * (water[3] - LOAM.drained).sum()


def test_a_twentieth_of_what_is_too_much_is_left_when_it_counts_as_drained():
    """Loam is drained in 150 h."""
    assert (1 - LOAM.drains) ** (150 / 24) == pytest.approx(0.05, rel=0.01)


def test_only_the_top_dries_and_ever_more_slowly():
    water = run_water(np.zeros((1, 40)), np.full((1, 40), 3.0), LOAM, 1.0)[0]
    assert water[:, 1:] == pytest.approx(LOAM.drained)
    lost = -np.diff(water[:, 0]) * 100
    assert lost[0] == pytest.approx(3.6)  # 1.2 times the reference
    assert (np.diff(lost) <= 1e-12).all()
    assert 0 < lost[-1] < 0.01 * lost[0]
    assert (LOAM.drained - water[-1, 0]) * 100 == pytest.approx(LOAM.evaporable, rel=0.01)


def test_layers_reach_down_to_the_depth():
    assert sum(LOAM.layers) == pytest.approx(0.40)
    assert LOAM.layers[0] == 0.1
    limits = water_limits(demo_rig())
    assert soil_of(limits, "loam", 0.05).layers == (0.1,)
    assert [len(soil_of(limits, "loam", depth).layers) for depth in (0.1, 0.14, 0.16, 0.34, 0.36)] == [1, 1, 2, 3, 4]


def test_the_printed_range_holds_what_is_worked_out_of_the_rigs_soil():
    """TEW of the book's table beside ours: within a fifth of its span's ends for the classes whose water it prints."""
    from rigcalc.core.tables import table

    for row in table("drying_by_texture"):
        texture = row["texture"]
        made = soil_of(water_limits(replaced(demo_rig(), {"ground.texture": texture})), texture, 0.1)
        assert made.readily < made.evaporable, texture
        if row["sure"] == "from memory" and texture not in ("sand", "silt"):
            assert 0.7 * row["tew_low"] < made.evaporable < 1.4 * row["tew_high"], texture


def test_what_evaporates_readily_never_is_all_of_it():
    """Ground that holds (0.078 - 0.0325) times 100 mm for the sun, of a class that gives 10 mm readily."""
    poor = dataclasses.replace(water_limits(demo_rig()), wilting=0.05, drained=0.06, density=1.3)
    assert soil_of(poor, "clay", 0.1).readily == pytest.approx(0.9 * 4.55)


def test_frost_by_hand():
    """Nothing at 0 to -4, frozen once more than ten degree-days are gathered, thawed as they are given back."""
    mean = np.array([[5.0, -4, -4, -4, -4, 3, 3, 3, 5, -12]])
    assert frozen_days(mean)[0].tolist() == [False, False, False, True, True, True, False, False, False, True]
