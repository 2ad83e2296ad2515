"""A plan in pieces: which to put on and take off so that delivery, front share and every limit come into place.

The set with the least mass to handle wins; of sets that cost the same, the one that delivers most: see
docs/decisions/0005-ballast.md. Up to `MOST_SETS` sets are walked; larger spaces go to an integer programme.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError
from rigcalc.core.units import mass_of, weight_of
from rigcalc.models.ballast.at_hand import Choice, choices, sets_there_are
from rigcalc.models.ballast.jobs import Job, Jobs, jobs
from rigcalc.models.ballast.limits import TIPPING, Check, Tip, WeightLimit, Which, checks, tipping_draft, tips, weight_limits
from rigcalc.models.ballast.mass_curve import FLAT, delivery_of
from rigcalc.models.ballast.reach import reach_of
from rigcalc.models.ballast.search import (
    Effort,
    Found,
    Problem,
    TooLargeError,
    by_programme,
    closest,
    least_excess,
    nearest,
    nearest_by_programme,
    search,
)
from rigcalc.models.machine import statics
from rigcalc.models.machine.field import Told, in_field
from rigcalc.models.machine.limits import caps
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.rig import Rig

MOST_SETS = 1_000_000  # walked one by one; beyond, an integer programme takes over


@dataclass(frozen=True)
class Step:
    """One choice in a set: what it is, as in `Choice`; amounts before and after; the change in kg (in all, front, rear).

    Amounts are counts, and shares of the tyres' volume for a liquid.
    """

    name: str
    axle: str
    liquid: str
    before: float
    after: float
    change: float
    front: float
    rear: float


@dataclass(frozen=True)
class BallastSet:
    """One whole set: its steps (those that change first), masses in kg, shares, and every limit.

    handled: kg put on or taken off. front_share_pull: share of the load on the ground that the front axle carries at work.
    tip: see `limits.tipping`; None on two tracks.
    """

    steps: tuple[Step, ...]
    handled: float
    front_mass: float
    rear_mass: float
    delivery: float
    slip: float
    front_share: float
    front_share_pull: float
    checks: tuple[Check, ...]
    tip: Tip | None

    @property
    def changes(self) -> tuple[Step, ...]:
        """The steps that change something."""
        return tuple(step for step in self.steps if step.change)


@dataclass(frozen=True)
class Unmet:
    """A limit that stands in the way: which, by how much it is missed (kg, or a share for delivery), alone or jointly.

    alone: True where no set at hand meets it even by itself.
    """

    which: Which
    short: float
    unit: str
    alone: bool

    @property
    def name(self) -> str:
        """The limit's key."""
        return self.which.name


@dataclass(frozen=True)
class Plan:
    """The answer. chosen and runner_up are None where no set works; then nearest misses least and unmet says what.

    sets: how many sets there are. method: "every_set" or "integer_programme". wanted: the least delivery asked for.
    now: the tractor as it stands. told: what readings told of the field behind it (`machine.field.Told`), None without.
    """

    job: Job
    choices: tuple[Choice, ...]
    sets: int
    method: str
    wanted: float
    now: BallastSet
    chosen: BallastSet | None
    runner_up: BallastSet | None
    nearest: BallastSet | None
    unmet: tuple[Unmet, ...]
    told: Told | None = None

    @property
    def works(self) -> bool:
        """True where a set keeps every hard limit and delivers within 1 percent of the best."""
        return self.chosen is not None

    @property
    def bent(self) -> tuple[Check, ...]:
        """The advice that the chosen set doesn't keep, because no set does."""
        return tuple(check for check in self.chosen.checks if not check.holds) if self.chosen else ()


def make_plan(
    rig: Rig, job: str = "full", most_sets: int = MOST_SETS, found_jobs: Jobs | None = None, b: BareRig | None = None
) -> Plan:
    """Choose the pieces for one job: "light", "this" or "full".

    most_sets: a larger space goes to an integer programme. found_jobs: the rig's jobs, where they are worked out already.
    b: its bare numbers, likewise.
    Raises InputError for an unknown job, for a job that has no mass of best delivery, for a space larger than `most_sets`
    where scipy is missing, and for one so large that no answer is found with the effort of `search`.
    """
    try:
        return _planned(rig, job, most_sets, found_jobs, in_field(rig) if b is None else b)
    except TooLargeError:
        kinds = choices(rig)
        largest = " and ".join(f"'{kind.name or f'{kind.liquid} in the {kind.axle} tyres'}'"
                               for kind in sorted(kinds, key=lambda kind: -len(kind.options))[:2])  # fmt: skip
        raise InputError([Fault("ballast", f"{len(kinds)} kinds of weight and liquid, too many sets to go through",
                                f"fewer, so that there are at most {most_sets:,} sets: leave out what stays as it is, put "
                                "alike weights under one name, or hang several at once (in_pairs, or the mass of a stack)",
                                f"a smaller count for {largest}")]) from None  # fmt: skip


def _planned(rig: Rig, job: str, most_sets: int, found_jobs: Jobs | None, b: BareRig) -> Plan:
    wanted_job = (found_jobs or jobs(b, caps(rig, b), reach_of(rig, b)))[job]
    if wanted_job.best is None:
        raise InputError([Fault("job", f"'{job}', whose delivery has no best mass", "a job with a pull that grip can give",
                                "another depth, speed or job")])  # fmt: skip
    kinds = choices(rig)
    limits = weight_limits(rig, b, at=statics.situations(rig, b, wanted_job.pull))
    hard = tuple(limit for limit in limits if limit.hard)
    floor = FLAT * wanted_job.best.delivery
    problem = problem_of(b, kinds, limits, wanted_job.draft_factor, floor)
    count = sets_there_are(kinds)
    method = "every_set" if count <= most_sets else "integer_programme"
    effort = Effort(problem)
    if method == "every_set":
        found = search(problem)
    else:
        try:
            found = by_programme(problem, wanted_job.best.low, wanted_job.best.high, effort=effort)
        except ImportError:
            raise InputError([Fault("ballast at hand", f"{count:,} sets", f"at most {most_sets:,} sets without scipy",
                                    "fewer pieces, or install the extra: rigcalc[plan]")]) from None  # fmt: skip

    if not found and len(hard) < len(limits):
        # Advice that can't be kept gives way: the set that strays least from it, within every hard limit.
        problem = problem_of(b, kinds, hard, wanted_job.draft_factor, floor)
        if method == "every_set":
            bent = closest(problem, _straying(problem, limits))
            found = [bent] if bent is not None else []
        else:
            bend = tuple(limit.row for limit in limits if not limit.hard)
            found = by_programme(problem, wanted_job.best.low, wanted_job.best.high, 1, bend, effort)
    miss, most = None, None
    if not found and method == "every_set":
        miss, most = nearest(problem, mass_of(b.weight), floor)
    elif not found:
        miss = nearest_by_programme(problem, wanted_job.best.low, wanted_job.best.high)
    shown = [_as_it_stands(kinds), *found[:2], *([miss] if miss is not None else [])]
    now, *others = sets_of(b, kinds, limits, [each.options for each in shown], wanted_job)
    best, near = (others, None) if miss is None else ([], others[-1])
    return Plan(
        job=wanted_job,
        choices=kinds,
        sets=count,
        method=method,
        wanted=floor,
        now=now,
        chosen=best[0] if best else None,
        runner_up=best[1] if len(best) > 1 else None,
        nearest=near,
        unmet=() if near is None else _unmet(problem, hard, near, floor, most),
        told=b.told,
    )


def _straying(problem: Problem, limits: tuple[WeightLimit, ...]) -> Callable[[Any, Any], Any]:
    """Give a function of F and R: the worst excess over soft limits in kg, infinite where delivery falls short."""

    def missed(front: Any, rear: Any) -> Any:
        assert problem.accept is not None
        passes, _ = problem.accept(front, rear)
        worst = np.max([limit.excess(front, rear) for limit in limits if not limit.hard], axis=0)
        return np.where(passes, np.maximum(worst, 0.0), np.inf)

    return missed


def problem_of(
    b: BareRig, kinds: tuple[Choice, ...], limits: tuple[WeightLimit, ...], draft_factor: float, floor: float
) -> Problem:
    """Put choices and limits into the form that the search works on; floor is the least delivery that passes."""

    def accept(front: Any, rear: Any) -> tuple[Any, Any]:
        delivery = delivery_of(solve(_weighing(b, front, rear), draft_factor=draft_factor, want=("drawbar_power", "pto_power")))
        return np.nan_to_num(delivery, nan=0.0) >= floor * (1 - 1e-12), delivery

    return Problem(
        fronts=tuple(kind.front for kind in kinds),
        rears=tuple(kind.rear for kind in kinds),
        handled=tuple(kind.handled for kind in kinds),
        front=mass_of(b.front_weight),
        rear=mass_of(b.rear_weight),
        rows=tuple(limit.row for limit in limits),
        accept=accept,
    )


def _weighing(b: BareRig, front: Any, rear: Any) -> BareRig:
    return b.at(front_weight=weight_of(front), rear_weight=weight_of(rear))


def _as_it_stands(kinds: tuple[Choice, ...]) -> Found:
    return Found(tuple(kind.now for kind in kinds), 0.0, 0.0)


def sets_of(
    b: BareRig, kinds: tuple[Choice, ...], limits: tuple[WeightLimit, ...], sets: list[tuple[int, ...]], job: Job
) -> list[BallastSet]:
    """Work out several sets for one job, at work and about to tip, in one call. sets: the option of each choice."""
    steps = [steps_of(kinds, options) for options in sets]
    front = mass_of(b.front_weight) + np.array([sum(step.front for step in each) for each in steps])
    rear = mass_of(b.rear_weight) + np.array([sum(step.rear for step in each) for each in steps])
    there = _weighing(b, front, rear)
    drafts = [np.full(len(sets), job.draft_factor)]
    lifts: Any = ()
    if b.front is not None:
        lifts, tipping = tipping_draft(there, job.draft_factor, float(job.point.draft), job.pull)
        drafts.append(tipping)
    p = solve(there, draft_factor=np.array(drafts),
              want=("drawbar_power", "drawbar_pull", "pto_power", "slip", "front_load", "rear_load", *TIPPING))  # fmt: skip
    tip: list[Tip | None] = [None] * len(sets)
    if b.front is not None:
        tip = [*tips(lifts, p.peak_pull[1], p.net_pull[1], p.drawbar_pull[1])]
    delivery, slip, front_load, rear_load = delivery_of(p)[0], p.slip[0], p.front_load[0], p.rear_load[0]
    if b.front is None:  # two tracks: what the front and rear end rollers carry
        front_load, rear_load = statics.axle_loads(there, statics.center_ahead(there), p.drawbar_pull[0], b.hitch_load)
    return [
        BallastSet(
            steps=each,
            handled=sum(abs(step.change) for step in each),
            front_mass=float(front[k]),
            rear_mass=float(rear[k]),
            delivery=float(delivery[k]),
            slip=float(slip[k]),
            front_share=float(front[k] / (front[k] + rear[k])),
            front_share_pull=float(front_load[k] / (front_load[k] + rear_load[k])),
            checks=checks(limits, float(front[k]), float(rear[k])),
            tip=tip[k],
        )
        for k, each in enumerate(steps)
    ]


def steps_of(kinds: tuple[Choice, ...], options: tuple[int, ...]) -> tuple[Step, ...]:
    """Give the steps to a set, those that change something first. options: the one taken of each choice."""
    steps = []
    for kind, place in zip(kinds, options, strict=True):
        steps.append(
            Step(
                name=kind.name,
                axle=kind.axle,
                liquid=kind.liquid,
                before=kind.options[kind.now],
                after=kind.options[place],
                change=float(kind.masses[place] - kind.masses[kind.now]),
                front=float(kind.front[place]),
                rear=float(kind.rear[place]),
            )
        )
    return tuple(sorted(steps, key=lambda step: not step.change))


def _unmet(
    problem: Problem, limits: tuple[WeightLimit, ...], near: BallastSet, floor: float, most: float | None
) -> tuple[Unmet, ...]:
    """Name what no set meets even by itself; where there is nothing of that kind, what the nearest set misses."""
    alone = [Unmet(limit.which, least_excess(problem, limit.row), "kg", alone=True) for limit in limits]
    alone = [unmet for unmet in alone if unmet.short > 1e-6]
    if most is not None and most < floor:
        alone.append(Unmet(Which("delivery"), 1 - most / floor, "1", alone=True))
    if alone:
        return tuple(alone)
    jointly = [Unmet(c.which, c.short, "kg", alone=False) for c in near.checks if c.hard and not c.holds]
    if not near.delivery >= floor:
        short = 1 - near.delivery / floor if np.isfinite(near.delivery) else 1.0
        jointly.append(Unmet(Which("delivery"), short, "1", alone=False))
    return tuple(jointly)
