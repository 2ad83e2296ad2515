"""One Layout for every widget of the apps: our style sheet places them, and each Layout is one more model to send."""

from __future__ import annotations

from functools import cache

import ipywidgets


@cache
def one_layout() -> ipywidgets.Layout:
    """Give the Layout that all widgets of this kernel share; it says nothing."""
    return ipywidgets.Layout()
