"""What each part about weight has in common, beside what all parts about a rig have."""

from __future__ import annotations

from os import PathLike
from typing import Any, ClassVar

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.rig.rig import Rig
from rigcalc.views.ballast.model import BallastModel
from rigcalc.views.rig.parts import AboutRig, RigPart

Source = BallastModel | Rig | str | PathLike[str] | None


class AboutWeight(AboutRig):
    """The traits of a part about weight; `answer` holds the facts of `rigcalc.ballast`."""

    def facts(self) -> BallastAnswer | None:
        """Give the facts of the answer, None where there is none."""
        return self.model.results.ballast if self.model.results is not None else None


class WeightCard(AboutWeight, RigPart):
    """Base of the cards. `source` is a rig, its file, a demo rig's name, or the BallastModel that other parts show too.

    `written` gives its HTML for the answer, or for None.
    """

    kind = BallastModel
    written: ClassVar[Any]

    def text(self) -> str:
        """Give what is shown, as HTML."""
        return str(self.written(self.facts()))
