"""How much faster the angles of failure of a million tines come than by scipy's search in a loop over plain floats."""

import math
import time

import numpy as np
from scipy.optimize import minimize_scalar

from rigcalc.models.machine.failure import FLATTEST, STEEPEST, failure_angle

TINES, LOOPED, TARGET, MOST_TURNS = 1_000_000, 400, 200, 5


def factor(angle, rake, friction, metal, slenderness):
    a, b, f, m = (math.radians(each) for each in (rake, angle, friction, metal))
    cot = 1 / math.tan(b)
    reach = math.sqrt(cot * cot + 2 * cot / math.tan(a))
    return (1 / math.tan(a) + cot) * math.sin(b + f) / (2 * math.sin(a + b + f + m)) * (1 + 2 * slenderness * reach / 3)


def searched(tine):
    most = min(STEEPEST, 180 - sum(tine[:3]) - 1e-6)
    return minimize_scalar(factor, bounds=(FLATTEST, most), args=tine, method="bounded", options={"xatol": 1e-6}).x


def test_a_million_tines_against_a_search_in_a_loop():
    rng = np.random.default_rng(3)
    friction = rng.uniform(5, 45, TINES)
    each = rng.uniform(20, 90, TINES), friction, 0.66 * friction, rng.uniform(1, 8, TINES)
    plain = [tuple(float(values[at]) for values in each) for at in range(LOOPED)]
    ours = theirs = math.inf
    for _ in range(MOST_TURNS):
        start = time.perf_counter()
        angles = failure_angle(*each)
        ours = min(ours, (time.perf_counter() - start) / TINES)
        start = time.perf_counter()
        found = [searched(tine) for tine in plain]
        theirs = min(theirs, (time.perf_counter() - start) / LOOPED)
        if theirs >= TARGET * ours:
            break
    worth = [(factor(float(one), *tine), factor(other, *tine)) for one, other, tine in zip(angles, found, plain, strict=False)]
    assert all(one <= other * (1 + 1e-9) for one, other in worth)
    print(f"wedge: {1e6 * ours:.2f} us a tine, {theirs / ours:.0f} times a scipy loop")
    assert theirs / ours >= TARGET
