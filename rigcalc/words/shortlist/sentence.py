"""Which tractor, and when none: what stands first in a shortlist. The one place that says it."""

from __future__ import annotations

from rigcalc.models.shortlist.answer import NOTHING, Fit, Shortlist, power_of
from rigcalc.models.shortlist.trial import OF_THE_TOOL
from rigcalc.models.size.answer import Answer
from rigcalc.models.size.failing import fails_most
from rigcalc.models.size.verdict import Judgement, State
from rigcalc.words.limits import limit_title, passed_text
from rigcalc.words.numbers import System, capital, chance, percent, say
from rigcalc.words.rig_name import DRIVES
from rigcalc.words.said import Said
from rigcalc.words.tools import counted, piece
from rigcalc.words.wetness import wetness_headline

_CALLED = {Judgement.GO: "go", Judgement.TRY: "try it first", Judgement.DONT: "don't"}
# Matters that keep a tractor from "go" whatever its power.
_NO_GO = {
    State.TOO_DEEP: "it works below the critical depth of the point, behind any tractor",
    State.PUSHED: "the slope pushes the rig on",
    State.SOFTER_THAN_KNOWN: "the ground is softer than any row of the tables",
    State.STEEP: "the slope is steeper than such sums are good for",
    State.LIGHT_FRONT: "the front axle keeps too little to steer",
}
_STOPS = {
    "engine": "engine power with the reserve gives out",
    "grip": "grip can't give the pull",
    "slip": "it slips more than the ground asks for",
}


def say_shortlist(found: Shortlist, units: System) -> Said:
    """Say in a few sentences which is the smallest tractor, what other drives need, how wide a tool this tractor takes."""
    said = _none(found, units) if found.best is None else _best(found, found.best, units)
    if found.wet is None:
        return said
    answer = found.fits[0].largest
    assert answer.wetness is not None
    ground = wetness_headline(answer.wetness, found.rig, units)
    return Said("Don't", ground, (f"Once it is fit: {said.word}, {said.headline}", *said.rest))


def _best(found: Shortlist, best: Fit, units: System) -> Said:
    assert best.smallest is not None
    word = f"{say(power_of(best.smallest), 'kW', units)} {DRIVES[best.drive]}"
    pulls = f"the smallest by class that pulls {_job(found, units)} with {_reserve(found)}; {_how_sure(best.smallest)}."
    others = [_of(fit, units) for fit in found.fits if fit is not best]
    return Said(word, " ".join((pulls, *_go_from(best, units))), (*others, _wide(found, units)))


def _none(found: Shortlist, units: System) -> Said:
    most = say(max(fit.most_power for fit in found.fits), "kW", units)
    headline = f"no tractor by class up to {most} pulls {_job(found, units)} with {_reserve(found)}."
    of_tool = {fit.binds for fit in found.fits}
    if len(of_tool) == 1 and (name := of_tool.pop()) in OF_THE_TOOL:
        why = f"{capital(passed_text(name, piece(found.rig.implement.tool), units))}, whichever tractor pulls it."
        return Said("None", headline, (why, _wide(found, units)))
    return Said("None", headline, (*(_of(fit, units) for fit in found.fits), _wide(found, units)))


def _of(fit: Fit, units: System) -> str:
    """Say what one drive needs, in a sentence."""
    name = capital(DRIVES[fit.drive])
    if fit.smallest is None:
        return f"{name}: none up to {say(fit.most_power, 'kW', units)}, {why_none(fit, units)}."
    least = ", the least that is looked at of its kind" if fit.is_least else ""
    line = f"{name}: from {say(power_of(fit.smallest), 'kW', units)}{least}, {_how_sure(fit.smallest)}"
    return " ".join((f"{line}.", *_go_from(fit, units)))


def _go_from(fit: Fit, units: System) -> tuple[str, ...]:
    """Say from which power it is go, where that isn't the smallest; or why it never is."""
    assert fit.smallest is not None
    if fit.surest is None:
        return (f"None up to {say(fit.most_power, 'kW', units)} is go: {_why_no_go(fit)}.",)
    if power_of(fit.surest) == power_of(fit.smallest):
        return ()
    return (f"Go from {say(power_of(fit.surest), 'kW', units)}, every limit holds in {_in_fields(fit.surest)}.",)


def why_none(fit: Fit, units: System) -> str:
    """Say what stops the most powerful tractor of a drive."""
    if fit.used <= 1:
        return f"in too few fields every limit holds, {_in_fields(fit.largest)}"
    return _STOPS.get(fit.binds) or passed_text(fit.binds, piece(fit.largest.rig.implement.tool), units)


def _why_no_go(fit: Fit) -> str:
    state = fit.largest.verdict.state
    if state in _NO_GO:
        return _NO_GO[state]
    name = fails_most(fit.largest) or fit.binds
    return f"{limit_title(name)} gives out in too many fields"


def _wide(found: Shortlist, units: System) -> str:
    """Say how wide a tool the rig's own tractor takes."""
    widest, own = found.widest, f"This tractor, {say(found.rig.tractor.rated_power.to('kW'), 'kW', units)},"
    stops = "no limit" if widest.binds == NOTHING else limit_title(widest.binds)
    if widest.widest is None:
        narrow = f"not even one {piece(found.rig.implement.tool)}" if found.rig.implement.width is None else "no width"
        return f"{own} takes {narrow} at this depth and speed with the same reserve: {stops} stands against it."
    line = f"{own} takes {counted(widest.widest.rig, units)} at most with the same reserve, {_how_sure(widest.widest)}"
    if widest.surest is None:
        return f"{line}; {stops} stops more. It is go with no number of them."
    if widest.surest.rig.implement == widest.widest.rig.implement:
        return f"{line}; {stops} stops more."
    return f"{line}; {stops} stops more. Go up to {counted(widest.surest.rig, units)}, {_in_fields(widest.surest)}."


def _how_sure(answer: Answer) -> str:
    """Say judgement and chance, the ground's wetness left out: it is the same behind any tractor."""
    judged = answer.verdict.alone or answer.verdict.judgement
    beside = "all else" if answer.verdict.state in _NO_GO else "every limit"
    return f"{_CALLED[judged]}, {beside} holds in {_in_fields(answer)}"


def _in_fields(answer: Answer) -> str:
    return f"{chance(answer.sure.chance_works)} such fields"


def _job(found: Shortlist, units: System) -> str:
    depth, speed = found.rig.work.depth.to("cm"), found.rig.work.speed.to("km/h")
    return f"{counted(found.rig, units)} {say(depth, 'cm', units)} deep at {say(speed, 'km/h', units)}"


def _reserve(found: Shortlist) -> str:
    return f"{percent(found.reserve) if found.reserve else 'none'} of its engine power in reserve"
