"""What `rigcalc new` asks and writes, in words: each question in the unit of the asked, its choices, the file that follows."""

from __future__ import annotations

import json
from typing import Any

from rigcalc.core.tables import table
from rigcalc.models.rig.questions import Answers, Question, data_of, questions, still_missing
from rigcalc.words.numbers import System
from rigcalc.words.spelling import spelt

_ASKS = {
    "drive": "Which axles pull?",
    "power": "How much power, by the badge or the sheet?",
    "rating": "Which power is that?",
    "total": "What does the tractor weigh in all, with its weights?",
    "rear_size": "Rear tyre size, as on the sidewall?",
    "front_size": "Front tyre size, as on the sidewall?",
    "tyres": "How many tyres on the rear axle?",
    "belts": "On how many tracks does it stand?",
    "belt": "How wide is one track?",
    "tool": "Which tool?",
    "tools": "How many of them in the ground?",
    "spacing": "How far apart, across the line of travel?",
    "width": "How wide does it work?",
    "texture": "What soil, by feel or by the soil map?",
    "surface": "What is the ground like to drive on?",
    "depth": "How deep?",
    "speed": "How fast?",
}
_EXAMPLES = {
    "power": ("300", "220"), "total": ("29000", "13200"), "rear_size": ("710/70R42 173D", "710/70R42 173D"),
    "front_size": ("480/70R34", "480/70R34"), "belt": ("30", "760"), "tools": ("11", "11"),
    "spacing": ("15", "38"), "width": ("24", "7.5"),
    "depth": ("10", "25"), "speed": ("5", "8"),
}  # fmt: skip
_CHOICES = {
    "2WD": "the rear axle alone", "MFWD": "front assist: smaller wheels in front that pull too",
    "4WD": "four-wheel drive: alike wheels front and rear, articulated", "track": "tracks",
    "pto": "at the PTO shaft", "net engine": "of the engine as it stands in the tractor (net)",
    "gross engine": "of the bare engine (gross)",
    "2": "single", "4": "dual", "6": "triple",
    "two": "two long ones", "four": "four, on two axles",
    "firm": "stubble; tyres leave the print of their lugs", "tilled": "loosened, and settled again",
    "soft": "freshly loosened or wet; tyres sink in", "hard": "dry and baked",
}  # fmt: skip
_ENTER = {"surface": "Enter: firm", "tyres": "Enter: singles, or duals on four-wheel drive"}
# Where each is found, for whoever doesn't know it yet.
_FOUND = {
    "drive": "a look at the tractor", "power": "the dealer's sheet or the manual", "rating": "the dealer's sheet or the manual",
    "total": "a scale, or the dealer's sheet", "rear_size": "the sidewall", "front_size": "the sidewall",
    "belt": "a tape", "tool": "a look at the points", "tools": "count them", "spacing": "a tape",
    "width": "the badge, or a tape",
    "texture": "the soil map, or a ball and a ribbon in the hand", "depth": "a ruler behind the tool",
    "speed": "the screen in the cab",
}  # fmt: skip
_HEAD = """# A rig file for rigcalc, begun by asking. Quantities are texts with a unit. Each further line takes a rule's place:
# `rigcalc new --full` shows all there are, `rigcalc size` says what to measure first.
"""


def question_text(question: Question, units: System) -> str:
    """Give a question as one line: what is asked, and in what unit or from what choices it is answered."""
    unit = question.units[units == "si"]
    example = _EXAMPLES.get(question.name, ("", ""))[units == "si"]
    how = [f"in {unit}, or with another unit" if unit else "", f"such as {example}" if example else ""]
    told = ", ".join(part for part in how if part)
    known = _ENTER.get(question.name, "")
    inside = "; ".join(part for part in (told, known) if part)
    return spelt(f"{_ASKS[question.name]}{f' ({inside})' if inside else ''}", units)


def choice_lines(question: Question, units: System) -> tuple[str, ...]:
    """Give a line for each choice, with its number; empty where there is nothing to choose from."""
    titles = {row["tool"]: row["title"] for row in table("d497_draft")}
    lines = []
    for place, choice in enumerate(question.choices, 1):
        title = _CHOICES.get(choice) or titles.get(choice, "")
        lines.append(spelt(f"{place:2d} {choice}{f': {title}' if title else ''}", units))
    return tuple(lines)


def missing_lines(answers: Answers, units: System) -> tuple[str, ...]:
    """Say what is still missing, and where it is found; empty where nothing is."""
    return tuple(spelt(f"{_ASKS[q.name].removesuffix('?')}: {_FOUND.get(q.name, 'a look at it')}.", units)
                 for q in still_missing(answers))  # fmt: skip


def file_text(answers: Answers, units: System) -> str:
    """Give the text of a rig file of the answers; what is missing stands in a comment, where it belongs."""
    missing = {path: q for q in still_missing(answers) for path in q.paths[:1]}
    lines = [_HEAD]
    data = data_of(answers)
    for section, part in _sections(data, missing):
        lines.append(f"[{section}]")
        lines += [f"{name} = {_toml(value)}" for name, value in part.items() if not isinstance(value, dict)]
        lines += [f'# {path.rpartition(".")[2]} = ""   # not known yet: {_FOUND.get(q.name, "a look at it")}'
                  for path, q in missing.items() if path.rpartition(".")[0] == section]  # fmt: skip
        lines.append("")
    return "\n".join(lines)


def _sections(data: dict[str, Any], missing: dict[str, Question]) -> list[tuple[str, dict[str, Any]]]:
    """Give every section that is there or has something missing, in the order of the questions."""
    named = [path.rpartition(".")[0] for question in questions() for path in question.paths]
    out = []
    for section in sorted(dict.fromkeys(named), key=lambda name: (_ORDER.index(name.split(".")[0]), name)):
        part: Any = data
        for name in section.split("."):
            part = part.get(name, {})
        if part or section in {path.rpartition(".")[0] for path in missing}:
            out.append((section, part))
    return out


_ORDER = ("tractor", "implement", "ground", "work")


def _toml(value: Any) -> str:
    """Write a text or a whole number as TOML: a basic string is written as in JSON."""
    return str(value) if isinstance(value, int) else json.dumps(value, ensure_ascii=False)
