"""Task data of ISO 11783-10: bytes by hand come out as the standard's scales have them; hostile files end in clear errors."""

from __future__ import annotations

import io
import os
import struct
import tracemalloc
import zipfile
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from made_task_data import LINES, TASKS, driven, header_of, main_of, record, records_of, written

from rigcalc.core.errors import InputError
from rigcalc.models.reading import task_data, task_files, task_xml
from rigcalc.models.reading.log import STATES, entries, passes
from rigcalc.models.reading.task_data import read_task_data
from rigcalc.models.reading.task_header import header_of as read_header

# Two records by hand. 0x02255100 = 36,000,000 ms, ten in the morning; 0x42D5 = 17,109 days after 1 January 1980, 4 November
# 2026. North 0x1EFE9200 = 520,000,000 of 1e-7 degrees; east 0x05F5E100 = 100,000,000; fix 4. Then how many values, and of each
# the line and the number: 0 fuel, 0x000061A8 = 25,000 mm3/s, 90 L/h; 1 load, 0x55 = 85 percent; 2 work state, 1; 3 depth,
# 0x012C = 300 mm; 4 speed that the machine goes by, 0x08AE = 2222 mm/s; 5 engine speed, 0x0112A880 = 18,000,000 of 1e-4 rpm.
BY_HAND = ("00512502 D542 0092FE1E 00E1F505 04 06 00A8610000 0155000000 0201000000 032C010000 04AE080000 0580A81201"
           "E8542502 D542 6492FE1E 00E1F505 04 01 0156000000")  # fmt: skip
SIX = (*LINES, '<DLV A="018D" B="" C="DET-1"/>', '<DLV A="01E4" B="" C="DET-1"/>')


def pack(folder: Path, file: Path, inside: str = "TASKDATA/", how: int = zipfile.ZIP_DEFLATED) -> Path:
    with zipfile.ZipFile(file, "w", how) as packed:
        for each in folder.iterdir():
            packed.write(each, inside + each.name)
    return file


def test_bytes_by_hand_come_out(tmp_path: Path) -> None:
    found = read_task_data(written(tmp_path / "TASKDATA", bytes.fromhex(BY_HAND), SIX))
    columns = found.columns
    assert columns["time"].tolist() == [0.0, 1.0]
    assert columns["latitude"] == pytest.approx([52.0, 52.00001])
    assert columns["longitude"] == pytest.approx([10.0, 10.0])
    assert columns["fuel_rate"] == pytest.approx([90.0, 90.0])
    assert columns["load"] == pytest.approx([0.85, 0.86])
    assert columns["depth"] == pytest.approx([30.0, 30.0])
    assert columns["engine_speed"] == pytest.approx([1800.0, 1800.0])
    assert columns["speed"] == pytest.approx(np.full(2, 3.6 * 1.11266), rel=1e-4), "over the ground, from the positions"
    assert "tool_down" not in columns, "one that never moves tells nothing"
    assert (found.day(0), found.task, found.logs, found.speed_from) == ("2026-11-04", "North of the road", 1, "positions")


def test_without_positions_the_speed_that_the_machine_goes_by_is_taken_and_radar_before_all(tmp_path: Path) -> None:
    none = "".join(part for part in BY_HAND.split() if part not in ("0092FE1E", "6492FE1E", "00E1F505", "04"))
    found = read_task_data(written(tmp_path / "TASKDATA", bytes.fromhex(none), SIX, position=""))
    assert found.speed_from == "actual"
    assert found.columns["speed"] == pytest.approx([7.9992, 7.9992])
    radar = (*LINES[:1], '<DLV A="DFFE" B="" C="DET-1" D="65097" E="0" F="15"/>', *SIX[2:])  # 85 mm/s, then 86
    found = read_task_data(written(tmp_path / "TASKDATA", bytes.fromhex(BY_HAND), radar))
    assert found.speed_from == "radar"
    assert found.columns["speed"] == pytest.approx([0.306, 0.3096])


def test_each_message_of_the_bus_is_known_by_its_group_and_its_bits() -> None:
    """Groups, first and last bits as tractor.dbc has them, counted from 0; raw numbers by hand."""
    by_hand = {"65097 0 15": ("speed", 2000, 7.2), "65096 0 15": ("wheel_speed", 2500, 9.0), "61443 16 23": ("load", 85, 0.85),
               "61444 16 23": ("torque", 0xA0, 0.35), "65266 0 15": ("fuel_rate", 1800, 90.0),
               "61444 24 39": ("engine_speed", 0x3E80, 2000.0), "65093 14 15": ("tool_down", 1, 1.0)}  # fmt: skip
    pieces = [f'<DLV A="DFFE" B="" C="DET-1" D="{group}" E="{first}" F="{last}"/>'
              for group, first, last in (each.split() for each in by_hand)]  # fmt: skip
    lines = read_header(header_of(pieces).encode(), "TLG00001.XML").lines
    for line, (name, raw, value) in zip(lines, by_hand.values(), strict=True):
        assert line is not None
        assert line.name == name
        assert line.scaled(np.array([float(raw)])) == pytest.approx([value])
    first_that_is_none = {"tool_down": 2, "load": 0xFB, "torque": 0xFB}
    for line in lines:
        assert line is not None
        none = first_that_is_none.get(line.name, 0xFB00)
        assert np.isfinite(line.scaled(np.array([none - 1.0, none]))).tolist() == [True, False], line.name


def test_where_the_bus_has_no_load_torque_tells(tmp_path: Path) -> None:
    torque = (LINES[0], LINES[1].replace("61443", "61444"), *LINES[2:])
    rows = [record(second, 52 + second / 1e5, 10, [(1, 185)]) for second in range(3)]
    found = read_task_data(written(tmp_path / "TASKDATA", b"".join(rows), torque)).columns
    assert found["torque"] == pytest.approx([0.6, 0.6, 0.6])
    assert "load" not in found


def test_a_log_of_known_passes_is_taken_apart_as_one_of_a_display_is(tmp_path: Path) -> None:
    log, done = driven()
    found = read_task_data(pack(written(tmp_path / "TASKDATA", records_of(log)), tmp_path / "day.zip"))
    for name in ("speed", "load", "fuel_rate", "tool_down", "depth"):
        rows = np.arange(5, 140) if name == "speed" else np.arange(done.size)
        assert found.columns[name][rows] == pytest.approx(log[name][rows], rel=0.01, abs=0.006), name
    taken = passes(found.columns)
    states = np.array(STATES)[taken.states]
    said = np.select([np.isin(states, ["steady", "unsteady", "short"]), states == "turning", states == "headland"],
                     ["work", "turn", "headland"], default="stop")  # fmt: skip
    assert np.mean(said == done) > 0.95
    assert len(taken.stretches) == 6
    assert taken.headland
    read = entries(taken.stretches[0], "available")
    assert read["depth"] == "30 cm"
    assert float(read["speed"].split()[0]) == pytest.approx(8.0, rel=0.005)


def test_a_number_stays_for_ten_seconds_and_what_the_tool_does_until_it_does_another(tmp_path: Path) -> None:
    first = [(0, 25_000), (1, 85), (2, 1), (3, 300)]
    rows = [
        record(second, 52 + second / 1e5, 10, first if second == 0 else [(2, 0)] if second == 20 else [])
        for second in range(25)
    ]
    columns = read_task_data(written(tmp_path / "TASKDATA", b"".join(rows))).columns
    assert np.isfinite(columns["load"]).tolist() == [True] * 11 + [False] * 14
    assert columns["tool_down"].tolist() == [1.0] * 20 + [0.0] * 5
    assert columns["depth"].tolist() == [30.0] * 25


def test_what_is_no_number_is_none(tmp_path: Path) -> None:
    rows = [record(0, 52, 10, [(0, 25_000), (1, 0xFA), (2, 2), (3, 2**31 - 1)]),
            record(1, 0, 0, [(1, 0xFB), (2, 1), (3, -(2**31))]),
            record(2, 52.0001, 10, [(1, 90), (2, 0)], status=0),
            record(3, 95, 10, [(0, -5)]), record(4, 52.0002, 10, [(3, 250)])]  # fmt: skip
    columns = read_task_data(written(tmp_path / "TASKDATA", b"".join(rows))).columns
    assert np.isfinite(columns["latitude"]).tolist() == [True, False, False, False, True]
    assert columns["load"][0] == pytest.approx(2.5)
    assert np.isfinite(columns["load"]).tolist() == [True, False, True, True, True]
    assert np.isfinite(columns["fuel_rate"]).tolist() == [True, True, True, False, False]
    assert np.isfinite(columns["tool_down"]).tolist() == [False, True, True, True, True]
    assert np.isfinite(columns["depth"]).tolist() == [False, False, False, False, True]


def test_of_several_elements_the_tool_works_where_one_does_and_depth_is_their_mean(tmp_path: Path) -> None:
    lines = (LINES[0], LINES[2], LINES[2].replace("DET-2", "DET-3"), LINES[3], LINES[3].replace("DET-2", "DET-3"),
             '<DLV A="0095" B="" C="DET-9"/>', '<DLV A="0001" B="" C="DET-9"/>')  # fmt: skip
    rows = [record(0, 52, 10, [(0, 25_000), (1, 0), (2, 1), (3, 300), (4, 200), (5, 99), (6, 7)]),
            record(1, 52.00002, 10, [(0, 25_000), (2, 0)]), record(2, 52.00004, 10, [(1, 1)])]  # fmt: skip
    columns = read_task_data(written(tmp_path / "TASKDATA", b"".join(rows), lines)).columns
    assert columns["tool_down"].tolist() == [1.0, 0.0, 1.0]
    assert columns["depth"].tolist() == [25.0] * 3
    assert columns["fuel_rate"].tolist() == [90.0] * 3, "the first of them"


def test_a_value_in_the_header_holds_until_a_record_says_another(tmp_path: Path) -> None:
    lines = ('<DLV A="0095" B="25000" C="DET-1"/>', '<DLV A="0034" B="310" C="DET-2"/>')
    rows = [record(0, 52, 10, []), record(1, 52.00002, 10, [(1, 300)])]
    columns = read_task_data(written(tmp_path / "TASKDATA", b"".join(rows), lines)).columns
    assert columns["depth"].tolist() == [31.0, 30.0]
    assert columns["fuel_rate"].tolist() == [90.0, 90.0]


def test_a_header_with_more_of_a_position_is_read_where_its_parts_stand() -> None:
    header = read_header(header_of(LINES, '<PTN A="" B="" C="" D="" E="" F="" G="" H="" I=""/>').encode(), "TLG00001.XML")
    assert header.places == {"north": 6, "east": 10, "up": 14, "status": 18, "pdop": 19, "hdop": 21, "satellites": 23,
                             "utc time": 24, "utc day": 28}  # fmt: skip
    assert header.fixed == 30
    held = read_header(header_of(LINES, '<PTN A="" B="" D="4" H=""/>').encode(), "TLG00001.XML")
    assert held.places == {"north": 6, "east": 10, "utc time": 14}, "one with a value stands in the header alone"


def test_several_logs_of_a_task_are_one_and_which_task_is_asked(tmp_path: Path) -> None:
    two = ('<TSK A="TSK1" B="North"><TLG A="TLG00001"/><TLG A="tlg00002"/></TSK>'
           '<TSK A="TSK2" B="South"><TLG A="TLG00003"/></TSK><TSK A="TSK3" B="Planned"/>')  # fmt: skip
    folder = tmp_path / "TASKDATA"
    for place, first in (("TLG00003", 0), ("TLG00002", 100), ("TLG00001", 50)):
        rows = [
            record(first + second, 52 + second / 5e4, 10, [(0, 25_000), (1, 80 + place.endswith("2"))]) for second in range(10)
        ]
        written(folder, b"".join(rows), inside=two, log=place)
    (folder / "TLG00002.BIN").rename(folder / "tlg00002.bin")
    with pytest.raises(InputError) as error:
        read_task_data(folder)
    assert "TSK1 (North, 2 logs); TSK2 (South, 1 logs)" in str(error.value)
    for task in ("TSK1", "North"):
        found = read_task_data(folder, task)
        assert found.columns["time"].tolist() == [*range(10), *range(50, 60)], "in the order of time"
        assert found.columns["load"].tolist() == [0.80] * 10 + [0.81] * 10
    assert read_task_data(folder, "South").columns["time"].size == 10
    with pytest.raises(InputError, match="'East'"):
        read_task_data(folder, "East")


def test_a_task_in_a_file_of_its_own_is_found_and_the_folder_above_does_too(tmp_path: Path) -> None:
    folder = written(
        tmp_path / "TASKDATA", records_of(driven()[0]), inside='<XFR A="TSK00001" B="1"/><XFR A="PFD00001" B="1"/>'
    )
    (folder / "TSK00001.XML").write_text(f"<XFC>{TASKS}</XFC>")
    for path in (folder, tmp_path, folder / "TASKDATA.XML"):
        assert read_task_data(path).logs == 1
    assert read_task_data(pack(folder, tmp_path / "flat.zip", inside="")).logs == 1
    assert read_task_data(pack(folder, tmp_path / "back.zip", inside="day\\TASKDATA\\")).logs == 1


def test_a_million_records_stay_in_bounded_memory_and_tell_progress(tmp_path: Path) -> None:
    count = 1_000_000 if os.environ.get("RIGCALC_LONG") else 100_000
    one = np.frombuffer(record(0, 52, 10, [(0, 25_000), (1, 85)]), np.uint8)
    rows = np.tile(one, (count, 1))
    rows[:, :4] = (10 * np.arange(count, dtype="<u4")).view(np.uint8).reshape(-1, 4)
    rows[:, 6:10] = (520_000_000 + np.arange(count, dtype="<i4")).view(np.uint8).reshape(-1, 4)
    folder, told = written(tmp_path / "TASKDATA", rows.tobytes()), []
    tracemalloc.start()
    found = read_task_data(folder, progress=told.append)
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert found.columns["time"].size == count
    assert most < 400 * count + 4_000_000
    assert (len(told) >= 5) == (count >= 1_000_000)

    def stop(_share: float) -> None:
        raise KeyboardInterrupt

    if count >= 1_000_000:
        with pytest.raises(KeyboardInterrupt):
            read_task_data(folder, progress=stop)


GOOD = [record(second, 52 + second / 5e4, 10, [(0, 25_000), (1, 85)]) for second in range(5)]
BOMB = ('<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "bbbbbbbb"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]>'
        '<ISO11783_TaskData>&c;</ISO11783_TaskData>')  # fmt: skip


@pytest.mark.parametrize(("file", "data", "says"), [
    ("TASKDATA.XML", BOMB.encode(), "a document type or entities"),
    ("TASKDATA.XML", b'<!DOCTYPE a SYSTEM "file:///etc/passwd"><ISO11783_TaskData/>', "a document type or entities"),
    ("TASKDATA.XML", b"<ISO11783_TaskData>", "breaks off"),
    ("TASKDATA.XML", b"<ISO11783_TaskData>&none;</ISO11783_TaskData>", "isn't well-formed"),
    ("TASKDATA.XML", b'<?xml version="1.0" encoding="none"?><ISO11783_TaskData/>', "isn't well-formed"),
    ("TASKDATA.XML", b"", "breaks off"),
    ("TASKDATA.XML", b"<html/>", "root is ISO11783_TaskData"),
    ("TASKDATA.XML", b"<a>" * 40 + b"</a>" * 40, "inside each other"),
    ("TASKDATA.XML", main_of("").encode(), "no task with a time log"),
    ("TASKDATA.XML", main_of('<TSK A="TSK1"><TLG A="../../passwd"/></TSK>').encode(), "TLG and five digits"),
    ("TASKDATA.XML", main_of('<TSK A="TSK1"><TLG A="TLG0000\u0661"/></TSK>').encode(), "TLG and five digits"),
    ("TASKDATA.XML", main_of('<TSK A="TSK1"><TLG A="TLG00002"/></TSK>').encode(), "no such file"),
    ("TASKDATA.XML", main_of('<XFR A="TSK00009"/>').encode(), "no such file"),
    ("TLG00001.XML", b'<TIM A="2026-11-04T10:00:00" D="4"/>', "a time for all records"),
    ("TLG00001.XML", header_of(position='<PTN A="" B=""/><PTN A="" B=""/>').encode(), "2 positions"),
    ("TLG00001.XML", header_of([LINES[0]] * 256).encode(), "256 values"),
    ("TLG00001.XML", header_of(['<DLV A="" B=""/>', '<DLV A="0095" B="x"/>', '<DLV A="DFFE" B="" D="1"/>']).encode(), "DLV 3"),
    ("TLG00001.XML", header_of(LINES[:1]).encode(), "a value of line 2"),
    ("TLG00001.BIN", b"".join(record(at, 52, 10, [(4 * at, 0)]) for at in range(3)), "2: got a value of line 5"),
    ("TLG00001.BIN", b"", "breaks off after 0"),
    ("TLG00001.BIN", b"".join(GOOD)[:-1], "breaks off after 4"),
    ("TLG00001.BIN", b"".join(GOOD) + b"\0", "breaks off after 5"),
    ("TLG00001.BIN", GOOD[3] + GOOD[0], "record 2: got time that runs backward"),
    ("TLG00001.BIN", GOOD[0] + record(90_000, 52, 10, []), "record 2: got a time of over 24 hours"),
    ("TLG00001.BIN", GOOD[0], "rows over a pass"),
    ("TLG00001.BIN", b"".join(record(second, 52, 10, [(3, 300)]) for second in range(3)), "how hard it pulled"),
    ("TLG00001.BIN", b"".join(record(second, 0, 0, [(1, 80)]) for second in range(3)), "neither ground speed nor positions"),
    ("TLG00001.BIN", b"".join(record(second, 52, 10, [(0, 2_000_000_000)]) for second in range(3)), "fuel_rate"),
])  # fmt: skip
def test_hostile_task_data_ends_in_a_clear_error(tmp_path: Path, file: str, data: bytes, says: str) -> None:
    folder = written(tmp_path / "TASKDATA", b"".join(GOOD))
    assert read_task_data(folder).logs == 1
    (folder / file).write_bytes(data)
    for path in (folder, pack(folder, tmp_path / "day.zip")):
        with pytest.raises(InputError) as error:
            read_task_data(path)
        assert says in str(error.value)


def test_what_a_zip_unpacks_to_is_counted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = written(tmp_path / "TASKDATA", b"".join(GOOD))
    (folder / "TLG00001.BIN").write_bytes(b"\0" * 3_000_000)
    packed = pack(folder, tmp_path / "day.zip")
    assert packed.stat().st_size < 10_000
    monkeypatch.setattr(task_data, "_MOST_LOG", 1_000_000)
    with pytest.raises(InputError, match=r"more than 0\.95"):
        read_task_data(packed)
    monkeypatch.setattr(task_data, "_MOST_LOG", 10_000_000)
    monkeypatch.setattr(task_files, "MOST_IN_ALL", 2_000_000)
    with pytest.raises(InputError, match=r"more than 1\.9"):
        read_task_data(packed)
    monkeypatch.setattr(task_data, "MOST_ROWS", 100)
    monkeypatch.setattr(task_files, "MOST_IN_ALL", 10_000_000)
    with pytest.raises(InputError, match="records"):
        read_task_data(packed)
    monkeypatch.setattr(task_xml, "_MOST_ELEMENTS", 3)
    with pytest.raises(InputError, match="too many elements"):
        read_task_data(folder)


def end_of(packed: bytes, at: int, number: int, wide: str) -> bytes:
    """Change a number in the end of a zip."""
    place = packed.rfind(b"PK\x05\x06") + at
    return packed[:place] + struct.pack(wide, number) + packed[place + struct.calcsize(wide) :]


@pytest.mark.parametrize(("made", "says"), [
    (lambda data: data[: len(data) // 2], "no zip that can be opened"),
    (lambda data: b"", "no zip that can be opened"),
    (lambda data: end_of(data, 10, 60_000, "<H"), "very many files"),
    (lambda data: end_of(data, 12, 50_000_000, "<L"), "very many files"),
    (lambda data: data + b"PK\x06\x07", "very many files"),
    (lambda data: data.replace(b"TASKDATA.XML", b"TASKDATB.XML"), "0 files TASKDATA.XML"),
    (lambda data: data[:60] + b"\xff" * 40 + data[100:], "can't be"),
])  # fmt: skip
def test_a_zip_that_is_broken_or_made_to_harm_is_refused(tmp_path: Path, made: Any, says: str) -> None:
    packed = pack(written(tmp_path / "TASKDATA", b"".join(GOOD)), tmp_path / "day.zip")
    packed.write_bytes(made(packed.read_bytes()))
    with pytest.raises(InputError) as error:
        read_task_data(packed)
    assert says in str(error.value)


def test_other_zips_and_folders_are_refused(tmp_path: Path) -> None:
    folder = written(tmp_path / "TASKDATA", b"".join(GOOD))
    for path, says in ((tmp_path / "none.zip", "No such file"), (tmp_path / "empty", "no TASKDATA.XML")):
        if not path.suffix:
            path.mkdir()
        with pytest.raises(InputError, match=says):
            read_task_data(path)
    twice = tmp_path / "twice.zip"
    with zipfile.ZipFile(pack(folder, twice), "a") as packed:
        packed.writestr("more/TASKDATA.XML", main_of())
    with pytest.raises(InputError, match=r"2 files TASKDATA\.XML"):
        read_task_data(twice)
    with zipfile.ZipFile(pack(folder, twice), "a") as packed:
        packed.writestr("TASKDATA/tlg00001.bin", b"")
    with pytest.raises(InputError, match="two files of that name"):
        read_task_data(twice)
    with pytest.raises(InputError, match="can't be read"):
        read_task_data(pack(folder, tmp_path / "other.zip", how=zipfile.ZIP_LZMA))
    with (tmp_path / "large.zip").open("wb") as stream:
        stream.truncate(2 * 1024**3)
    with pytest.raises(InputError, match="more than 200 MiB"):
        read_task_data(tmp_path / "large.zip")


def test_an_open_library_writes_what_is_read_and_has_the_same_scales(tmp_path: Path) -> None:
    pytest.importorskip("isoxml", reason="in the dev group")
    import isoxml.models.base.v4 as iso
    from isoxml.models.ddi_entities import DDEntity
    from isoxml.util.isoxml_io import isoxml_to_zip

    task = iso.Task(id="TSK1", designator="South", status=next(iter(iso.TaskStatus)))
    task.time_logs.append(iso.TimeLog(filename="TLG00001", type=next(iter(iso.TimeLogType))))
    whole = iso.Iso11783TaskData(
        management_software_manufacturer="none", management_software_version="1",
        data_transfer_origin=next(iter(iso.Iso11783TaskDataDataTransferOrigin)), tasks=[task],
    )  # fmt: skip
    out = io.BytesIO()
    isoxml_to_zip(out, whole, {"TLG00001": b"".join(GOOD)})
    with zipfile.ZipFile(out, "a") as packed:
        packed.writestr("TASKDATA/TLG00001.XML", header_of())
    (tmp_path / "day.zip").write_bytes(out.getvalue())
    assert read_task_data(tmp_path / "day.zip").task == "South"
    scales = {
        52: ("mm", 1, 0.1),
        141: ("n.a.", 1, 1.0),
        149: ("mm³/s", 1, 0.0036),
        397: ("mm/s", 1, 0.0036),
        484: ("r/min", 1e-4, 1e-4),
    }
    for number, (unit, resolution, factor) in scales.items():
        entry = DDEntity.from_id(number)
        assert (entry.unit, entry.bit_resolution) == (unit, resolution), entry.name
        (line,) = read_header(header_of([f'<DLV A="{number:04X}" B="" C="DET-1"/>']).encode(), "TLG00001.XML").lines
        assert line is not None
        assert line.factor == pytest.approx(factor)


# --- bounds, to one ----------------------------------------------------------------------------------------------------


def test_a_header_of_255_values_is_read_and_of_256_refused() -> None:
    assert len(read_header(header_of(LINES[:1] * 255).encode(), "TLG00001.XML").lines) == 255
    with pytest.raises(InputError, match="256 values"):
        read_header(header_of(LINES[:1] * 256).encode(), "TLG00001.XML")


def test_a_file_may_be_as_large_as_is_said_and_no_larger(tmp_path: Path) -> None:
    folder = written(tmp_path / "TASKDATA", b"")
    whole = (folder / "TASKDATA.XML").stat().st_size
    files = task_files.opened(folder)
    assert len(files.read("taskdata.xml", whole)) == whole
    with pytest.raises(InputError, match="more than"):
        files.read("TASKDATA.XML", whole - 1)


def test_an_empty_zip_is_one_without_task_data(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "none.zip", "w"):
        pass
    with pytest.raises(InputError, match=r"0 files TASKDATA\.XML"):
        read_task_data(tmp_path / "none.zip")


def test_xml_of_as_many_elements_as_are_allowed_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    most = 50
    monkeypatch.setattr(task_xml, "_MOST_ELEMENTS", most)
    assert len(task_xml.element_of(b"<A>" + b"<B/>" * (most - 1) + b"</A>", "x", "A").inside) == most - 1
    with pytest.raises(InputError, match="too many elements"):
        task_xml.element_of(b"<A>" + b"<B/>" * most + b"</A>", "x", "A")


def test_xml_in_an_unknown_encoding_is_named_without_a_line() -> None:
    with pytest.raises(InputError, match="  - x: got XML that breaks off"):
        task_xml.element_of(b'<?xml version="1.0" encoding="nonsense-8"?><A/>', "x", "A")
    with pytest.raises(InputError, match="x, line 2: got XML that breaks off"):
        task_xml.element_of(b"<A>\n<B></A>", "x", "A")


@pytest.mark.parametrize(("status", "known"), [(0, False), (1, True), (13, True), (14, False), (15, False)])
def test_a_position_without_a_fix_is_none(tmp_path: Path, status: int, known: bool) -> None:
    rows = [record(at, 52 + at / 1e5, 10, [(1, 85)], status=status if at == 2 else 4) for at in range(5)]
    columns = read_task_data(written(tmp_path / "TASKDATA", b"".join(rows))).columns
    assert np.isfinite(columns["latitude"]).tolist() == [True, True, known, True, True]
    assert np.isfinite(columns["longitude"]).tolist() == [True, True, known, True, True]


def test_progress_goes_on_through_each_log(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(task_data, "_EVERY", 50)
    two = TASKS.replace('<TLG A="TLG00001" C="1"/>', '<TLG A="TLG00001" C="1"/><TLG A="TLG00002" C="1"/>')
    for log in (1, 2):
        rows = [record(200 * log + at, 52 + at / 1e5, 10, [(1, 85)]) for at in range(100)]
        folder = written(tmp_path / "TASKDATA", b"".join(rows), inside=two, log=f"TLG0000{log}")
    told: list[float] = []
    assert read_task_data(folder, progress=told.append).logs == 2
    assert told == pytest.approx([0.25, 0.5, 0.75, 1.0])
