"""The words of the main question: `SizeWords(answer, units)` is an answer with everything that is said about it."""

from rigcalc.words.size.answer import SizeWords

__all__ = ["SizeWords"]
