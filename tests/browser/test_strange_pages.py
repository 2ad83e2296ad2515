"""Pages of other sites that show, frame or link to ours, in a real browser; and the page that waits for a place."""

import http.server
import threading

import psutil
import pytest
from playwright.sync_api import expect
from served import HERE, Served

pytestmark = pytest.mark.usefixtures("watched")


@pytest.fixture
def server(tmp_path):
    made = Served(HERE / "tiny_apps", tmp_path / "strange.log", pool=0, most=1)
    yield made
    made.stop()


@pytest.fixture
def elsewhere(server):
    """Another site: the same computer under another name and port, with pages about ours."""
    app = f"{server.url}app/tiny"
    pages = {
        "/pictures": "".join(f'<img src="{app}?n={n}">' for n in range(12)) + f'<script src="{app}"></script>',
        "/frame": f'<iframe src="{app}"></iframe><object data="{app}"></object><embed src="{app}">',
        "/link": f'<a href="{app}?depth=14+in">Look</a>',
    }

    class Answers(http.server.BaseHTTPRequestHandler):
        def do_GET(self):
            self.send_response(200)
            self.send_header("Content-Type", "text/html")
            self.end_headers()
            self.wfile.write(f"<!DOCTYPE html><title>elsewhere</title>{pages.get(self.path, '')}".encode())

        def log_message(self, *_):
            pass

    site = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Answers)
    threading.Thread(target=site.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{site.server_address[1]}"
    site.shutdown()
    site.server_close()


def kernels(server):
    children = psutil.Process(server.process.pid).children(recursive=True)
    return [child for child in children if "kernel-" in " ".join(child.cmdline())]


@pytest.mark.parametrize("path", ["/pictures", "/frame"])
def test_a_page_full_of_pictures_of_us_starts_nothing(path, page, server, elsewhere):
    answers = []
    page.on("response", lambda answer: answers.append(answer.status) if str(server.port) in answer.url else None)
    page.goto(elsewhere + path, wait_until="load")
    assert answers
    assert set(answers) == {403}
    assert kernels(server) == []


def test_a_link_on_another_page_asks_first(page, server, elsewhere, violations):
    page.goto(f"{elsewhere}/link")
    page.get_by_role("link", name="Look").click()
    expect(page.get_by_role("heading", name="Open this here?")).to_be_visible()
    assert violations(page) == []
    assert kernels(server) == []
    page.locator(".rig-doors a").click()
    expect(page.locator(".rig-sentence")).to_contain_text("trial: ", timeout=120_000)
    expect(page.get_by_label("Depth", exact=True)).to_have_value("14 in")


def test_who_waits_comes_in_by_himself(page, context, server, violations):
    page.goto(f"{server.url}app/tiny")
    expect(page.locator("body")).to_have_attribute("data-ready", "yes", timeout=120_000)
    second = context.new_page()
    second.goto(f"{server.url}app/tiny?depth=14+in")
    expect(second.get_by_role("heading", name="All places are taken")).to_be_visible()
    assert violations(second) == []
    page.goto(server.url)  # the first one goes
    expect(second.get_by_label("Depth", exact=True)).to_have_value("14 in", timeout=120_000)
