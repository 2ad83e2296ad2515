"""The phrases of "should I, and how deep"."""

from rigcalc.words.ground.answer import GroundWords

__all__ = ["GroundWords"]
