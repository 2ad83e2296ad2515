"""One address for a rig: its answer, its weight, what its field said and what it is compared with as pages, which share it."""

from __future__ import annotations

from typing import cast

from rigcalc.views.ballast.app import BallastApp
from rigcalc.views.compare.app import CompareApp
from rigcalc.views.own.app import OwnApp
from rigcalc.views.reading.app import FieldApp
from rigcalc.views.rig.model import RigModel
from rigcalc.views.size.app import SizeApp
from rigcalc.widgets.model import AppModel
from rigcalc.widgets.pages import Kind, Pages

PAGES = {
    "answer": Kind("Will it pull?", lambda: SizeApp(inside=True)),
    "weight": Kind("Weight", lambda: BallastApp(inside=True)),
    "field": Kind("The field", lambda: FieldApp(inside=True)),
    "compare": Kind("Compare", lambda: CompareApp(inside=True)),
    "rig": Kind("Your rig", lambda: OwnApp(inside=True)),
}


class RigPages(Pages):
    """Every page about one rig. `RigPages()` starts with the answer, `RigPages("weight")` with the weight."""

    def __init__(self, first: str = ""):
        super().__init__(PAGES, first)

    def carry(self, old: AppModel, new: AppModel) -> None:
        """Take the rig along. Raises InputError where an entry of the page that is left can't be used."""
        before, after = cast(RigModel, old), cast(RigModel, new)
        after.take(before.to_carry(), before.system)
