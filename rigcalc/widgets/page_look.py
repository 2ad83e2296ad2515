"""The style sheet of the apps, put together from `look/` and the colours. No widget is imported."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from rigcalc.widgets.colours import colour_css


@cache
def look() -> str:
    """Give the whole style sheet."""
    files = sorted((Path(__file__).parent / "look").glob("*.css"))
    return colour_css() + "\n".join(path.read_text(encoding="utf-8") for path in files)
