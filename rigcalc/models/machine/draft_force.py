"""Draft of a rig: the row of its tool, moved by depth below the usual, wheel tracks and hard ground; likely, or drawn."""

from __future__ import annotations

from typing import Any

import numpy as np

from rigcalc.core.tables import table
from rigcalc.equations import draft, draft_shift
from rigcalc.models.machine.draws import Draws, likely_of, number
from rigcalc.models.machine.statics import plain
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.gang import BareGang


def deep_most(b: BareRig) -> Any:
    """Give the upper end of the share w of the way from chisel row to subsoiler row at the rig's depth; 0 for other tools."""
    if b.deep_from is None:
        return 0.0
    slope = number("deep_most") / (number("deep_full") - b.deep_from)
    return np.clip(b.depth * slope - b.deep_from * slope, 0.0, 1.0)


def deep_share_band(b: BareRig) -> tuple[float, float, float]:
    """Give (low, likely, high) of that share."""
    low, high = 0.0, float(deep_most(b))
    return low, likely_of(b).deep * high, high


def draft_force(b: BareRig, use: Any, drawn: Draws | None = None) -> Any:
    """Give draft in kN. use: calls an equation of the book. drawn: combinations, or None for the likely one."""
    at = drawn or likely_of(b)
    most = deep_most(b)
    if use is plain:
        own = _quick(b, at, most)
        return own + gangs_force(b, use, at) if b.gangs else own
    work = (b.speed, b.tools, b.depth)
    factor = _between(b.soil_factor, b.soil_factor_other, at.texture)
    if b.by_width:  # as the page has it: for each metre of width
        each = (b.draft_a / b.spacing, b.draft_b / b.spacing, b.draft_c / b.spacing)
        force = use(draft.implement_draft_by_width, factor, *each, b.speed, b.tools * b.spacing, b.depth)
    else:
        force = use(draft.implement_draft, factor, b.draft_a, b.draft_b, b.draft_c, *work)
    if np.max(most) > 0:
        factor = _between(b.deep_factor, b.deep_factor_other, at.texture)
        deep = use(draft.implement_draft, factor, b.deep_a, b.deep_b, b.deep_c, *work)
        force = use(draft_shift.draft_between_rows, force, deep, most * at.deep)
    force = _shifted(b, use, at, force)
    read = drawn is None and b.told is not None
    own = (use(draft_shift.draft_as_read, force, at.row) if read else force * at.row) / 1000
    return own + gangs_force(b, use, at) if b.gangs else own


def gangs_force(b: BareRig, use: Any = plain, drawn: Draws | None = None) -> Any:
    """Give the draft in kN of all that works beside the tool itself; 0 where nothing does."""
    return sum(gang_forces(b, use, drawn), 0.0)


def gang_forces(b: BareRig, use: Any = plain, drawn: Draws | None = None) -> list[Any]:
    """Give the draft in kN of each gang beside the tool itself.

    Its row scatters with the tool's, each by its own range: they stand in one soil. Wheel tracks and hard ground are left out.
    """
    at = drawn or likely_of(b)
    return [_gang(b, gang, use, at) for gang in b.gangs]


def _gang(b: BareRig, gang: BareGang, use: Any, at: Draws) -> Any:
    factor, size = _between(gang.factor, gang.factor_other, at.texture), gang.size(b.tools)
    if gang.kind == "counted":
        force = use(draft.implement_draft, factor, gang.a, gang.b, gang.c, b.speed, size, gang.depth)
    elif gang.kind == "width":
        force = use(draft.implement_draft_by_width, factor, gang.a, gang.b, gang.c, b.speed, size, gang.depth)
    else:
        force = use(draft.draft_without_depth, factor, gang.a, gang.b, b.speed, size)
    return force * (1 + (at.row - 1) * gang.range / b.draft_range) / 1000


def _shifted(b: BareRig, use: Any, at: Draws, force: Any) -> Any:
    """Move a draft by wheel tracks and hard ground."""
    covered = covered_share(b)
    if covered is not None:
        force = use(draft_shift.draft_with_wheel_tracks, force, covered, at.usual, at.behind)
    if np.any(b.cone_deviation):
        most_off = number("most_deviation")
        off = np.clip(b.cone_deviation, -most_off, most_off)
        force = use(draft_shift.draft_on_hard_ground, force, number("correlation"), b.draft_range, number("cone_range"), off)
    return force


def _quick(b: BareRig, at: Draws, most: Any) -> Any:
    """The same for large arrays: rows and shifts are put together for each tool and cm, before depth comes in."""

    def each(factor: Any, a: Any, per_speed: Any, per_square: Any) -> Any:
        out = factor * a
        out = out + factor * per_speed * b.speed if np.any(per_speed) else out
        return out + factor * per_square * b.speed**2 if np.any(per_square) else out

    row = each(_between(b.soil_factor, b.soil_factor_other, at.texture), b.draft_a, b.draft_b, b.draft_c)
    if np.max(most) > 0:
        deep = each(_between(b.deep_factor, b.deep_factor_other, at.texture), b.deep_a, b.deep_b, b.deep_c)
        row = row + most * at.deep * (deep - row)
    return row * b.depth * (_shifted(b, plain, at, b.tools / 1000) * at.row)


def covered_share(b: BareRig) -> Any:
    """Give the share of the tool's width that wheels or belts have run over, at most all of it; None where unknown."""
    return None if b.covered_width is None else np.minimum(b.covered_width / (b.tools * b.spacing), 1.0)


def _between(one: Any, other: Any, level: Any) -> Any:
    return one if other is None else one + level * (other - one)


def usual_covered() -> tuple[float, float, float]:
    """Give (low, likely, high) of the share that is taken to stand in the table's rows."""
    row = table("draft_doubt")["usual_covered"]
    return row["low"], row["value"], row["high"]
