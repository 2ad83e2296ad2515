"""Which way to drive: the hours of a field at each heading, and the heading with the fewest."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from rigcalc.models.land.boundary import Boundary
from rigcalc.models.land.sides import sides_of
from rigcalc.models.passes.lay import Inside, Laid, inside, lay

STEP, COARSE = 3.0, 12.0  # degrees between the headings tried, and where a file has many fields
FINE = 0.5  # degrees: no closer to the best
HARDLY = 0.003  # share of the hours that a heading along a side may cost: our choice
LIKE = 0.02  # share of the hours under which two headings count as alike: our choice


@dataclass(frozen=True)
class Driving:
    """What a rig drives with, bare: m of width and of spacing between passes, m/s, s a turn, rounds along the boundary, share
    of the time in the field that goes to setting and looking."""

    width: float
    spacing: float
    speed: float
    turn: float
    rounds: int
    adjust: float


@dataclass(frozen=True)
class Way:
    """A field driven at one heading: degrees from north, passes, turns, km with the tool in the ground (passes, and rounds), km
    between passes, ha worked twice, hours. parts: name -> hours; they add up."""

    heading: float
    passes: int
    turns: int
    length: float
    edges: float
    travel: float
    ends: float
    lap: float
    parts: dict[str, float] = field(repr=False)

    @property
    def hours(self) -> float:
        """All hours in the field."""
        return sum(self.parts.values())


@dataclass(frozen=True, eq=False)
class Driven:
    """A field and the ways to drive it. ways: by heading, all that were tried; best: the one of the fewest hours, and laid, its
    passes; sides: headings of the longest sides, the longest first; also: name -> way, for those named headings."""

    boundary: Boundary
    inside: Inside
    ways: tuple[Way, ...] = field(repr=False)
    best: Way
    laid: Laid = field(repr=False)
    sides: tuple[float, ...] = field(repr=False)
    also: dict[str, Way] = field(repr=False)

    @property
    def alike(self) -> tuple[Way, ...]:
        """Ways whose hours are within `LIKE` of the best."""
        return tuple(way for way in self.ways if way.hours <= self.best.hours * (1 + LIKE))

    def best_with(self, turn: float, now: float) -> Way:
        """Give the best way if a turn took `turn` seconds in place of `now`."""

        def hours(way: Way) -> float:
            return way.hours + way.turns * (turn - now) / 3600 * way.hours / (way.hours - way.parts["setting"])

        return min(self.ways, key=hours)


def driven(boundary: Boundary, driving: Driving, heading: float | None = None, step: float = STEP) -> Driven:
    """Try headings and give the ways to drive a field. heading: the one that is asked for, None for the best."""
    part = inside(boundary.polygon, driving.width, driving.spacing, driving.rounds)
    sides = sides_of(boundary.polygon, driving.width)
    known: dict[float, Way] = {}

    def way(degrees: float) -> Way:
        key = round(degrees % 180, 4) % 180
        if key not in known:
            known[key] = _way(part, boundary, lay(part.inner, key, driving.width, driving.spacing), driving)
        return known[key]

    for degrees in [*np.arange(0, 180, step), *sides]:
        way(float(degrees))
    best = min(known.values(), key=lambda each: each.hours)
    apart = step / 2
    while apart >= FINE:  # to either side of the best so far, ever closer
        for degrees in (best.heading - apart, best.heading + apart):
            way(degrees)
        best = min(known.values(), key=lambda each: each.hours)
        apart /= 2
    best = min(known.values(), key=lambda each: (each.hours, each.heading))
    # A side that is as good to a few minutes in a day is easier to set than a heading out of the blue.
    best = next((way(side) for side in sides if way(side).hours <= best.hours * (1 + HARDLY)), best)
    also = {"side": way(sides[0]), "north": way(0.0), "east": way(90.0), "across": way(best.heading + 90)}
    if heading is not None:
        also["asked"] = way(heading)
    ways = tuple(known[key] for key in sorted(known))
    shown = best if heading is None else also["asked"]
    return Driven(boundary, part, ways, best, lay(part.inner, shown.heading, driving.width, driving.spacing), sides, also)


def _way(part: Inside, boundary: Boundary, laid: Laid, d: Driving) -> Way:
    turns = laid.count - 1 + part.corners + len(part.rings)
    driven_over = (laid.length + part.edges) * d.width / 1e4
    an_hour = d.width * d.speed * 3600 / 1e4  # ha
    own = min(boundary.area, driven_over)
    parts = {"work": own / an_hour, "twice": (driven_over - own) / an_hour, "turns": turns * d.turn / 3600,
             "travel": laid.travel / d.speed / 3600}  # fmt: skip
    parts["setting"] = sum(parts.values()) * d.adjust / (1 - d.adjust)
    return Way(
        laid.heading, laid.count, turns, laid.length / 1000, part.edges / 1000, laid.travel / 1000, laid.ends, laid.lap, parts
    )
