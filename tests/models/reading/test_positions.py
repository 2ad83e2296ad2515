"""Positions laid on a plane: lengths of a degree as others print them, speed and heading of a way that is known."""

from __future__ import annotations

import numpy as np
import pytest

from rigcalc.models.reading.positions import on_a_plane, speed_and_heading


def degree(latitude: float) -> tuple[float, float]:
    """Give metres in a degree of latitude and of longitude there, as the plane has them."""
    small = 1e-3
    east, north = on_a_plane(np.array([latitude - small, latitude, latitude + small]), np.array([10 - small, 10, 10 + small]))
    return (north[2] - north[0]) / (2 * small), (east[2] - east[0]) / (2 * small)


@pytest.mark.parametrize(("latitude", "north", "east"), [
    (0.0, 110_574, 111_320),  # public tables print so, in m
    (48.0, 111_200, 74_630),  # a public chart of WGS 84 prints 111.2 and 74.63 km
    (90.0, 111_694, 0),
])  # fmt: skip
def test_a_degree_is_as_long_as_is_printed(latitude: float, north: float, east: float) -> None:
    assert degree(latitude) == (pytest.approx(north, rel=2e-4), pytest.approx(east, rel=2e-4, abs=1))


@pytest.mark.parametrize("latitude", [-60.0, 12.0, 35.0, 52.0])
def test_a_degree_of_latitude_follows_the_printed_series(latitude: float) -> None:
    """The series of NIMA, as public pages print it: 111132.92 - 559.82 cos 2p + 1.175 cos 4p - 0.0023 cos 6p."""
    p = np.radians(latitude)
    printed = 111_132.92 - 559.82 * np.cos(2 * p) + 1.175 * np.cos(4 * p) - 0.0023 * np.cos(6 * p)
    assert degree(latitude)[0] == pytest.approx(printed, abs=0.2)


def test_nothing_breaks_at_the_date_line_or_where_no_position_is_known() -> None:
    east, north = on_a_plane(np.array([-17.0, -17.0, np.nan, -17.0]), np.array([179.999, 180.0, np.nan, -179.999]))
    assert np.diff(east[[0, 1, 3]]) == pytest.approx([106.5, 106.5], rel=1e-3)
    assert np.isnan(east[2])
    assert np.isnan(north[2])
    assert np.isnan(on_a_plane(np.full(3, np.nan), np.full(3, np.nan))).all()


@pytest.mark.parametrize("heading", [0.0, 45.0, 200.0, 359.0])
@pytest.mark.parametrize("step", [0.2, 1.0, 5.0])
def test_speed_and_heading_of_a_straight_way(heading: float, step: float) -> None:
    time = np.arange(0, 60, step)
    way = 8.0 / 3.6 * time
    speed, found = speed_and_heading(time, way * np.sin(np.radians(heading)), way * np.cos(np.radians(heading)))
    assert speed == pytest.approx(np.full(time.size, 8.0))
    assert found == pytest.approx(np.full(time.size, heading))


def test_one_that_stands_has_no_heading_and_a_gap_has_neither() -> None:
    time = np.concatenate([np.arange(10.0), np.arange(30.0, 40.0)])
    east = np.where(time < 20, 0.02 * np.sin(time), 100.0)
    east[3] = np.nan
    speed, heading = speed_and_heading(time, east, np.zeros(20))
    assert np.nanmax(speed) < 0.1
    assert np.isnan(heading).all()
    alone = np.full(20, np.nan)
    assert np.isnan(speed_and_heading(time, alone, alone)[0]).all()
    far = np.full(20, np.nan)
    far[[0, 15]] = 0.0
    assert np.isnan(speed_and_heading(time, far, far)[0]).all(), "two positions far apart in time say nothing"
