"""Headland and cart lanes in words: how much harder they pull, and what to do there."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from rigcalc.core.sources import sources
from rigcalc.core.tables import table
from rigcalc.models.reading.zones import Zone
from rigcalc.models.rig.rig import Rig
from rigcalc.words.numbers import System, capital, chance, number, say, to_shown

_STEPS = {"in": 0.5, "cm": 1.0, "mph": 0.1, "km/h": 0.1}
_TITLES = {"headland": "the headland", "cart lane": "cart lanes"}


def zone_lines(found: Sequence[Zone], rig: Rig, units: System) -> Iterator[str]:
    """Say of each zone how hard it pulls, how sure the job is there, and what to do; then where the factor comes from."""
    depth, speed = say(rig.work.depth.to("cm"), "cm", units), say(rig.work.speed.to("km/h"), "km/h", units)
    for zone in found:
        title, one = _TITLES[zone.name], zone.name != "cart lane"
        by = "no reading there" if not zone.readings else f"{zone.readings} reading{'' if zone.readings == 1 else 's'} there"
        pulls = f"{zone.factor.low:.2f} to {zone.factor.high:.2f} times as hard as the open field in 8 of 10 cases ({by})"
        yield f"{capital(title)} {'pulls' if one else 'pull'} {pulls}."
        there, open_field = chance(zone.chance), chance(zone.open_field)
        yield f"There {depth} at {speed} holds every limit in {there} cases; on the open field in {open_field}."
        yield _advice(zone, depth, speed, units)
    if any(not zone.readings for zone in found):
        row = table("reading_doubt")["zone_tracks"]
        cited = sources()[row["source"]]
        yield (f"Where nothing was read, a factor of {row['low']:g} to {row['high']:g} is taken: a wide band of ours around "
               f"the measured effect of wheel tracks ({cited.author} {cited.year}).")  # fmt: skip


def sheet_lines(found: Sequence[Zone], rig: Rig, units: System) -> tuple[str, ...]:
    """Say the same in a line for each zone, for the setup sheet; zones of which nothing was read are said in one."""
    depth, speed = say(rig.work.depth.to("cm"), "cm", units), say(rig.work.speed.to("km/h"), "km/h", units)
    unread = [zone for zone in found if not zone.readings]
    groups = [[zone] for zone in found if zone.readings] + ([unread] if unread else [])
    out = []
    for group in groups:
        zone = group[0]
        names = capital(" and ".join(_TITLES[each.name] for each in group))
        by = "no reading there" if not zone.readings else f"{zone.readings} reading{'' if zone.readings == 1 else 's'} there"
        holds = f"{depth} at {speed} holds in {chance(zone.chance)} cases there"
        out.append(f"{names} ({by}): {zone.factor.low:.1f} to {zone.factor.high:.1f} times the draft, and {holds}. "
                   f"{_advice(zone, depth, speed, units)}")  # fmt: skip
    return tuple(out)


def _at_most(value: float, book: str, units: System) -> str:
    """Say a value in steps that can be set, never above it."""
    shown, unit = to_shown(value, book, units)
    return f"{number(math.floor(shown / _STEPS[unit] + 1e-9) * _STEPS[unit])} {unit}"


def _advice(zone: Zone, depth: str, speed: str, units: System) -> str:
    if zone.holds:
        return "Work there as in the open field."
    ways = []
    if zone.depth is not None:
        ways.append(f"raise to {_at_most(zone.depth, 'cm', units)} at {speed}")
    if zone.speed is not None:
        ways.append(f"slow to {_at_most(zone.speed, 'km/h', units)} at {depth}")
    if not ways:
        return "Nothing near this job is sure enough there: work it apart, shallower and slower, or try it first."
    return f"{capital(' or '.join(ways))}, and every limit holds there in 85 in 100."
