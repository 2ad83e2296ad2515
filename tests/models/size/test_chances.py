"""From scatter to chance: counts are those of the answer, and the scatter of draft alone is found again by hand."""

from dataclasses import replace
from statistics import NormalDist

import numpy as np
import pytest
from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.models import replaced, size
from rigcalc.models.machine.draws import likely
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.ranges import factor_at, factors, level_of
from rigcalc.models.size.chances import chances

COULTERS = {"tool": "coulter_smooth_or_ripple", "tools": 14, "depth": "4 in"}  # a row of another range than the tool's
READING = {"date": "2026-11-04", "depth": "14 in", "speed": "5 mph", "slip": "9 percent"}
CASES = {
    **{name: (name, {}) for name in KNOWN_RIGS},
    "deep": ("front_wheel_assist", {"work.depth": "15 in"}),
    "hardly a load": ("front_wheel_assist", {"work.depth": "3 in", "implement.tools": 3}),
    "far too much": ("front_wheel_assist", {"work.depth": "30 in", "implement.tools": 30}),
    "soft": ("front_wheel_assist", {"ground.surface": "soft", "work.depth": "15 in", "work.speed": "1.5 mph"}),
    "coulters": ("front_wheel_assist", {"implement.gangs": [COULTERS], "work.depth": "14 in"}),
    "read": ("front_wheel_assist", {"work.depth": "14 in", "reading": [READING]}),
}  # fmt: skip


@pytest.fixture(params=CASES.values(), ids=CASES)
def answer(request):
    return answered(*request.param)


def answered(name, changes):
    return size(replaced(known_rig(name), changes) if changes else known_rig(name))


def test_counts_are_those_of_the_answer(answer):
    found = chances(answer.bare_rig, answer.caps, answer.sure.seed)
    assert found.pulls / found.tried == answer.sure.chance_pulls
    assert found.works / found.tried == answer.sure.chance_works
    assert found.works <= found.pulls <= found.grip <= found.tried
    assert (found.alone is None) == (answer.bare_rig.told is not None)


@pytest.mark.parametrize("name", [name for name in CASES if name != "read"])
def test_the_heaviest_draft_is_where_it_gives_out(name):
    answer = answered(*CASES[name])
    b = answer.bare_rig
    alone = chances(b, answer.caps, answer.sure.seed).alone
    engine = next(margin.limit for margin in answer.margins if margin.name == "engine")
    rows = np.linspace(0, 3, 3001)
    point = solve(b, drawn=replace(likely(), row=rows))
    drafts = point.draft
    assert np.interp(1.0, rows, drafts) == pytest.approx(alone.likely)
    grip = np.isfinite(point.slip)
    pulls = grip & (point.engine_power <= engine)
    if alone.most is None:
        assert (pulls.all(), alone.chance) == (True, 1.0)
        return
    assert not pulls[drafts > alone.most * 1.00001].any()
    assert pulls[drafts < alone.most * 0.99999].all()
    assert ("engine" if grip[np.argmin(pulls)] else "grip") == alone.gives_out
    score = (alone.most - alone.likely) / alone.deviation
    assert alone.chance == pytest.approx(NormalDist().cdf(score), abs=0.005), "by a table of the normal distribution"
    level = pulls[np.searchsorted(rows, factors(b.draft_range, 2001)).clip(max=3000)].mean()
    assert alone.chance == pytest.approx(level, abs=0.003), "by trying equally likely drafts"


def test_each_way_to_give_out_and_none_is_among_the_cases():
    """So that each is looked at above."""
    found = {name: chances_of(name) for name in ("hardly a load", "soft", "far too much", "read")}
    assert {name: alone and alone.gives_out for name, alone in found.items()} == {
        "hardly a load": "", "soft": "grip", "far too much": "engine", "read": None
    }  # fmt: skip


def chances_of(name):
    answer = answered(*CASES[name])
    return chances(answer.bare_rig, answer.caps, answer.sure.seed).alone


def test_a_row_without_a_range_has_no_scatter_of_its_own():
    answer = size(known_rig("front_wheel_assist"))
    assert chances(replace(answer.bare_rig, draft_range=0.0), answer.caps).alone is None


def test_one_deviation_is_half_of_the_printed_range():
    answer = size(known_rig("front_wheel_assist"))
    alone = chances(answer.bare_rig, answer.caps).alone
    assert alone.likely == pytest.approx(answer.point.bare.draft)
    assert alone.deviation == pytest.approx(answer.point.bare.draft * answer.bare_rig.draft_range / 2)


@pytest.mark.parametrize("spread", [0.1, 0.5, 0.75])
def test_a_level_and_its_factor_go_both_ways(spread):
    for level in (0.001, 0.1, 0.5, 0.83, 0.999):
        assert level_of(factor_at(level, spread), spread) == pytest.approx(level)
    assert (level_of(-0.5, spread), level_of(2.5, spread)) == (0.0, 1.0)
