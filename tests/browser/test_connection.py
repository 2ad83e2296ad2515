"""A connection that breaks off, as on a phone at the field edge, must not leave a page that looks alive and isn't."""

import pytest
from playwright.sync_api import expect
from served import Served

pytestmark = pytest.mark.usefixtures("watched")
KEEP = """window.sockets = []; const Plain = WebSocket; window.WebSocket = class extends Plain {
  constructor(...all) { super(...all); window.sockets.push(this); } };"""


@pytest.fixture
def app(context, page, tmp_path):
    server = Served(None, tmp_path / "size.log")
    context.add_init_script(KEEP)
    page.goto(f"{server.url}app/rig")
    expect(page.locator("body")).to_have_attribute("data-ready", "yes", timeout=60_000)
    expect(page.locator(".rig-sentence")).to_contain_text("10 in deep")
    yield page
    server.stop()


def deaf(app):
    """Let what the kernel sends from now on be lost on its way to the page, and keep it for us."""
    app.evaluate("""() => { window.lost = ""; const read = new TextDecoder();
      const keep = ({ data }) => { window.lost += typeof data === "string" ? data : read.decode(data); };
      for (const each of window.sockets) each.onmessage = keep; }""")


def lost(app, text):
    """Wait until an answer with this text has come and was lost."""
    app.wait_for_function("text => window.lost.includes(text)", arg=text)


def broken_off(app):
    """Break the connection off and wait until it stands again."""
    app.evaluate("() => { for (const each of window.sockets) each.close(); }")
    app.wait_for_function("window.sockets.length > 1 && window.sockets.at(-1).readyState === 1")


def test_an_answer_that_was_lost_comes_with_the_new_connection(app):
    depth = app.get_by_label("Depth", exact=True)
    deaf(app)
    depth.fill("13 in")
    depth.press("Enter")
    lost(app, "13 in")
    expect(app.locator(".rig-sentence")).to_contain_text("10 in deep")
    broken_off(app)
    expect(app.locator(".rig-sentence")).to_contain_text("13 in")
    drawn = app.locator(".rig-plot").first
    drawn.scroll_into_view_if_needed()
    expect(drawn).to_have_attribute("data-drawn", "1")
    depth.fill("14 in")
    depth.press("Enter")
    expect(app.locator(".rig-sentence")).to_contain_text("14 in")


def test_what_a_button_changed_comes_with_the_new_connection(app):
    deaf(app)
    app.get_by_role("button", name="cm, kg, km/h").click()
    lost(app, "cm deep")
    expect(app.locator(".rig-sentence")).to_contain_text("10 in deep")
    broken_off(app)
    expect(app.locator(".rig-sentence")).to_contain_text("cm deep")
    expect(app.get_by_label("Depth", exact=True)).to_have_value("25.4 cm")


def test_an_entry_that_never_arrived_is_sent_again(app):
    app.evaluate("() => { const last = window.sockets.at(-1); last.send = () => { delete last.send; last.close(); }; }")
    depth = app.get_by_label("Depth", exact=True)
    depth.fill("13 in")
    depth.press("Enter")
    expect(app.locator(".rig-sentence")).to_contain_text("13 in", timeout=15_000)
    expect(app.locator("#rig-banner")).not_to_be_visible()


def test_entries_made_without_a_connection_come_when_it_stands(app, context):
    context.set_offline(True)
    app.evaluate("() => { for (const each of window.sockets) each.close(); }")
    depth = app.get_by_label("Depth", exact=True)
    for text in ("13 in", "14 in", "15 in"):
        depth.fill(text)
        depth.press("Enter")
    # The page has tried to connect again, in vain.
    app.wait_for_function("window.sockets.length > 1 && window.sockets.at(-1).readyState === WebSocket.CLOSED")
    context.set_offline(False)
    expect(app.locator(".rig-sentence")).to_contain_text("15 in", timeout=30_000)
