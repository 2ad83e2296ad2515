"""The text parts of a comparison as widgets: each stands alone in a notebook, and the comparing app is built of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models import DEMO_RIGS, demo_rig
from rigcalc.models.compare.answer import MOST
from rigcalc.views.compare import panels
from rigcalc.views.compare.inputs import places
from rigcalc.views.compare.model import CompareModel
from rigcalc.views.compare.parts import AboutComparison, Source, compare_model
from rigcalc.widgets.card import Card
from rigcalc.widgets.files import MOST_UPLOADED


class CompareCard(AboutComparison, Card):
    """Base of the cards. `source` is a list of rigs, their files or demo rigs' names, or the CompareModel that others show."""

    model: CompareModel

    def __init__(self, source: Source = None, **traits: Any):
        Card.__init__(self, compare_model(source), **traits)


class CompareAnswer(CompareCard):
    """Which one, and whether it matters, in one sentence; by itself the reasons too."""

    title, dress, is_live = "Answer on these rigs", "rig-answer rig-across rig-which", True

    def text(self) -> str:
        """Give the sentence."""
        why = "" if self.model.dressed else panels.why(self.words)
        return panels.verdict(self.found) + why + self.faults_by_itself()


class CompareReasons(CompareCard):
    """Why: what is said of each rig that is behind, and what else parts them."""

    title, dress = "Why", "rig-why"

    def text(self) -> str:
        """Give the sentences."""
        return panels.why(self.words)


class CompareCards(CompareCard):
    """A card for each rig: verdict, chance, what gives out, power a shank and by width, area, fuel."""

    title, dress = "Each of them", "rig-each"

    def text(self) -> str:
        """Give the cards, those that can't be used last."""
        return panels.cards(self.found, links=self.model.dressed)


class CompareRows(CompareCard):
    """Every figure, those that differ first; what is the same, and what is said of each by itself, folded."""

    title, dress = "Side by side", "rig-rows"

    def text(self) -> str:
        """Give the table and the folds."""
        return panels.rows(self.words)


class CompareRigs(CompareCard):
    """The rigs on the list: add a demo rig or rig files, put one first, take one away."""

    title, dress = "Rigs to compare", "rig-list"
    _refused: tuple[Fault, ...] = ()

    def text(self) -> str:
        """Give the list and its buttons."""
        names = [(place, self.model.inputs.get(f"{place}.name", "")) for place in places(self.model.inputs)]
        demos = [(name, demo_rig(name).tractor.name) for name in DEMO_RIGS]
        fits = self.model.fits_a_link()
        return panels.rig_list(names, demos, len(names) >= MOST, MOST_UPLOADED, fits) + self.faults_by_itself()

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do."""
        return {
            "demo": lambda name: self.model.add_demo(str(name)) if name else None,
            "add": self.load,
            "remove": lambda place: self.model.remove_rig(place),
            "first": lambda place: self.model.make_first(place),
        }

    def load(self, value: Any) -> None:
        """Take one of the files that were picked together: a mapping with `name`, `size`, `text`, and `at`, its place."""
        if not isinstance(value, Mapping) or not value.get("at"):
            self._refused = ()
            self.model.forget_complaints()
        try:
            take_rig(self.model, value)
        except InputError as error:
            self._refused = (*self._refused, *error.faults)
        # What an earlier file of the same lot was refused for stays in sight.
        self.model.complain(self._refused)


def take_rig(model: CompareModel, value: Any) -> None:
    """Add the rig of a file that was picked, under the file's name. Raises InputError, the file named in every fault."""
    size, text = (value.get("size"), value.get("text", "")) if isinstance(value, Mapping) else (None, "")
    if not isinstance(size, int | float) or not isinstance(text, str):
        raise InputError([Fault("file", shown(value), "a file")])
    name = str(value.get("name", "")).removesuffix(".toml")[:60] or "rig"
    if size > MOST_UPLOADED:
        got = f"a file of {size / 1e6:,.1f} MB"
        raise InputError([Fault(f"file {name}", got, "a rig file, a few thousand letters of text", "another file")])
    try:
        model.start_from_toml(text, name)
    except InputError as error:
        raise InputError(
            [Fault(f"file {name}, {fault.where}", fault.got, fault.expected, fault.type_this) for fault in error.faults]
        ) from None


class CompareTables(CompareCard):
    """Saves the comparison: a printed page, a table for other programs."""

    title = "Take it along"

    def text(self) -> str:
        """Give the buttons."""
        return panels.tables(self.words)

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do."""
        return {"table": self.save_table, "sheet": self.save_sheet}

    def save_sheet(self, kind: Any) -> None:
        """Let the browser save one printed page, as `pdf` or `html`."""
        from rigcalc.views.sheet.compare import comparison_html, comparison_pdf

        if self.words is None:
            raise InputError([Fault("sheet", "fewer than two rigs that can be used", "a comparison")])
        if kind == "pdf":
            self.save("comparison.pdf", comparison_pdf(self.words), "application/pdf")
        else:
            self.save("comparison.html", comparison_html(self.words).encode(), "text/html")

    def save_table(self, kind: Any) -> None:
        """Let the browser save every figure, as `csv` or `xlsx`."""
        from rigcalc.views.spreadsheet.compare import comparison_csv, comparison_xlsx

        if self.words is None:
            raise InputError([Fault("table", "fewer than two rigs that can be used", "a comparison")])
        if kind == "xlsx":
            sheet = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
            self.save("comparison.xlsx", comparison_xlsx(self.words), sheet)
        else:
            self.save("comparison.csv", comparison_csv(self.words), "text/csv")
