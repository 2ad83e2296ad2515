"""The text parts of a sizing as widgets: each stands alone in a notebook, and the sizing app is built of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.views.rig.fields import setting
from rigcalc.views.rig.parts import RigPart
from rigcalc.views.rig.stepped import stepped
from rigcalc.views.rig.working import working
from rigcalc.views.size import panels
from rigcalc.views.size.model import SizeModel
from rigcalc.views.size.parts import AboutSize
from rigcalc.widgets.card import Folds


class SizeCard(AboutSize, RigPart):
    """Base of the cards. `source` is a rig, its file, a demo rig's name, or the SizeModel that other parts show too."""

    kind = SizeModel


class AnswerCard(SizeCard):
    """The answer: go, try it first, or don't, and why, in one sentence."""

    title, dress, is_live = "Answer", "rig-answer rig-across", True

    def text(self) -> str:
        """Give the verdict."""
        return panels.verdict(self.words) + self.faults_by_itself()


class SideDrawing(SizeCard):
    """The rig from the side: weights, pull, depth, slip, and what gives out first lit up."""

    title, dress = "Drawing of the rig", "rig-drawing"

    def text(self) -> str:
        """Give the drawing."""
        return self.of_last(panels.drawing)


class CabCard(SizeCard):
    """What is read in the cab: slip, engine load, area, fuel, and how sure the answer is."""

    title, dress = "In the cab", "rig-facts"

    def text(self) -> str:
        """Give the numbers."""
        return self.of_last(panels.facts)


class Gauges(SizeCard):
    """Every limit as a gauge, the nearest first."""

    title, dress = "Limits", "rig-limits"

    def text(self) -> str:
        """Give the gauges."""
        return self.of_last(panels.limits)


class ReachCard(SizeCard):
    """How far it goes: deepest, fastest, most shanks, smallest engine; a button tries each."""

    title = "How far it goes"

    def text(self) -> str:
        """Give the reverse answers."""
        return panels.reverse(self.words)

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do."""
        return {"try": self.try_reverse}

    def try_reverse(self, question: Any) -> None:
        """Set the entry that a reverse answer is about to that answer, rounded to the safe side."""
        answer = self.words.answer if self.words is not None else None
        found = next((each for each in answer.reverse if each.question == question), None) if answer else None
        path = panels.path_of(str(question))
        if found is None or found.value is None or path is None:
            raise InputError([Fault("try it", shown(question), "a question that has an answer")])
        field = next(field for section in setting() for field in section.fields if field.path == path)
        unit = "" if found.unit == "1" else found.unit
        self.model.edit({path: stepped(field, found.value, unit, self.model.system, down=True)})


class SheetCard(SizeCard):
    """Saves the setup sheet, as PDF or HTML."""

    title = "Setup sheet"

    def text(self) -> str:
        """Give the buttons."""
        return panels.sheet(self.words)

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do."""
        return {"sheet": self.save_sheet, "along": lambda _value: self.take_along()}

    def take_along(self) -> None:
        """Let the browser save the answer with sliders as one file; how far it has come stands in the card meanwhile."""
        from rigcalc.views.along import take_along

        if self.words is None:
            raise InputError([Fault("take it along", "an entry that can't be used", "a rig that has an answer")])
        try:
            made = take_along(self.words, self._come_along)
        finally:
            self.refresh()
        self.save(f"take along {self.model.named()}.html", made.encode(), "text/html")

    def _come_along(self, share: float) -> None:
        tenth = f"{10 * int(10 * share)} %"
        if tenth not in self.html:
            self.html = panels.sheet(self.words, tenth)

    def save_sheet(self, kind: Any) -> None:
        """Let the browser save the setup sheet, as `pdf` or `html`, or as `working`: a PDF with every step of the working."""
        from rigcalc.views.sheet import sheet_html, sheet_pdf

        if self.words is None:
            raise InputError([Fault("setup sheet", "an entry that can't be used", "a rig that has an answer")])
        about: dict[str, Any] = {path.removeprefix("sheet."): text for path, text in self.model.sheet().items() if text.strip()}
        paper, name = about.pop("paper", None), f"setup sheet {self.model.named()}"
        if kind in ("pdf", "working"):
            made = sheet_pdf(self.words, paper=paper, working=kind == "working", **about)
            self.save(f"{name}{' with working' if kind == 'working' else ''}.pdf", made, "application/pdf")
        else:
            self.save(f"{name}.html", sheet_html(self.words, paper=paper, **about).encode(), "text/html")


class NumbersTable(Folds, SizeCard):
    """Every number of the answer, with the range that 8 fields in 10 fall into."""

    title = "Numbers"

    def text(self) -> str:
        """Give the fold."""
        return panels.numbers(self.words, self.opened)


class FirstCard(Folds, SizeCard):
    """What to measure first: each entry that could move the answer, how far, ranked."""

    title = "What to measure first"

    def text(self) -> str:
        """Give the fold."""
        return panels.first(self.words, self.opened)


class WorkingSteps(Folds, SizeCard):
    """How each number is worked out: formula, numbers put in, result, source."""

    title = "Working"

    def text(self) -> str:
        """Give the fold."""
        return working(self.words, self.opened)


class NotesCard(SizeCard):
    """The cautions, and the weightiest notes."""

    title = "Notes and cautions"

    def text(self) -> str:
        """Give both."""
        return panels.notes(self.words)
