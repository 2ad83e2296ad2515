"""A display's log: passes that are known are found again, and a hostile file ends in a clear error."""

from __future__ import annotations

import os
import tracemalloc
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from rigcalc.core.errors import InputError
from rigcalc.models.reading.log import STATES, Column, entries, passes, read_log, slip_of, typed_column
from rigcalc.models.reading.log_columns import NAME, Columns, columns_text, kept_columns

COLUMNS = {"time": Column("Time", "s"), "speed": Column("Ground", "mph"), "wheel_speed": Column("Wheel", "mph"),
           "load": Column("Load", "percent"), "fuel_rate": Column("Fuel", "gal/h")}  # fmt: skip


def made(seed: int, rounds: int = 6, step: float = 1.0) -> tuple[dict[str, Any], Any]:
    """Give a log of known passes and, for each row, what is done there: work, turn or stop."""
    random = np.random.default_rng(seed)
    parts, done = [], []
    for _ in range(rounds):
        for what, seconds, speed, load in (
            ("work", random.uniform(120, 300), random.uniform(7.5, 8.5), random.uniform(0.75, 0.9)),
            ("turn", random.uniform(18, 40), random.uniform(5.5, 9.5), 0.3),
            ("stop", random.uniform(0, 60) * (random.random() < 0.4), 0.0, 0.12),
        ):
            rows = int(seconds / step)
            parts.append(np.stack([speed * (1 + 0.015 * random.standard_normal(rows)),
                                   load * (1 + 0.04 * random.standard_normal(rows))]))  # fmt: skip
            done += [what] * rows
    speed, load = np.concatenate(parts, axis=1)
    time = np.arange(speed.size) * step
    log = {"time": time, "speed": speed, "wheel_speed": speed / 0.9, "load": load, "fuel_rate": 90 * load}
    return log, np.array(done)


def with_headland(seed: int) -> tuple[dict[str, Any], Any]:
    """Give a log of a field worked to and fro and of its headland, which pulls harder; and what is done in each row."""
    random = np.random.default_rng(seed)
    parts, done = [], []
    way = float(random.uniform(0, 360))
    jobs = [("work", 200, way + 180 * (place % 2), 0.8) for place in range(8)] + [("headland", 60, way + 90, 0.95)] * 4
    for what, seconds, heading, load in jobs:
        for name, rows, speed, pulls, turns in ((what, seconds, 8.0, load, 0.0), ("turn", 25, 6.0, 0.3, 60.0)):
            parts.append(np.stack([speed * (1 + 0.015 * random.standard_normal(rows)),
                                   pulls * (1 + 0.04 * random.standard_normal(rows)),
                                   (heading + 3 * random.standard_normal(rows) + turns) % 360]))  # fmt: skip
            done += [name] * rows
    speed, load, heading = np.concatenate(parts, axis=1)
    return {"time": np.arange(speed.size, dtype=float), "speed": speed, "load": load, "heading": heading}, np.array(done)


def written(log: dict[str, Any], file: Path) -> Path:
    miles = (log["speed"] / 1.609344, log["wheel_speed"] / 1.609344)
    rows = zip(log["time"], *miles, 100 * log["load"], log["fuel_rate"] / 3.785411784, strict=True)
    file.write_text("Time,Ground,Wheel,Load,Fuel\n" + "".join(",".join(f"{cell:.5f}" for cell in row) + "\n" for row in rows))
    return file


@pytest.mark.parametrize(("seed", "step"), [(1, 1.0), (2, 0.2), (3, 2.0), (4, 1.0)])
def test_known_passes_are_found_to_95_percent_of_the_time(seed: int, step: float) -> None:
    log, done = made(seed, step=step)
    states = np.array(STATES)[passes(log).states]
    said = np.select([np.isin(states, ["steady", "unsteady", "short"]), states == "turning"], ["work", "turn"], default="stop")
    assert np.mean(said == done) > 0.95
    assert np.mean(done[states == "steady"] == "work") > 0.99  # what counts is work


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("name", ["slip", "wheel_speed"])
def test_where_nothing_tells_of_load_turns_are_told_by_slip(seed: int, name: str) -> None:
    """12 percent at work, 3 in a turn, each shown value a point and a half off: at single rows the two overlap."""
    log, done = made(seed)
    slip = np.where(done == "work", 0.12, 0.03) + 0.015 * np.random.default_rng(seed).standard_normal(done.size)
    told = {"slip": slip, "wheel_speed": log["speed"] / (1 - slip)}
    taken = passes({"time": log["time"], "speed": log["speed"], name: told[name]})
    states = np.array(STATES)[taken.states]
    said = np.select([np.isin(states, ["steady", "unsteady", "short"]), states == "turning"], ["work", "turn"], default="stop")
    assert np.mean(said == done) > 0.95
    for stretch in taken.stretches:
        assert np.mean(done[stretch.first : stretch.end] == "work") > 0.97
        assert np.mean(slip[stretch.first : stretch.end]) == pytest.approx(0.12, abs=0.006)


def test_a_column_of_slip_goes_before_the_two_speeds_and_wheels_that_stand_tell_none() -> None:
    speeds = {"speed": np.array([9.0, 0.0]), "wheel_speed": np.array([10.0, 0.0])}
    assert slip_of(speeds) == pytest.approx([0.1, np.nan], nan_ok=True)
    assert slip_of(speeds | {"slip": np.array([0.2, 0.3])}) == pytest.approx([0.2, 0.3])
    assert slip_of({"speed": speeds["speed"]}) is None


@pytest.mark.parametrize("seed", range(6))
def test_the_headland_is_told_from_the_field_by_its_heading(seed: int) -> None:
    log, done = with_headland(seed)
    taken = passes(log)
    states = np.array(STATES)[taken.states]
    said = np.select([np.isin(states, ["steady", "unsteady", "short"]), states == "turning", states == "headland"],
                     ["work", "turn", "headland"], default="stop")  # fmt: skip
    assert np.mean(said == done) > 0.95
    assert {done[each.first : each.end].tolist()[0] for each in taken.stretches} == {"work"}
    assert len(taken.headland) >= 3
    assert taken.headland[0].means["load"] == pytest.approx(0.95, rel=0.02)
    assert "heading" not in taken.headland[0].means
    without = passes({name: values for name, values in log.items() if name != "heading"})
    assert without.headland == ()
    assert without.seconds["headland"] == 0


def test_a_million_rows_stay_in_bounded_memory_and_tell_progress(tmp_path: Path) -> None:
    rows = 1_000_000 if os.environ.get("RIGCALC_LONG") else 60_000
    file = tmp_path / "log.csv"
    with file.open("w") as stream:
        stream.write("Time,Ground,Load\n")
        stream.writelines(f"{at},{5 + at % 7 / 100},{80 + at % 5 / 10}\n" for at in range(rows))
    columns, told = {name: COLUMNS[name] for name in ("time", "speed", "load")}, []
    tracemalloc.start()
    found = read_log(file, columns, told.append)
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert found["time"].size == rows
    assert most < 3 * (24 * rows) + 2_000_000, "three columns of eight bytes, and room to grow"
    assert told == sorted(told)
    assert len(told) >= 10
    assert 0.9 < told[-1] <= 1

    def stop(_share: float) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        read_log(file, columns, stop)


def test_columns_are_kept_and_read_again(tmp_path: Path) -> None:
    log = tmp_path / "pass.csv"
    assert kept_columns(log) is None
    named = Columns(COLUMNS | {"time": Column('Time "local"', "clock")}, "available")
    (tmp_path / NAME).write_text(columns_text(named, "Yours to change.\nTwo lines."), encoding="utf-8")
    assert kept_columns(log) == named
    assert kept_columns(tmp_path / "another.csv") == named, "one for all logs of a folder"
    assert kept_columns(tmp_path / "elsewhere" / "pass.csv") is None


@pytest.mark.parametrize(("text", "says"), [
    ('pace = { heading = "a", unit = "km/h" }', "pace: got an entry of that name"),
    ('speed = "Ground"', "speed: got 'Ground'"),
    ('speed = { heading = "a", unit = "kg" }', "speed in 'kg'"),
    ('speed = { heading = "a", unit = 3 }', "a heading and a unit"),
    ('load_of = "all"', "load_of: got 'all'"),
    ("speed = [", "a file that can't be read"),
    ("x" * 70_000, "more than 64 KiB"),
])  # fmt: skip
def test_kept_columns_that_can_t_be_used_are_refused(tmp_path: Path, text: str, says: str) -> None:
    (tmp_path / NAME).write_text(text)
    with pytest.raises(InputError) as error:
        kept_columns(tmp_path / "pass.csv")
    assert says in str(error.value)


def test_every_fault_of_kept_columns_is_named_at_once(tmp_path: Path) -> None:
    (tmp_path / NAME).write_text('pace = 1\nload_of = "x"\nspeed = 2\n')
    with pytest.raises(InputError) as error:
        kept_columns(tmp_path / "pass.csv")
    assert len(error.value.faults) == 3


def test_a_log_that_was_written_is_read_and_its_stretches_read_what_was_there(tmp_path: Path) -> None:
    log, done = made(5)
    found = read_log(written(log, tmp_path / "log.csv"), COLUMNS)
    for name, values in log.items():
        assert found[name] == pytest.approx(values, rel=1e-4, abs=1e-4), name
    taken = passes(found)
    assert len(taken.stretches) >= 6
    assert [each.seconds for each in taken.stretches] == sorted((each.seconds for each in taken.stretches), reverse=True)
    for stretch in taken.stretches:
        assert (done[stretch.first : stretch.end] == "work").all()
        assert stretch.means["speed"] == pytest.approx(log["speed"][stretch.first : stretch.end].mean(), rel=1e-3)
        read = entries(stretch, "available")
        assert set(read) == {"speed", "wheel_speed", "load", "fuel_rate", "load_of"}
    assert sum(taken.seconds.values()) == pytest.approx(log["time"][-1] - log["time"][0])


def test_a_tool_that_is_up_is_no_work() -> None:
    log, done = made(6)
    log["load"] = np.full(done.size, 0.8)
    log.pop("fuel_rate")
    log["tool_down"] = (done == "work").astype(float)
    states = np.array(STATES)[passes(log).states]
    assert not np.isin(states[done == "turn"], ["steady", "unsteady", "short"]).any()


def test_empty_cells_are_no_data_and_a_gap_ends_a_stretch(tmp_path: Path) -> None:
    time = np.concatenate([np.arange(60.0), np.arange(200.0, 260.0)])
    text = "Time,Ground,Wheel,Load,Fuel\n" + "".join(f"{t},5,5.5,{'' if t == 30 else 80},20\n" for t in time)
    (tmp_path / "log.csv").write_text(text)
    taken = passes(read_log(tmp_path / "log.csv", COLUMNS))
    assert taken.seconds["no_data"] == pytest.approx(1.0)
    assert len(taken.stretches) == 2


def test_nothing_steady_gives_no_stretch() -> None:
    random = np.random.default_rng(0)
    log = {"time": np.arange(300.0), "speed": random.uniform(3, 12, 300), "load": random.uniform(0.3, 1, 300)}
    assert passes(log).stretches == ()
    standing = {"time": np.arange(300.0), "speed": np.zeros(300), "load": np.full(300, 0.1)}
    assert passes(standing).stretches == ()
    assert passes(standing).seconds["stopped"] == pytest.approx(299)


HEAD = b"Time,Ground,Wheel,Load,Fuel\n"


@pytest.mark.parametrize(("data", "says"), [
    (b"", "0 columns headed"),
    (b"Time,Ground,Ground,Wheel,Load,Fuel\n", "2 columns headed"),
    (HEAD + b"0,5,5.5,80,20\n1,5,5.5,80\n", "row 3: got 4 cells"),
    (HEAD + b"0,5,5.5,80,20\n2,5,5.5,80,20\n1,5,5.5,80,20\n", "row 4: got time that runs backward"),
    (HEAD + b"0,5,5.5,80,x\n1,5,5.5,80,20\n", "row 2, Fuel: got 'x'"),
    (HEAD + b"0,5,5.5,80,nan\n", "'nan'"),
    (HEAD + b",5,5.5,80,20\n", "row 2, Time"),
    (HEAD + b"0,5,5.5,8000,20\n1,5,5.5,8000,20\n", "the column's unit again"),
    (HEAD + b"0,5,5.5,80,20\n", "rows over a pass"),
    (HEAD + b'0,5,"5.5,80,20\n', "break off"),
    (HEAD + b"\xff\xfe,5\n", "not text"),
    (HEAD + b"0,5,5.5,80,2\x000\n", "not text"),
    (b"Time," + b"x" * 50_000, "a line without end"),
    (HEAD + b"x,x,x,x,x\n" * 1000, "and"),
])  # fmt: skip
def test_hostile_logs_end_in_a_clear_error(tmp_path: Path, data: bytes, says: str) -> None:
    (tmp_path / "log.csv").write_bytes(data)
    with pytest.raises(InputError) as error:
        read_log(tmp_path / "log.csv", COLUMNS)
    assert says in str(error.value)
    assert len(error.value.faults) <= 120


def test_a_file_too_large_isn_t_opened(tmp_path: Path) -> None:
    with (tmp_path / "log.csv").open("wb") as stream:
        stream.truncate(2 * 1024**3)
    with pytest.raises(InputError, match="MiB"):
        read_log(tmp_path / "log.csv", COLUMNS)
    with pytest.raises(InputError, match="can be read"):
        read_log(tmp_path / "none.csv", COLUMNS)


def test_columns_are_typed_with_their_units() -> None:
    assert typed_column("speed=Ground speed (GPS);km/h") == ("speed", Column("Ground speed (GPS)", "km/h"))
    assert typed_column("time=Time;clock") == ("time", Column("Time", "clock"))
    for text in ("speed", "speed=Ground", "pace=Ground;km/h", "speed=Ground;kg", "speed=;km/h"):
        with pytest.raises(InputError):
            typed_column(text)
    for columns in ({}, {"time": COLUMNS["time"], "speed": COLUMNS["speed"]}):
        with pytest.raises(InputError, match="no column for"):
            read_log(Path("any.csv"), columns)


def test_clock_times_are_read(tmp_path: Path) -> None:
    (tmp_path / "log.csv").write_text("Time,Ground,Load\n10:31:05,5,80\n10:31:06.5,5,80\n")
    columns = COLUMNS | {"time": Column("Time", "clock")}
    found = read_log(tmp_path / "log.csv", {name: columns[name] for name in ("time", "speed", "load")})
    assert np.diff(found["time"]).tolist() == [1.5]


def test_blank_rows_are_passed_over(tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text("Time,Ground,Load\n0,5,80\n\n1,5,81\n,,\n2,5,82\n")
    found = read_log(tmp_path / "a.csv", {name: COLUMNS[name] for name in ("time", "speed", "load")})
    assert found["load"] == pytest.approx([0.80, 0.81, 0.82])


def test_three_seconds_are_cut_off_each_end_of_a_stretch_that_is_long_enough() -> None:
    def stretches(seconds: float) -> tuple[float, ...]:
        time = np.arange(0.0, seconds + 0.05, 0.1)
        log = {"time": time, "speed": np.full(time.size, 8.0), "load": np.full(time.size, 0.8)}
        return tuple(each.seconds for each in passes(log).stretches)

    assert stretches(60.0) == (pytest.approx(54.0, abs=0.11),)
    assert stretches(25.2) == (pytest.approx(19.2, abs=0.11),)
    assert stretches(24.8) == ()
