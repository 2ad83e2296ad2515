"""A log of the tractor's CAN bus: text files of frames, decoded by our own short list of messages, laid on one line of time.

python-can reads the files, cantools the list of messages (`tractor.dbc`): extra `rigcalc[can]`. Files that are packed inside
(such as .blf) aren't taken, for what they unpack to has no bound.
"""

from __future__ import annotations

from array import array
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.reading.log import MOST_BYTES, MOST_ROWS, sound

SUFFIXES = (".asc", ".log", ".trc")  # text: a frame a line
_LONGEST_LINE = 2000
_CHUNK = 1 << 20
_OLD = 2.0  # s: a number older than this isn't the present one
_BACK = 1.0  # s: frames of two buses may stand in the wrong order by less
_MISSING = {1: 0xFB, 2: 0xFB00}  # J1939: from here up a byte or two hold no value but "error" or "not available"
_EVERY = 1000  # frames between two words of progress
# Signal -> the quantity of a log, and the factor to its unit.
_SIGNALS = {"engine_speed": ("engine_speed", 1.0), "load": ("load", 0.01), "torque": ("torque", 0.01),
            "fuel_rate": ("fuel_rate", 1.0), "wheel_speed": ("wheel_speed", 3.6), "speed": ("speed", 3.6),
            "in_work": ("tool_down", 1.0)}  # fmt: skip


def read_can(file: Path, progress: Callable[[float], None] | None = None) -> dict[str, Any]:
    """Read a CAN log: by name, an array in the unit of `log.COLUMNS`, at the times of the frames of ground speed.

    A load is of what the engine gives at its speed (EEC2), torque of the engine's reference torque (EEC1). NaN where the
    last frame is over 2 s old. progress: told the share that is done; it may raise to stop. Raises InputError for a file
    that can't be used, or where the extra isn't installed.
    """
    messages = _messages()
    _looked_at(file)
    found: dict[str, tuple[Any, Any]] = {}
    for place, (time, message, data) in enumerate(_frames(file, messages, progress)):
        if place > MOST_ROWS:
            raise InputError(
                [Fault(file.name, f"more than {MOST_ROWS:,} frames of the tractor", "a log of a day", "it in parts")]
            )
        for name, value in _values(message, data):
            times, values = found.setdefault(name, (array("d"), array("d")))
            times.append(time)
            values.append(value)
    return _together({name: (np.array(times), np.array(values)) for name, (times, values) in found.items()}, file.name)


@cache
def _messages() -> dict[int, Any]:
    """Give our messages by their parameter group."""
    try:
        import can  # noqa: F401
        import cantools
    except ModuleNotFoundError as error:
        raise InputError([Fault("LOG", f"a CAN log, and no {error.name}", "the libraries that read one",
                                "pip install 'rigcalc[can]'")]) from None  # fmt: skip
    text = (Path(__file__).parent / "tractor.dbc").read_text(encoding="utf-8")
    return {group_of(message.frame_id): message for message in cantools.database.load_string(text, "dbc").messages}  # type: ignore[union-attr]


def group_of(identifier: int) -> int:
    """Give the parameter group of a 29-bit identifier; of one that names a receiver, without the receiver.

    >>> group_of(0x0CF00400), group_of(0x18FEF200)
    (61444, 65266)
    """
    group = identifier >> 8 & 0x3FFFF
    return group if group & 0xFF00 >= 0xF000 else group & 0x3FF00


def _looked_at(file: Path) -> None:
    """Refuse what isn't text in lines, before anything takes it in whole."""
    try:
        if file.stat().st_size > MOST_BYTES:
            raise InputError([Fault(file.name, f"more than {MOST_BYTES // 1024**2} MiB", "a log of a day", "it in parts")])
        open_line = 0
        with file.open("rb") as stream:
            while chunk := stream.read(_CHUNK):
                first, *others = chunk.split(b"\n")
                longest = max(open_line + len(first), *map(len, others), 0)
                open_line = len(others[-1]) if others else open_line + len(first)
                if longest > _LONGEST_LINE or b"\0" in chunk:
                    raise InputError([Fault(file.name, "a line without end, or bytes that are not text",
                                            "a CAN log in text, a frame a line", ", ".join(SUFFIXES))])  # fmt: skip
    except OSError as error:
        raise InputError([Fault("LOG", f"{shown(str(file))} ({error.strerror})", "a file that can be read")]) from None


def _frames(
    file: Path, messages: dict[int, Any], progress: Callable[[float], None] | None
) -> Iterator[tuple[float, Any, bytes]]:
    """Give (time in s, message, its bytes) of each frame that we know."""
    import can

    whole, seen = max(file.stat().st_size, 1), 0
    try:
        with can.LogReader(file) as reader:
            for seen, frame in enumerate(reader, 1):
                if progress is not None and seen % _EVERY == 0:
                    progress(min(_so_far(reader) / whole, 1.0))
                message = messages.get(group_of(frame.arbitration_id)) if frame.is_extended_id else None
                if message is not None and not (frame.is_error_frame or frame.is_remote_frame):
                    yield frame.timestamp, message, bytes(frame.data)
    except InputError:
        raise
    except (ValueError, IndexError, KeyError, TypeError, ArithmeticError, OSError) as error:  # whatever a reader trips over
        raise InputError([Fault(file.name, f"a frame that can't be read, after {seen:,} ({type(error).__name__})",
                                "a CAN log as it was written, not cut off")]) from None  # fmt: skip


def _so_far(reader: Any) -> int:
    handle = getattr(reader, "file", None)
    try:
        return int(handle.buffer.tell()) if handle is not None else 0
    except (AttributeError, OSError, ValueError):
        return 0


def _values(message: Any, data: bytes) -> Iterator[tuple[str, float]]:
    """Give the numbers of a frame; NaN for "error" and "not available". A frame that is too short holds none."""
    if len(data) < 8:
        return
    decoded = message.decode(data, decode_choices=False, scaling=False)
    for signal in message.signals:
        if signal.name in _SIGNALS:
            raw, (name, to) = decoded[signal.name], _SIGNALS[signal.name]
            if raw >= (_MISSING[signal.length // 8] if signal.length >= 8 else 2):
                yield name, np.nan
            else:
                yield name, to * float(signal.conversion.raw_to_scaled(raw))


def _together(found: dict[str, tuple[Any, Any]], name: str) -> dict[str, Any]:
    """Lay all on the times of ground speed, each number as it was last sent."""
    for key, (time, _) in found.items():
        back = np.diff(time)
        if back.size and back.min() < -_BACK:
            at = int(np.argmin(back))
            raise InputError([Fault(f"{name}, {key}", f"time that runs backward at {time[at]:.3f} s",
                                    "frames in the order of time", "the log of one day")])  # fmt: skip
    told = {key for key, (_, values) in found.items() if np.isfinite(values).any()}
    missing = []
    if "speed" not in told:
        missing.append(Fault(name, "no frame with ground speed (GBSD, group 65097)", "a log of the tractor's own bus"))
    if not told & {"load", "torque", "fuel_rate", "wheel_speed"}:
        missing.append(Fault(name, "no frame with engine load (EEC2, 61443) or torque (EEC1, 61444), fuel rate (LFE, 65266) or "
                             "wheel speed (WBSD, 65096)", "a log of the tractor's own bus"))  # fmt: skip
    if missing:
        raise InputError(missing)
    base = np.sort(found["speed"][0])
    out = {"time": base - base[0]}
    for key in told:
        time, values = found[key]
        order = np.argsort(time, kind="stable")
        time, values = time[order], values[order]
        last = np.searchsorted(time, base, side="right") - 1
        near = (last >= 0) & (base - time[np.maximum(last, 0)] <= _OLD)
        out[key] = np.where(near, values[np.maximum(last, 0)], np.nan)
    if "tool_down" in out and not all((out["tool_down"] == state).any() for state in (0, 1)):
        del out["tool_down"]  # one that never moves isn't what lifts the tool: a towed one has its own
    return sound(out, name)
