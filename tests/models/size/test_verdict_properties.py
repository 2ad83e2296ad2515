"""What must hold of every verdict: more work never makes it better, and what a reverse answer allows does hold."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from judged_jobs import JOBS, rig_of
from known_rigs import known_rig

from rigcalc.core.errors import InputError
from rigcalc.models import replaced, size
from rigcalc.models.machine.draws import draws, number
from rigcalc.models.machine.limits import LIMITS, NEEDS, caps, shares, works
from rigcalc.models.machine.operating_point import Point, solve
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.resize import tool_changes
from rigcalc.models.size.verdict import Judgement, verdict

ORDER = [Judgement.DONT, Judgement.TRY, Judgement.GO]
STEPS = 25
SWEEPS = {"depth": np.linspace(4, 70, STEPS), "speed": np.linspace(2, 16, STEPS), "tools": np.arange(1.0, STEPS + 1)}
modest = settings(deadline=None, max_examples=25)
tried = st.fixed_dictionaries({
    "job": st.sampled_from(JOBS), "depth": st.floats(3, 20), "speed": st.floats(3, 8), "tools": st.integers(1, 24),
    "texture": st.sampled_from(["sand", "sandy loam", "loam", "clay loam", "clay"]),
    "surface": st.sampled_from(["hard", "firm", "tilled", "soft"]), "grade": st.integers(-15, 20),
    "cone": st.none() | st.floats(200, 3000), "engine": st.floats(0.55, 1),
    "rated": st.none() | st.tuples(st.floats(8, 20), st.floats(15, 50)),
})  # fmt: skip


def rig_for(one):
    job = one["job"] | {
        "rig": [*one["job"]["rig"][:2], one["tools"], one["depth"], one["speed"], one["texture"], one["surface"]]
    }
    changes = {"ground.grade": f"{one['grade']!r} percent", "tractor.engine_speed_share": f"{100 * one['engine']!r} percent"}
    changes["ground.cone_index"] = f"{one['cone']!r} kPa" if one["cone"] else None
    depth, power = one["rated"] or (None, None)
    changes["implement.rated_depth"] = f"{depth!r} in" if depth else None
    changes["implement.rated_power_per_tool"] = f"{power!r} hp" if power else None
    return replaced(rig_of(job), changes)


def verdicts(rig, entry, values):
    """The verdict at each value of an entry, and the points; frame and tongue load go with the tools."""
    b = bare(rig)
    c = caps(rig, b)

    def at(column):
        step = column / b.tools if entry == "tools" else 1.0
        return b.at(**{entry: column}, implement_weight=b.implement_weight * step, hitch_load=b.hitch_load * step)

    drawn = draws(b.draft_range, number("cone_range"), 0, 256)
    wide, line = at(values[:, None]), at(values)
    chances = works(shares(wide, solve(wide, drawn=drawn, want=NEEDS), c)).mean(axis=1)
    points = solve(line)
    used = shares(line, points, c)

    def pick(held, place):
        return held if np.ndim(held) == 0 else held[place]

    found = []
    for place, chance in enumerate(chances):
        point = Point(**{name: pick(held, place) for name, held in vars(points).items()})
        found.append(verdict(point, {name: pick(share, place) for name, share in used.items()}, chance))
    return found, points, used


# What more work does mend, and why: pull takes load off the front axle and moves that of two tracks back, so an overloaded
# front or a load too far ahead comes right; a tool that holds back keeps a rig from running downhill; and with more shanks a
# smaller share of them runs in the tractor's own wheel tracks, so that each takes a little less of what it is rated for.
RELIEVED = ("front_load", "front_pressure")


@pytest.mark.parametrize("entry", list(SWEEPS))
@modest
@given(one=tried)
def test_more_work_never_makes_the_verdict_better(entry, one):
    if entry == "tools":
        one = one | {"rated": None}
    found, points, used = verdicts(rig_for(one), entry, SWEEPS[entry])
    steady = np.ones(STEPS, bool)
    for name in RELIEVED:
        steady &= ~(np.asarray(used.get(name, 0.0)) > 0.8)
    steady &= ~(np.asarray(points.braking) > 0) & ~(np.nan_to_num(points.resultant_ahead) > 0.9 * bare_third(one))
    ranks = np.array([ORDER.index(one.judgement) for one in found])[steady]
    assert (np.diff(ranks) <= 0).all(), [(value, str(v.state), str(v.judgement))
                                         for value, v in zip(SWEEPS[entry], found, strict=True)]  # fmt: skip


def bare_third(one):
    rear = bare(rig_of(one["job"])).rear
    return rear.length / 6


@modest
@given(one=tried)
def test_go_has_everything_that_a_go_needs(one):
    answer = size(rig_for(one))
    verdict, used = answer.verdict, {m.name: m.used for m in answer.margins if m.used is not None}
    hard = [name for name, share in used.items() if LIMITS[name].hard and not share <= 1]
    assert answer.verdict.works <= (not hard)
    if verdict.judgement is Judgement.GO:
        assert answer.sure.chance_works >= 0.85
        assert all(used.get(name, 0.0) <= 1 for name in ("slip", "critical_depth", "steering", "resultant"))
        assert not hard
    if verdict.judgement is not Judgement.DONT:
        assert not hard
        assert answer.sure.chance_works >= 0.25
        p, b = answer.point.bare, answer.bare_rig
        assert min(p.front_load, p.rear_load) >= 0
        # No more torque than the engine has: its rise over the torque at rated power, at the most.
        most = max(1 + b.torque_rise, b.maximum_pto / b.rated_pto / b.maximum_power_speed)
        running = b.engine_speed_share if b.engine_speed_share < b.maximum_power_speed else b.maximum_power_speed
        assert p.pto_power / b.rated_pto / running <= most + 1e-9


@modest
@given(one=tried, cone=st.floats(100, 4000))
def test_a_typed_cone_index_always_moves_something(one, cone):
    rig = rig_for(one | {"cone": None})
    named, typed = solve(bare(rig)), solve(bare(replaced(rig, {"ground.cone_index": f"{cone!r} kPa"})))
    assume(abs(cone / bare(rig).cone_index - 1) > 0.02)
    assume(max(named.tipping, typed.tipping) < 1)
    if np.isfinite(named.slip) and named.net_pull > 0:
        assert typed.slip != pytest.approx(named.slip, rel=1e-6, nan_ok=True)
    assert (typed.peak_pull > named.peak_pull) == (cone > bare(rig).cone_index)
    assert typed.draft != named.draft


@modest
@given(one=tried)
def test_a_reverse_answer_typed_into_the_rig_file_holds_on_its_limit(one):
    rig = rig_for(one | {"grade": max(one["grade"], 0)})
    answer = size(rig)
    rated, most = answer.bare_rig.rated_pto, answer.bare_rig.maximum_pto
    for found in answer.reverse:
        if found.value is None:
            continue
        value, (front, rear) = found.value, (rig.tractor.front_axle_mass, rig.tractor.rear_axle_mass)
        scale = value / (front.to("kg") + rear.to("kg"))
        typed = {
            "deepest": {"work.depth": f"{value!r} cm"}, "fastest": {"work.speed": f"{value!r} km/h"},
            "most tools": tool_changes(rig, int(value)),
            "smallest engine": {"tractor.rated_power": f"{value * rated / most!r} kW",
                                "tractor.maximum_power": f"{value!r} kW"},
            "least mass": {"tractor.front_axle_mass": f"{front.to('kg') * scale!r} kg",
                           "tractor.rear_axle_mass": f"{rear.to('kg') * scale!r} kg"},
        }[found.question]  # fmt: skip
        try:
            changed = replaced(rig, typed)
        except InputError:  # so many shanks that nobody builds such a tool
            assert found.question == "most tools"
            continue
        again = size(changed)
        counted = {m.name: m.used for m in again.margins if m.used is not None and (m.hard or m.name in ("slip", "resultant"))}
        assert max(counted.values()) <= 1 + 1e-6, (found, counted)
        if found.binds in counted and found.uncut is None and found.question != "most tools":
            assert counted[found.binds] == pytest.approx(1, abs=1e-4), (found, counted)


def test_a_whole_frame_of_doubt_is_in_the_chance():
    """Of a deep chisel's two rows, texture, wheel tracks and soil: each widens what the verdict stands on."""
    rig = replaced(known_rig("tracks"), {"work.depth": "16 in", "implement.point_width": None, "ground.texture": "clay loam"})
    b = bare(rig)
    c = caps(rig, b)
    shown = size(rig).sure.chance_works
    drawn = draws(b.draft_range, number("cone_range"), 0)
    by_hand = np.mean([bool(works(shares(b, solve(b, drawn=type(drawn)(*(held[place] for held in vars(drawn).values()))), c)))
                       for place in range(0, len(drawn.row), 8)])  # fmt: skip
    assert shown == pytest.approx(by_hand, abs=0.03)
    alone = b.at(deep_from=None)
    assert works(shares(alone, solve(alone, drawn=drawn), c)).mean() > shown + 0.1
