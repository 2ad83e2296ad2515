"""Readings in a rig file and in the CSV file beside it: strict, whole, never lost and never changed."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.core.errors import InputError
from rigcalc.models.rig.beside import COLUMNS, add_beside, beside, load_beside, read_rows, reading_from
from rigcalc.models.rig.field_reading import MOST_READINGS, Reading
from rigcalc.models.rig.file import demo_rig, load_rig, read_rig, replaced, rig_text

GOOD: dict[str, Any] = {
    "date": "2026-11-04", "field": "north", "depth": "14 in", "depth_behind": 3, "speed": "5 mph",
    "slip": "12 percent", "load": "82 percent", "load_of": "available", "made_with": {"tools": 16},
}  # fmt: skip


def refused(**changes: Any) -> str:
    with pytest.raises(InputError) as error:
        reading_from({name: value for name, value in (GOOD | changes).items() if value is not None})
    return str(error.value)


@pytest.fixture
def rig_file(tmp_path: Path) -> Path:
    file = tmp_path / "my.toml"
    file.write_text(rig_text(demo_rig("articulated")), encoding="utf-8")
    return file


def test_slip_comes_from_the_display_from_two_speeds_or_from_turns() -> None:
    assert reading_from(GOOD).numbers["slip"] == (0.12, 0.01)
    slip, error = reading_from(GOOD | {"slip": None, "wheel_speed": "5.75 mph"} | {}).measured_slip or (0, 0)
    assert slip == pytest.approx(1 - 5 / 5.75)
    assert error == 0.015
    turns = {"slip": None, "turns_loaded": "100", "turns_unloaded": "88"}
    slip, error = reading_from(GOOD | turns).measured_slip or (0, 0)
    assert slip == pytest.approx(0.12)
    assert error == pytest.approx(0.5 * (1 + 0.88**2) ** 0.5 / 100)


def test_each_error_can_be_typed() -> None:
    typed = GOOD | {"slip_error": "2 percent", "load_error": "5 percent", "fuel_rate": "20 gal/h", "fuel_error": "4 percent"}
    assert {kind: error for kind, (_, error) in reading_from(typed).numbers.items()} == {
        "slip": 0.02,
        "load": 0.05,
        "fuel": 0.04,
    }
    assert reading_from(GOOD).depth_off == pytest.approx(2 / 3**0.5 / 35.56)
    assert reading_from(GOOD | {"depth_error": "1 in"}).depth_off == pytest.approx(1 / 3**0.5 / 14)


def test_a_date_of_toml_and_a_text_are_the_same() -> None:
    assert reading_from(GOOD | {"date": datetime.date(2026, 11, 4)}) == reading_from(GOOD)


@pytest.mark.parametrize(("changes", "says"), [
    ({"date": "4.11.2026"}, "year-month-day"),
    ({"date": "2026-02-30"}, "a day that there is"),
    ({"date": "1066-10-14"}, "from 1990-01-01 on"),
    ({"date": datetime.datetime(2026, 11, 4, 12)}, "year-month-day"),
    ({"depth": "14"}, "converts to cm"),
    ({"speed": "0 mph"}, "above 0"),
    ({"speed": None}, "a value"),
    ({"slip": "96 percent"}, "at most 0.95"),
    ({"wheel_speed": "6 mph"}, "one way of measuring slip"),
    ({"slip": None, "wheel_speed": "4 mph"}, "below zero"),
    ({"slip": None, "turns_loaded": "80"}, "both counts"),
    ({"slip": None, "turns_loaded": "80", "turns_unloaded": "81"}, "below zero"),
    ({"load_of": None}, "what it is a share of"),
    ({"load": None}, "what it is a share of"),
    ({"load_of": "maximum"}, "load_of"),
    ({"load": None, "load_of": None, "slip": None}, "slip, engine load, fuel rate or pull"),
    ({"depth_behind": 0}, "depth_behind"),
    ({"load_error": "0.1 percent"}, "at least 0.01"),
    ({"fuelrate": "20 gal/h"}, "fuel_rate, perhaps"),
    ({"said_slip": "about ten"}, "said_slip"),
    ({"made_with": {"tools": "16"}}, "made_with.tools"),
])  # fmt: skip
def test_bad_entries_are_refused(changes: dict[str, Any], says: str) -> None:
    assert says in refused(**changes)


def test_every_fault_is_named_at_once_those_between_entries_too() -> None:
    text = refused(date="x", depth="14", slip=None, wheel_speed="4 mph")
    for part in ("year-month-day", "converts to cm", "below zero"):
        assert part in text


def test_faults_between_entries_of_a_reading_in_a_rig_file_stand_beside_the_others() -> None:
    with pytest.raises(InputError) as error:
        replaced(
            demo_rig(), {"reading": [GOOD | {"date": "x", "speed": "5"}, GOOD | {"slip": None, "load": None, "load_of": None}]}
        )
    where = [fault.where for fault in error.value.faults]
    assert where == ["reading.0.date", "reading.0.speed", "reading.1"]


def test_a_rig_file_holds_readings_and_writes_them_back() -> None:
    rig = replaced(demo_rig("articulated"), {"reading": [GOOD, GOOD | {"depth": "15 in"}], "asked.day": "2026-11-04"})
    assert read_rig(rig_text(rig)) == rig


@pytest.mark.parametrize(("changes", "says"), [
    ({"reading": [GOOD, GOOD]}, "each reading once"),
    ({"reading": [GOOD], "asked.day": "2026-11-05"}, "a day that a reading is from"),
    ({"reading": [GOOD], "asked.day": "soon"}, "a day that was read"),
    ({"reading": [GOOD], "asked.name": "south"}, "a field that a reading is from"),
    ({"reading": [GOOD | {"engine_speed": "400 rpm"}]}, "half of rated speed"),
    ({"reading": [GOOD | {"engine_speed": "2400 rpm"}]}, "1.15 times it"),
    ({"reading": [GOOD | {"engine_speed": "1900 rpm"}], "gears": None}, "rated_speed under [gears]"),
    ({"reading": [GOOD | {"note": str(place)} for place in range(MOST_READINGS + 1)]}, f"at most {MOST_READINGS}"),
])  # fmt: skip
def test_readings_that_don_t_go_with_the_rig_are_refused(changes: dict[str, Any], says: str) -> None:
    with pytest.raises(InputError, match=says.replace("[", r"\[")):
        replaced(demo_rig("articulated"), changes)


# --- beside the rig file -----------------------------------------------------------------------------------------------


def test_what_is_added_comes_back_and_what_stands_there_stays(rig_file: Path) -> None:
    made = [
        reading_from(GOOD | {"note": f'round {place}, "wet", ümlaut'} | {"depth": f"{10 + place} in"}) for place in range(4)
    ]
    before = b""
    for each in made:
        assert add_beside(rig_file, each) == beside(rig_file)
        after = beside(rig_file).read_bytes()
        assert after.startswith(before)
        before = after
    assert load_rig(rig_file).reading == tuple(made)
    assert load_rig(str(rig_file)).reading == tuple(made)


def test_a_last_line_without_an_end_isn_t_joined_to_the_next(rig_file: Path) -> None:
    beside(rig_file).write_text("date,depth,speed,slip\n2026-11-01,10 in,5 mph,9 percent")
    one = reading_from({"date": "2026-11-04", "depth": "12 in", "speed": "5 mph", "slip": "11 percent"})
    with pytest.raises(InputError, match="no column depth_behind"):
        add_beside(rig_file, one)
    beside(rig_file).write_text("date,depth,depth_behind,speed,slip\n2026-11-01,10 in,2,5 mph,9 percent")
    add_beside(rig_file, one)
    assert [each.date for each in load_rig(rig_file).reading] == ["2026-11-01", "2026-11-04"]


def test_the_same_reading_isn_t_added_twice_and_a_file_at_fault_isn_t_touched(rig_file: Path) -> None:
    add_beside(rig_file, reading_from(GOOD))
    before = beside(rig_file).read_bytes()
    with pytest.raises(InputError, match="the same reading as row 2"):
        add_beside(rig_file, reading_from(GOOD | {"note": "again"}))
    with pytest.raises(InputError, match="no formula"):
        add_beside(rig_file, reading_from(GOOD | {"note": "=1+1", "depth": "13 in"}))
    assert beside(rig_file).read_bytes() == before
    beside(rig_file).write_bytes(before + b"2026-11-05,north\n")
    with pytest.raises(InputError, match="2 cells"):
        add_beside(rig_file, reading_from(GOOD | {"depth": "13 in"}))
    assert beside(rig_file).read_bytes() == before + b"2026-11-05,north\n"


def test_readings_of_file_and_csv_stand_in_that_order_and_faults_of_both_come_at_once(rig_file: Path) -> None:
    rig_file.write_text(rig_text(replaced(demo_rig("articulated"), {"reading": [GOOD]})), encoding="utf-8")
    add_beside(rig_file, reading_from(GOOD | {"depth": "13 in"}))
    assert [each.depth.text for each in load_rig(rig_file).reading] == ["14 in", "13 in"]
    rig_file.write_text(rig_file.read_text().replace('speed = "5 mph"', 'speed = "5"', 1))
    beside(rig_file).write_text("date,depth,speed,slip\nnever,10 in,5 mph,9 percent\n")
    with pytest.raises(InputError) as error:
        load_rig(rig_file)
    assert {fault.where for fault in error.value.faults} == {"reading.0.speed", "my.readings.csv, row 2, date"}


HEAD = "date,depth,speed,slip\n"
ROW = "2026-11-04,12 in,5 mph,9 percent\n"


@pytest.mark.parametrize(("text", "says"), [
    ("date,depth,speed,slip,slip\n", "the name of an entry"),
    ("date,depth,speed,wheel slip\n", "'wheel slip'"),
    (HEAD + "2026-11-04,12 in,5 mph\n", "3 cells"),
    (HEAD + '2026-11-04,"12 in,5 mph,9 percent\n', "break off"),
    (HEAD + "2026-11-04,12 in,5 mph,9\0percent\n", "not text"),
    (HEAD + f"2026-11-04,{'1' * 600} in,5 mph,9 percent\n", "603 letters"),
    (HEAD + ROW * (MOST_READINGS + 1), f"at most {MOST_READINGS}"),
    (HEAD + "2026-11-04,12 in,5 mph,nan percent\n", "row 2, slip"),
    (HEAD + "2026-11-04,1e400 in,5 mph,9 percent\n", "row 2, depth"),
    (HEAD + "2026-11-04,12 in,5 lb,9 percent\n" + ROW + "2026-11-04,12 in,-5 mph,9 percent\n", "row 4, speed"),
    ("date,depth,depth_behind,speed,slip\n2026-11-04,12 in,1e3,5 mph,9 percent\n", "depth_behind"),
    ("date,depth,speed,slip,made_with.tools\n2026-11-04,12 in,5 mph,9 percent,many\n", "made_with.tools"),
])  # fmt: skip
def test_hostile_rows_end_in_a_clear_error(text: str, says: str) -> None:
    with pytest.raises(InputError) as error:
        read_rows(text, "my.readings.csv")
    assert says in str(error.value)


@pytest.mark.parametrize(("data", "says"), [
    (b"\xff\xfe\x00d", "not text"), (b"date,depth\n" * 60_000, "more than 256 KiB"),
])  # fmt: skip
def test_hostile_files_end_in_a_clear_error(rig_file: Path, data: bytes, says: str) -> None:
    beside(rig_file).write_bytes(data)
    with pytest.raises(InputError, match=says):
        load_rig(rig_file)
    beside(rig_file).unlink()
    beside(rig_file).mkdir()
    with pytest.raises(InputError, match="can't be read"):
        load_rig(rig_file)


def test_an_empty_file_and_blank_rows_are_no_readings(rig_file: Path) -> None:
    for text in ("", "\n\n", HEAD, HEAD + ",,,\n", "\ufeff" + HEAD):
        beside(rig_file).write_text(text, encoding="utf-8")
        assert load_beside(rig_file) == []
    assert read_rows(HEAD + "\n" + ROW, "x")[0]["slip"] == "9 percent"


@given(st.text(max_size=200))
def test_any_text_gives_readings_or_an_input_error(text: str) -> None:
    for whole in (text, HEAD + text, ",".join(COLUMNS) + "\n" + text):
        try:
            rows = read_rows(whole, "x")
        except InputError:
            continue
        assert all(isinstance(Reading.model_validate(row), Reading) for row in rows)
