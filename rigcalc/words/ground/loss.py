"""What is said of the yield that compaction costs: a span of published trials, or what somebody typed; never a promise."""

from __future__ import annotations

import math

from rigcalc.models.ground.loss import Loss
from rigcalc.words.ground.after import shares_text
from rigcalc.words.numbers import number, percent

_PRINT = "trials that the farm press tells of"


def loss_lines(found: Loss) -> tuple[str, ...]:
    """Give what is known, a line each."""
    if not found.known:
        return (
            "Yield: after axles of 10 short tons the loss was small and gone within two years by one summary of trials, and by "
            "another 9 % to 30 % in the first year on wet clay loam; no figure for lighter ones, so none here. What strips of "
            "your own showed can be typed",
        )
    years = " to ".join(dict.fromkeys(number(end) for end in found.fades))
    whose = "as typed" if len(found.typed) == 3 else f"partly as typed, else {_PRINT}" if found.typed else _PRINT
    low, high = (number(end, 2) for end in found.in_all)
    first, stays = shares_text(*found.first), f"{shares_text(*found.lasting)} for good"
    if "lasting" not in found.typed:
        stays += ", the least of it from memory"
    lines = [
        f"Yield: where heavy axles ran on moist ground {first} less in the first year, {stays}, the rest fading in "
        f"{years} years ({whose})",
        f"Over {found.years.size} years that adds up to {low} to {high} of one year's yield there, fading evenly (our choice)",
    ]
    if math.isfinite(found.wheeled):
        share, wheeled = shares_text(*(found.wheeled * end for end in found.first)), percent(found.wheeled)
        lines.append(f"With {wheeled} of the field wheeled, {share} of its yield in the first year, if loss goes by area")
    lines.append(
        "A span, no promise: wheels ran over all of the ground there, dry years and light soils lost little, wet clay most. "
        "Strips of your own beat it; type what they show"
    )
    return tuple(lines)
