"""The allow-list by value, against pint and against each unit's definition; strict reading of typed quantities."""

import math

import numpy as np
import pandas
import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rigcalc.core.errors import InputError
from rigcalc.core.units import ALLOWED, KINDS, SPELLINGS, Q, canonical_unit, factor, parse, registry

INCH, POUND, GRAVITY = 0.0254, 0.45359237, 9.80665  # exact: international inch and pound 1959, standard gravity 1901
FOOT = 12 * INCH
FRESH = pint.UnitRegistry()
SURVEY_FOOT = 1200 / 3937  # the foot of the acre that pint holds; 2 parts in a million over the international foot

# Each unit by its definition, written out from others, in SI base units.
DEFINITIONS = {
    "in": INCH, "ft": FOOT, "yd": 3 * FOOT, "mi": 5280 * FOOT, "m": 1, "cm": 1 / 100, "mm": 1 / 1000, "km": 1000,
    "acre": 43560 * SURVEY_FOOT**2, "ha": 100 * 100, "L": 0.1**3, "gal": 231 * INCH**3,
    "kg": 1, "g": 1 / 1000, "t": 1000, "lb": POUND, "ton": 2000 * POUND,
    "N": 1, "kN": 1000, "lbf": POUND * GRAVITY, "Pa": 1, "kPa": 1000, "MPa": 1e6, "bar": 1e5,
    "psi": POUND * GRAVITY / INCH**2, "W": 1, "kW": 1000, "hp": 550 * FOOT * POUND * GRAVITY,
    "metric_horsepower": 75 * GRAVITY, "s": 1, "min": 60, "h": 3600, "day": 24 * 3600, "mph": 5280 * FOOT / 3600,
    "deg": math.pi / 180, "rad": 1, "rpm": 2 * math.pi / 60, "percent": 1 / 100,
    "degC": 1, "degF": 5 / 9, "delta_degC": 1, "delta_degF": 5 / 9,
}  # fmt: skip


def test_every_unit_has_a_definition():
    assert set(DEFINITIONS) == set(ALLOWED)


@pytest.mark.parametrize("name", sorted(ALLOWED))
def test_size_by_definition_and_by_pint(name):
    kind, size = ALLOWED[name]
    assert size == pytest.approx(DEFINITIONS[name], rel=1e-12), kind
    one = FRESH.Quantity(1.0, f"delta_{name}" if name in ("degC", "degF") else name)
    assert size == pytest.approx(one.to_base_units().magnitude, rel=1e-12), kind


@pytest.mark.parametrize("name", sorted(ALLOWED))
def test_one_kind_has_one_dimension(name):
    kind = ALLOWED[name][0]
    ours = registry().Unit(name).dimensionality
    assert all(registry().Unit(other).dimensionality == ours for other, (k, _) in ALLOWED.items() if k == kind)
    powers = dict(zip(("[length]", "[mass]", "[time]", "[temperature]"), KINDS[kind], strict=True))
    assert {base: power for base, power in powers.items() if power} == dict(ours)


@pytest.mark.parametrize(("wrong", "right", "ratio"), [
    ("ton", "t", 0.90718474), ("hp", "metric_horsepower", 745.6998715822702 / 735.49875), ("lb", "kg", 0.45359237),
    ("mph", "km/h", 1.609344), ("gal", "L", 3.785411784), ("psi", "bar", 0.0689475729), ("acre", "ha", 0.404687261),
    ("lbf/in", "N/cm", 4.4482216152605 / 2.54), ("lb/hp", "kg/kW", 0.45359237 / 0.7456998715822702),
])  # fmt: skip
def test_units_that_are_mixed_up(wrong, right, ratio):
    assert factor(wrong, right) == pytest.approx(ratio, rel=1e-8)
    assert factor(right, wrong) == pytest.approx(1 / ratio, rel=1e-8)


@pytest.mark.parametrize(
    "name", ["Nm", "nm", "pint", "boiler_horsepower", "HP", "IN", "Kn", "stone", "furlong", "K", "°", "in."]
)
def test_names_that_are_not_ours(name):
    with pytest.raises(InputError, match="unit") as refused:
        canonical_unit(name)
    assert name in str(refused.value)


def test_no_name_is_a_number_without_a_unit():
    assert canonical_unit("") == ""


@pytest.mark.parametrize(
    "text", ["in/", "in*", "(", "in(", ")", "**2", "in**", "in**99", "in in", "in//ft", "in 1", "1;in", "in-ft", "_"]
)
def test_what_is_no_unit_at_all(text):
    with pytest.raises(InputError):
        canonical_unit(text)
    with pytest.raises(InputError):
        Q(1.0, text)


@pytest.mark.parametrize(("unit", "to"), [("degC", "degF"), ("degF", "delta_degC"), ("degC", "degC"), ("delta_degF", "degC")])
def test_offset_units_are_refused(unit, to):
    with pytest.raises(InputError, match="offset"):
        factor(unit, to)


def test_a_difference_of_temperature_converts():
    assert factor("delta_degF", "delta_degC") == pytest.approx(5 / 9)


@pytest.mark.parametrize(
    ("unit", "to"), [("in", "kg"), ("kN", "kPa"), ("hp", "lbf"), ("mph", "m"), ("", "m"), ("percent", "kN")]
)
def test_another_dimension_is_refused(unit, to):
    with pytest.raises(InputError, match="converts to"):
        factor(unit, to)


GOOD = {
    "14 in": (14, "in"), "14in": (14, "in"), "  14 in ": (14, "in"), "+5.5 mph": (5.5, "mph"), "-2 deg": (-2, "deg"),
    "1,250 lb": (1250, "lb"), "12,345,678 lb": (12345678, "lb"), ".5 ft": (0.5, "ft"), "5. ft": (5, "ft"),
    "1e3 kg": (1000, "kg"), "1.5E-2 m": (0.015, "m"), "20 %": (20, "percent"), "20%": (20, "percent"), "0.2": (0.2, ""),
    "8.9 km/h": (8.9, "km/h"), "5 kph": (5, "km/h"), "300 gallons": (300, "gal"), "14 inches": (14, "in"),
    "500 PS": (500, "metric_horsepower"), "91 N/cm": (91, "N/cm"), "2 N*h/km/cm": (2, "N*h/km/cm"),
    "3 m^2": (3, "m**2"), "3 m**2": (3, "m**2"), "9.5 acres": (9.5, "acre"),
}  # fmt: skip
BAD = ["", " ", "in", "14..5 in", "14,00 in", "1 000 in", "1_000 in", "nan in", "inf in", "-inf in",
       "1e999 in", "0x10 in", "14'", '14"',
       "14 in deep", "about 14 in", "14-16 in", "14 to 16 in", "٣ in", "１４ in", "14\xa0in", "14 Nm", "14 in\x00", "14 in; rm",
       "14 __import__", "9" * 100 + " in", "14 in # note", "=14 in", "14 in/", "14/in", "in 14", "$14"]  # fmt: skip


@pytest.mark.parametrize("text", sorted(GOOD))
def test_good_text(text):
    assert parse(text) == GOOD[text]


@pytest.mark.parametrize("text", BAD)
def test_bad_text(text):
    with pytest.raises(InputError) as refused:
        parse(text)
    assert "\n" not in str(refused.value.faults[0]), "one fault, one line"
    assert all(line.isprintable() for line in str(refused.value).split("\n"))


@pytest.mark.parametrize("value", [14, 14.0, None, True, ["14 in"], b"14 in"])
def test_not_a_text(value):
    with pytest.raises(InputError):
        parse(value)


@pytest.mark.parametrize("spelling", sorted(SPELLINGS))
def test_other_spellings(spelling):
    assert parse(f"3 {spelling}") == (3.0, SPELLINGS[spelling])
    assert canonical_unit(SPELLINGS[spelling]) == SPELLINGS[spelling], "a spelling stands for a known unit"


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("1.3 g/cm3", "g/cm**3"),
        ("1.3 g/cm³", "g/cm**3"),
        ("1.3 kN/m²", "kN/m**2"),
        ("1.3 m2", "m**2"),
        ("1.3 kg/m^3", "kg/m**3"),
    ],
)
def test_powers_as_people_write_them(typed, read):
    assert parse(typed) == (1.3, read)


@pytest.mark.parametrize("typed", ["1 m22", "1 m²³", "1 ²", "1 m 2", "1 m4", "1 2m"])
def test_what_only_looks_like_a_power(typed):
    with pytest.raises(InputError):
        parse(typed)


@settings(deadline=None, max_examples=150)
@given(st.floats(allow_nan=False, allow_infinity=False), st.sampled_from(sorted(ALLOWED)))
def test_written_and_read_again(value, unit):
    assert parse(f"{value!r} {unit}") == (value, unit)


@settings(deadline=None, max_examples=300)
@given(st.text(max_size=90))
def test_any_text_reads_or_is_refused(text):
    try:
        number, unit = parse(text)
    except InputError:
        return
    assert math.isfinite(number)
    assert canonical_unit(unit) == unit
    registry().Unit(unit)  # whatever was let through, pint reads


@settings(deadline=None, max_examples=200)
@given(st.text(alphabet="in ftkNhm/*()^12-%", max_size=12))
def test_any_unit_text_is_read_by_pint_or_refused(text):
    try:
        unit = canonical_unit(text)
    except InputError:
        return
    registry().Unit(unit)


@settings(deadline=None, max_examples=100)
@given(
    st.floats(1e-6, 1e6),
    st.sampled_from(["length", "mass", "force", "power", "pressure", "speed", "area", "volume", "time"]),
    st.data(),
)
def test_there_and_back(value, kind, data):
    names = [name for name, (its, _) in ALLOWED.items() if its == kind] + (["km/h", "ft/min"] if kind == "speed" else [])
    unit, to = data.draw(st.sampled_from(names)), data.draw(st.sampled_from(names))
    assert value * factor(unit, to) * factor(to, unit) == pytest.approx(value, rel=1e-14)
    assert Q(value, unit).m_as(to) == pytest.approx(value * factor(unit, to), rel=1e-14)


def test_quantities_take_any_shape():
    assert Q([5, 6], "mph").shape == (2,)
    np.testing.assert_allclose(Q(np.ones((2, 3)), "ft").m_as("m"), 0.3048)


@pytest.mark.parametrize(
    ("values", "unit", "meant"),
    [
        (pandas.Series([5, 6], name="speed [mph]"), "mph", [5, 6]),
        (pandas.Series(["5", "6"]), "mph", [5, 6]),
        (["5", "6"], "mph", [5, 6]),
        (np.array([5.0, 6.0], object), "mph", [5, 6]),
        ("5", "mph", 5),
        ("5 mph", "", 5),
        ("5 mph", "km/h", 5),
    ],
)
def test_what_are_no_numbers_is_refused_with_what_to_type(values, unit, meant):
    with pytest.raises(InputError) as refused:
        Q(values, unit)
    (fault,) = refused.value.faults
    assert np.all(eval(fault.type_this, {"Q": Q, "np": np, "values": values}).m_as("mph") == np.array(meant))


@pytest.mark.parametrize("value", [None, "many", b"5", {}, [[1, 2], [3]], np.array(["2026-01-01"], "M8[D]")])
def test_what_is_no_number_at_all_is_refused(value):
    with pytest.raises(InputError, match="a number or numbers"):
        Q(value, "in")


@pytest.mark.parametrize(
    ("typed", "number", "unit"), [("3.40 1/gal", 3.4, "1/gal"), ("21 1 / acre", 21, "1 / acre"), ("12 1/h", 12, "1/h")]
)
def test_a_price_for_a_unit_is_read(typed, number, unit):
    assert parse(typed) == (number, unit)


@pytest.mark.parametrize("typed", ["3.401/gal", "3.40 /gal", "3.40 2/gal", "12 1/2", "1/2 in"])
def test_what_only_looks_like_a_price_is_refused(typed):
    with pytest.raises(InputError):
        parse(typed)
