"""Boundaries from GeoJSON (RFC 7946), read strictly; how much a file may hold is looked at before it is parsed."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.land.boundary import MOST_FIELDS, MOST_POSITIONS, Boundary, Rings, called, looked_over

_NUMBERS = frozenset([int, float])
_NAMES = ("name", "field", "field_name", "label", "id")
_LIKE = '{"type": "Polygon", "coordinates": [[[lon, lat], ...]]}'
_WGS84 = ("CRS84", "EPSG::4326", "EPSG:4326")
_TITLE = "This boundary can't be used as it stands"


def boundaries_of(data: bytes) -> tuple[Boundary, ...]:
    """Make boundaries of the bytes of a GeoJSON file. Raises InputError that lists every fault with its place."""
    return looked_over(*_fields(_parsed(data)))


def _parsed(data: bytes) -> Any:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputError([Fault("BOUNDARY", "bytes that are not text", "GeoJSON in UTF-8", _LIKE)], title=_TITLE) from None
    if text.count("[") > 2 * MOST_POSITIONS or text.count("{") > 20 * MOST_FIELDS:
        raise InputError([_too_many()], title=_TITLE)

    def no_number(name: str) -> Any:
        raise ValueError(f"{name} is no number")

    try:
        return json.loads(text, parse_constant=no_number)
    except (ValueError, RecursionError) as error:
        got = f"text that breaks off or isn't JSON ({str(error)[:100]})"
        raise InputError([Fault("BOUNDARY", got, "GeoJSON (RFC 7946)", _LIKE)], title=_TITLE) from None


def _too_many() -> Fault:
    return Fault("BOUNDARY", "more than a farm has", f"at most {MOST_FIELDS:,} fields and {MOST_POSITIONS:,} positions",
                 "fewer fields, or fewer positions in each")  # fmt: skip


def _fields(data: Any) -> tuple[list[Rings], list[Fault]]:
    """Give the fields that stand in parsed GeoJSON, and what is wrong with the rest."""
    faults: list[Fault] = []
    if isinstance(data, dict) and (crs := _crs(data.get("crs"))) is not None:
        faults.append(crs)
    features = list(_features(data, faults))
    if len(features) > MOST_FIELDS:
        got = f"{len(features):,} fields"
        raise InputError([Fault("BOUNDARY", got, f"at most {MOST_FIELDS:,}", "the fields of one farm")], title=_TITLE)
    out: list[Rings] = []
    positions = 0
    for name, place, polygons in features:
        for part, rings in enumerate(polygons):
            here = f"{place}, part {part + 1}" if len(polygons) > 1 else place
            read = _rings(rings, here, faults)
            positions += sum(len(ring) for ring in read or ())
            if read:
                out.append(Rings(f"{name} {part + 1}" if len(polygons) > 1 else name, here, read))
    if len(out) > MOST_FIELDS or positions > MOST_POSITIONS:
        raise InputError([_too_many()], title=_TITLE)
    if not out and not faults:
        faults.append(Fault("BOUNDARY", "no field", "a polygon with an area", _LIKE))
    return out, faults


def _crs(crs: Any) -> Fault | None:
    """Refuse another datum; files from before RFC 7946 may name its own."""
    text = json.dumps(crs) if crs is not None else ""
    if not text or any(name in text for name in _WGS84):
        return None
    return Fault(
        "crs", shown(text), "WGS 84, longitude and latitude, the one that RFC 7946 knows", "the file saved anew in WGS 84"
    )


def _features(data: Any, faults: list[Fault]) -> Iterator[tuple[str, str, list[Any]]]:
    """Give (name, place, polygons) of each feature; what is no polygon goes to `faults`."""
    kind = data.get("type") if isinstance(data, dict) else None
    if kind == "FeatureCollection":
        inside = data.get("features")
        if not isinstance(inside, list):
            faults.append(Fault("features", shown(inside), "a list of features", "[...]"))
            return
        given = [(f"feature {at + 1}", each) for at, each in enumerate(inside)]
    elif kind == "Feature":
        given = [("feature 1", data)]
    elif isinstance(data, dict):
        given = [("geometry", {"type": "Feature", "geometry": data, "properties": None})]
    else:
        faults.append(Fault("BOUNDARY", shown(data), "a GeoJSON object", _LIKE))
        return
    for at, (place, feature) in enumerate(given):
        if not isinstance(feature, dict) or feature.get("type") != "Feature":
            faults.append(Fault(place, shown(feature), 'an object of type "Feature"', '{"type": "Feature", ...}'))
            continue
        about = feature.get("properties")
        known = {str(key).lower(): value for key, value in about.items()} if isinstance(about, dict) else {}
        name = called([*(known.get(key) for key in _NAMES), feature.get("id")], f"field {at + 1}")
        shape = feature.get("geometry")
        kind = shape.get("type") if isinstance(shape, dict) else None
        inside = shape.get("coordinates") if isinstance(shape, dict) else None
        if kind not in ("Polygon", "MultiPolygon") or not isinstance(inside, list) or not inside:
            got = "no geometry" if shape is None else shown(kind) if kind not in ("Polygon", "MultiPolygon") else shown(inside)
            faults.append(Fault(f"{place} ({name})", got, "a Polygon or MultiPolygon with its coordinates", _LIKE))
            continue
        yield name, f"{place} ({name})", [inside] if kind == "Polygon" else inside


def _rings(rings: Any, place: str, faults: list[Fault]) -> tuple[Any, ...] | None:
    """Give the rings of a polygon as arrays; None, and a fault, where they aren't lists of positions."""
    if not isinstance(rings, list) or not rings:
        faults.append(Fault(place, shown(rings), "a list of rings", "[[[lon, lat], ...]]"))
        return None
    if sum(len(ring) for ring in rings if isinstance(ring, list)) > MOST_POSITIONS:
        raise InputError([_too_many()], title=_TITLE)
    out = []
    for number, ring in enumerate(rings):
        if not isinstance(ring, list):
            faults.append(Fault(f"{place}, ring {number + 1}", shown(ring), "a list of positions", "[[lon, lat], ...]"))
            return None
        for at, position in enumerate(ring):
            if not _is_position(position):
                faults.append(Fault(f"{place}, ring {number + 1}, position {at + 1}", shown(position),
                                    "longitude and latitude, two numbers of degrees", "[lon, lat]"))  # fmt: skip
                return None
        out.append(np.array([position[:2] for position in ring], float).reshape(-1, 2))
    return tuple(out)


def _is_position(value: Any) -> bool:
    """Say whether something is two to four finite numbers; JSON makes plain lists, and bool is a type of its own."""
    return type(value) is list and 2 <= len(value) <= 4 and all(type(each) in _NUMBERS and abs(each) < 1e12 for each in value)
