"""The comparing page without a browser: a model with the known rigs on its list, and what is shown of it."""

from __future__ import annotations

from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.views import CompareApp
from rigcalc.views.compare.model import CompareModel


def known_model() -> CompareModel:
    """Give a model that has the known rigs on its list."""
    found = CompareModel()
    found.start_from([known_rig(name) for name in KNOWN_RIGS], KNOWN_RIGS)
    return found


def shown(app: CompareApp) -> str:
    """Give the HTML of every part of the page."""
    inside = [child for part in app.children for child in (part, *getattr(part, "children", ()))]
    return " ".join(getattr(part, "html", "") for part in inside)
