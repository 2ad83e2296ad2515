"""What each part about readings has in common, beside what all parts about a rig have."""

from __future__ import annotations

from os import PathLike
from typing import Any, cast

from rigcalc.models import Rig
from rigcalc.models.reading.tells import Telling
from rigcalc.views.reading.model import FieldModel, Found
from rigcalc.views.rig.parts import AboutRig, RigPart, model_of

Source = FieldModel | Rig | str | PathLike[str] | None


class AboutReadings(AboutRig):
    """The traits of a part about readings; `answer` holds the facts of `rigcalc.size`, which go by them."""

    @property
    def found(self) -> Found | None:
        """What the readings came to, None while an entry of the rig can't be used."""
        found: Found | None = self.model.results
        return found

    @property
    def telling(self) -> Telling | None:
        """Which number told what; None where no reading counts."""
        return self.found.weighed.telling if self.found is not None else None

    def facts(self) -> Any:
        """Give the facts of the answer, None where there is none."""
        return self.found.weighed.answer if self.found is not None else None


class ReadingCard(AboutReadings, RigPart):
    """Base of the cards. `source` is a rig, its file, a demo rig's name, or the FieldModel that other parts show too."""

    kind = FieldModel


def field_model(source: Source) -> FieldModel:
    """Give the model that a part shows: the one it was given, or a new one of a rig. Raises InputError where it is none."""
    return cast(FieldModel, model_of(FieldModel, source))
