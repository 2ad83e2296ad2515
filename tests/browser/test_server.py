"""The server as others meet it: with a token, put to rest, asked for what it should not give."""

import re

import pytest
from playwright.sync_api import expect
from served import HERE, Served

TOKEN = "a-token-for-the-tests-0123456789"


@pytest.fixture
def locked(tmp_path):
    server = Served(HERE / "tiny_apps", tmp_path / "locked.log", token=TOKEN)
    yield server
    server.stop()


def test_without_the_token_there_is_only_the_question_for_it(page, locked, violations):
    assert TOKEN in locked.log.read_text()
    assert "travels unencrypted" in locked.log.read_text()
    page.goto(f"{locked.url}app/tiny")
    expect(page.get_by_label("Token")).to_be_visible()
    assert violations(page) == []
    page.get_by_label("Token").fill("wrong")
    page.get_by_role("button", name="Open").click()
    expect(page.get_by_role("alert")).to_be_visible()
    page.goto(f"{locked.url}app/tiny?token={TOKEN}")
    expect(page.locator(".rig-sentence")).to_be_visible()
    expect(page).not_to_have_url(re.compile(TOKEN))
    page.get_by_role("button", name="Depth: more").click()
    expect(page.locator(".rig-sentence")).to_have_text("trial: 48.26 kN")


def test_a_page_left_alone_is_put_to_rest_and_wakes_with_its_entries(page, tmp_path):
    server = Served(HERE / "tiny_apps", tmp_path / "idle.log", pool=0, idle_seconds=3)
    try:
        page.clock.install()
        page.goto(f"{server.url}app/tiny")
        expect(page.locator(".rig-sentence")).to_be_visible(timeout=60_000)
        page.get_by_role("button", name="Depth: more").click()
        expect(page.locator(".rig-sentence")).to_have_text("trial: 48.26 kN")
        kernel = page.evaluate("JSON.parse(document.getElementById('jupyter-config-data').textContent).kernelId")
        page.clock.fast_forward("11:00")
        for _ in range(60):
            if page.request.get(f"{server.url}api/kernels/{kernel}").status == 404:
                break
            page.wait_for_timeout(250)
        page.mouse.click(5, 5)
        page.clock.fast_forward("00:10")
        expect(page.locator("#rig-banner")).to_contain_text("put to rest", timeout=15_000)
        page.get_by_role("button", name="Start again").click()
        expect(page.locator(".rig-sentence")).to_have_text("trial: 48.26 kN")
    finally:
        server.stop()


def test_a_closed_page_takes_its_calculation_with_it(page, tmp_path):
    server = Served(HERE / "tiny_apps", tmp_path / "closed.log", pool=0)
    try:
        page.goto(f"{server.url}app/tiny")
        expect(page.locator("body")).to_have_attribute("data-ready", "yes", timeout=60_000)
        kernel = page.evaluate("JSON.parse(document.getElementById('jupyter-config-data').textContent).kernelId")
        page.goto(server.url)
        for _ in range(60):
            if page.request.get(f"{server.url}api/kernels/{kernel}").status == 404:
                return
            page.wait_for_timeout(250)
        pytest.fail("the calculation runs on")
    finally:
        server.stop()
