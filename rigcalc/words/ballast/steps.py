"""The words of steps: what to put on or take off, in pieces."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.models.ballast.plan import BallastSet, Step
from rigcalc.models.ballast.slip_move import Move
from rigcalc.words.numbers import System, say
from rigcalc.words.spelling import spelt


@dataclass(frozen=True)
class StepSaid:
    """One step: what is moved, from how much to how much, what to do with it, and what each axle gains."""

    name: str
    change: str
    order: str
    front: str
    rear: str

    def __str__(self) -> str:
        """Give what it does to each axle in one line."""
        return f"{self.change}: {self.front} on the front axle, {self.rear} on the rear"


def step_said(step: Step, units: System) -> StepSaid:
    """Say one step: "take plates from 20 to 12", and what it does to each axle."""
    change = f"{_amount(step, step.before)} to {_amount(step, step.after)}"
    return StepSaid(step_name(step, units), change, _order(step, units), gain(step.front, units), gain(step.rear, units))


def _order(step: Step, units: System) -> str:
    before, after = (_amount(step, value) for value in (step.before, step.after))
    return f"{'take' if step.change < 0 else 'bring'} {step_name(step, units)} from {before} to {after}"


def step_name(step: Step, units: System) -> str:
    """Say what a step is about: the weight's name, or the liquid in the tyres."""
    return step.name or spelt(f"{liquid_name(step.liquid)} in the {step.axle} tyres", units)


def _amount(step: Step, value: float) -> str:
    """Say an amount: "12" pieces or "75 %" full."""
    return f"{100 * value:.0f} %" if step.liquid else f"{value:.0f}"


def liquid_name(key: str) -> str:
    """Say a liquid by its key in the table."""
    return key.replace("_", " ")


def orders_text(found: BallastSet | Move, units: System) -> str:
    """Say a set's steps in one line."""
    return "; ".join(_order(step, units) for step in found.changes) or "leave it as it stands"


def gain(mass: float, units: System) -> str:
    """Say a change of mass with its sign."""
    if abs(mass) < 0.05:
        return "nothing"
    return f"{'+' if mass > 0 else '-'}{say(abs(mass), 'kg', units)}"
