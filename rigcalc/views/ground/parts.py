"""What each part about the ground has in common, beside what all parts about a rig have."""

from __future__ import annotations

from os import PathLike
from typing import Any, cast

from rigcalc.models import Rig
from rigcalc.views.ground.model import GroundModel
from rigcalc.views.rig.parts import AboutRig, RigPart, model_of
from rigcalc.words.ground import GroundWords

Source = GroundModel | Rig | str | PathLike[str] | None


class AboutGround(AboutRig):
    """The traits of a part about the ground; `answer` holds the facts of `rigcalc.ground`."""

    @property
    def words(self) -> GroundWords | None:
        """The answer in words, None while an entry can't be used."""
        words: GroundWords | None = self.model.results
        return words

    def facts(self) -> Any:
        """Give the facts of the answer, None where there is none."""
        return self.words.answer if self.words is not None else None


class GroundCard(AboutGround, RigPart):
    """Base of the cards. `source` is a rig, its file, a demo rig's name, or the GroundModel that other parts show too."""

    kind = GroundModel


def ground_model(source: Source) -> GroundModel:
    """Give the model that a part shows: the one it was given, or a new one of a rig. Raises InputError where it is none."""
    return cast(GroundModel, model_of(GroundModel, source))
