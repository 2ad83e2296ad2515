"""The lessons as files: their parts in order, their examples those of tests/published, no outside address.

Their cells are run by nbval, with every notebook of apps/.
"""

from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

from rigcalc.core.units import parse
from rigcalc.words.classroom.problem import LESSONS

ROOT = Path(__file__).parents[1]
FILES = sorted((ROOT / "apps" / "lessons").glob("*.ipynb"))
ROWS = {
    row["id"]: row
    for path in (ROOT / "tests" / "published").glob("*.toml")
    for row in tomllib.loads(path.read_text(encoding="utf-8"))["row"]
}
NUMBER = re.compile(r"(?<![\w.])\d[\d,]*(?:\.\d+)?")


def page(path: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return found


def text(path: Path, kind: str) -> str:
    return "\n".join("".join(cell["source"]) for cell in page(path)["cells"] if cell["cell_type"] == kind)


def numbers(of: str) -> set[float]:
    return {float(found.replace(",", "")) for found in NUMBER.findall(of)}


def test_there_is_a_lesson_for_each_name() -> None:
    assert {path.stem: page(path)["metadata"]["title"] for path in FILES} == LESSONS
    places = [page(path)["metadata"]["rigcalc"]["place"] for path in FILES]
    assert sorted(places) == list(range(1, len(FILES) + 1))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_parts_of_a_lesson_in_order(path: Path) -> None:
    heads = re.findall(r"^#+ (.*)$", text(path, "markdown"), re.MULTILINE)
    assert heads[0] == page(path)["metadata"]["title"]
    kinds = [next((key for key in ("idea", "example", "try", "question", "Problems", "Reading") if key in head), "?")
             for head in heads[1:]]  # fmt: skip
    assert kinds == ["idea", "example", "try", "question", "Problems", "Reading"]
    markdown = text(path, "markdown")
    assert "Afterwards you can\n- " in markdown
    assert markdown.count("<details>") == markdown.count("</details>") == 3
    assert f'PracticeCard(lesson="{path.stem}")' in text(path, "code")
    assert page(path)["metadata"]["rigcalc"]["question"] == page(path)["metadata"]["title"]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_the_example_is_one_of_the_published_checks(path: Path) -> None:
    """Every number of the row stands in the cell that works it out, and the printed answer in the text."""
    markdown = ["".join(cell["source"]) for cell in page(path)["cells"] if cell["cell_type"] == "markdown"]
    example = [source for source in markdown if re.match(r"## (A|Two|Three) worked", source)]
    assert len(example) == 1
    shown = numbers(example[0])
    worked = numbers(text(path, "code"))
    names = page(path)["metadata"]["rigcalc"]["published"]
    assert names
    for name in names:
        row = ROWS[name]
        assert not row.get("skip"), name
        assert abs(parse(row["expect"])[0]) in shown, name
        for argument, given in row["given"].items():
            assert abs(parse(given)[0]) in worked, (name, argument)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_lesson_needs_no_network_and_keeps_no_output(path: Path) -> None:
    whole = path.read_text(encoding="utf-8")
    assert "http" not in whole
    assert "](" not in text(path, "markdown"), "a link into docs/ leads nowhere on a served page"
    for cell in page(path)["cells"]:
        assert not cell.get("outputs")
        assert cell.get("execution_count") is None
