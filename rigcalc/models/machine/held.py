"""What was worked out lately and may be asked for again, held while it takes no more room than it was given."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from typing import Generic, Protocol, TypeVar


class Sized(Protocol):
    """What knows how many bytes it takes."""

    @property
    def size(self) -> int:
        """Bytes."""


T = TypeVar("T", bound=Sized)


class Held(Generic[T]):
    """Values by their keys, the ones asked for longest ago given up first. most: bytes that all of them may take.

    None is held as well: that something can't be is worth knowing. The last value is held however large it is.
    """

    def __init__(self, most: int):
        self.most = most
        self._values: OrderedDict[Hashable, T | None] = OrderedDict()

    def of(self, key: Hashable, make: Callable[[], T | None]) -> T | None:
        """Give the value of a key, made where it isn't held. What `make` raises goes through, and nothing is held then."""
        if key not in self._values:
            self._values[key] = make()
            while len(self._values) > 1 and sum(map(self._bytes, self._values.values())) > self.most:
                self._values.popitem(last=False)
        self._values.move_to_end(key)
        return self._values[key]

    def __len__(self) -> int:
        """How many are held."""
        return len(self._values)

    @staticmethod
    def _bytes(value: T | None) -> int:
        return 1024 if value is None else value.size
