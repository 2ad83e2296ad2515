"""Who loses the calculation or the server hears it at once, and keeps every entry, the last one too."""

import os
import re
import signal

import psutil
import pytest
from playwright.sync_api import expect
from served import Served

pytestmark = pytest.mark.usefixtures("watched")
# Said within two seconds; a busy machine is given as many again. Asking alone would take nine.
SOON = 4000


@pytest.fixture
def served(tmp_path):
    server = Served(None, tmp_path / "size.log", pool=0)
    yield server
    server.stop()


@pytest.fixture
def app(page, served):
    page.goto(f"{served.url}app/rig")
    expect(page.locator("body")).to_have_attribute("data-ready", "yes", timeout=60_000)
    expect(page.locator(".rig-sentence")).to_contain_text("10 in deep")
    return page


def kernel_of(app, served):
    name = app.evaluate("JSON.parse(document.getElementById('jupyter-config-data').textContent).kernelId")
    children = psutil.Process(served.process.pid).children(recursive=True)
    return next(child for child in children if name in " ".join(child.cmdline()))


def enter(app, text):
    depth = app.get_by_label("Depth", exact=True)
    depth.fill(text)
    depth.press("Enter")


def test_a_calculation_that_crashed_is_said_and_begun_again_with_the_last_entry(app, served):
    kernel = kernel_of(app, served)
    kernel.suspend()  # the entry arrives and is never taken
    enter(app, "13 in")
    kernel.kill()
    expect(app.locator("#rig-banner")).to_contain_text("stopped unexpectedly", timeout=SOON)
    expect(app).to_have_url(re.compile("13\\+in"))
    app.get_by_role("button", name="Start again").click()
    expect(app.locator(".rig-sentence")).to_contain_text("13 in", timeout=60_000)


def test_a_server_that_was_stopped_is_said_and_the_entries_stand_in_the_address(app, served):
    enter(app, "13 in")
    expect(app.locator(".rig-sentence")).to_contain_text("13 in")
    os.kill(served.process.pid, signal.SIGKILL)
    for kernel in psutil.Process(served.process.pid).children(recursive=True):
        kernel.kill()
    expect(app.locator("#rig-banner")).to_contain_text("The connection to rigcalc is gone", timeout=SOON)
    enter(app, "14")  # without a unit, as a number field takes it
    expect(app).to_have_url(re.compile("14\\+in"))
