"""Zipped shapefiles: read as the plain one, and nothing unpacked that isn't one shapefile of a fair size."""

import io
import zipfile

import pytest
import shapefile

from rigcalc import field
from rigcalc.core.errors import InputError
from rigcalc.models.land import zipped
from rigcalc.models.land.files import boundaries_in

SQUARE = [[-120.0, -47.0], [-119.99, -47.0], [-119.99, -46.993], [-120.0, -46.993], [-120.0, -47.0]]
WGS84 = 'GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137,298.257223563]]]'


def shapes(folder, name="north"):
    """A shapefile of one field, as its three files."""
    with shapefile.Writer(str(folder / name), shapeType=shapefile.POLYGON) as out:
        out.field("NAME", "C", 20)
        out.poly([SQUARE])
        out.record(name)
    (folder / f"{name}.prj").write_text(WGS84)
    return [folder / f"{name}{end}" for end in (".shp", ".dbf", ".prj", ".shx")]


def zip_of(files, inside=lambda path: path.name):
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as out:
        for path in files:
            out.writestr(inside(path), path.read_bytes())
    return held.getvalue()


@pytest.mark.parametrize("inside", [lambda path: path.name, lambda path: f"../../farm/{path.name.upper()}"])
def test_a_zip_reads_as_the_plain_file(tmp_path, inside):
    files = shapes(tmp_path)
    plain, packed = field("articulated", files[0]), zip_of(files, inside)
    (tmp_path / "farm.zip").write_bytes(packed)
    before = sorted(path.name for path in tmp_path.parent.rglob("*"))
    for given in (packed, tmp_path / "farm.zip"):
        found = field("articulated", given)
        assert found.area == plain.area
        assert found.fields[0].boundary.name == "north"
    assert sorted(path.name for path in tmp_path.parent.rglob("*")) == before  # its names lead nowhere


def test_what_holds_no_one_shapefile_is_refused(tmp_path, monkeypatch):
    one, two = shapes(tmp_path), shapes(tmp_path, "south")
    whole = zip_of(one)
    for data, why in (
        (zip_of(one[1:]), "without a .shp"),
        (zip_of([*one, *two]), "2 shapefiles"),
        (whole[: len(whole) // 2], "breaks off"),
        (zip_of([]), "without a .shp"),
        (whole[:60] + b"\xff" * 40 + whole[100:], "breaks off"),
    ):
        with pytest.raises(InputError, match=why):
            field("articulated", data)
    projected = tmp_path / "north.prj"
    projected.write_text('PROJCS["grid"]')
    with pytest.raises(InputError, match=r"\.prj"):
        field("articulated", zip_of(one))
    monkeypatch.setattr(zipped, "MOST_UNPACKED", 100)
    with pytest.raises(InputError, match="once unpacked"):
        field("articulated", zip_of(one))


def test_packed_bytes_that_are_none_are_a_fault(tmp_path):
    """Each byte of what is packed turned over: what unpacks it has errors of its own for that."""
    data = zip_of(shapes(tmp_path)[:1])
    first = 30 + len("north.shp")  # a local header, then the name
    for at in range(first, first + 40):
        odd = bytearray(data)
        odd[at] ^= 0xFF
        with pytest.raises(InputError, match="breaks off"):
            boundaries_in(bytes(odd))


def test_a_zip_that_says_less_than_it_holds_is_read_no_further(tmp_path):
    """The sizes in a zip are its own word: a bomb says little."""
    files = shapes(tmp_path)
    data = bytearray(zip_of(files))
    real = files[0].stat().st_size
    at = data.index(b"PK\x01\x02")
    data[at + 24 : at + 28] = (real // 2).to_bytes(4, "little")
    with pytest.raises(InputError):
        field("articulated", bytes(data))


def test_fewer_fields_where_fewer_are_let_in():
    with pytest.raises(InputError, match="6 fields"):
        field("articulated", most=5)
    assert len(field("articulated", most=6).fields) == 6
