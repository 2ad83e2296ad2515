"""What readings changed in an answer, in words: the line that says so, and before and after side by side."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from rigcalc.models.size.answer import Answer
from rigcalc.words.field import from_readings, such_fields
from rigcalc.words.numbers import System, chance, chance_short, percent, percent_number, say
from rigcalc.words.quantities import OUT_OF_REACH, QUANTITY_TITLES

_SHOWN = (("draft", "kN"), ("slip", "share"), ("engine_share", "share"), ("fuel_rate", "L/h"))
_ASKED = (("deepest", "Deepest at this speed", "cm"), ("fastest", "Fastest at this depth", "km/h"))
_LEFT_OUT = {
    "set_aside": "set aside",
    "other_field": "of another field",
    "other_zone": "of a headland or lane",
    "other_tool": "made with another tool",
    "other_ground": "made on another soil",
}


@dataclass(frozen=True)
class Changed:
    """One row: what it is, without the readings, and with them."""

    title: str
    before: str
    after: str


def says_before(answer: Answer, judgements: dict[str, str]) -> str:
    """Say what the answer would be without the readings; empty where there are none. judgements: each in words."""
    if answer.before is None:
        return ""
    word = judgements[answer.before.verdict.judgement]
    return f"Without the readings: {word}, every limit kept in {chance(answer.before.sure.chance_works)} such fields."


def says_doubt(answer: Answer) -> str:
    """Say what is wrong with the readings that the answer stands on; empty where nothing is."""
    told = answer.bare_rig.told
    if told is None:
        return ""
    if odd := sorted({place + 1 for place, _ in told.misfits}):
        which = f"reading {odd[0]} doesn't" if len(odd) == 1 else f"readings {', '.join(map(str, odd))} don't"
        return f"Look again: {which} go with the others; what the readings tell says how far each is off."
    return "The readings hardly go together, so this is rough." if told.thin else ""


def changed_rows(answer: Answer, units: System, judgements: dict[str, str]) -> tuple[Changed, ...]:
    """Give before and after, row by row; empty where there are no readings."""
    before = answer.before
    if before is None:
        return ()
    return (
        Changed("Verdict", judgements[before.verdict.judgement], judgements[answer.verdict.judgement]),
        Changed("Every limit kept in", chance_short(before.sure.chance_works), chance_short(answer.sure.chance_works)),
        *(Changed(QUANTITY_TITLES[name], *(_band(each, name, unit, units) for each in (before, answer)))
          for name, unit in _SHOWN),
        *(Changed(title, *(_far(each, question, unit, units) for each in (before, answer)))
          for question, title, unit in _ASKED),
    )  # fmt: skip


def _band(answer: Answer, name: str, unit: str, units: System) -> str:
    likely = float(getattr(answer.point.bare, name))
    low, _, high, _ = answer.sure.bands[name]
    ends = [_number(low, unit, units), _number(high, unit, units)]
    return f"{_number(likely, unit, units)} ({' to '.join(ends)})"


def _number(value: float | None, unit: str, units: System) -> str:
    if value is None or not math.isfinite(value):
        return OUT_OF_REACH
    return f"{percent_number(value)} %" if unit == "share" else say(value, unit, units)


def _far(answer: Answer, question: str, unit: str, units: System) -> str:
    value = answer.furthest(question).value
    return "none works" if value is None else say(value, unit, units)


def sure_by_readings(answer: Answer) -> str:
    """Say what the chances stand on where readings do; empty where they don't."""
    told = answer.bare_rig.told
    if told is None or answer.before is None:
        return ""
    (low, _, high, _), (low_before, _, high_before, _) = answer.sure.bands["draft"], answer.before.sure.bands["draft"]
    text = f" These are {such_fields(told)}, {from_readings(told)}."
    if low and high and low_before and high_before:
        share = (high / low - 1) / (high_before / low_before - 1)
        text += f" The band of draft is {percent(share)} as wide as without them."
    return text + "".join(f" {line}" for line in _left_out(told.left_out))


def _left_out(left_out: dict[int, str]) -> Iterator[str]:
    for why, text in _LEFT_OUT.items():
        places = [str(place + 1) for place, each in left_out.items() if each == why]
        if places:
            yield f"Not counted, as {text}: reading{'' if len(places) == 1 else 's'} {', '.join(places)}."
