"""What a page shows before its scripts are there: its first words, which are worked out before the page is sent.

Over a slow line the scripts that make a page live take some seconds. What it says first is text, and travels with the page.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import ipywidgets

from rigcalc.widgets.panel import Panel

OPENS = '<div class="rig-early'  # by which the page that is served knows it from HTML that a notebook of somebody's shows


def with_first_words(bundle: dict[str, Any], head: Iterable[ipywidgets.Widget], row: Panel | None = None) -> dict[str, Any]:
    """Add an app's head, below the row of its pages where it has one, to what a cell shows of it."""
    above = row.as_html() if row is not None else ""
    inside = "".join(part.as_html() for part in head if isinstance(part, Panel))
    return {
        **bundle,
        "text/html": f'{OPENS} rig-look rig-book" inert>{above}<div class="rig-app rig-look">{inside}</div></div>',
    }
