"""All equations by odd values: each call gives real numbers of its own, or is refused in words."""

import decimal
import fractions
import os
import random

import numpy as np
import pytest

import rigcalc
from rigcalc import InputError, Q, load_all
from rigcalc.core.units import registry
from rigcalc.models.rig.file import DEMO_RIGS

MANY = int(os.environ.get("RIGCALC_HOSTILE", "0")) or 25
SCALARS = [
    *(0.0, -1.0, 1e-300, 5e-324, 1e300, 1e308, float("inf"), float("nan"), 1j, 0, 10**400, True, 0.5, 3.0, 45.0, 1e6),
    *(np.float32(2.0), np.int8(100), np.longdouble(1), decimal.Decimal("1.5"), fractions.Fraction(1, 3), "2",
      None, np.bool_(True)),
]  # fmt: skip
ARRAYS = [
    *(np.array([1.0, np.inf]), np.array([1j, 2]), np.array([1, "a"], object), np.array(["a"]), np.array([True, False])),
    *(np.ma.array([1.0, -2.0], mask=[0, 1]), np.array([]), np.array([1.0, np.nan]), np.array([[1.0], [2.0]]), np.arange(3)),
    *(np.array(["2020-01-01"], "M8[D]"), np.array(1.0), np.full(5000, 1j), [1, [2, 3]]),
]
UNITS = ["", "m", "kg", "kN", "kPa", "deg", "percent", "degC", "km/h", "hp", "rad"]


@pytest.mark.parametrize("name", sorted(load_all()))
@pytest.mark.filterwarnings("ignore::RuntimeWarning")  # an array of odd values may divide by zero; a gap shows where
def test_an_equation_by_odd_values(name):
    eq = load_all()[name]
    chance = random.Random(name)
    for _ in range(MANY):
        args = []
        for symbol in eq.takes:
            value = chance.choice(ARRAYS) if chance.random() < 0.15 else chance.choice(SCALARS)
            value = 0.5 if chance.random() < 0.5 else value
            unit = chance.choice(UNITS) if chance.random() < 0.1 or symbol.unit == "text" else symbol.unit
            try:
                args.append(Q(value, unit))
            except InputError:
                args.append(value)
        try:
            result = eq(*args)
        except InputError:
            continue
        bare = getattr(result, "_magnitude", result)
        if isinstance(bare, np.ndarray):
            assert bare.__class__ is np.ndarray
            assert not any(np.shares_memory(bare, np.asarray(arg._magnitude)) for arg in args)
        elif not isinstance(bare, str):
            assert np.isfinite(bare), (args, result)


@pytest.mark.parametrize(
    "values",
    [
        np.ma.array([0.1, 0.2], mask=[0, 1]),
        np.array([0.1, np.inf]),
        np.array([0.1j]),
        np.array([0.1], object),
        np.full(9000, 1j),
    ],
    ids=["masked", "inf", "complex", "object", "large complex"],
)
def test_arrays_that_are_refused(values):
    with pytest.raises(InputError, match="slip"):
        load_all()["no_slip_speed"](Q(5, "mph"), registry().Quantity(values, ""))  # `Q` itself refuses some


@pytest.mark.parametrize("unit", ["km/h", "mph"])
def test_a_whole_number_beyond_all_floats_is_refused(unit):
    for _ in range(2):  # at the first call in these units, and later
        with pytest.raises(InputError, match="travel_speed"):
            load_all()["no_slip_speed"](Q(10**400, unit), Q(0.5))
        assert load_all()["no_slip_speed"](Q(5, unit), Q(0.5)) == Q(10, unit)


def test_degrees_are_no_slip_and_a_share_no_angle():
    book = load_all()
    with pytest.raises(InputError, match="slip"):
        book["no_slip_speed"](Q(5, "mph"), Q(10, "deg"))
    assert book["no_slip_speed"](Q(5, "mph"), Q(10, "percent")).magnitude > 0


@pytest.mark.parametrize("units", ["imperial", "", 5, [], "US"])
def test_an_unknown_system_of_units(units):
    answer = rigcalc.size(DEMO_RIGS[0])
    with pytest.raises(InputError, match="units"):
        rigcalc.in_words(answer, units)
    with pytest.raises(InputError, match="units"):
        rigcalc.ballast(DEMO_RIGS[0], units=units)


@pytest.mark.parametrize("dose", [0.0, 0.05, 0.7, 50.0, [0.2, 0.7]])
def test_brine_never_gives_what_is_no_number(dose):
    with pytest.raises(InputError, match="mix table"):
        load_all()["brine_gain_over_water"](Q(dose, "kg/L"))


@pytest.mark.filterwarnings("ignore::RuntimeWarning")
def test_results_share_no_memory_with_arguments():
    for name, eq in load_all().items():
        args = [np.full(4, 0.5) for _ in eq.takes]
        try:
            result = eq(
                *(Q(arg, "" if symbol.unit == "text" else symbol.unit) for arg, symbol in zip(args, eq.takes, strict=True))
            )
        except InputError:
            continue
        bare = getattr(result, "_magnitude", result)
        assert not any(np.shares_memory(bare, arg) for arg in args), name
