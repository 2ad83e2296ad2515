"""The one widget that holds plotly's script for all figures of a kernel, so that a notebook saves it once."""

from __future__ import annotations

import os
from functools import cache
from weakref import WeakSet

import ipywidgets
import traitlets

from rigcalc.widgets.figure_script import plotly_script

_FIGURES: WeakSet[traitlets.HasTraits] = WeakSet()


class Holder(ipywidgets.Widget):  # type: ignore[misc]  # it comes without types
    """Holds plotly's script, 5 MB. It is never shown."""

    source = traitlets.Unicode("").tag(sync=True)


def served() -> bool:
    """Say whether this kernel belongs to our own server, which gives the script to browsers itself."""
    return bool(os.environ.get("RIGCALC_SERVED"))


@cache
def _made() -> Holder:
    return Holder(source=plotly_script().read_text(encoding="utf-8"))


def holder() -> None:
    """Make the widget that holds the script, if there is none yet, and tell every figure of it."""
    name = _made().model_id or ""
    for figure in list(_FIGURES):
        figure.set_trait("held_by", name)


def watched_by(figure: traitlets.HasTraits) -> None:
    """Have a new figure told of the script too, once there is a widget that holds it."""
    _FIGURES.add(figure)
    if _made.cache_info().currsize:
        figure.set_trait("held_by", _made().model_id or "")
