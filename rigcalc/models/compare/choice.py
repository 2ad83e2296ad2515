"""Which one is ahead, and whether that matters: one place decides it, `words/compare` says it.

docs/decisions/0014-compare-asks-size.md says why these thresholds.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from rigcalc.models.compare.figures import Value, same
from rigcalc.models.size.answer import Answer
from rigcalc.models.size.verdict import Judgement, State

NEAR = 0.05  # our choice: chances no further apart than this are inside the doubt
PARTS = 0.03  # our choice: areas or fuel that lie this much apart, as a share, are worth a word

_RANKS = {Judgement.GO: 0, Judgement.TRY: 1, Judgement.DONT: 2}
# Figures that part rigs which may all be used -> whether more of it is wanted.
_PARTING = {"depth": True, "field_capacity": True, "fuel_per_area": False}
_BY_CHANCE = (State.UNSURE, State.WORKS)  # judged by nothing but the chance


class Outcome(StrEnum):
    """What a comparison comes to."""

    SAME = "same"  # the same in every figure
    NONE = "none"  # each of them is "don't"
    EVEN = "even"  # one verdict, and chances inside the doubt
    SOME = "some"  # several are ahead of the rest, even among themselves
    BEST = "best"  # one is ahead


@dataclass(frozen=True)
class Parted:
    """A figure that parts the rigs which may be used: its name, who has the most of what is wanted, who has the least."""

    figure: str
    first: tuple[int, ...]
    last: tuple[int, ...]


@dataclass(frozen=True)
class Choice:
    """Which rigs are ahead, by their place in the comparison.

    front: those with the best verdict whose chance is inside the doubt of the best. close: those behind by a worse verdict
    that the chance alone decides, with a chance inside that doubt too. parted: what else parts the rigs that aren't "don't".
    different_work: what they aren't asked alike: "depth", "speed", "ground". wheel_tracks: where one tool does one work behind
    all of them and more of its width runs in wheel tracks behind the one that it pulls hardest behind: that one, and the one it
    pulls least behind; None else.
    """

    outcome: Outcome
    judgement: Judgement
    front: tuple[int, ...]
    close: tuple[int, ...]
    parted: tuple[Parted, ...]
    different_work: tuple[str, ...]
    wheel_tracks: tuple[int, int] | None = None


def choice(answers: Sequence[Answer], figures: Sequence[dict[str, Value]]) -> Choice:
    """Choose among answers, each with its figures. What is said of a rig doesn't hang on its place."""
    best = min((answer.verdict.judgement for answer in answers), key=_RANKS.__getitem__)
    ranked = [at for at, answer in enumerate(answers) if answer.verdict.judgement is best]
    chances = [answer.sure.chance_works for answer in answers]
    most = max(chances[at] for at in ranked)
    front = tuple(at for at in ranked if chances[at] >= most - NEAR)
    close = tuple(
        at for at, answer in enumerate(answers)
        if at not in ranked and answer.verdict.state in _BY_CHANCE and not answer.verdict.by_soil and chances[at] >= most - NEAR
    )  # fmt: skip
    usable = [at for at, answer in enumerate(answers) if answer.verdict.judgement is not Judgement.DONT]
    return Choice(
        outcome=_outcome(best, front, figures),
        judgement=best,
        front=front,
        close=close,
        parted=tuple(part for name in _PARTING if (part := _parted(name, usable, figures)) is not None),
        different_work=_different_work(figures),
        wheel_tracks=_wheel_tracks(answers, figures),
    )


def _outcome(best: Judgement, front: tuple[int, ...], figures: Sequence[dict[str, Value]]) -> Outcome:
    if all(same(figures[0][name], other[name]) for other in figures[1:] for name in other):
        return Outcome.SAME
    if best is Judgement.DONT:
        return Outcome.NONE
    if len(front) == len(figures):
        return Outcome.EVEN
    return Outcome.BEST if len(front) == 1 else Outcome.SOME


def _parted(name: str, among: list[int], figures: Sequence[dict[str, Value]]) -> Parted | None:
    values = {at: value for at in among if isinstance(value := figures[at][name], float) and math.isfinite(value)}
    if len(values) < 2:
        return None
    low, high = min(values.values()), max(values.values())
    if not high - low >= PARTS * abs(high):
        return None
    lows = tuple(at for at, value in values.items() if math.isclose(value, low, rel_tol=1e-6))
    highs = tuple(at for at, value in values.items() if math.isclose(value, high, rel_tol=1e-6))
    return Parted(name, highs, lows) if _PARTING[name] else Parted(name, lows, highs)


def _different_work(figures: Sequence[dict[str, Value]]) -> tuple[str, ...]:
    asked = {"depth": ("depth",), "speed": ("speed",), "ground": ("texture", "surface", "cone_index", "grade")}
    return tuple(
        work for work, names in asked.items()
        if not all(_alike(figures[0][name], other[name]) for other in figures[1:] for name in names)
    )  # fmt: skip


def _wheel_tracks(answers: Sequence[Answer], figures: Sequence[dict[str, Value]]) -> tuple[int, int] | None:
    first = answers[0].rig
    one_job = not _different_work(figures) and all(answer.rig.implement == first.implement for answer in answers)
    drafts = [float(answer.point.bare.draft) for answer in answers]
    most, least = drafts.index(max(drafts)), drafts.index(min(drafts))
    if not one_job or not drafts[most] - drafts[least] >= PARTS * abs(drafts[most]):
        return None
    covered, other = figures[most]["wheel_tracks"], figures[least]["wheel_tracks"]
    return (most, least) if isinstance(covered, float) and isinstance(other, float) and covered > other else None


def _alike(one: Value, other: Value) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=1e-3)  # 14 in and 35.6 cm are one depth
    return one == other
