"""How fast the whole chain is, as ratios in one run: a slow machine slows both sides.

The yardstick for arrays is `np.exp(np.log(x)) + y` over as many points; for one answer it is one operating point by the
readable composition, which is as it was when every question solved for itself. Times are the least processor time of
several turns, so that other programs count as little as can be; should a ratio miss its target, more turns follow.
"""

import dataclasses
import time

import numpy as np
import pytest
from known_rigs import KNOWN_RIGS, known_rig
from least_times import least_times

from rigcalc.models import replaced, size
from rigcalc.models.machine import draws as drawing
from rigcalc.models.machine.draws import draws, likely
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare

POINTS = 1_000_000
FOUR = ("slip", "engine_power", "rear_load", "fuel_rate")
MOST = {"four_wheel_drive": 12, "front_wheel_assist": 12, "tracks": 24}
# Half of what an answer took, in readable operating points, when every question solved for itself: measured then
# as 47 to 87 on wheels and 26 to 54 on tracks, the least on a quiet machine.
MOST_POINTS = {"four_wheel_drive": 24, "front_wheel_assist": 24, "tracks": 13}
MOST_DOUBT = 1.25  # what an answer may take with the wider doubt over one without


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_a_million_points_with_four_outputs(name):
    rigs = bare(known_rig(name)).at(depth=np.linspace(5, 40, POINTS), speed=np.linspace(4, 9, POINTS))
    x, y = np.linspace(0.5, 2, POINTS), np.linspace(1, 2, POINTS)
    out = {field: np.empty(POINTS) for field in FOUR}
    sides = {"yardstick": lambda: np.exp(np.log(x)) + y, "chain": lambda: solve(rigs, want=(), out=out)}
    least = least_times(
        sides, lambda least: least["chain"] <= MOST[name] * least["yardstick"], limit=40, clock=time.thread_time
    )
    ratio = least["chain"] / least["yardstick"]
    print(f"\n{name}: the chain takes {ratio:.1f} yardsticks, {least['chain'] / POINTS * 1e9:.0f} ns a point")
    assert ratio <= MOST[name]


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_an_answer_in_operating_points(name):
    rig = known_rig(name)
    b = bare(rig)
    sides = {"answer": lambda: size(rig), "point": lambda: solve(b, record=[])}
    least = least_times(
        sides, lambda least: least["answer"] <= MOST_POINTS[name] * least["point"], turns=12, limit=80, clock=time.thread_time
    )
    ratio = least["answer"] / least["point"]
    print(f"\n{name}: an answer takes {ratio:.1f} operating points")
    assert ratio <= MOST_POINTS[name]


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_what_the_doubt_about_rows_textures_and_wheel_tracks_costs(name, monkeypatch):
    """Beside draws in which the row's range and the cone index alone scatter, deep enough for every doubt to count."""
    rig = replaced(known_rig(name), {"work.depth": "15 in", "ground.texture": "clay loam"})
    middle = likely()

    def narrow(*args, **named):
        held = {field: getattr(middle, field) for field in ("deep", "texture", "behind", "usual")}
        return dataclasses.replace(draws(*args, **named), **held)

    def sized(with_draws):
        monkeypatch.setattr(drawing, "draws", with_draws)
        return size(rig)

    assert sized(narrow).sure != sized(draws).sure
    sides = {"narrow": lambda: sized(narrow), "wide": lambda: sized(draws)}
    least = least_times(
        sides, lambda least: least["wide"] <= MOST_DOUBT * least["narrow"], turns=10, limit=60, clock=time.thread_time
    )
    ratio = least["wide"] / least["narrow"]
    print(f"\n{name}: the wider doubt makes an answer {ratio:.2f} times as long")
    assert ratio <= MOST_DOUBT
