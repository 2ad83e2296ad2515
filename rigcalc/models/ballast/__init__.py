"""Ballast, tyres and slip: where the weight goes, a plan in pieces, and the test that shows whether it worked."""

from rigcalc.models.ballast.answer import BallastAnswer, ballast
from rigcalc.models.ballast.gear_down import best_gear, gear_choices
from rigcalc.models.ballast.mass_curve import best_mass, mass_curve
from rigcalc.models.ballast.plan import Plan, make_plan
from rigcalc.models.ballast.slip_test import from_distance, from_speeds, from_turns, verdict
from rigcalc.models.ballast.tyres import pressure_effect, read_table, required_inflation

__all__ = ["BallastAnswer", "Plan", "ballast", "best_gear", "best_mass", "from_distance", "from_speeds", "from_turns",
           "gear_choices", "make_plan", "mass_curve", "pressure_effect", "read_table", "required_inflation",
           "verdict"]  # fmt: skip
