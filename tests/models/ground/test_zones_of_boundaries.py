"""Zones of fields that are no rectangle: areas and ways of wheels by hand and by points thrown, and what can't be used."""

import json

import numpy as np
import pytest
import shapely
from known_rigs import known_rig

from rigcalc.core.errors import InputError
from rigcalc.models import replaced
from rigcalc.models.ground import ground
from rigcalc.models.ground.parted import of_boundaries, rectangle
from rigcalc.models.land.boundary import Boundary
from rigcalc.models.land.files import DEMO, read_boundaries
from rigcalc.models.land.plane import Plane
from rigcalc.words import in_words

PLANE = Plane(-121.0, -47.0)
COMBINE = "combine: 9 m apart, 2 tyres of 750 mm"
RECTANGLE = ((0, 0), (800, 0), (800, 400), (0, 400))  # its long side runs east
L_SHAPE = ((0, 0), (600, 0), (600, 200), (300, 200), (300, 500), (0, 500))
STRIP = ((0, 600), (300, 600), (300, 630), (0, 630))


def boundary(*outer, holes=()):
    return Boundary("a field", PLANE, shapely.geometry.polygon.orient(shapely.Polygon(outer, holes)))


def geojson(*fields):
    def ring(points):
        lon, lat = PLANE.to_degrees(np.array([*points, points[0]], float))
        return [[float(x), float(y)] for x, y in zip(lon, lat, strict=True)]

    shapes = [{"type": "Feature", "properties": {}, "geometry": {"type": "Polygon", "coordinates": [ring(points)]}}
              for points in fields]  # fmt: skip
    return json.dumps({"type": "FeatureCollection", "features": shapes}).encode()


def test_a_rectangle_with_a_headland_all_round_by_hand():
    found = of_boundaries((boundary(*RECTANGLE),), 20.0, 5.0, None)
    assert found.headings == (90.0,)
    assert found.rest == pytest.approx(760 * 360 / 1e4)
    land = 800 * 400 - 760 * 360
    assert found.headland == pytest.approx(land / 1e4)
    # passes run out at both ends into 20 m by 360 m, and end on 360 m there
    assert found.through == pytest.approx(2 * 20 * 360 / land)
    assert found.ends == pytest.approx(2 * 360 / land)
    across = of_boundaries((boundary(*RECTANGLE),), 20.0, 5.0, 0.0)
    assert across.through == pytest.approx(2 * 20 * 760 / land)
    assert across.ends == pytest.approx(2 * 760 / land)
    turned = of_boundaries((boundary(*RECTANGLE),), 20.0, 5.0, 180.0)
    assert turned.ends == pytest.approx(across.ends)


def test_a_headland_at_both_ends_alone_is_what_a_rectangle_has():
    found = rectangle(800.0, 400.0, 20.0)
    assert (found.headland, found.rest, found.through) == (pytest.approx(1.6), pytest.approx(30.4), 1.0)
    assert found.ends == pytest.approx(2 * 400 / (2 * 20 * 400))


@pytest.mark.parametrize("heading", [0.0, 30.0, 137.0])
def test_how_far_passes_run_out_by_points_thrown_at_the_headland(heading):
    """Not by shapes: from a point of the headland, does a line along the heading meet the inside?"""
    field = boundary((0, 0), (700, 100), (500, 420), (-60, 300))
    found = of_boundaries((field,), 25.0, 5.0, heading)
    inner = field.polygon.buffer(-25.0, join_style="mitre")
    rng = np.random.default_rng(3)
    points = rng.uniform((-60, 0), (700, 420), (4000, 2))
    points = points[shapely.contains_xy(field.polygon, *points.T) & ~shapely.contains_xy(inner, *points.T)]
    along = np.array([np.sin(np.radians(heading)), np.cos(np.radians(heading))])
    ends = np.stack([points - 2000 * along, points + 2000 * along], axis=1)
    share = shapely.intersects(shapely.linestrings(ends), inner).mean()
    assert found.through == pytest.approx(share, abs=0.03)
    assert found.headland + found.rest == pytest.approx(field.area)


def test_an_island_and_a_corner_that_goes_in_have_ends_of_their_own():
    plain = of_boundaries((boundary(*L_SHAPE),), 10.0, 5.0, 90.0)
    island = boundary(*L_SHAPE, holes=[[(100, 100), (100, 150), (150, 150), (150, 100)]])
    holed = of_boundaries((island,), 10.0, 5.0, 90.0)
    before, after = (each.ends * each.headland * 1e4 for each in (plain, holed))
    assert before == pytest.approx(2 * 480)  # every pass ends twice, from 10 to 490 m north
    assert after - before == pytest.approx(2 * 70)  # and twice more at the island with its own headland
    assert holed.rest == pytest.approx(plain.rest - 70 * 70 / 1e4)


def test_the_answer_takes_a_file_of_fields_together():
    two = ground(known_rig(), boundary=geojson(RECTANGLE, L_SHAPE), headland="20 m", traffic=[COMBINE])
    assert sum(each.area for each in two.zones.each) == pytest.approx(32 + 21, rel=1e-5)
    headland, rest = (next(each for each in two.zones.each if each.name == name) for name in ("headland", "rest"))
    parted = two.zones.parted
    assert headland.times == pytest.approx(1.5 / 9 * (1 + parted.through) + 1.5 * parted.ends)
    assert (parted.fields, parted.small) == (2, 0)
    assert rest.wheeled == pytest.approx(1.5 / 9)
    assert rest.wheeled < headland.wheeled < headland.times
    assert "all round 2 fields" in in_words(two, "si").zone_lines[0]
    farm = ground(known_rig(), boundary=DEMO, heading="88 deg")
    assert sum(each.area for each in farm.zones.each) == pytest.approx(sum(each.area for each in read_boundaries(DEMO)))
    assert set(farm.zones.parted.headings) == {88.0}
    assert "88 deg from north" in in_words(farm, "us").zone_lines[0]


def test_a_boundary_goes_before_the_sides_in_the_rig_file_and_a_strip_is_headland_alone():
    rig = replaced(known_rig(), {"ground.field": "100 m by 100 m"})
    answer = ground(rig, boundary=geojson(RECTANGLE, STRIP), headland="20 m")
    assert answer.zones.parted.small == 1
    assert sum(each.area for each in answer.zones.each) == pytest.approx(32.9, rel=1e-5)
    assert "1 of 2 fields are headland alone" in " ".join(in_words(answer, "us").zone_lines)


def test_loads_go_along_the_headland_as_often_as_bins_ask_for():
    """By hand: 32 ha at 9 t/ha are 288 t, 24 trips of 12 t; 400 m each, ruts of 2 m, over 2 * 20 * 400 m2 of headland."""
    trips = "cart: trips of 12 t at 9 t/ha, 2 tyres of 1 m"
    answer = ground(known_rig(), field="800 m by 400 m", headland="20 m", traffic=[trips])
    headland, rest = answer.zones.each
    assert headland.times == pytest.approx(24 * 400 * 2 / (2 * 20 * 400))
    assert (rest.times, rest.wheeled) == (0, 0)
    assert "24 loads of 12,000 kg along the headland" in " ".join(in_words(answer, "si").zone_lines)
    (cart,) = answer.zones.loaded
    assert cart.trips(32e4) == pytest.approx(24)
    both = ground(known_rig(), field="800 m by 400 m", headland="20 m", traffic=[trips, COMBINE]).zones.each[0]
    alone = ground(known_rig(), field="800 m by 400 m", headland="20 m", traffic=[COMBINE]).zones.each[0]
    assert both.times == pytest.approx(headland.times + alone.times)
    ring = ground(known_rig(), boundary=geojson(RECTANGLE), headland="20 m", traffic=[trips]).zones
    land = 800 * 400 - 760 * 360
    assert ring.each[0].times == pytest.approx(24 * 1200 * 2 / land, rel=1e-4)


@pytest.mark.parametrize(("size", "said"), [("9 t", "its bin holds 1.4 passes"), ("3 t", "full after 46 % of a pass")])
def test_a_bin_that_is_full_before_the_end_of_a_pass_is_said(size, said):
    """9 m of swath at 9 t/ha fill 8.1 kg a metre: 6.48 t on 800 m."""
    answer = ground(known_rig(), field="800 m by 400 m", traffic=[f"{COMBINE}, bin of {size} at 9 t/ha"])
    assert said in " ".join(in_words(answer, "si").zone_lines)
    assert answer.zones.each[-1].wheeled == pytest.approx(1.5 / 9)


@pytest.mark.parametrize("typed", [
    "cart: trips of 12 t, 2 tyres of 1 m", "cart: trips of 12 at 9 t/ha, 2 tyres of 1 m",
    "cart: trips of 12 t at 9 t, 2 tyres of 1 m",
    "cart: trips of 0 t at 9 t/ha, 2 tyres of 1 m", "c: 9 m apart, 2 tyres of 1 m, bin of 9 t", "cart: trips of 9 t at 9 t/ha",
])  # fmt: skip
def test_loads_that_cant_be_read_are_refused(typed):
    with pytest.raises(InputError, match="traffic 1"):
        ground(known_rig(), field="800 m by 400 m", traffic=[typed])


@pytest.mark.parametrize(
    ("given", "where"),
    [
        ({"boundary": geojson(RECTANGLE), "field": "800 m by 400 m"}, {"field"}),
        ({"boundary": geojson(RECTANGLE), "headland": "200 m"}, {"headland"}),
        ({"boundary": geojson(RECTANGLE), "heading": "88", "traffic": ["x"]}, {"heading", "traffic 1"}),
        ({"boundary": "nowhere.geojson", "headland": "2"}, {"BOUNDARY", "headland"}),
        ({"boundary": 7}, {"BOUNDARY"}),
        ({"boundary": ()}, {"BOUNDARY"}),
        ({"boundary": b"no json"}, {"BOUNDARY"}),
        ({"field": "800 m by 400 m", "heading": 88}, {"heading"}),
        ({"heading": 400, "boundary": geojson(RECTANGLE)}, {"heading"}),
    ],
)
def test_what_cant_be_used_is_refused(given, where):
    with pytest.raises(InputError) as refused:
        ground(known_rig(), **given)
    assert {fault.where for fault in refused.value.faults} >= where
