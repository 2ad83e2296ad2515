"""Is it done in time? What stands first in a season's answer, a no among it. The one place that says it."""

from __future__ import annotations

from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.season.answer import SeasonAnswer
from rigcalc.models.season.change import (
    DRIVER,
    FASTER,
    FASTER_BY,
    FEWER,
    HELPER,
    HOUR,
    SECOND,
    SHALLOWER,
    SHALLOWER_BY,
    WIDER,
    Change,
)
from rigcalc.models.season.plan import choice
from rigcalc.models.season.reading_plan import day_text
from rigcalc.models.season.record import COUNTED, OWN_SHARE, WEATHER
from rigcalc.models.season.workable import Worked
from rigcalc.words.limits import passed_text
from rigcalc.words.numbers import System, chance, number, percent, say
from rigcalc.words.rig_name import rig_name
from rigcalc.words.said import Said
from rigcalc.words.tools import piece

_LEVELS = ("in half of them", "in 8 of 10", "in 9 of 10")


def of_seasons(share: float, autumn: bool) -> str:
    """Say a share of years, no finer than some twenty years can carry: "8 of 10 autumns"."""
    what = "autumns" if autumn else "seasons"
    if share >= 0.975:
        return f"nearly all {what}"
    if share > 0.925:
        return f"19 of 20 {what}"
    if share < 0.025:
        return f"hardly any of the {what}"
    if share < 0.075:
        return f"1 of 20 {what}"
    tenths = max(round(10 * share), 1)
    # The nearest, but never past a border of the verdict: 79 in 100 isn't the 8 of 10 that a yes asks for.
    if any(share < border <= tenths / 10 for border in (choice("go"), choice("dont"))):
        tenths -= 1
    return f"{tenths} of 10 {what}"


def say_season(found: SeasonAnswer, units: System) -> Said:
    """Say in a few sentences whether it is done in time, by how much, from when, and what would help most."""
    return Said(_word(found), _headline(found, units), tuple(_rest(found, units)))


def _word(found: SeasonAnswer) -> str:
    if found.judgement is Judgement.DONT:
        return "No"
    return "Yes" if found.judgement is Judgement.GO else "Not surely"


def _headline(found: SeasonAnswer, units: System) -> str:
    by, share = day_text(found.by), of_seasons(found.finish.chance, found.autumn)
    if (failing := found.failing) is not None:
        assert failing.limit is not None
        why = _PULL.get(failing.limit) or passed_text(failing.limit, piece(failing.rig.implement.tool), units)
        days = f"By the days alone it would be done by {by} in {share}."
        return f"{why} at this depth and speed, whatever the season. {days}"
    line = f"by {by} it is done in {share}{_if_so(found)}"
    if found.seasons.borrowed:
        return f"{line}, if years scatter then as they do in autumn."
    whose = ", as a northern plains state had them; type the days fit where you are"
    if found.seasons.worked is not None:
        years, texture = len(found.seasons.years), found.seasons.worked.texture
        whose = f", by days that nobody counted: {years} years of weather worked out on bare {texture}"
    return f"{line}{'' if found.own_days else whose}."


def _if_so(found: SeasonAnswer) -> str:
    """Say what the answer hangs on that nobody typed, or that was typed and can hardly be; empty where nothing is."""
    said = ""
    if dates := [text for name, text in (("start", day_text(found.start)), ("by", day_text(found.by))) if name in found.taken]:
        said += f", with {' and '.join(dates)} taken since nobody typed {'them' if len(dates) > 1 else 'it'}"
    if (day := found.doubted) is not None:
        said += f", if {hours(day.field)} in the field are right: {hours(day.clock)} of the clock leave {hours(day.built)}"
    if (day := found.tired) is not None:
        who = "one person" if day.people == 1 else f"each of {day.people} people"
        said += f", if {who} can keep up {hours(day.each)} a day"
    first = found.rigs[0].day
    if first.people > 1 and found.plan.day.home is None and not first.typed:
        said += f", with {hours(first.clock)} of the clock taken for {first.people} people since nobody typed when they end"
    return said


_PULL = {"engine": "the engine gives out", "grip": "grip can't give the pull"}


def _rest(found: SeasonAnswer, units: System) -> list[str]:
    finish, first = found.finish, found.rigs[0].day
    out = []
    if all(one.day.area > 0 for one in found.rigs):
        area = sum(one.day.area for one in found.rigs)
        day = f"A clock day of {hours(first.clock)} holds {hours(first.field)} in the field"
        several = f"with the first rig; {len(found.rigs)} rigs, each with somebody to drive it, do"
        out.append(f"{day} {'and does' if len(found.rigs) == 1 else several} {say(area, 'ha', units)}.")
        out.append(
            f"{say(found.area, 'ha', units)} take {_days(finish.needed[1])} fit days, breakdowns counted; {_there(found)}."
        )
        if found.plan.calendar:
            out.append(_calendars(found, units))
        out.append(_in_hand(found))
        out.append(_begin(found))
    elif all(one.limit is None for one in found.rigs):
        out.append(f"A clock day of {hours(first.clock)} leaves no hour for the field.")
    if (found.failing is not None or found.finish.chance < choice("go")) and (best := _best(found, units)):
        out.append(best)
    return out


def _calendars(found: SeasonAnswer, units: System) -> str:
    """Say when each rig is there, and what that makes of a day."""
    own = [found.plan.calendar_of(place) for place in range(len(found.rigs))]
    spans = [f"{rig_name(one.rig, units)} is there {day_text(each.comes or found.start)} to {day_text(each.goes or found.by)}"
             for one, each in zip(found.rigs, own, strict=True)]  # fmt: skip
    if len(spans) == 1:
        return f"The {spans[0]}; other days don't count."
    return f"{'; '.join(spans)}. A day without one of them counts by what the others do."


def _there(found: SeasonAnswer) -> str:
    there = [max(days, 0.0) for days in found.finish.there]
    later = " before the later passes" if found.later else ""
    days, middle, eight = found.by - found.start + 1, _days(there[0]), _days(there[1])
    return f"of {days} on the calendar{later} {middle} are fit in a middle year, {eight} or more in 8 of 10"


def _in_hand(found: SeasonAnswer) -> str:
    """Say the days left over at each chance; a plan by the middle year fails every second one."""
    parts = []
    for level, days in zip(_LEVELS, found.finish.in_hand, strict=True):
        if days == -float("inf"):
            parts.append(f"the {'later passes alone take more than there are' if found.later else 'rig stands'} {level}")
        elif days >= 0:
            parts.append(f"{_days(days)} or more in hand {level}")
        else:
            parts.append(f"at most {_days(-days)} too few {level}")
    return f"Fit days: {'; '.join(parts)}."


def _days(days: float) -> str:
    """Say days: to a tenth, which is more than they are good for; whole from ten up."""
    return f"{days:.1f}" if days < 9.95 else f"{days:,.0f}"


def _begin(found: SeasonAnswer) -> str:
    day = found.finish.latest[1]
    if day < 0:
        return f"To be done in 8 of 10, {day_text(found.start)} is too late to begin."
    return f"To be done in 8 of 10, begin by {day_text(found.start + day)}."


def _best(found: SeasonAnswer, units: System) -> str:
    now = found.finish.chance
    # Where a limit is passed it is a help already to pass none.
    least = now + 0.01 if found.failing is None else 0.0
    helps = [change for change in found.changes if change.holds and change.chance > least]
    if not helps:
        return "None of the changes looked at helps by itself." if found.changes else ""
    what = "; ".join(f"{change_text(change, units)}, {chance(change.chance)}" for change in helps[:2])
    enough = [change for change in helps if change.chance >= choice("go") and change.cost is not None]
    cheapest = min(enough, key=lambda change: change.cost or 0.0, default=None)
    cheap = f" The cheapest that gets to 8 of 10: {change_text(cheapest, units)}." if cheapest else ""
    return f"What helps most, where it is {chance(now)} now: {what}.{cheap}"


def change_text(change: Change, units: System) -> str:
    """Say what one change is."""
    less, more = SHALLOWER_BY[change.metric], FASTER_BY[change.metric]  # the step that was run, in whatever units it is read
    return {
        HOUR: "an hour a day more",
        HELPER: "a helper who fuels at the field",
        DRIVER: _driver(change),
        SHALLOWER: f"{say(less, 'cm', units, 2)} shallower",
        FASTER: f"{say(more, 'km/h', units, 2)} faster",
        WIDER: "two tools more",
        SECOND: "a second such rig",
        FEWER: "a tenth less area",
    }[change.name]


def _driver(change: Change) -> str:
    which = "a second driver" if change.people == 2 else "one driver more"
    return f"{which}{' for each rig' if change.rigs > 1 else ''}, {hours(change.clock)} of the clock"


def days_rest_on(found: SeasonAnswer, units: System) -> list[str]:
    """Say whose days fit for work these are; in more than one line where they are worked out from weather."""
    years, share = found.seasons, percent(found.seasons.fit.mean())
    if years.kind == COUNTED:
        return [f"Days fit for work are your own counts of {len(years.years)} years, spread evenly from start to deadline."]
    if years.kind == WEATHER:
        assert years.worked is not None
        return _worked_out(years.worked, years.years, units)
    record = f"{len(years.years)} autumns from {years.years[0]} to {years.years[-1]} of a northern plains state"
    left = f"; {years.left_out} more, without a report of every week, are left out" if years.left_out else ""
    if years.kind == OWN_SHARE:
        other = " (of another time of the year than yours; frost isn't counted)" if years.borrowed else ""
        how = f"how years scatter about it is from {record}{other}{left}"
        return [f"Days fit for work: your own share in the middle year; {how}."]
    return [f"Days fit for work are those of {record}, {share} of all{left}. Type your own share."]


def _worked_out(worked: Worked, years: tuple[int, ...], units: System) -> list[str]:
    """Say what days worked out from weather rest on."""
    depth, rain = say(100 * worked.depth, "cm", units, 2), say(choice("wet_day") / 10, "cm", units, 1)
    dry, middle, wet = (percent(share) for share in worked.shares)
    whose = "your plastic limit" if worked.measured else "a limit by clay and organic matter"
    lines = [
        f"Days fit for work are worked out from {len(years)} years of weather, {years[0]} to {years[-1]}, on bare "
        f"{worked.texture} down to {depth}: no layer wetter than it tills, by {whose}, no frost in the ground, "
        f"less than {rain} of rain that day.",
        f"In a middle year {middle} of the days are fit so, {dry} to {wet} over the doubt of that limit, across which each "
        "year counts five times.",
        f"Each year begins with {percent(worked.begins)} of the water that plants can take"
        f"{'' if worked.begins_typed else ', which nobody typed'}.",
    ]
    if not worked.drains:
        top = say(100 * choice("drying_layer"), "cm", units, 1)
        lines.append(f"Soaked {worked.texture} drains to more than its limit, and below the top {top} nothing dries it here.")
    if worked.left_out:
        year, day = next(iter(worked.left_out.items()))
        lines.append(f"Years with a gap are left out: {len(worked.left_out)}, {year} since {day} isn't there whole.")
    if worked.filled or worked.flagged:
        lines.append(f"Temperatures laid between their neighbours: {worked.filled}; values marked as failed: {worked.flagged}.")
    return lines


def hours(value: float) -> str:
    """Say hours: "10.5 h", or minutes where they are few."""
    return f"{number(value, 3)} h" if value >= 1 else f"{60 * value:.0f} min"
