"""Boundaries from files: what RFC 7946 allows is read, everything else is refused with its place and what to type."""

import json
import os
import random
from pathlib import Path

import numpy as np
import pytest
import shapefile

from rigcalc.core.errors import InputError
from rigcalc.models.land import boundary
from rigcalc.models.land.files import DEMO, read_boundaries
from rigcalc.models.land.geojson import boundaries_of
from rigcalc.models.land.shape_file import read_shapes

SQUARE = [[-121.0, -47.0], [-120.99, -47.0], [-120.99, -46.99], [-121.0, -46.99], [-121.0, -47.0]]
BOW_TIE = [[-121.0, -47.0], [-120.99, -46.99], [-120.99, -47.0], [-121.0, -46.99], [-121.0, -47.0]]
LONG = bool(os.environ.get("RIGCALC_LONG"))


def polygon(*rings):
    return {"type": "Polygon", "coordinates": list(rings)}


def feature(geometry, **about):
    return {"type": "Feature", "properties": about, "geometry": geometry}


def read(data):
    return boundaries_of(json.dumps(data).encode())


def refused(data):
    """The text of the refusal."""
    with pytest.raises(InputError) as caught:
        boundaries_of(data) if isinstance(data, bytes) else read(data)
    return str(caught.value)


def moved(ring, lon, lat):
    return [[x + lon, y + lat] for x, y in ring]


def test_everything_that_the_rfc_calls_a_polygon():
    two = {"type": "MultiPolygon", "coordinates": [[SQUARE], [moved(SQUARE, 0.05, 0)]]}
    for data, names in (
        (polygon(SQUARE), ["field 1"]),
        (feature(polygon(SQUARE), name="North"), ["North"]),
        ({**feature(polygon(SQUARE)), "id": "n7"}, ["n7"]),
        (feature(two, Name="Twins"), ["Twins 1", "Twins 2"]),
        ({"type": "FeatureCollection", "features": [feature(polygon(SQUARE), field=12), feature(polygon(SQUARE))]},
         ["12", "field 2"]),
        (polygon([[*position, 81.5] for position in SQUARE]), ["field 1"]),  # heights are let pass
        ({**polygon(SQUARE), "crs": {"properties": {"name": "urn:ogc:def:crs:OGC:1.3:CRS84"}}}, ["field 1"]),
    ):  # fmt: skip
        found = read(data)
        assert [each.name for each in found] == names
        assert all(each.area == pytest.approx(84.4, rel=0.01) for each in found)


def test_the_demo_farm_lies_in_an_ocean_and_is_in_order():
    found = read_boundaries(DEMO)
    assert len(found) == 6
    assert all(-122 < each.middle[0] < -120 and -48 < each.middle[1] < -46 for each in found)
    assert found[0].area == pytest.approx(64.64, rel=1e-3)  # 804 m square


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (polygon(BOW_TIE), "self-intersection at longitude -120.995000, latitude -46.99500"),
        (polygon(BOW_TIE), "1:1-2, 1:3-4"),
        (polygon([[y, x] for x, y in SQUARE]),
         "got [-47, -121] and 4 more like it, a latitude beyond 90; expected longitude first"),
        (polygon([SQUARE[0], SQUARE[1][::-1], *SQUARE[2:]]), "position 2: got [-47, -120.99]"),
        (polygon([[x, -y] if at == 2 else [x, y] for at, (x, y) in enumerate(SQUARE)]),
         "position 3: got [-120.99, 46.99], 9.28e+03 km from"),
        (polygon(SQUARE[:-1]),
         "ring 1, position 4: got [-121, -46.99], which isn't the first one; expected a ring that closes"),
        (polygon(SQUARE[:3]), "got 3 positions; expected 4 or more"),
        (polygon([[500000.0 + x, 4900000.0 + y] for x, y in SQUARE]), "these look like metres of a map projection"),
        (polygon([[x, -47.0] for x, _ in SQUARE]), "a ring with an area"),
        (polygon([SQUARE[0]] * 5), "a ring with an area"),
        (polygon([[-121 + (x + 121) * 1e-5, -47 + (y + 47) * 1e-5] for x, y in SQUARE]), "expected a ring with an area"),
        (polygon(SQUARE, moved(SQUARE, 0.05, 0)), "hole lies outside shell"),
        (polygon(SQUARE, moved([[x, y] for x, y in SQUARE], 0.005, 0.005)), "self-intersection"),
        (polygon([[x * 100, y] for x, y in moved(SQUARE, 121, 0)]), "km wide"),
        (polygon([*SQUARE[:2], [None, 3], *SQUARE[3:]]), "ring 1, position 3: got [None, 3]"),
        (polygon([*SQUARE[:2], [True, 3], *SQUARE[3:]]), "ring 1, position 3: got [True, 3]"),
        (polygon([*SQUARE[:2], ["1", "2"], *SQUARE[3:]]), "two numbers of degrees"),
        (polygon([*SQUARE[:2], 7, *SQUARE[3:]]), "ring 1, position 3: got 7"),
        ({"type": "Polygon", "coordinates": []}, "a Polygon or MultiPolygon with its coordinates"),
        ({"type": "Polygon", "coordinates": [5]}, "ring 1: got 5; expected a list of positions"),
        ({"type": "LineString", "coordinates": SQUARE}, "got 'LineString'"),
        (feature(None, name="Gone"), "feature 1 (Gone): got no geometry"),
        ({"type": "FeatureCollection", "features": []}, "no field"),
        ({"type": "FeatureCollection"}, "a list of features"),
        ({"type": "FeatureCollection", "features": [5]}, "feature 1: got 5"),
        ([], "a GeoJSON object"),
        ({**polygon(SQUARE), "crs": {"properties": {"name": "EPSG:32614"}}}, "WGS 84"),
        (b"", "isn't JSON"),
        (b"\xff\xfe\x00", "bytes that are not text"),
        (b'{"type": "Polygon", "coordinates": [[[NaN, 1]]]}', "NaN is no number"),
        (b"[" * 100_000, "isn't JSON"),
        (b"[" * 500_000, "at most 2,000 fields and 200,000 positions"),
        (b'{"type": "Polygon", "coordinates": [[[1e999, 1]]]}', "position 1: got [inf, 1]"),
        (b'{"a": ' + b"9" * 5000 + b"}", "isn't JSON"),
    ],
)  # fmt: skip
def test_refused_with_its_place(data, said):
    assert said in refused(data)


def test_every_fault_at_once_and_each_feature_by_its_name():
    text = refused({"type": "FeatureCollection", "features": [
        feature(polygon(BOW_TIE), name="Tie"), feature(polygon(SQUARE), name="Good"),
        feature(polygon(SQUARE[:-1]), name="Open"),
        feature({"type": "Point", "coordinates": [1, 2]}, name="Well"),
    ]})  # fmt: skip
    for part in ("feature 1 (Tie)", "feature 3 (Open)", "feature 4 (Well)"):
        assert part in text
    assert "Good" not in text


def test_one_swapped_field_among_the_others_is_noticed():
    """Where both numbers could be a latitude, only the other fields of the farm can tell."""
    here = moved(SQUARE, 121 + 11, 47 + 47)
    rings = [here, moved(here, 0.1, 0), moved(here, 0, 0.1), [[y, x] for x, y in moved(here, 0.1, 0.1)]]
    text = refused({"type": "FeatureCollection", "features": [feature(polygon(ring)) for ring in rings]})
    assert "feature 4 (field 4)" in text
    assert "these look swapped. Type [11.1" in text
    far = [*rings[:3], moved(here, 30, 0)]
    text = refused({"type": "FeatureCollection", "features": [feature(polygon(ring)) for ring in far]})
    assert "fields of one farm, within 300 km" in text


def test_too_many_fields_and_too_large_a_file():
    small = [[round(-121 + x, 4), round(-47 + y, 4)] for x, y in ((0, 0), (0.001, 0), (0.001, 0.001), (0, 0.001), (0, 0))]
    many = [feature(polygon(small)) for _ in range(10_000)]
    assert "got 10,000 fields; expected at most 2,000" in refused({"type": "FeatureCollection", "features": many})
    big = [[-121 + 1e-7 * k, -47] for k in range(boundary.MOST_POSITIONS + 1)]
    assert "200,000 positions" in refused(polygon(big))


def test_a_file_that_is_too_large_is_not_read_whole(tmp_path, monkeypatch):
    monkeypatch.setattr(boundary, "MOST_BYTES", 1000)
    file = tmp_path / "field.geojson"
    file.write_bytes(b" " * 5000)
    with pytest.raises(InputError, match="fewer fields"):
        read_boundaries(file)


@pytest.mark.parametrize("name", ["field.kml", "nowhere.geojson", "nowhere.shp", "", "."])
def test_files_that_cannot_be(name, tmp_path):
    with pytest.raises(InputError, match="BOUNDARY"):
        read_boundaries(tmp_path / name)


def written(path: Path, polygons, names=None, prj=None):
    with shapefile.Writer(str(path), shapeType=shapefile.POLYGON) as out:
        out.field("NAME", "C", size=40)
        for at, rings in enumerate(polygons):
            out.poly(rings)
            out.record(names[at] if names else "")
    if prj:
        path.with_suffix(".prj").write_text(prj)
    return path.with_suffix(".shp")


HOLE = moved([[-121 + (x + 121) / 4, -47 + (y + 47) / 4] for x, y in SQUARE], 0.002, 0.002)
WGS84 = 'GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]]]'


def test_a_shapefile_says_the_same_as_geojson(tmp_path):
    file = written(tmp_path / "farm", [[SQUARE[::-1], HOLE], [moved(SQUARE, 0.1, 0)[::-1]]], ["North", "South"], WGS84)
    from_shapes, from_json = read_boundaries(file), read({"type": "FeatureCollection", "features": [
        feature(polygon(SQUARE, HOLE), name="North"), feature(polygon(moved(SQUARE, 0.1, 0)), name="South")]})  # fmt: skip
    assert [each.name for each in from_shapes] == ["North", "South"]
    for one, other in zip(from_shapes, from_json, strict=True):
        assert one.area == pytest.approx(other.area, rel=1e-12)
    assert from_shapes[0].area == pytest.approx(from_shapes[1].area * 15 / 16, rel=1e-3)


def test_parts_of_a_record_are_parted_by_what_lies_in_what(tmp_path):
    """Two outer rings, one with a hole, in any order and whichever way round; without a table of names."""
    file = written(tmp_path / "parts", [[HOLE, moved(SQUARE, 0.1, 0), SQUARE]])
    file.with_suffix(".dbf").unlink()
    found = read_shapes(file)
    assert [each.name for each in found] == ["field 1 1", "field 1 2"]
    assert found[1].area == pytest.approx(found[0].area * 15 / 16, rel=1e-3)


def test_shapefiles_that_cannot_be(tmp_path):
    utm = written(tmp_path / "utm", [[SQUARE]], prj='PROJCS["WGS_1984_UTM_Zone_14N"]')
    with pytest.raises(InputError, match="WGS 84, longitude and latitude"):
        read_boundaries(utm)
    tie = written(tmp_path / "tie", [[SQUARE], [BOW_TIE]], ["Good", "Tie"])
    with pytest.raises(InputError, match=r"record 2 \(Tie\)"):
        read_boundaries(tie)
    with shapefile.Writer(str(tmp_path / "points"), shapeType=shapefile.POINT) as out:
        out.field("NAME", "C")
        out.point(1, 2)
        out.record("well")
    with pytest.raises(InputError, match="polygons"):
        read_boundaries(tmp_path / "points.shp")
    (tmp_path / "cut.shp").write_bytes(tie.read_bytes()[:150])
    with pytest.raises(InputError):
        read_boundaries(tmp_path / "cut.shp")


def broken(data: bytes, rng: random.Random) -> bytes:
    """Damage some bytes: flipped, taken out, put in again elsewhere, cut off."""
    out = bytearray(data)
    for _ in range(rng.randint(1, 6)):
        at = rng.randrange(len(out))
        kind = rng.randrange(5)
        if kind == 0:
            out[at] = rng.randrange(256)
        elif kind == 1:
            del out[at : at + rng.randint(1, 40)]
        elif kind == 2:
            out[at:at] = out[: rng.randint(1, 60)]
        elif kind == 3:
            out[at:at] = rng.choice([b"-", b"1e9", b"[", b"]]", b"null", b'"', b"\x00", b"9999999", b"{"])
        elif rng.random() < 0.2:
            del out[at:]
        if not out:
            break
    return bytes(out)


def test_damaged_geojson_is_read_or_refused():
    rng, whole = random.Random(7), DEMO.read_bytes()
    kept = 0
    for _ in range(4000 if LONG else 400):
        try:
            found = boundaries_of(broken(whole, rng))
        except InputError:
            continue
        kept += 1
        assert all(np.isfinite(each.area) and each.area > 0 for each in found)
    assert kept > 0


def test_damaged_shapefiles_are_read_or_refused(tmp_path):
    rng = random.Random(8)
    whole = written(tmp_path / "whole", [[SQUARE[::-1], HOLE], [moved(SQUARE, 0.1, 0)[::-1]]], ["North", "South"], WGS84)
    parts = {end: whole.with_suffix(end).read_bytes() for end in (".shp", ".dbf", ".prj")}
    file = tmp_path / "broken.shp"
    for _ in range(1000 if LONG else 150):
        for end, data in parts.items():
            file.with_suffix(end).write_bytes(broken(data, rng) if rng.random() < 0.6 else data)
        try:
            found = read_boundaries(file)
        except InputError:
            continue
        assert all(np.isfinite(each.area) and each.area > 0 for each in found)
