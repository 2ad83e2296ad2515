"""The log of a recording cone as a table: commas, semicolons or tabs, decimal points or commas, the unit in each heading."""

from __future__ import annotations

import re
from os import PathLike
from pathlib import Path

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import factor
from rigcalc.models.ground.readings import MOST_SITES, Readings, profiles, read_flags

LARGEST_LOG = 64 * 1024 * 1024  # bytes: 50,000 sites of 100 readings
_HEADING = re.compile(r"\s*(?P<name>[^()\[\]]*?)\s*[(\[]\s*(?P<unit>[^()\[\]]*?)\s*[)\]]\s*")
_NUMBER = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)", re.ASCII)
_SITE, _DEPTH, _READING = ("site", "flag", "point", "id"), ("depth",), ("reading", "resistance", "cone index", "pressure")
_PLACES = ("x", "y", "lat", "lon", "latitude", "longitude", "easting", "northing")
_MOST_FAULTS = 20
_LONG = "site, depth (cm), reading (kPa)"
_WIDE = "depth (in), flag 1 (psi), flag 2 (psi)"


def load_log(path: str | PathLike[str]) -> Readings:
    """Read a log from a file. Raises InputError for one that can't be read or used."""
    try:
        if not (file := Path(path)).is_file():
            raise InputError([Fault("log", shown(str(path)), "a file that exists", "the path of a CSV file")])
        with file.open("rb") as stream:
            data = stream.read(LARGEST_LOG + 1)
    except OSError as error:
        raise InputError([Fault("log", f"{shown(str(path))} ({error.strerror})", "a file that can be read")]) from None
    if len(data) > LARGEST_LOG:
        raise InputError([Fault("log", f"more than {LARGEST_LOG // 1024**2} MiB", "a smaller file, or a part of it")])
    try:
        return read_log(data.decode("utf-8-sig"))
    except UnicodeDecodeError:
        raise InputError([Fault("log", "bytes that are not text", "a CSV text file in UTF-8")]) from None


def read_probe(text: str, limit: float) -> Readings:
    """Read what a rig file keeps of a probe: flags by hand, or a table whose first line has the headings.

    limit: in kPa, as in `read_flags`. Raises InputError with every fault.
    """
    first = next((line for line in text.split("\n") if line.strip()), "")
    return read_log(text) if "depth" in first.lower() else read_flags([text], limit)


def read_log(text: str) -> Readings:
    """Read the text of a log: a line for each reading (`site, depth (cm), reading (kPa)`), or a column for each site.

    The first line has the headings; each column of depths or readings has its unit there. Places (x, y, lat, lon) may stand
    beside and aren't used. Raises InputError with every fault.
    """
    lines = [line for line in text.split("\n") if line.strip()]
    if len(lines) < 2:
        raise InputError([Fault("log", f"{len(lines)} lines", "a line of headings and lines of readings", _LONG)])
    mark = next((each for each in ("\t", ";") if each in lines[0]), ",")
    headings = [cell.strip().strip('"') for cell in lines[0].split(mark)]
    cells = [line.rstrip("\r").split(mark) for line in lines[1:]]
    ragged = [place for place, row in enumerate(cells, 2) if len(row) != len(headings)]
    if ragged:
        expected = f"{len(headings)}, one for each heading (decimal commas need semicolons or tabs between cells)"
        raise InputError([Fault(f"log, line {ragged[0]}", f"{len(cells[ragged[0] - 2])} cells", expected)])
    return _Log(headings, cells).readings()


class _Log:
    """A table on its way: its headings are taken apart once."""

    def __init__(self, headings: list[str], cells: list[list[str]]):
        self.cells = cells
        self.faults: list[Fault] = []
        self.names, self.units = [], []
        for heading in headings:
            found = _HEADING.fullmatch(heading)
            self.names.append((found["name"] if found else heading).strip())
            self.units.append(found["unit"] if found else None)
        self.kinds = [name.lower().replace("_", " ") for name in self.names]

    def readings(self) -> Readings:
        """Give what was read, or refuse it."""
        at_depth = self._places(_DEPTH)
        if len(at_depth) != 1:
            raise InputError(
                [Fault("log: headings", shown(", ".join(self.names)), "one column named depth", f"{_LONG}, or {_WIDE}")]
            )
        (depth,) = at_depth
        to_cm = self._factor(depth, "cm", "depth (cm)")
        reading, site = self._places(_READING), self._places(_SITE)
        sites: list[tuple[str, list[float], list[float]]] = []
        if len(reading) == 1:
            to_kpa = self._factor(reading[0], "kPa", "reading (kPa)")
            known = {depth, reading[0], *site[:1]}
            self._strangers(known)
            self._stop()
            by_site: dict[str, tuple[list[float], list[float]]] = {}
            for line, row in enumerate(self.cells, 2):
                name = row[site[0]].strip() if site else "site"
                down, hard = self._number(row[depth], line, depth), self._number(row[reading[0]], line, reading[0])
                into = by_site.setdefault(name, ([], []))
                into[0].append(down * to_cm)
                into[1].append(hard * to_kpa)
                if len(self.faults) >= _MOST_FAULTS:
                    break
            sites = [(name, *pair) for name, pair in by_site.items()]
        else:
            columns = [at for at, kind in enumerate(self.kinds) if at != depth and kind not in _PLACES]
            factors = {at: self._factor(at, "kPa", f"{self.names[at]} (psi)") for at in columns}
            if not columns:
                self.faults.append(
                    Fault("log: headings", shown(", ".join(self.names)), "a column of readings", f"{_LONG}, or {_WIDE}")
                )
            self._stop()
            depths = [self._number(row[depth], line, depth) * to_cm for line, row in enumerate(self.cells, 2)]
            for at in columns:
                rows = zip(depths, self.cells, strict=True)
                held = [(down, self._number(row[at], line, at) * factors[at])
                        for line, (down, row) in enumerate(rows, 2) if row[at].strip()]  # fmt: skip
                sites.append((self.names[at] or f"column {at + 1}", [a for a, _ in held], [b for _, b in held]))
        self._stop()
        if len(sites) > MOST_SITES:
            raise InputError([Fault("log", f"{len(sites):,} sites", f"at most {MOST_SITES:,}")])
        return Readings(profiles(sites), None)

    def _headings(self, expected: str) -> Fault:
        return Fault("log: headings", shown(", ".join(self.names)), expected, f"{_LONG}, or {_WIDE}")

    def _places(self, names: tuple[str, ...]) -> list[int]:
        return [at for at, kind in enumerate(self.kinds) if kind in names]

    def _strangers(self, known: set[int]) -> None:
        for at, kind in enumerate(self.kinds):
            if at not in known and kind not in _PLACES:
                self.faults.append(Fault("log: headings", shown(self.names[at]), "site, depth and reading, or places", _LONG))

    def _factor(self, at: int, unit: str, example: str) -> float:
        own = self.units[at]
        if not own:
            self.faults.append(
                Fault(f"log: {self.names[at]}", "no unit in its heading", f"one that converts to {unit}", example)
            )
            return 1.0
        try:
            return factor(own, unit)
        except InputError:
            self.faults.append(Fault(f"log: {self.names[at]}", shown(own), f"a unit that converts to {unit}", example))
            return 1.0

    def _number(self, cell: str, line: int, at: int) -> float:
        text = cell.strip().strip('"')
        if _NUMBER.fullmatch(text) and len(text) <= 40:
            return float(text.replace(",", "."))
        if len(self.faults) < _MOST_FAULTS:
            self.faults.append(Fault(f"log, line {line}: {self.names[at]}", shown(cell.strip()), "a number"))
        return 0.0

    def _stop(self) -> None:
        if self.faults:
            raise InputError(self.faults)
