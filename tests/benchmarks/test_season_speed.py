"""Whole seasons against the same by a plain loop over days, as a ratio in one run, and the memory that they take.

50 years of 365 days, 200 draws, four rigs. The loop runs a share of the years, for it is slow; its time is taken for all.
"""

import time
import tracemalloc

import numpy as np

from rigcalc.models.season.finish import Breakdowns, run_seasons

YEARS, DAYS, DRAWS, RIGS = 50, 365, 200, 4
LOOPED = 2  # years that the loop runs
AREA = 4200.0
LEAST, MOST_MEMORY, TRIES = 100, 500e6, 3


def made():
    random = np.random.default_rng(15)
    return random.uniform(0, 1, (YEARS, DAYS)), random.uniform(2, 9, (RIGS, DRAWS))


def loop(fit, rates):
    """Count, day after day and rig after rig, the draws that are done; no breakdowns."""
    done = 0
    for year in fit.tolist():
        for draw in range(rates.shape[1]):
            left = AREA
            for share in year:
                for rig in range(rates.shape[0]):
                    left -= share * rates[rig, draw]
            done += left <= 1e-9
    return done


def ratio():
    fit, rates = made()
    start = time.perf_counter()
    found = run_seasons(fit, AREA, rates.sum(axis=0), 10.0, RIGS, Breakdowns(200.0, 0.0))
    own = time.perf_counter() - start
    start = time.perf_counter()
    done = loop(fit[:LOOPED], rates)
    plain = (time.perf_counter() - start) * YEARS / LOOPED
    assert done == round(float(found.by_year[:LOOPED].sum()) * DRAWS)
    return plain / own


def test_seasons_are_a_hundred_times_a_plain_loop():
    """A ratio that is missed is taken anew, twice at most: another program may have had the processor."""
    ratios = []
    while len(ratios) < TRIES and (not ratios or max(ratios) < LEAST):
        ratios.append(ratio())
    assert max(ratios) >= LEAST, ratios


def test_memory():
    fit, rates = made()
    tracemalloc.start()
    run_seasons(fit, AREA, rates.sum(axis=0), 10.0, RIGS, Breakdowns(200.0, 6.0))
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert most < MOST_MEMORY, f"{most / 1e6:.0f} MB"
