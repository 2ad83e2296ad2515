"""Area by a plane through the field: against closed forms on the ellipsoid, and against pyproj's geodesic."""

import numpy as np
import pyproj
import pytest

from rigcalc.models.land.boundary import WIDEST, Rings, looked_over
from rigcalc.models.land.plane import AXIS, FLATTENING, Plane, apart, on_ellipsoid

GEODESIC = pyproj.Geod(ellps="WGS84")
ECCENTRICITY = np.sqrt(FLATTENING * (2 - FLATTENING))


def belt(latitude):
    """Area of the ellipsoid from the equator up to a latitude, for a radian of longitude, m² (closed form)."""
    e, s = ECCENTRICITY, np.sin(np.deg2rad(latitude))
    return AXIS**2 * (1 - e**2) / 2 * (s / (1 - (e * s) ** 2) + np.arctanh(e * s) / e)


def area_of(lon, lat):
    """Area in m² as a boundary has it."""
    ring = np.column_stack([lon, lat])
    return 1e4 * looked_over([Rings("one", "feature 1", (np.vstack([ring, ring[:1]]),))])[0].area


def ring_on(plane, metres):
    return plane.to_degrees(np.asarray(metres, float))


def test_the_ellipsoid_is_the_published_one():
    """Half of the ellipsoid's surface, 510,065,621.7 km² in all (WGS 84; from memory)."""
    assert 4 * np.pi * belt(90) / 1e6 == pytest.approx(510_065_621.7, rel=1e-9)
    assert on_ellipsoid(0, 90)[2] == pytest.approx(6_356_752.3142, abs=1e-3)  # polar semi-axis, from memory


@pytest.mark.parametrize("latitude", [-60.0, 0.0, 33.0, 47.0, 71.0])
def test_a_patch_between_parallels_and_meridians(latitude):
    """Closed form of the belt; the sides along parallels are cut fine enough to follow them."""
    wide, high = 0.03, 0.02
    along = np.linspace(10, 10 + wide, 60)
    lon = np.concatenate([along, along[::-1]])
    lat = np.concatenate([np.full(60, latitude), np.full(60, latitude + high)])
    assert area_of(lon, lat) == pytest.approx(np.deg2rad(wide) * (belt(latitude + high) - belt(latitude)), rel=1e-6)


@pytest.mark.parametrize("latitude", [89.99, -89.95])
def test_a_cap_round_the_pole(latitude):
    lon = np.linspace(-180, 180, 721)[:-1]
    cap = 2 * np.pi * (belt(90) - belt(abs(latitude)))
    chord = np.sinc(2 / 720)  # a polygon of 720 corners in a circle
    assert area_of(lon, np.full(lon.size, latitude)) == pytest.approx(cap * chord, rel=2e-6)


@pytest.mark.parametrize("latitude", [0, 33, -47, 65, 85])
@pytest.mark.parametrize("size", [200, 2_000, 14_000])
def test_the_plane_is_as_good_as_the_geodesic(latitude, size):
    """Odd shapes, up to the largest that is let in; within 3e-6, where a thousandth would do."""
    rng = np.random.default_rng(size + latitude)
    angle = np.sort(rng.uniform(0, 2 * np.pi, 12))
    shape = np.column_stack([np.cos(angle), np.sin(angle)]) * rng.uniform(0.4, 0.5, (12, 1)) * size
    lon, lat = ring_on(Plane(20.0, float(latitude)), shape)
    geodesic, _ = GEODESIC.polygon_area_perimeter(lon, lat)
    assert area_of(lon, lat) == pytest.approx(abs(geodesic), rel=3e-6)
    assert size < WIDEST


def test_lengths_are_those_of_the_geodesic_and_degrees_come_back():
    plane, rng = Plane(-121.0, -47.0), np.random.default_rng(0)
    metres = rng.uniform(-3000, 3000, (200, 2))
    lon, lat = plane.to_degrees(metres)
    assert np.abs(plane.to_metres(lon, lat) - metres).max() < 1e-6
    *_, far = GEODESIC.inv(lon[:-1], lat[:-1], lon[1:], lat[1:])
    assert np.linalg.norm(np.diff(metres, axis=0), axis=1) == pytest.approx(far, rel=3e-7)
    assert apart(on_ellipsoid(lon[:-1], lat[:-1]), on_ellipsoid(lon[1:], lat[1:])) * 1000 == pytest.approx(far, rel=1e-6)


def test_a_heading_is_the_geodesic_bearing():
    plane = Plane(-121.0, 52.0)
    lon, lat = plane.to_degrees(np.array([[0.0, 0.0], [500.0, 866.0254]]))  # 30° from north
    bearing, *_ = GEODESIC.inv(lon[0], lat[0], lon[1], lat[1])
    assert bearing == pytest.approx(30, abs=0.01)


def test_across_the_180th_meridian():
    here = area_of([10.0, 10.01, 10.01, 10.0], [5.0, 5.0, 5.01, 5.01])
    there = area_of([179.995, -179.995, -179.995, 179.995], [5.0, 5.0, 5.01, 5.01])
    assert there == pytest.approx(here, rel=1e-9)


def test_holes_are_taken_out_whichever_way_round_rings_run():
    outer = np.array([[0, 0], [0.02, 0], [0.02, 0.01], [0, 0.01], [0, 0]])
    hole = np.array([[0.005, 0.002], [0.01, 0.002], [0.01, 0.006], [0.005, 0.006], [0.005, 0.002]])
    whole = belt(0.01) * np.deg2rad(0.02)
    left = whole - (belt(0.006) - belt(0.002)) * np.deg2rad(0.005)
    for rings in ((outer, hole), (outer[::-1], hole), (outer, hole[::-1]), (outer[::-1], hole[::-1])):
        made = looked_over([Rings("one", "feature 1", rings)])[0]
        assert 1e4 * made.area == pytest.approx(left, rel=1e-6)
        assert made.polygon.exterior.is_ccw
