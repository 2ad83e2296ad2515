"""The words of a ballast plan: plain enough for a cab, every number from the models."""

from __future__ import annotations

import math

from rigcalc.models.ballast.advice import Band
from rigcalc.models.ballast.jobs import Job, Jobs
from rigcalc.models.ballast.limits import Check
from rigcalc.models.ballast.plan import BallastSet, Plan, Step, Unmet
from rigcalc.words.numbers import System, percent, say


def plan_sentence(plan: Plan, units: System) -> str:
    """Say in a sentence or two what to do, or what stands in the way."""
    job = plan.job.title
    if plan.chosen is not None:
        after = plan.chosen
        what = f"{percent(after.delivery)} of the power arrives at the drawbar, {percent(after.slip)} slip, "
        what += f"{percent(after.front_share)} of the mass on the front axle at rest, {percent(after.front_share_pull)} at work"
        if not after.changes:
            return f"Leave it as it stands for {job}: {what}."
        steps = "; ".join(step_short(step) for step in after.changes)
        was = f" (now {percent(plan.now.delivery)})" if math.isfinite(plan.now.delivery) else " (now it can't pull)"
        return f"For {job}: {steps}. Then {what.replace(' of the power', was + ' of the power', 1)}."
    reasons = "; ".join(unmet_text(unmet, units) for unmet in plan.unmet)
    start = "Nothing is at hand to change:" if plan.sets == 1 else "No set of what is at hand works:"
    return f"{start} for {job} {reasons}.{_astray(plan, units)}"


def why_text(plan: Plan, units: System) -> str:
    """Say what is wrong with the tractor as it stands; nothing where nothing is."""
    missed = [f"{check.title}: {check_text(check, units)}" for check in plan.now.checks if not check.holds]
    if not plan.now.delivery >= plan.wanted:
        missed.append(f"delivery is {_share(plan.now.delivery)}, {percent(plan.wanted)} would be as good as the best")
    return f"As it stands, this is out of place: {'; '.join(missed)}." if missed else ""


def _astray(plan: Plan, units: System) -> str:
    """Say how far the nearest set is from the masses that deliver best."""
    near, best = plan.nearest, plan.job.best
    if near is None or best is None:
        return ""
    mass = near.front_mass + near.rear_mass
    over, under = mass - best.high, best.low - mass
    if max(over, under) <= 0:
        return ""
    word = "heavier" if over > 0 else "lighter"
    which = "the tractor" if plan.sets == 1 else "the nearest set"
    return f" For that, {which} is {say(max(over, under), 'kg', units)} {word} than it should be."


def step_short(step: Step) -> str:
    """Say one step as an order: "take plates from 20 to 12"."""
    verb = "take" if step.change < 0 else "bring"
    return f"{verb} {step.name} from {step.before} to {step.after}"


def step_text(step: Step, units: System) -> str:
    """Say what one step does to each axle."""
    return f"{step.before} to {step.after}: {gain(step.front, units)} on the front axle, {gain(step.rear, units)} on the rear"


def gain(mass: float, units: System) -> str:
    """Say a change of mass with its sign."""
    if abs(mass) < 0.05:
        return "nothing"
    return f"{'+' if mass > 0 else '-'}{say(abs(mass), 'kg', units)}"


def unmet_text(unmet: Unmet, units: System) -> str:
    """Say what can't be met and by how much."""
    if unmet.name == "delivery" and unmet.alone:
        return f"delivery stays {percent(unmet.short)} below what counts as good (within 1 % of the best)"
    missed = f"{percent(unmet.short)} short" if unmet.unit == "1" else f"missed by {say(unmet.short, 'kg', units)}"
    return f"{unmet.title} can't be met {'by any set' if unmet.alone else 'together with the rest'}, {missed}"


def check_text(check: Check, units: System) -> str:
    """Say how much of a limit is used."""
    word = "at most" if check.most else "at least"
    if check.share:
        return f"{percent(check.value, 3)}; {word} {percent(check.limit, 3)}"
    return f"{say(check.value, 'kg', units)}; {word} {say(check.limit, 'kg', units)}"


def set_text(found: BallastSet, units: System) -> str:
    """Sum up one set in a line."""
    mass = say(found.front_mass + found.rear_mass, "kg", units)
    return (f"{mass} in all, {percent(found.front_share)} on the front; {_share(found.delivery)} delivered, "
            f"{_share(found.slip)} slip; {say(found.handled, 'kg', units)} to handle")  # fmt: skip


def job_text(job: Job, units: System) -> str:
    """Say which mass suits a job, and what today's mass loses on it."""
    if job.best is None:
        return "no mass is best: there is no pull, or none that grip could give"
    best = job.best
    span = f"{say(best.mass, 'kg', units)} (as good from {say(best.low, 'kg', units)} to {say(best.high, 'kg', units)})"
    if job.lost is None:
        return f"{span}; as it stands it can't pull this"
    lost = "nothing" if job.lost < 5e-4 else percent(job.lost)
    return f"{span}; today's mass loses {lost} of what could arrive"


def jobs_text(found: Jobs, units: System) -> str:
    """Say whether one mass suits every job."""
    if found.low is not None and found.high is not None:
        return f"{say(found.low, 'kg', units)} to {say(found.high, 'kg', units)} suits all of these jobs within 1 %."
    return ("No one mass suits all of these jobs within 1 %: ballast for the heavy work you do most, and take off what comes "
            "off easily for the rest.")  # fmt: skip


def mass_band_text(band: Band | None, units: System) -> str:
    """Say what the tables advise for the mass."""
    if band is None:
        return "no table gives a mass for this tractor, speed and hitching"
    rows = f"{band.count} row{'s' if band.count > 1 else ''}"
    return f"{say(band.low, 'kg', units)} to {say(band.high, 'kg', units)} ({rows} of tables, which differ)"


def front_band_text(band: Band | None) -> str:
    """Say what the tables advise for the share on the front axle."""
    if band is None:
        return "no table gives a share for this tractor and hitching"
    return f"{percent(band.low)} to {percent(band.high)} of the mass at rest"


def _share(value: float) -> str:
    return percent(value) if math.isfinite(value) else "nothing"
