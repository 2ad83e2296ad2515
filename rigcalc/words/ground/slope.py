"""What is said of a slope: whether water runs off along the passes, and takes soil with it."""

from __future__ import annotations

from rigcalc.models.ground.slope import STEEP, Line, Slope
from rigcalc.models.machine.judgement import Judgement
from rigcalc.words.numbers import number, percent


def slope_part(found: Slope | None) -> tuple[Judgement, str] | None:
    """Say what a slope asks for; None where nobody named one, or where the ground is as good as flat."""
    if found is None or found.line is Line.FLAT:
        return None
    steep, most = f"{number(100 * found.steep)} %", percent(STEEP)  # 10.2 isn't said as 10, or its judgement would look wrong
    if found.line is Line.UNKNOWN:
        return found.judgement, (
            f"the field falls by {steep}, and nobody has said how the passes run: across the slope they hold water, along it "
            "they lead it down."
        )
    if found.line is Line.ALONG and found.judgement is Judgement.DONT:
        return found.judgement, (
            f"passes along a slope of {steep} lead water down every furrow, and loose soil with it; over {most} that is too "
            "much to risk. Work across the slope, or leave it under cover."
        )
    if found.line is Line.ALONG:
        return found.judgement, (
            f"passes along a slope of {steep} lead water down every furrow: turn them across it, or keep them "
            "short and covered."
        )
    if found.judgement is Judgement.TRY:
        return found.judgement, (
            f"across a slope of {steep} furrows hold less water than up to {most}: after the first hard rain look where it ran."
        )
    return found.judgement, f"passes across a slope of {steep} hold water where it falls."


def slope_note(found: Slope | None) -> tuple[str, ...]:
    """Say what stands behind it; empty where nothing is said of the slope."""
    if slope_part(found) is None:
        return ()
    return (
        "Slopes of 2 % to 10 %, rows that fall by 2 % or half of the slope at most: a practice standard for contour farming; "
        "that passes along more than 10 % are a don't is common practice. Soil, rain and length of the slope aren't asked.",
    )
