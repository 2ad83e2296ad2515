"""Runs tests over and over without importing the libraries each time: it loads them once, then forks for each run.

Reads a JSON list of pytest arguments a line; answers a JSON list [exit code, the line that says most].
"""

import contextlib
import importlib
import json
import os
import signal
import sys
import tempfile
import time

# Never anything of rigcalc: that is what changes from run to run.
LIBRARIES = ("numpy", "pint", "pydantic", "hypothesis.strategies", "pytest", "scipy.optimize", "sympy", "xarray", "dask.array",
             "click.testing", "rich.console", "jinja2", "ipywidgets", "platformdirs")  # fmt: skip


def run(arguments: list[str], within: float, out: str) -> int:
    """Fork, run pytest in the child, and give its exit code; 124 when it has to be stopped."""
    child = os.fork()
    if not child:
        os.setsid()
        file = os.open(out, os.O_WRONLY | os.O_TRUNC)
        os.dup2(file, 1)
        os.dup2(file, 2)
        import pytest

        code = 3
        with contextlib.suppress(BaseException):
            code = int(pytest.main(arguments))
        sys.stdout.flush()
        os._exit(code)
    end = time.monotonic() + within
    pause = 0.02
    while time.monotonic() < end:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status)
        time.sleep(pause)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return 124


def main() -> None:
    """Answer runs until there are no more."""
    sys.path.insert(0, os.getcwd())
    for name in LIBRARIES:
        with contextlib.suppress(ImportError):
            importlib.import_module(name)
    assert not any(name == "rigcalc" or name.startswith("rigcalc.") for name in sys.modules), "the package itself is loaded"
    with tempfile.NamedTemporaryFile("r") as out:
        for line in sys.stdin:
            within, arguments = json.loads(line)
            code = run(arguments, within, out.name)
            out.seek(0)
            said = out.read().splitlines()
            told = [text for text in said if text.startswith(("FAILED", "ERROR"))] or said[-1:] or [""]
            print(json.dumps([code, "it never ends" if code == 124 else told[0][:160]]), flush=True)


if __name__ == "__main__":
    main()
