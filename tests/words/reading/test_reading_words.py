"""What is said of readings."""

from __future__ import annotations

from typing import Any

import pytest

import rigcalc
from rigcalc.models.machine.field import told_of
from rigcalc.models.reading import next_reading, record, tells
from rigcalc.models.rig.file import demo_rig, replaced
from rigcalc.models.rig.rig import Rig
from rigcalc.words.field import day_text, from_readings, readings_text, such_fields
from rigcalc.words.reading import listed, told

BASE = demo_rig("articulated")


def rig_with(*changes: dict[str, Any], **more: Any) -> Rig:
    usual = {"date": "2026-11-04", "depth": "12 in", "speed": "5 mph", "load": "102 percent", "load_of": "available"}
    return replaced(BASE, {"reading": [usual | {"note": str(at)} | each for at, each in enumerate(changes)], **more})


@pytest.mark.parametrize(("changes", "more", "says"), [
    ([{}], {}, "from 1 reading of 4 November 2026"),
    ([{}, {}, {}], {}, "from 3 readings of 4 November 2026"),
    ([{}, {"date": "2026-11-01"}], {}, "from 2 readings of 2 days, the last 4 November 2026, as on 4 November 2026"),
    ([{}, {"date": "2026-11-01"}], {"asked.day": "2026-11-01"},
     "from 2 readings of 2 days, the last 4 November 2026, as on 1 November 2026"),
    ([{}], {"asked.day": "another"}, "from 1 reading of 4 November 2026, for another day of that field"),
])  # fmt: skip
def test_an_answer_says_which_readings_it_stands_on(changes: list[dict[str, Any]], more: dict[str, Any], says: str) -> None:
    rig = rig_with(*changes, **more)
    assert from_readings(told_of(rig)) == says
    said = rigcalc.in_words(rigcalc.size(rig)).said
    assert says in said.headline
    assert any(line.startswith("Without the readings: ") for line in said.rest)


def test_without_readings_nothing_is_said_of_them() -> None:
    words = rigcalc.in_words(rigcalc.size(BASE))
    assert "reading" not in str(words)
    assert "such fields" in str(words)
    assert words.changed == ()
    assert "Draft scatters by 50 %" in words.sure


def test_chances_are_of_fields_that_would_read_so() -> None:
    rig = rig_with({})
    words = rigcalc.in_words(rigcalc.size(rig))
    assert such_fields(told_of(rig)) in words.sure
    assert "as wide as without them" in words.sure
    assert [row.title for row in words.changed][:3] == ["Verdict", "Every limit kept in", "Draft"]
    assert all(row.before and row.after for row in words.changed)


def test_readings_that_don_t_count_are_named_with_the_reason() -> None:
    rig = rig_with({}, {"set_aside": "wet", "date": "2026-11-02"}, {"made_with": {"tool": "subsoiler_narrow"}})
    sure = rigcalc.in_words(rigcalc.size(rig)).sure
    assert "Not counted, as set aside: reading 2." in sure
    assert "Not counted, as made with another tool: reading 3." in sure
    assert [row[-1] for row in listed.rows(rig, told_of(rig), "us")] == ["counts", "set aside: wet", "another tool"]


def test_the_headline_says_harder_and_lighter() -> None:
    for load, word in (("102 percent", "harder"), ("50 percent", "lighter")):
        telling = tells(rig_with({"load": load}))
        assert telling is not None
        assert f" {word} than the table says" in told.headline(telling)
        assert told.headline(telling).startswith("1 reading of 4 November 2026: ")


def test_contradictions_say_what_to_do_and_that_they_count() -> None:
    rig = rig_with({"fuel_rate": "1 gal/h", "pull": "90000 lbf"})
    telling = tells(rig)
    assert telling is not None
    lines = list(told.lines(telling, rig, "us"))
    assert any("less than the engine burns without load" in line and "set_aside" in line for line in lines)
    assert any("more than this rig's grip gives" in line for line in lines)


def test_far_off_names_the_table_where_there_is_one_reading_alone() -> None:
    rig = rig_with({"load": "25 percent"})
    telling = tells(rig)
    assert telling is not None
    assert any("below what the table says" in line for line in told.lines(telling, rig, "us"))


def test_next_says_where_in_both_units() -> None:
    rig = rig_with({})
    for units, unit in (("us", "mph"), ("si", "km/h")):
        text = " ".join(told.next_lines(next_reading(BASE), units, None))  # type: ignore[arg-type]
        assert text.startswith("By the table, ")
        assert "Read next: " in text
        assert unit in text
    text = " ".join(told.next_lines(next_reading(replaced(rig, {"work.depth": "5 in"})), "us", told_of(rig)))
    assert text.startswith("By 1 reading of 4 November 2026, ")
    assert "Stop reading: one more would hardly turn that chance." in text


def test_a_record_of_nothing_says_so() -> None:
    assert listed.record_text(record(rig_with({}))).startswith("Nothing to go by")
    some = record(rig_with({"said_load": "90 to 110 percent"}, {"said_load": "80 to 90 percent"}))
    assert listed.record_text(some).startswith("1 of 2 numbers lay inside")
    assert [each.inside for each in listed.record_rows(some, "us")] == ["inside", "outside"]


def test_days_and_counts() -> None:
    assert day_text("2024-02-29") == "29 February 2024"
    assert readings_text(told_of(rig_with({}))) == "1 reading of 4 November 2026"
