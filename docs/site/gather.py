"""Gathers the pages of the site into a folder that mirrors the repository, so that the links between them hold as they are.

Markdown is taken as it stands. A notebook becomes a page of its prose and its code, which is never run; a file of code or
numbers that a page links to becomes a page that shows it. The front page is put together from README's own words.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable
from fnmatch import fnmatch
from pathlib import Path

ROOT = Path(__file__).parents[2]
NOTEBOOKS = ("apps/lessons", "docs/examples")
_SHOWN = {".py": "python", ".toml": "toml", ".csv": "text", ".json": "json"}
_LINK = re.compile(r"(?<=\]\()(?![\w+.-]+:)([^)\s#]+)(#[^)\s]*)?(?=\))")
_FENCE = re.compile(r"^(`{3,})[^\n]*\n.*?^\1$", re.MULTILINE | re.DOTALL)
_CODE_PAGE = """\
---
orphan: true
nosearch: true
---
# {name}

`{path}`, as it stands in the repository.

{fence}{language}
{text}
{fence}
"""


def gather(to: Path, root: Path = ROOT) -> None:
    """Write the sources of the site into the folder `to`, which has to be new or empty.

    Raises FileNotFoundError for a link to a file that isn't there, with the page and the link.
    """
    pages = {Path("README.md"), Path("DEVELOPERS.md"), *_below(root, "docs", ".md")}
    texts = {page: (root / page).read_text(encoding="utf-8") for page in pages if "site" not in page.parts}
    for folder in NOTEBOOKS:
        texts |= {book: prose_of((root / book).read_text(encoding="utf-8")) for book in _below(root, folder, ".ipynb")}
    texts[Path("index.md")] = front_page((root / "README.md").read_text(encoding="utf-8"), texts)
    shown: set[Path] = set()
    for page, text in texts.items():
        new = _outside_fences(text, lambda part, page=page: _LINK.sub(lambda link: _leading(root, page, link, shown), part))
        _write(to / page.with_suffix(".md"), new)
    for path in shown:
        _write(to / f"{path}.md", shown_page(path, (root / path).read_text(encoding="utf-8")))
    shutil.copytree(root / "docs" / "pictures", to / "docs" / "pictures", ignore=shutil.ignore_patterns("*.py", "__pycache__"))


def prose_of(notebook: str) -> str:
    """Give a notebook as Markdown: its prose, and its code between fences. What it printed is left out, and nothing is run."""
    parts = []
    for cell in json.loads(notebook)["cells"]:
        text = "".join(cell["source"]).strip()
        if text:
            parts.append(f"```python\n{text}\n```" if cell["cell_type"] == "code" else text)
    return "\n\n".join(parts) + "\n"


def shown_page(path: Path, text: str) -> str:
    """Give the page that shows a file of code or numbers. Search leaves it out: it would bury what is for reading."""
    longest = max((len(run) for run in re.findall(r"`{3,}", text)), default=2)
    fence = "`" * (longest + 1)
    language = _SHOWN[path.suffix]
    return _CODE_PAGE.format(name=path.name, path=path.as_posix(), fence=fence, language=language, text=text.rstrip())


def front_page(readme: str, texts: dict[Path, str]) -> str:
    """Give the front page: README's first words, its picture and its three ways in, then what there is, group by group."""
    head, ways = readme.split("\n## Two commands\n", 1)[0], readme.split("\n## Three ways in\n", 1)[1].split("\n<img", 1)[0]
    return f"{head}\n\n## Three ways in\n{ways}\n{_groups(texts)}"


# What stands where in the list of pages. A page of docs/ that isn't named here goes under "How to", so that a new one is found.
_NAMED = {
    "Start": ["README.md"],
    "How to": [],
    "Teaching": ["docs/teaching.md", "apps/lessons/*"],
    "Python and widgets": ["docs/quantities.md", "docs/widgets.md", "docs/examples/*"],
    "The numbers": ["docs/how_good.md", "docs/how_it_works.md", "docs/equations.md", "docs/nomenclature.md"],
    "For developers": [
        "DEVELOPERS.md", "docs/decisions/README.md", "docs/decisions/0*", "docs/threats.md", "docs/app_speed.md",
        "docs/mutation.md", "docs/CHANGELOG.md",
    ],
}  # fmt: skip
_FIRST_HOW_TO = ("reading_the_answer", "rig", "setup_sheet", "readings")  # the others follow by name


def _groups(texts: dict[Path, str]) -> str:
    known = sorted(path for path in texts if path.name != "index.md")
    asked = [pattern for patterns in _NAMED.values() for pattern in patterns]
    rest = [path for path in known if not any(fnmatch(path.as_posix(), pattern) for pattern in asked)]
    rest.sort(key=lambda path: (*_FIRST_HOW_TO, path.stem).index(path.stem))
    out = []
    for caption, patterns in _NAMED.items():
        here = [path for pattern in patterns for path in known if fnmatch(path.as_posix(), pattern)] or rest
        lines = "\n".join(_entry(path) for path in here)
        out.append(f"## {caption}\n\n```{{toctree}}\n:caption: {caption}\n:maxdepth: 1\n\n{lines}\n```\n")
    return "\n".join(out)


def _entry(path: Path) -> str:
    """Give a page's line in the list. README has the title of the whole, so that its entry bears another."""
    page = path.with_suffix("").as_posix()
    return f"Every command, and a first answer <{page}>" if page == "README" else page


def _leading(root: Path, page: Path, link: re.Match[str], shown: set[Path]) -> str:
    """Give a link as the gathered page needs it: to a page for a notebook or a file that is shown."""
    target, anchor = link[1], link[2] or ""
    file = (root / page.parent / target).resolve()
    if not file.is_file():
        raise FileNotFoundError(f"{page}: got a link to '{target}'; expected a file of the repository")
    if file.suffix == ".ipynb":
        return f"{target.removesuffix('.ipynb')}.md{anchor}"
    if file.suffix in _SHOWN:
        shown.add(file.relative_to(root.resolve()))
        return f"{target}.md{anchor}"
    return link[0]


def _outside_fences(text: str, change: Callable[[str], str]) -> str:
    """Change what isn't code between fences."""
    out, done = [], 0
    for fence in _FENCE.finditer(text):
        out += [change(text[done : fence.start()]), fence[0]]
        done = fence.end()
    return "".join([*out, change(text[done:])])


def _below(root: Path, folder: str, suffix: str) -> set[Path]:
    return {path.relative_to(root) for path in (root / folder).rglob(f"*{suffix}") if ".ipynb_checkpoints" not in path.parts}


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
