"""Boundaries from a shapefile (.shp, with .dbf for names and .prj for the datum beside it), read by pyshp: extra `fields`."""

from __future__ import annotations

import io
import warnings
from pathlib import Path
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.land.boundary import MOST_FIELDS, MOST_POSITIONS, Boundary, Rings, called, geometry, held, looked_over

_POLYGONS = (5, 15, 25)  # plain, with heights, with measures
_NO_SHAPE = 0
MOST_RINGS = 200  # in a record
_ANEW = "the file saved anew in WGS 84, longitude and latitude"
# A datum within a metre or two of WGS 84 counts as that: it moves a field, it doesn't change one.
_NEAR_WGS84 = ("WGS_1984", "WGS 84", "WGS84", "North_American_1983", "NAD83", "ETRS", "GRS_1980", "GDA")
_NAMES = ("name", "field", "fieldname", "field_name", "label", "id")


def read_shapes(path: Path) -> tuple[Boundary, ...]:
    """Read the fields of a shapefile. Raises InputError that lists every fault."""
    try:
        import shapefile
    except ModuleNotFoundError:
        raise InputError([Fault("BOUNDARY", "a shapefile, and no pyshp", "the library that reads one",
                                "pip install 'rigcalc[fields]'")]) from None  # fmt: skip
    data = held(path)
    beside = {end: _beside(path, end) for end in (".dbf", ".prj")}
    if fault := _datum(beside[".prj"]):
        raise InputError([fault])
    try:
        shapes, names = _shapes(shapefile, data), _names(shapefile, data, beside[".dbf"])
    except InputError:
        raise
    except Exception as error:  # pyshp raises whatever a damaged file makes of it: errors of struct, of indices, of memory
        got = f"{shown(path.name)}, which breaks off or isn't one ({type(error).__name__})"
        raise InputError([Fault("BOUNDARY", got, "a shapefile of polygons", "the file saved anew")]) from None
    return looked_over(*_fields(shapes, names))


def _beside(path: Path, end: str) -> bytes | None:
    for name in (path.with_suffix(end), path.with_suffix(end.upper())):
        if name.is_file():
            return held(name)
    return None


def _datum(prj: bytes | None) -> Fault | None:
    """Refuse a map projection and a far-off datum; without a .prj the numbers alone are looked at."""
    text = (prj or b"").decode("utf-8", "replace").strip()
    if not text:
        return None
    if text.startswith(("PROJCS", "PROJCRS")) or not any(name in text for name in _NEAR_WGS84):
        return Fault(".prj", shown(text), "WGS 84, longitude and latitude", _ANEW)
    return None


def _shapes(shapefile: Any, data: bytes) -> list[Any]:
    """Give each shape's (parts, points)."""
    out: list[Any] = []
    positions = 0
    with warnings.catch_warnings(), shapefile.Reader(shp=io.BytesIO(data)) as reader:
        warnings.simplefilter("ignore")
        if reader.shapeType not in _POLYGONS:
            raise InputError([Fault("BOUNDARY", f"a shapefile of {shown(reader.shapeTypeName)}", "polygons", "the boundaries")])
        for shape in reader.iterShapes():
            points = np.array(shape.points, float)[:, :2] if shape.shapeType != _NO_SHAPE and len(shape.points) else None
            out.append(None if points is None else (list(shape.parts), points))
            positions += 0 if points is None else len(points)
            if len(out) > MOST_FIELDS or positions > MOST_POSITIONS:
                raise InputError([Fault("BOUNDARY", "more than a farm has", f"at most {MOST_FIELDS:,} fields and "
                                        f"{MOST_POSITIONS:,} positions", "fewer fields")])  # fmt: skip
    return out


def _names(shapefile: Any, data: bytes, dbf: bytes | None) -> list[Any]:
    """Give the name of each record where there is one; a table that can't be read names nothing."""
    if dbf is None:
        return []
    try:
        with (
            warnings.catch_warnings(),
            shapefile.Reader(shp=io.BytesIO(data), dbf=io.BytesIO(dbf), encodingErrors="replace") as reader,
        ):
            warnings.simplefilter("ignore")
            heads = [str(each[0]).lower() for each in reader.fields if str(each[0]) != "DeletionFlag"]
            keys = [heads.index(name) for name in _NAMES if name in heads]
            return [next((row[key] for key in keys if row[key] not in (None, "")), None) for row in reader.iterRecords()]
    except Exception:  # as above: names are a help, not the field
        return []


def _fields(shapes: list[Any], names: list[Any]) -> tuple[list[Rings], list[Fault]]:
    """Part shapes into fields: a ring in an even number of others is an outer one, whichever way round it runs."""
    shapely = geometry()
    out: list[Rings] = []
    faults: list[Fault] = []
    for at, shape in enumerate(shapes):
        name = called([names[at] if at < len(names) else None], f"field {at + 1}")
        place = f"record {at + 1} ({name})"
        if shape is None:
            faults.append(Fault(place, "no shape", "a polygon", "the record taken out"))
            continue
        parts, points = shape
        rings = [ring for ring in np.split(points, parts[1:]) if len(ring)]
        if not np.isfinite(points).all() or any(len(ring) < 4 for ring in rings) or not 1 <= len(rings) <= MOST_RINGS:
            faults.append(Fault(place, f"{len(rings)} rings, or one of less than 4 positions or not of numbers",
                                f"1 to {MOST_RINGS} rings of 4 positions and more", "the boundary drawn anew"))  # fmt: skip
            continue
        hulls = [shapely.Polygon(ring) for ring in rings]
        inside = [[other for other, hull in enumerate(hulls) if other != one and shapely.contains_xy(hull, *rings[one][0])]
                  for one in range(len(rings))]  # fmt: skip
        outers = [one for one, holding in enumerate(inside) if len(holding) % 2 == 0]
        for count, one in enumerate(outers):
            holes = [rings[other] for other, holding in enumerate(inside)
                     if one in holding and len(holding) == len(inside[one]) + 1]  # fmt: skip
            many = len(outers) > 1
            out.append(Rings(f"{name} {count + 1}" if many else name, f"{place}, part {count + 1}" if many else place,
                             (rings[one], *holes)))  # fmt: skip
    if not out and not faults:
        faults.append(Fault("BOUNDARY", "no field", "a polygon with an area", "a file with the field's boundary"))
    return out, faults
