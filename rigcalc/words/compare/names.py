"""What the variations of a rig are called: "13 shanks", "16 in deep"."""

from __future__ import annotations

from collections.abc import Mapping

from rigcalc.models.rig.changes import short_name
from rigcalc.models.rig.rig import Rig
from rigcalc.words.tools import piece, pieces

LETTERS = "ABCDEFGH"  # by which the rigs of a comparison are found again in cards, table and picture


def variation_name(variation: Mapping[str, str], rig: Rig) -> str:
    """Say what a variation changes, in the order in which it was asked for."""
    return ", ".join(_part(short_name(entry), text.strip(), rig) for entry, text in variation.items())


def _part(entry: str, text: str, rig: Rig) -> str:
    if entry == "tools":
        return f"{text} {piece(rig.implement.tool) if text == '1' else pieces(rig.implement.tool)}"
    if entry == "depth":
        return f"{text} deep"
    if entry in ("speed", "texture"):
        return text
    return f"{entry.rsplit('.', 1)[-1].replace('_', ' ')} {text}"
