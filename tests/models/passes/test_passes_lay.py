"""Passes in a field: closed forms for plain shapes, facts of every shape, and the union of passes covers the inside."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from rigcalc.models.passes.lay import HAIR, LEFT_OVER, inside, lay


def rectangle(wide, high, at=0.0):
    return shapely.affinity.rotate(shapely.box(0, 0, wide, high), -at, origin=(0, 0))  # clockwise, as a compass


def test_a_rectangle_along_and_across():
    """800 by 400 m, 10 m wide, no overlap, two rounds: 36 passes of 760 m, or 76 of 360 m."""
    found = inside(rectangle(800, 400), 10, 10, 2)
    assert found.area == pytest.approx(0.1 * 760 * 360 / 1000)
    assert found.edges == pytest.approx(2 * (790 + 390) + 2 * (770 + 370))
    assert found.corners == 8
    along, across = lay(found.inner, 90, 10, 10), lay(found.inner, 0, 10, 10)
    assert (along.count, along.length) == (36, pytest.approx(36 * 760))
    assert (across.count, across.length) == (76, pytest.approx(76 * 360))
    for laid in (along, across):
        assert laid.ends == pytest.approx(0, abs=1e-9)
        assert laid.lap == pytest.approx(0, abs=1e-9)
        assert laid.travel == pytest.approx(0, abs=1e-6)


def test_rounds_overlap_as_passes_do():
    """10 m wide at a spacing of 9.5: lines 5 and 14.5 m from the boundary, and the inside begins at 19 m."""
    found = inside(rectangle(800, 400), 10, 9.5, 2)
    assert found.area * 1e4 == pytest.approx(762 * 362)
    assert found.edges == pytest.approx(2 * (790 + 390) + 2 * (771 + 371))
    bounds = [(*ring.min(axis=0), *ring.max(axis=0)) for ring in found.rings]
    assert bounds == [pytest.approx((5, 5, 795, 395)), pytest.approx((14.5, 14.5, 785.5, 385.5))]


def test_overlap_and_a_last_pass_that_is_too_wide():
    """360 m at a spacing of 9.5 m: ceil(350 / 9.5) + 1 = 38 passes; they reach 361.5 m, of which 1.5 lie in the headland."""
    laid = lay(rectangle(760, 360), 90, 10, 9.5)
    assert laid.count == 38
    assert laid.ends * 1e4 == pytest.approx(760 * 1.5)
    assert laid.lap * 1e4 == pytest.approx(37 * 0.5 * 760)


@pytest.mark.parametrize("heading", [0, 17, 90, 133.3])
def test_turning_field_and_heading_together_changes_nothing(heading):
    here, there = (lay(rectangle(700, 300, at), 35 + at, 9, 8.6) for at in (0.0, heading))
    assert there.count == here.count
    assert there.length == pytest.approx(here.length, rel=1e-9)
    assert there.ends == pytest.approx(here.ends, rel=1e-6)


def test_point_rows_of_a_triangle():
    """Right triangle of 600 by 300 m along its long side: each strip ends where its lower side does."""
    triangle = shapely.Polygon([(0, 0), (600, 0), (0, 300)])
    laid = lay(triangle, 90, 10, 10)
    assert laid.count == 30
    # Strip k begins at height 10 k, where the triangle is 600 - 20 k long: the tool works that whole length.
    assert laid.length == pytest.approx(sum(600 - 20 * k for k in range(30)), rel=1e-4)
    assert laid.ends * 1e4 == pytest.approx(30 * 0.5 * 10 * 20, rel=1e-3)


def test_an_ellipse_of_many_corners():
    """Axes of 400 and 250 m: the strips together are as long as the widest place in each."""
    turn = np.linspace(0, 2 * np.pi, 721)[:-1]
    ellipse = shapely.Polygon(np.column_stack([200 * np.cos(turn), 125 * np.sin(turn)]))
    laid = lay(ellipse, 90, 10, 10)
    foot = -125 + 10 * np.arange(25)
    nearest = np.clip(0, foot, foot + 10)  # height in each strip at which the ellipse is widest
    assert laid.count == 25
    assert laid.length == pytest.approx(float((400 * np.sqrt(1 - (nearest / 125) ** 2)).sum()), rel=1e-3)
    assert inside(ellipse, 10, 10, 2).corners == 0


def test_passes_stop_at_a_hole_and_blocks_are_driven_one_after_the_other():
    field = shapely.Polygon([(0, 0), (400, 0), (400, 200), (0, 200)], [[(150, 50), (250, 50), (250, 150), (150, 150)]])
    laid = lay(field, 90, 10, 10)
    assert laid.count == 5 + 2 * 10 + 5
    assert laid.length == pytest.approx(10 * 400 + 20 * 150)
    crossing = shapely.MultiLineString(list(laid.lines)).intersection(shapely.box(151, 51, 249, 149))
    assert crossing.length == pytest.approx(0, abs=1e-9)
    middle = laid.lines.mean(axis=1)[:, 0]
    sides = [side for side in np.sign(middle - 200).round() if side]  # left and right of the hole, in driving order
    assert sum(a != b for a, b in pairwise(sides)) == 1
    assert laid.travel == pytest.approx(float(np.maximum(np.linalg.norm(
        laid.lines[1:, 0] - laid.lines[:-1, 1], axis=1) - 10, 0).sum()))  # fmt: skip


def test_neighbours_are_driven_to_and_fro():
    lines = lay(rectangle(300, 100), 90, 10, 10).lines
    along = np.sign(lines[:, 1, 0] - lines[:, 0, 0])
    assert (along[1:] == -along[:-1]).all()
    assert np.linalg.norm(lines[1:, 0] - lines[:-1, 1], axis=1) == pytest.approx(10)


def test_a_wider_tool_makes_fewer_passes_and_more_rounds_a_smaller_inside():
    field = rectangle(500, 300, 20)
    counts = [lay(inside(field, w, w, 1).inner, 110, w, w).count for w in (5, 10, 15)]
    areas = [inside(field, 10, 10, rounds).area for rounds in range(5)]
    assert counts == sorted(counts, reverse=True)
    assert areas == sorted(areas, reverse=True)
    assert areas[0] == pytest.approx(15)


def test_fewer_rounds_where_there_is_no_room():
    narrow = rectangle(300, 35)
    assert [inside(narrow, 10, 10, rounds).rounds for rounds in (0, 1, 2, 5)] == [0, 1, 1, 1]
    assert inside(rectangle(300, 15), 10, 10, 2).rounds == 0
    assert inside(rectangle(300, 15), 10, 10, 2).edges == 0


@st.composite
def fields(draw):
    """A star-shaped field, mostly not convex, with a hole in some."""
    corners = draw(st.integers(3, 14))
    radii = draw(st.lists(st.floats(50, 200), min_size=corners, max_size=corners))
    turn = np.arange(corners) / corners * 2 * np.pi + draw(st.floats(0, 1))
    outer = np.column_stack([np.cos(turn), np.sin(turn)]) * np.array(radii)[:, None]
    field = shapely.Polygon(outer)
    if draw(st.booleans()):
        field = field.difference(shapely.Point(draw(st.floats(-50, 50)), 0).buffer(draw(st.floats(5, 40)), quad_segs=3))
    return max(shapely.get_parts(field), key=lambda part: part.area)


def swept(laid, width):
    """The ground that passes work, as one shape."""
    return shapely.union_all([shapely.LineString(line).buffer(width / 2 + 1e-6, cap_style="flat") for line in laid.lines])


@settings(max_examples=40, deadline=None)
@given(fields(), st.floats(0, 360), st.floats(3, 20), st.floats(0, 0.3), st.integers(0, 3))
def test_the_union_of_passes_covers_the_inside(field, heading, width, lap, rounds):
    spacing = width * (1 - lap)
    part = inside(field, width, spacing, rounds)
    laid = lay(part.inner, heading, width, spacing)
    missed = part.inner.difference(swept(laid, width))
    # A hair at a strip's side, a hand's breadth beside the last pass, and a piece shorter than a hand may be left.
    assert missed.buffer(-LEFT_OVER / 2 - HAIR).area < 0.15 * width
    assert laid.length * width / 1e4 == pytest.approx(part.area + laid.ends + laid.lap, rel=1e-3, abs=1e-4)
    assert laid.length == pytest.approx(float(np.linalg.norm(laid.lines[:, 1] - laid.lines[:, 0], axis=1).sum()))
    bearing = np.rad2deg(np.arctan2(*(laid.lines[0, 1] - laid.lines[0, 0])))
    assert min((bearing - heading) % 180, (heading - bearing) % 180) < 1e-6


@settings(max_examples=20, deadline=None)
@given(fields(), st.floats(0, 180), st.floats(3, 12), st.floats(0, 0.3), st.integers(1, 3))
def test_with_a_round_the_tool_leaves_the_field_by_no_more_than_the_overlap(field, heading, width, lap, rounds):
    spacing = width * (1 - lap)
    part = inside(field, width, spacing, rounds)
    laid = lay(part.inner, heading, width, spacing)
    if part.rounds:
        beyond = swept(laid, width - 2e-6).difference(field.buffer(width - spacing + 0.02, join_style="mitre"))
        assert beyond.area < 0.05 + 0.02 * width
