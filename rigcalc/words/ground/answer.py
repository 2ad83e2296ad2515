"""An answer about the ground in words: the facts with everything that is said about them, in one system of units."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from rigcalc.core.tables import table
from rigcalc.models.ground.answer import GroundAnswer
from rigcalc.models.ground.depth import probing
from rigcalc.words.cautions import caution_text
from rigcalc.words.ground.after import axle_rows, axle_titles, pressing_lines, residue_lines
from rigcalc.words.ground.by_weather import weather_lines
from rigcalc.words.ground.corrected import drained_lines
from rigcalc.words.ground.loss import loss_lines
from rigcalc.words.ground.sentence import Question, limit_text, need_text, questions, say_ground, scatter_text
from rigcalc.words.ground.slope import slope_note
from rigcalc.words.ground.soil_map import TITLES as SOIL_TITLES
from rigcalc.words.ground.soil_map import soil_lines, soil_rows
from rigcalc.words.ground.steps import two_passes_lines, wings_lines
from rigcalc.words.ground.voices import voices_lines
from rigcalc.words.ground.worked import say_worked, trial_lines, worked_lines
from rigcalc.words.ground.zones import TITLES, zone_lines, zone_rows
from rigcalc.words.numbers import System, chance, number, percent, say
from rigcalc.words.said import Said
from rigcalc.words.wetness import wetness_notes

_NONE = "-"
_MOST_STEPS = 10


def _cone_note(units: System) -> str:
    """Say which cone a reading is of, and what the wrong scale on the gauge would do."""
    hard, soft = probing("cone_hard", "mm"), probing("cone_soft", "mm")
    ends = (f"{hard:g} mm", f"{soft:g} mm") if units == "si" else (say(hard / 10, "cm", units), say(soft / 10, "cm", units))
    pushed = probing("cone_speed", "m/s")
    speed = f"{1000 * pushed:g} mm/s" if units == "si" else f"{number(pushed / 0.0254, 2)} in/s"
    off = number((soft / hard) ** 2, 2)
    worn = percent(table("probing")["cone_worn"]["value"] / 100)
    return (
        f"Readings are those of a standard cone of 30 deg, its base {ends[0]} wide (in soft soil {ends[1]}), pushed in at "
        f"about {speed}. Read on the gauge's scale for the other cone they are {off} times off; a cone worn by {worn} is "
        "replaced."
    )


@dataclass(frozen=True)
class GroundWords:
    """An answer with its words, in American ("us") or metric ("si") units. `answer` holds the facts; `str()` the sentences.

    on_page: what is to be typed is said by its box on the page, and not by an option.
    """

    answer: GroundAnswer
    units: System
    on_page: bool = False

    @cached_property
    def said(self) -> Said:
        """What is said first: word, headline, rest."""
        worked = self.answer.worked
        return say_ground(self.answer, self.units) if worked is None else say_worked(worked, self.units)

    @cached_property
    def worked(self) -> tuple[str, ...]:
        """What was read before and after the pass, a line each; empty where nobody probed after it."""
        return () if self.answer.worked is None else worked_lines(self.answer.worked, self.units)

    @cached_property
    def trial(self) -> tuple[str, ...]:
        """How many strips show what, a line each; empty where nobody asked."""
        return () if self.answer.trial is None else trial_lines(self.answer.trial)

    @cached_property
    def weather(self) -> tuple[str, ...]:
        """What the weather makes of the ground and what stands behind that, a line each; empty without a file of it."""
        wet = self.answer.wetness
        return weather_lines(self.answer.weather, None if wet is None else wet.state, self.answer.rig, self.units)

    @cached_property
    def questions(self) -> tuple[Question, ...]:
        """The questions one by one, each with what follows and why."""
        return questions(self.answer, self.units)

    @cached_property
    def layer(self) -> tuple[str, ...]:
        """What the flags found, a line each; empty where nobody probed."""
        advice = self.answer.depth
        if advice is None:
            return ()
        lines = [f"{advice.with_layer} of {advice.flags} flags pass {limit_text(self.answer, self.units)}"]
        for name, span in (("Top", advice.top), ("Bottom", advice.bottom)):
            if math.isfinite(span[1]):
                low, middle, high = (say(value, "cm", self.units) for value in span)
                lines.append(f"{name} of the layer: {middle} in the middle of the flags, {low} to {high} over all")
        if advice.need is not None:
            lines.append(f"Depth to get under it at {percent(advice.wanted)}: {need_text(advice, self.units)}")
        if advice.unreached:
            lines.append(f"{advice.unreached} of them: the readings end inside the layer")
        if math.isfinite(advice.sure):
            lines.append(f"How sure that a stretch is over the limit, in the middle of the flags: {chance(advice.sure)}")
        return (*lines, *drained_lines(self.answer, self.units))

    @cached_property
    def flags(self) -> tuple[tuple[str, str, str, str, str], ...]:
        """A row for each site: its name, top, hardest and bottom of the layer, how sure."""
        layers = self.answer.layers
        if layers is None:
            return ()
        rows = []
        for at, name in enumerate(layers.names):
            top, hardest, bottom = (self._deep(values[at]) for values in (layers.top, layers.hardest, layers.bottom))
            bottom = "deeper" if layers.open_below[at] else bottom
            sure = "by hand" if math.isnan(layers.chance[at]) else chance(float(layers.chance[at]))
            rows.append((name, top, hardest, bottom, sure) if layers.found[at] else (name, "none", _NONE, _NONE, _NONE))
        return tuple(rows)

    def _deep(self, value: float) -> str:
        return say(value, "cm", self.units) if math.isfinite(value) else _NONE

    @cached_property
    def shares(self) -> tuple[tuple[str, str], ...]:
        """Depths from the shallowest that gets under a layer, each with the share of layers that it gets under; ten at most."""
        advice = self.answer.depth
        if advice is None or not advice.steps.size:
            return ()
        places = np.unique(np.linspace(0, advice.steps.size - 1, min(advice.steps.size, _MOST_STEPS)).astype(int))
        return tuple((say(advice.steps[at], "cm", self.units), percent(advice.under(advice.steps[at]))) for at in places)

    @cached_property
    def tool(self) -> tuple[str, ...]:
        """What the shanks loosen, a line each."""
        found, units = self.answer.shanks, self.units
        lines = [
            f"At {say(found.work, 'cm', units)}: {percent(found.at(found.work, 'loosened'))} of the section loosened, ridge "
            f"{say(found.at(found.work, 'ridge'), 'cm', units)} high between shanks (not fully loosened)",
            f"Shanks {say(found.spacing, 'cm', units)} apart, {number(found.multiple, 2)} times the depth; plain points take "
            f"{found.usual_multiple[0]:g} to {found.usual_multiple[1]:g} times"
            + (": too far apart to loosen all of it" if found.wide else ""),
            f"Draft for each area loosened: {say(found.at(found.work, 'specific'), 'kPa', units)} at this depth, least "
            f"{say(float(found.specific.min()), 'kPa', units)} at {say(found.cheapest, 'cm', units)}",
        ]
        if found.critical is None:
            lines.append("Critical depth: not known without the width of the points")
        else:
            low, high = (say(end, "cm", units) for end in found.critical)
            lines.append(f"Critical depth of the points: {low} to {high}; shallower in wet or dense ground")
        shanks = self.answer.rig.implement.tools
        aids = (*two_passes_lines(self.answer.two, units), *wings_lines(self.answer.wings, shanks, units))
        return (*lines, *aids, *voices_lines(self.answer.voices, units))

    @cached_property
    def residue(self) -> tuple[str, ...]:
        """What each pass leaves of the residue, a line each; empty where nobody asked."""
        return residue_lines(self.answer.residue)

    @cached_property
    def axles(self) -> tuple[tuple[str, ...], ...]:
        """Titles, then a row an axle: load, pressure, stress at two depths, how deep the ground yields."""
        found = self.answer.pressing
        return (axle_titles(found, self.units), *axle_rows(found, self.units))

    @cached_property
    def pressing(self) -> tuple[str, ...]:
        """What the ground bears, how the axles stand to the rules of thumb, what that costs in yield, a line each."""
        return (*pressing_lines(self.answer.pressing, self.units, self.on_page), *loss_lines(self.answer.loss))

    @cached_property
    def zones(self) -> tuple[tuple[str, ...], ...]:
        """Titles, then a row a zone and one of the whole field; empty where no field is named."""
        found = self.answer.zones
        return () if found is None else (TITLES, *zone_rows(found, self.units))

    @cached_property
    def zone_lines(self) -> tuple[str, ...]:
        """What to hold in each zone, and what stands behind it; empty where no field is named."""
        return () if self.answer.zones is None else zone_lines(self.answer.zones, self.units, self.on_page)

    @cached_property
    def soil(self) -> tuple[tuple[str, ...], ...]:
        """Titles, then a row a texture class of the samples; empty without them."""
        found = self.answer.soil
        return () if found is None else (SOIL_TITLES, *soil_rows(found, self.units))

    @cached_property
    def soil_lines(self) -> tuple[str, ...]:
        """What the samples hold and what stands behind it, a line each; empty without them."""
        return () if self.answer.soil is None else soil_lines(self.answer.soil, self.units)

    @cached_property
    def notes(self) -> tuple[str, ...]:
        """What stands behind the answer and what isn't known."""
        wet = self.answer.wetness
        lines = list(wetness_notes(wet, self.units)) if wet is not None else []
        if self.answer.depth is not None:
            lines.append(
                "The limit holds for ground near field capacity. Water and density leave about "
                f"{scatter_text(self.units)} of a reading unsaid, either way; stones read as layers."
            )
            lines.append(_cone_note(self.units))
        lines.append(
            "The section is geometry with sides at 45 deg; cracks reach farther in dry, friable soil, and less far in wet soil."
        )
        return (*lines, *slope_note(self.answer.slope))

    @cached_property
    def cautions(self) -> tuple[str, ...]:
        """The cautions that go with the work."""
        return tuple(caution_text(key, self.units) for key in self.answer.cautions)

    def __str__(self) -> str:
        """Give the answer's sentences."""
        return str(self.said)
