"""How much a rig file may hold: looked at before it is parsed, and again before it is checked, so that no file is a burden."""

from __future__ import annotations

import re
from typing import Any

from rigcalc.core.errors import Fault

LARGEST_FILE = 256 * 1024  # bytes; a rig file has two or three thousand
# The starter file with everything filled in has 4 levels and about 250 entries.
DEEPEST = 8
MOST_ENTRIES = 4_000

# Texts and comments, an unclosed one to its end, so that each letter is looked at once. What is left are keys and marks.
_TEXTS = re.compile(
    r'"""(?:\\.|[^\\])*?(?:"""|\Z)|\'\'\'.*?(?:\'\'\'|\Z)|"(?:\\.|[^"\\\n])*"?|\'[^\'\n]*\'?|#[^\n]*', re.DOTALL
)
_BETWEEN = re.compile(r"[=,\[\]{}\n]")


def too_much(text: str) -> Fault | None:
    """Give what is wrong with a text that is too long, too deep or too full to be parsed as TOML; None where it isn't."""
    if len(text) > LARGEST_FILE:
        return Fault("rig file", f"more than {LARGEST_FILE // 1024} KiB", "a rig file of a few KiB")
    bare = _TEXTS.sub("_", text)
    if any(key.count(".") >= DEEPEST for key in _BETWEEN.split(bare)):
        return _too_deep()
    depth = entries = 0
    for mark in _BETWEEN.findall(bare):
        depth += (mark in "[{") - (mark in "]}")
        entries += mark in "=,["
        if depth > DEEPEST:
            return _too_deep()
    return _too_many() if entries > MOST_ENTRIES else None


def too_much_in(data: Any) -> Fault | None:
    """Give what is wrong with nested dicts and lists that are too deep or too full to be checked; None where they aren't."""
    level, entries = [data], 0
    for _ in range(DEEPEST + 1):
        level = [each for part in level for each in (part.values() if isinstance(part, dict) else part)]
        entries += len(level)
        if entries > MOST_ENTRIES:
            return _too_many()
        level = [each for each in level if isinstance(each, (dict, list, tuple))]
        if not level:
            return None
    return _too_deep()


def _too_deep() -> Fault:
    return Fault("rig file", f"sections in sections, more than {DEEPEST} deep",
                 "TOML with at most three, as [tractor.rear.tyre]", "the sections that `rigcalc new --full` shows")  # fmt: skip


def _too_many() -> Fault:
    return Fault("rig file", f"more than {MOST_ENTRIES:,} entries", "a rig file of some fifty to two hundred entries",
                 "the keys that `rigcalc new --full` shows")  # fmt: skip
