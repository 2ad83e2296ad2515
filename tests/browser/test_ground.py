"""The page "The ground" in a real browser: a clod and flags on a phone, the line of depth, the answer page after it, axe."""

import re

import pytest
from playwright.sync_api import expect
from served import Served

pytestmark = pytest.mark.usefixtures("watched")
expect.set_options(timeout=20_000)  # a machine that does other things as well may take longer than playwright's 5 s
FLAGS = "8 12 350\n7\t11\t320\nnone\n6 10\n8 13 400\n7 11 380\n8 12 330\n7 10 330\n8 12 330\n8 12 330"


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    found = Served(None, tmp_path_factory.mktemp("served") / "ground.log", pool=1)
    yield found
    found.stop()


@pytest.fixture
def soil(page, server):
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(f"{server.url}app/rig?page=ground&rig=articulated")
    expect(here(page).locator(".rig-word")).to_have_text(re.compile("."))
    return page


def here(page):
    """Give the page in sight; those that were left stay beside it."""
    return page.locator(".rig-app:not(.rig-away)")


def test_flags_and_a_clod_on_a_phone_say_how_deep_and_every_page_goes_by_them(soil, violations):
    expect(here(soil).locator(".rig-sentence")).to_contain_text("Nobody has said how wet it is", ignore_case=True)
    box = here(soil).get_by_label("Flags of a probe")
    box.fill("8 12 14")
    box.press("Tab")
    expect(box).to_have_attribute("aria-invalid", "true")
    expect(here(soil).locator(".rig-word")).to_have_text("No answer")
    box.fill(FLAGS)
    box.press("Tab")
    expect(box).to_have_value(re.compile("^8 in to 12 in, 350 psi"))
    here(soil).get_by_label("crumbles first").check()
    expect(here(soil).locator(".rig-sentence")).to_contain_text("11 in is too shallow")
    picture = here(soil).locator(".rig-tall")
    picture.scroll_into_view_if_needed()
    expect(picture.locator(".rig-plot[data-drawn]")).to_be_visible()
    handle = picture.locator(".rig-handle")
    handle.scroll_into_view_if_needed()
    grip = handle.bounding_box()
    soil.mouse.move(grip["x"] + grip["width"] / 2, grip["y"] + grip["height"] / 2)
    soil.mouse.down()
    soil.mouse.move(grip["x"] + grip["width"] / 2, grip["y"] + grip["height"] / 2 + 28, steps=4)
    soil.mouse.up()
    expect(here(soil).locator(".rig-word")).to_have_text(re.compile("Go|Try"))
    assert soil.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    titles = ("After the pass: did it work", "Slope of the field", "Soil test", "Water that was measured")
    for title in (*titles, "Where: headland", "Yield that compaction costs", "Residue"):
        here(soil).locator("summary", has_text=title).first.click()
    field = here(soil).get_by_label("The field", exact=True)
    field.fill("800 m by 400 m")
    field.press("Tab")
    expect(here(soil).get_by_text("What to hold, how often wheels pass")).to_be_visible()
    assert soil.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    for scheme in ("light", "dark"):
        soil.emulate_media(color_scheme=scheme)
        assert violations(soil) == []
    box = here(soil).get_by_label("Flags after the pass")
    box.fill("none\n" * 9 + "8 12 330")
    box.press("Tab")
    expect(box).to_have_value(re.compile("8 in to 12 in, 330 psi$"))
    expect(here(soil).locator(".rig-word")).to_have_text("It worked")
    box.fill("")
    box.press("Tab")
    slope = here(soil).get_by_label("Steepest slope", exact=True).first
    slope.fill("12")
    slope.press("Tab")
    here(soil).get_by_label("up and down").check()
    expect(here(soil).locator(".rig-word")).to_have_text("Don't")
    expect(here(soil).locator(".rig-sentence")).to_contain_text("asses along a slope of 12 %")
    here(soil).get_by_label("not said").check()
    here(soil).get_by_label("rolls out").check()
    expect(here(soil).locator(".rig-sentence")).to_contain_text("oo wet at")
    expect(soil).to_have_url(re.compile("ground.flags="))
    soil.get_by_role("button", name="Will it pull?").click()
    expect(here(soil).locator(".rig-sentence")).to_contain_text("oo wet at")


def test_the_boxes_and_the_depth_by_keyboard_alone(soil):
    here(soil).get_by_label("Depth", exact=True).first.focus()
    soil.keyboard.type("14")
    soil.keyboard.press("Tab")
    box = here(soil).get_by_label("Flags of a probe")
    box.focus()
    soil.keyboard.type("8 12 350")
    soil.keyboard.press("Enter")
    soil.keyboard.type("none")
    soil.keyboard.press("Tab")
    expect(box).to_have_value("8 in to 12 in, 350 psi\nnone")
    expect(here(soil).get_by_text("1 of 2 flags pass 300 psi")).to_be_visible()
