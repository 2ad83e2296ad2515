"""The parts of an answer in words: each limit, the reverse answers, the season in one line, and how sure it is."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rigcalc.models.machine.limits import LIMITS
from rigcalc.models.rig.tool import by_width
from rigcalc.models.size.answer import Answer, Margin
from rigcalc.models.size.reverse import Furthest
from rigcalc.models.size.season import Season
from rigcalc.models.size.verdict import State
from rigcalc.words.apart import percent_apart, say_apart, share_used
from rigcalc.words.field import such_fields
from rigcalc.words.limits import CUT_TITLES, STATE_WORDS, is_advice, limit_source, limit_title
from rigcalc.words.numbers import System, chance, number, percent, percent_number, say
from rigcalc.words.size.readings_said import sure_by_readings
from rigcalc.words.tools import pieces

_SHORT = {"deepest": "depth", "fastest": "speed", "most tools": "width", "smallest engine": "engine", "least mass": "weight"}
_FULL = 99.0  # a share above this isn't said as a figure


@dataclass(frozen=True)
class MarginWords:
    """One limit in words: its title, how full it is (text), how full as a percentage, its state in a word, its source."""

    name: str
    title: str
    text: str
    used: str
    state: str
    source: str
    advice: bool


@dataclass(frozen=True)
class ReverseWords:
    """The answer to a reverse question: what was asked, the value (or that none works), what binds, and all in one line."""

    question: str
    title: str
    value: str
    why: str
    text: str
    none: bool = False


@dataclass(frozen=True)
class SeasonWords:
    """The season in one line, and its first part alone: area and fuel of a day. Both empty where nothing is known."""

    text: str = ""
    a_day: str = ""


def margin_words(margin: Margin, answer: Answer, units: System) -> MarginWords:
    """Say how much of a limit is used."""
    full = margin.used is not None and math.isfinite(margin.used) and margin.used < _FULL
    lost = margin.limit is not None and not math.isfinite(margin.limit)  # as grip where the tractor tips over
    return MarginWords(
        name=margin.name,
        title=limit_title(margin.name),
        text=_margin_text(margin, answer, units),
        used=share_used(margin.used) if full and margin.used is not None and not lost else "",
        state=STATE_WORDS["unknown" if lost else margin.state],
        source=limit_source(margin.name, answer.caps.slip_source),
        advice=is_advice(margin.name),
    )


def _margin_text(margin: Margin, answer: Answer, units: System) -> str:
    value, most, unit = margin.value, margin.limit, margin.unit
    if margin.name == "equation_range":
        return "every input inside its source's range" if margin.state != "over" else "an input past its source's range"
    if most is None:
        return "not known: the rig file gives no limit"
    if margin.used is None or not all(map(math.isfinite, (value, most, margin.used))):
        return "can't be pulled"
    if margin.name in ("steering", "steering_rest"):
        left, least = say_apart(value, most, unit, units)
        return f"{left} on the front axle; at least {least} to steer"
    if margin.name == "tipping":
        return f"{share_used(value)} of the pull and load that would lift the front"
    if margin.name == "slip":
        return " of at most ".join(percent_apart(value, most) if margin.state == "over" else (percent(value), percent(most)))
    if margin.state == "over":  # the two must not read the same
        return " of ".join(say_apart(value, most, unit, units))
    return f"{say(value, unit, units)} of {say(most, unit, units)}"


_QUESTIONS = {
    "deepest": "Deepest at this speed",
    "fastest": "Fastest at this depth",
    "most tools": "Most {pieces} at this depth and speed",
    "smallest engine": "Smallest engine for this job",
    "least mass": "Least tractor weight for this job",
}


_WIDEST = "Widest at this depth and speed"


def reverse_words(found: Furthest, tool: str, units: System) -> ReverseWords:
    """Say the answer to a reverse question and what binds there."""
    title = _QUESTIONS[found.question].format(pieces=pieces(tool))
    if found.question == "most tools" and by_width(tool):
        title = _WIDEST
    binds = limit_title(found.binds) if found.binds in LIMITS or found.binds in CUT_TITLES else "nothing up to there"
    if found.value is None:
        why = f"{binds} is past its limit whatever you choose"
        return ReverseWords(found.question, title, "none works", why, f"{title}: none works; {why}", none=True)
    value = number(found.value) if found.unit == "1" else say(found.value, found.unit, units)
    if found.question == "smallest engine":
        why = "with nothing in reserve"
        return ReverseWords(found.question, title, value, why, f"{title}: {value}, {why}")
    return ReverseWords(found.question, title, value, binds, f"{title}: {value} ({binds})")


def reverse_lines(reverse: Sequence[ReverseWords]) -> tuple[str, ...]:
    """Say the reverse answers that have a value, a line each; those without one together, by what stops them."""
    stopped: dict[str, list[str]] = {}
    for each in reverse:
        if each.none:
            stopped.setdefault(each.why, []).append(_SHORT[each.question])
    lines = [each.text for each in reverse if not each.none]
    return (*lines, *(f"No answer for {_listed(names)}: {why}" for why, names in stopped.items()))


def _listed(names: list[str]) -> str:
    return " and ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else names[0]


def best_slip_text(answer: Answer) -> str:
    """Say the slip of best tractive efficiency, and how flat the curve is around it; empty where nothing is pulled."""
    low, best, high = answer.best_slip
    if not math.isfinite(best) or answer.verdict.state is State.TIPS:
        return ""
    return (
        f"Best slip: {percent(best)}. Anywhere from {percent_number(low)} to {percent(high)} traction stays within 1 % of "
        "its best."
    )


def season_words(days: Season | None, units: System) -> SeasonWords:
    """Say the season in one line; empty when the rig file doesn't ask for it."""
    if days is None or days.area_per_day is None or days.fuel_per_day is None:
        return SeasonWords()
    a_day = f"{say(days.area_per_day, 'ha', units)} and {say(days.fuel_per_day, 'L', units)} of fuel a day"
    parts = [a_day]
    if days.fillings_per_day is not None:
        parts.append(f"{number(days.fillings_per_day, 2)} tank fillings a day")
    if days.days_needed is not None:
        parts.append(f"{number(days.days_needed, 2)} days needed by the field hours typed")
        if days.days_there_are is not None and days.days_in_hand is not None:
            spare = days.days_in_hand
            parts.append(f"{number(days.days_there_are, 2)} to be expected")
            parts.append(f"{number(spare, 2)} in hand" if spare >= 0 else f"{number(-spare, 2)} too few")
    return SeasonWords("; ".join(parts), a_day)


def chances_text(answer: Answer) -> str:
    """Say the two chances of an answer."""
    sure, fields = answer.sure, such_fields(answer.bare_rig.told)
    return (
        f"Enough grip and engine in {chance(sure.chance_pulls)} {fields}; every limit kept, slip too, in "
        f"{chance(sure.chance_works)}."
    )


def sure_text(answer: Answer) -> str:
    """Say how sure the answer is and what that rests on: the one line of doubt, which stands for all that is from memory."""
    if by_readings := sure_by_readings(answer):
        return chances_text(answer) + by_readings
    return (
        f"{chances_text(answer)} Draft scatters by {percent(answer.sure.draft_range)} either way, and soil strength scatters "
        "too. Most of the standard's figures stand here from memory; the working names each source."
    )
