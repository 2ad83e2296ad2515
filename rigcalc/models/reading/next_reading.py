"""What to read next to learn most of the job that is asked about: the same again, deeper, faster, another number; or to stop.

How much a reading would narrow the draft of the job is told by how closely what it would show goes with that draft over all
combinations that are left: a straight line through them, which is near enough to choose by.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.models.machine.draft_force import draft_force
from rigcalc.models.machine.field import in_field, picked, ranges_of
from rigcalc.models.machine.limits import caps
from rigcalc.models.machine.posterior import Posterior, posterior
from rigcalc.models.machine.scores import doubt, draws_of
from rigcalc.models.machine.seen import Seen, error_of
from rigcalc.models.machine.statics import plain
from rigcalc.models.machine.sure import how_sure
from rigcalc.models.reading.foretold import levels_to_come, span
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.rig import Rig

WORTH = 0.9  # our choice: a reading that leaves more of the band than this isn't worth a stop
SURE = 0.98  # our choice: a chance this far to either side won't turn by one more reading
_STEP = 1.15  # deeper and faster by this
_PULLS = 0.9  # no reading is asked for where fewer fields than this let the rig pull


@dataclass(frozen=True)
class Candidate:
    """A reading that could be made: "same", "deeper", "faster", in cm and km/h; numbers read; the share of the width of the
    job's draft band that it would leave, and the chance that the rig pulls there."""  # fmt: skip

    name: str
    depth: float
    speed: float
    kinds: tuple[str, ...]
    leaves: float
    pulls: float


@dataclass(frozen=True)
class Next:
    """What to read next, the most telling first. stop: "sure" (the chance won't turn), "little" (none would tell much) or None.

    chance: that every limit holds in the job. width: of the band of the job's draft, high over low.
    """

    candidates: tuple[Candidate, ...]
    stop: str | None
    chance: float
    width: float


def next_reading(rig: Rig) -> Next:
    """Say what to read next for the rig's own job (depth and speed under [work])."""
    b = in_field(rig)
    told = b.told
    field, day = (told.field, told.day) if told is not None else ("", "to come")
    seen = list(told.seen) if told is not None else picked(rig, field)[0]
    weighed = posterior(seen, ranges_of(bare(rig)), extra_day=day)
    assert weighed is not None  # in_field has refused what can't be
    drawn = draws_of(weighed.scores, weighed.day(day), *weighed.ranges)
    job = np.log(draft_force(b, plain, drawn) + np.zeros(weighed.weights.size))
    chance = how_sure(b, caps(rig, b)).chance_works
    band = span(np.exp(job), weighed.weights)
    found = []
    for name, depth, speed in (
        ("same", b.depth, b.speed), ("deeper", b.depth * _STEP, b.speed), ("faster", b.depth, b.speed * _STEP)
    ):  # fmt: skip
        for kinds in (("load",), ("slip", "load")):
            candidate = _candidate(rig, name, float(depth), float(speed), kinds, weighed, day, job)
            if candidate is not None:
                found.append(candidate)
    found.sort(key=lambda each: each.leaves)
    stop = None
    if not 1 - SURE < chance < SURE:
        stop = "sure"
    elif not found or found[0].leaves > WORTH:
        stop = "little"
    return Next(tuple(found), stop, chance, band.width)


def _candidate(
    rig: Rig, name: str, depth: float, speed: float, kinds: tuple[str, ...], weighed: Posterior, day: str, job: Any
) -> Candidate | None:
    b = bare(rig).at(depth=depth, speed=speed)
    usual = {"slip": (0.1, error_of("slip", 0.1, doubt("slip"))), "load": (0.8, doubt("load"))}
    spread = float(np.hypot(doubt("spot"), 100 * doubt("depth") / depth))
    new = Seen(len(rig.reading), day, b, spread, {kind: usual[kind] for kind in kinds}, "available")
    levels = levels_to_come(weighed, new)
    there = np.isfinite(levels).all(axis=1)
    pulls = float(weighed.weights[there].sum())
    if pulls < _PULLS:
        return None
    weights = weighed.weights[there] / pulls
    left = levels[there] - weights @ levels[there]
    aim = job[there] - weights @ job[there]
    among = (left * weights[:, None]).T @ left
    across = (left * weights[:, None]).T @ aim
    explained = across @ np.linalg.solve(among + 1e-12 * np.eye(len(kinds)), across) / (weights @ aim**2)
    return Candidate(name, depth, speed, kinds, float(np.sqrt(max(1 - explained, 0.0))), pulls)
