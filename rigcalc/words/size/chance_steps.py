"""The last steps of the working in words: from the scatter of draft to the chance that the verdict names."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.core.dimensions import of_terms
from rigcalc.core.working import Working
from rigcalc.models.machine.ranges import DEVIATIONS
from rigcalc.models.size.answer import Answer
from rigcalc.models.size.chances import MOST_TRIED, Chances, DraftAlone, chances
from rigcalc.words.numbers import System, chance, percent
from rigcalc.words.size.figures import both, plain

_READ = "The printed range is read as two standard deviations of a normal distribution, cut off at nothing and at double"
_NORMAL = "normal probability of"
_ABOVE = "From the steps above"
_SHARE, _MANY_TIMES, _RATIO = (("1", "1"), " / ", "1"), (("kN", "1"), " * ", "kN"), (("kN", "kN"), " / ", "1")
_DIFFERENCE = ("kN", "kN"), " - ", "kN"
_ENDS = {"engine": "the engine gives out", "grip": "grip gives out"}


def chance_steps(answer: Answer, units: System) -> Iterator[Working]:
    """Say what draft can be pulled, how likely a lighter one is, and in how many combinations of every doubt it all holds."""
    found = chances(answer.bare_rig, answer.caps, answer.sure.seed)
    if found.alone is not None:
        yield from _draft_alone(found.alone, answer, units)
    yield _counted(found, answer)
    beyond = found.pulls - found.works
    yield _step(
        "chance_works", "chance that every limit holds",
        "chance = combinations in which every limit holds / combinations tried",
        f"{found.works} / {found.tried}", chance(found.works / found.tried),
        (f"in {beyond} of the {found.pulls} with grip and engine enough another limit is passed or slip leaves its band",),
        source=_ABOVE,
    )  # fmt: skip


def _draft_alone(alone: DraftAlone, answer: Answer, units: System) -> Iterator[Working]:
    likely, deviation = (both(value, "kN", units) for value in (alone.likely, alone.deviation))
    spread = answer.bare_rig.draft_range
    if answer.bare_rig.gangs:  # each by its own range, so it is no plain share of the draft
        text, numbers = "deviation = draft with every row one standard deviation up - likely draft", (
            f"{plain(alone.likely + alone.deviation)} - {plain(alone.likely)}")  # fmt: skip
    else:
        text, numbers = f"deviation = draft * range / {DEVIATIONS:g}", f"{plain(alone.likely)} * {spread:g} / {DEVIATIONS:g}"
    inputs = f"draft = {likely}: the likely one", f"range = {spread:g}: {percent(spread)} either way, by the tool's row"
    yield _step(
        "draft_deviation",
        "standard deviation of draft",
        text,
        numbers,
        deviation,
        inputs,
        source=_READ,
        check=_DIFFERENCE if answer.bare_rig.gangs else _MANY_TIMES,
    )
    ends = f"there {_ENDS[alone.gives_out]}" if alone.most is not None else "it never gives out"
    times = MOST_TRIED if alone.most is None else alone.most / alone.likely
    most = both(times * alone.likely, "kN", units)
    yield _step("draft_most", "heaviest draft that is pulled",
                "most = draft * times, found by trying heavier drafts with all else as likely",
                f"{plain(alone.likely)} * {plain(times)}", most if alone.most is not None else f"more than {most}",
                (f"draft = {likely}: the likely one", f"times = {plain(times)}: {ends}"),
                source=_ABOVE, check=_MANY_TIMES)  # fmt: skip
    if alone.most is None:
        return
    score = (alone.most - alone.likely) / alone.deviation
    yield _step(
        "chance_of_draft", "chance by the scatter of draft alone",
        f"chance = {_NORMAL} (heaviest draft that is pulled - draft) / deviation",
        f"{_NORMAL} ({plain(alone.most)} - {plain(alone.likely)}) / {plain(alone.deviation)} = {_NORMAL} {plain(score)}",
        chance(alone.chance),
        (f"heaviest draft that is pulled = {most}", f"draft = {likely}: the likely one", f"deviation = {deviation}"),
        source="Any table of the normal distribution; cutting it off at nothing and at double hardly moves this", check=_RATIO,
    )  # fmt: skip


def _counted(found: Chances, answer: Answer) -> Working:
    told = answer.bare_rig.told
    drawn = "those that the field's readings leave" if told is not None else (
        "draft, soil strength, soil group, the deep row and wheel tracks, drawn together and equally likely")  # fmt: skip
    return _step(
        "chance_pulls", "chance that grip and engine are enough",
        "chance = combinations in which both are enough / combinations tried",
        f"{found.pulls} / {found.tried}", chance(found.pulls / found.tried),
        (f"combinations tried = {found.tried}: {drawn}",
         f"grip gives out in {found.tried - found.grip}, the engine alone in {found.grip - found.pulls}"),
        source=_ABOVE if told is not None else _READ,
    )  # fmt: skip


def _step(name: str, title: str, text: str, numbers: str, result: str, inputs: tuple[str, ...], *, source: str,
          check: tuple[tuple[str, ...], str, str] = _SHARE) -> Working:  # fmt: skip
    """Put a step together. check: units of the terms, the sign between them, the unit of the result."""
    sure = "computed" if source == _ABOVE else "common practice"
    return Working(name, title, "", "", text, numbers, result, inputs, source, sure, name, dimensions=of_terms(*check))
