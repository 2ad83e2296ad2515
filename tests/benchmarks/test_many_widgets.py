"""Twenty widgets on a served page beside one, in one run."""

import json
import statistics
import time

import pytest
from lab import notebook
from served import Served
from served_pages import CHROMIUM
from test_app_speed import in_a_browser

START = "import ipywidgets\nfrom rigcalc.widgets import QuantityEntry\n"
MADE = "ipywidgets.VBox([QuantityEntry('12 in', low=4, high=20, step=0.5, description=f'Depth {n}') for n in range(%d)])"


@pytest.mark.browser
@pytest.mark.skipif(not CHROMIUM.exists(), reason="missing: chromium; apt-get install -y chromium")
def test_twenty_widgets_take_less_than_one_and_a_half_times_as_long_as_one(tmp_path, record_property):
    for count in (1, 20):
        made = json.dumps(notebook((START + MADE % count,)))
        (tmp_path / f"entries_{count}.ipynb").write_text(made, encoding="utf-8")
    server = Served(tmp_path, tmp_path / "many.log", pool=0)
    took = {1: [], 20: []}

    def visit(browser):
        for turn in range(4):
            for count in (1, 20) if turn % 2 else (20, 1):
                page = browser.new_page()
                start = time.perf_counter()
                page.goto(f"{server.url}app/entries_{count}")
                page.get_by_label(f"Depth {count - 1}", exact=True).wait_for(timeout=60_000)
                if turn:  # the first warms the server and the browser
                    took[count].append(time.perf_counter() - start)
                page.close()

    try:
        in_a_browser(visit)
    finally:
        server.stop()
    ratio = statistics.median(took[20]) / statistics.median(took[1])
    record_property("ratio", ratio)
    assert ratio < 1.5, took
