"""A zipped shapefile: its .shp, .dbf and .prj unpacked under names of our own, looked at before anything is unpacked."""

from __future__ import annotations

import io
import tempfile
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from lzma import LZMAError
from pathlib import Path

from rigcalc.core.errors import Fault, InputError

MOST_UNPACKED = 32 * 1024**2  # bytes of all that is read
MOST_INSIDE = 500  # files in a zip
# what unpacking raises for bytes that are none, or packed or locked in a way of their own
_BROKEN = (zipfile.BadZipFile, zlib.error, LZMAError, NotImplementedError, RuntimeError, OSError, EOFError, ValueError)
_ENDS = (".shp", ".dbf", ".prj")
_LIKE = "the .shp, .dbf and .prj of the fields, zipped together"


def is_zip(data: bytes) -> bool:
    """Say whether bytes begin as a zip does."""
    return data[:4] in (b"PK\x03\x04", b"PK\x05\x06")


@contextmanager
def unpacked(data: bytes) -> Iterator[Path]:
    """Give the path of the .shp in a zip, unpacked with what belongs to it for as long as the block runs.

    Raises InputError for a zip that can't be read, that holds no shapefile or several, or too much.
    """
    with tempfile.TemporaryDirectory(prefix="rigcalc_") as folder:
        shape = Path(folder) / "fields.shp"
        try:
            with zipfile.ZipFile(io.BytesIO(data)) as inside:
                for end, info in _chosen(inside).items():
                    with inside.open(info) as stream:  # no further than it was said to be, whatever it says of itself
                        shape.with_suffix(end).write_bytes(stream.read(MOST_UNPACKED))
        except InputError:  # which is a ValueError too
            raise
        except _BROKEN as error:
            got = f"a zip that breaks off or can't be unpacked ({type(error).__name__})"
            raise InputError([Fault("BOUNDARY", got, _LIKE, "the file zipped anew, without a password")]) from None
        yield shape


def _chosen(inside: zipfile.ZipFile) -> dict[str, zipfile.ZipInfo]:
    """Give end -> the file of the one shapefile in a zip. Names are compared alone: nothing is unpacked under them."""
    files = [info for info in inside.infolist() if not info.is_dir() and "__MACOSX" not in info.filename]
    if len(files) > MOST_INSIDE:
        raise InputError([Fault("BOUNDARY", f"a zip of {len(files):,} files", f"at most {MOST_INSIDE}", _LIKE)])
    shapes = [info for info in files if info.filename.lower().endswith(".shp")]
    if len(shapes) != 1:
        got = f"a zip with {len(shapes)} shapefiles" if shapes else "a zip without a .shp"
        raise InputError([Fault("BOUNDARY", got, "one shapefile", _LIKE)])
    stem = shapes[0].filename[: -len(".shp")].lower()
    found = {end: info for end in _ENDS for info in files if info.filename.lower() == stem + end}
    if (size := sum(info.file_size for info in found.values())) > MOST_UNPACKED:
        most = f"at most {MOST_UNPACKED // 1024**2} MiB"
        raise InputError([Fault("BOUNDARY", f"{size / 1024**2:,.0f} MiB once unpacked", most, "fewer fields")])
    return found
