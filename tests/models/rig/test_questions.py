"""What `rigcalc new` asks: each answer read at once, in the unit of the asked; nothing taken that the file wouldn't take."""

import pytest

from rigcalc.core.errors import InputError
from rigcalc.models.rig.file import rig_from
from rigcalc.models.rig.questions import (
    asked_of,
    blamed,
    data_of,
    kind_of,
    questions,
    read_answer,
    still_missing,
)

BY_NAME = {question.name: question for question in questions()}
WHEELS = {"drive": "MFWD", "power": "300 hp", "rating": "pto", "total": "29000 lb", "rear_size": "710/70R42", "tyres": None,
          "front_size": "480/70R34", "tool": "chisel_straight", "tools": 9, "spacing": "15 in", "texture": "clay loam",
          "surface": None, "depth": "10 in", "speed": "5 mph"}  # fmt: skip
BELTS = {name: value for name, value in WHEELS.items() if "size" not in name} | {"drive": "track", "belt": "30 in"}


def read(name, text, metric=False):
    return read_answer(BY_NAME[name], text, metric)


def refused(name, text):
    with pytest.raises(InputError) as error:
        read(name, text)
    (fault,) = error.value.faults
    assert fault.where in (name, "size")
    assert fault.type_this
    return fault


@pytest.mark.parametrize("name", BY_NAME)
@pytest.mark.parametrize("text", ["", "   "])
def test_enter_is_i_don_t_know(name, text):
    assert read(name, text) is None


@pytest.mark.parametrize(("name", "text", "us", "si"), [
    ("power", "300", "300 hp", "300 kW"), ("total", "29,000", "29,000 lb", "29,000 kg"), ("depth", "10", "10 in", "10 cm"),
    ("depth", '10½"', "10.5 in", "10.5 in"), ("speed", "9,5 km/h", "9.5 km/h", "9.5 km/h"),
    ("spacing", "38 cm", "38 cm", "38 cm"), ("belt", "30", "30 in", None), ("belt", "760", None, "760 mm"),
])  # fmt: skip
def test_a_bare_number_is_in_the_unit_of_the_question(name, text, us, si):
    if us:
        assert read(name, text) == us
    if si:
        assert read(name, text, metric=True) == si


@pytest.mark.parametrize(("name", "text", "choice"), [
    ("drive", "2", "MFWD"), ("drive", "mfwd", "MFWD"), ("drive", " Track ", "track"), ("rating", "net", "net engine"),
    ("tool", "chisel straight", "chisel_straight"), ("texture", "clay", "clay"), ("texture", "CLAY LO", "clay loam"),
    ("surface", "4", "hard"), ("tyres", "4", "4"), ("belts", "four", "four"),
])  # fmt: skip
def test_choices_by_number_by_name_or_by_how_they_begin(name, text, choice):
    if name == "tyres":
        assert read(name, text) == "4"  # a name before a place: four tires, not the fourth choice
    else:
        assert read(name, text) == choice


BAD = [
    ("drive", "5"), ("drive", "0"), ("drive", "wheels"), ("rating", "engine"), ("power", "lots"), ("power", "300 lb"),
    ("power", "0"), ("power", "-5"), ("power", "300000"), ("total", "27.500"), ("total", "29 lb"), ("total", "nan"),
    ("rear_size", "710/70/42"), ("rear_size", "710"), ("front_size", "big"), ("tools", "0"), ("tools", "9.5"), ("tools", "201"),
    ("tools", "nine"), ("tools", "1e3"), ("spacing", "0,250 m"), ("spacing", "300"), ("texture", "silty"), ("texture", "mud"),
    ("depth", "300"), ("depth", "10 mph"), ("speed", "100"), ("speed", "fast"), ("belt", "30 mm"), ("tyres", "5"),
    ("tool", "subsoiler"), ("belts", "three"), ("surface", "\x1b[31m"), ("power", "9" * 200),
]  # fmt: skip


@pytest.mark.parametrize(("name", "text"), BAD)
def test_what_can_t_be_right_is_asked_again_with_what_to_type(name, text):
    refused(name, text)


def test_thousands_or_decimals_are_asked_about():
    assert '"27,500 lb"' in refused("total", "27.500 lb").type_this or "27,500 lb" in refused("total", "27.500 lb").type_this


def test_every_measure_is_held_to_the_bounds_of_its_entry():
    for question in questions():
        for path in question.paths if question.kind == "measure" else ():
            kind = kind_of(path)
            assert read_answer(question, kind.example, metric=False) == kind.example


def test_answers_make_a_rig_and_the_rest_is_by_rule():
    rig = rig_from(data_of(WHEELS))
    assert (rig.tractor.drive, rig.implement.tools, rig.work.depth.text) == ("MFWD", 9, "10 in")
    assert rig.tractor.rear.tyres == 2
    assert still_missing(WHEELS) == ()


def test_four_wheel_drive_has_the_same_number_of_tyres_on_both_axles():
    answers = WHEELS | {"drive": "4WD", "front_size": "710/70R42", "tyres": "6"}
    rig = rig_from(data_of(answers))
    assert (rig.tractor.front.tyres, rig.tractor.rear.tyres) == (6, 6)
    assert rig_from(data_of(WHEELS | {"tyres": "4"})).tractor.front.tyres == 2


@pytest.mark.parametrize(("belts", "front"), [("two", False), ("four", True)])
def test_tracks_by_their_width(belts, front):
    rig = rig_from(data_of(BELTS | {"belts": belts}))
    assert (rig.tractor.front is not None) == front
    assert rig.tractor.rear.track_width.text == "30 in"


def test_a_tool_that_is_not_counted_is_asked_for_its_width():
    answers = WHEELS | {"tool": "disk_tandem_primary", "width": read("width", "24")}
    asked = {question.name for question in questions() if asked_of(question, answers)}
    assert "width" in asked
    assert not {"tools", "spacing"} & asked
    assert rig_from(data_of(answers)).implement.width.text == "24 ft"
    assert "width" not in {question.name for question in questions() if asked_of(question, WHEELS)}


def test_about_a_dozen_are_asked():
    for drive in (None, "2WD", "MFWD", "4WD", "track"):
        assert 10 <= sum(asked_of(question, {"drive": drive}) for question in questions()) <= 15


def test_what_no_rule_can_give_is_still_missing():
    answers = dict.fromkeys(BY_NAME) | {"drive": "MFWD"}
    missing = {question.name for question in still_missing(answers)}
    assert missing == set(WHEELS) - {"drive", "surface", "tyres"}
    assert "belt" in {question.name for question in still_missing(answers | {"drive": "track"})}


def test_answers_that_don_t_go_together_are_asked_again():
    answers = WHEELS | {"rear_size": "16x6.50-8"}  # lower than the drawbar of such power
    with pytest.raises(InputError) as error:
        rig_from(data_of(answers))
    again = {question.name for question in blamed(tuple(error.value.faults), answers)}
    assert {"rear_size", "front_size"} <= again
    assert "depth" not in again
