"""The files of ISO 11783-10 task data, from a folder or a zip: bytes are counted as they come, whatever a file says."""

from __future__ import annotations

import struct
import zipfile
import zlib
from collections.abc import Callable
from pathlib import Path, PurePosixPath
from typing import IO

from rigcalc.core.errors import Fault, InputError, shown

MAIN = "TASKDATA.XML"
MOST_IN_ALL = 400 * 1024 * 1024  # bytes, unpacked
_MOST_ZIP = 200 * 1024 * 1024
_MOST_NAMES = 10_000
_MOST_OF_NAMES = 4 * 1024 * 1024  # bytes of a zip's list of its files
_CHUNK = 1 << 18
# The end of a zip (PKWARE's APPNOTE, 4.3.16, from memory): its mark, then at byte 10 how many files, at 12 how many bytes list
# them.
_END, _END_SIZE, _LONGEST_NOTE, _LARGE_MARK = b"PK\x05\x06", 22, 65_535, b"PK\x06\x07"


class TaskFiles:
    """The files beside TASKDATA.XML by their names, capitals or not. `name`: of what was opened, for faults."""

    def __init__(self, name: str, files: dict[str, Callable[[], IO[bytes]]], close: Callable[[], None]):
        self.name, self._files, self._left, self._close = name, files, MOST_IN_ALL, close

    def __contains__(self, name: str) -> bool:
        return name.upper() in self._files

    def read(self, name: str, most: int) -> bytes:
        """Give a file's bytes, at most `most` of them. Raises InputError for one that is larger, missing or can't be read."""
        if name not in self:
            raise InputError([Fault(f"{self.name}, {name}", "no such file", "all files of the task data, side by side",
                                    "the whole folder, as the terminal wrote it")])  # fmt: skip
        parts, count = [], 0
        try:
            with self._files[name.upper()]() as stream:
                while chunk := stream.read(_CHUNK):
                    count += len(chunk)
                    self._left -= len(chunk)
                    if count > most or self._left < 0:
                        raise InputError([Fault(f"{self.name}, {name}", f"more than {min(most, MOST_IN_ALL) / 1024**2:g} MiB",
                                                "task data of a day or two", "it in parts")])  # fmt: skip
                    parts.append(chunk)
        except (OSError, zipfile.BadZipFile, zlib.error, EOFError, RuntimeError, NotImplementedError, struct.error) as error:
            raise InputError([Fault(f"{self.name}, {name}", f"a file that can't be read ({type(error).__name__})",
                                    "task data as the terminal wrote it, without a password")]) from None  # fmt: skip
        return b"".join(parts)

    def close(self) -> None:
        """Let go of the files."""
        self._close()


def opened(path: Path) -> TaskFiles:
    """Open task data: a folder that holds TASKDATA.XML, or a folder TASKDATA that does, that file itself, or a zip of them.

    Raises InputError.
    """
    if path.is_file() and path.name.upper() == MAIN:
        path = path.parent
    if path.is_dir():
        return _folder(path)
    try:
        return _zip(path)
    except InputError:
        raise
    except OSError as error:
        raise InputError([Fault("LOG", f"{shown(str(path))} ({error.strerror})", "a folder or a zip of task data")]) from None
    except (zipfile.BadZipFile, struct.error, ValueError, NotImplementedError):
        raise InputError([Fault(path.name, "no zip that can be opened", "a zip as it was made, not cut off")]) from None


def is_task_data(path: Path) -> bool:
    """Say whether a path is one that `opened` is for."""
    return path.is_dir() or path.suffix.lower() == ".zip" or path.name.upper() == MAIN


def _folder(path: Path) -> TaskFiles:
    for inner in (path, path / "TASKDATA"):
        try:
            found = [entry for entry, _ in zip(inner.iterdir(), range(_MOST_NAMES + 1), strict=False)]
        except OSError:
            continue
        files = [entry for entry in found if entry.is_file()]
        if len(found) <= _MOST_NAMES and any(entry.name.upper() == MAIN for entry in files):
            return TaskFiles(path.name, _by_name([(file.name, _reads(file)) for file in files], path.name), lambda: None)
    raise InputError([Fault(shown(str(path)), f"no {MAIN} in it", "a folder of task data", "the folder TASKDATA")])


def _reads(file: Path) -> Callable[[], IO[bytes]]:
    return lambda: file.open("rb")


def _zip(path: Path) -> TaskFiles:
    _looked_at(path)
    packed = zipfile.ZipFile(path)
    entries = [entry for entry in packed.infolist() if not entry.is_dir()]
    mains = [entry for entry in entries if _inside(entry).name.upper() == MAIN]
    if len(mains) != 1:
        packed.close()
        raise InputError([Fault(path.name, f"{len(mains)} files {MAIN}", "one", "a zip of one folder TASKDATA")])
    beside = _inside(mains[0]).parent
    inside = [(_inside(entry).name, _unpacks(packed, entry)) for entry in entries if _inside(entry).parent == beside]
    return TaskFiles(path.name, _by_name(inside, path.name), packed.close)


def _inside(entry: zipfile.ZipInfo) -> PurePosixPath:
    """Give where a file stands inside a zip; some zips part folders by backslashes."""
    return PurePosixPath(entry.filename.replace("\\", "/"))


def _unpacks(packed: zipfile.ZipFile, entry: zipfile.ZipInfo) -> Callable[[], IO[bytes]]:
    """Give what opens a packed file. Ways of packing that take much memory to undo aren't taken."""

    def start() -> IO[bytes]:
        if entry.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            raise NotImplementedError
        return packed.open(entry)

    return start


def _looked_at(path: Path) -> None:
    """Refuse a zip whose own list of files would take much memory, before anything reads that list."""
    size = path.stat().st_size
    if size > _MOST_ZIP:
        raise InputError(
            [Fault(path.name, f"more than {_MOST_ZIP // 1024**2} MiB", "task data of a day or two", "it in parts")]
        )
    with path.open("rb") as stream:
        stream.seek(max(size - _END_SIZE - _LONGEST_NOTE - 20, 0))
        tail = stream.read()
    at = tail.rfind(_END)
    if at < 0 or len(tail) < at + _END_SIZE:
        raise zipfile.BadZipFile
    count, bytes_of_names = struct.unpack("<HL", tail[at + 10 : at + 16])
    if _LARGE_MARK in tail or count > _MOST_NAMES or bytes_of_names > _MOST_OF_NAMES:
        raise InputError([Fault(path.name, "a zip of very many files", f"task data: at most {_MOST_NAMES:,} files",
                                "a zip of the folder TASKDATA alone")])  # fmt: skip


def _by_name(files: list[tuple[str, Callable[[], IO[bytes]]]], name: str) -> dict[str, Callable[[], IO[bytes]]]:
    """Lay files by their names in capitals; of two that differ in nothing else nobody knows which is meant."""
    found: dict[str, Callable[[], IO[bytes]]] = {}
    for own, reads in files:
        if own.upper() in found:
            raise InputError([Fault(f"{name}, {own}", "two files of that name", "each file once")])
        found[own.upper()] = reads
    return found
