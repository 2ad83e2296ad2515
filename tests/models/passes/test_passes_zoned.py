"""Zones of the ground on fields as they are: areas of the field, factors of the ground, lanes where they lie."""

import json
from xml.etree import ElementTree

import numpy as np
import pytest

from rigcalc import field, ground, in_words
from rigcalc.core.errors import InputError
from rigcalc.models import demo_rig, replaced
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.passes.zoned import HEADLAND, LANES, REST
from rigcalc.views.json.passes import field_data
from rigcalc.views.passes.picture import field_picture

SQUARE = [[-120.0, -47.0], [-119.99, -47.0], [-119.99, -46.993], [-120.0, -46.993], [-120.0, -47.0]]
BYTES = json.dumps({"type": "Polygon", "coordinates": [SQUARE]}).encode()
COMBINE, CART = "combine: 9 m apart, 2 tyres of 750 mm", "cart: lanes 36 m apart, 2 tyres of 1 m"


def laid(*traffic, name="articulated", **changes):
    rig = replaced(demo_rig(name), {"ground.traffic": "; ".join(traffic) or None, **changes})
    return field(rig, BYTES, rounds=2, heading="90 deg", overlap="20 cm")


def zone(found, name):
    return next(each for each in found.zoned.each if each.name == name)


def test_nothing_is_said_where_nobody_says_what_else_drove_there():
    found = laid()
    assert found.zoned is None
    assert in_words(found, "us").zones == ()
    assert field_data(in_words(found, "us"))["zones"] is None
    assert "lanes" not in field_picture(in_words(found, "us"))


def test_areas_are_those_of_the_field():
    found = laid(COMBINE, CART)
    one = found.fields[0]
    assert [each.name for each in found.zoned.each] == [HEADLAND, LANES, REST]
    assert sum(each.area for each in found.zoned.each) == pytest.approx(found.area)
    assert zone(found, HEADLAND).area == pytest.approx(one.boundary.area - one.inside.area)
    share = zone(found, LANES).area / one.inside.area
    assert share == pytest.approx(found.driving.width / 36, rel=1e-9)
    assert one.laid.count * share == pytest.approx(found.zoned.in_lane[0].sum(), abs=1.5)


def test_factors_are_the_grounds_own():
    found = laid(COMBINE, CART)
    land = 2 * found.driving.spacing
    asked = ground(found.rig, boundary=BYTES, heading="90 deg", headland=f"{land:.6f} m", traffic=[COMBINE, CART]).zones
    for each in asked.each:
        mine = zone(found, each.name)
        assert mine.rise == pytest.approx(each.rise, rel=1e-4)
        assert mine.wheeled == pytest.approx(each.wheeled, rel=1e-4)
        assert (mine.hold, mine.depth) == (each.hold, pytest.approx(each.depth))
    assert zone(found, HEADLAND).rise[1] > zone(found, REST).rise[1] > 1


def test_loads_hauled_along_the_headland_count_on_this_field():
    haul = "cart: trips of 26000 lb at 9000 lb/acre, 2 tyres of 42 in"
    with_it, without = laid(COMBINE, haul), laid(COMBINE)
    assert zone(with_it, HEADLAND).wheeled > zone(without, HEADLAND).wheeled
    assert zone(with_it, REST).rise == zone(without, REST).rise


def test_lanes_lie_where_they_are_laid():
    found = laid(CART)
    lines, lane = found.fields[0].laid.lines, found.zoned.in_lane[0]
    north = lines[:, :, 1].mean(axis=1)  # the heading is east: passes lie north of each other
    place = north - north.min() + found.driving.width / 2
    wanted = 18 + 36 * np.arange(int(place.max() // 36) + 1)
    for each in wanted[wanted < place.max()]:
        assert abs(place[lane] - each).min() <= found.driving.spacing / 2 + 1e-6
    assert all(abs(wanted - each).min() <= found.driving.spacing / 2 + 1e-6 for each in place[lane])


def test_hours_more_are_those_of_the_slower_speed():
    found = laid(COMBINE, CART, **{"work.speed": "6.5 mph"})
    slow = [each for each in found.zoned.each if each.hold == "speed"]
    assert slow
    for each in slow:
        at_speed, held = (each.area / (found.driving.width * speed / 10) for speed in (3.6 * found.driving.speed, each.speed))
        assert each.more == pytest.approx(held - at_speed)
    assert found.zoned.more == pytest.approx(sum(each.more for each in found.zoned.each))
    assert "more" in " ".join(in_words(found, "us").said.rest)


def test_a_zone_that_cannot_be_worked_at_this_depth_is_no_go():
    work = {"work.depth": "15 in", "work.speed": "3 mph", "implement.tools": 19}
    soft = laid("everybody: 3 m apart, 2 tyres of 1.2 m", **work)
    assert HEADLAND in [each.name for each in soft.zoned.failing]
    assert soft.judgement is Judgement.TRY
    assert laid(**work).judgement is Judgement.GO
    text = " ".join(in_words(soft, "us").said.rest)
    assert "Headland: slip band gives out at this depth at any speed" in text


def test_zones_that_take_a_tenth_more_hours_are_no_go():
    much = laid(
        "everybody: 3 m apart, 2 tyres of 1.2 m", **{"work.depth": "15 in", "work.speed": "3 mph", "implement.tools": 17}
    )
    little = laid(COMBINE, CART)
    assert much.zoned.more > 0.1 * much.hours
    assert much.judgement is Judgement.TRY
    assert 0 < little.zoned.more < 0.1 * little.hours
    assert little.judgement is Judgement.GO


def test_traffic_that_cannot_be_is_a_fault():
    with pytest.raises(InputError, match=r"(?s)ground\.traffic 1.*ground\.traffic 2"):
        laid("combine", "cart: 3 ft apart, 2 tyres of 9 ft")


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_picture_its_legend_and_the_json_have_them(units):
    words = in_words(laid(COMBINE, CART), units)
    tree = ElementTree.fromstring(field_picture(words, 760))
    marked = {each.get("class"): each for each in tree.iter() if each.get("class")}
    assert marked["lanes"].get("d").count("M") == words.answer.zoned.in_lane[0].sum()
    keys = ["".join(each.itertext()) for each in tree.iter() if each.get("class") == "key"]
    assert len(keys) == 3
    assert ("118 ft" if units == "us" else "36 m") in keys[1]
    for key, each in zip(keys, words.answer.zoned.each, strict=True):
        assert f"draft {each.rise[1]:.3g} times" in key
    data = field_data(words)["zones"]
    assert [each["zone"] for each in data] == [HEADLAND, LANES, REST]
    assert data[0]["draft"]["likely"]["value"] == pytest.approx(words.answer.zoned.each[0].rise[1])
    assert len(words.zones) == 3


def test_headlands_alone_have_no_lanes():
    words = in_words(laid(COMBINE), "us")
    assert [each.name for each in words.answer.zoned.each] == [HEADLAND, REST]
    assert 'class="lanes"' not in field_picture(words)
    assert "Where lanes begin" not in " ".join(words.notes)
    assert "The headland that others wheeled pulls harder" in " ".join(words.said.rest)
