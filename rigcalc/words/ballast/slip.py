"""The words of a slip test."""

from __future__ import annotations

from rigcalc.models.ballast.slip_test import SlipTest, Verdict
from rigcalc.words.numbers import System, number, percent, say


def slip_text(test: SlipTest) -> str:
    """Say what was measured, and how sure it is."""
    text = f"Slip is {_points(test.slip)}; the readings allow {_points(test.low)} to {_points(test.high)}."
    if test.turns_for_a_point is not None and (test.high - test.low) > 0.025:
        text += f" To be sure to one point either way, count {number(test.turns_for_a_point)} turns, or read parts of a turn."
    if test.wrong_base is not None and test.slip > 0:
        text += (f" Charts that divide by the ground covered, or by the turns without load, would print "
                 f"{_points(test.wrong_base)}: that is not slip, for slip's base is the travel without slip.")  # fmt: skip
    return text


def verdict_text(found: Verdict, units: System) -> str:
    """Say what to do about a measured slip."""
    band = f"{percent(found.band[0])} to {percent(found.band[1])}"
    start = {
        "inside": f"Inside the band of {band}: leave the ballast as it is.",
        "high": f"Over the band of {band}: too light, or too much load.",
        "low": f"Under the band of {band}: heavier than it need be for this job.",
        "unsure": f"The readings don't settle it against the band of {band}: count more turns before you move weights.",
    }[found.state]
    if found.to_edge is None:
        far = " No mass from a third to three times today's brings slip there: change depth, speed or width."
        return start + (far if found.with_rig else "")
    if found.to_edge == 0 or found.front is None or found.rear is None:
        return start
    verb = "Add" if found.to_edge > 0 else "Take off"
    if found.state == "unsure":
        verb = f"Should it stand, {verb.lower()}"
    places = [f"{say(abs(part), 'kg', units)} {'on' if part > 0 else 'off'} the {axle} axle"
              for part, axle in ((found.front, "front"), (found.rear, "rear")) if abs(part) >= 0.5]  # fmt: skip
    text = f"{start} {verb} about {say(abs(found.to_edge), 'kg', units)} to meet the nearer end of the band"
    text += f": {' and '.join(places)}."
    if found.to_middle is not None and abs(found.to_middle) > abs(found.to_edge):
        text += f" The middle of the band would take {say(abs(found.to_middle), 'kg', units)}."
    return text


def _points(share: float) -> str:
    return f"{100 * share:.1f} %"
