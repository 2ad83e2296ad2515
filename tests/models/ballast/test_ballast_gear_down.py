"""Gear up, throttle down: engine speed, torque and fuel by hand."""

from dataclasses import replace

import numpy as np
import pytest
from ballast_rigs import plain

from rigcalc.core.errors import InputError
from rigcalc.models.ballast.answer import ballast
from rigcalc.models.ballast.gear_down import best_gear, gear_choices
from rigcalc.models.machine.engine import torque_at
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import replaced
from rigcalc.words.ballast.gears import gear_text, gears_text

GEARS = {"speeds": ["4.4 mph", "5.8 mph", "7 mph", "9 mph", "14 mph"], "names": ["a", "b", "c", "d", "e"]}


def test_by_hand():
    rig = replaced(plain(), {"gears": {**GEARS, "rated_speed": "2000 rpm"}})
    p = solve(bare(rig))
    choices = gear_choices(rig)
    assert [choice.name for choice in choices] == ["b", "c", "d", "e"]  # gear a is too slow for this ground speed
    for choice in choices:
        ratio = float(p.no_slip_speed) / choice.gear_speed
        load = float(p.engine_share)
        assert choice.engine_speed == pytest.approx(ratio)
        assert choice.rpm == pytest.approx(2000 * ratio)
        assert choice.torque_used == pytest.approx(load / ratio)
        # The torque curve isn't known, so a typical one stands in: maximum power at 0.9 of rated speed, 30 percent more
        # torque at 0.67 of it, and falling with speed below that.
        at_most = bare(rig).maximum_pto / bare(rig).rated_pto / 0.9
        peak = max(1.3, at_most)
        there = (at_most + (1 - at_most) * (ratio - 0.9) / 0.1 if ratio >= 0.9
                 else peak + (at_most - peak) * (ratio - 0.67) / 0.23 if ratio >= 0.67 else peak * ratio / 0.67)  # fmt: skip
        assert choice.torque_there == pytest.approx(there)
        assert choice.reserve == pytest.approx(1 - load / ratio / there)
        multiplier = 1 - (ratio - 1) * (0.45 * load - 0.877)
        assert choice.saved == pytest.approx(1 - multiplier)
        assert choice.fuel == pytest.approx((0.22 * load + 0.096) * bare(rig).rated_pto * multiplier)


def test_a_gear_for_just_this_speed_counts_and_runs_at_rated_speed():
    speed = float(solve(bare(plain())).no_slip_speed)
    (gear,) = gear_choices(replaced(plain(), {"gears": {"speeds": [f"{0.999 * speed!r} km/h", f"{speed!r} km/h"]}}))
    assert (gear.name, gear.engine_speed) == ("2", pytest.approx(1.0))
    assert gear.saved == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(("hand", "state"), [(0.101, "fits"), (0.099, "little_torque"), (0.001, "little_torque"),
                                             (-0.001, "too_much_torque")])  # fmt: skip
def test_a_tenth_of_the_torque_stays_in_hand(hand, state):
    # At rated engine speed the torque there is the rated one: the reserve is what the load leaves.
    b, rig = bare(plain()), plain()
    loads = np.geomspace(0.5, 4, 4001)
    shares = solve(b, draft_factor=loads).engine_share
    point = solve(b, draft_factor=float(np.interp(1 - hand, shares, loads)))
    rig = replaced(rig, {"gears": {"speeds": [f"{float(point.no_slip_speed)!r} km/h"]}})
    (gear,) = gear_choices(rig, b=b, point=point)
    assert gear.reserve == pytest.approx(hand, abs=1e-4)
    assert gear.state == state


@pytest.mark.parametrize(("ratio", "state"), [(0.51, "fits"), (0.49, "below_lowest")])
def test_the_slowest_engine_that_is_looked_at(ratio, state):
    rig = plain(work__depth="4 in")
    speed = float(solve(bare(rig)).no_slip_speed)
    (gear,) = gear_choices(replaced(rig, {"gears": {"speeds": [f"{speed / ratio!r} km/h"]}}))
    assert gear.state == state


def test_higher_gear_saves_more_and_leaves_less():
    choices = gear_choices(replaced(plain(), {"gears": GEARS}))
    assert [c.saved for c in choices] == sorted(c.saved for c in choices)
    assert choices[-1].reserve < choices[0].reserve
    assert choices[-1].state == "below_lowest"
    best = best_gear(choices)
    assert best.fits
    assert all(best.fuel <= c.fuel for c in choices if c.fits)


def test_torque_goes_through_every_known_point():
    known = {"rated_speed": "2000 rpm", "torque_rise": "40 percent", "torque_peak_speed": "1400 rpm",
             "maximum_power_speed": "1800 rpm"}  # fmt: skip
    b = bare(replaced(plain(), {"gears": {**GEARS, **known}}))
    top = b.maximum_pto / b.rated_pto
    for speed, torque in ((1.0, 1.0), (0.9, top / 0.9), (0.7, 1.4), (0.35, 0.7)):
        assert torque_at(b, speed) == pytest.approx(torque)


def test_a_loaded_engine_finds_no_gear():
    rig = replaced(plain(work__depth="16 in", work__speed="8 mph"), {"gears": {"speeds": ["8 mph", "10.5 mph"]}})
    choices = gear_choices(rig)
    assert best_gear(choices) is None
    assert {choice.state for choice in choices} <= {"too_much_torque", "little_torque", "below_lowest"}


@pytest.mark.parametrize(
    ("gears", "words"),
    [
        ({"speeds": ["5 mph", "4 mph"]}, "don't rise"),
        ({"speeds": []}, "don't rise"),
        ({"speeds": ["5 mph", "6 mph"], "names": ["one"]}, "a name for each"),
        ({"speeds": ["5 mph"], "lowest_speed": "1400 rpm"}, "rated_speed"),
        ({"speeds": ["5 mph"], "rated_speed": "2000 rpm", "lowest_speed": "2100 rpm"}, "below the rated one"),
        ({"speeds": ["5 mph"], "rated_speed": "2000 rpm", "torque_rise": "30 percent"}, "only one of"),
        ({"speeds": ["5 kg"]}, "converts to km/h"),
    ],
)
def test_gears_that_make_no_sense_are_refused(gears, words):
    with pytest.raises(InputError, match=words):
        replaced(plain(), {"gears": gears})


def test_no_gears_and_no_pull_are_refused():
    with pytest.raises(InputError, match=r"\[gears\]"):
        gear_choices(plain())
    rig = replaced(plain(work__depth="40 in", ground__surface="soft"), {"gears": GEARS})
    with pytest.raises(InputError, match="can't pull"):
        gear_choices(rig)


@pytest.mark.parametrize("job", ["light", "this", "full"])
def test_gears_of_an_answer_belong_to_its_job(job):
    found = ballast(replaced(plain(), {"gears": {**GEARS, "rated_speed": "2000 rpm"}}), job)
    share = found.plan.job.engine_share
    assert found.gears
    for gear in found.gears:
        assert gear.load == pytest.approx(share)
        assert gear.torque_used == pytest.approx(share / gear.engine_speed)
    loads = [gear_choices(found.rig, factor)[0].load for factor in (0.5, 1.0, 1.5)]
    assert loads == sorted(loads)


def test_a_full_load_leaves_no_gear_to_throttle_down_in():
    found = ballast(replaced(plain(), {"gears": GEARS}), "full")
    assert best_gear(found.gears) is None
    assert "stay at rated engine speed" in gears_text(found)
    light = ballast(replaced(plain(), {"gears": GEARS}), "light")
    best = best_gear(light.gears)
    assert f"Gear {best.name} at" in gears_text(light)
    assert "half this draft" in gears_text(light)


def test_equal_gears_are_kept_apart_and_the_first_of_equals_is_best():
    choices = gear_choices(replaced(plain(), {"gears": GEARS}))
    same = tuple(replace(choices[0], name=name, state="fits") for name in ("one", "two"))
    assert best_gear(same) is same[0]
    assert [gear_text(gear, best_gear(same)) for gear in same] == ["best", "fits"]
