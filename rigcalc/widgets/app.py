"""The frame of every app: a bar with units, undo, files and theme; the box of faults; the page itself."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import ipywidgets
from markupsafe import Markup

from rigcalc.widgets.controls import Form
from rigcalc.widgets.early import with_first_words
from rigcalc.widgets.files import MOST_UPLOADED, take_file
from rigcalc.widgets.model import AppModel
from rigcalc.widgets.one_layout import one_layout
from rigcalc.widgets.page import Page
from rigcalc.widgets.panel import FaultBox, Panel
from rigcalc.widgets.templates import render

_SYSTEMS = (("us", "in, lb, mph"), ("si", "cm, kg, km/h"))


class App(ipywidgets.VBox):  # type: ignore[misc]  # it comes without types
    """Base of an app's view. A subclass gives `title`, `parts()` and, if it has more in its bar, `bar_extra()`.

    `inside` is for a page among others at one address (`Pages`), where the whole speaks for the address.
    """

    title = "rigcalc"
    is_about_rig = True  # another page of the same address changes what this one is about

    def __init__(self, model: AppModel, inside: bool = False):
        self.model, self.inside = model, inside
        self.go_to: Callable[[str], None] = lambda _name: None  # opens another page of the same address
        model.dressed = True  # the page brings the look, once
        acts = {
            **{"units": model.switch_units, "undo": lambda _value: model.undo()},
            **{"page": lambda name: self.go_to(str(name))},
            **{"load": self.load, "save": lambda _value: self.save()},
            **self.bar_acts(),
        }
        self.bar = Panel(model, self._bar, "the bar", acts, look="rig-bar rig-across", role="group", label="Page")
        parts = list(self.parts())
        self._forms = [form for part in parts for form in _forms(part)]
        self.faults = FaultBox(model, self.name_of)
        self.faults.add_class("rig-across")
        # What is asked first stands first: the answer, then what is wrong, then the tools, then the rest.
        self.page = None if inside else Page(model)
        spoken = [self.page] if self.page is not None else []
        super().__init__([*parts[:1], self.faults, self.bar, *parts[1:], *spoken], layout=one_layout())
        self.add_class("rig-app")
        self.add_class("rig-look")

    @property
    def head(self) -> Sequence[ipywidgets.Widget]:
        """Its first part and its bar: what is seen of it first."""
        return (self.children[0], self.bar)

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
        self.bar.save(f"{self.model.named() or 'rig'}.toml", self.model.to_toml().encode(), "application/toml")

    def _repr_mimebundle_(self, **asked: Any) -> dict[str, Any]:
        return with_first_words(super()._repr_mimebundle_(**asked), self.head)

    # the bar

    def _bar(self) -> str:
        model = self.model
        systems = [(system, text, model.system == system) for system, text in _SYSTEMS]
        return str(
            render(
                __file__, "bar.html.j2", title=self.title, named=model.named(), systems=systems,
                changes=self.inside and self.is_about_rig,
                can_undo=model.can_undo(), extra=Markup(self.bar_extra()), most=MOST_UPLOADED,  # noqa: S704 (its maker escapes)
            )
        )  # fmt: skip


def _forms(widget: ipywidgets.Widget) -> list[Form]:
    """Give every form in a part of the page."""
    inside = [form for child in getattr(widget, "children", ()) for form in _forms(child)]
    return [widget, *inside] if isinstance(widget, Form) else inside
