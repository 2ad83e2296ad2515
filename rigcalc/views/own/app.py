"""The page for a rig of one's own: from nothing, or from the rig at hand, to one that has an answer."""

from __future__ import annotations

from collections.abc import Sequence

import ipywidgets
from markupsafe import Markup

from rigcalc.models import DEMO_RIGS, demo_rig
from rigcalc.views.own import fields
from rigcalc.views.own.fields import gear_of
from rigcalc.views.own.model import OwnModel
from rigcalc.views.rig.app import RigApp
from rigcalc.views.rig.fields import SLID, groups, tool_of
from rigcalc.views.size.panels import verdict
from rigcalc.widgets.controls import Form
from rigcalc.widgets.one_layout import one_layout
from rigcalc.widgets.panel import Panel
from rigcalc.widgets.templates import render
from rigcalc.words.spelling import spelt
from rigcalc.words.taken import taken_in_short


class OwnApp(RigApp):
    """The whole page. `OwnApp()` starts from the first demo rig; "Start from nothing" empties it."""

    title = "Your rig"
    is_about_rig = False
    model: OwnModel

    def __init__(self, model: OwnModel | None = None, inside: bool = False):
        super().__init__(model or OwnModel(), inside)

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts in reading order."""
        model = self.model
        acts = {
            "page": lambda name: self.go_to(str(name)),
            "clear": lambda _value: model.clear(),
            "demo": lambda name: model.start_from_demo(str(name)) if name else None,
        }
        state = Panel(
            model, self._state, "what is still to answer", acts, look="rig-answer rig-across", role="region",
            label="Still to answer", live="polite",
        )  # fmt: skip
        cards = [
            Form(model, lambda: fields.tractor(gear_of(model.inputs)), "Tractor", folds=False, slides=SLID),
            Form(model, lambda: fields.tool(tool_of(model.inputs)), "Tool", folds=False, slides=SLID),
            Form(model, lambda: fields.ground(tool_of(model.inputs)), "Ground and pass", folds=False, slides=SLID),
        ]
        beside = ipywidgets.VBox(cards, layout=one_layout())
        for name in ("rig-three", "rig-across"):
            beside.add_class(name)
        rest = Form(model, lambda: groups(tool_of(model.inputs)), "Everything about this rig", slides=SLID)
        rest.add_class("rig-across")
        heading = Panel(model, lambda: "<h2>Everything about this rig</h2>", "the heading", look="rig-across")
        return (state, beside, heading, rest)

    def _state(self) -> str:
        found, units = self.model.results, self.model.system
        words = found.words if found is not None else None
        data = {
            "state": Markup(verdict(words)) if words is not None else "",  # noqa: S704 (its template escapes)
            "missing": [self._label(path) for path in (found.missing if found is not None else ())],
            "rigs": [(name, demo_rig(name).tractor.name) for name in DEMO_RIGS],
            "assumed": taken_in_short(words.answer.rig, units).rstrip(".") if words is not None else "",
        }
        return str(render(__file__, "state.html.j2", **data))

    def _label(self, path: str) -> str:
        inputs = self.model.inputs
        cards = (*fields.tractor(gear_of(inputs)), *fields.tool(tool_of(inputs)), *fields.ground(tool_of(inputs)))
        label = next(field.label for card in cards for field in card.fields if field.path == path)
        return spelt(label, self.model.system)
