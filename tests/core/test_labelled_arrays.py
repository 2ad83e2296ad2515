"""xarray objects through the edge: coordinates stay, the unit stands in attrs, and what is lazy stays lazy."""

import dask
import dask.array
import numpy as np
import pytest
import xarray
from samples import bare_values, quantities

from rigcalc.core.errors import InputError
from rigcalc.core.units import Q, factor
from rigcalc.equations import load_all

BOOK = load_all()
NUMBERED = sorted(name for name, eq in BOOK.items() if eq.gives.unit != "text" and len(eq.takes) > 1)
every = pytest.mark.parametrize("name", NUMBERED)


def labelled(values, unit, dim):
    return xarray.DataArray(values, dims=[dim], coords={dim: np.arange(len(values)) * 10}, attrs={"units": unit})


@every
def test_keeps_coordinates_and_units(name):
    eq = BOOK[name]
    values = bare_values(eq, (4,))
    first, second = eq.takes[0], eq.takes[1]
    rest = [float(value[0]) for value in values[2:]]
    field, strip = labelled(values[0], first.unit, "field"), labelled(values[1][:3], second.unit, "strip")
    got = eq(field, strip, *quantities_of(eq.takes[2:], rest))
    assert got.dims == ("field", "strip")
    assert got.name == eq.gives.name
    assert got.attrs == {"units": eq.gives.unit, "long_name": eq.gives.text}
    for dim, given in (("field", field), ("strip", strip)):
        xarray.testing.assert_equal(got[dim], given[dim])
    wanted = eq.bare(values[0][:, None], values[1][None, :3], *rest)
    np.testing.assert_allclose(got.values, wanted, rtol=1e-12)
    assert "long_name" not in field.attrs, "what went in is left as it was"


def quantities_of(symbols, values):
    return [Q(value, symbol.unit) for value, symbol in zip(values, symbols, strict=True)]


@every
def test_dask_stays_lazy(name):
    eq = BOOK[name]
    values = bare_values(eq, (6,))
    chunked = [labelled(v, s.unit, "field").chunk(field=2) for v, s in zip(values, eq.takes, strict=True)]

    def refuse(*args, **kwargs):
        raise AssertionError("something was computed before it was asked for")

    with dask.config.set(scheduler=refuse):
        got = eq(*chunked)
    assert got.chunks == ((2, 2, 2),)
    assert isinstance(got.data, dask.array.Array)
    np.testing.assert_allclose(got.compute(scheduler="synchronous").values, eq.bare(*values), rtol=1e-12)


def test_converts_from_attrs_and_from_quantities_inside():
    eq = BOOK["drawbar_power"]
    draft, speed = np.array([1000.0, 2000.0]), 5.0
    by_attrs = eq(labelled(draft, "lbf", "field"), Q(speed, "mph"))
    inside = xarray.DataArray(Q(draft, "lbf"), dims=["field"])
    by_quantity = eq(inside, Q(speed, "mph"))
    wanted = draft * factor("lbf", "kN") * speed * factor("mph", "km/h") / 3.6
    np.testing.assert_allclose(by_attrs.values, wanted, rtol=1e-12)
    np.testing.assert_allclose(by_quantity.values, wanted, rtol=1e-12)


@pytest.mark.parametrize("units", [None, "kg", "Nm", ""])
def test_units_that_are_missing_or_wrong(units):
    eq = BOOK["drawbar_power"]
    draft = xarray.DataArray([1.0, 2.0], dims=["field"], attrs={} if units is None else {"units": units})
    with pytest.raises(InputError, match="draft") as refused:
        eq(draft, 5.0)
    assert len(refused.value.faults) == 2, "the bare speed is named in the same breath"


def test_what_cannot_exist_is_refused_in_labelled_data_too():
    eq = BOOK["tractive_efficiency"]
    slip = labelled(np.array([0.1, 1.5]), "1", "field")
    with pytest.raises(InputError, match="slip"):
        eq(slip, Q(0.4), Q(0.5))
    with pytest.raises(InputError, match="gross_traction_ratio"):
        eq(labelled(np.array([0.1, 0.2]), "1", "field"), Q(0.4), Q(float("nan")))


def test_a_dask_array_in_a_quantity_stays_lazy():
    eq = BOOK["drawbar_power"]
    many = dask.array.from_array(np.arange(1.0, 7.0), chunks=2)
    got = eq(Q(many, "kN"), Q(36.0, "km/h"))
    assert isinstance(got.magnitude, dask.array.Array)
    np.testing.assert_allclose(got.magnitude.compute(scheduler="synchronous"), np.arange(1.0, 7.0) * 10)


def test_texture_of_labelled_data():
    eq = BOOK["texture_class"]
    got = eq(labelled(np.array([20.0, 60.0]), "percent", "field"), labelled(np.array([0.2, 0.1]), "1", "field"))
    assert got.values.tolist() == ["silt loam", "sandy loam"]
    assert quantities(eq, [20.0, 20.0])
