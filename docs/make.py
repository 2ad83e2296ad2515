"""Generated pages: the book of equations, its nomenclature, the JSON Schema of a rig file, the answer in README.md and
how it is read, measured beside predicted, and the notebook of docs/quantities.md.

Run `uv run python docs/make.py` after changing an equation, a published check, the rig file's fields or that page.
"""

from __future__ import annotations

import json
import math
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from rigcalc.core.equation import Equation, words
from rigcalc.core.nomenclature import S, Symbol
from rigcalc.core.tables import table
from rigcalc.core.working import latex, text
from rigcalc.equations import load_all

ROOT = Path(__file__).parents[1]
_ANSWER_STARTS = "<!-- the answer below is made by `python docs/make.py` -->"
_ANSWER_ENDS = "<!-- end of the answer -->"


def published_rows(folder: Path) -> dict[str, list[tuple[str, str, bool]]]:
    """Give, by equation, the published checks there are: (file name, row id, whether it is live)."""
    out: dict[str, list[tuple[str, str, bool]]] = {}
    for path in sorted(path for path in folder.glob("*.toml") if not path.stem.startswith("measured_")):
        page = tomllib.loads(path.read_text(encoding="utf-8"))
        for row in page["row"]:
            name = row.get("equation", page.get("equation", ""))
            out.setdefault(name, []).append((path.name, row["id"], "skip" not in row))
    return out


def count_checked(folder: Path) -> tuple[int, int]:
    """Count the equations, and those of them that have a live published check."""
    book, rows = load_all(), published_rows(folder)
    return len(book), sum(any(live for *_, live in rows.get(name, [])) for name in book)


def equations_page(folder: Path) -> str:
    """Write the book of equations as Markdown."""
    book, rows = load_all(), published_rows(folder)
    count, checked = count_checked(folder)
    held = tomllib.loads((folder.parent / "equations" / "fitted.toml").read_text(encoding="utf-8"))
    names = ", ".join(f"[{words(name)}](#{name.replace('_', '-')})" for name in held)
    lines = [
        "# The book of equations",
        "",
        "Made from the declarations by `uv run python docs/make.py`; don't edit it by hand.",
        f"{count} equations, {checked} with a published check. Units are those that the source prints. What stands here",
        "*from memory* was known from the standard or paper and not seen in print while this was written: lay it beside",
        "your copy before you lean on it. How each is called: [quantities in, quantities out](quantities.md).",
        "",
        f"**No worked example in print was found for {len(held)} equations whose constants a fit chose**:",
        f"{names}.",
        "Textbooks have such examples (Goering and others, *Off-road vehicle engineering principles*, ch. 13; Queiroz and",
        "Schueller 2020, *Traction*), but none could be read. They are held to measurements of others instead, and each says",
        "how far a constant has to be off before one of these notices. At mobility numbers under about 10 (mud) they give less",
        "pull than another fit to field tests does.",
    ]
    for module in dict.fromkeys(eq.__module__ for eq in sorted(book.values(), key=lambda eq: eq.__module__)):
        members = [eq for eq in book.values() if eq.__module__ == module]
        members.sort(key=lambda eq: eq.bare.__code__.co_firstlineno)
        lines += ["", f"## {module.rsplit('.', 1)[1].replace('_', ' ').capitalize()}", "", _question(members[0]), ""]
        for eq in members:
            lines += _entry(eq, rows.get(eq.__name__, []), held.get(eq.__name__))
    return "\n".join(lines) + "\n"


def _question(eq: Equation) -> str:
    import sys

    return (sys.modules[eq.__module__].__doc__ or "").strip()


def _entry(eq: Equation, rows: list[tuple[str, str, bool]], held: dict[str, Any] | None) -> Iterator[str]:
    file = eq.__module__.replace(".", "/") + ".py"
    yield f"### {words(eq.__name__)}"
    yield ""
    yield eq.summary
    yield ""
    yield f"$${latex(eq)}$$" if eq.traced else f"`{text(eq)}`"
    yield ""
    yield "| | symbol | unit | meaning | range of the source |"
    yield "|---|---|---|---|---|"
    yield _row("gives", eq.gives, "")
    for symbol in eq.takes:
        span = eq.valid.get(symbol.name)
        yield _row("takes", symbol, f"{span[0]:g} to {span[1]:g}" if span else "")
    yield ""
    place = f", {eq.where}" if eq.where else ""
    yield f"- Source ({eq.sure}): {eq.source}{place}"
    if eq.table:
        yield f"- Coefficients: [{table(eq.table).title}](../reference_tables/{eq.table}.csv) ({table(eq.table).sure})"
    yield f"- Code: [`{eq.__name__}`](../{file})"
    live = [(name, row) for name, row, is_live in rows if is_live]
    files = dict.fromkeys(name for name, _ in live)
    links = ", ".join(f"[{name.removesuffix('.toml')}](../tests/published/{name})" for name in files)
    yield f"- Published check: {links} ({len(live)} row{'s' if len(live) > 1 else ''})" if live else "- no published check yet"
    if held:
        facts = ", ".join(words(fact) for fact in held["facts"])
        yield f"- A fit, held to facts from elsewhere (`tests/equations/test_fitted.py`): {facts}"
        shares = zip(held["constants"], held["more"], held["less"], strict=True)
        pushes = "; ".join(f"{constant:g} {_off('+', more)} {_off('-', less)}" for constant, more, less in shares)
        yield f"- Noticed when off by: {pushes}"
    yield ""


def _off(sign: str, share: float) -> str:
    return f"{sign}{share:.0%}" if share < float("inf") else f"{sign}never"


def _row(kind: str, symbol: Symbol, span: str) -> str:
    unit = {"1": "", "text": "word"}.get(symbol.unit, symbol.unit.replace("**", "^"))
    mark = f"${symbol.latex}$".replace("|", r"\|")
    return f"| {kind} | {mark} `{symbol.name}` | {unit} | {symbol.text} | {span} |"


def nomenclature_page() -> str:
    """Write the symbols of the book as Markdown, by name, each with the equations that give or take it."""
    uses: dict[str, list[str]] = {}
    for eq in load_all().values():
        for symbol in dict.fromkeys(symbol.name for symbol in (eq.gives, *eq.takes)):
            uses.setdefault(symbol, []).append(eq.__name__)
    lines = [
        "# Nomenclature",
        "",
        "Every symbol of [the book](equations.md). Made from the declarations by `uv run python docs/make.py`; don't edit it",
        "by hand. A name is an argument in Python. The unit is the one that the source prints; any unit that converts may be",
        "given. *Can be* bounds what can exist at all, in that unit; where a source was measured stands with each equation.",
        "",
        "| name | symbol | unit | meaning | can be | in |",
        "|---|---|---|---|---|---|",
    ]
    for symbol in sorted(S, key=lambda symbol: symbol.name):
        unit = {"1": "", "text": "word"}.get(symbol.unit, symbol.unit.replace("**", "^"))
        mark = f"${symbol.latex}$".replace("|", r"\|")
        links = ", ".join(f"[{words(name)}](equations.md#{name.replace('_', '-')})" for name in uses.get(symbol.name, []))
        lines.append(f"| `{symbol.name}` | {mark} | {unit} | {symbol.text} | {_bounds(symbol)} | {links} |")
    return "\n".join(lines) + "\n"


def _bounds(symbol: Symbol) -> str:
    low, high = math.isfinite(symbol.least), math.isfinite(symbol.most)
    if symbol.unit == "text" or not (low or high):
        return ""
    if low and high:
        return f"{symbol.least:g} to {symbol.most:g}"
    return f"from {symbol.least:g}" if low else f"to {symbol.most:g}"


def schema_page() -> str:
    """Write the JSON Schema of a rig file."""
    from rigcalc.models.rig.rig import Rig

    schema: dict[str, Any] = Rig.model_json_schema()
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"


def demo_answer() -> str:
    """Give the demo rig's answer as a plain terminal of 96 columns shows it."""
    import io

    from rich.console import Console

    from rigcalc.models import demo_rig, size
    from rigcalc.views.terminal.size import print_answer
    from rigcalc.words import in_words

    out = io.StringIO()
    print_answer(in_words(size(demo_rig()), "us"), Console(file=out, width=96, no_color=True, highlight=False))
    return "\n".join(line.rstrip() for line in out.getvalue().splitlines()) + "\n"


def good_page(folder: Path) -> str:
    """Write what was measured beside what rigcalc says."""
    from rigcalc.models.machine.draws import READING, READINGS
    from rigcalc.models.measured import compared
    from rigcalc.words.measured import how_good_page

    return how_good_page({reading: compared(folder, reading) for reading in READINGS}, READING)


def with_answer(page: Path, until: str = "") -> str:
    """Give a page with the demo answer put in between its two marks, up to the line that is `until`."""
    before, rest = page.read_text(encoding="utf-8").split(_ANSWER_STARTS, 1)
    after = rest.split(_ANSWER_ENDS, 1)[1]
    answer, cut, _ = demo_answer().partition(f"\n{until}\n") if until else (demo_answer(), "", "")
    return f"{before}{_ANSWER_STARTS}\n```text\n{answer}{'…' + chr(10) if cut else ''}```\n{_ANSWER_ENDS}{after}"


def notebook_page(root: Path, name: str) -> str:
    """Make a notebook of a page: its Python in cells, its prose between them. What a cell prints is left to the notebook."""
    text = (root / "docs" / f"{name}.md").read_text(encoding="utf-8")
    text = re.sub(r"```text\n.*?```\n", "", text, flags=re.DOTALL)
    text = re.sub(rf"^\[.*\]\(examples/{name}\.ipynb\).*\n\n", "", text, flags=re.MULTILINE)  # the line that leads to itself
    text = re.sub(r"\]\((?!\w+:)", "](../", text)
    cells: list[dict[str, Any]] = []
    for place, part in enumerate(re.split(r"```python\n(.*?)```\n", text, flags=re.DOTALL)):
        lines = part.strip().splitlines(keepends=True)
        cell: dict[str, Any] = {"cell_type": "markdown", "id": f"cell-{len(cells) + 1}", "metadata": {}, "source": lines}
        if lines:
            cells.append(cell | ({"cell_type": "code", "execution_count": None, "outputs": []} if place % 2 else {}))
    kernel = {"display_name": "Python 3", "language": "python", "name": "python3"}
    about = {"kernelspec": kernel, "language_info": {"name": "python"}}
    book = {"cells": cells, "metadata": about, "nbformat": 4, "nbformat_minor": 5}
    return json.dumps(book, indent=1, ensure_ascii=False, sort_keys=True) + "\n"


def pages(root: Path = ROOT) -> dict[Path, str]:
    """Give every generated page by its path below `root`."""
    return {
        Path("docs/equations.md"): equations_page(root / "tests" / "published"),
        Path("docs/nomenclature.md"): nomenclature_page(),
        Path("docs/rig.schema.json"): schema_page(),
        Path("README.md"): with_answer(root / "README.md", "Limits, the fullest first"),
        Path("docs/reading_the_answer.md"): with_answer(root / "docs" / "reading_the_answer.md"),
        Path("docs/how_good.md"): good_page(root / "tests" / "published"),
        Path("docs/examples/quantities.ipynb"): notebook_page(root, "quantities"),
    }


def main() -> None:
    """Write every generated page."""
    for path, page in pages().items():
        (ROOT / path).write_text(page, encoding="utf-8")


if __name__ == "__main__":
    main()
