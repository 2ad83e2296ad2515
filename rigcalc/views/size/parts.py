"""What each part about a sizing has in common, beside what all parts about a rig have."""

from __future__ import annotations

from collections.abc import Callable
from os import PathLike
from typing import Any, cast

from rigcalc.models import Answer, Rig
from rigcalc.views.rig.parts import AboutRig, model_of
from rigcalc.views.size.model import SizeModel
from rigcalc.words.size import SizeWords

STALE = "Of the last answer that stood; something above needs mending first."
Source = SizeModel | Rig | str | PathLike[str] | None


class AboutSize(AboutRig):
    """The traits of a part about a sizing; `answer` holds the facts of `rigcalc.size`."""

    @property
    def words(self) -> SizeWords | None:
        """The answer in words, None while an entry can't be used."""
        found: SizeWords | None = self.model.results
        return found

    @property
    def last_words(self) -> SizeWords | None:
        """The last answer that there was, where an entry can't be used now."""
        last: SizeWords | None = self.model.last if self.words is None else None
        return None if last is None else SizeWords(last.answer, self.model.system)

    def of_last(self, write: Callable[[SizeWords | None], str]) -> str:
        """Write a part of the answer; where there is none of the last one, greyed and said to be so."""
        last = self.last_words
        return write(self.words) if last is None else f'<div class="rig-stale"><p>{STALE}</p>{write(last)}</div>'

    def facts(self) -> Answer | None:
        """Give the facts of the answer, None where there is none."""
        return self.words.answer if self.words is not None else None


def size_model(source: Source) -> SizeModel:
    """Give the model that a part shows: the one it was given, or a new one of a rig. Raises InputError where it is none."""
    return cast(SizeModel, model_of(SizeModel, source))


def typed(quantity: Any) -> str:
    """Give a quantity as somebody would type it, such as `6 km/h`."""
    return f"{float(quantity.magnitude):.12g} {quantity.units:~}".replace(" / ", "/").strip()
