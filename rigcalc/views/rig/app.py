"""The base of every app about a rig: the choice of a rig to start from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from rigcalc.models import DEMO_RIGS, demo_rig
from rigcalc.views.rig.model import RigModel
from rigcalc.widgets.app import App
from rigcalc.widgets.templates import render


class RigApp(App):
    """An app whose model holds a rig and can start from a demo rig."""

    model: RigModel

    def bar_acts(self) -> Mapping[str, Any]:
        """Give what the bar's choice of rig does."""
        return {"demo": lambda name: self.model.start_from_demo(str(name)) if name else None}

    def bar_extra(self) -> str:
        """Give the choice of a rig to start from."""
        rigs = [(name, demo_rig(name).tractor.name) for name in DEMO_RIGS]
        return str(render(__file__, "demo_choice.html.j2", rigs=rigs, fits=self.model.fits_a_link()))
