"""Entries as people write them: the same number by other spellings, and what could be two numbers is asked about."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from known_rigs import SHEET_RIG, known_rig

from rigcalc.core.errors import InputError
from rigcalc.core.units import parse
from rigcalc.models import replaced
from rigcalc.models.rig.written import plainly

READ = {
    '14"': (14, "in"), "14''": (14, "in"), "14″": (14, "in"), '14½"': (14.5, "in"), "14½ in": (14.5, "in"), "½ m": (0.5, "m"),
    "14 1/2 in": (14.5, "in"), '14-3/4"': (14.75, "in"), "1 ft 2 in": (14, "in"), "1' 2\"": (14, "in"), "1' 2½\"": (14.5, "in"),
    "5 feet 6 inches": (66, "in"), "14'": (14, "ft"), "0,35 m": (0.35, "m"), "9,5 km/h": (9.5, "km/h"), "1,5 t": (1.5, "t"),
    "6 MPH": (6, "mph"), "6 Km/H": (6, "km/h"), "27500 pounds": (27500, "lb"), "27,500 Lbs": (27500, "lb"),
    "300 HP": (300, "hp"), "300 Horsepower": (300, "hp"), "120 KW": (120, "kW"), "12 kilos": (12, "kg"), "12 PSI": (12, "psi"),
    "3 metres": (3, "m"), "35 CM": (35, "cm"), "-2 deg": (-2, "deg"), "14 in": (14, "in"), "1,250 lb": (1250, "lb"),
}  # fmt: skip
NOT_READ = ["", '"', "in", "14..5 in", "14,5,5 in", "0,250 kN", "14½½ in", "14 1/0 in", "1.234.567 kg", "٣ in", "٣ ft 2 in",
            '٣"', "5 furlongs", "14 in deep", "about 14 in", "14-16 in", "1 in 2 ft", "3 5 in", "1e999 IN", "½"]  # fmt: skip


@pytest.mark.parametrize("text", READ)
def test_read(text):
    number, unit = READ[text]
    assert parse(plainly(text)) == (pytest.approx(number), unit)
    assert plainly(plainly(text)) == plainly(text)


@pytest.mark.parametrize("text", NOT_READ)
def test_not_made_out_of_nothing(text):
    try:
        _, unit = parse(plainly(text))
    except InputError:
        return
    assert unit == "", "a bare number has no unit, and an entry refuses it"


@pytest.mark.parametrize(("entry", "text", "unit", "number"), [
    ("work.depth", '10½"', "in", 10.5), ("implement.spacing", "1 ft 3 in", "in", 15), ("work.speed", "9,5 km/h", "km/h", 9.5),
    ("work.speed", "6 MPH", "mph", 6), ("tractor.total_mass", "29000 pounds", "lb", 29000), ("work.depth", "0,3 m", "m", 0.3),
])  # fmt: skip
def test_in_a_rig_file(entry, text, unit, number):
    rig = replaced(known_rig(SHEET_RIG), {entry: text})
    section, name = entry.split(".")
    assert getattr(getattr(rig, section), name).to(unit) == pytest.approx(number)


def test_rules_read_entries_in_the_same_way():
    rig = replaced(known_rig(SHEET_RIG), {"tractor.total_mass": "29000 Pounds", "implement.spacing": '15"'})
    assert rig.assumed == known_rig(SHEET_RIG).assumed


@pytest.mark.parametrize(("text", "type_this"), [
    ("27.500 lb", '"27,500 lb", or "27.5 lb"'), ("12.350 kg", '"12,350 kg", or "12.35 kg"'),
])  # fmt: skip
def test_a_point_that_may_part_thousands_is_asked_about(text, type_this):
    with pytest.raises(InputError) as refused:
        replaced(known_rig(SHEET_RIG), {"tractor.total_mass": text})
    (fault,) = refused.value.faults
    assert (fault.where, fault.type_this) == ("tractor.total_mass", type_this)


@pytest.mark.parametrize("text", ["0.250 m", "27.5 cm", "25.400 cm"])
def test_a_point_that_can_part_no_thousands_is_a_point(text):
    rig = replaced(known_rig(SHEET_RIG), {"work.depth": text})
    assert rig.work.depth.value == float(text.split()[0])


@settings(deadline=None, max_examples=300)
@given(st.text(max_size=90))
def test_any_text_comes_back_as_a_text(text):
    assert isinstance(plainly(text), str)


@settings(deadline=None, max_examples=150)
@given(st.floats(1e-3, 1e6).map(lambda x: f"{x!r}"), st.sampled_from(["in", "ft", "m", "lb", "kg", "mph", "km/h", "kN", "hp"]))
def test_the_strict_form_stays_as_it_is(number, unit):
    assert plainly(f"{number} {unit}") == f"{number} {unit}"
