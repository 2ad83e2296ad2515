"""Where the commands write: files that are whole or not there, and a terminal that may be cut off or full."""

from __future__ import annotations

import contextlib
import errno
import json
import os
import stat
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown

_MODE = 0o666  # of a new file, less what the user's umask takes


def write_beside(file: Path, content: bytes, over: bool) -> None:
    """Write a file beside its place and move it there whole, so that a full disk leaves what was there before.

    Raises FileExistsError where a file is there and `over` is false, OSError where it can't be written. Nothing is left then.
    """
    file = file.resolve() if over else file  # a link to a file goes on being one
    if not over and os.path.lexists(file):
        raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(file))
    handle, name = tempfile.mkstemp(prefix=".rigcalc-", suffix=".part", dir=file.parent)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
        os.chmod(name, stat.S_IMODE(file.stat().st_mode) if file.exists() else _MODE & ~_umask())
        if over:
            os.replace(name, file)
            return
        try:
            os.link(name, file)  # fails, unlike a move, where somebody has put a file there in the meantime
        except (AttributeError, PermissionError, NotImplementedError):  # a file system without links, as on a memory stick
            os.replace(name, file)
    finally:
        Path(name).unlink(missing_ok=True)


def file_faults(option: str, file: Path, kinds: tuple[str, ...], force: bool, example: str) -> list[Fault]:
    """Give what is wrong with a file to be written: its end, its folder, what stands there already."""
    out, typed = [], shown(str(file))
    if file.suffix.lower() not in kinds:
        out.append(Fault(option, typed, f"a name that ends in {' or '.join(kinds)}", f"{option} {example}"))
    try:
        if file.is_dir() or not file.parent.is_dir():
            out.append(Fault(option, typed, "a file in a folder that is there", f"{option} {example}"))
        elif file.exists() and not file.is_file():
            out.append(Fault(option, typed, "a file, not a pipe or a device", f"{option} {example}"))
        elif file.exists() and not force:
            out.append(Fault(option, typed, "a file that isn't there yet", "another name, or --force to write over it"))
    except OSError as error:  # a name that the system can't have, such as one of 5,000 letters
        out.append(Fault(option, typed, f"a name that this system takes ({error.strerror})", f"{option} {example}"))
    return out


def write_file(option: str, file: Path, content: bytes, force: bool) -> None:
    """Write a file whole. Raises InputError where it can't be written; what was there before is there still."""
    try:
        write_beside(file, content, over=force)
    except OSError as error:
        where = f"a place that can be written to ({error.strerror})"
        raise InputError([Fault(option, shown(str(file)), where, "another name")]) from None


def _umask() -> int:
    now = os.umask(0)
    os.umask(now)
    return now


@contextlib.contextmanager
def libraries_quiet() -> Iterator[None]:
    """Let nothing through that a library prints past Python, as the solver of integer programmes does at times."""
    try:
        kept = os.dup(1)
    except OSError:  # standard output is closed: nothing to spoil
        yield
        return
    try:
        with open(os.devnull, "wb") as nowhere:
            os.dup2(nowhere.fileno(), 1)
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)


def json_text(data: Any) -> str:
    """Give JSON with its letters as they are, but what a terminal would obey written as an escape."""
    text = json.dumps(data, indent=2, ensure_ascii=False)
    if text.replace("\n", "").isprintable():
        return text
    return "".join(c if c == "\n" or c.isprintable() else json.dumps(c)[1:-1] for c in text)


class Out:
    """A standard stream that goes on where nobody reads any more; `failed` says why, `lost` whether it matters."""

    def __init__(self, stream: Any):
        self._stream = stream
        self.failed: Exception | None = None

    @property
    def lost(self) -> bool:
        """Whether something that was asked for didn't arrive; a reader who has had enough, such as `head`, lost nothing."""
        return self.failed is not None and not isinstance(self.failed, BrokenPipeError)

    def write(self, text: str) -> int:
        """Write, or note why that fails."""
        self._try(lambda: self._stream.write(text))
        return len(text)

    def flush(self) -> None:
        """Flush, or note why that fails."""
        self._try(self._stream.flush)

    def _try(self, act: Any) -> None:
        if self.failed is not None:
            return
        try:
            act()
        except (OSError, ValueError) as error:
            self.failed = error

    def close_quietly(self) -> None:
        """Let what can't be written any more go nowhere, so that Python doesn't stumble over it when it ends."""
        if self.failed is None:
            return
        try:
            os.dup2(os.open(os.devnull, os.O_WRONLY), self._stream.fileno())
        except (OSError, ValueError, AttributeError):
            pass

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)


def standard(name: str) -> Out:
    """Give the standard stream `stdout` or `stderr` as an `Out`; one that was closed takes what comes and keeps nothing."""
    stream = getattr(sys, name)
    if stream is None:
        stream = open(os.devnull, "w", encoding="utf-8")
    if hasattr(stream, "reconfigure"):
        stream.reconfigure(errors="replace")  # an old terminal that lacks a letter shows a mark in its place
    return Out(stream)
