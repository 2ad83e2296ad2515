"""The reverse answers against the forward calculation: at the answer every limit passes,
a hair past it the named one doesn't."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.equations.traction_wheel import gross_traction_ratio_radial
from rigcalc.models import replaced, size
from rigcalc.models.machine.limits import LIMITS, WORKING, caps, shares, worst
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare
from rigcalc.models.size.reverse import reverse_answers

HAIR = 1e-6
jobs = st.fixed_dictionaries({
    "rig": st.sampled_from(KNOWN_RIGS), "work.depth": st.floats(4, 20), "work.speed": st.floats(3, 8),
    "implement.tools": st.integers(3, 25), "ground.texture": st.sampled_from(["sand", "loam", "clay"]),
    "ground.surface": st.sampled_from(["hard", "firm", "tilled", "soft"]), "power": st.integers(100, 700),
    "limits": st.booleans(),
})  # fmt: skip


def rig_for(job):
    changes = {
        "work.depth": f"{job['work.depth']!r} in", "work.speed": f"{job['work.speed']!r} mph",
        "implement.tools": job["implement.tools"], "ground.texture": job["ground.texture"],
        "ground.surface": job["ground.surface"], "tractor.rated_power": f"{job['power']} hp", "tractor.maximum_power": None,
    }  # fmt: skip
    if not job["limits"]:
        changes |= {"implement.rated_depth": None, "implement.rated_power_per_tool": None}
    return replaced(known_rig(job["rig"]), changes)


def setting(question, b, value):
    """The rig of the question, set to a value of its answer."""
    if question == "deepest":
        return b.at(depth=value)
    if question == "fastest":
        return b.at(speed=value)
    if question == "most tools":
        step = np.asarray(value) / b.tools  # frame and tongue load go by the same step
        return b.at(tools=value, implement_weight=b.implement_weight * step, hitch_load=b.hitch_load * step)
    scale = value / 1000 * 9.80665 / b.weight
    return replace(b, front_weight=b.front_weight * scale, rear_weight=b.rear_weight * scale)


def used(question, b, c, value):
    rig = setting(question, b, value)
    return shares(rig, solve(rig), c)


@settings(deadline=None, max_examples=60)
@given(jobs)
def test_at_the_answer_it_works_and_past_it_not(job):
    rig = rig_for(job)
    b = bare(rig)
    c = caps(rig, b)
    for answer in reverse_answers(b, c):
        if answer.value is None or answer.question == "smallest engine":
            continue
        at = used(answer.question, b, c, answer.value)
        # The answer is on the safe side of its limit, but for the rounding of the last place.
        assert worst(at)[0] <= 1 + 1e-9, (answer, at)
        if answer.uncut is not None or answer.binds not in LIMITS:
            continue
        beyond = {"most tools": answer.value + 1, "least mass": answer.value * (1 - HAIR)}
        past = used(answer.question, b, c, beyond.get(answer.question, answer.value * (1 + HAIR)))
        assert worst(past)[0] > 1, answer
        assert past[answer.binds] > 1 or np.isnan(past[answer.binds]), (answer, past)


@settings(deadline=None, max_examples=60)
@given(jobs)
def test_no_answer_means_no_value_works(job):
    rig = rig_for(job)
    b = bare(rig)
    c = caps(rig, b)
    sweeps = {"deepest": np.linspace(1, 100, 999), "fastest": np.linspace(0.5, 20, 999), "most tools": np.arange(1.0, 201.0)}
    for answer in reverse_answers(b, c):
        if answer.value is None and answer.question in sweeps:
            assert (worst(used(answer.question, b, c, sweeps[answer.question]))[0] > 1).mean() > 0.99, answer


@settings(deadline=None, max_examples=40)
@given(jobs)
def test_smallest_engine_is_just_enough(job):
    rig = rig_for(job)
    b = bare(rig)
    answer = next(a for a in reverse_answers(b, caps(rig, b)) if a.question == "smallest engine")
    assume(answer.value is not None)
    for factor, fits in ((1 + HAIR, True), (1 - HAIR, False)):
        power = f"{answer.value * factor!r} kW"
        again = size(replaced(rig, {"tractor.rated_power": power}))
        engine = next(m for m in again.margins if m.name == "engine")
        assert (engine.used <= 1) == fits
        assert engine.used == pytest.approx(1, abs=1e-5)


@settings(deadline=None, max_examples=40)
@given(jobs)
def test_forward_and_reverse_tell_one_story(job):
    """A rig that works is within its own deepest; it works when no limit that counts is passed; the fullest one is named."""
    answer = size(rig_for(job))
    deepest = next(r for r in answer.reverse if r.question == "deepest")
    if answer.works:
        assert deepest.value is not None
        most = deepest.value if deepest.uncut is None else deepest.uncut
        assert most >= float(answer.point.bare.depth) * (1 - 1e-9)
    assert answer.works == all(m.used is None or m.used <= 1 for m in answer.margins if m.hard or m.name in WORKING)
    assert answer.binding.used == max(m.used for m in answer.margins if m.used is not None and (m.hard or m.name in WORKING))
    assert answer.works == (answer.binding.used <= 1)


@pytest.mark.parametrize(("changes", "binds"), [
    ({"implement.rated_depth": "11 in"}, "tool_depth"),
    ({"implement.rated_depth": None, "tractor.rated_power": "320 hp", "tractor.maximum_power": None}, "engine"),
    ({"implement.rated_depth": None, "implement.rated_power_per_tool": "20 hp"}, "tool_power"),
    ({"implement.rated_depth": None, "ground.surface": "soft", "tractor.rated_power": "900 hp", "tractor.maximum_power": None,
      "implement.rated_power_per_tool": None, "implement.tools": 30}, "slip"),
    ({"implement.rated_depth": None, "implement.rated_power_per_tool": None, "tractor.rear_axle_mass_limit": "12600 kg"},
     "rear_load"),
])  # fmt: skip
def test_each_limit_can_be_the_one_that_binds(changes, binds):
    # Without a point width no critical depth is known; the row's own end of depth lies beyond these limits.
    answer = size(replaced(known_rig(), {"implement.point_width": None, **changes}))
    deepest = next(r for r in answer.reverse if r.question == "deepest")
    assert deepest.binds == binds
    assert deepest.value is not None


def test_can_t_pull_it():
    """Deep, soft and steep: no number that looks like an answer, and how much pull is missing."""
    rig = replaced(known_rig(), {"work.depth": "40 in", "ground.surface": "soft", "implement.rated_depth": None})
    answer = size(rig)
    assert not answer.pulls
    assert not answer.works
    assert not answer.point.pulls
    assert answer.verdict.state == "little_grip"
    assert answer.point.bare.missing_pull > 0
    assert np.isnan(answer.point.bare.slip)
    assert answer.sure.bands["slip"][2] is None
    assert answer.season is None
    assert answer.binding.name == "grip"
    assert all(m.used is None or m.used == m.used for m in answer.margins), "no NaN reaches a margin"
    smallest = next(r for r in answer.reverse if r.question == "smallest engine")
    assert smallest.value is None


def test_too_little_grip_on_a_slope():
    rig = replaced(known_rig("front_wheel_assist"), {"ground.grade": "25 deg", "ground.surface": "soft", "work.depth": "14 in"})
    answer = size(rig)
    assert answer.verdict.state == "little_grip"
    assert not answer.works


def test_engine_too_small_says_so_first():
    answer = size(replaced(known_rig(), {"tractor.rated_power": "150 hp", "tractor.maximum_power": None}))
    assert answer.verdict.state == "little_engine"
    assert answer.point.pulls
    assert not answer.pulls
    assert answer.furthest("fastest").value > 0


@pytest.mark.parametrize(("changes", "name"), [
    ({}, "critical_depth"), ({"work.depth": "13 in"}, "critical_depth"), ({"work.depth": "17 in"}, "tool_depth"),
    ({"work.depth": "6 in", "tractor.rated_power": "200 hp", "tractor.maximum_power": None}, "engine"),
])  # fmt: skip
def test_the_limit_to_look_at_first_is_the_one_that_the_sentence_names(changes, name):
    answer = size(replaced(known_rig(), changes))
    assert answer.nearest.name == name
    depth = answer.margin("critical_depth")
    assert (answer.nearest is answer.binding) == (not answer.works or depth.used <= answer.binding.used)


def test_more_tools_press_on_the_rear_axle_by_what_they_put_on_the_hitch():
    """A tongue of 3000 lbf under 15 shanks is 200 lbf a shank: the rear axle's limit counts each."""
    rig = replaced(known_rig(), {
        "implement.hitch_load": "3000 lbf", "tractor.drawbar_load_limit": "30000 lbf", "tractor.rated_power": "900 hp",
        "tractor.maximum_power": None, "implement.rated_power_per_tool": None, "tractor.rear_axle_mass_limit": "15000 kg",
    })  # fmt: skip
    b = bare(rig)
    c = caps(rig, b)
    most = next(answer for answer in reverse_answers(b, c) if answer.question == "most tools")
    assert most.binds == "rear_load"
    at, past = (used("most tools", b, c, most.value + more)["rear_load"] for more in (0, 1))
    assert at <= 1 < past
    assert b.hitch_load / b.tools * 1000 / 4.4482216152605 == pytest.approx(200)


def test_a_lighter_tractor_ends_where_its_wheels_leave_the_range_of_the_equations():
    rig = replaced(known_rig(), {"ground.cone_index": "1450 kPa"})
    b = bare(rig)
    least = next(answer for answer in reverse_answers(b, caps(rig, b)) if answer.question == "least mass")
    assert least.binds == "mobility_range"
    assert least.value > least.uncut
    there = solve(setting("least mass", b, least.value))
    most = gross_traction_ratio_radial.valid["mobility_number"][1]
    assert max(there.front_mobility, there.rear_mobility) == pytest.approx(most, rel=1e-9)


def test_of_two_ends_the_nearer_one_cuts_the_answer():
    """Critical depth at 12 in, the end of the subsoiler's row at 20 in; without a point width only the row's end is known."""
    free = {"implement.rated_depth": None, "implement.rated_power_per_tool": None, "implement.tools": 5}
    deepest = size(replaced(known_rig(), free)).furthest("deepest")
    assert (deepest.binds, deepest.value) == ("critical_depth", pytest.approx(12 * 2.54))
    assert deepest.uncut > 20 * 2.54
    further = size(replaced(known_rig(), free | {"implement.point_width": None})).furthest("deepest")
    assert (further.binds, further.value) == ("row_depth", pytest.approx(20 * 2.54))
    assert further.uncut == pytest.approx(deepest.uncut)


def test_a_job_of_next_to_nothing_is_answered_as_far_as_is_looked():
    """One shank an inch deep: no limit stops 200 shanks, 20 km/h, or a tractor of a twentieth of the mass."""
    nothing = {"implement.tools": 1, "work.depth": "1 in", "work.speed": "1 mph", "implement.mass": "20 kg",
               "implement.hitch_load": "0 kN"}  # fmt: skip
    answer = size(replaced(known_rig(), nothing))
    most, fastest, least = (answer.furthest(question) for question in ("most tools", "fastest", "least mass"))
    assert (most.value, most.binds) == (200, "nothing")
    assert (fastest.uncut, fastest.binds) == (20, "row_speed")
    assert least.uncut == pytest.approx(answer.bare_rig.weight / 9.80665 * 1000 / 20)
