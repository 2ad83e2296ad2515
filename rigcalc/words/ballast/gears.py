"""The words of gear up, throttle down."""

from __future__ import annotations

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.ballast.gear_down import GearChoice, best_gear
from rigcalc.words.ballast.jobs import job_title
from rigcalc.words.numbers import number, percent


def engine_text(gear: GearChoice) -> str:
    """Say the engine speed in a gear."""
    return f"{number(gear.rpm)} rpm" if gear.rpm else percent(gear.engine_speed)


def gear_text(gear: GearChoice, best: GearChoice | None) -> str:
    """Say whether a gear fits, or why it doesn't."""
    if gear is best:
        return "best"
    return {
        "fits": "fits",
        "below_lowest": "below the lowest engine speed",
        "too_much_torque": "the engine can't give that torque",
        "little_torque": "less than a tenth of the torque in hand",
    }[gear.state]


def gears_text(answer: BallastAnswer) -> str:
    """Say which gear is best for the answer's job, and what it saves."""
    best, job = best_gear(answer.gears), job_title(answer.plan.job)
    if best is None:
        return (f"For {job} no gear leaves a tenth of the torque in hand: stay at rated engine speed, and throttle down for "
                f"lighter work.")  # fmt: skip
    return (f"Gear {best.name} at {engine_text(best)} saves {percent(best.saved)} of the fuel of {job} and keeps "
            f"{percent(best.reserve)} of the torque there in hand.")  # fmt: skip
