"""What the part to practice with says beside the problem."""

from __future__ import annotations


def count_said(right: int, seen: int) -> str:
    """Say how many problems were solved without looking at the answer."""
    problems = "problem" if seen == 1 else "problems"
    return f"{right} of {seen} {problems} solved so far." if right or seen > 1 else "Nothing solved yet."
