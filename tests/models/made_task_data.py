"""Task data made byte by byte, for tests of readers: a folder as a terminal writes it, of passes that are known."""

from __future__ import annotations

import struct
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

DAY = 17_109  # days since 1980-01-01: 4 November 2026
TASKS = '<TSK A="TSK1" B="North of the road" G="4"><TLG A="TLG00001" C="1"/></TSK>'
# Fuel rate, engine load off the bus, work state of the tool, its depth.
LINES = ('<DLV A="0095" B="" C="DET-1"/>', '<DLV A="DFFE" B="" C="DET-1" D="61443" E="16" F="23"/>',
         '<DLV A="008D" B="" C="DET-2"/>', '<DLV A="0034" B="" C="DET-2"/>')  # fmt: skip


def main_of(inside: str = TASKS) -> str:
    return ('<?xml version="1.0" encoding="UTF-8"?>\n<ISO11783_TaskData VersionMajor="4" VersionMinor="3" '
            f'DataTransferOrigin="2" TaskControllerManufacturer="none">{inside}</ISO11783_TaskData>')  # fmt: skip


def header_of(lines: Sequence[str] = LINES, position: str = '<PTN A="" B="" D=""/>') -> str:
    return f'<TIM A="" D="4">{position}{"".join(lines)}</TIM>'


def record(
    seconds: float, north: float, east: float, values: Sequence[tuple[int, int]], status: int = 4, day: int = DAY
) -> bytes:
    out = struct.pack("<IHiiBB", round(1000 * seconds), day, round(north * 1e7), round(east * 1e7), status, len(values))
    return out + b"".join(struct.pack("<Bi", line, value) for line, value in values)


def written(folder: Path, records: bytes, lines: Sequence[str] = LINES, inside: str = TASKS, log: str = "TLG00001",
            position: str = '<PTN A="" B="" D=""/>') -> Path:  # fmt: skip
    folder.mkdir(exist_ok=True)
    (folder / "TASKDATA.XML").write_text(main_of(inside), encoding="utf-8")
    (folder / f"{log}.XML").write_text(header_of(lines, position), encoding="utf-8")
    (folder / f"{log}.BIN").write_bytes(records)
    return folder


def driven(seed: int = 1, passes: int = 6, heading: float = 30.0) -> tuple[dict[str, Any], Any]:
    """Give a field worked to and fro, then along both of its ends; and what is done in each second: work, turn or headland.

    Columns: east, north in m; speed in km/h; load and fuel_rate; tool_down; depth in cm.
    """
    random = np.random.default_rng(seed)
    way, across = np.radians(heading), np.radians(heading + 90)
    ahead, aside = np.array([np.sin(way), np.cos(way)]), np.array([np.sin(across), np.cos(across)])
    at, parts, done = np.zeros(2), [], []

    def go(direction: Any, seconds: int, speed: float, load: float, what: str) -> None:
        nonlocal at
        for _ in range(seconds):
            at = at + direction * speed / 3.6
            parts.append([*at, speed, load * (1 + 0.03 * random.standard_normal()), float(what != "turn")])
            done.append(what)

    for place in range(passes):
        sign = 1 if place % 2 == 0 else -1
        go(sign * ahead, 150, 8.0, float(random.uniform(0.75, 0.9)), "work")
        go(aside, 6, 5.0, 0.3, "turn")
    for _ in range(2):
        go(ahead, 12, 6.0, 0.3, "turn")
        go(-aside, 60, 7.0, 0.97, "headland")
        go(ahead, 12, 6.0, 0.3, "turn")
        go(aside, 60, 7.0, 0.97, "headland")
    east, north, speed, load, down = np.array(parts).T
    return {"east": east, "north": north, "speed": speed, "load": load, "fuel_rate": 90 * load, "tool_down": down,
            "depth": np.where(down == 1, 30.0, 0.0)}, np.array(done)  # fmt: skip


def records_of(log: dict[str, Any], north: float = 52.0, east: float = 10.0, first: float = 36_000.0) -> bytes:
    """Give the bytes of a log driven; a number is written when it changes."""
    per_north, per_east = 111_266.0, 68_678.0  # m a degree at 52 degrees
    out, last = [], {}
    for row in range(log["east"].size):
        raw = {0: round(log["fuel_rate"][row] / 0.0036), 1: round(100 * log["load"][row]), 2: int(log["tool_down"][row]),
               3: round(10 * log["depth"][row])}  # fmt: skip
        changed = [(line, value) for line, value in raw.items() if last.get(line) != value]
        last = raw
        out.append(record(first + row, north + log["north"][row] / per_north, east + log["east"][row] / per_east, changed))
    return b"".join(out)
