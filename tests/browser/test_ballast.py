"""The ballast app in a real browser, as a person uses it; here it is a page by itself."""

import json
import re

import pytest
from known_rigs import known_rig, known_text
from lab import notebook
from playwright.sync_api import expect
from served import Served

from rigcalc.models import read_rig, replaced
from rigcalc.models.ballast.answer import ballast
from rigcalc.models.ballast.slip_test import from_turns, verdict
from rigcalc.views.ballast.model import BallastModel
from rigcalc.words.ballast.slip import said
from rigcalc.words.ballast.steps import step_said

pytestmark = pytest.mark.usefixtures("watched")
expect.set_options(timeout=15_000)  # a machine that does other things as well may take longer than playwright's 5 s


def start() -> str:
    model = BallastModel()
    model.start_from_toml(known_text("front_wheel_assist"))
    model.edit({"plan.job": "full"})
    return f"app/ballast?{model.to_query()}"


START = start()


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    folder = tmp_path_factory.mktemp("served")
    made = notebook(("from rigcalc.views import BallastApp\n\nBallastApp()",))
    (folder / "ballast.ipynb").write_text(json.dumps(made), encoding="utf-8")
    found = Served(folder, folder / "ballast.log", pool=1)
    yield found
    found.stop()


@pytest.fixture
def app(page, server):
    page.goto(f"{server.url}{START}")
    expect(page.locator(".rig-sentence")).to_contain_text("take front plates from 10 to 2")
    return page


def fill(page, path, text):
    field = page.locator(f"[data-path='{path}'] .rig-typed")
    field.fill(text)
    field.press("Enter")
    return field


def unfold(page, title):
    page.locator("summary", has_text=re.compile(f"^{re.escape(title)}")).first.click()


def fits(page):
    return page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def test_a_changed_number_changes_the_plan_and_nonsense_explains_itself(app):
    sentence = app.locator(".rig-sentence")
    unfold(app, "front plates: 10 of 18 on")
    # Four plates put on by hand, on the scale too: the plan must take them off again.
    fill(app, "ballast.0.on", "14")
    fill(app, "ballast.0.mass", "50 kg")
    data = known_rig("front_wheel_assist").model_dump(mode="json", exclude_none=True)["ballast"]
    data[0] |= {"on": 14, "mass": "50 kg"}
    expected = ballast(replaced(known_rig("front_wheel_assist"), {"ballast": data}), "full").plan.chosen
    expect(sentence).to_contain_text(step_said(expected.changes[0], "us").order)
    expect(app.locator("h2", has_text="front plates: 14 of 18 on")).to_be_visible()
    fill(app, "ballast.0.mass", "heavy")
    expect(app.locator(".rig-word")).to_have_text("No answer")
    expect(app.get_by_role("alert").filter(has_text="front plates, one weighs")).to_contain_text("heavy")
    expect(app.locator("[data-path='ballast.0.mass'] .rig-fault")).to_contain_text("100 lb")
    expect(app.locator(".rig-cards")).to_have_count(0)
    app.get_by_role("button", name="Undo").click()
    expect(sentence).to_contain_text(step_said(expected.changes[0], "us").order)
    app.get_by_role("button", name="Add a kind of weight").click()
    expect(app.locator("h2", has_text="weights 1: 0 of 10 on")).to_be_visible()
    unfold(app, "Remove")
    app.get_by_role("button", name="Remove weights 1").click()
    expect(app.locator("h2", has_text="weights 1: 0 of 10 on")).to_have_count(0)


def test_the_slip_test_has_a_verdict_and_the_plan_can_be_taken(app, tmp_path):
    fill(app, "slip.loaded", "100")
    fill(app, "slip.unloaded", "80")
    told = said(verdict(from_turns(100, 80, 0.25), known_rig("front_wheel_assist")), "us").headline
    expect(app.locator(".rig-slip")).to_contain_text(told)
    fill(app, "slip.unloaded", "120")
    expect(app.get_by_role("alert").filter(has_text="turns without load")).to_be_visible()
    expect(app.locator(".rig-sentence")).to_contain_text("take front plates")
    app.locator("[data-path='slip.way'] select").select_option("speeds")
    expect(app.locator("[data-path='slip.loaded']")).to_be_hidden()
    fill(app, "slip.ground", "5.10")
    fill(app, "slip.wheel", "9.04 km/h")
    expect(app.get_by_label("Verdict of the slip test")).to_contain_text("Slip is 9.2 %")
    app.get_by_role("button", name="Done: the tractor now stands like this").click()
    expect(app.locator(".rig-word")).to_have_text("Leave it")
    unfold(app, "File and screen")
    with app.expect_download() as saved:
        app.get_by_role("button", name="Save", exact=True).click()
    saved.value.save_as(tmp_path / "rig.toml")
    assert [piece.on for piece in read_rig((tmp_path / "rig.toml").read_text(encoding="utf-8")).ballast] == [2, 4]
    app.get_by_label("Look at an example").select_option("two_track")
    expect(app.get_by_role("group", name="Page")).to_contain_text("two-track")
    app.get_by_label("Open a file").set_input_files(tmp_path / "rig.toml")
    expect(app.locator("h2", has_text="front plates: 2 of 18 on")).to_be_visible()


def test_a_pasted_table_asks_for_its_pressure_and_the_sheet_has_it(app, tmp_path):
    unfold(app, "Rear tires and what is in them")
    table = app.locator("[data-path='table.rear'] textarea")
    table.fill("pressure psi, load lb\n8, 3000\nten, 9000\n")
    table.blur()
    expect(app.get_by_role("alert").filter(has_text="inflation table, line 3")).to_contain_text("ten")
    table.fill("pressure psi, load lb\n8, 3000\n20, 9000\n")
    table.blur()
    changes = {"tractor.rear.tyre.pressures": ["8 psi", "20 psi"], "tractor.rear.tyre.loads": ["3000 lb", "9000 lb"]}
    found = ballast(replaced(known_rig("front_wheel_assist"), changes), "full")
    rear = next(t for t in found.tyres_after if (t.axle, t.when) == ("rear", "pull"))
    expect(app.get_by_label("Load and pressure", exact=True)).to_contain_text(f"{rear.inflation.pressure / 6.894757:.0f} psi")
    app.get_by_role("button", name="cm, kg, km/h").click()
    expect(app.get_by_label("Load and pressure", exact=True)).to_contain_text("kPa")
    with app.expect_download() as saved:
        app.get_by_role("button", name="Save as HTML").click()
    saved.value.save_as(tmp_path / "sheet.html")
    text = (tmp_path / "sheet.html").read_text(encoding="utf-8")
    assert "Take front plates from" in text
    assert "kPa under pull" in text


@pytest.mark.parametrize("scheme", ["Light", "Dark"])
@pytest.mark.parametrize("size", [(1280, 800), (390, 844)])
def test_nothing_for_axe_to_find_by_keyboard_and_on_a_phone(app, violations, scheme, size):
    app.set_viewport_size({"width": size[0], "height": size[1]})
    unfold(app, "File and screen")
    app.get_by_role("button", name=scheme, exact=True).click()
    for title in (
        "The drawing in words",
        "Sets compared",
        "front plates",
        "Rear tires and",
        "Gears",
        "Who says what",
        "How each",
    ):
        unfold(app, title)
    app.locator(".rig-plot").scroll_into_view_if_needed()
    expect(app.locator(".rig-plot")).to_have_attribute("data-drawn", re.compile(r"\d+"))
    unfold(app, "The same as a table")
    expect(app.locator("table caption", has_text="Over the tractor's mass")).to_be_visible()
    assert violations(app) == []
    assert fits(app)
    job = app.locator("[data-path='plan.job'] select")
    job.focus()
    app.keyboard.press("ArrowUp")
    expect(app.locator(".rig-word")).to_have_text("Move weight")
    app.keyboard.press("Tab")
    app.keyboard.press("Control+a")
    app.keyboard.type("deep")
    app.keyboard.press("Enter")
    expect(app.locator(".rig-word")).to_have_text("No answer")
    assert fits(app)
    assert violations(app) == []
