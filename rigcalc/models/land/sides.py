"""A boundary's sides, and what is left inside of it at a distance."""

from __future__ import annotations

from typing import Any

import numpy as np

from rigcalc.models.land.boundary import geometry

MOST_SIDES = 12  # of a boundary whose directions are tried as they are
SPECK = 0.05  # m² that counts as nothing left
MITRE = 3.0  # how far a sharp corner of an inner edge may reach out, in distances from the boundary: our choice


def drawn_in(polygon: Any, within: float) -> list[Any]:
    """Give the polygons that are left `within` m inside a boundary; none where nothing is."""
    shapely = geometry()
    inner = shapely.buffer(polygon, -within, join_style="mitre", mitre_limit=MITRE) if within else polygon
    return [part for part in shapely.get_parts(inner) if part.area > SPECK]


def sides_of(polygon: Any, width: float) -> tuple[float, ...]:
    """Give the directions of a field's sides, degrees from north, the longest first; wiggles under a quarter width are none."""
    shapely = geometry()
    points = shapely.get_coordinates(polygon.exterior.simplify(width / 4))
    along = np.diff(points, axis=0)
    length = np.linalg.norm(along, axis=1)
    order = np.argsort(-length, kind="stable")[:MOST_SIDES]
    found = [round(float(np.rad2deg(np.arctan2(*along[at])) % 180), 4) % 180 for at in order]
    return tuple(dict.fromkeys(found))
