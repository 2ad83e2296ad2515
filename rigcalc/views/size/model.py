"""The sizing page's model: a rig as typed, and the answer to it."""

from __future__ import annotations

from collections.abc import Mapping

from rigcalc.models import Rig, size
from rigcalc.models.rig.file import rig_from
from rigcalc.views.rig.model import RigModel, nested
from rigcalc.words.size import SizeWords


class SizeModel(RigModel):
    """`results` is the answer in words. An entry that can't be used leaves no answer, only what to type instead."""

    results: SizeWords | None

    def compute(self, inputs: Mapping[str, str]) -> SizeWords:
        """Give the answer, or raise InputError with every fault."""
        return SizeWords(size(rig_from(nested(inputs))), self.system)

    def rig_shown(self) -> Rig | None:
        """Give the rig that the answer is about."""
        return self.results.answer.rig if self.results is not None else None
