"""Zones of a field: areas, shares that are wheeled, draft, what to hold, hours and fuel; what can't be used, all at once."""

import math

import numpy as np
import pytest
from known_rigs import known_rig

from rigcalc.core.errors import InputError
from rigcalc.models import replaced, size
from rigcalc.models.ground import ground
from rigcalc.models.machine.draft_force import covered_share
from rigcalc.models.machine.limits import caps, shares, worst
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare
from rigcalc.words import in_words
from rigcalc.words.ground.zones import zone_lines
from rigcalc.words.numbers import percent

FIELD = "800 m by 400 m"
COMBINE = "combine: 9 m apart, 2 tyres of 750 mm"
CART = "cart: lanes 36 m apart, 2 tyres of 1 m"


def found(*traffic, field=FIELD, headland="20 m", **changes):
    return ground(replaced(known_rig(), changes), field=field, headland=headland, traffic=traffic).zones


def zone(parted, name):
    return next(each for each in parted.each if each.name == name)


def test_areas_add_up_to_the_field():
    for traffic in ((), (COMBINE,), (CART,), (COMBINE, CART)):
        assert sum(each.area for each in found(*traffic).each) == pytest.approx(32)
    assert zone(found(), "headland").area == pytest.approx(2 * 20 * 400 / 1e4)
    assert [each.name for each in found(COMBINE, CART).each] == ["headland", "lanes", "rest"]


def test_without_traffic_the_whole_field_costs_what_the_answer_says():
    rig = known_rig()
    point = size(rig).point.bare
    parted = found()
    assert [each.hold for each in parted.each] == ["as it is"] * 2
    assert [each.rise for each in parted.each] == [(1, 1, 1)] * 2
    assert parted.hours == pytest.approx(32 / float(point.field_capacity))
    assert parted.fuel == pytest.approx(parted.hours * float(point.mean_fuel_rate))


def test_the_share_wheeled_is_geometry():
    rest = zone(found(COMBINE), "rest")
    assert rest.wheeled == pytest.approx(1.5 / 9)
    assert rest.times == pytest.approx(1.5 / 9)
    both = zone(found(COMBINE, "sprayer: 36 m apart, 2 tyres of 400 mm"), "rest")
    assert both.wheeled == pytest.approx(1 - (1 - 1.5 / 9) * (1 - 0.8 / 36))
    ends = zone(found(COMBINE), "headland")
    assert ends.times == pytest.approx(1.5 / 9 * (2 + 9 / 20))
    assert rest.wheeled < ends.wheeled < ends.times


def test_the_share_wheeled_on_a_headland_is_that_of_ruts_thrown_at_random():
    """Not by the formula: ruts of 1.5 m in total, laid over a strip so often, met at points of the strip."""
    rng = np.random.default_rng(4)
    ends = zone(found(COMBINE), "headland")
    count, strip = 2000, 400.0
    wide = ends.times * strip / count
    starts = rng.uniform(0, strip, count)
    places = rng.uniform(0, strip, 4000)
    hit = ((places[:, None] - starts) % strip < wide).any(axis=1).mean()
    assert ends.wheeled == pytest.approx(hit, abs=0.03)


def test_lanes_lie_under_a_pass_of_the_tool_each():
    rig = known_rig()
    across = rig.implement.tools * rig.implement.spacing.to("m")
    lanes, rest = (zone(found(CART), name) for name in ("lanes", "rest"))
    assert lanes.area / (lanes.area + rest.area) == pytest.approx(across / 36)
    assert rest.wheeled == 0
    assert lanes.wheeled == pytest.approx(2 / across)
    assert lanes.rise[0] < lanes.rise[1] < lanes.rise[2]


def test_machines_all_over_drive_in_the_lanes_too_and_two_carts_count_in_the_mean():
    across = known_rig().implement.tools * known_rig().implement.spacing.to("m")
    lanes = zone(found(COMBINE, CART), "lanes")
    assert lanes.wheeled == pytest.approx(1 - (1 - 1.5 / 9) * (1 - 2 / across))
    assert lanes.times == pytest.approx(1.5 / 9 + 2 / across)
    two = zone(found(CART, "sprayer: lanes 36 m apart, 2 tyres of 0.5 m"), "lanes")
    assert two.wheeled == pytest.approx(1.5 / across)


@pytest.mark.parametrize(("passes", "headland"), [(2, 2.0), (3, 2.1), (3, 3.0)])
def test_a_headland_takes_whole_passes(passes, headland):
    across = known_rig().implement.tools * known_rig().implement.spacing.to("m")
    assert found(headland=f"{headland * across:.12f} m").passes == passes


def test_more_wheels_more_draft_more_fuel():
    one, two = found(COMBINE), found(COMBINE, "wagon: 9 m apart, 4 tyres of 600 mm")
    for name in ("headland", "rest"):
        assert zone(two, name).rise[1] > zone(one, name).rise[1] > 1
    assert two.fuel > one.fuel > found().fuel
    assert zone(two, "headland").rise[2] < 2.4, "no more than all tines behind wheels at the most"


def used(b, limits, **changes):
    at = b.at(**changes)
    return float(worst(shares(at, solve(at), limits))[0])


def test_where_a_limit_is_passed_the_speed_gives_as_far_as_it_must():
    rig = known_rig()
    b = bare(rig)
    limits = caps(rig, b)
    fastest = max(speed for speed in np.arange(4, 16, 0.1) if used(b, limits, speed=speed) <= 1)
    parted = found(COMBINE, **{"work.speed": f"{fastest:.1f} km/h"})
    held = zone(parted, "headland")
    assert (held.hold, held.depth) == ("speed", pytest.approx(float(b.depth)))
    own = float(b.covered_width) / float(b.tools * b.spacing)
    wheels = {"covered_width": (1 - (1 - own) * (1 - held.wheeled)) * float(b.tools * b.spacing)}
    assert used(b, limits, speed=held.speed, **wheels) <= 1 < used(b, limits, speed=1.01 * held.speed, **wheels)
    assert held.speed < zone(parted, "rest").speed <= fastest
    assert held.hours / held.area > zone(parted, "rest").hours / zone(parted, "rest").area


def test_where_no_speed_is_slow_enough_the_depth_gives_and_then_nothing_does():
    weak = {"tractor.rated_power": "40 hp", "tractor.maximum_power": None}
    assert {each.hold for each in found(**weak).each} == {"depth"}
    held = zone(found(**weak), "rest")
    assert held.speed == 3
    assert 8 < held.depth < float(bare(known_rig()).depth)
    weak["tractor.rated_power"] = "10 hp"
    parted = found(**weak)
    assert {each.hold for each in parted.each} == {"no"}
    assert math.isnan(parted.hours)
    words = in_words(ground(replaced(known_rig(), weak), field=FIELD), "us")
    assert "not workable" in words.zones[1]
    assert words.zones[-1][-1] == "-"


@pytest.mark.parametrize(
    ("given", "where"),
    [
        ({"field": None, "traffic": (COMBINE,)}, ["field"]),
        ({"field": "800 by 400", "traffic": ("x", "a: 0 m apart, 2 tyres of 1 m")}, ["field", "traffic 1", "traffic 2, apart"]),
        ({"headland": "400 m"}, ["headland"]),
        ({"headland": "2"}, ["headland"]),
        ({"traffic": ("wide: 2 m apart, 3 tyres of 1 m",)}, ["traffic 1"]),
        ({"traffic": "combine"}, ["traffic"]),
        ({"traffic": (COMBINE,) * 21}, ["traffic"]),
        ({"field": "1e9 m by 3 m", "headland": "-1 m"}, ["field", "headland"]),
    ],
)
def test_what_cannot_be_used_is_named_all_at_once(given, where):
    with pytest.raises(InputError) as refused:
        ground(known_rig(), **{"field": FIELD, **given})
    assert {fault.where for fault in refused.value.faults} >= set(where)


def test_faults_of_the_field_come_with_those_of_the_rest():
    with pytest.raises(InputError) as refused:
        ground(known_rig(), ["8 in"], field="x", cover="90 percent", passes=["zz"], traffic=["y"])
    assert {fault.where for fault in refused.value.faults} == {"flag 1", "field", "traffic 1", "pass 1"}


def test_the_table_says_each_zone_and_the_whole():
    words = in_words(ground(known_rig(), field=FIELD, traffic=[COMBINE, CART]), "si")
    assert [row[0] for row in words.zones] == ["", "headland", "lanes", "rest", "whole"]
    assert words.zones[-1][1] == "32 ha"
    assert "2 passes of the tool" in words.zone_lines[0]
    assert in_words(ground(known_rig()), "us").zones == ()


def test_how_often_wheels_run_over_a_place_and_what_common_lanes_would_leave():
    """Two machines beside the rig: a third and a tenth of the width; shares by hand, and by drawing places."""
    rig = known_rig()
    b = bare(rig)
    across, mine = float(b.tools * b.spacing), float(covered_share(b))
    parted = found("combine: 9 m apart, 4 tyres of 0.75 m", "cart: 12 m apart, 2 tyres of 0.6 m")
    rng = np.random.default_rng(18)
    drawn = sum((rng.random(200_000) < share).astype(int) for share in (1 / 3, 0.1, mine))
    assert parted.often == pytest.approx([np.mean(drawn == n) for n in range(3)] + [np.mean(drawn > 2)], abs=0.005)
    assert parted.lanes.now == pytest.approx(1 - parted.often[0])
    assert parted.lanes.apart == pytest.approx(min(across, 9.0))
    assert parted.lanes.wheeled == pytest.approx(max(3.0, mine * across) / min(across, 9.0))
    (said,) = [line for line in zone_lines(parted, "si") if "(controlled traffic)" in line]
    assert f"{percent(parted.lanes.wheeled)} would be wheeled instead of {percent(parted.lanes.now)}" in said
    wide = found("barrow: 1 m apart, 2 tyres of 0.5 m", CART)
    assert wide.lanes.wheeled == 1
    assert wide.often[0] == 0, "what keeps to lanes isn't on the rest"
    assert wide.often[1] == pytest.approx(1 - mine)
    assert "Common lanes would wheel no less" in " ".join(zone_lines(wide, "us"))
