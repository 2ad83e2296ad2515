"""What is said first: a word, a headline, and the rest. Every view takes these three as they are and never parses them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Said:
    """An answer in words. word: the judgement in one to three words. headline: one sentence. rest: further ones, in order."""

    word: str
    headline: str
    rest: tuple[str, ...] = ()

    def __str__(self) -> str:
        """Give all of it as one text: "Word: headline rest"."""
        return " ".join((f"{self.word}: {self.headline}", *self.rest))
