"""Finding the layer in 50,000 profiles, as a share of the time that reading their numbers from text takes."""

import time

import numpy as np

from rigcalc.models.ground.layers import find_layers

SITES, POINTS, MOST, TURNS = 50_000, 20, 1.0, 4


def test_the_layer_of_fifty_thousand_profiles_costs_less_than_reading_them():
    rng = np.random.default_rng(2)
    depth = np.tile(np.linspace(2.5, 50, POINTS), (SITES, 1))
    reading = 1200 + 2000 * ((depth > 20) & (depth < 32)) + rng.normal(0, 400, depth.shape)
    lines = [" ".join(f"{value:.0f}" for value in row) for row in reading]
    names = tuple(map(str, range(SITES)))
    find = read = np.inf
    for _ in range(TURNS):
        start = time.perf_counter()
        parsed = np.array([list(map(float, line.split())) for line in lines])
        read = min(read, time.perf_counter() - start)
        start = time.perf_counter()
        found = find_layers(names, depth, parsed, 2068.0)
        find = min(find, time.perf_counter() - start)
        if find <= MOST * read:
            break
    assert found.found.mean() > 0.9
    assert find <= MOST * read, f"{find / read:.2f} of the time to read them"
