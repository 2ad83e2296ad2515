"""The sentence of an answer, as the JSON of every question gives it."""

from __future__ import annotations

from typing import Any

from rigcalc.words.said import Said


def said_data(said: Said) -> dict[str, Any]:
    """Give the sentence whole, then its parts: the judgement's word, the headline, and what else is said."""
    return {"sentence": str(said), "word": said.word, "headline": said.headline, "rest": list(said.rest)}
