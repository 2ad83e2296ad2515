"""A connection that breaks off, as on a phone at the field edge, must not leave a page that looks alive and isn't."""

import pytest
from conftest import Served
from playwright.sync_api import expect

pytestmark = pytest.mark.usefixtures("watched")
KEEP = """window.sockets = []; const Plain = WebSocket; window.WebSocket = class extends Plain {
  constructor(...all) { super(...all); window.sockets.push(this); } };"""


@pytest.fixture
def app(context, page, tmp_path):
    server = Served(None, tmp_path / "size.log")
    context.add_init_script(KEEP)
    page.goto(f"{server.url}app/size")
    expect(page.locator(".rig-sentence")).to_contain_text("12 in deep")
    yield page
    server.stop()


def test_an_answer_that_was_lost_is_sent_anew(app):
    depth = app.get_by_label("Depth", exact=True)
    app.evaluate("() => { for (const each of window.sockets) each.onmessage = null; }")
    depth.fill("13 in")
    depth.press("Enter")
    app.wait_for_timeout(800)  # the answer comes and nobody hears it
    app.evaluate("() => { for (const each of window.sockets) each.close(); }")
    expect(app.locator(".rig-sentence")).to_contain_text("13 in deep", timeout=20_000)


def test_an_entry_that_never_arrived_is_sent_anew(app):
    app.evaluate("() => { const last = window.sockets.at(-1); last.send = () => { delete last.send; last.close(); }; }")
    depth = app.get_by_label("Depth", exact=True)
    depth.fill("13 in")
    depth.press("Enter")
    expect(app.locator(".rig-sentence")).to_contain_text("13 in deep", timeout=15_000)
