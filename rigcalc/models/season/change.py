"""What should I change? Each change alone, the whole season anew with the same years and draws: what it buys and costs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from rigcalc.core.errors import InputError
from rigcalc.core.units import factor
from rigcalc.models.rig.changes import entry_changes
from rigcalc.models.rig.file import replaced
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.tool import by_width

HOUR, SHALLOWER, FASTER, WIDER, SECOND, FEWER = "hour", "shallower", "faster", "wider", "second_rig", "fewer"
DRIVER, HELPER = "second_driver", "fuel_helper"
CHANGES = (HOUR, HELPER, DRIVER, SHALLOWER, FASTER, WIDER, SECOND, FEWER)
_TENTH = 0.9
SHALLOWER_BY, FASTER_BY = {True: 5.0, False: 5.08}, {True: 1.0, False: 0.5 * factor("mph", "km/h")}  # cm, km/h; metric or not
_SHALLOWEST = 8.0  # cm that are left


@dataclass(frozen=True)
class Setting:
    """What a season is run with: the rigs, ha, and what else than the plan says: hours more in the clock day, one person more
    who takes turns on each rig, somebody who fuels at the field."""

    rigs: tuple[Rig, ...]
    area: float
    more_hours: float = 0.0
    driver_more: bool = False
    helper: bool = False


@dataclass(frozen=True)
class Change:
    """One change and what comes of it. chance, in_hand: as of `Finish`, in_hand at 8 years in 10; cost: of a hectare, None
    where no prices are typed; holds: whether every hard limit of every rig holds in the likely case; metric: whether depth and
    speed were changed by round metric steps; clock, people, rigs: hours of the clock day, those who take turns on one rig and
    the number of rigs, all after the change."""

    name: str
    chance: float
    in_hand: float
    cost: float | None
    holds: bool
    metric: bool
    clock: float
    people: int
    rigs: int


def settings_of(setting: Setting, metric: bool, driver: bool = True, helper: bool = True) -> dict[str, Setting]:
    """Give name -> the setting that each change makes; changes that can't be made are left out. driver, helper: whether one
    more of them can be had."""
    makers: dict[str, Callable[[Setting], Setting | None]] = {
        HOUR: lambda s: replace(s, more_hours=s.more_hours + 1),
        DRIVER: lambda s: replace(s, driver_more=True) if driver else None,
        HELPER: lambda s: replace(s, helper=True) if helper else None,
        SHALLOWER: lambda s: _each(s, lambda rig: _less_depth(rig, SHALLOWER_BY[metric])),
        FASTER: lambda s: _each(s, lambda rig: _more_speed(rig, metric)),
        WIDER: lambda s: _each(s, _two_tools_more),
        SECOND: lambda s: replace(s, rigs=(*s.rigs, s.rigs[0])),
        FEWER: lambda s: replace(s, area=s.area * _TENTH),
    }
    made = {name: maker(setting) for name, maker in makers.items()}
    return {name: other for name, other in made.items() if other is not None}


def ranked(changes: list[Change]) -> tuple[Change, ...]:
    """Put the changes in order: those whose limits hold first, then by chance, then by cost."""
    return tuple(sorted(changes, key=lambda c: (not c.holds, -round(c.chance, 3), c.cost or 0.0, CHANGES.index(c.name))))


def _each(setting: Setting, change: Callable[[Rig], Rig | None]) -> Setting | None:
    try:
        rigs = [change(rig) for rig in setting.rigs]
    except InputError:  # beyond what can be
        return None
    return None if None in rigs else replace(setting, rigs=tuple(rig for rig in rigs if rig is not None))


def _less_depth(rig: Rig, less: float) -> Rig | None:
    depth = rig.work.depth.to("cm") - less
    return replaced(rig, {"work.depth": f"{depth:.6g} cm"}) if depth >= _SHALLOWEST else None


def _more_speed(rig: Rig, metric: bool) -> Rig:
    speed = rig.work.speed.to("km/h") + 1 if metric else rig.work.speed.to("mph") + 0.5
    return replaced(rig, {"work.speed": f"{speed:.6g} {'km/h' if metric else 'mph'}"})


def _two_tools_more(rig: Rig) -> Rig | None:
    if by_width(rig.implement.tool):
        return None
    return replaced(rig, entry_changes(rig, "tools", str(rig.implement.tools + 2)))
