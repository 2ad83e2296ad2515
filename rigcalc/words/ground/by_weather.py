"""What the weather makes of the ground, in words: worked out and not read, what would make it wrong, and when it may be fit."""

from __future__ import annotations

import math
from datetime import date, timedelta

from rigcalc.models.ground.by_weather import AHEAD, ByWeather
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.machine.water import LEAST_YEARS
from rigcalc.models.machine.wetness import Wet
from rigcalc.models.rig.rig import Rig
from rigcalc.words.numbers import System, number, percent, say

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_THREAD = {"us": "1/8 in", "si": "3 mm"}
_STATES = {
    Wet.FROZEN: "frozen",
    Wet.WET: "too wet",
    Wet.NEAR: "near its limit of wetness",
    Wet.HARD: "dry and hard",
    Wet.READY: "dry enough to break",
}


def weather_headline(found: ByWeather, rig: Rig, units: System) -> str:
    """Say in one sentence what the weather makes of the ground, whose figure that is, and what to do."""
    depth = say(rig.work.depth.to("cm"), "cm", units)
    clod = f"dig a clod at {depth} and roll it to a thread of {_THREAD[units]}"
    text = f"{_STATES[found.wet.state]} at {depth} on {_day(found.day)}, worked out from weather and not read: "
    if found.wet.state is Wet.FROZEN:
        return f"{text}so much cold has gathered. Wrong under snow or thick residue: push a rod in."
    text += f"{_soaked(found, units)}{_water(found, units)}. {_wrong(found)}: {clod}, which counts before this"
    if found.wet.state is Wet.WET:
        return f"{text}. Until it crumbles, wait. {_when(found, units)}"
    return f"{text}: crumbles, go; rolls out, wait.{f' {_when(found, units)}' if found.too_wet else ''}"


def weather_lines(found: ByWeather | None, read: Wet | None, rig: Rig, units: System) -> tuple[str, ...]:
    """Say what stands behind the figure, a line each; empty without a file. read: the state by what somebody read."""
    if found is None:
        return ()
    low, likely, high = found.begins
    doubt = "as typed" if found.begins_typed else f"{percent(low)} to {percent(high)} are in the doubt"
    lines = [f"{_day(found.day)}{', the last day of the file' if found.last else ''}: {_STATES[found.wet.state]}; "
             f"{_water(found, units)}; {percent(found.deepest)} at working depth"]  # fmt: skip
    if read is not None:
        lines.append(_beside(found, read, rig, units))
    lines.append(
        f"Bare {found.texture} followed from {_day(found.begun)} on, begun with {percent(likely)} of the water that plants can "
        f"take ({doubt}): rain in, draining, drying from the top as FAO-56 has it. "
        "Crops, residue, snow, slope and ground water aren't in it"
    )
    lines.append(
        "No day in that time had rain enough to keep off" if found.since is None else
        f"Rain enough to keep off fell {'on the day itself' if found.since == 0 else f'{_days(found.since)} before'}"
    )  # fmt: skip
    if found.bridged:
        lines.append(f"Temperatures of {_days(found.bridged)} were laid between their neighbours")
    if found.flagged:
        lines.append(f"{found.flagged} values that the archive marks as failed were left out of the file")
    if found.too_wet:
        lines.append(_when(found, units))
        if found.guess is not None:
            years = found.guess.years
            lines.append(
                f"Past years: {len(years)}, {years[0]} to {years[-1]}, each under five limits across the doubt of the limit"
            )
            lines.append(_dry(found, units))
    return tuple(lines)


def _beside(found: ByWeather, read: Wet, rig: Rig, units: System) -> str:
    said = "What somebody read of the ground counts; the weather alone decides nothing"
    gaps = (read in (Wet.READY, Wet.HARD) and found.judgement is Judgement.DONT) or (
        read is Wet.WET and found.wet.state in (Wet.READY, Wet.HARD)
    )
    depth = say(rig.work.depth.to("cm"), "cm", units)
    return f"{said}. The two part: look whether both are of the same day, and dig a second clod at {depth}" if gaps else said


def _water(found: ByWeather, units: System) -> str:
    assert found.wet.water is not None
    low, likely, high = found.wet.water
    limits = found.wet.limits
    top, bottom = found.where
    place = f"{say(top, 'cm', units, 2) if top else '0'} to {say(bottom, 'cm', units, 2)}"
    limit = "a plastic limit of" if limits.measured else "what such soil tills at, up to about"
    least, _, most = limits.upper
    return (
        f"about {percent(likely)} water by mass in the wettest layer worked, {place} deep ({percent(low)} to {percent(high)}), "
        f"against {limit} {percent(limits.upper[1])} ({percent(least)} to {percent(most)})"
    )


def _soaked(found: ByWeather, units: System) -> str:
    return f"{_rain(found.rain, units)} of rain fell that day, which keeps off by itself; " if found.soaked else ""


def _rain(mm: float, units: System) -> str:
    return f"{number(mm, 2)} mm" if units == "si" else f"{number(mm / 25.4, 2)} in"


def _wrong(found: ByWeather) -> str:
    return "Wrong where it rained otherwise than at the gauge, or where a crop or a slope drew the water"


def _when(found: ByWeather, units: System) -> str:
    """Say when it may be fit: by past years, else by dry weather alone."""
    if found.guess is None:
        few = f"{found.years} whole past year{'' if found.years == 1 else 's'}"
        return f"No guess of a date: the file has {few} of this date, under {LEAST_YEARS} say too little. {_dry(found, units)}"
    low, middle, high = found.guess.days
    if math.isinf(low):
        return (
            f"No date: in 9 of 10 past runs it isn't fit within {AHEAD} days, for below the top nothing but draining dries "
            "bare ground here."
        )
    between = (
        f"8 in 10 from {_date(found.day, low)} to {_date(found.day, high)}" if math.isfinite(high) else
        f"1 in 10 by {_date(found.day, low)}, and 1 in 10 or more not within {AHEAD} days"
    )  # fmt: skip
    if math.isinf(middle):
        return f"By past years more often than not it isn't fit within {AHEAD} days ({between})."
    return f"Fit again by past years in {_days(middle)}, about {_date(found.day, middle)} ({between})."


def _dry(found: ByWeather, units: System) -> str:
    """Say what dry weather alone would do, at best."""
    assert found.dry is not None
    early, middle, late = (_days(each) if math.isfinite(each) else f"over {AHEAD} days" for each in found.dry)
    head = f"Without any rain, grass evaporating {_rain(found.evaporation, units)} a day, the mean of the days before, "
    if math.isinf(found.dry[0]):
        return f"{head}bare ground would still be too wet after {AHEAD} days."
    return f"{head}it would take {middle} ({early} to {late} across the doubt of the limit); frost isn't in it."


def _days(count: float) -> str:
    return f"{count:.0f} day{'' if count == 1 else 's'}"


def _day(day: date) -> str:
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def _date(day: date, after: float) -> str:
    then = day + timedelta(days=int(after))
    return f"{then.day} {_MONTHS[then.month - 1]}"
