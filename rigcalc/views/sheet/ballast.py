"""The ballast part of the setup sheet: the plan's steps, what it then weighs, pressures to set, the slip to find."""

from __future__ import annotations

from dataclasses import dataclass, replace

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.ballast.plan import Step
from rigcalc.models.ballast.tyres import TyreLoad
from rigcalc.views.sheet.words import clean
from rigcalc.words.ballast import plan as words
from rigcalc.words.ballast.jobs import job_title
from rigcalc.words.ballast.limits import when_text
from rigcalc.words.ballast.steps import step_said
from rigcalc.words.ballast.tables import how_text, pressure_text
from rigcalc.words.numbers import System, percent, say
from rigcalc.words.size import SizeWords
from rigcalc.words.spelling import spelt

MOST_STEPS = 6
_WHENS = ("pull", "road")


@dataclass(frozen=True)
class BallastPart:
    """All of it as text. steps is empty where nothing is to be moved, or where no set works."""

    title: str
    sentence: str
    steps: tuple[str, ...]
    masses: str
    pressures: tuple[str, ...]
    slip: str


def ballast_part(answer: SizeWords, found: BallastAnswer) -> BallastPart:
    """Make the part. Raises InputError for a rig without anything at hand, and for an answer to another rig."""
    faults = []
    if found.rig != answer.answer.rig:
        faults.append(Fault("ballast", "an answer on another rig", "an answer on the rig of this sheet"))
    if found.plan.sets < 2:
        faults.append(Fault("ballast", "a rig without weights or liquid at hand", "something that can be moved",
                            "[[ballast]] sections, as in docs/ballast.md"))  # fmt: skip
    if faults:
        raise InputError(faults)
    plan, units = found.plan, answer.units
    job = job_title(plan.job)
    title = f"Ballast for {job}"
    if plan.chosen is None:
        first = words.said(plan, units)
        text = " ".join((f"{first.word}.", first.headline, *first.rest))
        return BallastPart(title, text, (), "", _pressures(found, found.tyres, answer), _slip(answer, job, None))
    after = plan.chosen
    masses = (
        f"Then {say(after.front_mass, 'kg', units)} on the front axle, {say(after.rear_mass, 'kg', units)} on the rear, "
        f"{say(after.front_mass + after.rear_mass, 'kg', units)} in all: {percent(after.front_share)} on the front at rest, "
        f"{percent(after.front_share_pull)} at work."
    )
    steps = [_step(step, units) for step in after.changes]
    if len(steps) > MOST_STEPS:
        steps = [*steps[: MOST_STEPS - 1], f"and {len(steps) - MOST_STEPS + 1} more: see rigcalc ballast"]
    # What follows the first further sentence is the advice that the plan doesn't keep.
    said = " ".join((*(() if steps else ("Leave it as it stands.",)), *words.said(plan, units).rest[1:]))
    slip = _slip(answer, job, after.slip)
    return BallastPart(title, said, tuple(steps), masses, _pressures(found, found.tyres_after, answer), slip)


def _step(step: Step, units: System) -> str:
    said = step_said(replace(step, name=clean(step.name, 40)), units)
    return f"{said.order[:1].upper()}{said.order[1:]}: {said.front} front, {said.rear} rear"


def _pressures(found: BallastAnswer, loads: tuple[TyreLoad, ...], answer: SizeWords) -> tuple[str, ...]:
    """Give a line for each axle on tyres: the pressure under pull and on the road, and where it is from."""
    out = []
    for axle, gear in (("front", found.rig.tractor.front), ("rear", found.rig.tractor.rear)):
        if gear is None or gear.kind == "track":
            continue
        mine = {load.when: load for load in loads if load.axle == axle}
        parts = []
        for when in _WHENS:
            load = mine[when]
            known = load.inflation.pressure is not None
            value = pressure_text(load, answer.units) if known else how_text(load, answer.units)
            parts.append(f"{value} {when_text(when)}" if known else f"{when_text(when)}: {value}")
        told = [mine[when] for when in _WHENS if mine[when].inflation.pressure is not None]
        source = ""
        if any(load.inflation.how in ("table", "lowest") for load in told) and gear.tyre is not None:
            source = f" ({clean(gear.tyre.table_from, 60) or 'the table in the rig file'})"
        elif told:
            source = f" ({how_text(told[0], answer.units)})"
        out.append(f"{axle.capitalize()} {spelt('tyres', answer.units)}: {', '.join(dict.fromkeys(parts))}{source}")
    return tuple(out)


def _slip(answer: SizeWords, job: str, slip: float | None) -> str:
    low, high = percent(answer.answer.caps.slip_low), percent(answer.answer.caps.slip_high)
    expect = f", {percent(slip)} expected" if slip is not None and slip == slip else ""
    return f"Slip test with {job}: {low} to {high}{expect}. Slip's base is the travel without slip."
