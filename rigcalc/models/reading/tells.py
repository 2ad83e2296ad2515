"""Which number told what, and which readings don't go together: each kind of number by itself, each reading by the others."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from rigcalc.models.machine.draft_force import draft_force
from rigcalc.models.machine.draws import likely
from rigcalc.models.machine.engine import burn
from rigcalc.models.machine.field import Told, quantiles, told_of
from rigcalc.models.machine.posterior import Posterior, posterior
from rigcalc.models.machine.scores import FUEL, LOAD, draws_of
from rigcalc.models.machine.seen import Seen, fuel_offset, load_bias, said_of
from rigcalc.models.machine.statics import plain
from rigcalc.models.machine.sure import HIGH, LOW
from rigcalc.models.reading.foretold import SMALL, Span, off_by, span
from rigcalc.models.rig.field_reading import NUMBERS
from rigcalc.models.rig.rig import Rig

FAR = 3.0  # our choice: so many standard deviations off what the other readings say is a contradiction
_IDLE = 0.7  # our choice: under this share of the fuel that no load burns, a fuel rate can't be of work


@dataclass(frozen=True)
class Contradiction:
    """A number that doesn't go with the rest. place: of the reading among the rig's. kind: of the number.

    why: "under_idle" (less fuel than idling burns), "beyond_grip" (more pull than grip gives in any field of the range) or
    "far_off" (`off` standard deviations from what the other readings say; from what the table says where it is the only one).
    """

    place: int
    kind: str
    why: str
    off: float


@dataclass(frozen=True)
class Telling:
    """What the readings of one field tell of the day asked about.

    draft: of the day over the table's likely one; cone: index over that taken; each by "before" (no reading), each kind of
    number by itself, and "all". monitor: "load" and "fuel" as shown over as they are, where they were read. contradictions:
    what to look at again; nothing is left out for it.
    """

    told: Told
    draft: dict[str, Span]
    cone: dict[str, Span]
    monitor: dict[str, Span]
    contradictions: tuple[Contradiction, ...]


def tells(rig: Rig) -> Telling | None:
    """Say what a rig's readings tell; None where none counts. Raises InputError for readings that can't be."""
    told = told_of(rig)
    if told is None:
        return None
    by = {"before": posterior((), told.weighed.ranges, extra_day=told.day)}
    kinds = [kind for kind in NUMBERS if any(kind in each.numbers for each in told.seen)]
    if len(kinds) > 1:
        by |= {kind: posterior(alone(told.seen, kind), told.weighed.ranges, extra_day=told.day) for kind in kinds}
    by["all"] = told.weighed
    draft, cone = {}, {}
    for name, weighed in by.items():
        if weighed is not None:
            draft[name], cone[name] = _factors(told, weighed)
    return Telling(told, draft, cone, _monitor(told), tuple(_contradictions(told)))


def told_so(told: Told) -> Span:
    """Give the draft of the day asked about over the table's likely one, by all readings together."""
    return span(told.drafts / draft_force(told.last.rig, plain, likely()), told.weighed.weights)


def impossible(told: Told) -> tuple[Contradiction, ...]:
    """Name the numbers that no field of the range gives; quicker than all that `tells` looks at."""
    return tuple(Contradiction(each.place, kind, why, 0.0) for each in told.seen for kind, why in _cannot(told, each))


def alone(seen: Sequence[Seen], kind: str) -> list[Seen]:
    """Give the readings as if they held one kind of number and nothing else."""
    return [replace(each, numbers={kind: each.numbers[kind]}) for each in seen if kind in each.numbers]


def _factors(told: Told, weighed: Posterior) -> tuple[Span, Span]:
    b = told.last.rig
    drawn = draws_of(weighed.scores, weighed.day(told.day), *weighed.ranges)
    draft = draft_force(b, plain, drawn) / draft_force(b, plain, likely())
    return span(draft, weighed.weights), span(drawn.cone, weighed.weights)


def _monitor(told: Told) -> dict[str, Span]:
    out, weights = {}, told.weighed.weights
    for kind, column in (("load", LOAD), ("fuel", FUEL)):
        if any(kind in each.numbers for each in told.seen):
            middle, off = (0.0, _load_bias(told)) if kind == "load" else fuel_offset(told.last.rig)
            levels = middle + off * quantiles(told.weighed.scores[:, column], weights, [LOW, 0.5, HIGH])
            out[kind] = Span(*(float(factor) for factor in np.exp(levels)))
    return out


def _load_bias(told: Told) -> float:
    """Give what a monitor's load may be off: of the kind that may be off most, where several were read."""
    return max(load_bias(each.load_of) for each in told.seen if "load" in each.numbers)


def _contradictions(told: Told) -> list[Contradiction]:
    """Name first what no field gives; then, one after another, the reading that is farthest off what the others say."""
    out = list(impossible(told))
    named = {(found.place, found.kind) for found in out}
    left = list(told.seen)
    while left:
        off = {each.place: _off(told, each, left, named) for each in left}
        most = {place: max(map(abs, numbers.values()), default=0.0) for place, numbers in off.items()}
        worst = max(most, key=most.__getitem__)
        if most[worst] <= FAR:
            break
        # Of two readings that don't agree nobody can say which one is wrong.
        blamed = [place for place in most if most[place] > FAR] if len(left) == 2 else [worst]
        out += [Contradiction(place, kind, "far_off", value)
                for place in blamed for kind, value in off[place].items() if abs(value) > FAR]  # fmt: skip
        left = [each for each in left if each.place not in blamed]
    return sorted(out, key=lambda found: (found.place, NUMBERS.index(found.kind)))


def _off(told: Told, each: Seen, left: Sequence[Seen], named: set[tuple[int, str]]) -> dict[str, float]:
    """Give how far each number of a reading is off what the others say; those named already aren't asked for again."""
    others = [_without(other, named) for other in left if other is not each]
    weighed = posterior([other for other in others if other.numbers], told.weighed.ranges, extra_day=each.day, count=SMALL)
    asked = _without(each, named)
    return {} if weighed is None or not asked.numbers else off_by(weighed, asked)


def _without(each: Seen, named: set[tuple[int, str]]) -> Seen:
    return replace(each, numbers={kind: value for kind, value in each.numbers.items() if (each.place, kind) not in named})


def _cannot(told: Told, each: Seen) -> list[tuple[str, str]]:
    """Give the numbers of a reading that no field of the range gives."""
    out = []
    if "fuel" in each.numbers and each.numbers["fuel"][0] < _IDLE * float(burn(each.rig, 0.0, each.rig.engine_speed_share)):
        out.append(("fuel", "under_idle"))
    if "pull" in each.numbers and each.numbers["pull"][0] > _most_pull(told, each):
        out.append(("pull", "beyond_grip"))
    return out


def _most_pull(told: Told, each: Seen) -> Any:
    """Give the most pull that the rig gives in any field of the range, kN."""
    before = posterior((), told.weighed.ranges, extra_day=each.day, count=SMALL)
    assert before is not None
    drawn = draws_of(before.scores, before.day(each.day), *before.ranges)
    factors = np.linspace(0.2, 6.0, 59)[:, None]
    return np.nanmax(said_of(each.rig, drawn, factors, ("pull",), "available")["pull"])
