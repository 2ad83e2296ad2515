"""The sizing page's model: a rig as typed, and the answer to it."""

from __future__ import annotations

from collections.abc import Mapping

from rigcalc.models import Answer, size
from rigcalc.models.rig.file import rig_from
from rigcalc.views.rig.model import RigModel, nested


class SizeModel(RigModel):
    """`results` is the Answer. An entry that can't be used leaves no answer, only what to type instead."""

    results: Answer | None

    def compute(self, inputs: Mapping[str, str]) -> Answer:
        """Give the answer, or raise InputError with every fault."""
        return size(rig_from(nested(inputs)), units=self.system)
