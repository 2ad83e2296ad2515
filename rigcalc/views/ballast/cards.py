"""The parts about weight as widgets: each stands alone in a notebook, and the ballast page is built of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from rigcalc.views.ballast import curve, panels
from rigcalc.views.ballast.bars import bars
from rigcalc.views.ballast.model import BallastModel
from rigcalc.views.ballast.parts import AboutWeight, Source, WeightCard
from rigcalc.views.rig.parts import model_of
from rigcalc.views.rig.working import working
from rigcalc.widgets.card import Folds
from rigcalc.widgets.figure import Picture
from rigcalc.widgets.html import table
from rigcalc.widgets.plot import blank


class WeightAnswer(WeightCard):
    """What to do about the weight, in one sentence."""

    title, dress, is_live = "Answer on weight", "rig-answer rig-across", True
    written = staticmethod(panels.verdict)

    def text(self) -> str:
        """Give the sentence."""
        return super().text() + self.faults_by_itself()


class MassBars(WeightCard):
    """How much stands on each axle: now, under pull, and after the plan."""

    title, dress, written = "Where the mass stands", "rig-drawing", staticmethod(bars)


class WeightFigures(WeightCard):
    """What the plan changes: power delivery, slip, mass and share in front."""

    title, dress, written = "After the plan", "rig-facts", staticmethod(panels.facts)


class WeightPlan(WeightCard):
    """Which weights to hang on or take off, with a button that takes them as done."""

    title, dress, written = "Plan", "rig-figures", staticmethod(panels.plan)

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its button does."""
        return {"take": lambda _value: self.model.take_plan()}


class WeightLimits(WeightCard):
    """Every limit on the tractor's weight as a gauge."""

    title, dress, written = "Limits on weight", "rig-limits", staticmethod(panels.limits)


class WeightJobs(WeightCard):
    """The plan for each job: light work, this one, full engine load."""

    title, written = "Jobs", staticmethod(panels.jobs)

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons do."""
        return {"job": lambda name: self.model.edit({"plan.job": str(name)})}


class WeightAdvice(WeightCard):
    """What manuals advise beside what is worked out."""

    title, dress, written = "Advice", "rig-figures", staticmethod(panels.advice)


class WeightWorking(Folds, WeightCard):
    """How each number is worked out; made when its fold is opened."""

    title = "Working of the weights"

    def text(self) -> str:
        """Give the fold."""
        return working(self.facts(), self.opened)


class WeightNotes(WeightCard):
    """The cautions, and the weightiest notes."""

    title, written = "Notes and cautions on weight", staticmethod(panels.notes)


class MassCurve(AboutWeight, Picture):
    """What the tractor's mass does to this job: power delivery over mass, with what is as good as the best."""

    title = "What the mass does to this job"

    def __init__(self, source: Source = None, **traits: Any):
        label = traits.pop("label", self.title)
        note = "Shaded: as good as the best, within 1 %."
        model = model_of(BallastModel, source)
        Picture.__init__(self, model, self.description, label, write_twin=self.same_as_table, note=note, **traits)
        self.watch(self.told, self.title)

    def description(self) -> Mapping[str, Any]:
        """Describe the picture; a few words where there is no answer."""
        found = self.facts()
        return blank() if found is None else curve.describe(found)

    def same_as_table(self) -> str:
        """Give the table that says the same, as HTML."""
        found = self.facts()
        if found is None:
            return "<p>There is no answer to show.</p>"
        twin = curve.twin(found)
        return table(twin.caption, twin.heads, twin.rows)
