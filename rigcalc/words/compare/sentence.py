"""Which one, why, and when it doesn't matter: what stands first in a comparison. The one place that says it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from rigcalc.models.compare.answer import Compared, Comparison
from rigcalc.models.compare.choice import Outcome, Parted
from rigcalc.models.compare.figures import UNITS, first_limit
from rigcalc.models.machine.wetness import Wet
from rigcalc.models.size.verdict import GO_FROM, Judgement, State
from rigcalc.words.compare.rows import cell, in_hundred
from rigcalc.words.field import from_readings, such_fields
from rigcalc.words.limits import limit_title
from rigcalc.words.numbers import System
from rigcalc.words.said import Said
from rigcalc.words.tools import pieces

_CALLED = {Judgement.GO: "go", Judgement.TRY: "try it first", Judgement.DONT: "don't"}
# What is said of a rig that is behind; {limit} is what gives out first in the likely case, {often}
# what gives out in most fields.
_BEHIND = {
    State.TIPS: "the tractor tips over backward",
    State.NO_GRIP: "there is no grip left",
    State.LITTLE_GRIP: "grip can't give the pull",
    State.LITTLE_ENGINE: "the engine can't give the power",
    State.OVER_A_LIMIT: "{limit} is over its limit",
    State.MUCH_SLIP: "{limit} is passed",
    State.TOO_DEEP: "it works below the critical depth of the point",
    State.PUSHED: "the slope pushes it on",
    State.SOFTER_THAN_KNOWN: "the ground is softer than any row of the tables",
    State.STEEP: "the slope is steeper than such sums are good for",
    State.LIGHT_FRONT: "the front axle keeps too little to steer",
    State.UNSURE: "elsewhere it is mostly {often} that gives out",
    State.WORKS: "elsewhere it is mostly {often} that gives out",
}
_SOIL = {Wet.FROZEN: "frozen", Wet.WET: "too wet", Wet.NEAR: "near its limit of wetness", Wet.HARD: "dry and hard"}
# States that come from a matter which counts in no draw.
_MORE_THAN_CHANCE = (State.TOO_DEEP, State.PUSHED, State.SOFTER_THAN_KNOWN, State.STEEP, State.LIGHT_FRONT)
_NO_MATTER = "It doesn't matter which"
_WORKS_NO_MATTER = "For whether it works it doesn't matter which"  # area, fuel or depth may still part them
# Who has the most of what is wanted (one, several), and who the least.
_PARTED = {
    "depth": ("goes deepest", "go deepest", "the shallowest"),
    "field_capacity": ("covers most", "cover most", "the least"),
    "fuel_per_area": ("burns least over the area", "burn least over the area", "the most"),
}


def say_comparison(comparison: Comparison, units: System) -> Said:
    """Say in a few sentences which rig is ahead, why, and when it doesn't matter."""
    word, headline = _SAYS[comparison.choice.outcome](comparison)
    rest = [*_work(comparison), *_read(comparison), *_behind(comparison), *_close(comparison), *_tracks(comparison, units)]
    rest += [_parted(part, comparison, units) for part in comparison.choice.parted]
    return Said(word, headline, tuple(rest))


def _work(comparison: Comparison) -> list[str]:
    work = list(comparison.choice.different_work)
    differ = "differs" if len(work) == 1 else "differ"
    return [f"They aren't asked the same work, which comes into every figure: {listed(work)} {differ}."] if work else []


def _read(comparison: Comparison) -> list[str]:
    """Say which rigs stand on readings from the field; the others stand on the table."""
    by: dict[str, list[str]] = {}
    for side in comparison.rigs:
        if (told := side.answer.bare_rig.told) is not None:
            by.setdefault(from_readings(told), []).append(side.name)
    whole = len(by) == 1 and sum(map(len, by.values())) == len(comparison.rigs)
    if whole:
        return [f"All of it {next(iter(by))}."]
    return [f"{listed(names)}: {text}; what has no reading goes by the table." for text, names in by.items()]


def _same(comparison: Comparison) -> tuple[str, str]:
    return _NO_MATTER, f"they are the same in every figure; each is {_verdict(comparison)}, {_chances(comparison.rigs)}."


def _none(comparison: Comparison) -> tuple[str, str]:
    return "None of them", f"each is {_CALLED[Judgement.DONT]}."


def _even(comparison: Comparison) -> tuple[str, str]:
    small = "" if len(_hundreds(comparison.rigs)) == 1 else "; a difference that small is inside the doubt about draft and soil"
    headline = f"each is {_verdict(comparison)}, {_chances(comparison.rigs)}{small}."
    return (_WORKS_NO_MATTER if comparison.choice.parted else _NO_MATTER), headline


def _some(comparison: Comparison) -> tuple[str, str]:
    ahead = _ahead(comparison)
    headline = f"each is {_verdict(comparison)}, {_chances(ahead)}, and among them it doesn't matter which."
    return listed([side.name for side in ahead], "or"), headline


def _best(comparison: Comparison) -> tuple[str, str]:
    ahead = _ahead(comparison)
    return ahead[0].name, f"{_verdict(comparison)}, {_chances(ahead)}."


_SAYS: dict[Outcome, Callable[[Comparison], tuple[str, str]]] = {
    Outcome.SAME: _same,
    Outcome.NONE: _none,
    Outcome.EVEN: _even,
    Outcome.SOME: _some,
    Outcome.BEST: _best,
}


def _ahead(comparison: Comparison) -> list[Compared]:
    return [comparison.rigs[at] for at in comparison.choice.front]


def _verdict(comparison: Comparison) -> str:
    return _CALLED[comparison.choice.judgement]


def _chances(sides: Sequence[Compared]) -> str:
    """Say in how many fields every limit holds; where a verdict stands on more than the chance, all else."""
    beside = any(side.answer.verdict.state in _MORE_THAN_CHANCE for side in sides)
    return f"{'all else' if beside else 'every limit'} holds in {listed(_hundreds(sides))} in 100 {_fields(sides)}"


def _fields(sides: Sequence[Compared]) -> str:
    """Say of which fields the chances are the share; of fields in general where one of the rigs has no reading."""
    return such_fields(None if any(side.answer.bare_rig.told is None for side in sides) else sides[0].answer.bare_rig.told)


def _hundreds(sides: Sequence[Compared]) -> list[str]:
    return list(dict.fromkeys(in_hundred(side.answer.sure.chance_works) for side in sides))


def _behind(comparison: Comparison) -> list[str]:
    """Say of each rig that isn't ahead its verdict, its chance, and why."""
    outcome, front = comparison.choice.outcome, comparison.choice.front
    if outcome in (Outcome.SAME, Outcome.EVEN):
        return []
    behind = [side for at, side in enumerate(comparison.rigs) if outcome is Outcome.NONE or at not in front]
    return [_of(side, comparison.choice.judgement) for side in behind]


def _of(side: Compared, best: Judgement) -> str:
    answer = side.answer
    limit = first_limit(answer).name
    often = side.figures["fails_most"] or limit
    why = _BEHIND[answer.verdict.state].format(limit=limit_title(limit), often=limit_title(str(often)))
    if answer.verdict.by_soil and answer.wetness is not None:
        why = f"its ground is {_SOIL.get(answer.wetness.state, 'dry enough')}"
    if answer.verdict.judgement is Judgement.DONT:
        return f"{side.name} is {_CALLED[Judgement.DONT]}: {_chances([side])}, and {why}."
    too = " too, but" if answer.verdict.judgement is best else ":"
    return f"{side.name} is {_CALLED[answer.verdict.judgement]}{too} {_chances([side])}, and {why}."


def _close(comparison: Comparison) -> list[str]:
    names = [comparison.rigs[at].name for at in comparison.choice.close]
    if not names:
        return []
    line = f"the line of {round(100 * GO_FROM)} in 100 falls between" if comparison.choice.judgement is Judgement.GO else (
        "a line between two verdicts falls between")  # fmt: skip
    return [f"{listed(names)} {'stands' if len(names) == 1 else 'stand'} within the doubt of that: {line}."]


def _parted(part: Parted, comparison: Comparison, units: System) -> str:
    one, several, least = _PARTED[part.figure]
    first, last = ([comparison.rigs[at] for at in places] for places in (part.first, part.last))
    value, other = (cell(part.figure, UNITS[part.figure], sides[0].figures[part.figure], units) for sides in (first, last))
    return f"{_names(first)} {one if len(first) == 1 else several}, {value}; {_names(last)} {least}, {other}."


def _tracks(comparison: Comparison, units: System) -> list[str]:
    """Say why one tool pulls harder behind one tractor than behind another."""
    places = comparison.choice.wheel_tracks
    if places is None:
        return []
    most, least = (comparison.rigs[at] for at in places)

    def shown(side: Compared, name: str) -> str:
        return cell(name, UNITS[name], side.figures[name], units)

    many = pieces(most.answer.rig.implement.tool)
    in_tracks = f"{shown(most, 'wheel_tracks')} of its width runs in wheel tracks behind the one"
    return [
        f"The same tool pulls {shown(most, 'draft')} behind {most.name} and {shown(least, 'draft')} behind {least.name}: "
        f"{in_tracks}, {shown(least, 'wheel_tracks')} behind the other, and {many} there pull about twice as hard."
    ]


def _names(sides: Sequence[Compared]) -> str:
    return listed([side.name for side in sides])


def listed(names: Sequence[str], word: str = "and") -> str:
    """Give names in one line: "one, two and three".

    >>> listed(["this"]), listed(["this", "that"], "or"), listed(["a", "b", "c"])
    ('this', 'this or that', 'a, b and c')
    """
    return f"{', '.join(names[:-1])} {word} {names[-1]}" if len(names) > 1 else "".join(names)
