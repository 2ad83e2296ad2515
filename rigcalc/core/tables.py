"""Published tables: one CSV each, with a TOML sidecar that says where it is from and how sure it is."""

from __future__ import annotations

import csv
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.sources import Source, data_folder, sources

Row = dict[str, Any]


@dataclass(frozen=True)
class Table:
    """A published table. Iterate for its rows; `table["value of the first key column"]` gives one row."""

    name: str
    title: str
    source: Source
    where: str
    sure: str
    says: str
    key: tuple[str, ...]
    units: dict[str, str]
    texts: dict[str, str]
    rows: tuple[Row, ...]

    def __iter__(self) -> Iterator[Row]:
        """Walk the rows in the order of the file."""
        return iter(self.rows)

    def __len__(self) -> int:
        """Count the rows."""
        return len(self.rows)

    def __getitem__(self, value: str | tuple[str, ...]) -> Row:
        """Give the row whose key columns hold `value`. Raises InputError that lists the keys there are."""
        wanted = value if isinstance(value, tuple) else (value,)
        for row in self.rows:
            if tuple(str(row[column]) for column in self.key) == wanted:
                return row
        known = ", ".join(" / ".join(str(row[column]) for column in self.key) for row in self.rows)
        raise InputError([Fault(" / ".join(self.key), shown(" / ".join(wanted)), f"a row of '{self.title}'", known)])

    def sure_of(self, row: Row) -> str:
        """Say how sure one row is: its own word where it has one, the table's otherwise."""
        return str(row.get("sure") or self.sure)


def table(name: str) -> Table:
    """Give a published table by name.

    Parameters
    ----------
    name : str
        Its name, such as "d497_draft"; `rigcalc.core.tables.table_names()` lists them.

    Returns
    -------
    Table
        Rows as dicts, in the order of the file: numbers are floats (None where a cell is empty), the rest text. `units` holds
        the unit of each column, `source`, `where` and `sure` tell where the numbers are from and how sure they are.

    Raises
    ------
    InputError
        For a name that no table has, with those that come near.

    Examples
    --------
    >>> draft = table("d497_draft")
    >>> draft.key, draft.units["range_percent"]
    (('tool',), 'percent')
    """
    if not isinstance(name, str) or name not in table_names():
        import difflib

        near = difflib.get_close_matches(str(name), sorted(table_names()), 3, 0.3) or sorted(table_names())
        raise InputError([Fault("table", shown(name), "the name of a published table", ", ".join(near))])
    return _load(name)


@cache
def _load(name: str) -> Table:
    folder = data_folder("reference_tables")
    with (folder / f"{name}.toml").open("rb") as file:
        about = tomllib.load(file)
    columns = about["columns"]
    units = {column: entry["unit"] for column, entry in columns.items()}

    def cell(column: str, text: str) -> Any:
        if units.get(column, "text") == "text":
            return text
        return float(text) if text.strip() else None

    with (folder / f"{name}.csv").open(newline="", encoding="utf-8") as lines:
        rows = tuple({k: cell(k, v) for k, v in row.items()} for row in csv.DictReader(lines))
    return Table(
        name=name,
        title=about["title"],
        source=sources()[about["source"]],
        where=about.get("where", ""),
        sure=about["sure"],
        says=about.get("says", ""),
        key=tuple(about["key"]),
        units=units,
        texts={column: entry.get("text", "") for column, entry in columns.items()},
        rows=rows,
    )


@cache
def table_names() -> frozenset[str]:
    """Give the names of all tables, without reading them."""
    return frozenset(path.stem for path in data_folder("reference_tables").glob("*.csv"))
