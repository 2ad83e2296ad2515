"""What each part of the season's page has in common, beside what all parts about a rig have."""

from __future__ import annotations

from os import PathLike
from typing import Any, cast

from rigcalc.models import Rig
from rigcalc.views.rig.parts import AboutRig, RigPart, model_of
from rigcalc.views.season.model import Found, SeasonModel

Source = SeasonModel | Rig | str | PathLike[str] | None


class AboutSeason(AboutRig):
    """The traits of a part about a season; `answer` holds the facts of `rigcalc.season`."""

    @property
    def found(self) -> Found | None:
        """What the season came to, None while an entry can't be used."""
        found: Found | None = self.model.results
        return found

    def facts(self) -> Any:
        """Give the facts of the answer, None where there is none."""
        return self.found.answer if self.found is not None else None


class SeasonCard(AboutSeason, RigPart):
    """Base of the cards. `source` is a rig, its file, a demo rig's name, or the SeasonModel that other parts show too."""

    kind = SeasonModel


def season_model(source: Source) -> SeasonModel:
    """Give the model that a part shows: the one it was given, or a new one of a rig. Raises InputError where it is none."""
    return cast(SeasonModel, model_of(SeasonModel, source))
