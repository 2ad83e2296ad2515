"""Positions of a log: laid on a plane that touches the ground in their middle, and speed and heading worked out of them."""

from __future__ import annotations

from typing import Any

import numpy as np

# The ellipsoid of WGS 84: equatorial radius in m, and flattening (NGA standard 0036, from memory).
_RADIUS, _FLATTENING = 6_378_137.0, 1 / 298.257223563
_SQUARED = _FLATTENING * (2 - _FLATTENING)  # of the first eccentricity
# Our choices.
_WINDOW = 4.0  # s over which speed and heading are taken: what a position jitters counts less over a longer way
_LONGEST = 10.0  # s between two positions over which nothing is said
_SHORTEST = 0.5  # m: over a shorter way the jitter has the heading


def on_a_plane(latitude: Any, longitude: Any) -> tuple[Any, Any]:
    """Give metres east and north of the middle (the median) of positions.

    latitude, longitude: arrays in degrees, north and east positive, NaN where none is known. The plane touches the ellipsoid
    there; 5 km off, distances are wrong by less than a thousandth.
    """
    if not np.isfinite(latitude).any():
        return np.full(np.shape(latitude), np.nan), np.full(np.shape(latitude), np.nan)
    known = np.isfinite(latitude) & np.isfinite(longitude)
    middle, around = np.median(latitude[known]), longitude[known][0]
    away = (longitude - around + 180) % 360 - 180  # so that nothing breaks at the date line
    away = away - np.median(away[known])
    curve = 1 - _SQUARED * np.sin(np.radians(middle)) ** 2
    across, along = _RADIUS / np.sqrt(curve), _RADIUS * (1 - _SQUARED) / curve**1.5
    return np.radians(away) * across * np.cos(np.radians(middle)), np.radians(latitude - middle) * along


def speed_and_heading(time: Any, east: Any, north: Any) -> tuple[Any, Any]:
    """Give speed in km/h and heading in degrees from north by east, over 4 s around each time; NaN where they can't be told.

    time: array in s, rising; east, north: arrays in m. Over less than half a metre there is no heading.
    """
    known = np.isfinite(east) & np.isfinite(north)
    speed, heading = np.full(time.shape, np.nan), np.full(time.shape, np.nan)
    at, x, y = time[known], east[known], north[known]
    if at.size < 2:
        return speed, heading
    low = np.searchsorted(at, time - _WINDOW / 2, side="left")
    high = np.searchsorted(at, time + _WINDOW / 2, side="right") - 1
    # Where a window holds one position alone, its neighbours are taken.
    low, high = (
        np.where(low >= high, np.maximum(low - 1, 0), low),
        np.where(low >= high, np.minimum(high + 1, at.size - 1), high),
    )
    high = np.maximum(high, 0)
    seconds = at[high] - at[low]
    ways = x[high] - x[low], y[high] - y[low]
    told = (seconds > 0) & (seconds <= _LONGEST)
    way = np.hypot(*ways)
    speed[told] = 3.6 * way[told] / seconds[told]
    turned = told & (way >= _SHORTEST)
    heading[turned] = np.degrees(np.arctan2(ways[0][turned], ways[1][turned])) % 360
    return speed, heading
