"""The words of a slip test."""

from __future__ import annotations

from rigcalc.models.ballast.slip_move import Move
from rigcalc.models.ballast.slip_test import SlipTest, Verdict
from rigcalc.words.ballast.limits import limit_title
from rigcalc.words.ballast.steps import orders_text
from rigcalc.words.numbers import System, number, percent, say
from rigcalc.words.said import Said

_WORDS = {"inside": "Inside the band", "high": "Too much slip", "low": "Little slip", "unsure": "Not settled"}
_WIDE = 0.025  # readings that leave more than this open are worth doing better


def slip_text(test: SlipTest, units: System = "us") -> str:
    """Say what was measured, how sure it is, and how to do better."""
    text = f"Slip is {_points(test.slip)}; the readings allow {_points(test.low)} to {_points(test.high)}."
    wide = test.high - test.low > _WIDE
    if test.turns_for_a_point is not None and wide:
        text += f" To be sure to one point either way, count {number(test.turns_for_a_point)} turns, or read parts of a turn."
    if test.how == "speeds":
        off = max(test.off)
        text += f" Each speed is rounded, by up to {say(off, 'km/h', units, 2)}: that alone leaves this much open."
        if wide:
            text += (" Read both to one more digit, take the mean of ten readings, or count turns between two marks: "
                     "100 of them settle it to a point.")  # fmt: skip
    if test.how == "screen":
        text += (" A screen is right only where its slip was set to zero while driving without load on the same ground: if you "
                 "don't know that, count turns.")  # fmt: skip
    if test.wrong_base is not None and test.slip > 0:
        text += (f" Charts that divide by the ground covered, or by the turns without load, would print "
                 f"{_points(test.wrong_base)}: that is not slip, for slip's base is the travel without slip.")  # fmt: skip
    return text


def said(found: Verdict, units: System) -> Said:
    """Say what to do about a measured slip."""
    band = f"{percent(found.band[0])} to {percent(found.band[1])}"
    headline = {
        "inside": f"Inside the band of {band}: leave the ballast as it is.",
        "high": f"Over the band of {band}: too light, or too much load.",
        "low": f"Under the band of {band}: heavier than it need be for this job.",
        "unsure": f"The readings don't settle it against the band of {band}: measure again before you move weights.",
    }[found.state]
    return Said(_WORDS[found.state], headline, _advice(found, units))


def _advice(found: Verdict, units: System) -> tuple[str, ...]:
    """Say what to move, in whole pieces, and what stops it; nothing where nothing is to be moved."""
    if not found.with_rig or found.to_edge == 0:
        return ()
    if found.to_edge is None:
        first = ("No mass from a third to three times today's brings slip there: change depth, speed or width.",)
        return first if found.move is None or not found.move.steps else (*first, *_pieces(found, found.move, units))
    if found.move is not None and found.move.sets > 1:
        return _pieces(found, found.move, units)
    return _mass(found, units)


def _pieces(found: Verdict, move: Move, units: System) -> tuple[str, ...]:
    if not move.steps:
        return (f"Nothing at hand brings it nearer to the band: {_cut(move, units)}. {_otherwise(found)}",)
    if not move.reaches and not found.slip_is_high:
        off = say(abs(move.change), "kg", units)
        return (f"Even with the {off} off that may come off, slip would be about {percent(move.slip)}, and nothing goes "
                f"further: {_cut(move, units)}. Leave it on. {_otherwise(found)}",)  # fmt: skip
    orders = orders_text(move, units)
    start = f"Should it stand, {orders}" if found.state == "unsure" else f"{orders[:1].upper()}{orders[1:]}"
    verb = "adds" if move.change > 0 else "takes off"
    out = [f"{start}: that {verb} {say(abs(move.change), 'kg', units)} in all, and slip should be about {percent(move.slip)}."]
    if not move.reaches:
        out.append(f"That is still outside the band, and nothing goes further: {_cut(move, units)}. {_otherwise(found)}")
    return tuple(out)


def _cut(move: Move, units: System) -> str:
    parts = [limit_title(which, units) for which in move.cut if which.what != "at_hand"]
    out = [f"{' and '.join(parts)} would be passed"] if parts else []
    if any(which.what == "at_hand" for which in move.cut) or not out:
        out.append("no more weights or liquid at hand would do it")
    return "; ".join(out)


def _otherwise(found: Verdict) -> str:
    return "Go shallower, slower or narrower." if found.slip_is_high else "Go deeper, wider or faster."


def _mass(found: Verdict, units: System) -> tuple[str, ...]:
    """Say a mass where the rig file lists no pieces: what limits leave room for, and nothing off that nobody listed."""
    assert found.to_edge is not None
    if found.to_edge < 0:
        return (f"The rig file lists nothing that could come off. {_otherwise(found)}",)
    share, binds = found.room
    mass = share * found.to_edge
    if binds is not None and share < 1:
        room = f"leaves room for {say(mass, 'kg', units)}" if mass >= 1 else "leaves no room for more"
        return (f"It would take {say(found.to_edge, 'kg', units)} more, but the limit on {limit_title(binds, units)} {room}. "
                f"{_otherwise(found)}",)  # fmt: skip
    places = [f"{say(part, 'kg', units)} on the {axle} axle"
              for part, axle in ((found.front or 0.0, "front"), (found.rear or 0.0, "rear")) if part >= 0.5]  # fmt: skip
    start = "Should it stand, add" if found.state == "unsure" else "Add"
    text = f"{start} about {say(mass, 'kg', units)} to meet the nearer end of the band: {' and '.join(places)}."
    return (text, "List the weights at hand under [[ballast]] to have it in whole pieces.")


def _points(share: float) -> str:
    return f"{100 * share:.1f} %"
