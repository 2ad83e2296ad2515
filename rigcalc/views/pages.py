"""One address for a rig: its answer, its weight, what its field said and what it is compared with as pages, which share it."""

from __future__ import annotations

from functools import partial
from importlib import import_module
from typing import cast

from rigcalc.views.rig.model import RigModel
from rigcalc.widgets.app import App
from rigcalc.widgets.model import AppModel
from rigcalc.widgets.pages import Kind, Pages


def _made(package: str, name: str) -> App:
    """Make a page. It is loaded when it is first opened: most visitors look at one or two, and a kernel is theirs alone."""
    return cast(App, getattr(import_module(f"rigcalc.views.{package}"), name)(inside=True))


PAGES = {
    "answer": Kind("Will it pull?", partial(_made, "size.app", "SizeApp")),
    "weight": Kind("Weight", partial(_made, "ballast.app", "BallastApp")),
    "field": Kind("Field", partial(_made, "reading.app", "FieldApp")),
    "ground": Kind("Ground", partial(_made, "ground.app", "GroundApp")),
    "working": Kind("Working", partial(_made, "size.teach_app", "TeachApp")),
    "season": Kind("Season", partial(_made, "season.app", "SeasonApp")),
    "passes": Kind("Passes", partial(_made, "passes.app", "PassesApp")),
    "compare": Kind("Compare", partial(_made, "compare.app", "CompareApp")),
    "rig": Kind("Your rig", partial(_made, "own.app", "OwnApp")),
}


class RigPages(Pages):
    """Every page about one rig. `RigPages()` starts with the answer, `RigPages("weight")` with the weight."""

    def __init__(self, first: str = ""):
        super().__init__(PAGES, first)

    def carry(self, old: AppModel, new: AppModel) -> None:
        """Take the rig along. Raises InputError where an entry of the page that is left can't be used."""
        before, after = cast(RigModel, old), cast(RigModel, new)
        after.take(before.to_carry(), before.system)
