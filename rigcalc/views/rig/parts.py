"""What each part about a rig has in common: it starts from a rig or shares a model, and tells what it shows.

Parts that are given one model move together: an entry changed in one changes the answer in all. Parts that are given a rig each
have a model of their own.
"""

from __future__ import annotations

from os import PathLike
from typing import Any, ClassVar

import traitlets

from rigcalc.core.errors import Fault, InputError
from rigcalc.models import Rig
from rigcalc.models.rig.asked import asked
from rigcalc.views.rig.model import RigModel
from rigcalc.widgets.card import Card


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


class RigPart(AboutRig, Card):
    """Base of the parts that are text. `source` is a rig, its file, a demo rig's name, or the model that others show too."""

    kind: ClassVar[type[RigModel]] = RigModel  # of the model that it shows

    def __init__(self, source: RigModel | Rig | str | PathLike[str] | None = None, **traits: Any):
        Card.__init__(self, model_of(self.kind, source), **traits)


def model_of(kind: type[RigModel], source: RigModel | Rig | str | PathLike[str] | None) -> RigModel:
    """Give the model that a part shows: the one it was given, or a new one of a rig.

    Raises InputError where it is neither, and for the model of another question, whose answer the part can't show.
    """
    if isinstance(source, kind):
        return source
    if isinstance(source, RigModel):
        name = kind.__name__
        raise InputError(
            [Fault("source", type(source).__name__, f"a {name}, a rig, its file or a demo rig's name", f"{name}()")]
        )
    model = kind()
    if source is not None:
        model.start_from(source)
    return model
