"""A CAN log: bytes decoded by hand come out, frames are laid on one time, hostile files are refused."""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from rigcalc.core.errors import InputError
from rigcalc.models.reading.can_log import group_of, read_can
from rigcalc.models.reading.log import Stretch, entries, passes

# By hand, from the scales of SAE J1939-71 and ISO 11783-7 (where they were seen: tractor.dbc): identifier, bytes, quantity and
# what they mean.
BY_HAND = [
    ("0CF00400", "F07DA0803EFFFFFF", "engine_speed", 2000.0),  # 0x3E80 = 16000, an eighth of a turn a minute each
    ("0CF00400", "F07DA0803EFFFFFF", "torque", 0.35),  # 0xA0 = 160: 35 percent of the reference torque, for 125 is nought
    ("0CF00300", "FFFF55FFFFFFFFFF", "load", 0.85),  # 0x55 = 85 percent at current speed
    ("18FEF200", "C409FFFFFFFFFFFF", "fuel_rate", 125.0),  # 0x09C4 = 2500, a twentieth of a litre an hour each
    ("0CFE48F0", "8C0AFFFFFFFFFFFF", "wheel_speed", 9.72),  # 0x0A8C = 2700 mm/s
    ("0CFE49F0", "6009FFFFFFFFFFFF", "speed", 8.64),  # 0x0960 = 2400 mm/s
    ("18FE45F0", "7D7FFFFFFFFFFFFF", "tool_down", 1.0),  # bits 8 and 7 of the second byte are 01: in work
]


def dumped(rows: list[tuple[float, str, str]], file: Path) -> Path:
    """Write frames as candump does."""
    file.write_text("".join(f"({time:.6f}) can0 {identifier}#{data}\n" for time, identifier, data in rows))
    return file


UP = "003FFFFFFFFFFFFF"  # bits 8 and 7 of the second byte are 00: out of work


def whole(seconds: int = 3) -> list[tuple[float, str, str]]:
    """Give frames of every second, all as by hand, but that the tool is up in the first."""
    return [(100.0 + second, identifier, UP if identifier == "18FE45F0" and not second else data)
            for second in range(seconds) for identifier, data, _, _ in BY_HAND]  # fmt: skip


def test_bytes_decoded_by_hand_come_out(tmp_path: Path) -> None:
    found = read_can(dumped(whole(), tmp_path / "day.log"))
    assert found["time"].tolist() == [0.0, 1.0, 2.0]
    for _, _, name, value in BY_HAND:
        assert found[name][1:] == pytest.approx(np.full(2, value)), name
    assert found["tool_down"].tolist() == [0.0, 1.0, 1.0]
    assert set(found) == {"time", *(name for _, _, name, _ in BY_HAND)}


def test_any_sender_and_priority_is_taken_and_a_group_that_isn_t_ours_isn_t() -> None:
    assert group_of(0x0CF00400) == group_of(0x18F00417) == 61444
    assert group_of(0x18EF1234) == group_of(0x18EF9934) == 0xEF00, "what names a receiver is one group"


def test_the_same_in_another_format(tmp_path: Path) -> None:
    lines = "".join(
        f"{second:.6f} 1  {identifier}x Rx d 8 {' '.join(data[at : at + 2] for at in range(0, 16, 2))}\n"
        for second, identifier, data in whole()
    )
    file = tmp_path / "day.asc"
    file.write_text("date Wed Nov 4 10:00:00.000 am 2026\nbase hex  timestamps absolute\nBegin Triggerblock\n" + lines)
    assert read_can(file)["fuel_rate"] == pytest.approx(np.full(3, 125.0))


def test_not_available_and_old_are_no_numbers(tmp_path: Path) -> None:
    rows = whole(6)
    rows = [row for row in rows if not (row[1] == "18FEF200" and row[0] > 100.5)]  # fuel stops after the first second
    rows = [(time, identifier, "FFFFFFFFFFFFFFFF" if identifier == "0CF00300" and time > 103 else data)
            for time, identifier, data in rows]  # fmt: skip
    found = read_can(dumped(rows, tmp_path / "day.log"))
    assert np.isnan(found["fuel_rate"]).tolist() == [False, False, False, True, True, True]
    assert np.isnan(found["load"]).tolist() == [False, False, False, False, True, True]


def error_at(low: int) -> list[tuple[float, str, str]]:
    """Give frames whose load byte and fuel's upper byte are `low`."""
    data = {"0CF00300": f"FFFF{low:02X}FFFFFFFFFF", "18FEF200": f"00{low:02X}FFFFFFFFFFFF"}
    return [(time, identifier, data.get(identifier, said)) for time, identifier, said in whole()]


def torques(byte: int, load: bool = True) -> list[tuple[float, str, str]]:
    """Give frames whose byte of torque is this; without engine load if not wanted."""
    data = {"0CF00400": f"F07D{byte:02X}803EFFFFFF"}
    return [(time, identifier, data.get(identifier, said)) for time, identifier, said in whole()
            if load or identifier != "0CF00300"]  # fmt: skip


def test_torque_is_the_load_where_the_bus_has_no_load(tmp_path: Path) -> None:
    """Load says what it is a share of; torque is of the reference. An engine that brakes (under nought) tells no load."""
    stretch = Stretch(0, 3, 30.0, {"speed": 8.0, "torque": 0.62})
    assert entries(stretch, "available") == {"speed": "8 km/h", "load": "62 percent", "load_of": "torque"}
    assert entries(replace(stretch, means=stretch.means | {"load": 0.8}), "available")["load_of"] == "available"
    assert "load" not in entries(replace(stretch, means={"speed": 8.0, "torque": -0.05, "fuel_rate": 20.0}), "available")
    found = read_can(dumped([row for row in torques(60, load=False) if row[1] in ("0CF00400", "0CFE49F0")], tmp_path / "a.log"))
    assert found["torque"] == pytest.approx(np.full(3, -0.65))
    assert set(found) == {"time", "speed", "engine_speed", "torque"}


def test_from_251_up_a_byte_is_no_number(tmp_path: Path) -> None:
    """FA is the last that is one (SAE J1939-71): 250 percent, and of two bytes 0xFA00 = 64,000 times 0.05 L/h."""
    last = [(time, identifier, "C409FFFFFFFFFFFF" if identifier == "18FEF200" and time < 102 else data)
            for time, identifier, data in error_at(0xFA) if identifier != "0CF00300"]  # fmt: skip
    assert read_can(dumped(last, tmp_path / "last.log"))["fuel_rate"][-1] == pytest.approx(3200.0)
    assert read_can(dumped(torques(0xFA), tmp_path / "most.log"))["torque"] == pytest.approx(np.full(3, 1.25))
    assert "torque" not in read_can(dumped(torques(0xFB), tmp_path / "none.log"))
    found = read_can(dumped(error_at(0xFB), tmp_path / "day.log"))
    assert not {"load", "fuel_rate"} & set(found)
    assert "wheel_speed" in found


def test_a_frame_cut_short_holds_nothing_and_a_little_out_of_order_is_taken(tmp_path: Path) -> None:
    short = [(time, identifier, data[:8] if identifier == "18FEF200" else data) for time, identifier, data in whole()]
    assert "fuel_rate" not in read_can(dumped(short, tmp_path / "short.log"))
    swapped = [(100.4, "0CFE49F0", "6009FFFFFFFFFFFF"), *whole()]  # 0.4 s before its time in the file
    assert read_can(dumped(swapped, tmp_path / "day.log"))["time"] == pytest.approx([0.0, 0.4, 1.0, 2.0])


@pytest.mark.parametrize("stays", [UP, BY_HAND[-1][1], "00BFFFFFFFFFFFFF"])
def test_a_hitch_that_never_moves_says_nothing_of_a_towed_tool(tmp_path: Path, stays: str) -> None:
    """Neither one that hangs up all day nor one that lies low, nor one in error: load tells work from turns."""
    rows = [(time, identifier, stays if identifier == "18FE45F0" else data) for time, identifier, data in whole()]
    assert "tool_down" not in read_can(dumped(rows, tmp_path / "day.log"))


def test_passes_are_found_in_it(tmp_path: Path) -> None:
    rows = []
    for second in range(540):
        works = second % 180 < 150
        load, ground = (85, 2400) if works else (30, 1800)
        low, high = ground & 255, ground >> 8
        rows += [
            (second, "0CF00300", f"FFFF{load:02X}FFFFFFFFFF"),
            (second + 0.01, "0CFE49F0", f"{low:02X}{high:02X}FFFFFFFFFFFF"),
        ]
    taken = passes(read_can(dumped(rows, tmp_path / "day.log")))
    assert len(taken.stretches) == 3
    assert taken.stretches[0].means["load"] == pytest.approx(0.85)
    assert taken.stretches[0].means["speed"] == pytest.approx(8.64)


@pytest.mark.parametrize(("data", "says"), [
    (b"", "no frame with ground speed"),
    (b"(1.0) can0 0CF00400#F07DFF803EFFFFFF\n", "engine load (EEC2, 61443) or torque (EEC1, 61444)"),
    (b"(1.0) can0 0CFE49F0#6009FFFFFFFFFFFF\n(1.0) can0 0CF0", "a frame that can't be read"),
    (b"(1.0) can0 0CFE49F0#60zzFFFFFFFFFFFF\n", "a frame that can't be read"),
    (b"x" * 5_000_000, "a line without end"),
    (b"(1.0) can0 0CFE49F0#6009\0", "not text"),
    (b"(9.0) can0 0CFE49F0#6009FFFFFFFFFFFF\n(9.0) can0 0CF00300#FFFF55FFFFFFFFFF\n(2.0) can0 0CFE49F0#6009FFFFFFFFFFFF\n",
     "time that runs backward"),
])  # fmt: skip
def test_hostile_can_logs_end_in_a_clear_error(tmp_path: Path, data: bytes, says: str) -> None:
    file = tmp_path / "day.log"
    file.write_bytes(data)
    with pytest.raises(InputError) as error:
        read_can(file)
    assert says in str(error.value)


def test_two_gibibytes_aren_t_opened_and_a_file_that_isn_t_there_is_named(tmp_path: Path) -> None:
    with (tmp_path / "day.log").open("wb") as stream:
        stream.truncate(2 * 1024**3)
    with pytest.raises(InputError, match="MiB"):
        read_can(tmp_path / "day.log")
    with pytest.raises(InputError, match="No such file"):
        read_can(tmp_path / "none.log")


def test_progress_is_told_and_may_stop(tmp_path: Path) -> None:
    file, told = dumped(whole(2000), tmp_path / "day.log"), []
    read_can(file, told.append)
    assert len(told) >= 10
    assert told == sorted(told)
    assert 0 < told[0] < told[-1] <= 1

    def stop(_share: float) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        read_can(file, stop)


def test_without_the_extra_it_says_what_to_install(tmp_path: Path, monkeypatch: Any) -> None:
    from rigcalc.models.reading import can_log

    can_log._messages.cache_clear()
    monkeypatch.setitem(sys.modules, "cantools", None)
    with pytest.raises(InputError, match=r"rigcalc\[can\]"):
        read_can(dumped(whole(), tmp_path / "day.log"))
    can_log._messages.cache_clear()


def test_a_line_may_be_two_thousand_letters_long_and_what_was_read_before_a_fault_is_counted(tmp_path: Path) -> None:
    good = "(1.0) can0 0CFE49F0#6009FFFFFFFFFFFF\n"
    for place, (letters, says) in enumerate([(2000, "a frame that can't be read, after 1 "), (2001, "a line without end")]):
        file = tmp_path / f"{place}.log"
        file.write_text(good + "x" * letters)
        with pytest.raises(InputError, match=says.replace("(", r"\(")):
            read_can(file)
    file.write_text("x" * 2001 + "\n" + good)
    with pytest.raises(InputError, match="a line without end"):
        read_can(file)


def test_a_frame_of_seven_bytes_holds_nothing_and_time_runs_backward_where_it_does(tmp_path: Path) -> None:
    seven = [(time, identifier, data[:14] if identifier == "18FEF200" else data) for time, identifier, data in whole()]
    assert "fuel_rate" not in read_can(dumped(seven, tmp_path / "seven.log"))
    rows = [(time, "0CFE49F0", "6009FFFFFFFFFFFF") for time in (1.0, 9.0, 2.0, 20.0)]
    with pytest.raises(InputError, match=r"time that runs backward at 9\.000 s"):
        read_can(dumped(rows, tmp_path / "back.log"))
