"""The frame of every app: a bar with units, undo, files and theme; the box of faults; the page itself."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import ipywidgets

from rigcalc.widgets.controls import Form
from rigcalc.widgets.files import MOST_UPLOADED, take_file
from rigcalc.widgets.html import button, esc, fold
from rigcalc.widgets.model import AppModel
from rigcalc.widgets.one_layout import one_layout
from rigcalc.widgets.page import Page
from rigcalc.widgets.panel import FaultBox, Panel


class App(ipywidgets.VBox):  # type: ignore[misc]  # it comes without types
    """Base of an app's view. A subclass gives `title`, `parts()` and, if it has more in its bar, `bar_extra()`."""

    title = "rigcalc"
    file_name = "rig.toml"

    def __init__(self, model: AppModel):
        self.model = model
        model.dressed = True  # the page brings the look, once
        self.page = Page(model)
        acts = {
            **{"units": model.switch_units, "undo": lambda _value: model.undo()},
            **{"load": self.load, "save": lambda _value: self.save()},
            **self.bar_acts(),
        }
        self.bar = Panel(model, self._bar, "the bar", acts, look="rig-bar rig-across", role="group", label="Page")
        parts = list(self.parts())
        self._forms = [form for part in parts for form in _forms(part)]
        self.faults = FaultBox(model, self.name_of)
        self.faults.add_class("rig-across")
        # What is asked first stands first: the answer, then what is wrong, then the tools, then the rest.
        super().__init__([*parts[:1], self.faults, self.bar, *parts[1:], self.page], layout=one_layout())
        self.add_class("rig-app")
        self.add_class("rig-look")

    # what a subclass gives

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts of the page in the order in which they are read; the first stands above the faults."""
        raise NotImplementedError

    @staticmethod
    def entries(*forms: ipywidgets.Widget) -> ipywidgets.VBox:
        """Put forms where the entries stand: in a column that stays in sight on a wide screen, in the flow on a phone."""
        stay = ipywidgets.VBox(list(forms), layout=one_layout())
        stay.add_class("rig-stay")
        left = ipywidgets.VBox([stay], layout=one_layout())
        left.add_class("rig-left")
        return left

    def bar_extra(self) -> str:
        """Give more HTML for the bar."""
        return ""

    def bar_acts(self) -> Mapping[str, Any]:
        """Give what the buttons of `bar_extra` do."""
        return {}

    def name_of(self, path: str) -> str:
        """Give a field's name as it stands on the page, such as `Rated power (Tractor)`; the path itself where none does."""
        for form in self._forms:
            for section in form.spec:
                for field in section["fields"]:
                    if field["path"] == path:
                        return f"{field['label']} ({section['title']})" if section["folds"] else str(field["label"])
        return path

    # files

    def load(self, value: Any) -> None:
        """Take a file that was picked: a mapping with `name`, `size` and `text`."""
        take_file(self.model, value)

    def save(self) -> None:
        """Let the browser save the entries as a file."""
        self.page.save(self.file_name, self.model.to_toml().encode(), "application/toml")

    # the bar

    def _bar(self) -> str:
        model = self.model
        units = "".join(
            button("units", text, system, pressed=model.system == system)
            for system, text in (("us", "in, lb, mph"), ("si", "cm, kg, km/h"))
        )
        themes = "".join(
            f'<button type="button" data-theme-is="{name}" aria-pressed="false">{text}</button>'
            for name, text in (("auto", "Auto"), ("light", "Light"), ("dark", "Dark"))
        )
        return (
            f'<h1>{esc(self.title)}</h1><span class="rig-set" role="group" aria-label="Units">{units}</span>'
            + button("undo", "Undo", disabled=not model.can_undo())
            + self.bar_extra()
            + fold(
                "bar-more",
                "File and screen",
                f'<label class="rig-file">Open file<input type="file" data-act="load" data-most="{MOST_UPLOADED}" '
                'accept=".toml" aria-label="Open a file"></label>'
                + button("save", "Save file")
                + f'<span class="rig-set" role="group" aria-label="Light or dark">{themes}</span>',
            )
        )


def _forms(widget: ipywidgets.Widget) -> list[Form]:
    """Give every form in a part of the page."""
    inside = [form for child in getattr(widget, "children", ()) for form in _forms(child)]
    return [widget, *inside] if isinstance(widget, Form) else inside
