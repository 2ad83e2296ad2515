"""What is said of readings that are corrected to field capacity, or of why they aren't."""

from __future__ import annotations

from rigcalc.models.ground.answer import GroundAnswer
from rigcalc.models.ground.corrected import Uncorrected
from rigcalc.words.ground.sentence import drained_text, need_text, scatter_text
from rigcalc.words.numbers import System, number, percent

_WHY = {
    Uncorrected.WATER: "Readings stay as read: water by mass and the density of a dried ring would correct them",
    Uncorrected.DENSITY: "Readings stay as read: the density of a dried ring (bulk_density) would correct them for water",
    Uncorrected.SHALLOW: "Readings stay as read: the water was sampled well above the points",
    Uncorrected.RANGE: "Readings stay as read: water or density lie outside those of the cores that a correction rests on",
    Uncorrected.NOTHING: "Readings stay as read: nobody wrote down the most that the needle showed at the flags",
}


def drained_lines(answer: GroundAnswer, units: System) -> tuple[str, ...]:
    """Say what readings would be at field capacity, and how sure that is; empty where nobody probed."""
    found, advice = answer.corrected, answer.as_drained
    if found is None:
        return ()
    if isinstance(found, Uncorrected) or advice is None:
        return (_WHY[Uncorrected(str(found))],)
    low, likely, high = (number(each, 2) for each in found.factor)
    lines = [
        f"Water of {percent(found.water[1])} of the volume against {percent(found.drained)} at field capacity: readings times "
        f"{likely} ({low} to {high} by the doubt of the water), by one farm's cores",
        f"{drained_text(answer)}: that of the water, and {scatter_text(units)} either way that such a relation leaves unsaid",
    ]
    if advice.need is not None:
        lines.append(f"Depth to get under what is left of the layer: {need_text(advice, units)}")
    if found.left:
        lines.append(f"{found.left} flags whose hardest reading nobody wrote down stay as they are")
    lines.append("One water stands for all depths; where the ground below is moister, its readings are lowered too far")
    return tuple(lines)
