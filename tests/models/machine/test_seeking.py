"""Seeking an edge, the state of a limit, and slip on tracks in closed form: each against the plain definition."""

import math

import numpy as np
import pytest
from scipy.special import lambertw

from rigcalc.models.machine.kernel import net_pull
from rigcalc.models.machine.kernel_track import peak_track, solve_slip_track
from rigcalc.models.machine.limits import TIGHT, state_of, works
from rigcalc.models.machine.seeking import edge, first_run, narrowed


def test_the_first_run_needs_not_start_at_the_start():
    assert first_run([False, True, True, False, True]) == (1, 2)
    assert first_run([True, True]) == (0, 1)
    assert first_run([True, False, True]) == (0, 0)
    assert first_run([False, False]) is None


def test_an_edge_is_found_from_either_side_and_several_at_once():
    calls = []

    def below(x):
        calls.append(x.size)
        return x < math.pi

    inside, outside = edge(below, 3.0, 4.0, points=101, rounds=3)
    assert inside < math.pi <= outside
    assert outside - inside == pytest.approx(1e-6)
    assert calls == [101] * 3
    # Two brackets, one rising and one falling: 2 up to pi, 4 down to it.
    roots = np.array([math.pi, math.pi])
    inside, outside = edge(lambda x: (x < math.pi) == (np.arange(x.size) % 2 == 0), [2.0, 4.0], [4.0, 2.0], rounds=4)
    np.testing.assert_allclose(inside, roots, atol=1e-8)
    assert inside[0] < math.pi <= outside[0]
    assert inside[1] >= math.pi > outside[1]


def test_the_ends_of_a_bracket_are_taken_at_their_word():
    grid = np.linspace(0.0, 1.0, 5)
    assert [float(part) for part in narrowed(grid, [False, False, True, True, True])] == [0.0, 0.25, 1.0]
    assert [float(part) for part in narrowed(grid, [True] * 5)] == [0.75, 1.0, 4.0]


@pytest.mark.parametrize(("used", "state"), [
    (None, "unknown"), (0.0, "ok"), (0.8999, "ok"), (TIGHT, "tight"), (1.0, "tight"), (1.0001, "over"), (math.inf, "over"),
    (math.nan, "over"),
])  # fmt: skip
def test_state_of_a_limit(used, state):
    assert state_of(used) == state
    assert TIGHT == 0.9


def test_what_works_keeps_hard_limits_and_the_slip_band():
    """critical_depth is advice: passing it stops nothing."""
    fine = {"engine": 1.0, "slip": 0.5, "critical_depth": 3.0}
    assert works(fine)
    assert not works(fine | {"slip": 1.01})
    assert not works(fine | {"engine": math.nan})
    np.testing.assert_array_equal(works({"engine": np.array([0.5, 1.5, 0.5]), "slip": np.array([0.5, 0.5, 2])}), [1, 0, 0])


def test_slip_on_tracks_gives_the_pull_that_was_asked_for():
    rng = np.random.default_rng(5)
    count = 20_000
    thrust, stretch, lost = rng.uniform(50, 200, count), rng.uniform(0.004, 0.08, count), rng.uniform(2, 20, count)
    drag = rng.uniform(1, 40, count)
    _, peak = peak_track(thrust, lost, stretch, drag)
    need = rng.uniform(0.001, 0.9999, count) * (peak + lost) - lost
    slip = solve_slip_track(need, thrust, lost, stretch, drag)
    np.testing.assert_allclose(net_pull(slip, [(0.0, drag, 1.0)], [(thrust, stretch)], lost), need, rtol=1e-9, atol=1e-9)
    out = np.empty(count)
    assert solve_slip_track(need, thrust, lost, stretch, drag, out=out, threads=2) is out
    np.testing.assert_array_equal(out, slip)


def test_slip_on_tracks_without_drag_is_lambert_s_w():
    rng = np.random.default_rng(4)
    count = 20_000
    thrust, stretch, lost = rng.uniform(50, 200, count), rng.uniform(0.004, 0.08, count), rng.uniform(2, 20, count)
    _, peak = peak_track(thrust, lost, stretch, 0.0)
    need = rng.uniform(0.001, 0.9999, count) * (peak + lost) - lost
    over = 1 / (1 - (need + lost) / thrust)
    wanted = stretch * (over + lambertw(-over * np.exp(-over)).real)
    np.testing.assert_allclose(solve_slip_track(need, thrust, lost, stretch, 0.0), wanted, rtol=1e-9, atol=1e-12)
    out = np.empty(count)
    assert solve_slip_track(need, thrust, lost, stretch, 0.0, out=out, threads=2) is out
    np.testing.assert_array_equal(out, solve_slip_track(need, thrust, lost, stretch, 0.0))


@pytest.mark.parametrize(("need", "thrust", "lost", "stretch", "slip"), [
    (-5.0, 100.0, 5.0, 0.02, 0.0),
    (-9.0, 100.0, 5.0, 0.02, 0.0),
    (99.0, 100.0, 5.0, 0.02, math.nan),
    (math.nan, 100.0, 5.0, 0.02, math.nan),
    (50.0, 100.0, math.inf, 0.02, math.nan),
    (50.0, math.nan, 5.0, 0.02, math.nan),
    (50.0, -100.0, 5.0, 0.02, math.nan),
])  # fmt: skip
@pytest.mark.parametrize("drag", [0.0, 4.0])
def test_tracks_pushed_stuck_or_given_nonsense(drag, need, thrust, lost, stretch, slip):
    found = solve_slip_track(np.array([20.0, need]), thrust, lost, stretch, drag)[1]
    assert found == slip or (math.isnan(found) and math.isnan(slip))
