"""A file of boundaries, by what its name ends in; and the invented farm that stands in where none is named."""

from __future__ import annotations

from os import PathLike
from pathlib import Path
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.land.boundary import Boundary, geometry, held
from rigcalc.models.land.geojson import boundaries_of
from rigcalc.models.land.shape_file import read_shapes
from rigcalc.models.land.zipped import is_zip, unpacked

DEMO = Path(__file__).parent / "demo_farm.geojson"


def read_boundaries(file: str | PathLike[str]) -> tuple[Boundary, ...]:
    """Read the fields of a GeoJSON file (.geojson, .json) or a shapefile (.shp, or zipped: .zip).

    Raises InputError that lists every fault.
    """
    path = Path(file)
    if path.suffix.lower() == ".zip":
        return boundaries_in(held(path))
    if path.suffix.lower() == ".shp":
        return read_shapes(path)
    if path.suffix.lower() not in (".geojson", ".json"):
        raise InputError(
            [Fault("BOUNDARY", shown(path.name), "a file that ends in .geojson, .json, .shp or .zip", "field.geojson")]
        )
    return boundaries_of(held(path))


def boundaries_given(given: Any) -> tuple[Boundary, ...]:
    """Read the fields of what somebody gives: the path of a file, or the bytes of one.

    Raises InputError that lists every fault; one that names the extra where it isn't installed.
    """
    geometry()
    if isinstance(given, bytes):
        return boundaries_in(given)
    if isinstance(given, (str, PathLike)):
        return read_boundaries(given)
    raise InputError([Fault("BOUNDARY", shown(given), "the path of a GeoJSON file or a shapefile", "field.geojson")])


def boundaries_in(data: bytes) -> tuple[Boundary, ...]:
    """Read the fields in the bytes of a GeoJSON file or of a zipped shapefile. Raises InputError that lists every fault."""
    if not is_zip(data):
        return boundaries_of(data)
    with unpacked(data) as shape:
        return read_shapes(shape)
