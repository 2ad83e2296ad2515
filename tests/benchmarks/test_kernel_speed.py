"""How much faster the slip kernel is than the usual ways, as ratios in one run: a slow machine slows both sides.

Each side's time is the least of several, taken in turns. Should a ratio miss its target, more turns follow (noise can
only lengthen a time), up to a limit; a kernel that is really too slow fails.
"""

import math

import numpy as np
import pint
import pytest
from least_times import all_meet, least_times
from scipy.optimize import brentq

from rigcalc.models.machine.kernel import peak_one, solve_slip_one

POINTS = 1_000_000


@pytest.fixture(scope="module")
def rigs():
    """(required pull, reach, resistance, drag, rate): pulls 5 to 99.99 % of the peak."""
    rng = np.random.default_rng(11)
    reach, resistance, drag = (rng.uniform(*span, POINTS) for span in ((50, 200), (5, 20), (5, 20)))
    rate = rng.choice([7.5, 9.5], POINTS)
    peak = peak_one(reach, resistance, drag, rate)[1]
    return rng.uniform(0.05, 0.9999, POINTS) * peak, reach, resistance, drag, rate


def newton_on_slip(pull, reach, resistance, drag, rate):
    """Newton on the pull balance: one exp a round, a start good at both ends, stops when all stand still."""
    log_ratio = np.log(rate * reach / drag)
    below = rate * (reach - resistance - pull) / drag - log_ratio - 1
    slip = (log_ratio - np.log1p(below + np.sqrt(2 * below))) / rate
    net = reach - resistance - pull
    for _ in range(20):
        left = reach * np.exp(-rate * slip)
        step = (net - left - drag * slip) / (rate * left - drag)
        slip = slip - step
        if np.abs(step).max() < 1e-7:  # the next error is its square
            break
    return slip


def newton_on_distance(pull, reach, resistance, drag, rate):
    """Newton on exp(y) - 1 - y = d: the kernel's own form of the question, in plain NumPy: the keenest rival."""
    log_ratio = np.log(rate * reach / drag)
    below = rate * (reach - resistance - pull) / drag - log_ratio - 1
    distance = np.log1p(below + np.sqrt(2 * below))
    for _ in range(20):
        slope = np.expm1(distance)
        step = (slope - distance - below) / slope
        distance = distance - step
        if np.abs(step).max() < 1e-7:
            break
    return (log_ratio - distance) / rate


def bracketed(rigs, count):
    """brentq in a loop over plain floats."""
    slips = []
    for pull, reach, resistance, drag, rate in zip(*(values[:count].tolist() for values in rigs), strict=True):

        def misfit(slip):
            return reach * (1 - math.exp(-rate * slip)) - drag * slip - resistance - pull  # noqa: B023

        slips.append(brentq(misfit, 0.0, math.log(rate * reach / drag) / rate, xtol=1e-13))
    return np.array(slips)


def bracketed_with_units(rigs, count, units):
    """The same loop, the residual written with quantities."""
    slips = []
    for pull, reach, resistance, drag, rate in zip(*(values[:count].tolist() for values in rigs), strict=True):
        crest = math.log(rate * reach / drag) / rate
        pull, reach, resistance, drag = (units.Quantity(force, "kN") for force in (pull, reach, resistance, drag))
        rate = units.Quantity(rate, "")

        def misfit(slip):
            slip = units.Quantity(slip, "")
            return (reach * (1 - np.exp(-rate * slip)) - drag * slip - resistance - pull).m_as("kN")  # noqa: B023

        slips.append(brentq(misfit, 0.0, crest, xtol=1e-13))
    return np.array(slips)


def test_faster_than_vectorised_newton(rigs):
    out = np.empty(POINTS)
    expected = solve_slip_one(*rigs)
    assert np.abs(newton_on_slip(*rigs) - expected).max() < 1e-12
    assert np.abs(newton_on_distance(*rigs) - expected).max() < 1e-12
    sides = {
        "kernel": lambda: solve_slip_one(*rigs, out=out),
        "two threads": lambda: solve_slip_one(*rigs, out=out, threads=2),
        "newton": lambda: newton_on_slip(*rigs),
        "keen newton": lambda: newton_on_distance(*rigs),
    }
    targets = {
        ("newton", "kernel"): 2.0,
        ("newton", "two threads"): 3.0,
        ("keen newton", "kernel"): 1.5,
    }
    least = least_times(sides, all_meet(targets))
    print("\n" + ", ".join(f"{name} {seconds / POINTS * 1e9:.1f} ns a point" for name, seconds in least.items()))
    assert np.array_equal(out, expected)
    for (slow, fast), ratio in targets.items():
        assert least[slow] >= ratio * least[fast], f"{fast}: {least[slow] / least[fast]:.2f} times {slow}, not {ratio}"


def test_faster_than_a_bracketed_root_finder(rigs):
    units = pint.UnitRegistry()
    out = np.empty(POINTS)
    loop, with_units = 2000, 20
    expected = solve_slip_one(*rigs)
    assert np.abs(bracketed(rigs, loop) - expected[:loop]).max() < 1e-11
    assert np.abs(bracketed_with_units(rigs, with_units, units) - expected[:with_units]).max() < 1e-11
    sides = {
        "kernel": lambda: solve_slip_one(*rigs, out=out),
        "loop": lambda: bracketed(rigs, loop),
        "loop with units": lambda: bracketed_with_units(rigs, with_units, units),
    }
    # The ratios per point, turned into ratios of the times taken.
    targets = {("loop", "kernel"): 300 * loop / POINTS, ("loop with units", "kernel"): 50_000 * with_units / POINTS}
    least = least_times(sides, all_meet(targets))
    points = {"kernel": POINTS, "loop": loop, "loop with units": with_units}
    each = {name: seconds / points[name] for name, seconds in least.items()}
    print("\n" + ", ".join(f"{name} {seconds * 1e9:.1f} ns a point" for name, seconds in each.items()))
    assert each["loop"] >= 300 * each["kernel"]
    assert each["loop with units"] >= 50_000 * each["kernel"]
