"""The same view in JupyterLab: shown twice over, moved by typing and by hand, with plotly's script from the kernel."""

import pytest
from lab import jupyterlab, notebook, run_cell
from playwright.sync_api import expect

CELLS = ("from rigcalc.views import SizeApp\napp = SizeApp()\napp", "app.children[0]")


@pytest.fixture
def address(tmp_path):
    pytest.importorskip("jupyterlab", reason="missing: jupyterlab; pip install jupyterlab")
    with jupyterlab(tmp_path, notebook(CELLS)) as found:
        yield found


def test_the_view_works_in_a_notebook(page, address):
    page.set_viewport_size({"width": 1400, "height": 900})
    page.goto(address)
    for place in range(len(CELLS)):
        run_cell(page, place)
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
