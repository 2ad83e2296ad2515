"""The words of a comparison: `CompareWords(comparison, units)` is two to eight rigs with everything that is said about them."""

from rigcalc.words.compare.answer import CompareWords

__all__ = ["CompareWords"]
