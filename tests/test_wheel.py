"""The wheel carries all it needs: built, installed in a clean environment outside the checkout, and put to the main job."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


VERSIONS = ("3.11", "3.12", "3.13")


def interpreter(version: str) -> Path | None:
    """Give an interpreter of this version on this machine, wherever it keeps several; None where there is none."""
    if sys.version.startswith(f"{version}."):
        return Path(sys.executable)
    places = [shutil.which(f"python{version}"), *sorted(Path.home().glob(f".pyenv/versions/{version}.*/bin/python"))]
    for place in filter(None, places):
        asked = subprocess.run([str(place), "--version"], capture_output=True, text=True, check=False)
        if asked.stdout.startswith(f"Python {version}."):
            return Path(place)
    return None


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give the wheel, built from the source distribution alone."""
    uv = os.environ.get("UV") or shutil.which("uv")
    if not uv:
        pytest.skip("missing: uv; install it with `python3 -m pip install uv`")
    room = tmp_path_factory.mktemp("dist")
    subprocess.run([uv, "build", "--quiet", "--out-dir", str(room), str(ROOT)], check=True, cwd=room)
    assert len(list(room.glob("*.tar.gz"))) == 1
    return next(room.glob("*.whl"))


def environment(room: Path, base: Path, *what: str) -> Path:
    """Give the Python of a clean environment that has the wheel and what it needs."""
    uv = os.environ.get("UV") or shutil.which("uv") or "uv"
    subprocess.run([uv, "venv", "--quiet", "--python", str(base), str(room / "venv")], check=True)
    python = room / "venv" / "bin" / "python"
    subprocess.run([uv, "pip", "install", "--quiet", "--python", str(python), *what], check=True, cwd=room)
    return python


@pytest.fixture(scope="module")
def python(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give the Python of a clean environment that has the wheel and its runtime dependencies alone."""
    return environment(tmp_path_factory.mktemp("clean"), Path(sys.executable), str(wheel))


@pytest.mark.parametrize("version", VERSIONS)
def test_each_python_that_is_promised(version: str, wheel: Path, tmp_path: Path) -> None:
    base = interpreter(version)
    if version == "3.12" and not os.environ.get("RIGCALC_LONG"):
        pytest.skip("long: RIGCALC_LONG=1 tries the version between the oldest and the newest too")
    if base is None:
        pytest.skip(f"no Python {version} on this machine")  # it can't be installed here: not counted as missing
    python = environment(tmp_path, base, str(wheel))
    done = run(python, "size", "two_track", "--working")
    assert done.returncode in (0, 1), done.stderr
    assert "draft = soil_factor" in done.stdout
    for command in (["--version"], ["app", "--help"], ["find", "slip"], ["ballast", "front_wheel_assist"]):
        assert run(python, *command).returncode in (0, 1), command
    code = "import rigcalc; q = rigcalc.Q(14, 'in'); print(rigcalc.operating_point('two_track', depth=q).draft.to('lbf'))"
    strict = subprocess.run(
        [str(python), "-I", "-W", "error", "-c", code], capture_output=True, text=True, cwd=tmp_path, check=False
    )
    assert strict.returncode == 0, strict.stderr


def test_what_is_promised_is_tested() -> None:
    about = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    told = [line.rsplit(" ", 1)[1] for line in about["classifiers"] if "Python :: 3." in line]
    assert tuple(told) == VERSIONS
    assert about["requires-python"] == f">={VERSIONS[0]}"


def test_without_the_extras_a_command_says_what_to_install(python: Path, tmp_path: Path) -> None:
    for command, extra in (
        (["app", "--no-browser"], "rigcalc[app]"), (["sheet", "--out", str(tmp_path / "sheet.pdf")], "rigcalc[sheet]"),
        (["find", "--solve-for", "depth", "implement_draft"], "rigcalc[working]"),
    ):  # fmt: skip
        done = run(python, *command)
        assert done.returncode == 2, command
        assert extra in done.stderr
        assert "Traceback" not in done.stderr


def test_the_app_and_the_sheet_from_the_wheel(wheel: Path, tmp_path: Path) -> None:
    python = environment(tmp_path, Path(sys.executable), f"rigcalc[app] @ {wheel.as_uri()}")
    code = (
        "import json; from rigcalc.core.sources import data_folder; books = sorted(data_folder('apps').glob('*.ipynb'))\n"
        "assert 'site-packages' in str(books[0])\n"
        "for book in books:\n"
        "    for cell in json.loads(book.read_text())['cells']:\n"
        "        if cell['cell_type'] == 'code': exec(''.join(cell['source']), {})\n"
        "from rigcalc.views import RigPages\npages = RigPages()\n"
        "for name in pages.kinds: pages.turn_to(name)\n"
    )
    done = subprocess.run([str(python), "-I", "-c", code], capture_output=True, text=True, cwd=tmp_path, check=False)
    assert done.returncode == 0, done.stderr
    assert run(python, "sheet", "--out", str(tmp_path / "sheet.pdf")).returncode in (0, 1)
    assert (tmp_path / "sheet.pdf").read_bytes().startswith(b"%PDF")
    assert b"DejaVu" in (tmp_path / "sheet.pdf").read_bytes()


def test_every_file_of_the_package_ships(python: Path) -> None:
    """Templates, styles, scripts, apps and tables: whatever git tracks in the package stands in the wheel."""
    listed = subprocess.run(
        ["git", "ls-files", "rigcalc", "apps", "reference_tables"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    if listed.returncode:
        pytest.skip("not a git checkout")
    code = "import rigcalc, pathlib; print(pathlib.Path(rigcalc.__file__).parent)"
    package = Path(
        subprocess.run(
            [str(python), "-I", "-c", code], check=True, capture_output=True, text=True, cwd=python.parent
        ).stdout.strip()
    )
    tracked = [line for line in listed.stdout.splitlines() if (ROOT / line).exists()]
    homes = [package.parent / line if line.startswith("rigcalc/") else package / "_data" / line for line in tracked]
    assert [str(home) for home in homes if not home.exists()] == []


def run(python: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [str(python), "-I", "-m", "rigcalc", *arguments], capture_output=True, text=True, cwd=python.parent, check=False
    )


def test_main_job_from_the_wheel(python: Path) -> None:
    done = run(python, "size")
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("Go: it pulls")


def test_every_demo_rig_and_the_tables_ship(python: Path) -> None:
    code = (
        "import rigcalc; from rigcalc.models import DEMO_RIGS; from rigcalc.core.tables import table, table_names; "
        "[rigcalc.size(rigcalc.load_rig(name)) for name in DEMO_RIGS]; [table(name) for name in table_names()]; "
        "assert 'site-packages' in rigcalc.__file__ and len(table_names()) > 15"
    )
    subprocess.run([str(python), "-I", "-c", code], check=True, cwd=python.parent)


def test_working_and_starter_from_the_wheel(python: Path, tmp_path: Path) -> None:
    assert "draft = soil_factor" in run(python, "size", "--working").stdout
    starter = tmp_path / "rig.toml"
    assert run(python, "new", str(starter)).returncode == 0
    assert run(python, "check", str(starter)).returncode == 0
