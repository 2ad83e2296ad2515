"""The same view in JupyterLab: shown twice over, moved by typing and by hand, with plotly's script from the kernel."""

import contextlib
import json
import os
import re
import socket
import subprocess
import sys
import time

import pytest
from playwright.sync_api import expect

CELLS = ("from rigcalc.views import SizeApp\napp = SizeApp()\napp", "app.children[0]")


@pytest.fixture
def address(tmp_path):
    """A JupyterLab of its own, with nobody's settings, and a notebook in it."""
    pytest.importorskip("jupyterlab", reason="missing: jupyterlab; pip install jupyterlab")
    common = {"cell_type": "code", "execution_count": None, "metadata": {}, "outputs": []}
    cells = [{**common, "id": f"cell-{place}", "source": source} for place, source in enumerate(CELLS)]
    about = {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}}
    notebook = {"cells": cells, "metadata": about, "nbformat": 4, "nbformat_minor": 5}
    (tmp_path / "rig.ipynb").write_text(json.dumps(notebook), encoding="utf-8")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    call = [sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root", f"--port={port}", "--ip=127.0.0.1"]
    never = "jupyterlab.handlers.announcements.NeverCheckForUpdate"
    call += ["--IdentityProvider.token=", f"--ServerApp.root_dir={tmp_path}"]
    call += ["--LabApp.news_url=None", f"--LabApp.check_for_updates_class={never}"]
    env = {**os.environ, "JUPYTER_CONFIG_DIR": str(tmp_path / "config"), "JUPYTER_PLATFORM_DIRS": "1"}
    log = tmp_path / "lab.log"
    with log.open("w") as out:
        process = subprocess.Popen(call, cwd=tmp_path, env=env, stdout=out, stderr=subprocess.STDOUT)
    try:
        end = time.monotonic() + 60
        while "is running at" not in log.read_text():
            assert process.poll() is None, log.read_text()
            assert time.monotonic() < end, log.read_text()
            time.sleep(0.1)
        yield f"http://localhost:{port}/lab/tree/rig.ipynb"
    finally:
        process.terminate()
        process.wait(30)


def test_the_view_works_in_a_notebook(page, address):
    page.set_viewport_size({"width": 1400, "height": 900})
    page.goto(address)
    for place in range(len(CELLS)):
        cell = page.locator(".jp-Notebook .jp-CodeCell").nth(place)
        cell.wait_for(timeout=60_000)
        prompt = cell.locator(".jp-InputPrompt")
        for _ in range(20):  # a notebook that isn't ready yet lets the keys fall
            cell.locator(".cm-content").click()
            page.keyboard.press("Control+Enter")
            with contextlib.suppress(AssertionError):
                expect(prompt).to_have_text(re.compile(r"\[(\d+|\*)\]:"), timeout=1500)
                break
        expect(prompt).to_have_text(re.compile(r"\[\d+\]:"), timeout=60_000)
    said = page.locator(".rig-sentence")
    expect(said).to_have_count(2, timeout=60_000)
    depth = page.get_by_label("Depth", exact=True)
    depth.fill("14 in")
    depth.press("Enter")
    for each in said.all():
        expect(each).to_contain_text("14 in")
    plot, ring = page.locator(".rig-plot").first, page.locator(".rig-handle").first
    plot.scroll_into_view_if_needed()
    expect(plot).to_have_attribute("data-drawn", "1", timeout=20_000)
    box = ring.bounding_box()
    page.mouse.move(box["x"] + 26, box["y"] + 26)
    page.mouse.down()
    page.mouse.move(box["x"] + 26, 0, steps=5)
    page.mouse.up()
    for each in said.all():
        expect(each).to_contain_text("2 in deep at 5 mph")
