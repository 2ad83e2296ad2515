"""The words of fields as they are: which way to drive, what the shape costs, in what order."""

from rigcalc.words.passes.answer import FieldWords

__all__ = ["FieldWords"]
