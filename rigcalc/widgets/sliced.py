"""A file that travels from the browser in slices: gathered until it is whole, limited in size, nothing out of order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown

SLICE = 1_000_000  # bytes, as `slices.js` cuts them
_LONGEST_NAME = 200


@dataclass(frozen=True)
class Picked:
    """A file that somebody picked, whole."""

    name: str
    data: bytes = field(repr=False)


class Gatherer:
    """Gathers the slices of one file after another. where: what its faults are about; most: bytes; wanted: what is expected.

    `share` is how much of the file under way is here, from 0 to 1; None while none is under way.
    """

    def __init__(self, where: str, most: int, wanted: str):
        self.where, self.most, self.wanted = where, most, wanted
        self._forget()

    def _forget(self) -> None:
        self._parts: list[bytes] = []
        self._about: tuple[str, int, int] | None = None

    @property
    def share(self) -> float | None:
        """How much of the file under way is here."""
        return None if self._about is None else len(self._parts) / self._about[2]

    def take(self, value: Any) -> Picked | None:
        """Take a slice; give the file with its last one, None before. Raises InputError for one that is too big or none."""
        told = value if isinstance(value, Mapping) else {}
        name, size, part, parts, data = (told.get(key) for key in ("name", "size", "part", "parts", "bytes"))
        if not isinstance(name, str) or not all(type(each) is int for each in (size, part, parts)):
            raise self._refused(shown(value))
        assert isinstance(size, int)
        assert isinstance(part, int)
        assert isinstance(parts, int)
        if size > self.most:
            raise self._refused(f"a file of {size / 1024**2:,.1f} MiB named {shown(name, 60)}",
                                f"{self.wanted}, at most {self.most / 1024**2:,.0f} MiB")  # fmt: skip
        if part == 0:
            self._forget()
            self._about = (name[:_LONGEST_NAME], size, parts)
        about = (name[:_LONGEST_NAME], size, parts)
        if (
            self._about != about
            or part != len(self._parts)
            or not isinstance(data, bytes)
            or len(data) > SLICE
            or part >= parts
        ):
            raise self._refused("a file that broke off on its way")
        assert isinstance(data, bytes)
        self._parts.append(data)
        if part + 1 < parts:
            return None
        whole = b"".join(self._parts)
        self._forget()
        if len(whole) != size:
            raise self._refused("a file that broke off on its way")
        return Picked(about[0], whole)

    def _refused(self, got: str, wanted: str = "") -> InputError:
        self._forget()
        return InputError([Fault(self.where, got, wanted or self.wanted, "the file picked again, or another one")])
