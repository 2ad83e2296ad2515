"""The same depth in two passes beside one, and what wings and leading tines would do, as far as that is published."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.tables import table
from rigcalc.core.units import factor, parse
from rigcalc.models.ground.shanks import Shanks
from rigcalc.models.ground.zones import Hold, hold_of
from rigcalc.models.machine.draft_force import draft_force
from rigcalc.models.machine.limits import Caps
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.statics import plain
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.tool import usual

Span = tuple[float, float]
_SHALLOWEST = 8.0  # cm, our choice: a shallower first pass is other work
_WINGED = "subsoiler_winged"
_ROWS = (("draft_a", "draft_b", "draft_c"), ("deep_a", "deep_b", "deep_c"))


@dataclass(frozen=True)
class Pass:
    """One pass: its depth (cm), draft (kN), what the rig holds by its hard limits, hours and fuel (L) for each ha at that.

    hours and fuel are NaN where it is over a limit at the depth at any speed.
    """

    depth: float
    draft: float
    hold: Hold
    hours: float
    fuel: float


@dataclass(frozen=True)
class TwoPasses:
    """One pass to the depth, or a shallower one first. second: (at best, at worst); at worst the first one spares it nothing.

    anew: share of the section that the second pass breaks and the first one didn't.
    """

    one: Pass
    first: Pass
    second: tuple[Pass, Pass]
    anew: float

    @property
    def hours(self) -> Span:
        """Hours for each ha in two passes (at best, at worst)."""
        return self.first.hours + self.second[0].hours, self.first.hours + self.second[1].hours

    @property
    def fuel(self) -> Span:
        """Fuel in L for each ha in two passes (at best, at worst)."""
        return self.first.fuel + self.second[0].fuel, self.first.fuel + self.second[1].fuel

    @property
    def opens(self) -> bool:
        """True where one pass is over a limit at any speed and the second of two perhaps isn't."""
        return self.one.hold.hold in ("depth", "no") and self.second[0].hold.hold not in ("depth", "no")


@dataclass(frozen=True)
class Wings:
    """Shanks with wings over the same width: how far apart (cm), how many, draft of all (kN), each (low, high).

    leading: the same with shallow leading tines, apart and how many; of its draft nothing is published.
    """

    apart: Span
    count: tuple[int, int]
    draft: Span
    leading_apart: Span
    leading_count: tuple[int, int]


def aid(name: str) -> Span:
    """Give a row of the table shank_aids as shares."""
    row = table("shank_aids")[name]
    return row["low"] / 100, row["high"] / 100


def two_passes(b: BareRig, caps: Caps, tool: str, found: Shanks, first: Any) -> TwoPasses | None:
    """Work out two passes beside one; None for a tool without shanks or a depth too shallow for two.

    b: the rig on ground as it was read. first: the depth of the first pass, such as "8 in"; a share of the depth by the table
    shank_aids where nobody says. The second pass is pulled between the draft of what it breaks anew and that of all of it.
    Raises InputError for a first pass that is none, or that is asked of a tool without shanks.
    """
    depth = float(b.depth)
    if usual(tool).piece != "shank":
        if first is not None:
            raise InputError([Fault("first", f"{shown(first)} for {tool}", "nothing: a first pass is for tools with shanks")])
        return None
    shallow = aid("first_pass")[0] * depth if first is None else _first(first, depth)
    if shallow < _SHALLOWEST:
        return None
    anew = 1 - found.at(shallow, "section") / found.at(depth, "section")
    worst = _pass(b, caps)
    return TwoPasses(worst, _pass(b.at(depth=shallow), caps), (_pass(_lighter(b, anew), caps), worst), anew)


def wings(b: BareRig, tool: str) -> Wings | None:
    """Say how many winged shanks do for the width and what they pull; None for a tool without shanks, or with wings."""
    if usual(tool).piece != "shank" or tool == _WINGED:
        return None
    depth, width, pull = float(b.depth), float(b.tools * b.spacing), float(draft_force(b.at(gangs=()), plain))
    apart, leading = (_apart(name, depth) for name in ("winged", "winged_leading"))
    count = _count(width, apart)
    more = aid("wing_power")
    each = pull / float(b.tools)
    draft = (count[0] * each * (1 + more[0]), count[1] * each * (1 + more[1]))
    return Wings(apart, count, draft, leading, _count(width, leading))


def _pass(b: BareRig, caps: Caps) -> Pass:
    held, depth = hold_of(b, caps, hard_only=True), float(b.depth)
    hours = fuel = math.nan
    if held.hold not in ("depth", "no"):
        point = solve(b.at(speed=held.speed))
        hours, fuel = 1 / float(point.field_capacity), float(point.fuel_per_area)
    return Pass(depth, float(draft_force(b, plain)), held, hours, fuel)


def _lighter(b: BareRig, share: float) -> BareRig:
    """Give a rig whose tool takes so much of its draft; what works beside it stays."""
    rows = {name: getattr(b, name) for names in _ROWS for name in names}
    return b.at(**{name: share * value for name, value in rows.items() if value is not None})


def _apart(name: str, depth: float) -> Span:
    row = table("shank_spacing")[name]
    return row["low"] * depth, row["high"] * depth


def _count(width: float, apart: Span) -> tuple[int, int]:
    low, high = (max(math.ceil(100 * width / each - 1e-9), 1) for each in (apart[1], apart[0]))
    return low, high


def _first(text: Any, depth: float) -> float:
    try:
        value, unit = parse(text)
        first = value * factor(unit, "cm")
    except (InputError, TypeError, ValueError):
        first = math.nan
    if not _SHALLOWEST <= first < depth:
        raise InputError(
            [Fault("first", shown(text), f"{_SHALLOWEST:g} cm to less than the {depth:.4g} cm of the work", '"8 in"')]
        )
    return first
