"""What each part about a comparison has in common: it starts from rigs or shares a model, and tells what it shows.

Parts that are given one `CompareModel` move together; a part that is given rigs has a model of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from os import PathLike
from pathlib import Path
from typing import Any

import traitlets

from rigcalc.models import DEMO_RIGS, Rig
from rigcalc.models.compare.answer import default_names
from rigcalc.models.rig.asked import asked
from rigcalc.views.compare.model import CompareModel, Found
from rigcalc.words.compare import CompareWords

Source = CompareModel | Sequence[Rig | str | PathLike[str]] | None


class AboutComparison(traitlets.HasTraits):
    """The traits of a part about a comparison.

    Attributes
    ----------
    units : "us" or "si"
        The units shown.
    comparison : Comparison or None
        The facts, read alone; None while there are fewer than two rigs that can be used.
    """

    model: Any  # a CompareModel; each base of a part has a word on it
    units: Any = traitlets.Enum(["us", "si"], default_value="us")
    comparison = traitlets.Any(None, allow_none=True, read_only=True)

    @property
    def found(self) -> Found | None:
        """What was found, None while an entry that all rigs hang on can't be used."""
        found: Found | None = self.model.results
        return found

    @property
    def words(self) -> CompareWords | None:
        """The comparison in words, None while there is none."""
        return self.found.words if self.found is not None else None

    def told(self) -> None:
        """Follow the model. On a page nobody listens to its parts, so there it costs nothing."""
        if not self.model.dressed:
            self.units = self.model.system
            self.set_trait("comparison", self.words.comparison if self.words is not None else None)

    @traitlets.observe("units")
    def _other_units(self, change: Any) -> None:
        self.model.switch_units(change.new)


def compare_model(source: Source) -> CompareModel:
    """Give the model that a part shows: the one it was given, or a new one of these rigs, each as it stands.

    Raises InputError for rigs that can't be used, and for more than there is room for.
    """
    if isinstance(source, CompareModel):
        return source
    model = CompareModel()
    if source is not None:
        rigs = [asked(rig) for rig in source]
        names = [_name(given, rig, name) for given, rig, name in zip(source, rigs, default_names(source), strict=True)]
        model.start_from(rigs, names)
    return model


def _name(given: Any, rig: Rig, name: str) -> str:
    """Give what a rig is called: a file's name, else the tractor's."""
    is_file = isinstance(given, str | PathLike) and str(given) not in DEMO_RIGS
    return Path(name).name if is_file else rig.tractor.name or name
