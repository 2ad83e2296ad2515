"""The quick way through the chain against the readable one, over all kinds of running gear; blocks, outputs by name, out=."""

import tracemalloc

import numpy as np
import pytest
from known_rigs import KNOWN_RIGS, known_rig
from made_rigs import KINDS, many

from rigcalc.models.machine import blocks
from rigcalc.models.machine.grip import RATE, fit
from rigcalc.models.machine.operating_point import NAMES, UNITS, Point, solve
from rigcalc.models.rig.bare import bare

FOUR = ("slip", "engine_power", "rear_load", "fuel_rate")


FROM_FORCE = ("axle_force", "axle_power", "pto_power", "engine_power", "engine_share", "tractive_efficiency", "fuel_rate",
              "fuel_per_area", "def_rate")  # fmt: skip


def by_the_book(rigs, **factors):
    """The readable composition: every equation of the book through `use`, none left out."""
    with np.errstate(divide="ignore", invalid="ignore"):
        return solve(rigs, record=[], **factors)


def same(quick, book, least_slip=-1.0):
    """All outputs agree to 1e-12. Under `least_slip` only those that don't come from gross traction are compared."""
    for name in NAMES:
        a, b = np.broadcast_arrays(getattr(quick, name), getattr(book, name))
        assert (np.isnan(a) == np.isnan(b)).all(), name
        if name in FROM_FORCE:
            kept = ~(np.broadcast_to(book.slip, b.shape) <= least_slip)
            a, b = a[kept], b[kept]
        # Within rounding of the greatest force, power or share in the set: slip itself stands by its own size of 1.
        np.testing.assert_allclose(a, b, rtol=1e-12, atol=1e-12, err_msg=name)


@pytest.mark.parametrize("kind", list(KINDS))
@pytest.mark.parametrize("grade", [None, -12.0])
def test_quick_is_the_book_to_1e_12(kind, grade):
    count = 3000
    rigs = many(kind, count, seed=8)
    if grade is not None:  # downhill many are pushed
        rigs = rigs.at(grade=np.full(count, grade))
    rng = np.random.default_rng(3)
    factors = {"draft_factor": rng.uniform(0.1, 1.6, count), "cone_factor": rng.uniform(0.6, 1.4, count)}
    book = by_the_book(rigs, **factors)
    with np.errstate(divide="ignore", invalid="ignore"):
        quick = solve(rigs, **factors)
    assert np.isfinite(book.slip).sum() > count / 10
    # The track equation as printed takes nearly equal numbers from each other at small slips, and loses digits by it.
    same(quick, book, least_slip=1e-3 if "track" in kind else -1.0)
    if "track" in kind:
        np.testing.assert_allclose(quick.axle_force, book.axle_force, rtol=1e-4, atol=1e-4)


@pytest.mark.parametrize("kind", list(KINDS))
def test_blocks_and_threads_change_nothing(kind, monkeypatch):
    count = 5000
    rigs = many(kind, count, seed=9)
    with np.errstate(divide="ignore", invalid="ignore"):
        whole = solve(rigs)
    monkeypatch.setattr(blocks, "BLOCK", 512)
    monkeypatch.setattr(blocks, "_WHOLE_UP_TO", 600)
    for threads in (1, 2):
        same(solve(rigs, threads=threads), whole)


def test_blocks_broadcast_like_the_whole(monkeypatch):
    b = bare(known_rig())
    depth, factor = np.linspace(10, 50, 40)[:, None], np.linspace(0.6, 1.4, 33)
    whole = solve(b.at(depth=depth), draft_factor=factor)
    monkeypatch.setattr(blocks, "BLOCK", 100)
    monkeypatch.setattr(blocks, "_WHOLE_UP_TO", 100)
    cut = solve(b.at(depth=depth), draft_factor=factor)
    assert np.shape(cut.slip) == (40, 33)
    same(cut, whole)


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_only_what_is_wanted(name):
    b = bare(known_rig(name))
    point, whole = solve(b, want=FOUR), solve(b)
    for field in NAMES:
        value = getattr(point, field)
        assert (value == getattr(whole, field)) if field in FOUR else value is None
    assert set(vars(Point())) == set(UNITS)


def test_outputs_are_written_where_asked():
    b = bare(known_rig())
    depth = np.linspace(10, 50, 40_000)
    out = {"slip": np.empty(40_000), "engine_power": np.full(40_000, -1.0)}
    point = solve(b.at(depth=depth), want=("slip",), out=out)
    whole = solve(b.at(depth=depth), want=FOUR)
    assert point.slip is out["slip"]
    np.testing.assert_array_equal(out["slip"], whole.slip)
    np.testing.assert_array_equal(out["engine_power"], whole.engine_power)
    small = {"slip": np.empty(3)}
    solve(b.at(depth=depth[:3]), want=(), out=small)
    np.testing.assert_array_equal(small["slip"], whole.slip[:3])


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_no_points_give_no_points(name):
    """A search that leaves no set over asks about an empty array."""
    b = bare(known_rig(name))
    point = solve(b.at(front_weight=np.empty(0), rear_weight=np.empty(0)))
    for field in NAMES:
        assert np.shape(getattr(point, field)) == (0,), field


def test_faults_are_named_all_at_once():
    b = bare(known_rig()).at(depth=np.linspace(10, 50, 5))
    with pytest.raises(ValueError, match=r"no output is named slipp, draught; there are depth"):
        solve(b, want=("slipp", "draught"))
    with pytest.raises(ValueError, match=r"out slip is a float64 array of shape \(3,\).*np\.empty\(\(5,\)\).*threads is 0"):
        solve(b, out={"slip": np.empty(3)}, threads=0)


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_a_million_points_need_no_150_megabytes(name):
    count = 1_000_000
    rigs = bare(known_rig(name)).at(depth=np.linspace(5, 40, count), speed=np.linspace(4, 9, count))
    factor = np.linspace(0.8, 1.2, count)
    tracemalloc.start()
    try:
        solve(rigs, draft_factor=factor, cone_factor=factor[::-1], want=FOUR, threads=2)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert peak < 150e6, f"{peak / 1e6:.0f} MB"


@pytest.mark.parametrize("kind", list(RATE))
def test_the_constants_are_those_of_the_book(kind):
    """brixius_1987 and zoz_grisso_2003 as the book has them: read back to the last digits."""
    f = fit(kind)
    start, floor, rolling = (0.0325, 0.0325, 0.9) if kind == "radial" else (0.04, 0.04, 1.0)
    wanted = (start, 0.88, 0.1, floor, rolling, 0.5)
    assert (f.start, f.reach, f.decay, f.floor, f.rolling, f.drag) == pytest.approx(wanted, rel=1e-13)
