"""A plane that touches the ellipsoid in the middle of a field: longitude and latitude to metres east and north, and back.

The plane is looked at straight from above (an orthographic picture). At a distance d from where it touches, lengths outward
come out short by d²/(2 R²): 1e-6 at 10 km. docs/decisions/0027 says why no library of projections is asked.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

# WGS 84, the datum that RFC 7946 asks for (cl. 4); both numbers define it (NIMA TR8350.2, table 3.1; from memory).
AXIS = 6_378_137.0  # m
FLATTENING = 1 / 298.257223563
_SQUARED = FLATTENING * (2 - FLATTENING)  # first eccentricity, squared


def on_ellipsoid(lon: Any, lat: Any) -> Any:
    """Give earth-centred positions, m, of shape (..., 3), of degrees of longitude and latitude."""
    lon, lat = np.deg2rad(lon), np.deg2rad(lat)
    across = AXIS / np.sqrt(1 - _SQUARED * np.sin(lat) ** 2)
    return np.stack(
        [across * np.cos(lat) * np.cos(lon), across * np.cos(lat) * np.sin(lon), across * (1 - _SQUARED) * np.sin(lat)], axis=-1
    )


@dataclass(frozen=True)
class Plane:
    """The plane that touches the ellipsoid at a longitude and a latitude, in degrees."""

    lon: float
    lat: float

    @classmethod
    def under(cls, lon: Any, lat: Any) -> Plane:
        """Give the plane under the middle of some positions; they may lie on both sides of the 180th meridian."""
        x, y, z = on_ellipsoid(lon, lat).mean(axis=0)
        return cls(float(np.rad2deg(np.arctan2(y, x))), float(np.rad2deg(np.arctan2(z, (1 - _SQUARED) * np.hypot(x, y)))))

    @cached_property
    def _axes(self) -> Any:
        """East, north and up, as rows."""
        lon, lat = np.deg2rad(self.lon), np.deg2rad(self.lat)
        return np.array([
            [-np.sin(lon), np.cos(lon), 0.0],
            [-np.sin(lat) * np.cos(lon), -np.sin(lat) * np.sin(lon), np.cos(lat)],
            [np.cos(lat) * np.cos(lon), np.cos(lat) * np.sin(lon), np.sin(lat)],
        ])  # fmt: skip

    @cached_property
    def _origin(self) -> Any:
        return on_ellipsoid(self.lon, self.lat)

    def to_metres(self, lon: Any, lat: Any) -> Any:
        """Give metres east and north, of shape (..., 2)."""
        return ((on_ellipsoid(lon, lat) - self._origin) @ self._axes.T)[..., :2]

    def to_degrees(self, metres: Any) -> tuple[Any, Any]:
        """Give longitude and latitude, in degrees, of metres east and north: of the place straight above or below them."""
        metres = np.asarray(metres, float)
        flat = self._origin + metres @ self._axes[:2]
        up, scale = self._axes[2], np.array([1, 1, 1 / (1 - _SQUARED)])
        # The height h from the plane to the ellipsoid solves a quadratic; the root near nothing is on this side of the earth.
        a, b, c = up @ (scale * up), (flat * scale) @ up, ((flat * scale) * flat).sum(axis=-1) - AXIS**2
        x, y, z = np.moveaxis(flat + (-c / (b + np.sqrt(b * b - a * c)))[..., None] * up, -1, 0)
        return np.rad2deg(np.arctan2(y, x)), np.rad2deg(np.arctan2(z, (1 - _SQUARED) * np.hypot(x, y)))


def apart(one: Any, other: Any) -> Any:
    """Give the straight distance, km, through the earth between positions (..., 3) in metres: short by 1e-4 at 300 km."""
    return np.linalg.norm(np.asarray(one) - np.asarray(other), axis=-1) / 1000
