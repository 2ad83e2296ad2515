"""What a reading costs: an update of a grid of points against the chain alone and a loop, and the page against a slider move.

All are ratios in one run. Each side's time is the least of several, taken in turns; should a ratio miss, more turns follow.
"""

import itertools
import math
import time

import numpy as np
import pytest
from least_times import all_meet, least_times

from rigcalc.models.machine import blocks
from rigcalc.models.machine.draws import Draws
from rigcalc.models.machine.field import picked, ranges_of
from rigcalc.models.machine.scores import Layout, draws_of, even_scores
from rigcalc.models.machine.seen import fits
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import demo_rig, replaced
from rigcalc.views.reading.fields import BOX
from rigcalc.widgets import FieldApp, FieldModel

POINTS, LOOP = 1_000_000, 400
_numbers = itertools.count()  # no reading and no depth twice, for what was worked out is held
READ = {
    "date": "2026-11-04",
    "depth": "12 in",
    "speed": "5 mph",
    "slip": "10 percent",
    "load": "90 percent",
    "load_of": "available",
}


@pytest.fixture(scope="module")
def grid():
    """(reading, scores, draws, local factor, weights) of a million points."""
    rig = replaced(demo_rig("articulated"), {"reading": [READ]})
    (seen,), _ = picked(rig, "")
    layout = Layout(1, 1)
    scores = even_scores(POINTS, layout.count)
    drawn = draws_of(scores, layout.day(0), *ranges_of(bare(rig)))
    return seen, scores, drawn, np.exp(seen.spread * scores[:, layout.stretch(0)]), np.full(POINTS, 1 / POINTS)


def updated(seen, scores, drawn, local, weights):
    """Weights after a reading."""
    _, height = fits(seen, scores, drawn, local)
    height -= height.max()
    np.exp(height, out=height)
    height *= weights
    height /= height.sum()
    return height


def one_by_one(seen, scores, drawn, local, count):
    """Likelihoods of the first points, one point after another."""
    out = []
    for at in range(count):
        one = slice(at, at + 1)
        out.append(
            fits(seen, scores[one], Draws(**{name: values[one] for name, values in vars(drawn).items()}), local[one])[1][0]
        )
    return np.exp(np.array(out))


def test_a_grid_of_points_takes_a_reading_at_little_more_than_the_chain(grid):
    seen, scores, drawn, local, _ = grid
    want = ("slip", "engine_share")
    loop, whole = one_by_one(seen, scores, drawn, local, LOOP), updated(*grid)
    assert loop / loop.sum() == pytest.approx(whole[:LOOP] / whole[:LOOP].sum(), rel=1e-9)
    sides = {
        "chain": lambda: blocks.run(seen.rig, local, 1.0, drawn, want, {}, 1),
        "update": lambda: updated(*grid),
        "loop": lambda: one_by_one(seen, scores, drawn, local, LOOP),
    }
    # The ratio per point, turned into one of the times taken.
    targets = {("chain", "update"): 1 / 1.5, ("loop", "update"): 500 * LOOP / POINTS}
    least = least_times(sides, all_meet(targets), turns=4, limit=20)
    each = {name: seconds / (LOOP if name == "loop" else POINTS) * 1e9 for name, seconds in least.items()}
    print("\n" + ", ".join(f"{name} {nanoseconds:.0f} ns a point" for name, nanoseconds in each.items()))
    assert each["update"] <= 1.5 * each["chain"]
    assert each["loop"] >= 500 * each["update"]


@pytest.mark.parametrize("held", [0, 2])
def test_adding_a_reading_costs_at_most_three_moves_of_a_slider(held):
    """From the button to the picture, each time another reading, beside moves of the job's depth on the same page after it."""
    model = FieldModel()
    page = FieldApp(model)

    def fill():
        at = next(_numbers)
        typed = {
            "depth": f"{9 + at / 1000:.3f} in",
            "speed": "5 mph",
            "slip": "6 percent",
            "load": f"{70 + at / 1000:.3f} percent",
        }
        typed |= {"load_of": "available", "date": "2026-11-04"}
        model.edit({BOX + name: text for name, text in typed.items()})

    def timed(side):
        started = time.perf_counter()
        side()
        return time.perf_counter() - started

    for _ in range(held):
        fill()
        model.add()
    adding = moving = math.inf
    for turn in range(20):
        fill()
        adding = min(adding, timed(model.add))
        assert len(model.rig_shown().reading) == held + 1
        for _ in range(2):
            moving = min(moving, timed(lambda: model.edit({"work.depth": f"{9 + next(_numbers) / 1000:.3f} in"})))
        if turn >= 5 and adding <= 3 * moving:
            break
        for _ in range(3):
            model.undo()
    print(f"\nadding reading {held + 1}: {1e3 * adding:.0f} ms, a move {1e3 * moving:.0f} ms")
    page.close()
    assert adding <= 3 * moving
