"""The unit registry's disk cache outlives the environment that wrote it, and does without a place to write."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pint
import pytest

CODE = "import pint, rigcalc; print(pint.__file__); print(rigcalc.Q(14, 'in').to('cm').magnitude)"


def run(cache, packages=None):
    """Ask for centimetres in a process of its own, with its own cache and perhaps its own copy of pint."""
    env = {**os.environ, "XDG_CACHE_HOME": str(cache), "HOME": str(cache)}
    if packages:
        env["PYTHONPATH"] = str(packages)
    done = subprocess.run([sys.executable, "-c", CODE], env=env, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    found, answer = done.stdout.split()
    assert not packages or Path(found).is_relative_to(packages)
    assert round(float(answer), 9) == 35.56


@pytest.mark.slow
def test_an_environment_that_was_removed_leaves_nothing_behind_that_fails(tmp_path):
    for name in ("first", "second"):
        packages = tmp_path / name
        shutil.copytree(Path(pint.__file__).parent, packages / "pint")
        run(tmp_path / "cache", packages)
        shutil.rmtree(packages)


@pytest.mark.slow
def test_a_home_that_is_no_folder_is_done_without(tmp_path):
    nowhere = tmp_path / "file"
    nowhere.write_text("not a folder", encoding="utf-8")
    run(nowhere)
