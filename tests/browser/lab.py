"""A JupyterLab of a test's own, with nobody's settings, and a notebook in it."""

import contextlib
import json
import os
import re
import socket
import subprocess
import sys
import time

import nbformat
from nbformat.sign import NotebookNotary
from playwright.sync_api import TimeoutError, expect

NEVER = "jupyterlab.handlers.announcements.NeverCheckForUpdate"


def notebook(cells, **metadata):
    """Give a notebook of these cells of code as a mapping."""
    common = {"cell_type": "code", "execution_count": None, "metadata": {}, "outputs": []}
    made = [{**common, "id": f"cell-{place}", "source": source} for place, source in enumerate(cells)]
    about = {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}, **metadata}
    return {"cells": made, "metadata": about, "nbformat": 4, "nbformat_minor": 5}


@contextlib.contextmanager
def jupyterlab(folder, made):
    """Serve a notebook, trusted as one's own, by JupyterLab; gives its address."""
    (folder / "rig.ipynb").write_text(json.dumps(made), encoding="utf-8")
    (folder / "data").mkdir()
    NotebookNotary(data_dir=str(folder / "data")).sign(nbformat.from_dict(made))
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    call = [sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root", f"--port={port}", "--ip=127.0.0.1"]
    call += ["--IdentityProvider.token=", f"--ServerApp.root_dir={folder}"]
    call += ["--LabApp.news_url=None", f"--LabApp.check_for_updates_class={NEVER}"]
    env = {**os.environ, "JUPYTER_CONFIG_DIR": str(folder / "config"), "JUPYTER_PLATFORM_DIRS": "1"}
    env["JUPYTER_DATA_DIR"] = str(folder / "data")
    log = folder / "lab.log"
    with log.open("w") as out:
        process = subprocess.Popen(call, cwd=folder, env=env, stdout=out, stderr=subprocess.STDOUT)
    try:
        end = time.monotonic() + 60
        while "is running at" not in log.read_text():
            assert process.poll() is None, log.read_text()
            assert time.monotonic() < end, log.read_text()
            time.sleep(0.1)
        yield f"http://localhost:{port}/lab/tree/rig.ipynb"
    finally:
        process.terminate()
        try:
            process.wait(30)
        except subprocess.TimeoutExpired:  # it waits for kernels that a busy machine lets wait
            process.kill()
            process.wait(30)


def answer_dialog(page):
    """Say yes to a question of the notebook's own (about its kernel or its file), which keeps everything else waiting."""
    asked = page.locator(".jp-Dialog")
    if asked.count():
        print("JupyterLab asked:", asked.first.inner_text())
        asked.first.locator(".jp-mod-accept").click()
        expect(asked).to_have_count(0)


def restart_kernel(page):
    """Restart the notebook's kernel by its menu, and wait until it is there again."""
    page.get_by_role("menuitem", name="Kernel").first.click()
    page.get_by_role("menuitem", name="Restart Kernel…").first.click()
    page.locator(".jp-Dialog").wait_for()
    answer_dialog(page)
    state = page.locator(".jp-NotebookPanel .jp-Notebook-ExecutionIndicator").first
    with contextlib.suppress(AssertionError):  # it may have been gone and back between two looks
        expect(state).not_to_have_attribute("data-status", "idle", timeout=3000)
    expect(state).to_have_attribute("data-status", "idle", timeout=60_000)


def run_cell(page, place):
    """Run one cell by its keys, and wait until it has run."""
    cell = page.locator(".jp-Notebook .jp-CodeCell").nth(place)
    cell.wait_for(timeout=60_000)
    prompt = cell.locator(".jp-InputPrompt")
    for _ in range(20):  # a notebook that isn't ready yet lets the keys fall
        answer_dialog(page)
        with contextlib.suppress(TimeoutError):
            cell.locator(".cm-content").click(timeout=5000)
        page.keyboard.press("Control+Enter")
        with contextlib.suppress(AssertionError):
            expect(prompt).to_have_text(re.compile(r"\[(\d+|\*)\]:"), timeout=1500)
            break
    expect(prompt).to_have_text(re.compile(r"\[\d+\]:"), timeout=60_000)
