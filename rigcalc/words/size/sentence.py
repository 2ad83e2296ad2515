"""The judgement in words: what stands first in the terminal, on the page, on the sheet. The one place that says it.

Plain enough to read aloud in a cab; every number and every state comes from the models.
"""

from __future__ import annotations

from collections.abc import Callable

from rigcalc.models.machine.limits import LIMITS
from rigcalc.models.size.answer import Answer, Margin
from rigcalc.models.size.verdict import SOFTEST, STEEPEST, Judgement, State
from rigcalc.words.apart import percent_apart, say_apart
from rigcalc.words.field import from_readings, such_fields
from rigcalc.words.judgement import JUDGEMENTS as JUDGEMENTS
from rigcalc.words.limits import limit_title, passed_text
from rigcalc.words.numbers import System, capital, chance, percent, say
from rigcalc.words.said import Said
from rigcalc.words.size.readings_said import says_before, says_doubt
from rigcalc.words.taken import count_by_rule
from rigcalc.words.tools import counted, piece
from rigcalc.words.wetness import wetness_headline

_WORDS = {judgement.value: word for judgement, word in JUDGEMENTS.items()}


def say_answer(answer: Answer, units: System) -> Said:
    """Say in a few sentences whether it pulls, how hard, and what gives out first."""
    said = _SAYS[answer.verdict.state](answer, units)
    return said if answer.wetness is None else _on_its_ground(said, answer, units)


def _on_its_ground(said: Said, answer: Answer, units: System) -> Said:
    """Put what the ground is like first where it decides; else behind what does."""
    assert answer.wetness is not None
    ground = wetness_headline(answer.wetness, answer.rig, units)
    if answer.verdict.by_soil:
        return Said(said.word, ground, (f"Apart from that: {said.headline}", *said.rest))
    return Said(said.word, said.headline, (capital(ground), *said.rest))


def _tips(answer: Answer, units: System) -> Said:
    headline = f"with {_job(answer, units)} the front comes off the ground and the tractor tips over backward."
    return _said(answer, headline, "Lower the hitch, take weight off the drawbar, hang weight in front, or go shallower.")


def _no_grip(answer: Answer, units: System) -> Said:
    headline = (
        f"with {_job(answer, units)} there is no grip left at all; the tractor is too light or the ground too soft or steep."
    )
    return _said(answer, headline)


def _little_grip(answer: Answer, units: System) -> Said:
    p = answer.point.bare
    (pull, most), missing = say_apart(p.net_pull, p.peak_pull, "kN", units), say(p.missing_pull, "kN", units)
    need = f"{_job(answer, units)} {_need(answer)} a pull of {pull}"
    return _said(answer, f"{need}, and the most that grip can give is {most}; {missing} are missing.")


def _little_engine(answer: Answer, units: System) -> Said:
    p, fastest = answer.point.bare, answer.furthest("fastest")
    slower: tuple[str, ...] = ()
    if fastest.value and fastest.value < p.speed:
        slower = (f"At this depth the engine holds {say_apart(fastest.value, p.speed, 'km/h', units)[0]}.",)
    power, most = say_apart(p.engine_power, _limit(answer, "engine"), "kW", units)
    need = f"{_job(answer, units)} {_need(answer)} {power}"
    return _said(answer, f"{need} from the engine, which has at most {most} at this engine speed.", *slower)


def _over_a_limit(answer: Answer, units: System) -> Said:
    over = " and ".join(passed_text(name, piece(answer.rig.implement.tool), units) for name in answer.verdict.passed)
    return _said(answer, f"it would pull {_job(answer, units)} with {_load(answer)}, but {over}.")


def _much_slip(answer: Answer, units: System) -> Said:
    if "slip" not in answer.verdict.passed:
        over = " and ".join(passed_text(name, piece(answer.rig.implement.tool), units) for name in answer.verdict.passed)
        return _said(answer, f"it pulls {_job(answer, units)} with {_load(answer)}, but {over}.", _odds(answer))
    slip, most = percent_apart(answer.point.bare.slip, _limit(answer, "slip"))
    headline = f"it pulls {_job(answer, units)}, but with {slip} slip, over the {most} that the ground asks for: "
    return _said(answer, f"{headline}go shallower, slower, or add weight.", _odds(answer))


def _too_deep(answer: Answer, units: System) -> Said:
    depth, most = say_apart(answer.point.bare.depth, _limit(answer, "critical_depth"), "cm", units)
    p = answer.point.bare
    job = f"{counted(answer.rig, units)} at {say(p.speed, 'km/h', units)}"
    headline = f"it pulls {job}, but {depth} is below the point's critical depth of about {most}, where it loosens no deeper: "
    return _said(
        answer, f"{headline}dig behind a {piece(answer.rig.implement.tool)} and look, or fit wider points.", _other_odds(answer)
    )


def _pushed(answer: Answer, units: System) -> Said:
    brakes = say(answer.point.bare.braking, "kN", units)
    headline = (
        f"with {_job(answer, units)}, slope and tool push the tractor on, and engine and brakes have to hold back {brakes}: "
        "begin where the slope is gentle, in a low gear, or work it uphill."
    )
    return _said(answer, headline, _other_odds(answer))


def _softer_than_known(answer: Answer, units: System) -> Said:
    here, softest = say_apart(answer.bare_rig.cone_index, SOFTEST, "kPa", units)
    headline = (
        f"by the sums it pulls {_job(answer, units)} with {_load(answer)}, but a cone index of {here} is softer than any "
        f"ground that the tables know, which begin at {softest}: wait until it bears, or begin where you can get out again."
    )
    return _said(answer, headline, _other_odds(answer))


def _steep(answer: Answer, units: System) -> Said:
    here, steepest = say_apart(abs(answer.bare_rig.grade), STEEPEST, "deg", units)
    headline = (
        f"by the sums it pulls {_job(answer, units)} with {_load(answer)}, but {here} is steep, over the {steepest} to which "
        "such sums are good: begin where the slope is gentle, and keep to what the tractor's manual allows."
    )
    return _said(answer, headline, _other_odds(answer))


def _light_front(answer: Answer, units: System) -> Said:
    left, least = say_apart(answer.point.bare.front_load, _limit(answer, "steering"), "kN", units)
    headline = (
        f"it pulls {_job(answer, units)} with {_load(answer)}, but leaves {left} on the front axle, under the {least} that "
        "steering takes: hang weight in front, or take load off the hitch."
    )
    return _said(answer, headline, _other_odds(answer))


def _unsure(answer: Answer, units: System) -> Said:
    headline = f"it should pull {_job(answer, units)} with {_load(answer)}, yet every limit holds in {_chance(answer)}"
    if answer.verdict.judgement is Judgement.DONT:
        return _said(answer, f"{headline}.", *_first(answer, units))
    start = answer.sure_depth
    way = f": begin at {say(start, 'cm', units, 2)} and go down while slip and engine load allow it." if start else (
        ": try one round, and stop where slip or engine load runs away.")  # fmt: skip
    return _said(answer, headline + way, *_first(answer, units))


def _works(answer: Answer, units: System) -> Said:
    headline = f"it pulls {_job(answer, units)} with {_load(answer)}."
    return _said(answer, headline, *_first(answer, units), _odds(answer))


_SAYS: dict[State, Callable[[Answer, System], Said]] = {
    State.TIPS: _tips,
    State.NO_GRIP: _no_grip,
    State.LITTLE_GRIP: _little_grip,
    State.LITTLE_ENGINE: _little_engine,
    State.OVER_A_LIMIT: _over_a_limit,
    State.MUCH_SLIP: _much_slip,
    State.PUSHED: _pushed,
    State.SOFTER_THAN_KNOWN: _softer_than_known,
    State.STEEP: _steep,
    State.LIGHT_FRONT: _light_front,
    State.TOO_DEEP: _too_deep,
    State.UNSURE: _unsure,
    State.WORKS: _works,
}


def _said(answer: Answer, headline: str, *rest: str) -> Said:
    by_rule = count_by_rule(answer.rig)
    if by_rule and answer.verdict.judgement is not Judgement.DONT:
        entries = "entry of this rig is" if by_rule == 1 else "entries of this rig are"
        headline = f"{headline.removesuffix('.')}; {by_rule} {entries} taken by rule, not measured."
    if answer.bare_rig.told is not None:
        headline = f"{headline.removesuffix('.')}; {from_readings(answer.bare_rig.told)}."
        rest = (*rest, *filter(None, (says_before(answer, _WORDS), says_doubt(answer))))
    return Said(JUDGEMENTS[answer.verdict.judgement], headline, rest)


def _job(answer: Answer, units: System) -> str:
    p = answer.point.bare
    return f"{counted(answer.rig, units)} {say(p.depth, 'cm', units)} deep at {say(p.speed, 'km/h', units)}"


def _need(answer: Answer) -> str:
    one = answer.rig.implement.width is not None or answer.rig.implement.tools == 1
    return "needs" if one else "need"


def _is_pushed(answer: Answer) -> bool:
    """Say whether slope and tool push the tractor on, so that nothing is pulled."""
    return float(answer.point.bare.braking) > 0


def _load(answer: Answer) -> str:
    p = answer.point.bare
    if _is_pushed(answer):
        return "the slope pushing it on"
    return f"{percent(p.engine_share)} engine load and {percent(p.slip)} slip"


def _limit(answer: Answer, name: str) -> float:
    margin: Margin | None = answer.margin(name)
    assert margin is not None
    assert margin.limit is not None
    return margin.limit


def _first(answer: Answer, units: System) -> tuple[str, ...]:
    deepest = answer.furthest("deepest")
    if deepest.value is None or deepest.binds not in LIMITS:
        return ()
    at = say(deepest.value, "cm", units)
    if at == say(answer.point.bare.depth, "cm", units):
        reached = "this is the critical depth of the point" if deepest.binds == "critical_depth" else (
            f"{limit_title(deepest.binds)} is at its limit")  # fmt: skip
        return (f"No deeper than {at}: {reached}.",)
    return (f"Going deeper, the first limit is {limit_title(deepest.binds)}, at {at}.",)


def _odds(answer: Answer) -> str:
    return f"Every limit holds in {_chance(answer)}."


def _other_odds(answer: Answer) -> str:
    return f"All else holds in {_chance(answer)}."


def _chance(answer: Answer) -> str:
    return f"{chance(answer.sure.chance_works)} {such_fields(answer.bare_rig.told)}"
