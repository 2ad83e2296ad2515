"""Widgets that stand alone, in JupyterLab and in Voila: values both ways, links, themes, neighbours, and without a kernel."""

import json
import re
import shutil
from pathlib import Path

import nbformat
import pytest
from lab import jupyterlab, notebook, restart_kernel, run_cell
from nbclient import NotebookClient
from playwright.sync_api import expect
from served import Served

import rigcalc.widgets as toolkit
from docs.pictures import gallery
from rigcalc.widgets import AnswerCard, LimitsMap, QuantityEntry, SizeModel, WorkingSteps, save_page

DRAWN = re.compile(r"\d")  # however often
EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
START = """import ipywidgets
from rigcalc import Q
import rigcalc.widgets as toolkit
from docs.pictures import gallery
from rigcalc.widgets import AnswerCard, Figure, LimitsMap, QuantityEntry, RigChoice, SizeModel, linked
model = SizeModel()
depth = QuantityEntry("10 in", low=4, high=20, step=0.5, usual=(8, 14), description="How deep")
linked(depth, model, "work.depth")
answer = AnswerCard(model)
"""
CELLS = (
    START + 'other = ipywidgets.FloatSlider(description="Others", min=4, max=20, value=10, step=0.01)\n'
    'ipywidgets.jslink((other, "value"), (depth, "number"))\nipywidgets.VBox([depth, answer, other])',
    'print(depth.value, "typed"); depth.value = Q(38.1, "cm")',
    "LimitsMap(model)",
    "RigChoice(model)",
    'depth.disabled = True; depth.style = {"ink": "#123456"}\nQuantityEntry(5, low=1, high=9, step=1, description="A count")',
)


@pytest.fixture
def lab(tmp_path):
    pytest.importorskip("jupyterlab", reason="missing: jupyterlab; pip install jupyterlab")
    with jupyterlab(tmp_path, notebook(CELLS)) as address:
        yield address


def look_of(page, what):
    style = "({font, color, backgroundColor, fontSize}) => ({font, color, backgroundColor, fontSize})"
    return page.locator(what).first.evaluate(f"element => ({style})(getComputedStyle(element))")


def test_in_jupyterlab(page, lab, violations):
    page.set_viewport_size({"width": 1400, "height": 1700})
    page.goto(lab)
    page.locator(".jp-Notebook .jp-CodeCell").first.wait_for(timeout=60_000)
    neighbours = "body", ".jp-NotebookPanel-toolbar", ".jp-DirListing-itemText", ".jp-Notebook"
    before = [look_of(page, each) for each in neighbours]
    run_cell(page, 0)
    said, box = page.locator(".rig-sentence"), page.get_by_label("How deep", exact=True)
    expect(said).to_contain_text("10 in deep", timeout=60_000)
    # Another's slider sits beside ours in its own look, and what it is linked to follows.
    others = page.locator(".widget-slider")
    assert others.evaluate("element => getComputedStyle(element).fontSize") == "13px"
    box.fill("30 cm")
    box.press("Enter")
    expect(said).to_contain_text("11.8 in deep")
    expect(others.locator(".widget-readout")).to_have_text("11.81")
    others.locator(".widget-readout").fill("8")
    others.locator(".widget-readout").press("Enter")
    expect(said).to_contain_text("8 in deep")
    expect(box).to_have_value("8 in")
    box.fill("4 feet 2")
    box.press("Enter")
    expect(page.locator(".rig-alone .rig-fault")).to_contain_text("from 4 in to 20 in")
    expect(said).to_contain_text("8 in deep")
    slider = page.get_by_role("slider", name="How deep, slider")
    slider.focus()
    page.keyboard.press("ArrowRight")
    expect(said).to_contain_text("8.5 in deep")
    expect(page.locator(".rig-alone .rig-fault")).to_have_text("")
    run_cell(page, 1)
    expect(page.locator(".jp-OutputArea-output pre").first).to_have_text("8.5 inch typed\n")
    expect(box).to_have_value("38.1 cm")
    expect(said).to_contain_text("15 in deep")
    run_cell(page, 2)
    expect(page.locator(".rig-plot").first).to_have_attribute("data-drawn", DRAWN, timeout=30_000)
    run_cell(page, 3)
    page.get_by_label("two-wheel drive on single rears").check()
    expect(said).to_contain_text("10 in deep at 4.5 mph")
    assert before == [look_of(page, each) for each in neighbours]
    assert all(each["font"] for each in before)
    found = [line for line in violations(page) if "rig-" in line]
    assert not found
    run_cell(page, 4)
    off = page.locator(".rig-alone.is-off")
    expect(off).to_have_attribute("aria-disabled", "true")
    assert off.evaluate("element => getComputedStyle(element).getPropertyValue('--ink')") == "#123456"
    expect(page.get_by_label("A count", exact=True)).to_have_value("5")


def test_after_a_restart_of_the_kernel_the_cells_run_again(page, lab):
    page.set_viewport_size({"width": 1400, "height": 1700})
    page.goto(lab)
    run_cell(page, 0)
    said, box = page.locator(".rig-sentence"), page.get_by_label("How deep", exact=True)
    expect(said).to_contain_text("10 in deep", timeout=60_000)
    restart_kernel(page)
    expect(said).to_contain_text("10 in deep")  # what was shown stays, and nothing complains
    run_cell(page, 0)
    box.fill("9")
    box.press("Enter")
    expect(said).to_contain_text("9 in deep")


def test_dark_as_the_notebook_has_it(page, lab):
    page.goto(lab)
    run_cell(page, 0)
    expect(page.locator(".rig-sentence")).to_be_visible(timeout=60_000)
    paper = "document.querySelector('.rig-alone') && getComputedStyle(document.querySelector('.rig-alone')).backgroundColor"
    assert page.evaluate(paper) == "rgb(255, 255, 255)"
    page.emulate_media(color_scheme="dark")  # the system's wish is the notebook's to follow, not ours
    assert page.evaluate(paper) == "rgb(255, 255, 255)"
    page.evaluate("document.body.dataset.jpThemeLight = 'false'")
    assert page.evaluate(paper) == "rgb(16, 19, 21)"


def test_a_saved_notebook_shows_its_last_answer(page, tmp_path):
    """It ran elsewhere and was saved; here nothing has run yet."""
    made = nbformat.from_dict(notebook((START + "ipywidgets.VBox([depth, answer, LimitsMap(model)])",)))
    NotebookClient(made, timeout=120, store_widget_state=True).execute()
    states = made["metadata"]["widgets"]["application/vnd.jupyter.widget-state+json"]["state"]
    sizes = sorted(len(json.dumps(state)) for state in states.values())
    assert sizes[-1] > 3_000_000, "plotly's script"
    assert sizes[-2] < 270_000, "every other widget; 200 kB of what it shows, its own script and the look"
    assert sum(one > 1_000_000 for one in sizes) == 1, "once"
    with jupyterlab(tmp_path, json.loads(nbformat.writes(made))) as address:
        page.goto(address)
        expect(page.locator(".rig-sentence")).to_contain_text("10 in deep", timeout=30_000)
        expect(page.get_by_label("How deep", exact=True)).to_have_value("10 in")
        expect(page.locator(".rig-plot").first).to_have_attribute("data-drawn", DRAWN, timeout=30_000)


def test_widgets_kept_in_a_page_need_no_kernel_and_no_network(page, tmp_path, violations):
    model = SizeModel()
    shown = [
        AnswerCard(model),
        QuantityEntry("10 in", low=4, high=20, description="How deep"),
        LimitsMap(model),
        WorkingSteps(model),
    ]
    page.goto(save_page(tmp_path / "kept.html", *shown, title="My rig").as_uri())
    expect(page.locator("body")).to_have_attribute("data-ready", "yes", timeout=30_000)
    expect(page.locator(".rig-sentence")).to_contain_text("10 in deep")
    expect(page.locator(".rig-plot").first).to_have_attribute("data-drawn", DRAWN)
    expect(page.get_by_label("How deep", exact=True)).to_have_value("10 in")
    expect(page.get_by_label("How deep", exact=True)).to_be_disabled()
    page.get_by_text("How each number is worked out").click()
    expect(page.locator("math").first).to_be_attached()
    assert violations(page) == []


@pytest.fixture(scope="module")
def served_examples(tmp_path_factory):
    folder = tmp_path_factory.mktemp("own")
    for name in ("my_own_notebook", "my_own_app"):
        shutil.copy(EXAMPLES / f"{name}.ipynb", folder)
    server = Served(folder, folder / "own.log")
    yield server
    server.stop()


def test_every_widget_alone_on_a_served_page(page, tmp_path, violations):
    """The notebook of which the gallery's pictures are taken: each shows something, none complains, axe finds nothing."""
    (tmp_path / "gallery.ipynb").write_text(gallery.notebook(), encoding="utf-8")
    server = Served(tmp_path, tmp_path / "gallery.log", pool=0)
    try:
        page.set_viewport_size({"width": 900, "height": 1200})
        page.goto(f"{server.url}app/gallery", timeout=120_000)
        page.locator(f".shown-{list(gallery.MADE)[-1]}").wait_for(timeout=120_000)
        for name in gallery.MADE:
            shown = page.locator(f".shown-{name}")
            shown.scroll_into_view_if_needed()
            expect(shown).to_be_visible()
            assert shown.bounding_box()["height"] > 20, name
            if shown.locator(".rig-plot").count():
                expect(shown.locator(".rig-plot").first).to_have_attribute("data-drawn", DRAWN, timeout=30_000)
        assert not [line for line in violations(page) if "rig-" in line]
    finally:
        server.stop()


def test_the_gallery_shows_every_widget_there_is():
    helpers = {
        "App",
        "AppModel",
        "Form",
        "Panel",
        "Picture",
        "Figure",
        "Pages",
        "RigPages",
        "linked",
        "save_page",
        "CompareRigs",
    }
    whole = {name for name in toolkit.__all__ if name.endswith(("App", "Model"))}
    assert set(toolkit.__all__) - helpers - whole == set(gallery.MADE)


def test_my_own_notebook_served(page, served_examples, violations):
    page.goto(f"{served_examples.url}app/my_own_notebook")
    said = page.locator(".rig-sentence")
    expect(said).to_contain_text("11.8 in deep", timeout=60_000)
    line = page.locator(".widget-html-content").filter(has_text="of fuel")
    before = line.inner_text()
    box = page.get_by_label("How deep", exact=True)
    box.fill("8")
    box.press("Enter")
    expect(said).to_contain_text("8 in deep")
    expect(line).not_to_have_text(before)
    expect(page.locator(".rig-plot").first).to_have_attribute("data-drawn", DRAWN, timeout=30_000)
    assert not [line for line in violations(page) if "rig-" in line]


def test_my_own_app_served(page, served_examples):
    page.add_init_script(
        "const later = window.setTimeout;"
        "window.setTimeout = (act, wait, ...more) => {"
        "  if (wait === 30000) window.late = act; return later(act, wait, ...more); };"
    )
    page.goto(f"{served_examples.url}app/my_own_app")
    word = page.locator(".rig-answer .rig-word")
    expect(word).to_have_text("160 hp", timeout=60_000)
    page.evaluate("window.late()")  # whoever has arrived isn't told after half a minute that it takes long
    expect(word).to_have_text("160 hp")
    box = page.get_by_label("Drawbar pull", exact=True)
    box.fill("50 kN")
    box.press("Enter")
    expect(word).to_have_text("150 hp")
    box.fill("much")
    box.press("Enter")
    expect(word).to_have_text("No answer")
    expect(page.get_by_role("alert").first).to_contain_text("Drawbar pull")
