"""The docs site in a browser: no fault for axe by day and by night, nothing cut on a phone, and search from a disk."""

import functools
import threading
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer

import pytest
from playwright.sync_api import expect

PAGES = ("index", "docs/equations", "docs/ballast", "apps/lessons/slip", "search")


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *said):
        pass


@pytest.fixture(scope="module")
def address(site):
    server = ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=site))
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    thread.join()
    server.server_close()


@pytest.mark.parametrize("name", PAGES)
def test_axe_finds_nothing_by_day_and_by_night(page, address, violations, name):
    page.goto(f"{address}/{name}.html")
    # Axe takes minutes over the formulas of the whole book, which are alike: the first two stand for them.
    rest = "#the-book-of-equations > section ~ section, #balance > section ~ section ~ section"
    page.evaluate("rest => document.querySelectorAll(rest).forEach(each => each.remove())", rest)
    papers = []
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        papers.append(page.evaluate("getComputedStyle(document.body).backgroundColor"))
        assert violations(page) == []
    assert papers[0] != papers[1]


@pytest.mark.parametrize("name", PAGES)
def test_nothing_is_cut_on_a_phone(page, address, name):
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto(f"{address}/{name}.html")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_search_from_a_disk_finds_a_page(page, site):
    page.goto(f"{(site / 'index.html').as_uri()}")
    page.get_by_role("textbox", name="Search").fill("tractive efficiency")
    page.keyboard.press("Enter")
    found = page.locator("#search-results li a")
    expect(found.first).to_be_visible()
    assert any("equations.html" in (link.get_attribute("href") or "") for link in found.all())
    assert not any(".py.html" in (link.get_attribute("href") or "") for link in found.all())
