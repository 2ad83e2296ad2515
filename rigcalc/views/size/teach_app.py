"""The working as a page, for whoever explains it: one step at a time beside one picture at a time."""

from __future__ import annotations

from collections.abc import Sequence

import ipywidgets

from rigcalc.views.size.app import SizeApp
from rigcalc.views.size.cards import AnswerCard
from rigcalc.views.size.teaching import PictureStrip, StepCard


class TeachApp(SizeApp):
    """The whole page. `TeachApp()` starts from the first demo rig; `TeachApp(SizeModel())` from a model of your own."""

    title = "How is it worked out?"

    def parts(self) -> Sequence[ipywidgets.Widget]:
        """Give the parts in reading order."""
        return AnswerCard(self.model), StepCard(self.model), self.entries(*self.forms()), PictureStrip(self.model)
