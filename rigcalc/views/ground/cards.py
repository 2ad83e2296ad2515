"""The text parts about the ground as widgets: each stands alone in a notebook, and the page is built of them."""

from __future__ import annotations

from rigcalc.views.ground import panels
from rigcalc.views.ground.parts import GroundCard


class SoilAnswer(GroundCard):
    """Go, try it first, or don't, and what decides it."""

    title, dress, is_live = "The ground: go or don't", "rig-answer rig-across", True

    def text(self) -> str:
        """Give the verdict."""
        return panels.verdict(self.words) + self.faults_by_itself()


class SoilQuestions(GroundCard):
    """Dry enough, a layer and how deep, do wheels put it back, enough residue: each with what follows and why."""

    title, dress = "Question by question", "rig-why"

    def text(self) -> str:
        """Give the questions."""
        return panels.questions(self.words)


class SoilDepth(GroundCard):
    """What the flags found and what is left of it after the pass, the share that each depth gets under, each flag in a fold;
    how many strips with the pass and without show a difference."""

    title, dress = "The layer", "rig-rows"

    def text(self) -> str:
        """Give the lines and tables; nothing where nobody probed or asked."""
        return panels.depth(self.words)


class SoilTool(GroundCard):
    """What the shanks loosen at this depth, ridges, spacing, critical depth."""

    title, dress = "What the shanks loosen", "rig-why"

    def text(self) -> str:
        """Give the lines."""
        return panels.tool(self.words)


class SoilPressing(GroundCard):
    """Load, pressure and stress of each axle, and how deep the ground yields."""

    title, dress = "Putting it back", "rig-rows"

    def text(self) -> str:
        """Give the table of axles, and what stands behind it in a fold."""
        return panels.pressing(self.words)


class SoilWhere(GroundCard):
    """Headland, lanes and the rest: how much is wheeled, what to hold, hours and fuel."""

    title, dress = "Where", "rig-rows"

    def text(self) -> str:
        """Give the table; nothing where no field is named."""
        return panels.where(self.words)


class SoilResidue(GroundCard):
    """What the pass leaves of the residue."""

    title, dress = "Residue", "rig-why"

    def text(self) -> str:
        """Give the lines; nothing where nobody asked."""
        return panels.residue(self.words)


class SoilNotes(GroundCard):
    """Cautions, and what stands behind the answer."""

    title, dress = "Cautions and notes on the ground", "rig-why"

    def text(self) -> str:
        """Give both."""
        return panels.notes(self.words)
