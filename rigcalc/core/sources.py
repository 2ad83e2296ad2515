"""Where numbers come from: the list in reference_tables/sources.toml, and where that folder is."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

# How sure a number from outside is, from the surest down. Shown wherever such a number shows.
SURE = ("read in print", "restated", "from memory", "common practice", "computed")


@dataclass(frozen=True)
class Source:
    """A cited work: key, title, author, year, address (may be empty) and a note."""

    key: str
    title: str
    author: str = ""
    year: str = ""
    url: str = ""
    note: str = ""

    def __str__(self) -> str:
        """Give author, year and title in one line."""
        who = " ".join(part for part in (self.author, f"({self.year})" if self.year else "") if part)
        return f"{who} {self.title}" if who else self.title


@cache
def data_folder(name: str) -> Path:
    """Give the folder `name` ("reference_tables" or "apps"): beside the package in a checkout, inside it in a wheel."""
    package = Path(__file__).parents[1]
    for candidate in (package / "_data" / name, package.parent / name):
        if candidate.is_dir():
            return candidate
    raise FileNotFoundError(f"the folder {name} is missing from this installation of rigcalc; install it again")


@cache
def sources() -> dict[str, Source]:
    """Give every source by its key."""
    with (data_folder("reference_tables") / "sources.toml").open("rb") as file:
        entries = tomllib.load(file)
    names = Source.__dataclass_fields__
    return {key: Source(key, **{k: str(v) for k, v in entry.items() if k in names}) for key, entry in entries.items()}
