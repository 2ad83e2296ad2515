"""The words of a ballast plan: plain enough for a cab, every number from the models."""

from __future__ import annotations

import math
from dataclasses import replace

from rigcalc.models.ballast.plan import BallastSet, Plan, Unmet
from rigcalc.words.ballast.jobs import job_title
from rigcalc.words.ballast.limits import check_text, limit_title
from rigcalc.words.ballast.steps import orders_text
from rigcalc.words.field import by_readings
from rigcalc.words.numbers import System, percent, say
from rigcalc.words.said import Said


def said(plan: Plan, units: System) -> Said:
    """Say what to do, or what stands in the way, and on which readings of the field that stands."""
    found = _said(plan, units)
    return found if plan.told is None else replace(found, rest=(*found.rest, by_readings(plan.told)))


def _said(plan: Plan, units: System) -> Said:
    if plan.chosen is None:
        reasons = "; ".join(unmet_text(unmet, units) for unmet in plan.unmet)
        word = "Nothing at hand" if plan.sets == 1 else "No set works"
        return Said(word, _sentence(f"for {job_title(plan.job)} {reasons}"), _astray(plan, units))
    after = plan.chosen
    arrives = f"{percent(after.delivery)} of the power arrives at the drawbar"
    others = (f"{percent(after.slip)} slip, {percent(after.front_share)} of the mass on the front axle at rest, "
              f"{percent(after.front_share_pull)} at work")  # fmt: skip
    bent = _bent(plan, units)
    signs = {step.change > 0 for step in after.changes}
    word = {(): "Leave it", (True,): "Put on", (False,): "Take off"}.get(tuple(signs), "Move weight")
    if not after.changes:
        return Said(word, f"It is right as it stands for {job_title(plan.job)}.", (f"{arrives}, {others}.", *bent))
    was = f"now {percent(plan.now.delivery)}" if math.isfinite(plan.now.delivery) else "now it can't pull"
    rest = f"Then {percent(after.delivery)} ({was}) of the power arrives at the drawbar, {others}."
    return Said(word, _sentence(f"for {job_title(plan.job)}: {orders_text(after, units)}"), (rest, *bent))


def _bent(plan: Plan, units: System) -> tuple[str, ...]:
    """Say which advice of tables the plan doesn't keep."""
    missed = "; ".join(f"{limit_title(check.which, units)}: {check_text(check, units)}" for check in plan.bent)
    return (f"No set keeps this advice of tables as well: {missed}.",) if missed else ()


def why_text(plan: Plan, units: System) -> str:
    """Say what is wrong with the tractor as it stands; nothing where nothing is."""
    missed = [f"{limit_title(check.which, units)}: {check_text(check, units)}" for check in plan.now.checks if not check.holds]
    if not plan.now.delivery >= plan.wanted:
        missed.append(f"delivery is {share_text(plan.now.delivery)}, {percent(plan.wanted)} would be as good as the best")
    return f"As it stands, this is out of place: {'; '.join(missed)}." if missed else ""


def _astray(plan: Plan, units: System) -> tuple[str, ...]:
    """Say how far the nearest set is from the masses that deliver best."""
    near, best = plan.nearest, plan.job.best
    if near is None or best is None:
        return ()
    mass = near.front_mass + near.rear_mass
    over, under = mass - best.high, best.low - mass
    if max(over, under) <= 0:
        return ()
    word = "heavier" if over > 0 else "lighter"
    which = "the tractor" if plan.sets == 1 else "the nearest set"
    return (f"For that, {which} is {say(max(over, under), 'kg', units)} {word} than it should be.",)


def unmet_text(unmet: Unmet, units: System) -> str:
    """Say what can't be met and by how much."""
    if unmet.name == "delivery" and unmet.alone:
        return f"delivery stays {percent(unmet.short)} below what counts as good (within 1 % of the best)"
    missed = f"{percent(unmet.short)} short" if unmet.unit == "1" else f"missed by {say(unmet.short, 'kg', units)}"
    return (
        f"{limit_title(unmet.which, units)} can't be met {'by any set' if unmet.alone else 'together with the rest'}, {missed}"
    )


def set_text(found: BallastSet, units: System) -> str:
    """Sum up one set in a line."""
    split = f"{mass_text(found, units)} in all, {percent(found.front_share)} on the front"
    grip = f"power delivery {share_text(found.delivery)}, {share_text(found.slip)} slip"
    return f"{split}; {grip}; {say(found.handled, 'kg', units)} to handle"


def mass_text(found: BallastSet, units: System) -> str:
    """Say what the tractor weighs with a set."""
    return say(found.front_mass + found.rear_mass, "kg", units)


def method_text(plan: Plan) -> str:
    """Say how the plan was chosen among the sets at hand."""
    return "every one looked at" if plan.method == "every_set" else "too many to walk: an integer programme chose"


def share_text(value: float) -> str:
    """Say a share of delivery or slip; where there is none, that it can't pull."""
    return percent(value) if math.isfinite(value) else "can't pull"


def _sentence(text: str) -> str:
    """Make a sentence of a clause. Only its first letter changes, so that names stay as they were typed."""
    return f"{text[:1].upper()}{text[1:]}."
