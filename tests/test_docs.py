"""Docs that can go stale: generated pages, the code in README.md, the commands it names, links to files."""

from __future__ import annotations

import re
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


def test_readme_python_runs(capsys: pytest.CaptureFixture[str]) -> None:
    code = re.search(r"```python\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.S)
    assert code
    exec(compile(code[1], "README.md", "exec"), {})
    assert "force_pound" in capsys.readouterr().out


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
