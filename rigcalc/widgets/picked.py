"""A file picked in the browser: fetched piece by piece, limited in size; and what a card that opens one has in common."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.widgets.card import Card
from rigcalc.widgets.templates import render

PIECE = 1_000_000  # bytes asked for at a time
_LONGEST_NAME = 200


@dataclass(frozen=True)
class Picked:
    """A file that somebody picked, whole."""

    name: str
    data: bytes = field(repr=False)


class Fetching:
    """Fetches one file after another. where: what its faults are about; most: bytes; wanted: what is expected; ask: asks the
    browser for the bytes from one place to another.

    `share` is how much of the file under way is here, from 0 to 1; None while none is under way.
    """

    def __init__(self, where: str, most: int, wanted: str, ask: Callable[[int, int], None]):
        self.where, self.most, self.wanted, self.ask = where, most, wanted, ask
        self._forget()

    def _forget(self) -> None:
        self._name, self._size = "", 0
        self._here = bytearray()

    @property
    def share(self) -> float | None:
        """How much of the file under way is here."""
        return len(self._here) / self._size if self._size else None

    def begin(self, value: Any) -> Picked | None:
        """Take name and size of a file and ask for its first piece; an empty one is here at once. Raises InputError."""
        told = value if isinstance(value, Mapping) else {}
        name, size = told.get("name"), told.get("size")
        if not isinstance(name, str) or type(size) is not int or size < 0:
            raise self._refused(shown(value))
        if size > self.most:
            raise self._refused(f"a file of {size / 1024**2:,.1f} MiB named {shown(name, 60)}",
                                f"{self.wanted}, at most {self.most / 1024**2:,.0f} MiB")  # fmt: skip
        self._forget()
        if not size:
            return Picked(name[:_LONGEST_NAME], b"")
        self._name, self._size = name[:_LONGEST_NAME], size
        self._next()
        return None

    def take(self, start: int, data: bytes | None) -> Picked | None:
        """Take the piece that was asked for last; give the file with its last one, None before. Raises InputError.

        A piece of another file, or one that came twice, is left alone.
        """
        if not self._size or start != len(self._here):
            return None
        if not data or len(data) != min(PIECE, self._size - start):
            raise self._refused("a file that broke off or changed on its way")
        self._here += data
        if len(self._here) < self._size:
            self._next()
            return None
        whole = Picked(self._name, bytes(self._here))
        self._forget()
        return whole

    def _next(self) -> None:
        self.ask(len(self._here), min(len(self._here) + PIECE, self._size))

    def _refused(self, got: str, wanted: str = "") -> InputError:
        self._forget()
        return InputError([Fault(self.where, got, wanted or self.wanted, "the file picked again, or another one")])


class OpensFile(Card):
    """What a card that opens a file has in common. A subclass says what it opens, what it holds, and takes what was picked."""

    button, endings, leaving, about = "Open a file", "", "Leave it out", ""
    where, wanted, most = "the file", "a file", PIECE

    def __init__(self, model: Any, **traits: Any):
        self._under_way = Fetching(self.where, self.most, self.wanted, lambda start, end: self.fetch("pick", start, end))
        super().__init__(model, **traits)

    def holds(self) -> tuple[bool, str]:
        """Give whether a file is open, and what it holds in words."""
        raise NotImplementedError

    def took(self, picked: Picked | None) -> None:
        """Go on with a file; None: with the one there is no more."""
        raise NotImplementedError

    def text(self) -> str:
        """Give the button, what the file holds, how far one is on its way."""
        held, said = self.holds()
        share = self._under_way.share
        most = f"{self.most / 1024**2:,.0f} MiB"
        return str(render(
            __file__, "file.html.j2", title=self.title, button=self.button, endings=self.endings, leaving=self.leaving,
            held=held, said=said, about=self.about, most=most, percent=None if share is None else round(100 * share),
        ))  # fmt: skip

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do."""
        return {"pick": self.pick, "leave": lambda _value: self.took(None)}

    def pick(self, value: Any) -> None:
        """Begin to take a file: a mapping with `name` and `size`. Raises InputError for one that is too big or none."""
        self.model.forget_complaints()
        self._came(lambda: self._under_way.begin(value))

    def take_piece(self, act: str, start: int, data: bytes | None) -> None:
        """Take the piece that was asked for. Raises InputError where the file broke off."""
        if act == "pick":
            self._came(lambda: self._under_way.take(start, data))

    def _came(self, act: Callable[[], Picked | None]) -> None:
        try:
            picked = act()
        except InputError:
            self.refresh()
            raise
        if picked is None:
            self.refresh()
        else:
            self.took(picked)
