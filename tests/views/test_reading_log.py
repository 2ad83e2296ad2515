"""A log picked on the page: fetched in pieces, asked about, read beside the page; hostile files end in words."""

from __future__ import annotations

import asyncio
import html
import re
import sys
from pathlib import Path
from typing import Any

import pytest
from made_task_data import driven, records_of, written
from picking import Browser

from rigcalc.models import demo_rig
from rigcalc.models.reading.any_log import engine_speed_used
from rigcalc.models.rig.file import replaced, rig_text
from rigcalc.views.reading import log_card, log_reader
from rigcalc.views.reading.fields import BOX
from rigcalc.widgets import FieldModel, ReadingLog

HEAD = "Time [s],Ground speed [mph],Wheel speed [mph],Engine load (%),rpm\n"


def rows(passes: int = 2, seconds: int = 100) -> str:
    out = []
    for second in range(passes * (seconds + 20)):
        works = second % (seconds + 20) < seconds
        out.append(f"{second},{5.0 if works else 4.0},{5.5 if works else 4.1},{80 if works else 25},1900\n")
    return HEAD + "".join(out)


@pytest.fixture
def model() -> FieldModel:
    found = FieldModel()
    found.edit({BOX + "date": "2026-11-04", BOX + "depth": "10 in", BOX + "depth_behind": "3"})
    return found


@pytest.fixture
def card(model: FieldModel) -> ReadingLog:
    return ReadingLog(model)


def words(card: ReadingLog) -> str:
    return html.unescape(re.sub(r"\s+", " ", re.sub(r"<[^>]*>", " ", card.html)))


def test_a_table_is_asked_about_once_and_its_stretches_become_readings(card: ReadingLog, model: FieldModel) -> None:
    browser = Browser(card)
    browser.pick("pass.csv", rows().encode())
    assert "Which column is which?" in card.html
    assert 'value="Ground speed [mph]" selected' in card.html, "what the headings say is proposed"
    assert re.search(r'data-act="unit speed"[^>]*value="mph"', card.html)
    card.act("read")
    assert "Engine load : got nothing; expected what it is a share of" in words(card)
    card.act("load_of", "available")
    card.act("read")
    assert card.html.count('data-act="add"') == 2
    assert "thrown away" in card.html
    assert card.html.count("data:image/svg+xml;base64,") == 1, "no positions, no map"
    card.act("add", "1")
    (reading,) = model.rig_shown().reading
    assert (str(reading.depth), reading.depth_behind, reading.date, reading.load_of) == ("10 in", 3, "2026-11-04", "available")
    assert reading.speed.to("mph") == pytest.approx(5.0, rel=1e-3)
    assert reading.wheel_speed.to("mph") == pytest.approx(5.5, rel=1e-3)
    assert reading.load.to("1") == pytest.approx(0.8)
    assert reading.note == "log pass.csv, stretch 1"
    assert reading.said_load is not None
    assert "Added as reading 1" in card.html
    assert model.inputs[BOX + "depth"] == "10 in", "the box stays for the next stretch"
    browser.pick("next.csv", rows(3).encode())
    assert card.html.count('data-act="add"') == 3, "columns of those names aren't asked for again"
    again = FieldModel()
    again.replace_all(dict(model.inputs))
    other = ReadingLog(again)
    Browser(other).pick("third.csv", rows().encode())
    assert other.html.count('data-act="add"') == 2, "nor where the page was left and opened anew"
    card.act("again")
    browser.pick("next.csv", rows().encode())
    assert "Which column is which?" in card.html


def test_what_is_missing_is_said_at_once_and_the_file_stays(card: ReadingLog) -> None:
    Browser(card).pick("pass.csv", rows().replace("Time [s]", "When").replace("Ground speed", "Pace").encode())
    for name in ("wheel_speed", "load"):
        card.act(f"column {name}", "")
    card.act("column slip", "rpm")
    card.act("unit slip", "kg")
    card.act("column latitude", "rpm")
    card.act("read")
    said = words(card)
    for part in (
        "Slip : got 'kg'",
        "Time : got no column",
        "Speed over the ground : got no column",
        "Longitude : got no column",
    ):
        assert part in said, part
    assert "--" not in said, "the page sends nobody to a terminal"
    card.act("column time", "When")
    card.act("column speed", "Pace [mph]")
    assert re.search(r'data-act="unit speed"[^>]*value="mph"', card.html), "a column brings the unit of its heading"
    card.act("column latitude", "")
    card.act("column slip", "")
    card.act("column wheel_speed", "Wheel speed [mph]")
    card.act("read")
    assert card.html.count('data-act="add"') == 2


def test_an_empty_depth_is_said_at_its_box_and_nothing_is_added(card: ReadingLog, model: FieldModel) -> None:
    browser = Browser(card)
    browser.pick("pass.csv", rows().encode())
    card.act("load_of", "available")
    card.act("read")
    model.edit({BOX + "depth": "", BOX + "date": ""})
    card.act("add", "1")
    assert 'data-path="own.read.depth"' in card.html
    assert 'data-path="own.read.date"' in card.html
    assert model.rig_shown().reading == ()
    card.act("add", "7")
    assert "a stretch of the list" in card.html


def test_a_log_of_the_bus_and_a_rig_without_rated_engine_speed(card: ReadingLog, model: FieldModel) -> None:
    frames = "".join(f"({s}.0) can0 0CF00400#F07D{125 + 70:02X}803EFFFFFF\n({s}.1) can0 0CF00300#FFFF50FFFFFFFFFF\n"
                     f"({s}.2) can0 0CFE49F0#6009FFFFFFFFFFFF\n" for s in range(60))  # fmt: skip
    Browser(card).pick("DAY.LOG", frames.encode())
    assert "engine load 80 %, engine torque 70 %" in card.html
    assert "isn't used" not in card.html.replace("&#39;", "'")
    bare = replaced(demo_rig(), {"gears": None})
    assert not engine_speed_used(bare, {"load_of": "available"})
    assert engine_speed_used(bare, {"load_of": "torque"}), "torque is no power without it: the reading asks for the rated speed"
    card.act("add", "1")
    assert model.rig_shown().reading[0].load_of == "available"


def test_task_data_says_its_day_and_its_depth_and_draws_a_map(card: ReadingLog, model: FieldModel, tmp_path: Path) -> None:
    import zipfile

    folder = written(tmp_path / "TASKDATA", records_of(driven()[0]))
    with zipfile.ZipFile(tmp_path / "day.zip", "w", zipfile.ZIP_DEFLATED) as packed:
        for each in folder.iterdir():
            packed.write(each, f"TASKDATA/{each.name}")
    model.edit({BOX + "depth": "", BOX + "date": ""})
    Browser(card).pick("day.zip", (tmp_path / "day.zip").read_bytes())
    assert "Task North of the road" in card.html
    assert card.html.count("data:image/svg+xml;base64,") == 2
    card.act("add", "headland")
    (reading,) = model.rig_shown().reading
    assert (reading.date, reading.zone, str(reading.depth)) == ("2026-11-04", "headland", "30 cm")
    model.edit({"implement.tools": "7"})
    assert "data:image" not in card.html, "the pictures were of another rig"
    assert "The rig was changed since" in card.html
    assert card.html.count('data-act="add"') >= 6


@pytest.mark.parametrize(("value", "says"), [
    ({"name": "a.exe", "size": 10}, "ends in .csv, .zip"),
    ({"name": "a.csv", "size": 0}, "an empty file"),
    ({"name": "a.csv", "size": log_reader.MOST_BYTES + 1}, "up to 32 MB"),
    ({"name": "a.csv", "size": -5}, "an empty file"),
    ({"name": "a.csv", "size": 1e400}, "a file"),
    ({"name": "a.csv", "size": True}, "a file"),
    ("a.csv", "a file"),
    ({"name": "<script>.exe", "size": 10}, "&lt;script&gt;"),
])  # fmt: skip
def test_what_is_no_log_is_refused_before_it_travels(card: ReadingLog, value: Any, says: str) -> None:
    browser = Browser(card)
    card.act("pick", value)
    assert says in card.html
    assert browser.asked == []


@pytest.mark.parametrize(("name", "data", "says"), [
    ("a.csv", b"\xff\xfe\x00\x01", "Not taken"),
    ("a.zip", b"PK\x03\x04nothing", "no zip that can be opened"),
    ("a.log", b"(1.0) can0 0CFE49F0#60zz", "a frame that can&#39;t be read"),
    ("a.asc", b"x" * 5000, "a line without end"),
])  # fmt: skip
def test_hostile_files_end_in_words_and_leave_nothing_behind(card: ReadingLog, name: str, data: bytes, says: str) -> None:
    Browser(card).pick(name, data)
    assert says in card.html
    assert "Choose a log" in card.html, "another may be picked"
    assert card._file is None


def test_a_file_that_changes_stops_or_breaks_off_on_its_way_is_put_away(card: ReadingLog) -> None:
    data = rows().encode()
    card.fetch = lambda *_: None  # type: ignore[method-assign]
    card.act("pick", {"name": "a.csv", "size": len(data)})
    folder = card._file.path.parent
    card.take_piece("pick", 5, data)
    card.take_piece("other", 0, data)
    assert card._file.got == 0, "a piece that nobody asked for is none"
    card.take_piece("pick", 0, None)
    assert "changed on its way" in card.html
    assert not folder.exists()
    card.act("pick", {"name": "a.csv", "size": len(data)})
    card.take_piece("pick", 0, data + b"more")
    assert "changed on its way" in card.html
    card.act("pick", {"name": "a.csv", "size": len(data)})
    assert "Fetching a.csv" in card.html
    card.act("stop")
    assert "Choose a log" in card.html
    card.take_piece("pick", 0, data)
    assert "Which column" not in card.html
    card.act("pick", {"name": "a.csv", "size": len(data)})
    folder = card._file.path.parent
    card.close()
    assert not folder.exists()


def test_beside_the_page_a_log_is_read_with_a_bar_and_can_be_stopped(card: ReadingLog, monkeypatch: Any) -> None:
    shares: list[str] = []
    going = {"on": True}

    def slow(*arguments: Any) -> Any:
        progress = arguments[-1]
        while True:
            progress(0.4)

    async def told() -> None:
        monkeypatch.setattr(log_card.log_reader, "taken_apart", slow)
        Browser(card).pick("a.log", b"(1.0) can0 0CFE49F0#6009FFFFFFFFFFFF\n")
        assert card.reading is not None
        while going["on"]:
            await asyncio.sleep(0.05)
            shares.append(words(card))
            if "40" in shares[-1]:
                card.act("stop")
                going["on"] = False
        await card.reading
        assert card.reading is None

    asyncio.run(told())
    assert any("Reading a.log" in share for share in shares)
    assert "Choose a log" in card.html
    assert "Not taken" not in card.html
    assert card._file is None


def test_without_the_libraries_of_the_bus_the_page_doesn_t_offer_its_logs(card: ReadingLog, monkeypatch: Any) -> None:
    monkeypatch.setattr(log_reader, "find_spec", lambda name: None if name == "can" else sys)
    assert log_reader.endings() == (".csv", ".zip")
    card.refresh()
    assert "own bus" not in card.html
    card.act("pick", {"name": "a.log", "size": 10})
    assert "ends in .csv, .zip" in card.html


def test_columns_of_a_link_that_make_no_sense_are_asked_for(model: FieldModel) -> None:
    for text in (
        "{",
        "[1]",
        '{"time":3}',
        '{"time":["a"],"load_of":"all"}',
        '{"speed":["Time [s]","kg"],"time":["Time [s]","s"]}',
    ):
        model.edit({BOX + "columns": text})
        card = ReadingLog(model)
        Browser(card).pick("pass.csv", rows().encode())
        assert "Which column is which?" in card.html, text


def test_headings_are_escaped(card: ReadingLog) -> None:
    Browser(card).pick("pass.csv", b'<img src=x>,"""><b>",c\n1,2,3\n')
    assert "<img src=x>" not in card.html
    assert "<b>" not in card.html


def test_a_rig_without_rated_engine_speed_takes_a_log_without_it_and_says_so() -> None:
    model = FieldModel()
    model.start_from_toml(rig_text(replaced(demo_rig("articulated"), {"gears": None})))
    model.edit({BOX + "date": "2026-11-04", BOX + "depth": "10 in"})
    card = ReadingLog(model)
    Browser(card).pick("pass.csv", rows().encode())
    card.act("load_of", "available")
    card.act("unit time", "kg")
    card.act("unit speed", "kg")
    card.act("read")
    assert "a unit that converts to s, or clock" in words(card)
    assert "a unit that converts to km/h." in words(card)
    card.act("unit time", "s")
    card.act("unit speed", "mph")
    card.act("read")
    assert "The log's engine speed isn't used" in words(card)
    card.act("add", "1")
    (reading,) = model.rig_shown().reading
    assert reading.engine_speed is None
