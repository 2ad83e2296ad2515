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
BESIDE = sorted(
    path for folder in (PACKAGE, ROOT / "tests" / "javascript") for path in folder.rglob("*")
    if path.suffix in (".js", ".css", ".j2", ".html") and "node_modules" not in path.parts
)  # fmt: skip
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


@pytest.mark.parametrize("path", BESIDE, ids=lambda path: str(path.relative_to(ROOT)))
def test_scripts_sheets_and_templates_are_no_longer_than_code(path: Path) -> None:
    assert path.read_text(encoding="utf-8").count("\n") <= MOST_LINES, f"{path.name} is over {MOST_LINES} lines: part it"


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
        "import sys, rigcalc; rigcalc.size(rigcalc.load_rig('articulated')); "
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
        "rigcalc.size(rigcalc.load_rig('two_track')).working\n"
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


QUESTIONS = sorted(
    folder.name for folder in (PACKAGE / "models").iterdir()
    if (folder / "__init__.py").is_file() and folder.name not in ("rig", "machine", "land")
)  # fmt: skip
# Files that may hold texts of three words and more, each with its reason. A folder stands for all of its files.
PROSE_ALLOWED = {
    "models/rig/measure.py": "what was expected instead, for faults",
    "models/rig/gang.py": "what was expected instead, for faults",
    "models/rig/parts.py": "what was expected instead, for faults",
    "models/rig/rig.py": "what an entry is, for faults and for the schema",
    "models/reading/log.py": "what was expected instead, for faults",
    "models/rig/field_reading.py": "what an entry is, for faults and for the schema",
    "models/rig/tyre_size.py": "what was expected instead, for faults",
    "models/rig/file.py": "what was expected instead, for faults",
    "models/ground/readings.py": "what to type instead, for faults",
    "models/season/plan.py": "what was expected instead, for faults",
    "models/season/reading_plan.py": "what was expected instead, for faults",
    "models/season/record.py": "what was expected instead, for faults",
    "models/season/answer.py": "what to type instead, for faults",
    "models/machine/weather.py": "names of units, and what was expected instead, for faults",
    "models/season/workable.py": "what was expected instead, for faults",
    "models/land/boundary.py": "what was expected instead, for faults",
    "models/land/geojson.py": "what was expected and what to type instead, for faults",
    "models/land/shape_file.py": "what was expected instead, for faults",
    "models/ground/soil_points.py": "what was expected instead, for faults",
    "models/land/zipped.py": "what was expected instead, for faults",
    "models/ground/logs.py": "what to type instead, for faults",
    "models/ground/by_weather.py": "what was expected instead, for faults",
    "models/ground/residue.py": "what to type instead, for faults",
    "models/ground/axles.py": "what to type instead, for faults",
    "models/ground/slope.py": "what to type instead, for faults",
    "models/ground/trial.py": "what to type instead, for faults",
    "models/ground/traffic.py": "what was expected and what to type instead, for faults",
    "models/ground/parted.py": "what was expected instead, for faults",
    "models/ground/zones.py": "what to type instead, for faults",
    "models/ballast/slip_test.py": "names of readings, for faults",
    "models/ballast/tyres.py": "what was expected instead, for faults",
    "models/classroom/answers.py": "names of units as people write them",
    "models/classroom/class_list.py": "what was expected instead, for faults",
    "models/classroom/kinds.py": "errors of a file of problems",
    "models/classroom/problem_set.py": "what was expected instead, for faults; the head of the teacher's file",
    "models/machine/kernel.py": "errors of a call from a program",
    "models/machine/kernel_blocks.py": "errors of a call from a program",
}
ERRORS = frozenset(["Fault", "InputError", "fault", "_fault", "AttributeError", "ValueError", "TypeError"])
# Views that take texts apart, each with its reason: none of them is a text that `words` made.
CUTTING_ALLOWED = {
    "views/serving/messages.py": "headers of messages, whose form is fixed",
    "views/rig/model.py": "paths of entries, such as tractor.front.kind",
    "views/rig/drawing.py": "selectors of the drawing's style",
    "views/sheet/words.py": "what a person typed, made fit for one line",
    "views/terminal/parts.py": "names from a file, line by line",
    "views/ballast/model.py": "paths of entries",
    "views/compare/inputs.py": "paths of entries, and names that a person typed",
    "views/season/model.py": "paths of entries, and counts that a person typed",
    "views/ballast/rig_inputs.py": "what a person typed: pasted tables and lists",
}
CUTS = frozenset(["split", "rsplit", "partition", "rpartition", "splitlines"])


def allowed(own: tuple[str, ...], places: dict[str, str]) -> bool:
    """Say whether a file, or a folder it is in, stands among the exceptions."""
    return any("/".join(own[:count]) in places for count in range(1, len(own) + 1))


def docstrings(tree: ast.AST) -> set[int]:
    """Give the nodes that are texts standing alone: docstrings."""
    return {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)}


def called(node: ast.Call) -> str:
    """Give the last name of what is called."""
    return node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")


def prose(source: str) -> list[str]:
    """Give the texts of three words and more that are neither docstrings nor inside the making of an error."""
    tree = ast.parse(source)
    passed = docstrings(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and called(node) in ERRORS:
            passed |= {id(inside) for inside in ast.walk(node)}
    texts = [node for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)]
    return [node.value for node in texts if id(node) not in passed and len(node.value.split()) >= 3]


def cuts(source: str) -> list[str]:
    """Give the places where a text is taken apart: `re`, split, partition."""
    out = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            out += [alias.name for alias in node.names if alias.name == "re"]
        elif isinstance(node, ast.ImportFrom) and node.module == "re":
            out.append("re")
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in CUTS:
            out.append(f"line {node.lineno}: .{node.func.attr}(")
    return out


def test_the_checks_of_texts_see_what_they_look_for() -> None:
    found = prose(
        '"""A docstring of words."""\ntext = f"it pulls {job} deep"\nraise InputError([Fault("a", "b c d e", "f")])\n'
    )
    assert found == []
    assert prose('text = "it pulls no more"\n') == ["it pulls no more"]
    assert prose('text = f"so {much} gives out first"\n') == [" gives out first"]
    assert cuts("import re\nword, _, rest = text.partition(': ')\n") == ["re", "line 2: .partition("]


@pytest.mark.parametrize("path", sorted((PACKAGE / "models").rglob("*.py")), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_models_hold_no_prose(path: Path) -> None:
    if not allowed(path.relative_to(PACKAGE).parts, PROSE_ALLOWED):
        assert prose(path.read_text(encoding="utf-8")) == [], "words belong to rigcalc/words"


@pytest.mark.parametrize("path", sorted((PACKAGE / "views").rglob("*.py")), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_views_take_no_text_apart(path: Path) -> None:
    if not allowed(path.relative_to(PACKAGE).parts, CUTTING_ALLOWED):
        assert cuts(path.read_text(encoding="utf-8")) == [], "let rigcalc/words give the parts"


def question_of(parts: tuple[str, ...]) -> str | None:
    """Give the question that a module belongs to by its folder, or by its own name; None for what questions share."""
    return next((part.removesuffix(".py") for part in parts[1:] if part.removesuffix(".py") in QUESTIONS), None)


# A question that is asked about the answers of others, and those others. One way: the other knows nothing of it.
# docs/decisions/0014-compare-asks-size.md says why.
ABOUT = {"compare": ("size", "season"), "shortlist": ("size",), "passes": ("ground",)}
# A page that shows what its question changes in the answer of another.
PAGE_SHOWS = {("views", "reading"): "size"}


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_questions_never_import_each_other(path: Path) -> None:
    own = path.relative_to(PACKAGE).parts
    mine = question_of(own)
    if mine is None or own[:2] == ("views", "sheet"):  # one sheet for the cab holds the answers to several questions
        return
    for name in imports(path):
        assert question_of(name) in (None, mine, *ABOUT.get(mine, ()), PAGE_SHOWS.get(own[:2])), (
            f"{'/'.join(own)} imports rigcalc.{'.'.join(name)}: move what is shared down"
        )


def test_a_question_about_answers_is_asked_about_one_that_asks_about_none() -> None:
    asked = {other for others in ABOUT.values() for other in others}
    assert set(ABOUT) | asked <= set(QUESTIONS)
    assert not set(ABOUT) & asked


def test_widgets_know_no_question() -> None:
    for path in sorted((PACKAGE / "widgets").rglob("*.py")):
        for name in imports(path):
            assert name[0] in ("core", "words", "widgets"), f"{path.name} imports rigcalc.{'.'.join(name)}"
            assert question_of(name) is None, f"{path.name} imports rigcalc.{'.'.join(name)}"


def imported_files(path: Path) -> set[Path]:
    """Give the files of rigcalc that a file imports, at its top or inside a function; not those for types alone."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
            node.body = [ast.Pass()]
    out = set()
    for node in ast.walk(tree):
        names: list[str] = []
        if isinstance(node, ast.ImportFrom) and node.module:
            names = [node.module, *(f"{node.module}.{alias.name}" for alias in node.names)]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        for name in names:
            if name.split(".")[0] == "rigcalc":
                place = PACKAGE.joinpath(*name.split(".")[1:])
                out |= {file for file in (place.with_suffix(".py"), place / "__init__.py") if file.is_file()}
    return out - {path}


def test_no_imports_in_a_circle() -> None:
    graph = {path: imported_files(path) for path in FILES}
    done: set[Path] = set()

    def walk(path: Path, way: list[Path]) -> None:
        circle = [str(each.relative_to(PACKAGE)) for each in [*way[way.index(path) :], path]] if path in way else []
        assert not circle, f"imports in a circle: {' -> '.join(circle)}"
        if path not in done:
            for other in sorted(graph[path]):
                walk(other, [*way, path])
            done.add(path)

    for path in FILES:
        walk(path, [])
