"""The judgement in words: what stands first in the terminal, on the page, on the sheet. The one place that says it.

Plain enough to read aloud in a cab; every number and every state comes from the models.
"""

from __future__ import annotations

from collections.abc import Callable

from rigcalc.models.machine.limits import LIMITS
from rigcalc.models.size.answer import Answer, Margin
from rigcalc.models.size.verdict import State
from rigcalc.words.limits import limit_title, passed_text
from rigcalc.words.numbers import System, chance, number, percent, say
from rigcalc.words.said import Said
from rigcalc.words.tools import counted, piece, tool_words


def say_answer(answer: Answer, units: System) -> Said:
    """Say in a few sentences whether it pulls, how hard, and what gives out first."""
    return _SAYS[answer.verdict.state](answer, units)


def _no_grip(answer: Answer, units: System) -> Said:
    job = _job(answer, units)
    return Said("No", f"with {job} there is no grip left at all; the tractor is too light or the ground too soft or steep.")


def _little_grip(answer: Answer, units: System) -> Said:
    p = answer.point.bare
    pull, most, missing = (say(value, "kN", units) for value in (p.net_pull, p.peak_pull, p.missing_pull))
    need = f"{_job(answer, units)} {_need(answer)} a pull of {pull}"
    return Said("No", f"{need}, and the most that grip can give is {most}; {missing} are missing.")


def _little_engine(answer: Answer, units: System) -> Said:
    p, fastest = answer.point.bare, answer.furthest("fastest")
    slower = (f"At this depth it goes up to {say(fastest.value, 'km/h', units)}.",) if fastest.value else ()
    most = say(_limit(answer, "engine"), "kW", units)
    need = f"{_job(answer, units)} {_need(answer)} {say(p.engine_power, 'kW', units)}"
    return Said("No", f"{need} from the engine, which has at most {most}.", slower)


def _over_a_limit(answer: Answer, units: System) -> Said:
    over = " and ".join(passed_text(name, piece(answer.rig.implement.tool)) for name in answer.verdict.passed)
    return Said("Not as it stands", f"it would pull {_job(answer, units)} with {_load(answer)}, but {over}.")


def _much_slip(answer: Answer, units: System) -> Said:
    slip, most = percent(answer.point.bare.slip), percent(_limit(answer, "slip"))
    headline = f"it pulls {_job(answer, units)} with {slip} slip, over the {most} that the ground asks for: "
    return Said("Yes, but", f"{headline}go shallower, slower, or add weight.", (_odds(answer), *_doubt(answer)))


def _works(answer: Answer, units: System) -> Said:
    headline = f"it pulls {_job(answer, units)} with {_load(answer)}."
    return Said("Yes", headline, (*_first(answer, units), _odds(answer), *_doubt(answer)))


_SAYS: dict[State, Callable[[Answer, System], Said]] = {
    State.NO_GRIP: _no_grip,
    State.LITTLE_GRIP: _little_grip,
    State.LITTLE_ENGINE: _little_engine,
    State.OVER_A_LIMIT: _over_a_limit,
    State.MUCH_SLIP: _much_slip,
    State.WORKS: _works,
}


def _job(answer: Answer, units: System) -> str:
    p = answer.point.bare
    return f"{counted(answer.rig)} {say(p.depth, 'cm', units)} deep at {say(p.speed, 'km/h', units)}"


def _need(answer: Answer) -> str:
    return "needs" if answer.rig.implement.tools == 1 else "need"


def _load(answer: Answer) -> str:
    p = answer.point.bare
    return f"{percent(p.engine_share)} of rated power and {percent(p.slip)} slip"


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
    return (f"Going deeper, {limit_title(deepest.binds)} gives out first, at {at}.",)


def _odds(answer: Answer) -> str:
    return f"Enough grip and engine in {chance(answer.sure.chance_pulls)} such fields."


def _doubt(answer: Answer) -> tuple[str, ...]:
    """Say the doubt that goes with an extreme depth where the other row of the table would stop the rig."""
    second = answer.second_opinion
    if not answer.verdict.doubted or second is None:
        return ()
    times = number(second.draft / float(answer.point.bare.draft), 2)
    tool, row = tool_words(answer.rig.implement.tool), tool_words(second.row).row
    so_deep = f"so deep {tool.one}"
    return (f"But {so_deep} leaves its row of the table: the {row} asks for {times} times the draft.", "Try it first.")
