"""What is said of a field's zones: how much is wheeled, what that does to draft, what to hold there, hours and fuel."""

from __future__ import annotations

import math

from rigcalc.models.ground.traffic import Traffic
from rigcalc.models.ground.zones import Hold, Zone, Zones
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.rig.rig import Rig
from rigcalc.words.limits import limit_title, passed_text
from rigcalc.words.numbers import System, capital, number, percent, say
from rigcalc.words.tools import piece

TITLES = ("", "area", "wheeled", "draft", "hold", "hours", "fuel")
_WHERE = {"headland": "in the headland ", "lanes": "in the lanes ", "rest": "in the rest of the field "}
_PULL = {"engine": "the engine gives out", "grip": "grip can't give the pull"}
_NAMES = {"headland": "headland", "lanes": "lanes", "rest": "rest"}


def zone_rows(found: Zones, units: System) -> tuple[tuple[str, ...], ...]:
    """Give a row a zone, and one of all of it."""
    rows = [_row(zone, units) for zone in found.each]
    whole = sum(zone.area for zone in found.each)
    return (*rows, ("whole", say(whole, "ha", units), "", "", "", *_cost(found.hours, found.fuel, units)))


def zone_lines(found: Zones, units: System, on_page: bool = False) -> tuple[str, ...]:
    """Say what to hold in each zone where the rig's own depth and speed don't go, and what stands behind the figures."""
    passes = f"{found.passes} pass{'es' if found.passes > 1 else ''} of the tool"
    lines = list(_headland(found, passes, units))
    for zone in found.each:
        limit, name = limit_title(zone.limit), capital(_NAMES[zone.name])
        if zone.hold == "speed":
            lines.append(f"{name}: {limit} gives out at the rig's speed; hold {say(zone.speed, 'km/h', units, 2)}")
        elif zone.hold == "depth":
            lines.append(
                f"{name}: {limit} gives out at any speed; hold {say(zone.depth, 'cm', units)} at "
                f"{say(zone.speed, 'km/h', units, 2)}, or work it in two passes"
            )
        elif zone.hold == "no":
            lines.append(f"{name}: {limit} gives out however slow and shallow: leave it, or work it with fewer shanks")
    lines += [_loads(each, found, units) for each in found.loaded]
    lines += _passes(found, units)
    lines += [
        "Draft behind wheels goes by one published trial on clay: about twice for each tine, taken as 1.6 to 2.4 times; "
        f"readings taken in a zone beat it ({'the page Field takes them' if on_page else 'rigcalc reading zones'})",
        "Share wheeled is geometry: two machines' passes over the rest meet by chance, and at the ends every pass turns",
    ]
    return tuple(lines)


def _headland(found: Zones, passes: str, units: System) -> tuple[str, ...]:
    """Say how deep the headland is, where, and along what the passes run."""
    deep, parted = say(found.headland, "m", units), found.parted
    if not parted.fields:
        return (f"Headland of {deep} at each end: {passes}",)
    fields = "1 field" if parted.fields == 1 else f"{parted.fields} fields"
    along = sorted({round(heading) for heading in parted.headings})
    runs = f"{along[0]} deg from north" if len(along) == 1 else f"{along[0]} to {along[-1]} deg from north"
    lines = [
        f"Headland of {deep} all round {fields}: {passes}; inside of it passes run {runs}",
        f"Others' passes run out into {percent(parted.through)} of the headland; the rest of it is driven along alone",
    ]
    if parted.small:
        lines.append(f"{parted.small} of {fields} are headland alone, with no room for a pass inside of it")
    return tuple(lines)


def _loads(each: Traffic, found: Zones, units: System) -> str:
    """Say how many loads come off the field, and how far a bin goes."""
    area = 1e4 * sum(zone.area for zone in found.each)
    loads = f"{each.name}: {number(math.ceil(each.trips(area)), 4)} loads of {say(each.load, 'kg', units)}"
    if each.hauls:
        return f"{loads} along the headland, out from a corner and back; on one track they wheel less, more often"
    passes = each.bin_length() / found.parted.length
    if passes < 1:
        return (
            f"{loads}; its bin is full after {percent(passes)} of a pass, so carts drive into the field: they count where they "
            "have passes or lanes of their own here"
        )
    return f"{loads}; its bin holds {number(passes, 2)} passes, so it unloads at the ends"


def _passes(found: Zones, units: System) -> list[str]:
    """Say how often wheels run over a place, and what lanes that all keep to would leave."""
    never, once, twice, more = (percent(share) for share in found.often)
    lanes = found.lanes
    lines = [
        f"In these passes wheels run over {never} of the rest at no time, {once} once, {twice} twice, {more} more often, the "
        "rig's own counted; how much each further pass adds to the first isn't worked out",
    ]
    if lanes.wheeled < lanes.now:
        apart = say(lanes.apart, "m", units)
        lines.append(
            f"If all kept to lanes {apart} apart (controlled traffic), {percent(lanes.wheeled)} would be wheeled "
            f"instead of {percent(lanes.now)}: widths have to be multiples of that, and wheels one gauge"
        )
    else:
        lines.append("Common lanes would wheel no less: the ruts are as wide as the narrowest machine's passes are apart")
    return lines


def failing_part(found: Hold | None, rig: Rig, units: System) -> tuple[Judgement, str] | None:
    """Say that the rig can't work at its depth at any speed; None where it can."""
    if found is None:
        return None
    judgement, where = (Judgement.TRY, _WHERE[found.name]) if isinstance(found, Zone) else (Judgement.DONT, "")
    why = _passed(found, rig, units)
    if found.hold == "no":
        return judgement, f"{where}{why}, however slow and shallow it goes."
    goes = f"{say(found.depth, 'cm', units)} deep at {say(found.speed, 'km/h', units, 2)}"
    return judgement, f"{where}{why} at {say(rig.work.depth.to('cm'), 'cm', units)}, at any speed; it goes {goes}."


def slower_part(found: Hold, rig: Rig, units: System) -> str:
    """Say that the rig can work at its depth, but not at its speed; empty where it can or can't anyway."""
    if found.hold != "speed":
        return ""
    own, held = (say(speed, "km/h", units, 2) for speed in (rig.work.speed.to("km/h"), found.speed))
    return f"{_passed(found, rig, units)} at {own}: at this depth hold {held} or less."


def _passed(found: Hold, rig: Rig, units: System) -> str:
    return _PULL.get(found.limit) or passed_text(found.limit, piece(rig.implement.tool), units)


def _row(zone: Zone, units: System) -> tuple[str, ...]:
    low, likely, high = (number(end, 3) for end in zone.rise)
    rise = f"{likely} times ({low} to {high})" if high != low else f"{likely} times"
    wheeled = percent(zone.wheeled) + (f", {number(zone.times, 2)} times" if zone.times > 0 else "")
    return (
        _NAMES[zone.name],
        say(zone.area, "ha", units),
        wheeled,
        rise,
        _hold(zone, units),
        *_cost(zone.hours, zone.fuel, units),
    )


def _hold(zone: Zone, units: System) -> str:
    if zone.hold == "no":
        return "not workable"
    return f"{say(zone.depth, 'cm', units)}, {say(zone.speed, 'km/h', units, 2)}"


def _cost(hours: float, fuel: float, units: System) -> tuple[str, str]:
    return ("-", "-") if math.isnan(hours) else (f"{number(hours, 2)} h", say(fuel, "L", units, 2))
