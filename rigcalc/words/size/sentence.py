"""The words of an answer. Plain enough to read aloud in a cab; every number comes from the models."""

from __future__ import annotations

import math
from typing import Any

from rigcalc.models.machine.limits import LIMITS, Caps, Limit
from rigcalc.models.machine.operating_point import Point
from rigcalc.models.machine.sure import Sure
from rigcalc.models.rig.rig import Rig
from rigcalc.models.size.reverse import Furthest
from rigcalc.models.size.season import Season
from rigcalc.models.size.second_opinion import SecondOpinion
from rigcalc.words.numbers import System, chance, number, percent, say

# What is said when a limit is passed, for the hard limits apart from engine and grip.
_PASSED = {
    "front_load": "the front axle carries more than its limit",
    "rear_load": "the rear axle carries more than its limit",
    "front_pressure": "the front tracks press harder than their limit",
    "rear_pressure": "the rear tracks press harder than their limit",
    "steering": "the front axle is too light to steer",
    "hitch_load": "the load on the hitch is over its limit",
    "tool_depth": "the tool is not built for that depth",
    "tool_power": "each shank takes more power than it is rated for",
}


def sentence(
    rig: Rig,
    p: Point,
    used: dict[str, Any],
    values: dict[str, Any],
    answers: list[Furthest],
    sure: Sure,
    but: str,
    units: System,
) -> str:
    """Say in one or two sentences whether it pulls, how hard, and what gives out first."""
    job = f"{rig.implement.tools} shanks {say(p.depth, 'cm', units)} deep at {say(p.speed, 'km/h', units)}"
    if not math.isfinite(float(p.slip)):
        if p.peak_pull <= 0:
            return f"No: with {job} there is no grip left at all; the tractor is too light or the ground too soft or steep."
        return (f"No: {job} need a pull of {say(p.net_pull, 'kN', units)}, and the most that grip can give is "
                f"{say(p.peak_pull, 'kN', units)}; {say(p.missing_pull, 'kN', units)} are missing.")  # fmt: skip
    if used["engine"] > 1:
        has = values["engine"][1]
        fastest = next(a for a in answers if a.question == "fastest")
        slower = f" At this depth it goes up to {say(fastest.value, 'km/h', units)}." if fastest.value else ""
        return (f"No: {job} need {say(p.engine_power, 'kW', units)} from the engine, which has at most "
                f"{say(has, 'kW', units)}.{slower}")  # fmt: skip
    load = f"{percent(p.engine_share)} of rated power and {percent(p.slip)} slip"
    passed = [_PASSED[name] for name in used if LIMITS[name].hard and name in _PASSED and used[name] > 1]
    if passed:
        return f"Not as it stands: it would pull {job} with {load}, but {' and '.join(passed)}."
    odds = f"Enough grip and engine in {chance(sure.chance_pulls)} such fields."
    if used["slip"] > 1:
        return (f"It pulls {job}, but with {percent(p.slip)} slip, over the {percent(values['slip'][1])} that the ground "
                f"asks for: go shallower, slower, or add weight. {odds}{but}")  # fmt: skip
    deepest = next(a for a in answers if a.question == "deepest")
    first = ""
    if deepest.value is not None and deepest.binds in LIMITS:
        at = say(deepest.value, "cm", units)
        first = f" Going deeper, {LIMITS[deepest.binds].title} gives out first, at {at}."
    return f"Yes: it pulls {job} with {load}.{first} {odds}{but}"


def doubt(second: SecondOpinion | None, p: Point, c: Caps) -> str:
    """Say the doubt that goes with an extreme depth where the subsoiler row would stop the rig; empty otherwise."""
    if second is None or second.goes or c.extreme_depth is None or p.depth < c.extreme_depth:
        return ""
    times = number(second.draft / float(p.draft), 2)
    return (
        f" But so deep a chisel leaves its row of the table: the subsoiler row asks for {times} times the draft. Try it first."
    )


def margin_text(limit: Limit, value: float, most: float | None, unit: str, used: float | None, units: System) -> str:
    """Say how much of a limit is used."""
    if most is None:
        return "not known: the rig file gives no limit"
    if used is None or not math.isfinite(value) or not math.isfinite(used):
        return "can't be pulled"
    if limit.name == "steering":
        return f"{say(value, unit, units)} on the front axle; at least {say(most, unit, units)} to steer"
    if limit.name == "slip":
        return f"{percent(value)} of at most {percent(most)}"
    return f"{say(value, unit, units)} of {say(most, unit, units)}"


_QUESTIONS = {
    "deepest": "Deepest at this speed",
    "fastest": "Fastest at this depth",
    "most tools": "Most shanks at this depth and speed",
    "smallest engine": "Smallest engine for this job",
    "least mass": "Least tractor weight for this job",
}


def reverse_text(answer: Furthest, units: System) -> str:
    """Say the answer to a reverse question and what binds there."""
    title = _QUESTIONS[answer.question]
    binds = LIMITS[answer.binds].title if answer.binds in LIMITS else answer.binds
    if answer.value is None:
        return f"{title}: none works; {binds} is past its limit whatever you choose"
    value = number(answer.value) if answer.unit == "1" else say(answer.value, answer.unit, units)
    if answer.question == "smallest engine":
        return f"{title}: {value}, with nothing in reserve"
    return f"{title}: {value} ({binds})"


def season_text(days: Season | None, units: System) -> str:
    """Say the season in one line; empty when the rig file doesn't ask for it."""
    if days is None or days.area_per_day is None or days.fuel_per_day is None:
        return ""
    parts = [f"{say(days.area_per_day, 'ha', units)} and {say(days.fuel_per_day, 'L', units)} of fuel a day"]
    if days.fillings_per_day is not None:
        parts.append(f"{number(days.fillings_per_day, 2)} tank fillings a day")
    if days.days_needed is not None:
        parts.append(f"{number(days.days_needed, 2)} working days needed")
        if days.days_there_are is not None and days.days_in_hand is not None:
            spare = days.days_in_hand
            parts.append(f"{number(days.days_there_are, 2)} to be expected")
            parts.append(f"{number(spare, 2)} in hand" if spare >= 0 else f"{number(-spare, 2)} too few")
    return "; ".join(parts)
