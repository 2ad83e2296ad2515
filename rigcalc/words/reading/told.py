"""What readings tell, in words: which number told what, what doesn't go together, and what to read next."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.models.machine.field import Told
from rigcalc.models.reading.foretold import Span
from rigcalc.models.reading.next_reading import Candidate, Next
from rigcalc.models.reading.tells import Contradiction, Telling
from rigcalc.models.rig.rig import Rig
from rigcalc.words.field import from_readings, readings_text
from rigcalc.words.numbers import System, capital, chance, number, percent, say
from rigcalc.words.reading.listed import KIND_TITLES, number_text

HEADS = ("by", "draft over the table's", "soil strength over that taken")
_BY = {"before": "no reading", "all": "all of it"}
_IN_A_FILE = 'If it is wrong, write set_aside = "why" in that reading; until then it counts.'
_DONE = 0.1  # a band that shrinks by less than this isn't called narrower


def headline(telling: Telling) -> str:
    """Say in a sentence what the readings came to."""
    return headline_of(telling.told, telling.draft["all"])


def headline_of(told: Told, draft: Span) -> str:
    """Say it of the draft of the day over the table's likely one."""
    pulls = "as the table says" if abs(draft.middle - 1) < 0.005 else (
        f"{percent(abs(draft.middle - 1))} {'harder' if draft.middle > 1 else 'lighter'} than the table says")  # fmt: skip
    where = from_readings(told).removeprefix("from ")
    return f"{capital(where)}: the ground pulls {pulls}, {_factor(draft.low)} to {_factor(draft.high)} times in 8 of 10 cases."


def rows(telling: Telling) -> list[tuple[str, str, str]]:
    """Give, under `HEADS`, what is known by no reading, by each kind of number alone, and by all."""
    return [(_by(name), _span(telling.draft[name]), _span(telling.cone[name])) for name in telling.draft]


def _by(name: str) -> str:
    return _BY.get(name) or f"{KIND_TITLES[name]} alone"


def _span(span: Span) -> str:
    return f"{_factor(span.low)} to {_factor(span.high)}"


def _factor(value: float) -> str:
    return f"{value:.2f}"


def lines(telling: Telling, rig: Rig, units: System, aside: str = _IN_A_FILE) -> Iterator[str]:
    """Give what else they tell: which number told most, the monitor, and what to look at again. aside: how to set one aside."""
    yield from _who_told(telling)
    for kind, span in telling.monitor.items():
        title = KIND_TITLES[kind]
        yield f"The monitor's {title} over the sums': {_span(span)}, one and the same error in all readings."
    for found in telling.contradictions:
        yield contradiction(found, telling.told, rig, units, aside)
    if telling.told.thin:
        yield "The readings hardly go together: few combinations are left, and the figures are rough."


def _who_told(telling: Telling) -> Iterator[str]:
    kinds = [kind for kind in telling.draft if kind in KIND_TITLES]
    before_draft, before_cone = telling.draft["before"], telling.cone["before"]
    for spans, before, what in ((telling.draft, before_draft, "draft"), (telling.cone, before_cone, "soil strength")):
        if not kinds:
            continue
        best = min(kinds, key=lambda kind: spans[kind].width)
        if spans[best].width > before.width * (1 - _DONE):
            yield f"None of the numbers told much about {what}."
        else:
            yield f"Of {what}, {KIND_TITLES[best]} told most."


def contradiction(found: Contradiction, told: Told, rig: Rig, units: System, aside: str = _IN_A_FILE) -> str:
    """Say which number doesn't go with the rest and why, and that it counts until it is set aside."""
    value = number_text(found.kind, rig.reading[found.place].numbers[found.kind][0], units)
    what = f"Reading {found.place + 1}: {KIND_TITLES[found.kind]} of {value}"
    if found.why == "under_idle":
        return f"{what} is less than the engine burns without load. {aside}"
    if found.why == "beyond_grip":
        return f"{what} is more than this rig's grip gives in any field of the range. {aside}"
    others = "the other readings say" if len(told.seen) > 1 else "the table says"
    off = "far" if found.off in (float("inf"), float("-inf")) else f"{number(abs(found.off), 2)} standard deviations"
    return f"{what} is {off} {'above' if found.off > 0 else 'below'} what {others}. {aside}"


def next_lines(found: Next, units: System, told: Told | None) -> Iterator[str]:
    """Say what to read next, or that it is time to stop."""
    by = "By the table" if told is None else f"By {readings_text(told)}"
    holds = chance(found.chance)
    yield f"{by}, every limit of the job holds in {holds}; its draft is known within a factor of {found.width:.2f}."
    if found.stop == "sure":
        yield "Stop reading: one more would hardly turn that chance."
    elif found.stop == "little":
        yield "Stop reading: none that could be made here tells much more."
    if found.candidates:
        best = found.candidates[0]
        again = "If you read all the same" if found.stop else "Read next"
        yield f"{again}: {_candidate(best, units)}. That leaves about {percent(best.leaves)} of the doubt about draft."
        for other in found.candidates[1:3]:
            yield f"Instead: {_candidate(other, units)}, leaving about {percent(other.leaves)}."


def _candidate(each: Candidate, units: System) -> str:
    place = {"same": "the job as it is", "deeper": "deeper than the job", "faster": "faster than the job"}[each.name]
    kinds = " and ".join(KIND_TITLES[kind] for kind in each.kinds)
    return f"{kinds} at {say(each.depth, 'cm', units)} and {say(each.speed, 'km/h', units)}, {place}"
