"""Strict calls: what leaves the range of a source is refused, or warned of where it was called."""

import numpy as np
import pytest
import xarray
from samples import bare_values, quantities

from rigcalc.core.equation import Equation
from rigcalc.core.errors import InputError, OutsideRange
from rigcalc.core.units import Q
from rigcalc.equations import load_all

BOOK = load_all()


def test_strict_refuses_what_the_source_does_not_cover():
    eq = BOOK["specific_fuel_consumption"]
    (symbol,) = eq.takes
    assert eq(Q(0.5), strict=True) == eq(Q(0.5)) == eq(Q(0.5), strict=False)
    for value in (Q(0.1), Q(10.0, "percent"), Q(np.array([0.1, 0.5, np.nan]))):
        eq(value)
        with pytest.raises(InputError, match=r"0\.2 to 1") as refused:
            eq(value, strict=True)
        (fault,) = refused.value.faults
        assert symbol.name in fault.where
    with pytest.raises(InputError, match="strict"):
        eq(Q(0.5), strict="yes")


def test_strict_names_every_argument_that_leaves_its_range():
    eq = next(eq for eq in BOOK.values() if len(eq.valid) > 1)
    values = bare_values(eq)
    for place, symbol in enumerate(eq.takes):
        if symbol.name in eq.valid:
            values[place] = eq.valid[symbol.name][1] * 1.01
    with pytest.raises(InputError) as refused:
        eq(*quantities(eq, values), strict=True)
    assert len(refused.value.faults) == len(eq.valid)


def test_strict_warn_warns_where_it_was_called():
    known = BOOK["specific_fuel_consumption"]
    about = {"source": "d497", "where": "", "sure": known.sure, "table": "", "numeric": True, "traced": True, "fitted": False}
    fresh = Equation(known.bare, known.gives, known.takes, valid=known.valid, **about)
    for eq in (fresh, fresh, known):  # at an equation's first call, and later
        with pytest.warns(OutsideRange, match=r"0\.2 to 1") as caught:
            assert eq(Q(0.1), strict="warn").magnitude > 0
        assert [record.filename for record in caught] == [__file__]


def test_labelled_data_are_held_to_the_range_too():
    eq = BOOK["specific_fuel_consumption"]
    field = xarray.DataArray([0.1, 0.5], dims=["field"], attrs={"units": "1"})
    assert eq(field).shape == (2,)
    with pytest.raises(InputError, match=r"0\.2 to 1"):
        eq(field, strict=True)
