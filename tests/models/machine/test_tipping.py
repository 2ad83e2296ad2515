"""A front axle that leaves the ground is a hard limit, whatever is said about steering."""

from known_rigs import known_rig

from rigcalc.models import replaced, size
from rigcalc.models.machine.limits import LIMITS

LIGHT = {"tractor.front_axle_mass": "1800 lb", "tractor.rear_axle_mass": "25200 lb", "tractor.drawbar_height": "40 in"}


def tipping(answer):
    return next(margin.used for margin in answer.margins if margin.name == "tipping")


def test_a_tractor_that_tips_never_works():
    answer = size(replaced(known_rig("front_wheel_assist"), LIGHT))
    assert tipping(answer) > 1
    assert not answer.works


def test_steering_under_pull_is_advice_and_tipping_a_limit():
    assert (LIMITS["steering"].hard, LIMITS["tipping"].hard) == (False, True)
    # A two-wheel drive of the usual split, 22 percent in front, isn't refused for it.
    rig = replaced(known_rig("front_wheel_assist"), {
        "tractor.drive": "2WD", "tractor.front.driven": False, "tractor.front_axle_mass": "6000 lb",
        "tractor.rear_axle_mass": "21000 lb",
    })  # fmt: skip
    answer = size(rig)
    assert answer.point.bare.front_load < 0.2 * answer.bare_rig.weight
    assert answer.works
