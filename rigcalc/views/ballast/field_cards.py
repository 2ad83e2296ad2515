"""The parts about weight for the yard and the field: pressures, gears, the sheet with the ballast on it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from rigcalc.core.errors import Fault, InputError
from rigcalc.views.ballast import panels_field
from rigcalc.views.ballast.parts import WeightCard


class TyrePressures(WeightCard):
    """Load on each tyre and the pressure that its table asks for."""

    title, dress, written = "Load and pressure", "rig-figures", staticmethod(panels_field.tyres)


class WeightGears(WeightCard):
    """What another gear would do in place of weight."""

    title, dress, written = "Gears", "rig-figures", staticmethod(panels_field.gears)


class WeightSheet(WeightCard):
    """Saves the setup sheet with the ballast on it, as PDF or HTML."""

    title, dress, written = "Setup sheet with ballast", "rig-figures", staticmethod(panels_field.sheet)

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do."""
        return {"sheet": self.save_sheet}

    def save_sheet(self, kind: Any) -> None:
        """Let the browser save it. Raises InputError where there is no answer."""
        from rigcalc.views.sheet import answered, sheet_html, sheet_pdf

        answer = self.facts()
        if answer is None:
            raise InputError([Fault("setup sheet", "an entry that can't be used", "a rig that has an answer")])
        about = {path.removeprefix("sheet."): text for path, text in self.model.sheet().items() if path.startswith("sheet.")}
        about = {name: text for name, text in about.items() if text.strip()}
        paper, sized = about.pop("paper", "") or None, answered(answer.rig, self.model.system)
        name = f"ballast sheet {self.model.named()}"
        if kind == "pdf":
            self.save(f"{name}.pdf", sheet_pdf(sized, paper=paper, ballast=answer, **about), "application/pdf")
        else:
            self.save(f"{name}.html", sheet_html(sized, paper=paper, ballast=answer, **about).encode(), "text/html")
