"""What a page shows before its scripts are there: its first words, which are worked out before the page is sent.

Over a slow line the scripts that make a page live take some seconds. What it says first is text, and travels with the page.
"""

from __future__ import annotations

from typing import Any

import ipywidgets

from rigcalc.widgets.panel import Panel

OPENS = '<div class="rig-early'  # by which the page that is served knows it from HTML that a notebook of somebody's shows


def with_first_words(bundle: dict[str, Any], *parts: ipywidgets.Widget) -> dict[str, Any]:
    """Add the parts that stand at the head of a page to what a cell shows of it."""
    rows = "".join(part.as_html() for part in parts if isinstance(part, Panel) and "rig-pages" in part._dom_classes)
    rest = "".join(part.as_html() for part in parts if isinstance(part, Panel) and "rig-pages" not in part._dom_classes)
    return {**bundle, "text/html": f'{OPENS} rig-look rig-book" inert>{rows}<div class="rig-app rig-look">{rest}</div></div>'}
