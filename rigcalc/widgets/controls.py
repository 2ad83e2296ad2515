"""The form: every declared field as a native control, bound to an AppModel."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import Any

import traitlets

from rigcalc.widgets.entries import completed, range_text, show_number, valid_range
from rigcalc.widgets.fields import Choice, Field, Lines, Number, Section
from rigcalc.widgets.model import AppModel
from rigcalc.widgets.part import Part, script
from rigcalc.words.numbers import System
from rigcalc.words.spelling import fault_spelt, spelt

_KINDS = {"Number": "number", "Choice": "choice", "Text": "text", "Lines": "lines"}


class Form(Part):
    """Fields in sections. `edit(path, text)` is what typing or sliding does; tests call it without a browser.

    `slides` names the numbers that have a slider, all of them if it is not given: what is a fact about a machine is a box,
    which a swipe over the page can't move.

    `sections` may be a function, asked before each refresh, where what is offered follows what was chosen. `set_sections`
    puts other sections in their place; `titles` are the titles of the sections where they follow what was typed.
    """

    _esm = script("wear.js", "names.js", "number.js", "fields.js", "form.js")
    model: AppModel
    title_is_typed = False  # section titles that somebody typed stay letter by letter

    label = traitlets.Unicode("").tag(sync=True)
    spec: traitlets.List[Any] = traitlets.List().tag(sync=True)
    state = traitlets.Dict().tag(sync=True)
    titles: traitlets.List[Any] = traitlets.List().tag(sync=True)

    def __init__(
        self,
        model: AppModel,
        sections: tuple[Section, ...] | Callable[[], tuple[Section, ...]],
        label: str = "Entries",
        folds: bool = True,
        slides: Collection[str] | None = None,
    ):
        self.model, self.folds, self.slides = model, folds, slides
        self.follows = sections if callable(sections) else None
        self.sections = sections() if callable(sections) else sections
        self.fields = _by_name(self.sections)
        self.spelled_for = model.system
        super().__init__(label=label, spec=self._spec())
        self.on_msg(self._heard)
        self.watch(self.refresh, label)

    def set_sections(self, sections: tuple[Section, ...]) -> None:
        """Show these sections from the next refresh on; folds that were open stay open."""
        self.sections, self.fields = sections, _by_name(sections)
        self.spelled_for = self.model.system
        self.spec = self._spec()

    def _spec(self) -> list[dict[str, Any]]:
        return [
            {
                **_head(section, self.folds, self.spelled_for, self.title_is_typed),
                "fields": [_field(field, self.spelled_for, self.slides) for field in section.fields],
            }
            for section in self.sections
        ]

    def edit(self, path: str, text: str, live: bool = False) -> None:
        """Take one entry as typed; a number without a unit gets the one that stands at the slider."""
        field = self.fields.get(path)
        if field is None:
            return
        if isinstance(field, Number):
            text = completed(field, str(text), self.model.system)
        self.model.edit({path: text}, live=live)

    def refresh(self) -> None:
        """Show the model's state."""
        sections = self.follows() if self.follows is not None else self.sections
        if sections is not self.sections or self.spelled_for != self.model.system:
            self.set_sections(sections)
        faults = _by_path(self.model, self.fields)
        self.state = {path: self._look(field, faults.get(path, "")) for path, field in self.fields.items()}

    def _look(self, field: Field, fault: str) -> dict[str, Any]:
        text = self.model.inputs.get(field.path, "")
        if self.model.hides(field.path):
            return {"hidden": True}
        taken = {} if text.strip() else self.model.taken(field.path)
        if not isinstance(field, Number):
            return {"text": text, "fault": fault, **taken}
        return {**number_state(field, text, self.model.system, self.model.typed_in.get(field.path), fault), **taken}

    def _heard(self, _widget: object, message: Mapping[str, Any], _buffers: object) -> None:
        if not isinstance(message, Mapping) or message.get("kind") != "edit":
            return
        try:
            path, text, live = str(message.get("path")), str(message.get("text")), bool(message.get("live"))
            self.model.guarded(self.edit, self.label)(path, text, live)
        finally:
            self.send({"kind": "done"})


def number_state(field: Number, text: str, system: System, typed_in: System | None, fault: str) -> dict[str, Any]:
    """Give what a number's controls are to show: its text, the place of the slider, what stands beside it."""
    scale = field.scale(system)
    look = show_number(field, text, system, typed_in)
    return {
        **{"text": look.text, "number": look.number, "unit": look.unit, "also": look.also, "mark": look.mark},
        **{"low": scale.low, "high": scale.high, "step": scale.step, "fault": fault},
        "valid": list(valid_range(field, system)) if field.valid else None,
        "usual": f"{field.range_is}: {range_text(field, system)}" if field.valid and not look.mark else "",
    }


def _by_name(sections: tuple[Section, ...]) -> dict[str, Field]:
    return {field.path: field for section in sections for field in section.fields}


def _head(section: Section, folds: bool, system: System, title_is_typed: bool) -> dict[str, Any]:
    title = section.title if title_is_typed else spelt(section.title, system)
    return {"title": title, "open": section.open, "folds": folds, "note": spelt(section.note, system)}


def _field(field: Field, system: System, slides: Collection[str] | None) -> dict[str, Any]:
    label = spelt(field.label, system)
    spec: dict[str, Any] = {"kind": _KINDS[type(field).__name__], "path": field.path, "label": label}
    if isinstance(field, Number) and slides is not None and field.path not in slides:
        spec["box"] = True
    if isinstance(field, Choice):
        pictures = dict(field.pictures)
        spec["options"] = [[value, spelt(text, system), pictures.get(value, "")] for value, text in field.options]
        if pictures or field.in_sight:
            spec["kind"] = "sight"
    if isinstance(field, Lines):
        spec["rows"] = field.rows
    return {**spec, "help": spelt(field.help, system)}


def _by_path(model: AppModel, fields: Mapping[str, Field]) -> dict[str, str]:
    found: dict[str, list[str]] = {}
    for fault in model.faults:
        where = fault.where.strip()
        path = next((path for path in fields if where == path or where.startswith(path + ":")), None)
        if path:
            hint = f" Type {fault.type_this}" if fault.type_this else ""
            found.setdefault(path, []).append(f"Expected {fault_spelt(fault, model.system).expected}.{hint}")
    return {path: " ".join(texts) for path, texts in found.items()}
