"""Docs that can go stale: generated pages, the Python in them and what it shows, the commands named, links to files."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from docs.make import pages

ROOT = Path(__file__).parents[1]
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").rglob("*.md"))]


def test_generated_pages_are_fresh() -> None:
    stale = [str(path) for path, page in pages().items() if (ROOT / path).read_text(encoding="utf-8") != page]
    assert not stale, f"run `uv run python docs/make.py`: {stale}"


@pytest.mark.parametrize("page", PAGES, ids=lambda path: str(path.relative_to(ROOT)))
def test_links_lead_somewhere(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    targets = [target.split("#")[0] for target in re.findall(r"\]\(([^)\s]+)\)", text) if "://" not in target]
    assert [target for target in targets if target and not (page.parent / target).exists()] == []


# Python's own prompt, into which the blocks of each part are typed line by line, after what the first part made; what it shows
# of each block comes back, a warning or an error by its kind and words alone.
PROMPT = """
import code, contextlib, io, json, sys, warnings

class Prompt(code.InteractiveConsole):
    def showtraceback(self):
        print(f"{sys.exc_info()[0].__name__}: {sys.exc_info()[1]}")

first, shown = {}, []
warnings.showwarning = lambda message, category, *place: print(f"{category.__name__}: {message}")
for part in json.load(sys.stdin):
    prompt = Prompt(dict(first))
    for block in part:
        with contextlib.redirect_stdout(io.StringIO()) as out, contextlib.redirect_stderr(out):
            *_, unfinished = [prompt.push(line) for line in [*block.splitlines(), ""]]
        shown.append(out.getvalue() + "unfinished" * unfinished)
    first = first or prompt.locals
print(json.dumps(shown))
"""
BLOCK = re.compile(r"```python\n(.*?)```\n(?:\n```text\n(.*?)```\n)?", re.DOTALL)
WITH_PYTHON = [page for page in PAGES if BLOCK.search(page.read_text(encoding="utf-8"))]


@pytest.mark.slow
@pytest.mark.parametrize("page", WITH_PYTHON, ids=lambda path: str(path.relative_to(ROOT)))
def test_python_of_a_page_shows_what_stands_below_it(page: Path) -> None:
    parts = [found for part in page.read_text(encoding="utf-8").split("\n## ") if (found := BLOCK.findall(part))]
    blocks = json.dumps([[block for block, _ in part] for part in parts])
    done = subprocess.run([sys.executable, "-c", PROMPT], input=blocks, capture_output=True, text=True, check=True, cwd=ROOT)
    for (block, said), shown in zip([each for part in parts for each in part], json.loads(done.stdout), strict=True):
        assert shown.split() == said.split(), block  # long lines are broken in print


def test_readme_begins_with_a_quantity_in_its_python() -> None:
    block, shown = BLOCK.findall((ROOT / "README.md").read_text(encoding="utf-8"))[0]
    first = next(line for line in block.splitlines() if "import" not in line and line)
    assert first.count("Q(") == 2
    assert shown.startswith("146.7 horsepower")  # 10,000 lbf at 5.5 mph, over 375 lbf mph to a horsepower


def test_a_notebook_made_of_a_page_holds_all_of_its_python() -> None:
    text = (ROOT / "docs" / "quantities.md").read_text(encoding="utf-8")
    cells = json.loads(pages()[Path("docs/examples/quantities.ipynb")])["cells"]
    code = ["".join(cell["source"]) for cell in cells if cell["cell_type"] == "code"]
    assert code == [block.strip() for block, _ in BLOCK.findall(text)]
    prose = [cell for cell in cells if cell["cell_type"] == "markdown"]
    assert len(prose) == len(code), "each call has its words before it"
    links = [link for cell in prose for link in re.findall(r"\]\(([^)\s]+)\)", "".join(cell["source"])) if "://" not in link]
    assert links
    assert all((ROOT / "docs" / "examples" / link).exists() for link in links)


def test_readme_names_its_two_commands_first() -> None:
    lines = re.findall(r"^python3 -m pip install uv && (uv run .*)$", (ROOT / "README.md").read_text(encoding="utf-8"), re.M)
    assert lines == ["uv run rigcalc size", "uv run pytest"]


def test_every_promise_of_the_server_names_a_test_that_is_there() -> None:
    text = (ROOT / "docs" / "threats.md").read_text(encoding="utf-8")
    named = re.findall(r"`(tests/[\w/]+\.py)::(\w+)`", text)
    assert len(named) > 15
    missing = [f"{path}::{name}" for path, name in named if f"def {name}(" not in (ROOT / path).read_text(encoding="utf-8")]
    assert not missing
    promises = [line for line in text.splitlines() if line.startswith("| ") and "promises" not in line]
    assert all("::" in line or "](" in line for line in promises)
