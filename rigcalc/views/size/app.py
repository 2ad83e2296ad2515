"""The sizing app: will it pull, what gives out first, how sure is that."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import ipywidgets

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import factor
from rigcalc.models import Answer
from rigcalc.views.rig.app import RigApp
from rigcalc.views.rig.fields import groups, setting, tool_of
from rigcalc.views.rig.working import working
from rigcalc.views.size import panels
from rigcalc.views.size.model import SizeModel
from rigcalc.views.size.pictures import axle_loads, chance, limits_map, power_flow, slip_curve
from rigcalc.widgets.controls import Form
from rigcalc.widgets.entries import tidy
from rigcalc.widgets.fields import Number
from rigcalc.widgets.figure import Figure
from rigcalc.widgets.html import table
from rigcalc.widgets.one_layout import one_layout
from rigcalc.widgets.panel import Panel
from rigcalc.widgets.plot import Twin, blank, unit_of
from rigcalc.words.size import SizeWords

PICTURES = (
    ("limits", "Limits over depth and speed", limits_map),
    ("power", "Where the power goes", power_flow),
    ("slip", "Pull and efficiency against slip", slip_curve),
    ("axles", "Axle loads", axle_loads),
    ("chance", "How sure, depth by depth", chance),
)


class SizeApp(RigApp):
    """The whole page. `SizeApp()` starts from the first demo rig; `SizeApp(SizeModel())` from a model of your own."""

    title = "Will it pull?"
    model: SizeModel

    def __init__(self, model: SizeModel | None = None):
        self.opened: set[str] = set()
        super().__init__(model or SizeModel())

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts in reading order."""
        model = self.model

        def panel(name: str, write: Any, look: str = "", acts: Mapping[str, Any] | None = None, **more: Any) -> Panel:
            return Panel(model, write, name, acts, look=look, role="region", label=name, **more)

        first = Form(model, lambda: setting(tool_of(model.inputs)), "Depth, speed and shanks", folds=False)
        machine = Form(model, lambda: groups(tool_of(model.inputs)), "Ground, implement and tractor")
        entries = self.entries(first, machine)
        self.folds: list[Panel] = []
        parts = (
            panel("Answer", lambda: panels.verdict(self.words), "rig-answer rig-across", live="polite"),
            panel("Drawing of the rig", lambda: panels.drawing(self.words), "rig-drawing"),
            entries,
            panel("In the cab", lambda: panels.facts(self.words), "rig-facts"),
            panel("Limits", lambda: panels.limits(self.words), "rig-limits"),
            self._pictures(),
            panel("How far it goes", lambda: panels.reverse(self.words), acts={"try": self.try_reverse}),
            panel("Setup sheet", lambda: panels.sheet(self.words), acts={"sheet": self.save_sheet}),
            panel("Numbers", lambda: panels.numbers(self.words, "numbers" in self.opened), acts={"open": self.unfold}),
            panel("Working", lambda: working(self.words, "working" in self.opened), acts={"open": self.unfold}),
            panel("Notes and cautions", lambda: panels.notes(self.words)),
        )
        self.folds += [part for part in parts if isinstance(part, Panel) and part.name in ("Numbers", "Working")]
        return parts

    @property
    def words(self) -> SizeWords | None:
        """The answer in words, None while an entry can't be used."""
        return self.model.results

    @property
    def answer(self) -> Answer | None:
        """The answer's facts, None while an entry can't be used."""
        return self.words.answer if self.words is not None else None

    # what the buttons do

    def tap(self, speed: float, depth: float, live: bool = False) -> None:
        """Set depth and speed to a point of the first picture, in its own units, on the steps of the sliders.

        While it is `live` the point is being dragged: all its steps are one for undo.
        """
        if self.answer is None:  # the picture has no axes then
            return
        fields = {field.path: field for section in setting() for field in section.fields}
        self.model.edit(
            {
                "work.depth": _stepped(fields["work.depth"], depth, unit_of("cm", self.model.system), self.model.system),
                "work.speed": _stepped(fields["work.speed"], speed, unit_of("km/h", self.model.system), self.model.system),
            },
            live,
        )

    def try_reverse(self, question: Any) -> None:
        """Set the entry that a reverse answer is about to that answer, rounded to the safe side."""
        found = next((each for each in self.answer.reverse if each.question == question), None) if self.answer else None
        path = panels.path_of(str(question))
        if found is None or found.value is None or path is None:
            raise InputError([Fault("try it", shown(question), "a question that has an answer")])
        field = next(field for section in setting() for field in section.fields if field.path == path)
        unit = "" if found.unit == "1" else found.unit
        self.model.edit({path: _stepped(field, found.value, unit, self.model.system, down=True)})

    def save_sheet(self, kind: Any) -> None:
        """Let the browser save the setup sheet, as `pdf` or `html`."""
        from rigcalc.views.sheet import sheet_html, sheet_pdf

        if self.words is None:
            raise InputError([Fault("setup sheet", "an entry that can't be used", "a rig that has an answer")])
        about: dict[str, Any] = {path.removeprefix("sheet."): text for path, text in self.model.sheet().items() if text.strip()}
        paper = about.pop("paper", None)
        if kind == "pdf":
            self.page.save("setup-sheet.pdf", sheet_pdf(self.words, paper=paper, **about), "application/pdf")
        else:
            self.page.save("setup-sheet.html", sheet_html(self.words, paper=paper, **about).encode(), "text/html")

    def unfold(self, name: Any) -> None:
        """Make the inside of a fold, now that somebody wants to see it; from then on it is kept up to date."""
        self.opened.add(str(name))
        for panel in self.folds:
            panel.refresh()

    # the pictures

    def _pictures(self) -> ipywidgets.VBox:
        figures = []
        for name, title, source in PICTURES:
            first = name == "limits"
            note = "Tap a place, or drag the ring, to set depth and speed." if first else ""
            tap = self.tap if first else None
            figure = Figure(self.model, _describe(self, source), title, tap, _twin(self, source), note)
            if first:
                figure.add_class("rig-big")
            figures.append(figure)
        pictures = ipywidgets.VBox(figures, layout=one_layout())
        pictures.add_class("rig-pictures")
        return pictures


def _describe(app: SizeApp, source: Any) -> Any:
    def describe() -> Mapping[str, Any]:
        if app.words is None:
            return blank()
        found: Mapping[str, Any] = source.describe(app.words)
        return found

    return describe


def _twin(app: SizeApp, source: Any) -> Any:
    def write() -> str:
        if app.words is None:
            return "<p>There is no answer to show.</p>"
        twin: Twin = source.twin(app.words)
        return table(twin.caption, twin.heads, twin.rows)

    return write


def _stepped(field: Any, value: float, unit: str, system: Any, down: bool = False) -> str:
    """Give a value as it would stand in the field, on the steps of its slider; `down` never rounds up."""
    assert isinstance(field, Number)
    scale = field.scale(system)
    own = value * factor(unit, scale.unit) if unit != scale.unit else value
    steps = (own - scale.low) / scale.step
    whole = int(steps + 1e-6) if down else round(steps)
    number = scale.low + whole * scale.step
    if down and (number > own + 1e-6 or number <= 0):
        return f"{tidy(own)} {scale.unit}".strip()
    return f"{tidy(min(max(number, scale.low), scale.high) if not down else number)} {scale.unit}".strip()
