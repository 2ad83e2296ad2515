"""The boxes of a reading and the button that adds it, as a widget that also stands alone in a notebook."""

from __future__ import annotations

from typing import Any

import ipywidgets

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.views.reading import panels
from rigcalc.views.reading.fields import BOX, boxes, more_boxes
from rigcalc.views.reading.model import FieldModel
from rigcalc.views.reading.parts import AboutReadings, Source, field_model
from rigcalc.views.rig.fields import tool_of
from rigcalc.widgets.controls import Form
from rigcalc.widgets.one_layout import one_layout
from rigcalc.widgets.panel import Panel


class ReadingBox(AboutReadings, ipywidgets.VBox):  # type: ignore[misc]  # it comes without types
    """Boxes for a reading and a button that adds it to the rig. What can't be used is said at its box, all at once.

    Parameters
    ----------
    source : FieldModel, Rig, path or name of a demo rig
        What the reading is added to; a FieldModel is shared with other parts.

    Examples
    --------
    >>> from rigcalc.widgets import ReadingBox
    >>> box = ReadingBox("articulated")
    >>> box.type(depth="14", speed="5.1", load="85", load_of="available", date="2026-11-04")
    >>> box.add()
    >>> [str(reading.depth) for reading in box.rig.reading], box.answer.before is None
    (['14 in'], False)
    """

    model: FieldModel

    def __init__(self, source: Source = None, **traits: Any):
        self.model = model = field_model(source)
        self.form = Form(model, lambda: boxes(tool_of(model.inputs)), "A reading", folds=False, slides=())
        self.form.add_class("rig-reading")
        self.more = Form(model, more_boxes(), "More of a reading", slides=())
        self.more.add_class("rig-reading")
        acts = {"add": lambda _value: self.add(), "today": lambda _value: model.today()}
        self.button = Panel(
            model, lambda: panels.button(model), "adding a reading", acts, look="rig-add-reading", role="region",
            label="Add this reading", live="polite",
        )  # fmt: skip
        traits.setdefault("layout", one_layout())
        super().__init__(children=[self.form, self.more, self.button], **traits)
        model.watch(self.told, "a reading")

    def type(self, **entries: str) -> None:
        """Type into boxes by the names of a reading's entries; a number without a unit gets the one that stands at the box."""
        own = {path: form for form in (self.form, self.more) for path in form.fields}
        odd = [Fault("entry", shown(name), "a box of a reading", "depth") for name in entries if BOX + name not in own]
        if odd:
            raise InputError(odd)
        for name, text in entries.items():
            own[BOX + name].edit(BOX + name, text)

    def add(self) -> None:
        """Add what stands in the boxes."""
        self.model.add()

    def close(self) -> None:
        """Take the boxes away; the model goes on without them."""
        self.model.unwatch(self.told)
        for child in self.children:
            child.close()
        super().close()
