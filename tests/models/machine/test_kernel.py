"""The slip kernel against 40-digit arithmetic, against bracketed root finding, and against what any rig must do."""

import math
import pickle
from concurrent.futures import ThreadPoolExecutor

import mpmath
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from rigcalc.models.machine import kernel
from rigcalc.models.machine.kernel import (
    PullState,
    net_pull,
    peak_mixed,
    peak_one,
    pull_state,
    solve_slip_mixed,
    solve_slip_one,
)

SHARES = (1e-6, 0.05, 0.5, 0.9, 0.99, 0.9999)  # of the way from -C to the peak


def one_rate_rigs(count, seed=1):
    """Reach, resistance, drag (kN) and rate of ordinary wheeled rigs."""
    rng = np.random.default_rng(seed)
    rate = rng.choice([7.5, 9.5], count)
    return rng.uniform(50, 200, count), rng.uniform(5, 20, count), rng.uniform(5, 20, count), rate


def running_gear(kind, count, seed=2):
    """(wheels, tracks, resistance) of one kind of rig."""
    rng = np.random.default_rng(seed)
    axles = [(rng.uniform(20, 120, count), rng.uniform(2, 12, count), np.full(count, rate)) for rate in (7.5, 9.5)]
    track = (rng.uniform(40, 150, count), rng.uniform(0.005, 0.4, count))
    wheels, tracks = {
        "one rate": (axles[:1], []),
        "two rates": (axles, []),
        "tracks": ([], [track]),
        "front wheels, rear tracks": (axles[:1], [track]),
    }[kind]
    return wheels, tracks, rng.uniform(3, 20, count)


KINDS = ("one rate", "two rates", "tracks", "front wheels, rear tracks")


def at(gear, number):
    return [tuple(float(values[number]) for values in item) for item in gear]


def exact_slip(pull, wheels, tracks, resistance):
    """Newton from slip 0 in 40 digits; the balance is concave, so it climbs to the smaller root and can't pass it."""
    with mpmath.workdps(40):
        one, slip = mpmath.mpf(1), mpmath.mpf(0)
        for _ in range(200):
            misfit, slope = -mpmath.mpf(resistance) - mpmath.mpf(pull), mpmath.mpf(0)
            for reach, drag, rate in wheels:
                left = mpmath.exp(-mpmath.mpf(rate) * slip)
                misfit += mpmath.mpf(reach) * (one - left) - mpmath.mpf(drag) * slip
                slope += mpmath.mpf(reach) * rate * left - mpmath.mpf(drag)
            for thrust, stretch in tracks:
                x = slip / mpmath.mpf(stretch)
                if x:
                    left = mpmath.exp(-x)
                    misfit += thrust * (one - (one - left) / x)
                    slope += thrust / mpmath.mpf(stretch) * ((one - left) / x - left) / x
                else:
                    slope += thrust / mpmath.mpf(stretch) / 2
            step = -misfit / slope
            slip += step
            if abs(step) < mpmath.mpf(10) ** -25:
                return slip
    raise AssertionError("no convergence in 40 digits")


@pytest.mark.parametrize("share", SHARES)
def test_one_rate_to_twelve_digits(share):
    reach, resistance, drag, rate = one_rate_rigs(80)
    _, peak = peak_one(reach, resistance, drag, rate)
    pull = share * (peak + resistance) - resistance
    slip = solve_slip_one(pull, reach, resistance, drag, rate)
    exact = [exact_slip(pull[i], [(reach[i], drag[i], rate[i])], [], resistance[i]) for i in range(80)]
    assert max(abs(float(e - mpmath.mpf(s))) for e, s in zip(exact, slip, strict=True)) < 1e-12


@pytest.mark.parametrize("kind", KINDS)
def test_any_gear_to_twelve_digits(kind):
    wheels, tracks, resistance = running_gear(kind, 60)
    _, peak = peak_mixed(wheels, tracks, resistance)
    for share in SHARES:
        pull = share * (peak + resistance) - resistance
        slip = solve_slip_mixed(pull, wheels, tracks, resistance)
        for i in range(0, 60, 3):
            exact = exact_slip(pull[i], at(wheels, i), at(tracks, i), resistance[i])
            assert abs(float(exact - mpmath.mpf(slip[i]))) < 1e-12, (kind, share, i)


@pytest.mark.parametrize("kind", KINDS)
def test_ten_thousand_rigs_against_a_bracketed_root(kind):
    count = 2500
    wheels, tracks, resistance = running_gear(kind, count, seed=7)
    crest, peak = peak_mixed(wheels, tracks, resistance)
    pull = np.random.default_rng(8).uniform(0.05, 0.9999, count) * (peak + resistance) - resistance
    slip = solve_slip_mixed(pull, wheels, tracks, resistance)
    if kind == "one rate":
        [(reach, drag, rate)] = wheels
        np.testing.assert_allclose(solve_slip_one(pull, reach, resistance, drag, rate), slip, rtol=0, atol=1e-12)
    for i in range(count):
        axles, belts = at(wheels, i), at(tracks, i)

        def misfit(s, axles=axles, belts=belts, rest=resistance[i] + pull[i]):
            total = -rest
            for reach, drag, rate in axles:
                total += reach * (1 - math.exp(-rate * s)) - drag * s
            for thrust, stretch in belts:
                total += thrust * (1 + stretch / s * math.expm1(-s / stretch)) if s else 0.0
            return total

        assert abs(brentq(misfit, 0.0, crest[i], xtol=1e-15, rtol=1e-15) - slip[i]) < 1e-10, (kind, i)


@pytest.mark.parametrize("kind", KINDS)
def test_the_peak_is_the_highest_pull(kind):
    wheels, tracks, resistance = running_gear(kind, 200)
    crest, peak = peak_mixed(wheels, tracks, resistance)
    grid = np.linspace(0.0, 1.0, 2001)[:, None]
    pulls = net_pull(grid, wheels, tracks, resistance)
    assert np.all(pulls.max(axis=0) <= peak + 1e-9)
    np.testing.assert_allclose(net_pull(crest, wheels, tracks, resistance), peak, rtol=1e-13, atol=1e-12)
    np.testing.assert_allclose(grid[pulls.argmax(axis=0), 0], crest, atol=6e-4)


def test_one_step_is_enough_from_flat_to_steep_curves():
    # ln(kA/E) up to 40 (a rig has 2 to 6), from 1e-9 below the peak to next to nothing pulled. What rounding of the
    # pull alone does to the slip (reach * 1e-16 over the slope of the curve there) is all that is allowed.
    rate, drag = 50.0, 10.0
    for log_ratio in (0.01, 0.1, 0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 11.0, 15.0, 20.0, 30.0, 40.0):
        reach = math.exp(log_ratio) * drag / rate
        peak = peak_one(reach, 0.0, drag, rate)[1]
        for gap in (1e-9, 1e-7, 1e-5, 1e-3, 0.03, 0.2, 0.5, 0.9, 0.999, 0.999999):
            pull = peak - gap * peak
            slip = solve_slip_one(pull, reach, 0.0, drag, rate)
            exact = float(exact_slip(pull, [(reach, drag, rate)], [], 0.0) - mpmath.mpf(float(slip)))
            slope = drag * math.expm1(log_ratio - rate * slip)
            assert abs(exact) < 1e-15 + 1e-15 * reach / slope, (log_ratio, gap)


forces = st.floats(5.0, 300.0)
rigs = st.tuples(forces, st.floats(0.0, 30.0), st.floats(1.0, 40.0), st.floats(2.0, 15.0))


@given(rigs, st.floats(0.001, 0.999), st.floats(0.001, 0.999))
def test_slip_rises_with_pull(rig, one, other):
    reach, resistance, drag, rate = rig
    peak = peak_one(*rig)[1]
    pulls = np.sort([one, other]) * (peak + resistance) - resistance
    low, high = solve_slip_one(pulls, *rig)
    assert low <= high or (high == 0.0 and low == 0.0)
    low, high = solve_slip_mixed(pulls, [(reach, drag, rate)], [(reach / 3, 0.05)], resistance)
    assert low <= high


@given(rigs, st.floats(0.0, 1.0), st.sampled_from(["one", "two", "track", "both"]))
def test_the_slip_gives_the_pull_back(rig, share, kind):
    reach, resistance, drag, rate = rig
    axle, belt = (reach, drag, rate), (reach, 0.3 / rate)
    wheels = {"one": [axle], "two": [axle, (reach / 2, drag / 3, rate + 2)], "track": [], "both": [axle]}[kind]
    tracks = [belt] if kind in ("track", "both") else []
    peak = peak_mixed(wheels, tracks, resistance)[1]
    pull = share * (peak + resistance) - resistance
    slips = [solve_slip_mixed(pull, wheels, tracks, resistance)]
    if kind == "one" and pull <= peak_one(*rig)[1]:
        slips.append(solve_slip_one(pull, *rig))
    for slip in slips:
        if np.isnan(slip):
            assert pull > peak  # rounding of share * (peak + C) - C may step over it
        else:
            assert 0.0 <= slip <= 1.0
            assert net_pull(slip, wheels, tracks, resistance) == pytest.approx(pull, abs=1e-12 * (reach + 100))


@given(rigs, st.floats(-1.5, 1.5))
def test_no_answer_exactly_above_the_peak(rig, share):
    reach, resistance, drag, rate = rig
    peak = peak_one(*rig)[1]
    for pull in (share * reach, peak, np.nextafter(peak, np.inf), np.nextafter(peak, -np.inf)):
        slip = solve_slip_one(pull, *rig)
        assert np.isnan(slip) == (pull > peak and pull > -resistance)
        assert slip == 0.0 or pull > -resistance
    wheels, tracks = [(reach, drag, rate)], [(reach, 0.1)]
    peak = peak_mixed(wheels, tracks, resistance)[1]
    for pull in (share * reach, peak, np.nextafter(peak, np.inf)):
        slip = solve_slip_mixed(pull, wheels, tracks, resistance)
        assert np.isnan(slip) == (pull > peak and pull > -resistance)


@given(rigs, st.floats(0.05, 0.999), st.floats(1e-3, 1e6))
def test_the_unit_of_force_does_not_matter(rig, share, factor):
    reach, resistance, drag, rate = rig
    pull = share * (peak_one(*rig)[1] + resistance) - resistance
    slip = solve_slip_one(pull, *rig)
    again = solve_slip_one(pull * factor, reach * factor, resistance * factor, drag * factor, rate)
    assert again == pytest.approx(slip, abs=1e-9, nan_ok=True)
    mixed = [solve_slip_mixed(pull * f, [(reach * f, drag * f, rate)], [(reach * f, 0.1)], resistance * f) for f in (1, factor)]
    assert mixed[0] == pytest.approx(mixed[1], abs=1e-9)


@pytest.mark.slow
@settings(max_examples=5)
@given(st.integers(100_000, 200_000), st.integers(2, 5))
def test_threads_change_no_bit(count, threads):
    reach, resistance, drag, rate = one_rate_rigs(count, seed=count)
    pull = np.random.default_rng(3).uniform(-0.2, 1.1, count) * reach
    single = solve_slip_one(pull, reach, resistance, drag, rate)
    assert np.array_equal(single, solve_slip_one(pull, reach, resistance, drag, rate, threads=threads), equal_nan=True)
    gear = ([(reach, drag, rate)], [(reach / 2, 0.05)], resistance)
    single, several = (solve_slip_mixed(pull, *gear, threads=n) for n in (1, threads))
    assert np.array_equal(single, several, equal_nan=True)


def test_out_is_filled_and_may_be_the_pull_itself():
    reach, resistance, drag, rate = one_rate_rigs(150_000)
    pull = np.random.default_rng(4).uniform(0, 1, reach.size) * peak_one(reach, resistance, drag, rate)[1]
    expected, expected_mixed = solve_slip_one(pull, reach, resistance, drag, rate), None
    expected_mixed = solve_slip_mixed(pull, [(reach, drag, rate)], [], resistance)
    for threads in (1, 2):
        out = pull.copy()
        assert solve_slip_one(out, reach, resistance, drag, rate, out=out, threads=threads) is out
        assert np.array_equal(out, expected)
        out = pull.copy()
        assert solve_slip_mixed(out, [(reach, drag, rate)], [], resistance, out=out, threads=threads) is out
        assert np.array_equal(out, expected_mixed)


def test_inputs_broadcast_in_any_layout():
    reach, resistance, drag, rate = one_rate_rigs(40)
    pull = np.linspace(1.0, 20.0, 1500)[:, None]  # 60,000 points: more than one block
    table = solve_slip_one(pull, reach, resistance, drag, rate)
    mixed = solve_slip_mixed(pull, [(reach, drag, rate)], [(30.0, 0.05)], resistance)
    assert table.shape == mixed.shape == (1500, 40)
    for row, column in ((0, 0), (700, 13), (1499, 39)):
        one = tuple(a[column] for a in (reach, resistance, drag, rate))
        assert table[row, column] == solve_slip_one(pull[row, 0], *one)
        gear = ([(one[0], one[2], one[3])], [(30.0, 0.05)], one[1])
        assert mixed[row, column] == pytest.approx(solve_slip_mixed(pull[row, 0], *gear), abs=1e-13)
    turned = solve_slip_one(np.asfortranarray(np.broadcast_to(pull, (1500, 40))), reach[None], resistance, drag, rate)
    assert np.array_equal(turned, table)
    assert np.isscalar(solve_slip_one(40.0, 100.0, 8.0, 10.0, 7.5))
    assert solve_slip_one(np.empty((0, 3)), 100.0, 8.0, 10.0, 7.5).shape == (0, 3)
    assert solve_slip_mixed([], [(100.0, 10.0, 7.5)], [], 8.0).shape == (0,)


def test_edges_of_the_physics():
    nan = np.nan
    # pushed; held at slip 0; a drag so large that slip never helps; a peak beyond slip 1; no drag; no reach
    pull = np.array([-9.0, -8.0, -7.0, -9.0, 60.0, 60.0, -7.0, -9.0])
    reach = np.array([100.0, 100.0, 10.0, 10.0, 100.0, 100.0, 0.0, 0.0])
    drag = np.array([10.0, 10.0, 90.0, 90.0, 1.0, 0.0, 5.0, 5.0])
    rate = np.array([7.5, 7.5, 7.5, 7.5, 2.0, 7.5, 7.5, 7.5])
    beyond_one = brentq(lambda s: 100 * (1 - math.exp(-2 * s)) - s - 68, 0, 1, xtol=1e-15)
    expected = [0.0, 0.0, nan, 0.0, beyond_one, -math.log(1 - 0.68) / 7.5, nan, 0.0]
    for got in (
        solve_slip_one(pull, reach, 8.0, drag, rate),
        solve_slip_mixed(pull, [(reach, drag, rate)], [], 8.0),
        solve_slip_mixed(pull, [(reach / 2, drag / 2, rate)] * 2, [], 8.0),
    ):
        np.testing.assert_allclose(got, expected, rtol=0, atol=1e-13)
    for crest, peak in (peak_one(reach, 8.0, drag, rate), peak_mixed([(reach, drag, rate)], [], 8.0)):
        np.testing.assert_allclose(crest[2:], [0.0, 0.0, 1.0, 1.0, 0.0, 0.0], atol=1e-12)
        np.testing.assert_allclose(peak[[2, 4]], [-8.0, 100 * (1 - math.exp(-2)) - 9], atol=1e-12)
        assert crest[0] == pytest.approx(math.log(75) / 7.5, abs=1e-8)


def test_drag_too_small_to_matter():
    for drag in (1e-30, 1e-80, 1e-200, 5e-324, 0.0):
        assert solve_slip_one(60.0, 100.0, 8.0, drag, 7.5) == pytest.approx(-math.log(1 - 0.68) / 7.5, abs=1e-15)
        assert solve_slip_mixed(60.0, [(100.0, drag, 7.5)], [], 8.0) == pytest.approx(-math.log(0.32) / 7.5, abs=1e-15)


def test_odd_gear_still_balances():
    # Rates and stretches thousands of times apart bend the curve twice: the start is poor and the steps must not run off.
    rng, count = np.random.default_rng(9), 20_000
    wheels = [
        (rng.uniform(0, 200, count), 10 ** rng.uniform(-6, 1.5, count), 10 ** rng.uniform(-1, 3.5, count)) for _ in range(2)
    ]
    tracks = [(rng.uniform(0, 200, count), 10 ** rng.uniform(-5, 2, count))]
    for gear in ((wheels, tracks), (wheels, []), (wheels[:1], tracks), ([], tracks)):
        crest, peak = peak_mixed(*gear, 10.0)
        assert np.all(net_pull(np.clip(crest + 1e-4, 0, 1), *gear, 10.0) <= peak + 1e-9)
        assert np.all(net_pull(np.clip(crest - 1e-4, 0, 1), *gear, 10.0) <= peak + 1e-9)
        pull = rng.choice([1e-6, 0.01, 0.3, 0.9, 0.999, 1 - 1e-6], count) * (peak + 10.0) - 10.0
        slip = solve_slip_mixed(pull, *gear, 10.0)
        can = peak > -10.0
        assert can.mean() > 0.9
        assert np.all((slip <= crest)[can])
        assert np.abs(net_pull(slip, *gear, 10.0) - pull)[can].max() < 1e-9


def test_a_track_slips_in_proportion_at_first():
    # For small s/K the share in use is s / (2 K): at 1e-9 of the thrust the closed form has lost half its digits.
    assert solve_slip_mixed(1e-7, [], [(100.0, 0.05)], 0.0) == pytest.approx(1e-9 * 2 * 0.05, rel=1e-7)
    share = net_pull(np.array([0.0, 1e-12, 0.01 * 0.999999, 0.01 * 1.000001]), [], [(1.0, 1.0)], 0.0)
    assert share[0] == 0.0
    assert share[1] == pytest.approx(5e-13, rel=1e-12)
    assert share[3] - share[2] == pytest.approx(2e-8 * (1 / 2 - 0.01 / 3 + 0.01**2 / 8), rel=1e-6)


def test_senseless_input_never_gives_a_number():
    for bad in (np.nan, np.inf, -np.inf):
        assert np.isnan(solve_slip_one(bad, 100.0, 8.0, 10.0, 7.5))
        assert np.isnan(solve_slip_mixed(bad, [(100.0, 10.0, 7.5)], [], 8.0))
    good = {"reach": 100.0, "drag": 10.0, "rate": 7.5}
    for name, value in (
        ("reach", -1.0),
        ("drag", -1.0),
        ("rate", 0.0),
        ("rate", -7.5),
        ("drag", np.nan),
        ("reach", np.inf),
    ):
        rig = good | {name: value}
        for pull in (40.0, -40.0):
            assert np.isnan(solve_slip_one(pull, resistance=8.0, **rig)), (name, value, pull)
            assert np.isnan(solve_slip_mixed(pull, [tuple(rig.values())], [], 8.0)), (name, value, pull)
        assert np.isnan(peak_one(resistance=8.0, **rig)).all()
        assert np.isnan(peak_mixed([tuple(rig.values())], [], 8.0)).all()
    both = solve_slip_one(np.array([40.0, 40.0, np.nan]), np.array([100.0, -100.0, 100.0]), 8.0, 10.0, -7.5)
    assert np.isnan(both).all()
    assert np.isnan(solve_slip_mixed(40.0, [], [(100.0, 0.0)], 8.0))
    assert np.isnan(solve_slip_mixed(40.0, [], [(-1.0, 0.1)], 8.0))


def test_errors_name_what_is_wrong():
    with pytest.raises(ValueError, match=r"required_pull \(3,\), reach \(4,\)"):
        solve_slip_one(np.ones(3), np.ones(4), 1.0, 1.0, 7.5)
    with pytest.raises(ValueError, match=r"float32.*np.empty.*threads is 0"):
        solve_slip_one(np.ones(3), 9.0, 1.0, 1.0, 7.5, out=np.empty(3, dtype=np.float32), threads=0)
    with pytest.raises(ValueError, match=r"wheels=\[\(reach, drag, rate\)\]"):
        solve_slip_mixed(1.0, [], [], 1.0)


def test_state_and_missing_pull():
    state, missing = pull_state(np.array([40.0, -9.0, 75.0, np.nan]), 8.0, 70.0)
    expected = [PullState.PULLS, PullState.PUSHED, PullState.CANNOT_PULL, PullState.UNKNOWN]
    assert state.tolist() == expected
    assert len(set(state.tolist())) == len(PullState) == 4, "no two states under one code"
    assert state.dtype == np.int8
    np.testing.assert_array_equal(missing, [0.0, 0.0, 5.0, np.nan])
    assert pull_state(40.0, 8.0, 70.0) == (PullState.PULLS, 0.0)


def test_functions_travel_to_a_worker():
    assert pickle.loads(pickle.dumps(solve_slip_one)) is kernel.solve_slip_one
    rig = one_rate_rigs(1000)
    with ThreadPoolExecutor(2) as pool:
        first, second = pool.map(lambda _: solve_slip_one(20.0, *rig), range(2))
    assert np.array_equal(first, second, equal_nan=True)
