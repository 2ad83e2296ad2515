"""The wheel carries all it needs: built, installed in a clean environment outside the checkout, and put to the main job."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def python(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give the Python of a clean environment that has the wheel and its runtime dependencies alone."""
    uv = os.environ.get("UV") or shutil.which("uv")
    if not uv:
        pytest.skip("missing: uv; install it with `python3 -m pip install uv`")
    room = tmp_path_factory.mktemp("wheel")
    subprocess.run([uv, "build", "--wheel", "--quiet", "--out-dir", str(room / "dist"), str(ROOT)], check=True, cwd=room)
    subprocess.run([uv, "venv", "--quiet", "--python", sys.executable, str(room / "venv")], check=True)
    python = room / "venv" / "bin" / "python"
    wheel = next((room / "dist").glob("*.whl"))
    subprocess.run([uv, "pip", "install", "--quiet", "--python", str(python), str(wheel)], check=True)
    return python


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
    assert done.stdout.startswith("Yes: it pulls")


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
