"""The least limiting water range of 64 cores, and how many rows the soil's equations are held against."""

import tomllib
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import curve_fit

from rigcalc.core.tables import table
from rigcalc.equations import load_all

PUBLISHED = Path(__file__).parents[1] / "published"
SOIL = ("soil", "soil_water", "stress", "precompression", "contact_shape", "loosening", "wedge", "residue")
AIR, LIMIT, GRAINS = 0.1, 2.0, 2.65  # share of air that roots need; MPa; g/cm3
DENSITIES = np.array([1.27, 1.35, 1.4, 1.45, 1.5, 1.53])


@pytest.fixture(scope="module")
def cores():
    names = ("bulk_density", "soil_water", "penetration", "suction")
    return {name: np.array([row[name] for row in table("penetration_cores")]) for name in names}


@pytest.fixture(scope="module")
def fitted(cores):
    """Resistance as a power law in water and density, by least squares of the resistances themselves."""
    resistance = load_all()["penetration_resistance"].bare

    def law(about, scale, water_power, density_power):
        return resistance(scale, about[0], water_power, about[1], density_power)

    about = (cores["soil_water"], cores["bulk_density"])
    return curve_fit(law, about, cores["penetration"], p0=(0.02, 2.4, 4.0))[0]


def water_at_the_limit(fitted, density):
    scale, water_power, density_power = fitted
    return (scale * density**density_power / LIMIT) ** (1 / water_power)


def test_water_at_two_megapascals_is_as_printed(fitted):
    """The manual of an R package prints 0.2461742 for a density of 1.35, fitted to the same cores (da_silva_1994)."""
    assert water_at_the_limit(fitted, 1.35) == pytest.approx(0.2461742, abs=1e-7)
    back = load_all()["penetration_resistance"].bare(fitted[0], 0.2461742, fitted[1], 1.35, fitted[2])
    assert back == pytest.approx(LIMIT, abs=1e-5)


def test_the_least_limiting_range_narrows_with_density_and_closes(cores, fitted):
    """Wet end: field capacity (100 cm) or a tenth of air; dry end: wilting (15,000 cm) or 2 MPa, as da Silva and others do.

    The manual prints a range of 0.0346 (0.2285 less 0.1939) of the whole set without saying at which density; these cores have
    such a range at a density of 1.50.
    """

    def retention(about, start, per_density, power):
        return np.exp(start + per_density * about[0]) * about[1] ** power

    curve = curve_fit(retention, (cores["bulk_density"], cores["suction"]), cores["soil_water"], p0=(-0.5, -0.1, -0.1))[0]
    air = 1 - DENSITIES / GRAINS - AIR
    drained, wilting = (retention((DENSITIES, suction), *curve) for suction in (100, 15_000))
    hard = water_at_the_limit(fitted, DENSITIES)
    found = np.minimum(drained, air) - np.maximum(wilting, hard)
    assert (np.diff(found[1:]) < 0).all()
    assert (found[:2] > 0.1).all(), "wilting and field capacity or air set it in loose cores"
    assert hard[0] < wilting[0] < hard[2], "resistance sets the dry end from a density of 1.4 on"
    assert found[4] == pytest.approx(0.0346, abs=0.001)
    assert 0 < found[5] < 0.02
    closed = 1.6
    assert 1 - closed / GRAINS - AIR < water_at_the_limit(fitted, closed), "no water suits roots in the densest cores"
    assert cores["bulk_density"].max() > closed


def test_the_soils_equations_are_held_against_sixty_rows_at_least():
    of_soil = {name for name, eq in load_all().items() if eq.__module__.rpartition(".")[2] in SOIL}
    rows = 0
    for path in sorted(PUBLISHED.glob("*.toml")):
        data = tomllib.loads(path.read_text(encoding="utf-8"))
        by_hand = "by hand" in data.get("where", "")
        for row in data["row"]:
            if row.get("equation", data.get("equation")) in of_soil and "expect" in row and not by_hand:
                rows += "by hand" not in row.get("note", "")
    assert rows >= 60
