"""The ballast app: where should the weight go, and did it work?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import ipywidgets

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.views.ballast import curve, fields, panels, panels_field
from rigcalc.views.ballast.bars import bars
from rigcalc.views.ballast.model import BallastModel
from rigcalc.views.ballast.rig_inputs import places
from rigcalc.views.rig.app import RigApp
from rigcalc.views.rig.fields import SLID, tool_of
from rigcalc.views.rig.working import working
from rigcalc.widgets.controls import Form
from rigcalc.widgets.figure import Picture
from rigcalc.widgets.html import table
from rigcalc.widgets.panel import Panel
from rigcalc.widgets.plot import blank


class Weights(Form):
    """One section for each kind of weight at hand; they come and go with the list."""

    title_is_typed = True

    model: BallastModel

    def __init__(self, model: BallastModel):
        self.there: list[int] = []
        super().__init__(model, (), "Weights at hand", slides=SLID)
        self.add_class("rig-pieces")

    def refresh(self) -> None:
        """Show the weights that are on the list, each under its name and how many of them are on."""
        found, told = places(self.model.inputs), self.model.piece
        with self.hold_sync():
            if found != self.there:
                new = set(found) - set(self.there) if self.there else set()
                self.there = found
                self.set_sections(tuple(fields.piece(place, told(place), place in new) for place in found))
            self.titles = [told(place) for place in found]
            super().refresh()


class BallastApp(RigApp):
    """The whole page. `BallastApp()` starts from the first demo rig; `BallastApp(BallastModel())` from your own model."""

    title = "Where should the weight go?"
    model: BallastModel

    def __init__(self, model: BallastModel | None = None, inside: bool = False):
        self.opened = False
        super().__init__(model or BallastModel(), inside)

    @property
    def answer(self) -> BallastAnswer | None:
        """The answer on ballast, None while an entry can't be used."""
        return self.model.results.ballast if self.model.results else None

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts in reading order."""
        model = self.model

        def panel(name: str, write: Any, look: str = "", acts: Mapping[str, Any] | None = None, **more: Any) -> Panel:
            return Panel(model, write, name, acts, look=look, role="region", label=name, **more)

        def told(name: str, write: Any, look: str = "", **acts: Any) -> Panel:
            return panel(name, lambda: write(self.answer), look, acts)

        weights = Panel(
            model,
            lambda: panels_field.weights((place, model.piece(place, short=True)) for place in places(model.inputs)),
            "the weights",
            {"add": lambda _value: model.add_piece(), "remove": model.remove_piece},
        )
        first = Form(model, lambda: fields.job(tool_of(model.inputs)), "The job", folds=False, slides=SLID)
        machine = Form(model, lambda: fields.more(tool_of(model.inputs)), "Tickets, limits and machine", slides=SLID)
        entries = self.entries(first, weights, Weights(model), machine)
        slip = Form(model, fields.slip_test(), "Slip test", folds=False, slides=SLID)
        slip.add_class("rig-test")
        note = "Shaded: as good as the best, within 1 %."
        figure = Picture(model, self._describe, "What the mass does to this job", None, self._twin, note)
        figure.add_class("rig-tall")
        self.working = panel("Working", lambda: working(self.answer, self.opened), acts={"open": self.unfold})
        return (
            panel("Answer", lambda: panels.verdict(self.answer), "rig-answer rig-across", live="polite"),
            told("Where the mass stands", bars, "rig-drawing"),
            told("After the plan", panels.facts, "rig-facts"),
            told("Plan", panels.plan, "rig-figures", take=lambda _value: model.take_plan()),
            entries,
            told("Limits", panels.limits, "rig-limits"),
            figure,
            told("Jobs", panels.jobs, job=lambda name: model.edit({"plan.job": str(name)})),
            told("Advice", panels.advice, "rig-figures"),
            told("Load and pressure", panels_field.tyres, "rig-figures"),
            told("Gears", panels_field.gears, "rig-figures"),
            panel("How to test slip", lambda: panels_field.slip_how(model.results)),
            slip,
            panel(
                "Verdict of the slip test",
                lambda: panels_field.slip_verdict(model.results, model.inputs.get("slip.way", "")),
                live="polite",
            ),
            told("Setup sheet", panels_field.sheet, sheet=self.save_sheet),
            self.working,
            told("Notes and cautions", panels.notes),
        )

    def unfold(self, _name: Any) -> None:
        """Make the inside of the working, now that somebody wants to see it."""
        self.opened = True
        self.working.refresh()

    def save_sheet(self, kind: Any) -> None:
        """Let the browser save the setup sheet with the ballast on it, as `pdf` or `html`."""
        from rigcalc.views.sheet import answered, sheet_html, sheet_pdf

        if self.answer is None:
            raise InputError([Fault("setup sheet", "an entry that can't be used", "a rig that has an answer")])
        about = {path.removeprefix("sheet."): text for path, text in self.model.sheet().items() if path.startswith("sheet.")}
        about = {name: text for name, text in about.items() if text.strip()}
        paper, sized = about.pop("paper", "") or None, answered(self.answer.rig, self.model.system)
        name = f"ballast sheet {self.model.named()}"
        if kind == "pdf":
            made = sheet_pdf(sized, paper=paper, ballast=self.answer, **about)
            self.bar.save(f"{name}.pdf", made, "application/pdf")
        else:
            made = sheet_html(sized, paper=paper, ballast=self.answer, **about).encode()
            self.bar.save(f"{name}.html", made, "text/html")

    def _describe(self) -> Mapping[str, Any]:
        if self.answer is None:
            return blank()
        return curve.describe(self.answer)

    def _twin(self) -> str:
        if self.answer is None:
            return "<p>There is no answer to show.</p>"
        twin = curve.twin(self.answer)
        return table(twin.caption, twin.heads, twin.rows)
