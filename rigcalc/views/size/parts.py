"""What each part about a sizing has in common: it starts from a rig or shares a model, and tells what it shows.

Parts that are given one `SizeModel` move together: an entry changed in one changes the answer in all. Parts that are given
a rig each have a model of their own.
"""

from __future__ import annotations

from os import PathLike
from typing import Any

import traitlets

from rigcalc.core.errors import InputError
from rigcalc.models import Answer, Rig
from rigcalc.models.rig.asked import asked
from rigcalc.views.size.model import SizeModel
from rigcalc.words.size import SizeWords

Source = SizeModel | Rig | str | PathLike[str] | None


class AboutSize(traitlets.HasTraits):
    """The traits of a part about a sizing.

    Attributes
    ----------
    rig : Rig
        The rig shown. Set it to a rig, the path of its file or the name of a demo rig, and every part of the model follows.
    units : "us" or "si"
        The units shown.
    answer : Answer or None
        The facts of the answer, read alone; None while an entry can't be used.
    """

    model: Any  # a SizeModel; each base of a part has a word on it
    rig = traitlets.Any()
    units: Any = traitlets.Enum(["us", "si"], default_value="us")
    answer = traitlets.Any(None, allow_none=True, read_only=True)

    @property
    def words(self) -> SizeWords | None:
        """The answer in words, None while an entry can't be used."""
        found: SizeWords | None = self.model.results
        return found

    def told(self) -> None:
        """Follow the model. On a page nobody listens to its parts, so there it costs nothing."""
        if self.model.dressed:
            return
        found = self.words.answer if self.words is not None else None
        self.units = self.model.system
        self.set_trait("answer", found)
        if found is not None:
            self.rig = found.rig

    @traitlets.validate("rig")
    def _is_rig(self, proposal: Any) -> Rig:
        try:
            return asked(proposal.value)
        except InputError as error:
            raise traitlets.TraitError(str(error)) from None

    @traitlets.observe("rig")
    def _other_rig(self, change: Any) -> None:
        shown: Answer | None = self.words.answer if self.words is not None else None
        if shown is None or change.new != shown.rig:
            self.model.start_from(change.new)

    @traitlets.observe("units")
    def _other_units(self, change: Any) -> None:
        self.model.switch_units(change.new)


def size_model(source: Source) -> SizeModel:
    """Give the model that a part shows: the one it was given, or a new one of a rig. Raises InputError where it is none."""
    if isinstance(source, SizeModel):
        return source
    model = SizeModel()
    if source is not None:
        model.start_from(source)
    return model


def typed(quantity: Any) -> str:
    """Give a quantity as somebody would type it, such as `6 km/h`."""
    return f"{float(quantity.magnitude):.12g} {quantity.units:~}".replace(" / ", "/").strip()
