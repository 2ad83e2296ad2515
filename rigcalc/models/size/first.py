"""What to measure first: how far the answer moves when one entry of the rig is off by its usual scatter, for every entry.

The scatter stands in the table usual_scatter: wide where a rule gave the entry, narrow where a scale or a tape did. One entry
is moved at a time, each to both ends; the same draws stand behind every chance, so that what moves is the entry's doing.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from rigcalc.core.errors import InputError
from rigcalc.core.tables import Row, table
from rigcalc.core.units import factor, parse, weight_of
from rigcalc.equations.soil import texture_class
from rigcalc.models.machine.case import case_of
from rigcalc.models.machine.draws import DRAWS
from rigcalc.models.machine.sure import chance_over
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import replaced
from rigcalc.models.rig.measure import Measure
from rigcalc.models.rig.rig import Implement, Rig, Tractor
from rigcalc.models.size.verdict import Judgement, State, judged

# The unit of the book in which an entry's values are given; "" for a count and for a name.
UNITS = {
    "front_share": "1", "total_mass": "kg", "front_axle_mass": "kg", "rear_axle_mass": "kg", "rated_power": "kW",
    "maximum_power": "kW", "wheelbase": "m", "drawbar_height": "cm", "hitch_behind_axle": "m", "center_of_gravity_height": "m",
    "tyres": "", "deflection_ratio": "1", "contact_length": "m", "mass": "kg", "hitch_load": "kN", "wheel_share": "1",
    "texture": "", "sand": "1", "clay": "1", "cone_index": "kPa", "grade": "deg", "depth": "cm", "speed": "km/h",
}  # fmt: skip
# Our choice of what is worth a line: less is within what a screen in the cab shows.
LEAST_CHANCE, LEAST_SLIP, LEAST_ENGINE = 0.02, 0.005, 0.01
_LOOSE = frozenset(["tractor.front_axle_mass", "tractor.rear_axle_mass"])  # these follow the total and the split
_STEP = 2  # percent: how finely the triangle of textures is looked through for neighbours


@dataclass(frozen=True)
class Outcome:
    """The answer at one value of an entry.

    value: in the unit of its `Doubt`, or a name. slip, engine_share: as decimals, None where it can't pull.
    """

    value: float | str
    judgement: Judgement
    state: State
    chance: float
    slip: float | None
    engine_share: float | None


@dataclass(frozen=True)
class Doubt:
    """One entry, how it was given, and the answer at each end of its usual scatter.

    given: "rule", "nothing" (left out and taken as nothing) or "typed". here: the answer as the rig stands; ends: the others.
    slip_high: upper end of the slip band. source, sure: of the scatter.
    """

    entry: str
    given: str
    unit: str
    here: Outcome
    ends: tuple[Outcome, ...]
    slip_high: float
    source: str
    sure: str

    @property
    def verdicts(self) -> tuple[Judgement, ...]:
        """Judgements that an end gives and the rig as it stands doesn't, each once."""
        return tuple(dict.fromkeys(end.judgement for end in self.ends if end.judgement is not self.here.judgement))

    @property
    def chance(self) -> float:
        """The most by which the chance that every limit holds moves, as a share."""
        return max(abs(end.chance - self.here.chance) for end in self.ends)

    @property
    def slip(self) -> float | None:
        """The most by which slip moves, as a share; None where it is out of reach as the rig stands, or at every end."""
        return _most(self.here.slip, [end.slip for end in self.ends])

    @property
    def engine_load(self) -> float | None:
        """The most by which engine load moves, as a share; None as for slip."""
        return _most(self.here.engine_share, [end.engine_share for end in self.ends])

    @property
    def out_of_reach(self) -> bool:
        """True where the rig pulls at one of the values and grip can't give the pull at another."""
        return len({end.slip is None for end in (self.here, *self.ends)}) > 1

    @property
    def matters(self) -> bool:
        """True where the verdict, or chance, slip or engine load by more than a screen shows, hangs on the entry."""
        moved = (self.chance >= LEAST_CHANCE, (self.slip or 0.0) >= LEAST_SLIP, (self.engine_load or 0.0) >= LEAST_ENGINE)
        return bool(self.verdicts) or self.out_of_reach or any(moved)

    @property
    def rank(self) -> tuple[float, ...]:
        """What entries are ranked by: first a changed verdict, then the greatest move, slip as a share of its band's end."""
        moves = (self.chance, (self.slip or 0.0) / self.slip_high, self.engine_load or 0.0)
        return float(bool(self.verdicts)), float(self.out_of_reach), max(moves), sum(moves)


def measure_first(rig: Rig, here: Outcome, slip_high: float, seed: int = 0) -> tuple[Doubt, ...]:
    """Give every entry with a usual scatter, the one on which most hangs first.

    here: the answer as the rig stands (its value is taken anew for each entry). seed: of the draws behind its chance.
    """
    held = {one.entry: _typed(one.value) for one in rig.assumed if one.rule == "class" and one.entry not in _LOOSE}
    found = []
    for entry in dict.fromkeys(str(row["entry"]) for row in table("usual_scatter")):
        known = _known(rig, entry)
        row = known and next((r for r in table("usual_scatter") if (r["entry"], r["given"]) == (entry, known[0])), None)
        if not known or row is None:
            continue
        given, own = known
        unit = UNITS[entry.rpartition(".")[2]]
        outcomes = [outcome for value in _values(rig, row, own) if (outcome := _at(rig, entry, value, held, unit, seed))]
        if outcomes:
            base = Outcome(_bare(own, unit), here.judgement, here.state, here.chance, here.slip, here.engine_share)
            found.append(Doubt(entry, given, unit, base, tuple(outcomes), slip_high, row["source"], row["sure"]))
    return tuple(sorted(found, key=lambda doubt: doubt.rank, reverse=True))


def _known(rig: Rig, entry: str) -> tuple[str, Any] | None:
    """Give how an entry was given and its value; None where there is none, or another entry stands for it."""
    rules = {one.entry: one.rule for one in rig.assumed}
    part, last = _part(rig, entry)
    split = next((rules[name] for name in _LOOSE if name in rules), None)
    tractor = rig.tractor
    if entry == "tractor.front_share":
        front, rear = tractor.front_axle_mass.to("kg"), tractor.rear_axle_mass.to("kg")
        given = {"class": "rule", "share": "typed"}.get(str(split))
        return (given, tractor.front_share or Measure.of(100 * front / (front + rear), "percent")) if given else None
    if entry == "tractor.total_mass":
        return ("typed", tractor.total_mass) if split else None
    if entry in _LOOSE:
        return None if entry in rules else ("typed", getattr(tractor, last))
    if entry == "tractor.maximum_power":
        return None if tractor.maximum_power else ("rule", tractor.rated_power)
    if entry == "ground.cone_index":
        own = rig.ground.cone_index
        return ("typed", own) if own else ("rule", Measure.of(bare(rig).cone_index, "kPa"))
    value = getattr(part, last, None)
    if value is None:
        return None
    if entry == "implement.hitch_load" and value.value == 0:
        return None if rig.setup and rig.setup.hitching == "mounted" else ("nothing", value)
    by_rule = rules.get(entry) == "class" or (isinstance(value, Measure) and value == _default(part, last))
    return "rule" if by_rule else "typed", value


def _default(part: Any, last: str) -> Any:
    """Give what a rig file takes for an entry that is left out; a file that was written back holds it as if it were typed."""
    return type(part).model_fields[last].default if isinstance(part, (Tractor, Implement)) or last == "grade" else None


def _part(rig: Rig, entry: str) -> tuple[Any, str]:
    *path, last = entry.split(".")
    part: Any = rig
    for name in path:
        part = getattr(part, name, None)
    return part, last


def _values(rig: Rig, row: Row, own: Any) -> Iterator[Any]:
    """Give the ends of an entry's scatter as they could be typed: texts, whole numbers or names; none like the entry itself."""
    if row["of"] == "class":
        yield from _neighbours(str(own))
        return
    for off in (row["low"], row["high"]):
        if off == 0:
            continue
        if isinstance(own, int):
            yield own + int(off)
            continue
        if row["of"] == "itself":
            step = own.value * off / 100
        elif row["of"] == "points":
            yield f"{100 * own.to('1') + off:.6g} percent"
            continue
        elif row["of"] == "entry":
            step = off * factor(row["unit"], own.unit) if own.unit != "percent" else 100 * math.tan(math.radians(off))
        else:
            step = _share_of(rig, row["of"], off / 100, own.unit)
        if step:
            yield str(Measure.of(own.value + step, own.unit))


def _share_of(rig: Rig, entry: str, share: float, unit: str) -> float:
    """Give a share of another entry; of a mass, its weight."""
    part, last = _part(rig, entry)
    of: Measure = getattr(part, last)
    whole = float(weight_of(of.to("kg"))) * factor("kN", unit) if last == "mass" else of.to(unit)
    return share * whole


def _at(rig: Rig, entry: str, value: Any, held: dict[str, Any], unit: str, seed: int) -> Outcome | None:
    """Give the answer with an entry changed and all else held; None where a rig can't be so."""
    changes = {name: text for name, text in held.items() if name != entry} | {entry: value}
    if entry in _LOOSE and not any(one.entry in _LOOSE for one in rig.assumed):
        changes |= {"tractor.total_mass": None, "tractor.front_share": None}
        if rig.scale is not None:
            changes["scale"] = None
    if entry == "tractor.rated_power" and rig.tractor.maximum_power is not None:  # one brake tests both
        most, step = rig.tractor.maximum_power, Measure("", *parse(value)).to("kW") / rig.tractor.rated_power.to("kW")
        changes["tractor.maximum_power"] = str(Measure.of(most.value * step, most.unit))
    try:
        case = case_of(replaced(rig, changes))
    except InputError:
        return None
    b, p = case.bare, case.point
    _, chances = chance_over(b, case.caps, [b.depth], seed=seed, count=DRAWS)
    found = judged(case, float(chances[0]))
    slip, engine = float(p.slip), float(p.engine_share)
    return Outcome(
        value=_bare(value, unit),
        judgement=found.judgement,
        state=found.state,
        chance=float(chances[0]),
        slip=slip if math.isfinite(slip) else None,
        engine_share=engine if math.isfinite(engine) else None,
    )


def _typed(text: str) -> Any:
    return int(text) if text.isdigit() else text


def _bare(value: Any, unit: str) -> float | str:
    """Give a value in a unit of the book; a count or a name as it is."""
    if not unit:
        return value if isinstance(value, str) else float(value)
    measure = value if isinstance(value, Measure) else Measure(value, *parse(value))
    return float(measure.to(unit))


def _most(here: float | None, ends: list[float | None]) -> float | None:
    known = [abs(end - here) for end in ends if end is not None and here is not None]
    return max(known, default=None)


@cache
def _neighbours(texture: str) -> tuple[str, ...]:
    """Give the texture classes that border on one in the triangle, in the order of the table."""
    steps = range(0, 101, _STEP)
    places = [(sand, clay) for sand in steps for clay in steps if sand + clay <= 100]
    names = texture_class.bare(*np.array(places, float).T)
    at = dict(zip(places, map(str, names), strict=True))
    beside = ((_STEP, 0), (-_STEP, 0), (0, _STEP), (0, -_STEP), (_STEP, -_STEP), (-_STEP, _STEP))
    own = [place for place, name in at.items() if name == texture]
    near = {at[place] for sand, clay in own for x, y in beside if (place := (sand + x, clay + y)) in at}
    return tuple(row["texture"] for row in table("soil_groups") if row["texture"] in near - {texture})
