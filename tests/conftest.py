"""Shared by all tests: on CI a skip for a missing browser or tool is a failure, hypothesis is repeatable, and what is slow by
its kind is marked so: `pytest -m "not slow"` leaves it out. A whole run is shared by two processes; a ratio of speed has the
machine for itself all the same."""

from __future__ import annotations

import asyncio
import fcntl
import os
import subprocess
import sys
import tempfile
from collections.abc import Callable, Coroutine, Generator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

settings.register_profile("ci", derandomize=True, deadline=None, print_blob=True)
settings.register_profile("here", deadline=None)
settings.load_profile("ci" if os.environ.get("CI") else "here")

# Hundreds of tests start Python: each would compile the package anew where the environment forbids Python to keep what it made.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False

# A browser, ratios of speed, a wheel in an environment of its own, notebooks with a kernel each; for each test a server, a
# shell, a typeset page, or a process with pint and dask; inputs at random; formulas that sympy solves; many whole answers.
# Single tests that take seconds bear the mark themselves.
SLOW = ("tests/browser/", "tests/benchmarks/", "tests/test_wheel.py", "tests/javascript/", "tests/core/test_host_registry.py",
        "tests/core/test_solved.py", "tests/hostile/", "tests/mutation/", "tests/test_site.py", "tests/cli/test_terminal.py",
        "tests/views/test_sheet", "tests/models/size/test_reverse_answers.py", "tests/models/size/test_verdict_properties.py",
        "tests/models/ballast/test_mass_curve.py", "apps/", "docs/examples/")  # fmt: skip

# Reasons that begin so mean that the machine lacks something that .ci/run has to install.
MISSING = "missing:"


@pytest.fixture
def awaited() -> Callable[[Coroutine[Any, Any, Any]], Any]:
    """Run a coroutine in a thread of its own: the browser's tests leave a running loop in the one of the tests."""

    def result_of(coroutine: Coroutine[Any, Any, Any]) -> Any:
        with ThreadPoolExecutor(1) as beside:
            return beside.submit(asyncio.run, coroutine).result()

    return result_of


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The docs site, built once by the command that DEVELOPERS.md names."""
    if not all(find_spec(name) for name in ("sphinx", "furo", "myst_parser")):
        pytest.skip("missing: sphinx, furo or myst-parser; uv sync --group docs")
    out = tmp_path_factory.mktemp("site")
    command, root = [sys.executable, "-m", "docs.site", str(out)], Path(__file__).parents[1]
    done = subprocess.run(command, cwd=root, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return out


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """Share a whole run; what somebody names by its path is run at once, without waiting for processes to start. The table of
    benchmarks is for those who name them."""
    if config.args_source is pytest.Config.ArgsSource.ARGS:
        return 0
    config.option.benchmark_disable = True
    return 2


def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """Hand out work file by file, but every file that needs a browser to one process: two browsers and their servers at a time
    are too much for two cores."""
    from xdist.scheduler import LoadFileScheduling

    class OneBrowser(LoadFileScheduling):
        def _split_scope(self, nodeid: str) -> str:
            return "tests/browser" if nodeid.startswith("tests/browser/") else str(super()._split_scope(nodeid))

    return OneBrowser(config, log)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Generator[None, Any, Any]:
    """Keep the other process from testing anything while a ratio of speed is taken."""
    run = os.environ.get("PYTEST_XDIST_TESTRUNUID")
    if not run:
        return (yield)
    with _beside_others(Path(tempfile.gettempdir()) / f"rigcalc-{run}", alone="benchmarks" in item.path.parts):
        return (yield)


@contextmanager
def _beside_others(lock: Path, alone: bool) -> Generator[None, None, None]:
    """Hold a lock that many may hold together, or one alone, who waits at the gate, so that nobody goes in before."""
    with lock.with_suffix(".gate").open("w") as gate, lock.with_suffix(".room").open("w") as room:
        fcntl.flock(gate, fcntl.LOCK_EX)
        fcntl.flock(room, fcntl.LOCK_EX if alone else fcntl.LOCK_SH)
        fcntl.flock(gate, fcntl.LOCK_UN)
        yield


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Mark as slow what stands in a slow folder. A ratio of speed is taken anew, twice at most, before it counts as missed, and
    a walk through a page once: another program may have the machine for a while. What is really wrong fails again."""
    for item in items:
        place = item.path.relative_to(config.rootpath).as_posix()
        if place.startswith(SLOW):
            item.add_marker("slow")
        if place.startswith("tests/benchmarks/"):
            item.add_marker(pytest.mark.flaky(reruns=2, reruns_delay=5))
        elif place.startswith("tests/browser/"):
            item.add_marker(pytest.mark.flaky(reruns=1))


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item) -> Generator[None, Any, Any]:
    """Turn a skip for something missing into a failure on CI."""
    report = yield
    if os.environ.get("CI") and report.skipped and MISSING in str(report.longrepr):
        report.outcome = "failed"
        report.longrepr = f"skipped on CI: {report.longrepr}"
    return report
