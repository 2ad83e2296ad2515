"""What each part about fields has in common, beside what all parts about a rig have."""

from __future__ import annotations

from os import PathLike
from typing import Any, cast

from rigcalc.models import Rig
from rigcalc.views.passes.model import PassesModel
from rigcalc.views.rig.parts import AboutRig, RigPart, model_of
from rigcalc.words.passes import FieldWords

Source = PassesModel | Rig | str | PathLike[str] | None


class AboutFields(AboutRig):
    """The traits of a part about fields; `answer` holds the facts of `rigcalc.field`."""

    @property
    def words(self) -> FieldWords | None:
        """The answer in words, None while an entry can't be used."""
        words: FieldWords | None = self.model.results
        return words

    def facts(self) -> Any:
        """Give the facts of the answer, None where there is none."""
        return self.words.answer if self.words is not None else None


class FieldsCard(AboutFields, RigPart):
    """Base of the cards. `source` is a rig, its file, a demo rig's name, or the PassesModel that other parts show too."""

    kind = PassesModel


def passes_model(source: Source) -> PassesModel:
    """Give the model that a part shows: the one it was given, or a new one of a rig. Raises InputError where it is none."""
    return cast(PassesModel, model_of(PassesModel, source))
