"""The model of the page "The ground": a rig as typed with what was seen of its ground, and the answer about it."""

from __future__ import annotations

from collections.abc import Mapping

from rigcalc.models.ground import ground
from rigcalc.models.rig.file import rig_from
from rigcalc.models.rig.rig import Rig
from rigcalc.views.ground.fields import FLAGS, FLAGS_AFTER, with_units
from rigcalc.views.rig.model import RigModel, nested
from rigcalc.words.ground import GroundWords


class GroundModel(RigModel):
    """`results` is a GroundWords. All that is typed here is of the rig's ground, so that every page goes by it."""

    results: GroundWords | None

    def compute(self, inputs: Mapping[str, str]) -> GroundWords:
        """Give the answer. Raises InputError for an entry that can't be used, each at its box."""
        return GroundWords(ground(rig_from(nested(inputs))), self.system, on_page=True)

    def rig_shown(self) -> Rig | None:
        """Give the rig that the page is about."""
        return self.results.answer.rig if self.results is not None else None

    def edit(self, changes: Mapping[str, str], live: bool = False) -> None:
        """Take one change set; flags without units get those that stand at the box."""
        typed = {path: with_units(changes[path], self.system) for path in (FLAGS, FLAGS_AFTER) if path in changes}
        changes = {**changes, **typed}
        super().edit(changes, live)
