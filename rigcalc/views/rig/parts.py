"""What each part about a rig has in common: it starts from a rig or shares a model, and tells what it shows.

Parts that are given one model move together: an entry changed in one changes the answer in all. Parts that are given a rig each
have a model of their own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from os import PathLike
from typing import Any, ClassVar

import traitlets

from rigcalc.core.errors import InputError
from rigcalc.models import Rig
from rigcalc.models.rig.asked import asked
from rigcalc.views.rig.model import RigModel
from rigcalc.widgets.html import fault_list
from rigcalc.widgets.panel import Panel
from rigcalc.words.spelling import fault_spelt


class AboutRig(traitlets.HasTraits):
    """The traits of a part about a rig.

    Attributes
    ----------
    rig : Rig
        The rig shown. Set it to a rig, the path of its file or the name of a demo rig, and every part of the model follows.
    units : "us" or "si"
        The units shown.
    answer
        The facts of the answer, read alone; None while an entry can't be used.
    """

    model: Any  # a RigModel; each base of a part has a word on it
    rig = traitlets.Any()
    units: Any = traitlets.Enum(["us", "si"], default_value="us")
    answer = traitlets.Any(None, allow_none=True, read_only=True)

    def facts(self) -> Any:
        """Give the facts of the answer, None where there is none."""
        raise NotImplementedError

    def told(self) -> None:
        """Follow the model. On a page nobody listens to its parts, so there it costs nothing."""
        if self.model.dressed:
            return
        rig = self.model.rig_shown()
        self.units = self.model.system
        self.set_trait("answer", self.facts())
        if rig is not None:
            self.rig = rig

    @traitlets.validate("rig")
    def _is_rig(self, proposal: Any) -> Rig:
        try:
            return asked(proposal.value)
        except InputError as error:
            raise traitlets.TraitError(str(error)) from None

    @traitlets.observe("rig")
    def _other_rig(self, change: Any) -> None:
        if change.new != self.model.rig_shown():
            self.model.start_from(change.new)

    @traitlets.observe("units")
    def _other_units(self, change: Any) -> None:
        self.model.switch_units(change.new)


class RigPart(AboutRig, Panel):
    """Base of the parts that are text. `source` is a rig, its file, a demo rig's name, or the model that others show too."""

    title = ""
    dress = ""  # its classes in the style sheet
    kind: ClassVar[type[RigModel]] = RigModel  # of the model that it makes where it is given none
    _listens = False
    is_live = False  # whether a screen reader says each change

    def __init__(self, source: RigModel | Rig | str | PathLike[str] | None = None, **traits: Any):
        traits.setdefault("label", self.title)
        acts, look, live = self.what_it_does(), self.dress, "polite" if self.is_live else ""
        Panel.__init__(self, model_of(self.kind, source), self.text, self.title, acts, look, role="region", live=live, **traits)
        self.watch(self.told, self.title)
        if not self.model.dressed:
            self._listens = True
            self.model.observe(self._faults_changed, names="faults")

    def faults_by_itself(self) -> str:
        """Give what needs mending, where no page has a box of its own for it."""
        faults = () if self.model.dressed else [fault_spelt(fault, self.model.system) for fault in self.model.faults]
        return fault_list(faults, "This needs mending")

    def close(self) -> None:
        """Take the card away; the model it showed goes on without it."""
        if self._listens:
            self._listens = False
            self.model.unobserve(self._faults_changed, names="faults")
        super().close()

    def _faults_changed(self, _change: Any) -> None:
        self.refresh()

    def text(self) -> str:
        """Give what is shown, as HTML."""
        raise NotImplementedError

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do, by name."""
        return {}


def model_of(kind: type[RigModel], source: RigModel | Rig | str | PathLike[str] | None) -> RigModel:
    """Give the model that a part shows: the one it was given, or a new one of a rig. Raises InputError where it is none."""
    if isinstance(source, RigModel):
        return source
    model = kind()
    if source is not None:
        model.start_from(source)
    return model
