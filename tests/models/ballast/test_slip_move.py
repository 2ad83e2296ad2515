"""What to move after a slip test: whole pieces, no more than hang, no limit passed, and what cut it."""

import itertools

import numpy as np
import pytest
from ballast_rigs import piece, plain
from known_rigs import known_rig

from rigcalc.core.units import GRAVITY
from rigcalc.models import replaced
from rigcalc.models.ballast.at_hand import choices
from rigcalc.models.ballast.limits import weight_limits
from rigcalc.models.ballast.slip_test import draft_for_slip, from_screen, from_turns, verdict
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare
from rigcalc.words.ballast import slip as words

HUNG = [piece("plates", "100 lb", 30, 20, ahead="1.3 m"), piece("wheel weights", "500 lb", 8, 6, axle="rear", in_pairs=True)]


def hung(**changes):
    return replaced(plain(), {"ballast": HUNG, **{key.replace("__", "."): value for key, value in changes.items()}})


def text(found):
    return str(words.said(found, "us"))


def test_never_takes_off_more_than_hangs():
    # 5,000 lb hang; by the physics alone far more would have to come off.
    found = verdict(from_screen("2 %"), hung(tractor__rear_axle_mass="30000 lb"))
    assert found.state == "low"
    hanging = sum(kind.masses[kind.now] for kind in choices(hung()))
    assert -found.move.change <= hanging + 1e-6
    assert not found.move.reaches
    assert "at_hand" in {which.what for which in found.move.cut}
    assert "5,000 lb off" in text(found)
    assert "Take off about" not in text(found)


def test_never_passes_the_limit_on_mass():
    now = bare(hung()).weight / GRAVITY * 1000
    rig = hung(setup={"mass_limit": f"{now + 300:.3f} kg"})
    found = verdict(from_turns(1000, 800, 0.1), rig)
    assert found.state == "high"
    assert 0 < found.move.change <= 300 + 1e-6
    assert not found.move.reaches
    assert "mass_limit" in {which.what for which in found.move.cut}
    assert "mass with ballast, by the maker would be passed" in text(found)
    # The same where the rig file lists no pieces and a mass alone can be named.
    bare_rig = replaced(plain(), {"setup": {"mass_limit": f"{now + 300:.3f} kg"}})
    alone = verdict(from_turns(1000, 800, 0.1), bare_rig)
    share, which = alone.room
    assert share * alone.to_edge == pytest.approx(300, rel=1e-5)
    assert which.what == "mass_limit"
    assert "leaves room for 661 lb" in text(alone)
    assert "Add about" not in text(alone)


@pytest.mark.parametrize("slip", [0.15, 0.16, 0.03, 0.055])
def test_the_set_is_the_cheapest_that_reaches_the_band(slip):
    rig = hung()
    found = verdict(from_screen(f"{100 * slip:.1f} %"), rig)
    b, kinds = bare(rig), choices(rig)
    draft = draft_for_slip(b, slip)
    limits = [limit for limit in weight_limits(rig, b, draft) if limit.hard]
    low, high = found.band
    passing = []
    for options in itertools.product(*(range(len(kind.options)) for kind in kinds)):
        front, rear = (weight / GRAVITY * 1000 for weight in (b.front_weight, b.rear_weight))
        front += sum(kind.front[at] for kind, at in zip(kinds, options, strict=True))
        rear += sum(kind.rear[at] for kind, at in zip(kinds, options, strict=True))
        if any(limit.excess(front, rear) > 1e-6 for limit in limits):
            continue
        there = solve(b.at(front_weight=front * GRAVITY / 1000, rear_weight=rear * GRAVITY / 1000), draft_factor=draft)
        if low <= float(there.slip) <= high:
            passing.append(sum(kind.handled[at] for kind, at in zip(kinds, options, strict=True)))
    assert found.move.reaches == bool(passing)
    if passing:
        assert sum(abs(step.change) for step in found.move.steps) == pytest.approx(min(passing), abs=1e-6)
        assert low <= found.move.slip <= high
        assert all(step.after == int(step.after) for step in found.move.steps)


def test_nothing_hung_nothing_off_and_a_way_on_is_named():
    found = verdict(from_screen("4 %"), plain())
    assert "lists nothing that could come off" in text(found)
    assert "deeper, wider or faster" in text(found)
    assert "lb" not in text(found)


def test_a_limit_that_is_passed_already_is_not_passed_further():
    rig = hung(setup={"mass_limit": "40000 lb"})
    found = verdict(from_screen("20 %"), rig)
    assert found.move.change <= 1e-6
    # What makes it better stays open: taking off is still advised where slip is low.
    off = verdict(from_screen("5.7 %"), rig)
    assert off.move.reaches
    assert off.move.change < 0


def test_screens_and_rounded_speeds_say_how_sure_they_are():
    found = from_screen("12 %")
    assert (found.slip, found.low, found.high) == pytest.approx((0.12, 0.115, 0.125))
    assert from_screen("12.5percent").off == pytest.approx((0.0005,))
    assert "set to zero" in words.slip_text(found)
    demo = verdict(found, known_rig())
    assert demo.state == "inside"


@pytest.mark.parametrize("typed", ["12", "0.12", "-3 %", "100 %", "12,5 %", "", "nan %", "1e1 %", "12 % %"])
def test_what_is_no_percentage_is_refused(typed):
    from rigcalc.core.errors import InputError

    with pytest.raises(InputError, match="12 %"):
        from_screen(typed)


def test_two_rounded_speeds_name_their_rounding():
    from rigcalc.models.ballast.slip_test import from_speeds
    from rigcalc.models.rig.measure import Kind

    kind = Kind("km/h", "5.1 mph")
    rough = from_speeds(kind.read("5.1 mph"), kind.read("5.8 mph"))
    assert rough.off == pytest.approx((0.05 * 1.609344, 0.05 * 1.609344))
    said = words.slip_text(rough, "us")
    assert "rounded, by up to 0.05 mph" in said
    assert "one more digit" in said
    fine = from_speeds(kind.read("5.100 mph"), kind.read("5.800 mph"))
    assert "one more digit" not in words.slip_text(fine, "us")
    assert np.isclose(fine.slip, rough.slip)
