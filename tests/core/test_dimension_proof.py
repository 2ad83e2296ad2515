"""Every body without bare constants is run on quantities: its terms must agree in dimension, its result in size.

A body with bare constants has no such proof, so it must have a live row in tests/published.
"""

import tomllib
from pathlib import Path

import pytest
from pint import DimensionalityError
from samples import bare_values, quantities

from rigcalc.core.units import Q, canonical_unit, registry
from rigcalc.equations import load_all

BOOK = load_all()
PROVEN = sorted(name for name, eq in BOOK.items() if not eq.numeric)
NUMERIC = sorted(name for name, eq in BOOK.items() if eq.numeric)

# Bare constants and no worked example in print that gives every number. Each needs a reason.
WITHOUT_A_ROW: dict[str, str] = {}


@pytest.mark.parametrize("name", PROVEN)
def test_dimension_and_value(name):
    eq = BOOK[name]
    values = bare_values(eq)
    got = eq.bare(*quantities(eq, values))
    unit = canonical_unit(eq.gives.unit)
    assert Q(1.0, unit).check(got.dimensionality if hasattr(got, "dimensionality") else "[]")
    assert (got if hasattr(got, "to") else Q(got)).m_as(unit) == pytest.approx(eq.bare(*values), rel=1e-12)


@pytest.mark.parametrize("name", PROVEN)
def test_the_proof_can_fail(name):
    """Another unit for one argument changes the dimension, or the size, or makes the terms disagree."""
    eq = BOOK[name]
    values = bare_values(eq)
    given = quantities(eq, values)
    given[0] = given[0] * Q(2.0, "s")
    try:
        got = eq.bare(*given)
    except DimensionalityError:
        return
    assert (got if hasattr(got, "units") else Q(got)).dimensionality != registry().Unit(
        canonical_unit(eq.gives.unit)
    ).dimensionality


@pytest.mark.parametrize("name", NUMERIC)
def test_bare_constants_have_a_published_row(name):
    live = []
    for path in (Path(__file__).parents[1] / "published").glob("*.toml"):
        page = tomllib.loads(path.read_text(encoding="utf-8"))
        live += [row["id"] for row in page["row"] if "skip" not in row and row.get("equation", page.get("equation")) == name]
    if name in WITHOUT_A_ROW:
        assert not live, f"{name} has rows now: take it off the list"
    else:
        assert live, f"{name} holds bare constants and nothing printed checks them"


def test_the_two_fuel_equations_are_one():
    for load in (0.2, 0.5, 1.0):
        burned = BOOK["fuel_rate"].bare(150.0, load)
        assert burned == pytest.approx(BOOK["specific_fuel_consumption"].bare(load) * load * 150.0, rel=1e-12)
