"""Headland and cart lanes: the published band without a reading, a narrower one with; what is advised holds there."""

from __future__ import annotations

import re
from typing import Any

import numpy as np
import pytest

from rigcalc.core.errors import InputError
from rigcalc.models import size
from rigcalc.models.machine.field import in_field, told_of
from rigcalc.models.machine.judgement import GO_FROM
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.reading.zones import Zone, zones
from rigcalc.models.rig.file import demo_rig, replaced
from rigcalc.models.rig.rig import Rig
from rigcalc.views.json.reading import zones_data
from rigcalc.words.reading.zones import zone_lines

BASE = replaced(demo_rig("articulated"), {"work.depth": "9 in"})
READ = {"date": "2026-11-04", "depth": "9 in", "depth_behind": 3, "speed": "5 mph"}


def load_at(factor: float, depth: float = 22.86) -> str:
    """Give the load of rated power where the ground pulls `factor` times the table."""
    point = solve(in_field(BASE).at(depth=depth, speed=8.04672), draft_factor=factor)
    return f"{100 * float(point.engine_share):.6f} percent"


def read(factor: float, **changes: Any) -> dict[str, Any]:
    return READ | {"load": load_at(factor), "load_of": "rated"} | changes


def with_readings(*readings: dict[str, Any]) -> Rig:
    return replaced(BASE, {"reading": list(readings)})


def headland(rig: Rig) -> Zone:
    return next(each for each in zones(rig) if each.name == "headland")


def test_without_a_reading_the_factor_is_the_published_band() -> None:
    for each in zones(BASE):
        assert (each.factor.low, each.factor.high) == pytest.approx((1.3, 2.1), rel=0.01)
        assert each.readings == 0
        assert each.open_field == size(BASE).sure.chance_works
        assert each.chance < each.open_field - 0.1, "it pulls harder there"


def test_a_reading_of_the_headland_tells_its_factor_and_leaves_the_field_alone() -> None:
    field, both = with_readings(read(0.9)), with_readings(read(0.9), read(0.9 * 1.45, zone="headland"))
    told, with_both = told_of(field), told_of(both)
    assert told is not None
    assert with_both is not None
    assert np.array_equal(told.weighed.weights, with_both.weighed.weights), "the open field isn't the headland's"
    assert with_both.left_out == {1: "other_zone"}
    found, lane = headland(both), next(each for each in zones(both) if each.name == "cart lane")
    assert found.readings == 1
    assert found.factor.middle == pytest.approx(1.45, rel=0.07)
    assert found.factor.width < 0.85 * (2.1 / 1.3)
    assert (lane.factor.low, lane.factor.high) == pytest.approx((1.3, 2.1), rel=0.03)
    harder = headland(with_readings(read(0.9), read(0.9 * 1.8, zone="headland")))
    assert harder.factor.middle > found.factor.middle + 0.15
    assert harder.chance < found.chance


def test_more_readings_of_it_narrow_it_more_in_any_order() -> None:
    lands = [read(0.9 * 1.45, zone="headland", speed=speed) for speed in ("5 mph", "5.01 mph", "5.02 mph")]
    one, three = headland(with_readings(read(0.9), lands[0])), headland(with_readings(read(0.9), *lands))
    assert three.factor.width < one.factor.width
    other = headland(with_readings(*lands[::-1], read(0.9)))
    assert other.factor.middle == pytest.approx(three.factor.middle, rel=0.01)


def test_the_factor_agrees_with_draws_that_nothing_steers() -> None:
    """The field's draft by the table's own draws, log-normal factors, weights by hand; pull alone."""
    rig = with_readings(READ | {"pull": "60 kN", "zone": "headland", "speed": "5 mph"})
    found = headland(rig)
    b = in_field(BASE).at(depth=22.86, speed=8.04672)
    from rigcalc.models.machine.draws import draws, number
    from rigcalc.models.machine.scores import doubt

    drawn = draws(b.draft_range, number("cone_range"), 3, 200_000)
    random = np.random.default_rng(4)
    factor = np.exp(np.log(1.3 * 2.1) / 2 + np.log(2.1 / 1.3) / 2 / 1.2815516 * random.standard_normal(drawn.row.size))
    stretch = np.exp(np.hypot(doubt("spot"), 2 / np.sqrt(3) / 22.86) * random.standard_normal(drawn.row.size))
    pull = solve(b, draft_factor=factor * stretch, drawn=drawn, want=("drawbar_pull",)).drawbar_pull
    weights = np.nan_to_num(np.exp(-0.5 * (np.log(pull / 60) / doubt("pull")) ** 2))
    mean = float(weights @ factor / weights.sum())
    assert found.factor.middle == pytest.approx(mean, rel=0.03)


def test_what_is_advised_is_sure_enough_there_and_no_more_than_the_job() -> None:
    rig = with_readings(read(1.0), read(1.4, zone="headland"))
    found = headland(rig)
    assert not found.holds
    assert found.depth is not None
    assert found.speed is not None
    assert found.depth < 22.86
    assert found.speed < rig.work.speed.to("km/h")
    shallower = headland(replaced(rig, {"work.depth": f"{0.97 * found.depth} cm"}))
    assert shallower.chance > GO_FROM - 0.03
    slower = headland(replaced(rig, {"work.speed": f"{found.speed} km/h"}))
    assert slower.chance >= GO_FROM - 0.001


def test_readings_that_no_headland_gives_are_refused_by_number() -> None:
    heavy = READ | {"depth": "50 in", "slip": "10 percent", "zone": "headland", "made_with": {"tools": 60}}
    with pytest.raises(InputError, match=r"readings of the headland \(2\)"):
        zones(with_readings(read(0.9), heavy))


def test_words_say_what_to_do_and_where_the_factor_is_from() -> None:
    rig = with_readings(read(1.0), read(1.4, zone="headland"))
    lines = list(zone_lines(zones(rig), rig, "us"))
    assert "(1 reading there)" in lines[0]
    assert "raise to" in lines[2].lower()
    assert " or slow to " in lines[2]
    depth, speed = map(float, re.findall(r" to ([\d.]+) (?:in|mph)", lines[2]))
    zone = zones(rig)[0]
    assert zone.depth is not None
    assert zone.speed is not None
    assert 0 <= zone.depth / 2.54 - depth < 0.5, "never above what is sure enough"
    assert 0 <= zone.speed / 1.609344 - speed < 0.1
    assert "(no reading there)" in lines[3]
    assert "Tullberg" in lines[-1]
    easy = replaced(rig, {"work.depth": "4 in", "work.speed": "4 mph"})
    assert "Work there as in the open field." in list(zone_lines(zones(easy), easy, "si"))
    stuck = replaced(BASE, {"work.depth": "24 in", "work.speed": "9 mph", "implement.tools": 40})
    assert any(line.startswith("Nothing near this job is sure enough there") for line in zone_lines(zones(stuck), stuck, "si"))
    assert [each["name"] for each in zones_data(zones(rig))["zones"]] == ["headland", "cart lane"]


def test_what_is_advised_is_the_deepest_and_the_fastest_that_is_sure_enough() -> None:
    deep = replaced(BASE, {"work.depth": "12 in", "ground.grade": "0 deg"})
    found = headland(deep)
    assert not found.holds
    assert found.depth is not None
    at = headland(replaced(deep, {"work.depth": f"{found.depth:.3f} cm"}))
    deeper = headland(replaced(deep, {"work.depth": f"{found.depth + 1.5:.3f} cm"}))
    assert at.chance >= GO_FROM - 0.02
    assert deeper.chance < GO_FROM, "a little deeper it isn't sure enough"
