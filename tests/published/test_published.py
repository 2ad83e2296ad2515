"""Every row of tests/published/*.toml against the book. Expected values come from print, never from our own output."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from rigcalc.core.units import Q, factor, parse
from rigcalc.equations import load_all

FOLDER = Path(__file__).parent
BOOK = load_all()


def rows() -> list[Any]:
    """Give every row as a pytest parameter; a row that can't be checked is skipped with its reason."""
    params = []
    for path in sorted(path for path in FOLDER.glob("*.toml") if not path.stem.startswith("measured_")):
        with path.open("rb") as file:
            page = tomllib.load(file)
        for row in page["row"]:
            name = row.get("equation", page.get("equation"))
            reason = row.get("skip") or ("" if name in BOOK else f"no equation named {name} yet")
            marks = [pytest.mark.skip(reason=reason)] if reason else []
            params.append(pytest.param(name, row, page, id=row["id"], marks=marks))
    return params


@pytest.mark.parametrize(("name", "row", "page"), rows())
def test_row(name: str, row: dict[str, Any], page: dict[str, Any]) -> None:
    eq = BOOK[name]
    got = eq(**{argument: Q(*parse(text)) for argument, text in row["given"].items()})
    if eq.gives.unit == "text":
        assert got == row["expect"]
        return
    expected, unit = parse(row["expect"])
    value = got.magnitude * factor(eq.gives.unit, unit)
    relative = row.get("relative", page.get("relative"))
    tolerance = relative * abs(expected) if relative is not None else row.get("tolerance", page.get("tolerance"))
    assert value == pytest.approx(expected, rel=0, abs=tolerance * (1 + 1e-9))


def test_there_are_enough_rows() -> None:
    live = [param for param in rows() if not param.marks]
    assert len(live) >= 60
    assert len({param.values[2]["source"] for param in live}) >= 12
