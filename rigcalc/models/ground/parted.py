"""A field parted into headland and the rest: a rectangle with its headland at both ends, or boundaries with one all round."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from pydantic_core import PydanticCustomError

from rigcalc.core.errors import Fault
from rigcalc.models.land.boundary import Boundary, geometry
from rigcalc.models.land.sides import drawn_in, sides_of
from rigcalc.models.rig.measure import Kind

_HEADING = Kind("deg", "88 deg", least=0, most=360)
_FAR = 1e6  # m: beyond every field


@dataclass(frozen=True)
class Parted:
    """Headland and rest in ha. through: share of the headland that passes run out into; ends: m of its width that passes end at
    for each m2 of it, on which everybody drives across to the next pass.

    hauled: m; area times the way in m that a load goes along the headland (out from a corner and back, in the mean) over the
    headland's area. length: of a pass over all, m; of the longest where there are several fields.

    fields: how many, 0 for a rectangle; small: those that are headland alone; headings: degrees clockwise from north along the
    passes, one a field.
    """

    headland: float
    rest: float
    through: float
    ends: float
    hauled: float
    length: float
    fields: int = 0
    small: int = 0
    headings: tuple[float, ...] = ()


def rectangle(length: float, width: float, deep: float) -> Parted:
    """Part a rectangle: sides and the headland's depth at both ends in m."""
    return Parted(2 * deep * width / 1e4, (length - 2 * deep) * width / 1e4, 1.0, 1 / deep,
                  length * width * width / (2 * deep * width), length)  # fmt: skip


def of_boundaries(found: tuple[Boundary, ...], deep: float, across: float, heading: float | None) -> Parted:
    """Part fields by their boundaries, together. deep: of the headland all round, across: width of the tool, m; heading: of all
    passes in degrees, along the longest side of each field where None."""
    shapely = geometry()
    area = rest = out = ends = hauled = longest = 0.0
    small, headings = 0, []
    for each in found:
        along = sides_of(each.polygon, across)[0] if heading is None else heading % 180
        headings.append(along)
        # turned so that passes run along y
        turned = _turned(each.polygon, math.radians(along))
        inner = drawn_in(turned, deep)
        area += turned.area
        hauled += turned.area * turned.exterior.length / 2  # a quarter of the way round, out and back
        longest = max(longest, turned.bounds[3] - turned.bounds[1])
        if not inner:
            small += 1
            continue
        left = shapely.MultiPolygon(inner)
        land = shapely.difference(turned, left)
        bands = [shapely.box(part.bounds[0], -_FAR, part.bounds[2], _FAR) for part in inner]
        rest += left.area
        out += shapely.intersection(land, shapely.union_all(bands)).area
        ends += sum(_across(ring) for part in inner for ring in (part.exterior, *part.interiors))
    land_area = area - rest
    shares = (out / land_area, ends / land_area, hauled / land_area)
    return Parted(land_area / 1e4, rest / 1e4, *shares, longest, len(found), small, tuple(headings))


def _turned(polygon: Any, angle: float) -> Any:
    """Give a polygon turned so that a heading points along y."""
    turn = np.array([[math.cos(angle), math.sin(angle)], [-math.sin(angle), math.cos(angle)]])
    return geometry().transform(polygon, lambda points: points @ turn)


def _across(ring: Any) -> float:
    """Give the width, m, that passes along y end at on a ring: each of its sides seen from along y."""
    return float(np.abs(np.diff(geometry().get_coordinates(ring)[:, 0])).sum())


def heading_given(given: Any, faults: list[Fault]) -> float | None:
    """Give a heading in degrees; None where nobody says, or for what is a fault."""
    if isinstance(given, (int, float)) and not isinstance(given, bool):
        given = f"{float(given):.10g} deg"
    if given is None:
        return None
    try:
        return float(_HEADING.read(given).to("deg"))
    except PydanticCustomError as error:
        about = error.context or {}
        faults.append(Fault("heading", about["got"], about["expected"], about["type_this"].strip('"')))
        return None
