"""The page "What the field said" in a real browser: two readings on a phone, the answer page after them, keyboard, link."""

import re
from contextlib import suppress

import pytest
from playwright.sync_api import expect
from served import Served

pytestmark = pytest.mark.usefixtures("watched")
expect.set_options(timeout=20_000)  # a machine that does other things as well may take longer than playwright's 5 s
READINGS = (("14", "5.1", "13", "112"), ("13.5", "5.2", "12", "108"))


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    found = Served(None, tmp_path_factory.mktemp("served") / "reading.log", pool=1)
    yield found
    found.stop()


@pytest.fixture
def field(page, server):
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(f"{server.url}app/rig?page=field&rig=articulated")
    expect(here(page).locator(".rig-word")).to_have_text(re.compile("."))
    return page


def here(page):
    """Give the page in sight; those that were left stay beside it."""
    return page.locator(".rig-app:not(.rig-away)")


def fill(page, label, text):
    box = here(page).get_by_label(label, exact=True).first
    box.fill(text)
    box.press("Tab")


def add(page, numbers, at):
    for label, text in zip(("Depth dug", "Speed over the ground", "Slip", "Engine load"), numbers, strict=True):
        fill(page, label, text)
    here(page).get_by_role("button", name="Add this reading").click()
    expect(here(page).get_by_text(f"Added as reading {at}")).to_be_visible()


def test_two_readings_on_a_phone_change_the_answer_page_and_a_link_keeps_them(field, context, violations):
    told = here(field).locator(".rig-sentence").text_content()
    here(field).get_by_role("button", name="Add this reading").click()
    expect(here(field).get_by_text("4 things need mending")).to_be_visible()
    expect(here(field).get_by_label("Depth dug", exact=True)).to_have_attribute("aria-invalid", "true")
    here(field).get_by_role("button", name="Today").click()
    here(field).get_by_label("of what it gives now").check()
    for at, numbers in enumerate(READINGS, 1):
        add(field, numbers, at)
    expect(here(field).locator(".rig-sentence")).to_contain_text("from 2 readings of")
    assert here(field).locator(".rig-sentence").text_content() != told
    expect(here(field).locator(".rig-list li")).to_have_count(2)
    here(field).locator("summary", has_text="What each number told").click()
    expect(here(field).get_by_text("Of draft,")).to_be_visible()
    assert field.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    for scheme in ("light", "dark"):
        field.emulate_media(color_scheme=scheme)
        assert violations(field) == []
    field.get_by_role("button", name="Will it pull?").click()
    expect(here(field).locator(".rig-sentence")).to_contain_text("from 2 readings of")
    expect(here(field).locator(".rig-facts")).to_contain_text("for this field: every limit holds")
    said = here(field).locator(".rig-sentence").text_content()
    expect(field).to_have_url(re.compile("reading="))
    other = context.new_page()
    other.goto(field.url)
    expect(here(other).locator(".rig-sentence")).to_have_text(said)
    other.close()


def press(page, name):
    """Go to a button and press Enter once it has the focus: its panel may be written anew at that very moment."""
    button = here(page).get_by_role("button", name=name)
    for _ in range(10):
        button.focus()
        with suppress(AssertionError):
            expect(button).to_be_focused(timeout=500)
            break
    page.keyboard.press("Enter")


def test_a_reading_is_added_and_set_aside_by_keyboard_alone(field):
    here(field).get_by_label("Depth dug", exact=True).focus()
    for text in ("14", "3", "5.1", "12"):
        field.keyboard.type(text)
        field.keyboard.press("Tab")
    press(field, "Today")
    expect(here(field).get_by_label("Day", exact=True)).to_have_value(re.compile(r"\d{4}-\d\d-\d\d"))
    press(field, "Add this reading")
    expect(here(field).get_by_text("Added as reading 1")).to_be_visible()
    press(field, "Set aside: reading 1")
    why = here(field).get_by_label("Why is it set aside?")
    why.focus()
    field.keyboard.type("display not calibrated")
    field.keyboard.press("Tab")
    field.keyboard.press("Enter")
    expect(here(field).get_by_text("Not counted, set aside: display not calibrated")).to_be_visible()
    expect(here(field).get_by_text("No reading counts as things stand")).to_be_visible()
    press(field, "Count it again: reading 1")
    expect(here(field).locator(".rig-sentence")).to_contain_text("from 1 reading of")


def test_a_log_is_picked_on_a_phone_its_columns_asked_for_and_a_stretch_added(field, tmp_path, violations):
    log = tmp_path / "pass.csv"
    rows = [f"{at},8.0,8.7,{80 if at % 120 < 100 else 25}\n" for at in range(240)]
    log.write_text("Time [s],Ground speed [km/h],Wheel speed [km/h],Engine load (%)\n" + "".join(rows))
    card = here(field).locator(".rig-log")
    card.get_by_label("Choose a log").set_input_files(log)
    expect(card.get_by_text("Which column is which?")).to_be_visible()
    card.get_by_label("a share").select_option("available")
    assert violations(field) == []
    card.get_by_role("button", name="Take it apart").press("Enter")
    expect(card.get_by_role("button", name="Add stretch 1 as a reading")).to_be_visible()
    fill(field, "Depth dug", "10")
    here(field).get_by_role("button", name="Today").click()
    card.get_by_role("button", name="Add stretch 1 as a reading").click()
    expect(card.get_by_text("Added as reading 1")).to_be_visible()
    expect(here(field).locator(".rig-list li")).to_have_count(1)
    assert field.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    assert violations(field) == []
