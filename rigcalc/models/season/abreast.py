"""Cost against chance: the season as it stands, each rig with all of the fields to itself, and each change, side by side."""

from __future__ import annotations

from dataclasses import dataclass, field

from rigcalc.models.season.answer import SeasonAnswer, together
from rigcalc.models.season.change import Change

NOW, RIG = "now", "rig"


@dataclass(frozen=True)
class Alone:
    """One rig with all of the fields to itself. place: the first of the season's rigs that is this one."""

    place: int
    found: SeasonAnswer = field(repr=False)


@dataclass(frozen=True)
class Point:
    """A place in the picture. name: NOW, RIG, or of a change; chance: of being done in time, 0 to 1; cost: of a hectare, None
    without prices; holds: whether every hard limit holds; place: of the rig; change: the change."""

    name: str
    chance: float
    cost: float | None
    holds: bool
    place: int = 0
    change: Change | None = None


def alone(found: SeasonAnswer) -> tuple[Alone, ...]:
    """Run the season of each rig by itself; rigs that are alike, prices too, once."""
    if len(found.rigs) == 1:
        return (Alone(0, found),)
    known: dict[object, Alone] = {}
    for place, one in enumerate(found.rigs):
        costs = found.plan.money.of(place)
        if (one.rig, costs) not in known:
            known[one.rig, costs] = Alone(place, found.of_one(place))
    return tuple(known.values())


def points(found: SeasonAnswer, changes: bool = True) -> tuple[Point, ...]:
    """Give the season as it stands, each rig by itself where there are several, and each change, as the changes are ranked.

    changes: whether the changes are among them, which are run for that.
    """
    now = Point(NOW, found.finish.chance, together(found.rigs), found.failing is None)
    rigs = [] if len(found.rigs) == 1 else [
        Point(RIG, each.found.finish.chance, together(each.found.rigs), each.found.failing is None, each.place)
        for each in alone(found)
    ]  # fmt: skip
    changed = [Point(each.name, each.chance, each.cost, each.holds, 0, each) for each in found.changes] if changes else []
    return (now, *rigs, *changed)
