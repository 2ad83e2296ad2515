"""The docs site: no dead link, nothing from elsewhere, notebooks as text, and a build that fails where a reference is dead."""

from __future__ import annotations

import json
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

from docs.site.__main__ import main
from docs.site.gather import ROOT, gather, prose_of, shown_page

OUTSIDE = {"https://pint.readthedocs.io"}  # where a page's own words lead a reader elsewhere


class Read(HTMLParser):
    """What a page leads to, what it loads, and the places in it that can be led to."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.leads: list[str] = []
        self.loads: list[str] = []
        self.places: set[str] = set()
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        has = {name: value or "" for name, value in attrs}
        self.places |= {has["id"]} if "id" in has else set()
        if tag == "a" and "href" in has:
            self.leads.append(has["href"])
        self.loads += [has[name] for name in ("src", "data", "srcset", "poster") if name in has]
        self.loads += [has["href"]] if tag == "link" else []


@pytest.fixture(scope="module")
def pages(site: Path) -> dict[Path, Read]:
    return {path: Read(path.read_text(encoding="utf-8")) for path in site.rglob("*.html")}


def dead(path: Path, link: str, pages: dict[Path, Read]) -> bool:
    parts = urlsplit(link)
    target = (path.parent / unquote(parts.path)).resolve() if parts.path else path
    if not target.is_file():
        return True
    # An anchor with a capital or an accent is written encoded. "#" alone is the top of a page.
    return bool(parts.fragment) and unquote(parts.fragment) not in pages[target].places


def test_no_link_of_the_site_is_dead(pages: dict[Path, Read]) -> None:
    links = [(path, link) for path, page in pages.items() for link in page.leads + page.loads if not urlsplit(link).scheme]
    assert len(links) > 5_000
    assert sorted({f"{path.name}: {link}" for path, link in links if dead(path, link, pages)}) == []


def test_a_dead_link_would_be_seen(pages: dict[Path, Read], site: Path) -> None:
    index = site / "index.html"
    assert not dead(index, "docs/equations.html#mobility-number", pages)
    assert dead(index, "docs/equations.html#mobility-numbre", pages)
    assert dead(index, "docs/no_such_page.html", pages)


def test_nothing_is_loaded_from_elsewhere(pages: dict[Path, Read], site: Path) -> None:
    assert [load for page in pages.values() for load in page.loads if urlsplit(load).scheme or load.startswith("//")] == []
    assert {link for page in pages.values() for link in page.leads if urlsplit(link).scheme} <= OUTSIDE
    sheets = [path.read_text(encoding="utf-8") for path in site.rglob("*.css")]
    assert sheets
    assert not any("@import" in sheet or "url(http" in sheet or "url(//" in sheet or "@font-face" in sheet for sheet in sheets)


def test_every_page_lesson_and_decision_is_there_and_listed(site: Path, pages: dict[Path, Read]) -> None:
    here = [
        *(ROOT / "docs").glob("*.md"),
        *(ROOT / "docs" / "decisions").glob("*.md"),
        *(ROOT / "apps" / "lessons").glob("*.ipynb"),
    ]
    names = {path.relative_to(ROOT).with_suffix(".html").as_posix() for path in here}
    assert len(names) > 45
    assert names <= set(pages[site / "index.html"].leads)


def test_formulas_need_no_script(site: Path) -> None:
    book = (site / "docs" / "equations.html").read_text(encoding="utf-8")
    assert book.count('display="block"') > 60
    assert not any(word in book.lower() for word in ("mathjax.js", "mathjax@", "katex"))
    assert "$$" not in book


def test_front_page_has_three_ways_in(site: Path) -> None:
    front = (site / "index.html").read_text(encoding="utf-8")
    assert all(way in front for way in ("You drive it.", "You sell it.", "You teach it."))


def test_a_notebook_becomes_text_and_is_never_run(tmp_path: Path) -> None:
    trap = tmp_path / "ran"
    cells = [
        {"cell_type": "markdown", "source": ["# A lesson\n", "Words."]},
        {"cell_type": "code", "source": [f"open({str(trap)!r}, 'w')"], "outputs": [{"text": ["printed"]}]},
        {"cell_type": "code", "source": []},
    ]
    text = prose_of(json.dumps({"cells": cells}))
    assert text == f"# A lesson\nWords.\n\n```python\nopen({str(trap)!r}, 'w')\n```\n"
    assert not trap.exists()


def test_a_file_with_fences_of_its_own_is_shown_whole() -> None:
    page = shown_page(Path("a/b.py"), 'text = """\n```\nx\n```\n"""\n')
    assert '\n````python\ntext = """\n```\nx\n```\n"""\n````\n' in page
    assert "nosearch: true" in page


def test_links_to_notebooks_and_files_lead_to_their_pages(tmp_path: Path) -> None:
    root = small(
        tmp_path,
        "[book](lessons/a.ipynb) [file](../code.py#L1) [out](https://example.org/x.py)\n\n```text\n[kept](no.py)\n```\n",
    )
    gather(tmp_path / "to", root)
    text = (tmp_path / "to" / "docs" / "page.md").read_text(encoding="utf-8")
    assert text.startswith("[book](lessons/a.md) [file](../code.py.md#L1) [out](https://example.org/x.py)\n")
    assert "[kept](no.py)" in text
    assert (tmp_path / "to" / "code.py.md").is_file()


def test_a_link_to_no_file_is_said_with_its_page(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError, match=r"docs/page\.md: got a link to 'gone\.md'"):
        gather(tmp_path / "to", small(tmp_path, "[gone](gone.md)\n"))


def test_a_dead_place_in_a_page_fails_the_build(tmp_path: Path, site: Path) -> None:
    source = tmp_path / "source"
    source.mkdir()
    (source / "index.md").write_text("# One\n\n[away](#no-such-heading)\n", encoding="utf-8")
    code = (
        "import sys; from pathlib import Path; from docs.site.__main__ import build; sys.exit(build(*map(Path, sys.argv[1:])))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, source, tmp_path / "out"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 1
    assert "no-such-heading" in done.stderr


@pytest.mark.parametrize("arguments", [[], ["one", "two"], ["--help"]])
def test_bad_arguments_are_told(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(arguments) == 2
    assert "Type: uv run python -m docs.site" in capsys.readouterr().err


def test_a_folder_with_something_else_in_it_is_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    assert main([str(tmp_path)]) == 2
    assert "expected a new or empty folder" in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]


def small(tmp_path: Path, text: str) -> Path:
    """A repository of a few files with one page of the text given."""
    root = tmp_path / "root"
    for folder in ("docs/pictures", "docs/lessons", "docs/examples", "apps/lessons"):
        (root / folder).mkdir(parents=True)
    (root / "README.md").write_text("# It\n\n## Two commands\n\n## Three ways in\n\nWays.\n\n<img>\n", encoding="utf-8")
    (root / "DEVELOPERS.md").write_text("# For developers\n", encoding="utf-8")
    (root / "docs" / "page.md").write_text(text, encoding="utf-8")
    (root / "docs" / "lessons" / "a.ipynb").write_text('{"cells": []}', encoding="utf-8")
    (root / "code.py").write_text("x = 1\n", encoding="utf-8")
    return root
