"""The rules of the house that a test can hold: import direction, file size, names, what an import may load, no network."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "rigcalc"
LAYERS = ("core", "equations", "models", "words", "widgets", "views", "cli")
FILES = sorted(PACKAGE.rglob("*.py"))
MOST_LINES, MOST_NAMES = 400, 12


def layer(parts: tuple[str, ...]) -> int | None:
    """Give a module's place in the order of layers; None for the package itself."""
    name = parts[0].removesuffix(".py") if parts else ""
    return LAYERS.index(name) if name in LAYERS else None


def imports(path: Path) -> list[tuple[str, ...]]:
    """Give what a file imports from rigcalc, inside functions too."""
    out = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names = [node.module or ""] if isinstance(node, ast.ImportFrom) else []
        names += [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        out += [tuple(name.split(".")[1:]) for name in names if name.split(".")[0] == "rigcalc"]
    return out


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_file(path: Path) -> None:
    own = path.relative_to(PACKAGE).parts
    source = path.read_text(encoding="utf-8")
    assert source.count("\n") <= MOST_LINES, f"{path.name} is over {MOST_LINES} lines: part it"
    if layer(own) is None:
        return
    for name in imports(path):
        theirs = layer(name)
        assert theirs is None or theirs <= layer(own), f"{path.name} imports upward: rigcalc.{'.'.join(name)}"
        if own[0] == "equations" and own[1] != "__init__.py":
            assert name[0] == "core", f"{path.name}: files of the book import core alone, never each other"
    public = [
        node.name for node in ast.parse(source).body
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)) and not node.name.startswith("_")
    ]  # fmt: skip
    most = 16 if own[0] == "equations" else MOST_NAMES  # a question of the book may need a few more formulas
    assert len(public) <= most, f"{path.name} has {len(public)} public names: {public}"


def test_import_loads_numpy_alone() -> None:
    code = (
        "import sys, numpy; before = set(sys.modules); import rigcalc; "
        "new = {name.split('.')[0] for name in set(sys.modules) - before}; "
        "bad = new & {'sympy', 'plotly', 'ipywidgets', 'pint', 'scipy', 'xarray', 'dask', 'pandas', 'pydantic', 'matplotlib'}; "
        "assert not bad, bad"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_main_job_loads_no_heavy_library() -> None:
    code = (
        "import sys, rigcalc; rigcalc.size(rigcalc.load_rig('four_wheel_drive')); "
        # pint looks whether scipy is there by importing its bare top, which loads nothing
        "bad = {'sympy', 'plotly', 'ipywidgets', 'scipy.linalg', 'scipy.optimize', 'xarray', 'dask', 'matplotlib'}; "
        "bad &= set(sys.modules); "
        "assert not bad, bad"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_main_job_touches_no_network() -> None:
    code = (
        "import socket, sys\n"
        "def refuse(*a, **k): raise AssertionError('a socket was opened')\n"
        "socket.socket = refuse\n"
        "import rigcalc\n"
        "rigcalc.size(rigcalc.load_rig('tracks')).working\n"
        "rigcalc.find('slip')\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_top_level_holds_what_was_agreed() -> None:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode:
        pytest.skip("not a git checkout")
    top = {line.split("/")[0] for line in listed.stdout.splitlines()}
    agreed = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "rigcalc", "apps", "tests", "reference_tables", "docs"}
    assert {name for name in top if not name.startswith(".")} <= agreed
