"""Which column of a display's log is what: asked once, and kept in a file beside the log for the next one from that display."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.reading.log import COLUMNS, Column, typed_column

NAME = "log.columns.toml"
_LARGEST = 64 * 1024
_LOAD_OF = ("available", "rated")  # a column of torque says by itself what it is


@dataclass(frozen=True)
class Columns:
    """Where each quantity stands, by its name in `log.COLUMNS`; and what a column of load is a share of."""

    columns: dict[str, Column]
    load_of: str | None = None

    def faults(self) -> list[Fault]:
        """Give what is missing of a whole map."""
        if "load" in self.columns and self.load_of is None:
            return [Fault("--load-of", "nothing", "what the column of load is a share of", "--load-of available")]
        return []


def kept_beside(log: Path) -> Path:
    """Give the file in which the columns of a log are kept: one for all logs of a folder."""
    return log.parent / NAME


def kept_columns(log: Path) -> Columns | None:
    """Read the columns kept beside a log; None where there are none. Raises InputError with every fault."""
    file = kept_beside(log)
    try:
        if not file.exists():
            return None
        with file.open("rb") as stream:
            data = stream.read(_LARGEST + 1)
        if len(data) > _LARGEST:
            raise InputError([Fault(NAME, f"more than {_LARGEST // 1024} KiB", "a few lines for each column")])
        found = tomllib.loads(data.decode("utf-8-sig"))
    except (OSError, ValueError, RecursionError) as error:
        if isinstance(error, InputError):
            raise
        raise InputError([Fault(NAME, "a file that can't be read", "one in TOML, as it was made",
                                "delete it to be asked again")]) from None  # fmt: skip
    return _columns(found)


def _columns(found: Mapping[str, Any]) -> Columns:
    faults = [Fault(f"{NAME}, {name}", "an entry of that name", f"load_of, or one of {', '.join(COLUMNS)}")
              for name in found if name not in (*COLUMNS, "load_of")]  # fmt: skip
    load_of = found.get("load_of")
    if load_of not in (None, *_LOAD_OF):
        faults.append(Fault(f"{NAME}, load_of", shown(load_of), " or ".join(_LOAD_OF)))
    columns = {}
    for name in COLUMNS:
        entry = found.get(name)
        if entry is None:
            continue
        if not (isinstance(entry, dict) and set(entry) == {"heading", "unit"} and all(map(_is_text, entry.values()))):
            faults.append(Fault(f"{NAME}, {name}", shown(entry), "a heading and a unit",
                                '{ heading = "Speed", unit = "km/h" }'))  # fmt: skip
            continue
        try:
            columns[name] = typed_column(f"{name}={entry['heading']};{entry['unit']}")[1]
        except InputError as error:
            faults += [Fault(f"{NAME}, {name}", each.got, each.expected, each.type_this) for each in error.faults]
    if faults:
        raise InputError(faults, title="The columns kept beside the log can't be used")
    return Columns(columns, load_of)


def _is_text(value: Any) -> bool:
    return isinstance(value, str)


def columns_text(found: Columns, head: str = "") -> str:
    """Give the text of the file that keeps them; reading it again gives the same. head: said in front, as comments."""
    import tomlkit

    document = tomlkit.document()
    if found.load_of is not None:
        document.add("load_of", tomlkit.item(found.load_of))
    for name, column in found.columns.items():
        table = tomlkit.inline_table()
        table.update({"heading": column.heading, "unit": column.unit})
        document.add(name, table)
    return "".join(f"# {line}\n" for line in head.splitlines()) + tomlkit.dumps(document)


def headings(log: Path) -> tuple[str, ...]:
    """Give the headings of a log's first row. Raises InputError for a file that can't be read."""
    import csv

    try:
        with log.open(encoding="utf-8-sig", newline="") as stream:
            line = stream.readline(20_000)
        return tuple(cell.strip() for cell in next(csv.reader([line], strict=True), []))
    except (OSError, ValueError, csv.Error):
        raise InputError([Fault("LOG", shown(str(log)), "a CSV file that can be read")]) from None
