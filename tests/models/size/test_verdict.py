"""The judgement on its own: what decides, in which order, and to which side each threshold counts."""

import math

import pytest
from known_rigs import known_rig

from rigcalc.models.machine.limits import LIMITS, TIGHT, state_of
from rigcalc.models.machine.operating_point import Point
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import replaced
from rigcalc.models.size.verdict import HARD, Judgement, State, Verdict, beyond, verdict

GO, TRY, DONT = Judgement.GO, Judgement.TRY, Judgement.DONT
EASY = {"tipping": 0.1, "engine": 0.5, "grip": 0.3, "rear_load": 0.6, "steering": 0.4, "slip": 0.5, "critical_depth": 0.8}
A_HAIR = 1 + 1e-12


def judged(chance=0.99, *, at_slip=0.05, peak_pull=100.0, braking=0.0, **used):
    return verdict(Point(slip=at_slip, peak_pull=peak_pull, braking=braking), EASY | used, chance)


@pytest.mark.parametrize(("used", "state", "judgement", "passed"), [
    ({}, State.WORKS, GO, ()),
    ({"engine": 1.0}, State.WORKS, GO, ()),
    ({"engine": A_HAIR}, State.LITTLE_ENGINE, DONT, ()),
    ({"engine": math.nan}, State.LITTLE_ENGINE, DONT, ()),
    ({"tipping": 1.0}, State.TIPS, DONT, ("tipping",)),
    ({"rear_load": 1.0}, State.WORKS, GO, ()),
    ({"rear_load": A_HAIR}, State.OVER_A_LIMIT, DONT, ("rear_load",)),
    ({"rear_load": 2.0, "tool_depth": math.nan}, State.OVER_A_LIMIT, DONT, ("rear_load", "tool_depth")),
    ({"slip": 1.0}, State.WORKS, GO, ()),
    ({"slip": A_HAIR}, State.MUCH_SLIP, TRY, ("slip",)),
    ({"slip": 0.9, "resultant": A_HAIR}, State.MUCH_SLIP, TRY, ("resultant",)),
    ({"critical_depth": 1.0}, State.WORKS, GO, ()),
    ({"critical_depth": A_HAIR}, State.TOO_DEEP, TRY, ()),
    ({"steering": 1.0}, State.WORKS, GO, ()),
    ({"steering": A_HAIR}, State.LIGHT_FRONT, TRY, ()),
    ({"steering_rest": 3.0, "extreme_depth": 3.0, "equation_range": 3.0}, State.WORKS, GO, ()),
])  # fmt: skip
def test_each_limit_decides_at_its_end(used, state, judgement, passed):
    assert judged(**used) == Verdict(judgement, state, passed)


def test_the_worst_is_said_first():
    """Tipping, grip, engine, other hard limits, slip, depth, steering: in this order."""
    worst = {"tipping": 1.2, "engine": 1.2, "rear_load": 1.2, "slip": 1.2, "critical_depth": 1.2, "steering": 1.2}
    assert judged(at_slip=math.nan, **worst).state is State.TIPS
    worst["tipping"] = 0.2
    assert judged(at_slip=math.nan, peak_pull=5.0, **worst).state is State.LITTLE_GRIP
    assert judged(at_slip=math.nan, peak_pull=0.0, **worst).state is State.NO_GRIP
    assert judged(at_slip=math.nan, peak_pull=-5.0, **worst).state is State.NO_GRIP
    for name, state in (("engine", State.LITTLE_ENGINE), ("rear_load", State.OVER_A_LIMIT), ("slip", State.MUCH_SLIP),
                        ("critical_depth", State.TOO_DEEP), ("steering", State.LIGHT_FRONT)):  # fmt: skip
        assert judged(**worst).state is state
        worst[name] = 0.5
    assert judged(**worst).state is State.WORKS
    assert judged(braking=1.0, critical_depth=2.0).state is State.PUSHED


def test_what_pushes_is_tried_first_and_what_can_t_hold_isn_t():
    assert judged(braking=1.0, holding=0.5) == Verdict(TRY, State.PUSHED)
    assert judged(braking=1.0, holding=1.5) == Verdict(DONT, State.OVER_A_LIMIT, ("holding",))


@pytest.mark.parametrize(("chance", "judgement", "state"), [
    (0.85, GO, State.WORKS), (0.8499, TRY, State.UNSURE), (0.25, TRY, State.UNSURE), (0.2499, DONT, State.UNSURE),
    (0.0, DONT, State.UNSURE),
])  # fmt: skip
def test_eighty_five_and_twenty_five_in_a_hundred(chance, judgement, state):
    assert judged(chance) == Verdict(judgement, state)


@pytest.mark.parametrize("used", [{"slip": 1.5}, {"critical_depth": 1.5}, {"steering": 1.5}])
def test_under_twenty_five_in_a_hundred_nothing_is_tried(used):
    assert judged(0.3, **used).judgement is TRY
    assert judged(0.2, **used).judgement is DONT


def test_what_pulls_and_what_works():
    for state in State:
        made = Verdict(DONT, state)
        assert made.pulls == (state not in HARD or state is State.OVER_A_LIMIT)
        assert made.works == (made.pulls and state not in (State.OVER_A_LIMIT, State.MUCH_SLIP))
    assert [state for state in State if not Verdict(DONT, state).pulls] == [
        State.TIPS, State.NO_GRIP, State.LITTLE_GRIP, State.LITTLE_ENGINE]  # fmt: skip


@pytest.mark.parametrize(("used", "state"), [(None, "unknown"), (0.0, "ok"), (0.8999, "ok"), (0.9, "tight"), (1.0, "tight"),
                                             (A_HAIR, "over"), (math.inf, "over"), (math.nan, "over")])  # fmt: skip
def test_the_state_of_a_limit(used, state):
    assert TIGHT == 0.9
    assert state_of(used) == state


def test_which_limits_are_hard():
    """What breaks, tips or can't be done; not what tables advise."""
    soft = {"steering", "steering_rest", "slip", "resultant", "critical_depth", "equation_range", "extreme_depth"}
    assert {name for name, limit in LIMITS.items() if not limit.hard} == soft


@pytest.mark.parametrize(
    ("changes", "state"),
    [
        ({"ground.cone_index": "450 kPa"}, None),
        ({"ground.cone_index": "449 kPa"}, State.SOFTER_THAN_KNOWN),
        ({"ground.surface": "soft"}, None),
        ({"ground.grade": "15 deg"}, None),
        ({"ground.grade": "15.1 deg"}, State.STEEP),
        ({"ground.grade": "-15.1 deg"}, State.STEEP),
    ],
)
def test_ground_that_is_none_for_a_go(changes, state):
    there = beyond(bare(replaced(known_rig(), changes)))
    assert there is state
    found = verdict(Point(slip=0.1, peak_pull=100, braking=0), EASY, 0.99, there)
    assert found.judgement is (TRY if state else GO)
    assert found.state is (state or State.WORKS)
