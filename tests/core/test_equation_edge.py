"""The edge of every equation of the book: what goes in, what comes out, and what is refused with which words."""

import copy
import pickle
import re
from decimal import Decimal

import numpy as np
import pytest
import xarray
from samples import bare_values, quantities

from rigcalc.core.equation import Equation
from rigcalc.core.errors import InputError
from rigcalc.core.units import ALLOWED, Q, canonical_unit, registry
from rigcalc.equations import load_all

BOOK = load_all()
NUMBERED = [name for name, eq in BOOK.items() if eq.gives.unit != "text"]
every = pytest.mark.parametrize("name", sorted(BOOK))
every_numbered = pytest.mark.parametrize("name", NUMBERED)


def other_unit(unit):
    """A unit of the same dimension and another size: each name replaced by another of its kind."""
    others = {"m": "ft", "cm": "in", "km": "mi", "h": "min", "N": "lbf", "kN": "lbf", "kPa": "psi", "kW": "hp", "L": "gal",
              "ha": "acre", "kg": "lb", "day": "h", "deg": "rad", "percent": "1", "rpm": "rad/s", "s": "min", "g": "lb",
              "t": "lb", "MPa": "psi", "mm": "in", "rad": "deg"}  # fmt: skip
    if unit == "1":
        return "percent"
    text = canonical_unit(unit)
    names = sorted(set(re.findall(r"[A-Za-z]+", text)))
    return re.sub(r"[A-Za-z]+", lambda match: others[match.group()], text) if names else text


@every
def test_same_answer_in_other_units(name):
    eq = BOOK[name]
    values = bare_values(eq)
    wanted = eq(*quantities(eq, values))
    swapped = [Q(value, symbol.unit).to(other_unit(symbol.unit) if other_unit(symbol.unit) != "1" else "")
               for value, symbol in zip(values, eq.takes, strict=True)]  # fmt: skip
    assert any(a.units != b.units for a, b in zip(swapped, quantities(eq, values), strict=True))
    got = eq(*swapped)
    if eq.gives.unit == "text":
        assert got == wanted
    else:
        assert got.units == wanted.units
        assert got.magnitude == pytest.approx(wanted.magnitude, rel=1e-12)


@every
def test_call_equals_bare(name):
    eq = BOOK[name]
    values = bare_values(eq)
    got, bare = eq(*quantities(eq, values)), eq.bare(*values)
    if eq.gives.unit == "text":
        assert got == bare == eq.numbers(*values)
    else:
        assert got.magnitude == bare == eq.numbers(*values)
        assert got.units == registry().Unit(canonical_unit(eq.gives.unit))
        assert np.isfinite(bare)


@every
def test_shapes(name):
    eq = BOOK[name]
    alone = [float(v) for v in bare_values(eq)]
    for shape in ((3,), (2, 3), (0,), (1, 1), (2, 0, 3)):
        many = bare_values(eq, shape)
        got = eq(*quantities(eq, many))
        values = got if eq.gives.unit == "text" else got.magnitude
        assert values.shape == shape
        for place in np.ndindex(shape):
            one = eq.bare(*[float(v[place]) for v in many])
            assert values[place] == one if eq.gives.unit == "text" else values[place] == pytest.approx(one, rel=1e-13)
    # a row and a column broadcast, whichever two arguments they are
    if len(eq.takes) > 1:
        mixed = [*alone]
        mixed[0], mixed[-1] = np.full((3, 1), alone[0]), np.full((4,), alone[-1])
        got = eq(*quantities(eq, mixed))
        assert (got if eq.gives.unit == "text" else got.magnitude).shape == (3, 4)
    whole = eq(*quantities(eq, [np.float64(v) for v in alone]))
    assert whole == eq(*quantities(eq, alone))


@every
def test_bare_numbers_are_refused_all_at_once(name):
    eq = BOOK[name]
    for bad in (1.0, 1, np.float64(1), np.ones(3), [1.0], "1", None, True):
        with pytest.raises(InputError) as refused:
            eq(*[bad] * len(eq.takes))
        faults = refused.value.faults
        assert len(faults) == len(eq.takes)
        for fault, symbol in zip(faults, eq.takes, strict=True):
            assert symbol.name in fault.where
            assert symbol.text in fault.where
            assert "no unit" in fault.got
            example = fault.type_this.removeprefix("for example ")
            typed = eval(example, {"Q": Q})  # what the error says to type is accepted
            assert typed.dimensionality == Q(1.0, symbol.unit).dimensionality


@every
def test_only_the_bad_arguments_are_named(name):
    eq = BOOK[name]
    given = quantities(eq, bare_values(eq))
    for place, symbol in enumerate(eq.takes):
        wrong = [*given]
        wrong[place] = Q(1.0, "kg**2*s")
        with pytest.raises(InputError) as refused:
            eq(*wrong)
        (fault,) = refused.value.faults
        assert symbol.name in fault.where
        assert "kilogram" in fault.got or "kg" in fault.got
    with pytest.raises(InputError) as refused:
        eq(*[Q(1.0, "kg**2*s")] * len(given))
    assert len(refused.value.faults) == len(given)


@every
def test_values_that_cannot_exist_are_refused(name):
    eq = BOOK[name]
    values = bare_values(eq)
    for place, symbol in enumerate(eq.takes):
        bad = [float("nan"), float("inf"), float("-inf")]
        bad += [symbol.least - 0.5] if np.isfinite(symbol.least) else []
        bad += [symbol.most * 1.01 + 0.01] if np.isfinite(symbol.most) else []
        for value in bad:
            for made in (value, np.float64(value), np.array(value)):
                tried = [*values]
                tried[place] = made
                with pytest.raises(InputError) as refused:
                    eq(*quantities(eq, tried))
                (fault,) = refused.value.faults
                assert symbol.name in fault.where
        for value in bad[3:]:  # in an array a gap (NaN) stays a gap, but what can't exist is refused
            tried = [*values]
            tried[place] = np.array([values[place], value])
            with pytest.raises(InputError):
                eq(*quantities(eq, tried))


@every_numbered
def test_a_gap_in_an_array_stays_a_gap(name):
    eq = BOOK[name]
    values = bare_values(eq)
    values[0] = np.array([values[0], np.nan])
    got = eq(*quantities(eq, values)).magnitude
    assert np.isfinite(got[0])
    assert np.isnan(got[1])


@every_numbered
def test_the_quantity_is_an_ordinary_one(name):
    eq = BOOK[name]
    given = quantities(eq, bare_values(eq))
    eq(*given)  # the first call goes by the constructor, later ones by the short way
    fast = eq(*given)
    slow = registry().Quantity(fast.magnitude, canonical_unit(eq.gives.unit))
    assert type(fast) is type(slow)
    assert fast == slow
    assert fast.units == slow.units
    assert vars(fast).keys() <= vars(slow).keys() | {"_dimensionality"}
    assert str(fast) == str(slow)
    assert hash(fast) == hash(slow)
    assert fast + slow == 2 * slow
    assert (fast * slow).units == (slow * slow).units
    assert (fast / slow).to("").magnitude == pytest.approx(1.0)
    assert fast.to_base_units() == slow.to_base_units()
    assert fast.dimensionality == slow.dimensionality
    assert copy.deepcopy(fast) == slow
    assert pickle.loads(pickle.dumps(fast)) == slow
    scaled = fast * 2  # arithmetic on a result leaves later results alone
    scaled.ito_base_units()
    assert eq(*given) == slow


@every
def test_pickled_by_name(name):
    assert pickle.loads(pickle.dumps(BOOK[name])) is BOOK[name]
    assert pickle.loads(pickle.dumps(BOOK[name].numbers))(*bare_values(BOOK[name])) == BOOK[name].bare(*bare_values(BOOK[name]))


@every
def test_keywords_in_any_order(name):
    eq = BOOK[name]
    given = quantities(eq, bare_values(eq))
    named = dict(zip((symbol.name for symbol in eq.takes), given, strict=True))
    assert eq(**dict(reversed(named.items()))) == eq(*given)
    last = eq.takes[-1].name
    assert eq(*given[:-1], **{last: named[last]}) == eq(*given)
    with pytest.raises(InputError, match="nothing") as refused:
        eq()
    assert len(refused.value.faults) == len(eq.takes)
    with pytest.raises(InputError, match="doesn't take"):
        eq(**named, colour=given[0])
    with pytest.raises(InputError, match="twice"):
        eq(given[0], **named)
    with pytest.raises(InputError, match="arguments"):
        eq(*given, given[0])


@every
def test_says_what_it_is(name):
    eq = BOOK[name]
    for part in (eq.source.title, eq.sure, eq.gives.text, *(f"{s.name} [{s.unit}]" for s in eq.takes)):
        assert part in eq.__doc__
    assert repr(eq).startswith(f"{name}(")
    assert "." in eq.summary
    assert eq.summary == eq.__doc__.split("\n")[0]


def test_a_first_bad_call_does_not_spoil_the_next():
    eq = BOOK["drawbar_power"]
    good = (Q(10.0, "kN"), Q(36.0, "km/h"))
    for bad in ((Q(10.0, "kg"), Q(36.0, "km/h")), (Q(10.0, "degC"), good[1]), (Q(10.0, "kN"), Q(1.0, ""))):
        with pytest.raises(InputError):
            eq(*bad)
        assert eq(*good).m_as("kW") == pytest.approx(100)
        with pytest.raises(InputError):
            eq(*bad)


def test_whole_numbers_do_not_wrap():
    small = np.array([100], dtype=np.int8)
    assert BOOK["drawbar_power"](Q(small, "kN"), Q(small, "km/h")).m_as("kW") == pytest.approx(10_000 / 3.6)
    assert BOOK["drawbar_power"](Q(np.int8(100), "kN"), Q(np.int8(100), "km/h")).m_as("kW") == pytest.approx(10_000 / 3.6)
    assert BOOK["drawbar_power"](Q(40, "kN"), Q(36, "km/h")).m_as("kW") == pytest.approx(400)


def test_outside_names_the_range_that_is_left():
    eq = BOOK["specific_fuel_consumption"]
    assert eq.outside({"load_ratio": 0.5}) == []
    assert eq.outside({}) == []
    (note,) = eq.outside({"load_ratio": np.array([0.1, 0.5])})
    assert "0.2 to 1" in note
    assert "0.1 to 0.5" in note


def test_every_unit_of_the_book_is_allowed():
    for eq in BOOK.values():
        for symbol in (eq.gives, *eq.takes):
            if symbol.unit not in ("text", "1"):
                assert set(re.findall(r"[A-Za-z]+", symbol.unit)) <= set(ALLOWED)


@every
def test_at_the_ends_of_what_can_exist(name):
    """Zero, or another end of a symbol's bounds: an answer in real numbers, or a refusal in words. No arithmetic error."""
    eq = BOOK[name]
    for place, symbol in enumerate(eq.takes):
        for end in (symbol.least, symbol.most):
            if not np.isfinite(end):
                continue
            values = bare_values(eq)
            values[place] = float(end)
            try:
                with np.errstate(all="ignore"):
                    got = eq(*quantities(eq, values))
            except InputError as refused:
                message = str(refused)
            else:
                message = ""
                if eq.gives.unit != "text":
                    assert isinstance(got.magnitude, (float, np.floating))
                    assert not np.isinf(got.magnitude)
            assert not message or symbol.name in message


def test_no_answer_says_what_came():
    with pytest.raises(InputError, match=r"slip 1\.0"):
        BOOK["no_slip_speed"](Q(8.0, "km/h"), Q(1.0))
    with pytest.raises(InputError, match="has an answer"):  # a stress that the surface itself doesn't reach
        BOOK["stress_depth"](Q(0.3, "m**2"), Q(50.0, "kPa"), Q(80.0, "kPa"), Q(5.0))


def test_an_argument_cannot_be_given_by_its_place_in_the_short_way():
    eq = BOOK["drawbar_power"]
    for _ in range(2):
        with pytest.raises(InputError, match="doesn't take"):
            eq(Q(1.0, "kN"), a1=Q(1.0, "km/h"))
    assert eq(Q(1.0, "kN"), speed=Q(3.6, "km/h")).m_as("kW") == 1


def test_a_unit_is_no_quantity():
    eq = BOOK["drawbar_power"]
    with pytest.raises(InputError, match="no unit") as refused:
        eq(registry().Unit("kN"), 3)
    assert len(refused.value.faults) == 2


@pytest.mark.parametrize("unit", ["km/h", "mph"])
def test_numbers_that_are_no_floats_are_refused_in_words(unit):
    eq = BOOK["drawbar_power"]
    good = (Q(1.0, "kN"), Q(1.0, unit))
    for value in (Decimal(1), "1", None):
        speed = Q(1.0, unit)
        speed._magnitude = value
        assert eq(*good) == eq(*good)
        with pytest.raises(InputError, match="speed"):
            eq(good[0], speed)


SPEED, DRAFT = Q(5.0, "mph"), Q(10_000.0, "lbf")


@pytest.mark.parametrize(
    ("args", "named"),
    [
        ((10_000.0, Q(5.0, "kg")), {}),  # no unit, another dimension
        ((Q(-1.0, "lbf"), Q(5.0, "kg")), {}),  # below what can be, another dimension
        ((Q(-1.0, "lbf"), 5.0), {}),
        ((DRAFT,), {"sped": SPEED}),  # one that isn't known, and so another that is missing
        ((Q(10.0, "kg"),), {"colour": 1, "speed": SPEED}),
        ((xarray.DataArray([1.0], attrs={"units": "kg"}), Q(-5.0, "mph")), {}),
        ((xarray.DataArray([1.0]), 5.0), {}),
        ((Q(np.ma.array([1.0]), "kN"), Q(-5.0, "mph")), {}),
    ],
)
def test_faults_of_two_kinds_are_named_at_once(args, named):
    for _ in range(2):  # at any call
        with pytest.raises(InputError) as refused:
            BOOK["drawbar_power"](*args, **named)
        assert len({fault.where for fault in refused.value.faults}) == 2
        assert len(refused.value.faults) == 2
        assert BOOK["drawbar_power"](DRAFT, SPEED).magnitude > 0


@pytest.mark.parametrize("args", [(1.0, 2.0), (DRAFT,), (DRAFT, Q(5.0, "kg")), (DRAFT, Q(-5.0, "mph")), ([1.0], None)])
def test_a_refusal_stands_alone(args):
    with pytest.raises(InputError) as refused:
        BOOK["drawbar_power"](*args)
    assert refused.value.__suppress_context__ or refused.value.__context__ is None


@every
def test_shapes_that_do_not_go_together_are_named(name):
    eq = BOOK[name]
    if len(eq.takes) == 1:
        return
    values = bare_values(eq)
    for unit in (lambda symbol: symbol.unit, lambda symbol: other_unit(symbol.unit)):
        given = [Q(value, symbol.unit).to(unit(symbol) or "") for value, symbol in zip(values, eq.takes, strict=True)]
        given[0], given[-1] = given[0] * np.ones(3), given[-1] * np.ones(2)
        for _ in range(2):
            with pytest.raises(InputError) as refused:
                eq(*given)
            (fault,) = refused.value.faults
            assert fault.got == f"{eq.takes[0].name} of shape (3,), {eq.takes[-1].name} of shape (2,)"
        pairs = eq(given[0][:, None], *given[1:])  # what the error says to type is accepted
        assert np.shape(pairs if eq.gives.unit == "text" else pairs.magnitude) == (3, 2)


@pytest.mark.parametrize("error", [ValueError, TypeError, KeyError])
def test_an_error_of_the_body_stays_what_it_is_and_comes_once(error):
    known, calls = BOOK["drawbar_power"], []

    def drawbar_power(draft, speed):
        """Fail."""
        calls.append(draft)
        raise error("of the body")

    about = {"source": "d497", "where": "", "sure": known.sure, "table": "", "numeric": True, "traced": True, "fitted": False}
    fresh = Equation(drawbar_power, known.gives, known.takes, valid={}, **about)
    for count in (1, 2):
        with pytest.raises(error, match="of the body"):
            fresh(DRAFT, SPEED)
        assert len(calls) == count
