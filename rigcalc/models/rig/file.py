"""Rig files: strict reading with every fault at once, writing back the same text, and the demo rigs."""

from __future__ import annotations

import tomllib
from functools import cache
from os import PathLike
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.rig.beside import load_beside
from rigcalc.models.rig.bounds import LARGEST_FILE, too_much, too_much_in
from rigcalc.models.rig.faults import all_faults
from rigcalc.models.rig.rig import Rig

_DEMO = Path(__file__).parent / "demo"
DEMO_RIGS = ("front_wheel_assist", "articulated", "two_track", "two_wheel_drive")


def demo_rig(name: str = DEMO_RIGS[0]) -> Rig:
    """Give a demo rig of an invented farm.

    Parameters
    ----------
    name : str, optional
        "front_wheel_assist" (the default), "articulated", "two_track" or "two_wheel_drive".

    Returns
    -------
    Rig
        The rig; it can't be changed in place.

    Raises
    ------
    InputError
        For another name.

    Examples
    --------
    >>> demo_rig("two_track").work.depth
    Measure(text='16 in', value=16.0, unit='in')
    """
    if name not in DEMO_RIGS:
        raise InputError([Fault("demo rig", shown(name), "the name of a demo rig", ", ".join(DEMO_RIGS))])
    return _demo(name)


@cache
def _demo(name: str) -> Rig:
    return read_rig((_DEMO / f"{name}.toml").read_text(encoding="utf-8"))


def starter_text(full: bool = True) -> str:
    """Give the commented rig file that a newcomer fills in: with every entry there is, or what a sheet and a look tell."""
    return (_DEMO / ("starter.toml" if full else "small.toml")).read_text(encoding="utf-8")


def load_rig(path: str | Path) -> Rig:
    """Read a rig file, or a demo rig by its name.

    Parameters
    ----------
    path : str or pathlib.Path
        The path of a TOML file as `rigcalc new` writes it, or the name of a demo rig.

    Returns
    -------
    Rig
        Every entry with its unit as typed.

    Raises
    ------
    InputError
        For a file that can't be read; for entries that are missing, unknown or can't be right: every one at once.

    Examples
    --------
    >>> load_rig("articulated").implement.tools
    16
    """
    if not isinstance(path, (str, PathLike)):
        raise InputError([Fault("rig file", shown(path), "a path, or the name of a demo rig", ", ".join(DEMO_RIGS))])
    if str(path) in DEMO_RIGS:
        return demo_rig(str(path))
    demos = ", ".join(DEMO_RIGS)
    try:
        if not (file := Path(path)).is_file():
            raise InputError([Fault("rig file", shown(str(path)), "a file that exists", f"a path, or one of {demos}")])
        with file.open("rb") as stream:
            data = stream.read(LARGEST_FILE + 1)
    except OSError as error:
        got = f"{shown(str(path))} ({error.strerror})"
        raise InputError([Fault("rig file", got, "a file that can be read", f"a path, or one of {demos}")]) from None
    if len(data) > LARGEST_FILE:
        raise InputError([Fault("rig file", f"more than {LARGEST_FILE // 1024} KiB", "a rig file of a few KiB")])
    try:
        text = data.decode("utf-8-sig")  # some editors put a mark in front
    except UnicodeDecodeError:
        raise InputError([Fault("rig file", "bytes that are not text", "a TOML text file in UTF-8", "rigcalc new")]) from None
    return _with_readings(_data(text), file)


def _with_readings(data: dict[str, Any], file: Path) -> Rig:
    """Make a rig of a file's data and the readings in the CSV file beside it. Raises InputError with the faults of both."""
    try:
        rows = load_beside(file)
    except InputError as error:
        try:
            rig_from(data)
        except InputError as own:
            raise InputError([*own.faults, *error.faults]) from None
        raise
    own_rows = data.get("reading", [])
    return rig_from({**data, "reading": [*own_rows, *rows]} if rows and isinstance(own_rows, list) else data)


def read_rig(text: str) -> Rig:
    """Read the text of a rig file.

    Parameters
    ----------
    text : str
        TOML, at most 256 KiB.

    Returns
    -------
    Rig
        Every entry with its unit as typed.

    Raises
    ------
    InputError
        For a text that isn't TOML, and for entries that are missing, unknown or can't be right: every one at once, by key.

    Examples
    --------
    >>> read_rig(rig_text(demo_rig())) == demo_rig()
    True
    """
    if not isinstance(text, str):
        raise InputError([Fault("rig file", shown(text), "the text of a rig file", "load_rig(path) for a file")])
    return rig_from(_data(text))


def _data(text: str) -> dict[str, Any]:
    """Give what stands in the text of a rig file. Raises InputError for one that isn't TOML or is too large."""
    if (fault := too_much(text)) is not None:
        raise InputError([fault])
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError) as error:  # TOMLDecodeError is a ValueError; so is a number of too many digits
        got = f"text that breaks off or is not TOML ({str(error)[:120]})"
        raise InputError([Fault("rig file", got, "TOML, as `rigcalc new` writes it", 'for example depth = "12 in"')]) from None


def rig_from(data: dict[str, Any]) -> Rig:
    """Make a rig from nested dicts. Raises InputError that lists every fault with its key."""
    if not isinstance(data, dict):
        raise InputError([Fault("rig", shown(data), "nested dicts, as read from a rig file", "rigcalc.load_rig(path)")])
    if (fault := too_much_in(data)) is not None:
        raise InputError([fault])
    try:
        return Rig.model_validate(data)
    except ValidationError as error:
        raise InputError(all_faults(data, error, demo_rig()), title="This rig file can't be used as it stands") from None


def rig_text(rig: Rig) -> str:
    """Write a rig as the text of a rig file.

    Parameters
    ----------
    rig : Rig
        The rig.

    Returns
    -------
    str
        TOML; reading it again gives the same rig, units as typed.

    Raises
    ------
    InputError
        For what is no rig.

    Examples
    --------
    >>> print(rig_text(demo_rig()).splitlines()[0])
    farm = "Crooked Furrow Farm (invented)"
    """
    if not isinstance(rig, Rig):
        raise InputError([Fault("rig", shown(rig), "a Rig", 'rigcalc.load_rig("articulated")')])
    import tomlkit

    text = tomlkit.dumps(_plain(rig.model_dump(exclude_none=True)))
    # What can't be seen, such as a mark that turns the reading direction, is spelled out.
    return "".join(c if c.isprintable() or c == "\n" else f"\\U{ord(c):08x}" for c in text)


def replaced(rig: Rig, changes: dict[str, Any]) -> Rig:
    """Give the rig with some fields changed: {"work.depth": "14 in"}. None takes a field out. Raises InputError."""
    data = rig.model_dump(exclude_none=True)
    for key, value in changes.items():
        *path, last = key.split(".")
        part = data
        for name in path:
            part = part.setdefault(name, {})
            if not isinstance(part, dict):
                raise InputError([Fault(key, f"an entry in {name}, which is no section", "a key of a rig file", "work.depth")])
        if value is None:
            part.pop(last, None)
        else:
            part[last] = value
    return rig_from(data)


def _plain(value: Any) -> Any:
    """Give what TOML can hold: measures as typed, nothing that is empty."""
    if isinstance(value, dict):
        return {key: _plain(entry) for key, entry in value.items() if entry not in ("", (), {})}
    if isinstance(value, (list, tuple)):
        return [_plain(entry) for entry in value]
    return value if isinstance(value, (bool, int)) else str(value)
