"""Where does the weight go? Axle loads at rest, under pull, with a load on the hitch and on a grade."""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(gives=S.center_ahead, takes=(S.axle_weight, S.weight, S.wheelbase), source="statics", sure="computed")
def center_of_gravity_ahead(axle_weight, weight, wheelbase):
    """Distance of the center of gravity ahead of the rear axle, from the weighed front axle."""
    return axle_weight * wheelbase / weight


@equation(
    gives=S.front_load,
    takes=(S.weight, S.center_ahead, S.center_height, S.wheelbase, S.pull, S.drawbar_height, S.hitch_load, S.hitch_behind,
           S.grade),
    source="statics",
    sure="computed",
)  # fmt: skip
def front_axle_load(weight, center_ahead, center_height, wheelbase, pull, drawbar_height, hitch_load, hitch_behind, grade):
    """Load on the front axle under pull: moments about the rear contact, steady travel."""
    slope = np.deg2rad(grade)
    holds_down = weight * (np.cos(slope) * center_ahead - np.sin(slope) * center_height)
    lifts = pull * drawbar_height + hitch_load * hitch_behind
    return (holds_down - lifts) / wheelbase


@equation(
    gives=S.rear_load,
    takes=(S.weight, S.grade, S.hitch_load, S.front_load),
    source="statics",
    sure="computed",
)
def rear_axle_load(weight, grade, hitch_load, front_load):
    """Load on the rear axle: all that presses on the ground less what the front axle carries."""
    return weight * np.cos(np.deg2rad(grade)) + hitch_load - front_load


@equation(gives=S.grade_resistance, takes=(S.weight, S.grade), source="statics", sure="computed")
def grade_resistance(weight, grade):
    """Part of a weight that pulls down the slope; below zero downhill."""
    return weight * np.sin(np.deg2rad(grade))


@equation(gives=S.rolling_resistance, takes=(S.rolling_ratio, S.implement_weight), source="d497", where="cl. 3")
def implement_rolling_resistance(rolling_ratio, implement_weight):
    """Rolling resistance of the implement's wheels, in proportion to the load on them."""
    return rolling_ratio * implement_weight


@equation(gives=S.load_gain, takes=(S.transfer_coefficient, S.draft.in_("kN")), source="zoz_1972", table="weight_advice")
def dynamic_weight_transfer(transfer_coefficient, draft):
    """Rear axle load gained under pull by the old chart coefficients: a cross-check on the statics, no more."""
    return transfer_coefficient * draft


@equation(
    gives=S.tipping_share,
    takes=(S.weight, S.center_ahead, S.center_height, S.pull, S.drawbar_height, S.hitch_load, S.hitch_behind, S.grade),
    source="statics",
    sure="computed",
)
def tipping_share(weight, center_ahead, center_height, pull, drawbar_height, hitch_load, hitch_behind, grade):
    """Moment that lifts the front over the moment that holds it down; from 1 up the tractor tips over backward."""
    slope = np.deg2rad(grade)
    lifts = pull * drawbar_height + hitch_load * hitch_behind + weight * np.sin(slope) * center_height
    return lifts / (weight * np.cos(slope) * center_ahead)


@equation(gives=S.braking, takes=(S.push, S.held), source="statics", sure="computed")
def braking_force(push, held):
    """Force that engine and brakes hold back where slope and tool push the tractor on: what rolling does not use up."""
    return push - held
