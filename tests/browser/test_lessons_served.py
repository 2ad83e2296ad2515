"""A lesson in a real browser: from the start page to a problem solved; its picture moves; axe finds nothing."""

import re

import pytest
from playwright.sync_api import expect
from served import Served


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    made = Served(None, tmp_path_factory.mktemp("served") / "lessons.log", pool=0)
    yield made
    made.stop()


def test_from_the_start_page_to_a_problem_solved(page, server, violations):
    page.goto(server.url)
    expect(page.get_by_role("heading", name="Lessons")).to_be_visible()
    assert violations(page) == []
    page.get_by_role("link", name="Draft and where it comes from").click()
    box = page.get_by_label("Your answer, with its unit")
    expect(box).to_be_visible(timeout=60_000)
    expect(page.locator(".rig-plot").first).to_have_attribute("data-drawn", re.compile(r"\d"), timeout=30_000)
    line = page.get_by_text("Medium soil, 12 in")
    before = line.inner_text()
    page.get_by_role("button", name="Speed: more").click()
    expect(line).not_to_have_text(before)
    box.fill("12 kg")
    box.press("Enter")
    expect(page.get_by_role("status").filter(has_text="mass")).to_be_visible()
    expect(box).to_be_focused()
    page.get_by_role("button", name="Show the answer").click()
    answer = page.locator(".rig-panel strong").inner_text()
    box.fill(answer)
    box.press("Enter")
    expect(page.get_by_role("status").filter(has_text="Right.")).to_be_visible()
    assert page.locator("script[src^='http']").count() == 0
    assert not [each for each in violations(page) if "rig-" in each]
