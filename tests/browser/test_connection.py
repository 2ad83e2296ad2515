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


def test_the_form_opens_again_after_an_answer_that_was_lost(app):
    depth = app.get_by_label("Depth", exact=True)
    app.evaluate("() => { for (const each of window.sockets) each.onmessage = null; }")
    depth.fill("13 in")
    depth.press("Enter")
    app.wait_for_timeout(800)  # the answer comes and nobody hears it
    app.evaluate("() => { for (const each of window.sockets) each.close(); }")
    app.wait_for_function("window.sockets.length > 1 && window.sockets.at(-1).readyState === 1")
    app.wait_for_timeout(5000)
    depth.fill("14 in")
    depth.press("Enter")
    expect(app.locator(".rig-sentence")).to_contain_text("14 in deep")
