"""The parts of a sizing that are about the rig itself: what was entered, which rig, some of its entries, its file."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import parse
from rigcalc.models import DEMO_RIGS, demo_rig, size
from rigcalc.views.rig.fields import SLID, groups, setting, tool_of
from rigcalc.views.size.cards import SizeCard
from rigcalc.views.size.model import SizeModel
from rigcalc.views.size.parts import Source, size_model, typed
from rigcalc.views.size.side import picture_of
from rigcalc.widgets.choice import PictureChoice
from rigcalc.widgets.colours import LIGHT
from rigcalc.widgets.controls import Form
from rigcalc.widgets.fields import Choice, Field, Section
from rigcalc.widgets.files import MOST_UPLOADED, take_file
from rigcalc.widgets.quantity import QuantityEntry
from rigcalc.widgets.templates import render
from rigcalc.words import in_words
from rigcalc.words.spelling import spelt


class RigCard(SizeCard):
    """What was entered about the rig, as it was typed, group by group."""

    title = "The rig"

    def text(self) -> str:
        """Give a table for each group that has an entry."""
        inputs, units = self.model.inputs, self.model.system
        found = []
        for section in (*setting(tool_of(inputs)), *groups(tool_of(inputs))):
            rows = [
                (spelt(field.label, units), _as_shown(field, inputs[field.path]))
                for field in section.fields
                if inputs.get(field.path, "").strip() and not self.model.hides(field.path)
            ]
            if rows:
                found.append((spelt(section.title, units), rows))
        return str(render(__file__, "rig.html.j2", sections=found))


def _as_shown(field: Field, text: str) -> str:
    return dict(field.options).get(text, text) if isinstance(field, Choice) else text


class RigForm(Form):
    """Entries of a rig as a form.

    Parameters
    ----------
    source : SizeModel, Rig, str or path
        What the entries belong to; parts that were given the same SizeModel follow every entry.
    paths : str
        Which entries, such as "work.depth"; all of them, in groups that fold, if none is named.

    Raises
    ------
    InputError
        For a path that is no entry of the form; all such at once.
    """

    def __init__(self, source: Source = None, *paths: str, label: str = "Entries"):
        model = size_model(source)
        known = {field.path: field for section in (*setting(), *groups()) for field in section.fields}
        odd = [Fault("path", shown(path), "an entry of a rig", "work.depth") for path in paths if path not in known]
        if odd:
            raise InputError(odd)

        def sections() -> tuple[Section, ...]:
            every = (*setting(tool_of(model.inputs)), *groups(tool_of(model.inputs)))
            if not paths:
                return every
            fields = {field.path: field for section in every for field in section.fields}
            return (Section(label, tuple(fields[path] for path in paths)),)

        super().__init__(model, sections() if paths else sections, label, folds=not paths, slides=SLID)


class RigChoice(PictureChoice):
    """Which demo rig, each drawn from the side; what shows the same model starts from it.

    A rig of your own counts as one that began with the first demo rig.
    """

    model: SizeModel

    def __init__(self, source: Source = None, **traits: Any):
        self.model = size_model(source)
        traits.setdefault("description", "Start from")
        colours = tuple(LIGHT.items())
        drawn = [(name, demo_rig(name).tractor.name, picture_of(in_words(size(name)), colours)) for name in DEMO_RIGS]
        super().__init__(drawn, self.model.inputs["rig"], **traits)
        self.observe(self._start, names="value")
        self.watch(self._follow, self.description)

    def _start(self, change: Any) -> None:
        if change.new != self.model.inputs["rig"]:  # else it only follows, and what was entered since stays
            self.model.start_from_demo(change.new)

    def _follow(self) -> None:
        self.value = self.model.inputs["rig"]


class FileCard(SizeCard):
    """Opens a rig file and saves one."""

    title = "Rig file"

    def text(self) -> str:
        """Give the buttons; by itself, what is wrong with a file that was opened."""
        return str(render(__file__, "file.html.j2", most=MOST_UPLOADED)) + self.faults_by_itself()

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what they do."""
        return {"load": lambda value: take_file(self.model, value), "save": lambda _value: self.save_file()}

    def save_file(self) -> None:
        """Let the browser save the entries as a rig file."""
        self.save(f"{self.model.named() or 'rig'}.toml", self.model.to_toml().encode(), "application/toml")


class LinkCard(SizeCard):
    """A link that opens this rig, as it stands, in the app. `address` is where the app is served."""

    title = "Link to this rig"

    def __init__(self, source: Source = None, address: str = "http://localhost:8866/app/rig", **traits: Any):
        self.address = address
        super().__init__(source, **traits)

    @property
    def link(self) -> str:
        """The link."""
        query = self.model.to_query()
        return f"{self.address}?{query}" if query else self.address

    def text(self) -> str:
        """Give the link, and the rig's name on it."""
        return str(render(__file__, "link.html.j2", link=self.link, named=self.model.named() or "this rig"))


def linked(entry: QuantityEntry, model: SizeModel, path: str) -> None:
    """Link an entry of one's own with an entry of a rig, both ways: what changes in one changes in the other.

    Raises InputError for a path that is no number of the rig. What the rig holds and the entry can't take, such as a depth
    beyond its ends, stands in the box with the fault under it, and the rig keeps it.
    """
    if not _is_number(model.inputs.get(path, "")):
        raise InputError([Fault("path", shown(path), "an entry of the rig that is a number", "work.depth")])

    def to_rig(change: Any) -> None:
        text = typed(change.new)
        if text != model.inputs.get(path):
            model.edit({path: text})

    def from_rig() -> None:
        text = model.inputs.get(path, "")
        if text != entry.state["text"]:
            entry.type(text)

    model.watch(from_rig, entry.description or path)
    entry.observe(to_rig, names="value")


def _is_number(text: str) -> bool:
    try:
        parse(text)
    except InputError:
        return False
    return True
