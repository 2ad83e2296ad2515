"""A comparison as JSON-ready data: stable names, every number with its unit; what can't be a number is null."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from rigcalc.core.errors import InputError
from rigcalc.models.compare.figures import UNITS, Value
from rigcalc.views.json.field import told_data
from rigcalc.views.json.numbers import number
from rigcalc.views.json.said import said_data
from rigcalc.words.compare import CompareWords

VERSION = 1  # raised when a name or a unit changes


def comparison_data(words: CompareWords, left_out: Mapping[str, InputError] | None = None) -> dict[str, Any]:
    """Give nested dicts and lists. left_out: rigs that couldn't be used, by name."""
    comparison, said = words.comparison, words.said
    choice, names = comparison.choice, [side.name for side in comparison.rigs]
    return {
        "version": VERSION,
        **said_data(said),
        "outcome": choice.outcome.value,
        "verdict": choice.judgement.value,
        "ahead": list(comparison.ahead),
        "close": [names[at] for at in choice.close],
        "different_work": list(choice.different_work),
        "wheel_tracks": None if choice.wheel_tracks is None else [names[at] for at in choice.wheel_tracks],
        "parted": [
            {"figure": part.figure, "first": [names[at] for at in part.first], "last": [names[at] for at in part.last]}
            for part in choice.parted
        ],
        "seed": comparison.seed,
        "rigs": [
            {"name": side.name, "sentence": str(sentence), "state": side.answer.verdict.state.value,
             "figures": {name: _figure(value, UNITS[name]) for name, value in side.figures.items()},
             **({"readings": told_data(told)} if (told := side.answer.bare_rig.told) is not None else {}),
             "rig": side.answer.rig.model_dump(mode="json", exclude_none=True)}
            for side, (_, sentence) in zip(comparison.rigs, words.each, strict=True)
        ],
        "same": [row.name for row in words.rows if not row.differs],
        "left_out": [
            {"name": name, "faults": [vars(fault) for fault in error.faults]} for name, error in (left_out or {}).items()
        ],
    }  # fmt: skip


def _figure(value: Value, unit: str) -> dict[str, Any] | str | None:
    return value if isinstance(value, str) else number(value, unit)
