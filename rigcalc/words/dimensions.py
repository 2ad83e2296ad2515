"""What the check of a formula's dimensions is said as: what both sides measure, and whether it holds in other units too."""

from __future__ import annotations

from fractions import Fraction

from rigcalc.core.dimensions import NONE, Dimensions, Powers, powers_text
from rigcalc.core.units import KINDS

LETTERS = "M is mass, L length, T time; [1] is a plain number."
_KINDS = ("length", "area", "volume", "mass", "time", "force", "pressure", "power", "speed")
_ARTICLE = {"length": "a length", "area": "an area", "volume": "a volume", "mass": "a mass", "time": "a time",
            "force": "a force", "pressure": "a pressure", "power": "a power", "speed": "a speed"}  # fmt: skip


def dimensions_said(check: Dimensions) -> str:
    """Say in one sentence what both sides measure, and in which units the formula holds."""
    result = measured(check.result)
    if not check.agree:
        if not check.bare:
            return f"The sides don't agree: the left is {result}."
        return f"The result is {result}; plain numbers in the formula carry units, so it holds in the units shown alone."
    both = "Both sides are plain numbers" if check.result == NONE else f"Both sides are {result}"
    if check.bare:
        return f"{both}; the formula's own numbers go with the units shown and hold in them alone."
    return f"{both}; it holds in any units that go together."


def measured(powers: Powers) -> str:
    """Say what something of these powers is: "a force, M·L·T⁻²"; the powers alone where it has no short name."""
    if powers == NONE:
        return "a plain number"
    name = next((kind for kind in _KINDS if tuple(map(Fraction, KINDS[kind])) == powers), "")
    return f"{_ARTICLE[name]}, {powers_text(powers)}" if name else powers_text(powers)
