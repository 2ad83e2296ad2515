"""What several commands share: the options on units, and a rig with its depth, speed, shanks or soil changed."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from rigcalc.models.rig.rig import Rig

EXIT_WORKS, EXIT_DOES_NOT, EXIT_BAD_INPUT, EXIT_TRY_FIRST = 0, 1, 2, 3
EXITS = {"go": EXIT_WORKS, "try": EXIT_TRY_FIRST, "dont": EXIT_DOES_NOT}  # by the judgement of an answer
_DEPTH = re.compile(r"""^\s*depth\s*=\s*["'][^"'\n]*?([a-z]+)["']""", re.MULTILINE)
_MOST_READ = 100_000  # letters; a rig file has a few thousand
units_option = click.option(
    "--units", type=click.Choice(["us", "si"]), help="Units shown (default: as the rig's depth is typed)."
)


def changed(
    rig: Rig, depth: str | None, speed: str | None, tools: str | None, texture: str | None = None,
    field: str | None = None, day: str | None = None,
) -> Rig:  # fmt: skip
    """Give the rig with what was typed on the command line. Raises InputError."""
    from rigcalc.models.rig.changes import entry_changes
    from rigcalc.models.rig.file import replaced

    changes: dict[str, Any] = {}
    for name, value in (("name", field), ("day", day)):
        if value is not None:
            changes[f"asked.{name}"] = value
    for entry, text in (("depth", depth), ("speed", speed), ("tools", tools), ("texture", texture)):
        if text is not None:
            changes |= entry_changes(rig, entry, text, where=f"--{entry}")
    return replaced(rig, changes) if changes else rig


def units_meant(words: list[str]) -> Any:
    """Give the system that a command line means: by --units, else by the depth in a rig file that it names, else American."""
    for at, word in enumerate(words):
        given = word.partition("=")[2] or "".join(words[at + 1 : at + 2]) if word.startswith("--units") else ""
        if given in ("us", "si"):
            return given
    for word in words:
        try:
            text = Path(word).read_text(encoding="utf-8", errors="replace")[:_MOST_READ] if Path(word).is_file() else ""
        except (OSError, ValueError):
            continue
        if found := _DEPTH.search(text):
            return "us" if found[1] in ("in", "ft", "yd") else "si"
    return "us"


def typed_units(rig: Rig) -> Any:
    """Give the system in which the rig's depth is typed: "us" or "si"."""
    from rigcalc.words.numbers import units_of

    return units_of(rig)
