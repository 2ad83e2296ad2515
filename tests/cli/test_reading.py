"""`rigcalc reading` as it is typed."""

import json
from xml.etree import ElementTree

import pytest
from made_task_data import driven, record, records_of, written

from rigcalc.models.rig.beside import beside
from rigcalc.models.rig.file import demo_rig, load_rig, rig_text

ADD = ("--date", "2026-11-04", "--field", "north", "--depth", "12 in", "--behind", "3", "--speed", "5 mph")
LOAD = ("--load", "102 percent", "--load-of", "available")


@pytest.fixture
def rig(tmp_path):
    file = tmp_path / "my.toml"
    file.write_text(rig_text(demo_rig("articulated")), encoding="utf-8")
    return file


@pytest.fixture
def read(run, rig):
    """Run `rigcalc reading` on the rig: (exit code, standard output, standard error)."""
    return lambda word, *words: run("reading", word, rig, *words, width=120)


def test_adding_says_what_was_said_before_and_keeps_it(read, rig):
    code, out, err = read("add", *ADD, *LOAD, "--slip", "10 percent")
    assert (code, err) == (0, "")
    assert "Added reading 1 to" in out
    assert "Said before: slip" in out
    assert "Said before: engine load" in out
    made = load_rig(rig).reading[0]
    low, high = made.said("load")
    assert low < 1.02 < high
    assert made.made_with.tools == demo_rig("articulated").implement.tools
    assert made.made_with.front_axle_mass.text == demo_rig("articulated").tractor.front_axle_mass.text
    before = beside(rig).read_bytes()
    assert read("add", *ADD, *LOAD, "--slip", "9 percent")[0] == 0
    assert beside(rig).read_bytes().startswith(before)
    narrower = load_rig(rig).reading[1].said("load")
    assert narrower[1] / narrower[0] < 0.7 * high / low


def test_the_answer_says_so_and_shows_before_and_after(run, read, rig):
    was = run("size", rig, width=120)[1]
    assert "reading" not in was
    read("add", *ADD, *LOAD)
    code, out, _ = run("size", rig, width=120)
    assert code == 1
    first = " ".join(out.split("\n\n")[0].split())
    assert "from 1 reading of 4 November 2026" in first
    assert "Without the readings: Try it first" in first
    assert "What the readings changed" in out
    assert "fields that would read so" in out
    data = json.loads(run("size", rig, "--json")[1])
    assert data["readings"]["counted"] == [1]
    assert data["before"]["sure"]["chance_works"] > data["sure"]["chance_works"]
    assert "readings" not in json.loads(run("size", "articulated", "--json")[1])
    other = json.loads(run("size", rig, "--json", "--day", "another")[1])
    width = [
        each["sure"]["bands"]["draft"]["high"]["value"] / each["sure"]["bands"]["draft"]["low"]["value"]
        for each in (data, other)
    ]
    assert width[0] < width[1]


def test_compare_and_sheet_say_which_rig_was_read(run, read, rig, tmp_path):
    read("add", *ADD, *LOAD)
    out = " ".join(run("compare", rig, "articulated", width=200)[1].split())
    assert "my: from 1 reading of 4 November 2026; what has no reading goes by the table." in out
    out = " ".join(run("compare", rig, "--vary", "depth=9 in,10 in", width=200)[1].split())
    assert "All of it from 1 reading of 4 November 2026." in out
    page = tmp_path / "sheet.html"
    run("sheet", rig, "--out", page)
    assert "from 1 reading of 4 November 2026" in page.read_text()


def test_list_tell_next_and_record(read, rig):
    read("add", *ADD, *LOAD, "--slip", "9 percent")
    read("add", "--date", "2026-11-05", "--field", "south", "--depth", "10 in", "--speed", "5 mph", "--fuel-rate", "20 gal/h")
    out = read("list")[1]
    assert "4 November 2026" in out
    assert "another field" in out  # south was read last
    out = read("tell", "--field", "north")[1]
    assert "harder than the table says" in out
    assert "engine load alone" in out
    assert "Of draft, engine load told most" in out
    assert "Read next:" in read("next", "--field", "north")[1] or "Stop reading" in read("next", "--field", "north")[1]
    out = read("record")[1]
    assert "of 3 numbers lay inside" in out
    assert "next to nothing" in out


def test_each_prints_json_and_nothing_else(read, rig):
    read("add", *ADD, *LOAD, "--slip", "9 percent")
    listed, told, after, record = (json.loads(read(word, "--json")[1]) for word in ("list", "tell", "next", "record"))
    assert listed["readings"][0]["numbers"]["load"] == {"value": 1.02, "unit": "1", "error": 0.03, "error_of": "share"}
    assert listed["readings"][0]["counts"] is True
    assert told["draft"]["all"]["low"] > told["draft"]["before"]["low"]
    assert told["contradictions"] == []
    assert after["candidates"][0]["leaves"] <= after["candidates"][-1]["leaves"]
    assert (record["of"], record["few"]) == (2, True)


def test_metric_units_are_equals(read, rig):
    read("add", *ADD, *LOAD)
    assert "30.5 cm" in read("list", "--units", "si")[1]
    assert "12 in" in read("list", "--units", "us")[1]


@pytest.mark.parametrize(("words", "says"), [
    (("--depth", "12", "--speed", "5", "--slip", "9"), ("--depth", "--speed", "--slip")),
    (("--depth", "12 in", "--speed", "5 mph"), ("slip, engine load, fuel rate or pull",)),
    (("--depth", "12 in", "--speed", "5 mph", "--load", "80 percent"), ("what it is a share of",)),
    (("--depth", "12 in", "--speed", "5 mph", "--slip", "9 percent", "--date", "yesterday"), ("--date", "year-month-day")),
    (("--depth", "12 in", "--speed", "5 mph", "--slip", "9 percent", "--behind", "0"), ("--behind",)),
    (("--depth", "12 in", "--speed", "5 mph", "--slip", "9 percent", "--engine-speed", "300 rpm"), ("half of rated speed",)),
    (("--speed", "5 mph", "--slip", "9 percent"), ("--depth",)),
])  # fmt: skip
def test_bad_input_is_named_and_nothing_is_written(read, rig, words, says):
    code, out, err = read("add", *words)
    assert (code, out) == (2, "")
    for part in says:
        assert part in err
    assert not beside(rig).exists()


def test_what_can_t_be_asked(run, read, rig):
    assert run("reading", "add", "articulated", *ADD, *LOAD)[0] == 2
    for word in ("list", "tell", "record"):
        code, _, err = read(word)
        assert code == 2
        assert "one reading at least" in err
    read("add", *ADD, *LOAD)
    code, _, err = read("tell", "--day", "2026-11-09")
    assert code == 2
    assert "a day that a reading is from" in err
    code, _, err = run("size", rig, "--field", "west")
    assert code == 2
    assert "a field that a reading is from" in err
    assert read("add", *ADD, *LOAD)[0] == 2  # the same once more
    text = beside(rig).read_text().replace(",north,", ",north\x1b[31m,")
    beside(rig).write_text(text)
    assert "\x1b" not in read("list")[1]


def test_all_set_aside_tells_nothing(read, rig):
    read("add", *ADD, *LOAD)
    lines = beside(rig).read_text().splitlines()
    place = lines[0].split(",").index("set_aside")
    cells = lines[1].split(",")
    cells[place] = "a wet spot"
    beside(rig).write_text("\n".join([lines[0], ",".join(cells)]))
    code, _, err = read("tell")
    assert code == 2
    assert "none counts" in err
    assert "set aside: a wet spot" in " ".join(read("list")[1].split())


def log_file(tmp_path):
    """A log of three passes with turns between: 150 s at 8 km/h, wheels a tenth faster, a load of 85 percent."""
    rows = [(t, 8.0, 8.8, 85 + t // 180) if t % 180 < 150 else (t, 6.0, 6.1, 30.0) for t in range(540)]
    file = tmp_path / "log.csv"
    file.write_text("Time,Ground,Wheel,Load\n" + "".join(",".join(map(str, row)) + "\n" for row in rows))
    return file


LOG = ("--column", "time=Time;s", "--column", "speed=Ground;km/h", "--column", "wheel_speed=Wheel;km/h",
       "--column", "load=Load;percent", "--load-of", "available")  # fmt: skip


def test_a_log_is_taken_apart_and_its_longest_stretches_become_readings(read, rig, tmp_path):
    file = log_file(tmp_path)
    code, out, _ = read("log", file, *LOG)
    assert code == 0
    assert "turning, or the tool up, thrown away" in out
    assert "Stretch 3: " in out
    assert "Nothing added" in out
    assert not beside(rig).exists()
    code, out, _ = read("log", file, *LOG, "--depth", "12 in", "--date", "2026-11-04", "--most", "2")
    assert code == 0
    made = load_rig(rig).reading
    assert [each.note for each in made] == ["log log.csv, stretch 1", "log log.csv, stretch 2"]
    assert made[0].numbers["slip"][0] == pytest.approx(1 - 8 / 8.8, abs=1e-3)
    assert {round(each.numbers["load"][0], 3) for each in made} <= {0.85, 0.86, 0.87}


def test_a_log_that_can_t_be_used_adds_nothing(read, rig, tmp_path):
    file = log_file(tmp_path)
    code, _, err = read("log", file, "--column", "speed=Ground", "--column", "load=Load;percent", "--depth", "12 in")
    assert code == 2
    for part in ("--column", "--load-of", "--date"):
        assert part in err
    assert read("log", file, "--column", "time=Clock;s", *LOG[2:])[0] == 2
    assert read("log", tmp_path / "none.csv", *LOG)[0] == 2
    assert not beside(rig).exists()


def test_which_column_is_what_is_kept_for_the_next_log_of_that_folder(read, rig, tmp_path):
    file = log_file(tmp_path)
    code, _, err = read("log", file)
    assert code == 2
    assert "no log.columns.toml beside the log" in err
    code, first, _ = read("log", file, *LOG)
    assert code == 0
    assert "Which column is what is kept in" in first
    kept = (tmp_path / "log.columns.toml").read_text()
    code, again, _ = read("log", file.rename(tmp_path / "tomorrow.csv"))
    assert code == 0
    assert again == "".join(line for line in first.splitlines(keepends=True) if "is kept in" not in line)
    assert (tmp_path / "log.columns.toml").read_text() == kept
    # What doesn't fit the log isn't kept.
    code, _, err = read("log", tmp_path / "tomorrow.csv", "--column", "time=Clock;s", *LOG[2:])
    assert code == 2
    assert (tmp_path / "log.columns.toml").read_text() == kept


def test_at_a_terminal_the_columns_are_asked_for_once(read, rig, tmp_path, monkeypatch):
    file = log_file(tmp_path)
    answers = iter(["1", "9 km/h", "2 kg", "2 km/h", "3 km/h", "", "4 percent", *[""] * 8, "all", "available"])
    asked = []
    monkeypatch.setattr("rigcalc.cli.reading_log._at_a_terminal", lambda: True)
    monkeypatch.setattr("rigcalc.cli.reading_log._reply", lambda text: asked.append(text) or next(answers))
    code, out, _ = read("log", file)
    assert code == 0, out
    assert "1 Time, 2 Ground, 3 Wheel, 4 Load" in out
    assert "a number from 1 to 4 and a unit" in out
    assert "a unit that converts to km/h" in out
    assert "Stretch 3: " in out
    assert [text.split(" ")[0] for text in asked].count("speed") == 3
    assert read("log", file)[0] == 0, "nothing is left to be asked"
    assert next(answers, None) is None


def test_adding_and_logs_as_json(read, rig, tmp_path):
    code, out, _ = read("add", *ADD, *LOAD, "--json")
    assert code == 0
    (made,) = json.loads(out)["added"]
    (number,) = made["numbers"]
    assert (made["reading"], number["number"], number["read"], number["unit"]) == (1, "load", 1.02, "1")
    assert number["said"]["low"] < number["said"]["middle"] < number["said"]["high"]
    assert number["inside"] == (number["said"]["low"] <= 1.02 <= number["said"]["high"])
    file = log_file(tmp_path)
    code, out, _ = read("log", file, *LOG, "--json")
    assert code == 0
    data = json.loads(out)
    assert data["added"] == []
    assert data["stretches"][0]["means"]["speed"] == pytest.approx({"value": 8.0, "unit": "km/h"})
    assert data["seconds"]["turning"]["value"] > 60
    code, out, _ = read("log", file, "--json", "--depth", "12 in", "--date", "2026-11-05", "--field", "north", "--most", "2")
    assert [each["reading"] for each in json.loads(out)["added"]] == [2, 3]
    assert len(load_rig(rig).reading) == 3


def test_a_log_of_the_bus_needs_no_columns(read, rig, tmp_path):
    rows = []
    for second in range(200):
        rows += [f"({second}.0) can0 0CF00300#FFFF55FFFFFFFFFF", f"({second}.1) can0 0CFE49F0#6009FFFFFFFFFFFF"]
    file = tmp_path / "day.log"
    file.write_text("\n".join(rows) + "\n")
    code, _, err = read("log", file, "--depth", "12 in", "--date", "2026-11-04")
    assert code == 0, err
    assert not (tmp_path / "log.columns.toml").exists()
    (made,) = load_rig(rig).reading
    assert (made.load_of, made.numbers["load"][0]) == ("available", 0.85)


@pytest.fixture
def task_data(tmp_path):
    """Task data of a field worked to and fro and along its ends, 300 mm deep."""
    return written(tmp_path / "TASKDATA", records_of(driven()[0]))


def test_task_data_says_its_day_and_depth_by_itself(read, rig, task_data):
    code, out, _ = read("log", task_data)
    assert code == 0
    assert "Task North of the road: 1 log, " in out
    assert "Speed over the ground from the positions." in out
    assert "Nothing added: --depth makes readings of the longest stretches." in out
    code, out, err = read("log", task_data, "--depth", "log", "--most", "2")
    assert code == 0, err
    one, two, land = load_rig(rig).reading
    assert (one.date, str(one.depth), one.load_of, one.zone) == ("2026-11-04", "30 cm", "available", "")
    assert (two.note, land.zone) == ("log TASKDATA, stretch 2", "headland")
    assert read("log", task_data, "--depth", "12 in", "--date", "2026-11-05", "--most", "1")[0] == 0
    assert {(each.date, str(each.depth)) for each in load_rig(rig).reading[3:]} == {("2026-11-05", "12 in")}
    data = json.loads(read("log", task_data, "--json")[1])
    assert data["task"] == {"name": "North of the road", "day": "2026-11-04", "logs": 1, "speed_from": "positions"}
    assert data["stretches"][0]["means"]["depth"] == pytest.approx({"value": 30.0, "unit": "cm"})


def test_task_data_that_can_t_be_used_adds_nothing(read, rig, task_data, tmp_path):
    code, _, err = read("log", task_data, *LOG, "--task", "TSK9", "--map-of", "slip", "--picture", "day.png")
    assert code == 2
    for part in ("task data says by itself what it holds", "--map: got nothing", ".svg"):
        assert part in err
    assert "'TSK9'" in read("log", task_data, "--task", "TSK9")[2]
    assert "--task" in read("log", log_file(tmp_path), *LOG, "--task", "TSK1")[2]
    written(task_data, b"".join(record(second, 52 + second / 5e4, 10, [(0, 25_000)], day=0) for second in range(60)))
    code, _, err = read("log", task_data, "--depth", "log")
    assert code == 2
    assert "a log whose clock wasn't set" in err
    assert "no depth over stretch 1 in it" in read("log", task_data, "--depth", "log", "--date", "2026-11-04")[2]
    assert not beside(rig).exists()


def test_a_field_is_drawn_as_it_was_driven(read, rig, task_data, tmp_path):
    file = tmp_path / "field.svg"
    code, out, _ = read("log", task_data, "--map", file)
    assert code == 0
    assert "Wrote" in out
    said = ElementTree.parse(file).getroot().find("{http://www.w3.org/2000/svg}desc").text
    assert said.startswith("Draft, as the engine load asks for it at the rig's depth: ")
    assert read("log", task_data, "--map", file)[0] == 2, "a file that is there isn't written over"
    assert read("log", task_data, "--map", file, "--force", "--map-of", "depth")[0] == 0
    assert "Depth: 11.8 in in the middle" in file.read_text()
    assert "of which this log tells nothing" in read("log", task_data, "--map", file, "--force", "--map-of", "slip")[2]
    assert "a log without positions" in read("log", log_file(tmp_path), *LOG, "--map", file, "--force")[2]


def test_zones_are_said_and_a_log_s_headland_becomes_a_reading_of_it(read, rig, tmp_path):
    code, out, _ = read("zones")
    assert code == 0
    assert "The headland pulls 1.30 to 2.10 times as hard" in out
    assert "Cart lanes pull" in out
    assert read("add", *ADD, *LOAD, "--zone", "the gate")[0] == 2
    rows = [(t, 8.0, 85, 90 + 180 * (t // 180 % 2)) if t % 180 < 150 else (t, 6.0, 30, 0) for t in range(720)]
    rows += [(720 + t, 7.0, 95, 2) if t % 100 < 75 else (720 + t, 6.0, 30, 90) for t in range(200)]
    file = tmp_path / "log.csv"
    file.write_text("Time,Ground,Load,Way\n" + "".join(",".join(map(str, row)) + "\n" for row in rows))
    columns = ("--column", "time=Time;s", "--column", "speed=Ground;km/h", "--column", "load=Load;percent",
               "--column", "heading=Way;deg", "--load-of", "available")  # fmt: skip
    picture = ("--picture", tmp_path / "pass.svg")
    code, out, err = read("log", file, *columns, "--depth", "9 in", "--date", "2026-11-04", "--most", "1", *picture)
    assert code == 0, err
    assert ElementTree.parse(tmp_path / "pass.svg").getroot().get("role") == "img"
    assert read("log", file, *picture)[0] == 2, "a file that is there isn't written over"
    assert read("log", file, *picture, "--force")[0] == 0
    assert "on the headland: kept apart" in out
    field, land = load_rig(rig).reading
    assert (field.zone, land.zone) == ("", "headland")
    assert land.numbers["load"][0] == pytest.approx(0.95)
    assert "its zone alone" in " ".join(read("list")[1].split())
    (headland, lane) = json.loads(read("zones", "--json")[1])["zones"]
    assert (headland["readings"], lane["readings"]) == (1, 0)
    assert headland["factor"]["high"] - headland["factor"]["low"] < lane["factor"]["high"] - lane["factor"]["low"]
