"""Zones of fields in words: how hard each pulls, what to hold there, and the hours that takes more."""

from __future__ import annotations

from rigcalc.models.passes.answer import FieldAnswer
from rigcalc.models.passes.zoned import HEADLAND, LANES, FieldZone, Zoned
from rigcalc.words.limits import limit_title
from rigcalc.words.numbers import System, capital, number, percent, say

ZONE_HEADS = ("Zone", "Area", "Wheeled", "Draft", "Hold", "Hours more")
_NAMES = {HEADLAND: "headland", LANES: "passes in lanes", "rest": "the rest"}


def hours(value: float) -> str:
    """Say hours; minutes under one."""
    return f"{60 * value:.0f} min" if value < 0.995 else f"{number(value, 3)} h"


def zone_rows(found: FieldAnswer, units: System) -> tuple[tuple[str, ...], ...]:
    """Give a row a zone; none where nobody says what else drove there."""
    return tuple(_row(zone, units) for zone in found.zoned.each) if found.zoned is not None else ()


def _row(zone: FieldZone, units: System) -> tuple[str, ...]:
    more = "-" if zone.hold == "no" else hours(zone.more) if zone.more > 0 else "none"
    return _NAMES[zone.name], say(zone.area, "ha", units), percent(zone.wheeled), factor_text(zone), _hold(zone, units), more


def factor_text(zone: FieldZone) -> str:
    """Say what wheels do to draft: "1.3 times (1.2 to 1.4)"."""
    low, likely, high = (number(end, 3) for end in zone.rise)
    return f"{likely} times ({low} to {high})" if low != high else f"{likely} times"


def _hold(zone: FieldZone, units: System) -> str:
    if zone.hold == "no":
        return "not workable"
    return f"{say(zone.depth, 'cm', units)}, {say(zone.speed, 'km/h', units, 2)}"


def legend(zone: FieldZone, zoned: Zoned, units: System) -> str:
    """Say in the picture what a zone is: its name, how hard it pulls, what to hold."""
    name = _NAMES[zone.name]
    if zone.name == LANES:
        name += f" every {' and '.join(say(apart, 'm', units) for apart in zoned.apart)}"
    if zone.name == HEADLAND:
        name += ", worked in rounds"
    held = "" if zone.hold == "as it is" else f"; {_hold(zone, units)}"
    return f"{name}: draft {number(zone.rise[1], 3)} times{held}"


def zone_lines(found: FieldAnswer, units: System) -> tuple[str, ...]:
    """Say where the job doesn't go as it is, and what that takes more."""
    if found.zoned is None:
        return ()
    out = []
    for zone in found.zoned.each:
        name, limit = capital(_NAMES[zone.name]), limit_title(zone.limit)
        if zone.hold == "no":
            out.append(f"{name}: {limit} gives out however slow and shallow.")
        elif zone.hold == "depth":
            out.append(f"{name}: {limit} gives out at this depth at any speed; hold {_hold(zone, units)}.")
        elif zone.hold == "speed":
            out.append(f"{name}: {limit} gives out at this speed; hold {say(zone.speed, 'km/h', units, 2)}, "
                       f"{hours(zone.more)} more.")  # fmt: skip
    if not out and found.zoned.each:
        where = "Headland and lanes that others wheeled pull" if found.zoned.apart else "The headland that others wheeled pulls"
        out.append(f"{where} harder, and the job goes there as it is.")
    return tuple(out)


def zone_note(found: FieldAnswer) -> str:
    """Say what zones rest on; empty where there are none."""
    if found.zoned is None:
        return ""
    where = " Where lanes begin isn't known: the first is laid half their distance from the edge." if found.zoned.apart else ""
    return ("Zones are the ground's answer for these fields by what else drove there; draft is over that of ground no other "
            f"machine ran on. Hours more aren't in the hours above.{where}")  # fmt: skip
