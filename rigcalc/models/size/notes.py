"""What has to be said beside an answer, as facts: choices made, ranges left, doubts; and which cautions go with a depth.

Each note is a kind and the numbers that belong to it. The words for every kind stand in `words/size/notes.py`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from rigcalc.core.tables import table
from rigcalc.models.machine.draft_force import draft_force, gang_forces
from rigcalc.models.machine.engine import available_pto
from rigcalc.models.machine.facts import facts
from rigcalc.models.machine.limits import Caps
from rigcalc.models.machine.operating_point import Point, Record
from rigcalc.models.machine.statics import plain
from rigcalc.models.rig.bare import BareRig, ratio, soil_group_of, texture_of
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.tool import Usual, usual
from rigcalc.models.size.second_opinion import SecondOpinion

KINDS = frozenset(
    [
        "deeper_than_usual",
        "below_critical_depth",
        "unusual_speed",
        "outside_range",
        "in_reserve",
        "little_slip",
        "pushed",
        "group_chosen",
        "group_differs",
        "group_by_table",
        "cone_index_assumed",
        "track_grip",
        "second_pass",
        "cross_check",
        "gangs",
        # facts of the machine, see models/machine/facts.py
        "track_lifts",
        "sand",
        "deep_row",
        "hard_ground",
        "wheel_tracks",
        "engine_speed",
        "typical_torque",
        "track_center_assumed",
        "fuel_over_test",
        "side_slope",
        "tips",
        "texture_between",
        "track_contact",
    ]
)
# Facts that weigh more than a choice between readings; the others come last.
_WEIGHTY = ("pushed", "track_lifts", "sand", "deep_row", "hard_ground", "engine_speed", "typical_torque")


@dataclass(frozen=True)
class Note:
    """One thing to say: its kind, one of KINDS, and its facts by name (bare numbers in units of the book, keys, names)."""

    kind: str
    facts: dict[str, Any]


def notes(rig: Rig, b: BareRig, p: Point, c: Caps, second: SecondOpinion | None, record: Record) -> tuple[Note, ...]:
    """Collect the notes for one answer, the weightiest first. record: the equations of the point with their values."""
    know = usual(rig.implement.tool)
    found = [Note(fact.name, {name: value for name, (value, _) in fact.numbers.items()} | fact.texts)
             for fact in facts(rig, b, p) if fact.name in KINDS]  # fmt: skip
    weighty = [note for note in found if note.kind in _WEIGHTY]
    light = [note for note in found if note.kind not in _WEIGHTY]
    own = (*_depth(know, second, b, p, c), *_ranges(know, p, record), *_load(b, p, c))
    return (*own, *_gangs(b, p), *weighty, *_choices(rig, b), *light, *_rough_way(rig, p))


def _depth(know: Usual, second: SecondOpinion | None, b: BareRig, p: Point, c: Caps) -> Iterator[Note]:
    depth = float(p.depth)
    if second is not None and know.depth is not None:
        extreme = know.extreme is not None and depth >= know.extreme
        own_row = float(draft_force(b.at(deep_from=None), plain))
        yield Note("deeper_than_usual", {"depth": depth, "usual": know.depth, "extreme": extreme, "draft": own_row})
    if c.critical_depth and depth > c.critical_depth:
        yield Note("below_critical_depth", {"depth": depth, "critical": c.critical_depth, "ratio": know.critical_ratio})


def _gangs(b: BareRig, p: Point) -> Iterator[Note]:
    if b.gangs:
        forces = [float(force) for force in gang_forces(b)]
        of = tuple(zip((gang.tool for gang in b.gangs), forces, strict=True))
        yield Note("gangs", {"gangs": of, "share": sum(forces) / float(p.draft)})


def _ranges(know: Usual, p: Point, record: Record) -> Iterator[Note]:
    speed = float(p.speed)
    if know.speed is not None and not know.speed[0] <= speed <= know.speed[1]:
        yield Note("unusual_speed", {"speed": speed, "usual": know.speed})
    seen = set()
    for eq, values in record:
        if not eq.valid or not all(math.isfinite(float(value)) for value in values):
            continue
        for symbol, value in zip(eq.takes, values, strict=True):
            low, high = eq.valid.get(symbol.name, (-math.inf, math.inf))
            what = (eq.__name__, symbol.name, float(value))
            if not low <= float(value) <= high and what not in seen:
                seen.add(what)
                yield Note("outside_range", {"equation": eq, "symbol": symbol, "value": float(value)})


def _load(b: BareRig, p: Point, c: Caps) -> Iterator[Note]:
    if math.isfinite(float(p.slip)):
        if p.engine_share > 1 >= p.engine_share * b.rated_pto / available_pto(b):
            yield Note("in_reserve", {})
        if p.slip < c.slip_low:
            yield Note("little_slip", {"slip": float(p.slip), "low": c.slip_low})


def _choices(rig: Rig, b: BareRig) -> Iterator[Note]:
    texture, group = texture_of(rig), soil_group_of(rig)
    row = table("soil_groups")[texture]
    about = {"texture": texture, "group": group, "by_table": row["group"], "farm_usage": row["farm_usage"]}
    if rig.ground.soil_group:
        yield Note("group_chosen", about)
    else:
        yield Note("group_differs" if row["farm_usage"] != group else "group_by_table", about)
    if rig.ground.cone_index is None:
        yield Note("cone_index_assumed", {"surface": rig.ground.surface, "cone_index": b.cone_index})
    if any(gear.kind == "track" for gear in (b.front, b.rear) if gear):
        yield Note("track_grip", {})
    elif b.front:
        yield Note("second_pass", {"firmer": b.multipass})


def _rough_way(rig: Rig, p: Point) -> Iterator[Note]:
    """Lay the answer beside the table of power ratios, which looks at neither slip nor weight."""
    if math.isfinite(float(p.slip)) and p.pto_power > 0:
        drive, surface = rig.tractor.drive, "firm" if rig.ground.surface == "hard" else rig.ground.surface
        about = {"share": float(p.drawbar_power) / float(p.pto_power), "by_table": ratio("drawbar_from_pto", drive, surface)}
        yield Note("cross_check", {**about, "drive": drive, "surface": surface})
