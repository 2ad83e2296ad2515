"""Does water run off along the passes: the slope of the field, and whether the passes run along or across it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import parse
from rigcalc.models.machine.judgement import Judgement

# USDA Natural Resources Conservation Service, conservation practice standard 330, contour farming: works best on slopes of
# 2 to 10 percent, less above; rows fall by 2 percent at most, or half of the slope where that is less.
FLAT, STEEP, ROWS_FALL, ROWS_SHARE = 0.02, 0.10, 0.02, 0.5
_STEEPEST = math.tan(math.radians(25.0))  # what a rig file's grade may be
_EXAMPLE = '"6 percent across", "6 percent along" or "3 deg across"'


class Line(StrEnum):
    """How the passes run."""

    FLAT = "flat"  # under 2 percent: nothing to say
    ACROSS = "across"
    ALONG = "along"
    UNKNOWN = "unknown"


@dataclass(frozen=True)
class Slope:
    """The slope of a field and how far the passes run along it; both as the tangent of their angle. along: NaN if unknown."""

    steep: float
    along: float
    line: Line

    @property
    def judgement(self) -> Judgement:
        """Don't along a steep slope (common practice), try along a gentler one and across a steep one, else go."""
        if self.line is Line.FLAT:
            return Judgement.GO
        if self.line is Line.ACROSS:
            return Judgement.TRY if self.steep > STEEP + 1e-9 else Judgement.GO
        return Judgement.DONT if self.line is Line.ALONG and self.steep > STEEP + 1e-9 else Judgement.TRY


def slope(text: str | None, grade: float) -> Slope | None:
    """Read a slope: "6 percent across", "3 deg along", or without a word where nobody knows yet.

    grade: the rig's own along its travel, in degrees; it goes for the slope where no text is given. None where neither is.
    Raises InputError for a text that can't be used or that the grade contradicts.
    """
    own = abs(math.tan(math.radians(grade)))
    if text is None:
        return None if own == 0 else Slope(own, own, Line.FLAT if own < FLAT else Line.ALONG)
    words = text.split() if isinstance(text, str) else []
    said = words.pop().lower() if words and words[-1].lower() in ("along", "across") else ""
    try:
        value, unit = parse(" ".join(words))
    except InputError:
        value, unit = math.nan, ""
    steep = value / 100 if unit == "percent" else math.tan(math.radians(value)) if unit == "deg" and value < 89 else math.nan
    if not 0 <= steep <= _STEEPEST + 1e-9:
        raise InputError([Fault("slope", shown(text), "0 to 25 deg (46 percent), along or across", _EXAMPLE)])
    falls = min(ROWS_FALL, ROWS_SHARE * steep)
    if own > steep + 1e-9 or (said == "across" and own > falls + 1e-9):
        expected = f"a slope that goes with the rig's grade of {100 * own:.3g} percent along its passes"
        raise InputError([Fault("slope", shown(text), expected, f'"{100 * max(own, steep):.3g} percent along"')])
    if steep < FLAT:
        return Slope(steep, own, Line.FLAT)
    if said == "across" or (not said and 0 < own <= falls):
        return Slope(steep, own, Line.ACROSS)
    if said == "along" or own > 0:
        return Slope(steep, own or steep, Line.ALONG)
    return Slope(steep, math.nan, Line.UNKNOWN)
