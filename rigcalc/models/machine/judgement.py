"""What to do: the judgement that every question ends in."""

from __future__ import annotations

from enum import StrEnum

GO_FROM = 0.85  # our choice: least chance that every limit is kept, doubt about the equations included, for "go"


class Judgement(StrEnum):
    """What to do, the best first."""

    GO = "go"
    TRY = "try"
    DONT = "dont"


def worst_of(*judgements: Judgement) -> Judgement:
    """Give the worst of several judgements."""
    return max(judgements, key=list(Judgement).index)
