"""A part of the page written as HTML by a function, refreshed after every change; and the box that shows the faults."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import traitlets

from rigcalc.widgets.html import fault_list
from rigcalc.widgets.model import AppModel
from rigcalc.widgets.part import Part, script
from rigcalc.words.spelling import fault_spelt


class Panel(Part):
    """HTML from `write()`; `acts` maps the name of a button, choice, file or fold to what it does with its value."""

    _esm = script("wear.js", "save.js", "handy.js", "pieces.js", "panel.js")
    model: AppModel
    html = traitlets.Unicode("").tag(sync=True)
    label = traitlets.Unicode("").tag(sync=True)
    role = traitlets.Unicode("").tag(sync=True)
    live = traitlets.Unicode("").tag(sync=True)

    def __init__(
        self,
        model: AppModel,
        write: Callable[[], str],
        name: str,
        acts: Mapping[str, Callable[[Any], None]] | None = None,
        look: str = "",
        **traits: Any,
    ):
        self.model, self.write, self.name, self.acts = model, write, name, dict(acts or {})
        super().__init__(**traits)
        for each in look.split():
            self.add_class(each)
        self.on_msg(self._heard)
        self.watch(self.refresh, name)

    def refresh(self) -> None:
        """Write the HTML anew."""
        self.html = self.write()

    def as_html(self) -> str:
        """Give it as a page shows it before its scripts are there: the same words in the same look, nothing to press."""
        return f'<div class="rig-panel {" ".join(self._dom_classes)}">{self.html}</div>'

    def act(self, name: str, value: Any = "") -> None:
        """Do what a button of that name does; tests call it without a browser."""
        if name in self.acts:
            self.model.guarded(self.acts[name], self.name)(value)

    def fetch(self, act: str, start: int, end: int) -> None:
        """Ask the browser for a piece of the file that was picked with `act`; `take_piece` gets it."""
        self.send({"kind": "fetch", "act": act, "from": start, "to": end})

    def take_piece(self, act: str, start: int, data: bytes | None) -> None:
        """Take a piece of a file that was asked for; None where the browser couldn't read it."""

    def _heard(self, _widget: object, message: Mapping[str, Any], buffers: Any) -> None:
        if not isinstance(message, Mapping):
            return
        if message.get("kind") == "act":
            self.act(str(message.get("name")), message.get("value", ""))
        elif message.get("kind") == "piece" and isinstance(message.get("from"), int):
            data = bytes(buffers[0]) if buffers else None
            self.model.guarded(self.take_piece, self.name)(str(message.get("act")), message["from"], data)


class FaultBox(Panel):
    """Every fault in words, read out at once. It follows the model's faults, not its results.

    `name_of` gives the name on the page of a field's path.
    """

    def __init__(self, model: AppModel, name_of: Callable[[str], str] = lambda where: where, title: str = "This needs mending"):
        def write() -> str:
            faults = [fault_spelt(fault, model.system) for fault in model.faults]
            named = [name_of(fault.where) for fault in faults]
            paths = [fault.where if name != fault.where else "" for fault, name in zip(faults, named, strict=True)]
            return fault_list([replace(f, where=n) for f, n in zip(faults, named, strict=True)], title, paths)

        super().__init__(model, write, "the box of faults", look="rig-faults", role="alert")
        model.observe(lambda _change: self.refresh(), names="faults")
