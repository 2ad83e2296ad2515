"""Laying passes into many fields, as a ratio to what shapely takes for their areas alone: both in one run."""

import os
import time

import numpy as np
import pytest
import shapely

from rigcalc.models.passes.lay import inside, lay

FIELDS = 1000 if os.environ.get("RIGCALC_LONG") else 100
MOST = 20_000  # times the areas (8,000 to 10,000 on 2026-11-26): an area is some tenths of a microsecond, in C alone


@pytest.fixture(scope="module")
def fields():
    """Odd-shaped fields of about 40 ha, twelve corners each."""
    rng = np.random.default_rng(1)
    made = []
    for _ in range(FIELDS):
        angle = np.sort(rng.uniform(0, 2 * np.pi, 12))
        made.append(shapely.Polygon(np.column_stack([np.cos(angle), np.sin(angle)]) * rng.uniform(250, 450, (12, 1))))
    return [field for field in made if field.is_valid]


def seconds(act):
    start = time.process_time()
    act()
    return time.process_time() - start


def test_passes_of_many_fields_beside_their_areas(fields):
    def areas():
        return [field.area for field in fields]

    def passes():
        return [lay(inside(field, 10, 9.5, 2).inner, 35, 10, 9.5).count for field in fields]

    assert min(passes()) > 5
    ratios = sorted(seconds(passes) / min(seconds(areas) for _ in range(5)) for _ in range(3))
    print(f"passes of {len(fields)} fields take {ratios[0]:,.0f} times as long as their areas")
    assert ratios[0] < MOST


def test_strips_by_edges_are_faster_than_cutting_each_out(fields):
    """Strips by arithmetic on edges; the plain way cuts each out of the field. Three times as fast on 2026-11-26."""
    inner = inside(fields[0], 10, 9.5, 2).inner

    def cut():
        left, low, right, high = inner.bounds
        foot = np.arange(low, high, 9.5)
        return shapely.bounds(shapely.get_parts(shapely.intersection(inner, shapely.box(left, foot, right, foot + 10))))

    ratios = []
    for _ in range(5):
        plain, ours = (min(seconds(act) for _ in range(5)) for act in (cut, lambda: lay(inner, 90, 10, 9.5)))
        ratios.append(plain / ours)
    print(f"strips by edges are {max(ratios):.1f} times as fast as by cutting")
    assert max(ratios) > 1
