"""Readings in words: each in a row, what was said of it before, and how often that came true."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from rigcalc.models.machine.field import Told, left_out_of
from rigcalc.models.reading.foretold import Span
from rigcalc.models.reading.record import Record
from rigcalc.models.rig.field_reading import NUMBERS, Reading
from rigcalc.models.rig.rig import Rig
from rigcalc.words.field import day_text
from rigcalc.words.numbers import System, capital, percent, say

KIND_TITLES = {"slip": "slip", "load": "engine load", "fuel": "fuel rate", "pull": "pull"}
KIND_UNITS = {"slip": "1", "load": "1", "fuel": "L/h", "pull": "kN"}
_ONE_SIDED = 4  # our choice: so many outside, all on one side, are chance but 1 time in 8
ON_THE_PAGE = "by the button that adds one"
HEADS = ("", "day", "field", "depth", "speed", "slip", "load", "fuel", "pull", "")
_LEFT_OUT = {"other_field": "another field", "other_zone": "its zone alone", "other_tool": "another tool",
             "other_ground": "another soil"}  # fmt: skip


@dataclass(frozen=True)
class KeptWords:
    """One number and what was said of it: the reading it is of, the number's title, what was said, what came, and whether
    that lay inside."""  # fmt: skip

    reading: str
    title: str
    said: str
    came: str
    inside: str


def rows(rig: Rig, told: Told | None, units: System) -> list[tuple[str, ...]]:
    """Give every reading as a row under `HEADS`: its number, what was read, and whether it counts."""
    why = left_out_of(rig, told)
    return [_row(place, reading, why.get(place, ""), units) for place, reading in enumerate(rig.reading)]


def _row(place: int, reading: Reading, why: str, units: System) -> tuple[str, ...]:
    numbers, where = reading.numbers, ", ".join(filter(None, (reading.field, reading.zone)))
    state = f"set aside: {reading.set_aside}" if reading.set_aside else _LEFT_OUT.get(why, "counts")
    return (
        str(place + 1), day_text(reading.date), where, say(reading.depth.to("cm"), "cm", units),
        say(reading.speed.to("km/h"), "km/h", units),
        *(number_text(kind, numbers[kind][0], units) if kind in numbers else "" for kind in NUMBERS), state,
    )  # fmt: skip


def number_text(kind: str, value: float, units: System) -> str:
    """Give one number of a reading in words, such as "12 %" or "22 gal/h"."""
    if not math.isfinite(value):
        return "out of reach"
    return percent(value) if KIND_UNITS[kind] == "1" else say(value, KIND_UNITS[kind], units)


def span_text(kind: str, span: Span, units: System) -> str:
    """Give a band of a number in words."""
    return f"{number_text(kind, span.low, units)} to {number_text(kind, span.high, units)}"


def said_entry(kind: str, span: Span) -> str:
    """Give what a rig file keeps of what was said of a number before it was read."""
    scale, unit = (100.0, "percent") if KIND_UNITS[kind] == "1" else (1.0, KIND_UNITS[kind])
    high = f"{scale * span.high:.4f}".rstrip("0").rstrip(".") if math.isfinite(span.high) else "any"
    return f"{scale * span.low:.4f}".rstrip("0").rstrip(".") + f" to {high} {unit}"


def record_rows(record: Record, units: System) -> list[KeptWords]:
    """Give what was said and what came, number by number."""
    return [
        KeptWords(
            str(each.place + 1), KIND_TITLES[each.kind], span_text(each.kind, Span(each.low, each.low, each.high), units),
            number_text(each.kind, each.read, units), "inside" if each.inside else "outside",
        )
        for each in record.kept
    ]  # fmt: skip


def record_text(record: Record, adding: str = "with `rigcalc reading add`") -> str:
    """Say how often what was read lay inside the band that was said before it. adding: how a reading is added."""
    count = len(record.kept)
    if not count:
        return f"Nothing to go by: no reading was added {adding}, which keeps what was said before it."
    text = f"{record.inside} of {count} numbers lay inside the band that was said before them; 8 in 10 should."
    if record.few:
        return text + " So few say next to nothing about that."
    low, high = record.usual
    text += (
        f" {low} to {high} of so many would be usual. "
        + {
            "as_said": "So the bands hold what they claim.",
            "narrow": "So the bands are too narrow for these fields: take every answer as less sure than it says.",
            "wide": "So the bands are wider than these fields need.",
        }[record.state]
    )
    return " ".join((text, *_sides(record)))


def _sides(record: Record) -> Iterator[str]:
    """Say of each kind of number whether what lay outside lies to one side: then display or sums are off, not the band."""
    for kind, (below, inside, above) in record.by_kind.items():
        outside = below + above
        if outside >= _ONE_SIDED and 0 in (below, above):
            side = "above" if above else "below"
            yield (f"{capital(KIND_TITLES[kind])}: the {outside} of {outside + inside} that lay outside all lay {side}; "
                   "look at the display, or at what is typed of the rig.")  # fmt: skip


def added_text(made: Reading, place: int, said: dict[str, Span], units: System) -> str:
    """Say that a reading was added, what was said of each number before, and whether that came true. place: from 1."""
    lines = [f"Added as reading {place}."]
    for kind, span in said.items():
        inside = "inside" if span.low <= made.numbers[kind][0] <= span.high else "outside"
        lines.append(f"Said before: {KIND_TITLES[kind]} {span_text(kind, span, units)}; what was read lies {inside}.")
    return " ".join(lines)
