"""USDA texture classes against two other packages, and against the triangle itself: no gap, no overlap, all twelve."""

import numpy as np
import pedotri
import pytest
import soiltexture
from hypothesis import given, settings
from hypothesis import strategies as st

from rigcalc.core.tables import table
from rigcalc.equations.soil import class_tests, texture_class

CLASSES = {"sand", "loamy sand", "sandy loam", "loam", "silt loam", "silt", "sandy clay loam", "clay loam", "silty clay loam",
           "sandy clay", "silty clay", "clay"}  # fmt: skip
STEP = 0.5  # percent; every printed boundary lies on this grid


def triangle(step):
    """Every grid point of the triangle, edges included."""
    whole = np.arange(0, 100 + step / 2, step)
    sand, clay = (part.ravel() for part in np.meshgrid(whole, whole))
    inside = sand + clay <= 100 + 1e-9
    return sand[inside], clay[inside]


def on_a_boundary(sand, clay):
    """Whether a point lies on a line along which our own classes meet: another class within a hair of it."""
    hair = 1e-4
    around = [(sand + hair * x, clay + hair * y) for x in (-1, 0, 1) for y in (-1, 0, 1)]
    names = np.stack([texture_class.bare(np.clip(s, 0, 100), np.clip(c, 0, 100)) for s, c in around])
    return np.array([len(set(column) - {"no class"}) > 1 for column in names.T])


def on_the_edge(sand, clay):
    """On the border of the triangle a polygon test may miss the point altogether."""
    return (sand == 0) | (clay == 0) | np.isclose(sand + clay, 100)


def test_against_soiltexture():
    sand, clay = triangle(STEP)
    ours = texture_class.bare(sand, clay)
    theirs = np.array([name or "" for name in soiltexture.getTextures(list(sand), list(clay))])
    differ = ours != theirs
    # That package draws each class as a polygon and gives a point on a line to whichever polygon takes it, or to none.
    # Ours follows the words of the manual ("27 or more", "less than 20"), so points on a line may differ. No others.
    assert (on_a_boundary(sand, clay) | on_the_edge(sand, clay))[differ].all()
    assert differ.mean() < 0.08
    off_the_lines = ~(on_a_boundary(sand, clay) | on_the_edge(sand, clay))
    assert off_the_lines.mean() > 0.9
    assert (ours == theirs)[off_the_lines].all()


def test_against_pedotri():
    sand, clay = triangle(STEP)
    ours = texture_class.bare(sand, clay)
    theirs = np.array([name.replace("_", " ") for name in pedotri.classify(list(sand), list(clay), "USDA")])
    differ = ours != theirs
    # The same: polygons, whose lines belong to the first class in the package's list.
    assert on_a_boundary(sand, clay)[differ].all()
    assert (ours == theirs)[~on_a_boundary(sand, clay)].all()
    assert differ.mean() < 0.08


def test_points_off_the_grid_agree_with_both():
    rng = np.random.default_rng(3)
    shares = rng.dirichlet([1, 1, 1], 5000) * 100
    sand, clay = shares[:, 0], shares[:, 2]
    ours = texture_class.bare(sand, clay)
    assert (ours == np.array(soiltexture.getTextures(list(sand), list(clay)))).all()
    assert (ours == [name.replace("_", " ") for name in pedotri.classify(list(sand), list(clay), "USDA")]).all()


def test_all_twelve_and_no_gap():
    sand, clay = triangle(0.25)
    assert set(texture_class.bare(sand, clay)) == CLASSES
    assert {row["texture"] for row in table("soil_groups")} == CLASSES


# A point on each line of the manual (2017, p. 122): the class that its words give the line to.
ON_A_LINE = {
    (45, 40): "clay", (45.5, 40): "sandy clay", (20, 40): "silty clay", (20.5, 40): "clay", (0, 60): "silty clay",
    (45, 35): "clay loam", (45.5, 35): "sandy clay", (20, 27): "silty clay loam", (20.5, 27): "clay loam", (45,
        27): "clay loam",
    (52, 20): "loam", (52.5, 20): "sandy clay loam", (23, 27): "clay loam", (52, 7): "loam", (43, 7): "silt loam",
    (50, 0): "silt loam", (50.5, 0): "sandy loam", (20, 0): "silt", (8, 12): "silt loam", (70, 0): "sandy loam",
    (85, 0): "loamy sand", (85, 15): "sandy loam", (90, 10): "loamy sand", (80, 20): "sandy clay loam", (65, 35): "sandy clay",
    (45, 55): "clay",
}  # fmt: skip


@pytest.mark.parametrize("point", sorted(ON_A_LINE))
def test_on_a_line(point):
    assert texture_class.bare(*point) == ON_A_LINE[point]


def conditions(sand, clay):
    """The manual's sentence for each class, as it is printed, in exact whole numbers of hundredths of a percent."""
    silt = 10_000 - sand - clay
    return [name for name, holds in {
        "sand": silt * 2 + 3 * clay < 3000 and sand > 8500,
        "loamy sand": 7000 <= sand <= 9100 and 2 * silt + 3 * clay >= 3000 and silt + 2 * clay < 3000,
        "sandy loam": (700 <= clay < 2000 and sand > 5200 and silt + 2 * clay >= 3000)
        or (clay < 700 and silt < 5000 and silt + 2 * clay >= 3000),
        "loam": 700 <= clay < 2700 and 2800 <= silt < 5000 and sand <= 5200,
        "silt loam": (silt >= 5000 and 1200 <= clay < 2700) or (5000 <= silt < 8000 and clay < 1200),
        "silt": silt >= 8000 and clay < 1200,
        "sandy clay loam": 2000 <= clay < 3500 and silt < 2800 and sand > 4500,
        "clay loam": 2700 <= clay < 4000 and 2000 < sand <= 4500,
        "silty clay loam": 2700 <= clay < 4000 and sand <= 2000,
        "sandy clay": clay >= 3500 and sand > 4500,
        "silty clay": clay >= 4000 and silt >= 4000,
        "clay": clay >= 4000 and sand <= 4500 and silt < 4000,
    }.items() if holds]  # fmt: skip


@settings(deadline=None, max_examples=500)
@given(st.integers(0, 10_000), st.integers(0, 10_000))
def test_exactly_one_sentence_of_the_manual_holds(first, second):
    sand, clay = sorted((first, second))[0], 10_000 - sorted((first, second))[1]
    assert conditions(sand, clay) == [texture_class.bare(sand / 100, clay / 100)]


def test_each_sentence_stands_on_its_own():
    """Point by point on the lines and beside them, our own sentences hold where the manual's do: none leans on the order of the
    list, and none claims what another has."""
    for step, shift in ((50, 0), (100, 1), (100, 99)):
        whole = np.arange(shift, 10_001, step)
        sand, clay = (part.ravel() for part in np.meshgrid(whole, whole))
        inside = sand + clay <= 10_000
        sand, clay = sand[inside], clay[inside]
        ours = {
            name: test for name, test in class_tests(sand / 100, clay / 100, (10_000 - sand - clay) / 100) if name in CLASSES
        }
        assert (sum(test.astype(int) for test in ours.values()) == 1).all()
        for name, test in ours.items():
            printed = [name in conditions(s, c) for s, c in zip(sand[test].tolist(), clay[test].tolist(), strict=True)]
            assert all(printed), name


def test_over_a_hundred_percent_is_no_class():
    assert texture_class.bare(60.0, 50.0) == "no class"
    assert texture_class.bare(np.array([60.0, np.nan, 50.0]), np.array([50.0, 10.0, 50.0])).tolist() == [
        "no class", "no class", "sandy clay"]  # fmt: skip
