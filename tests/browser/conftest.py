"""A real server, Debian's chromium, and the check that nothing leaves this computer, for every browser test."""

import re
from importlib.resources import files
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from served import Served

CHROMIUM = "/usr/bin/chromium"
HERE = Path(__file__).parent
# Voila's frontend is built on an older JupyterLab than the one installed beside it and says so; nothing is broken.
KNOWN_CONSOLE = re.compile(r"[Uu]nsatisf|No satisfying version|WebSocket|Failed to load resource|net::ERR")


def pytest_collection_modifyitems(items):
    for item in items:
        if HERE in Path(item.fspath).parents:
            item.add_marker(pytest.mark.browser)
            if not Path(CHROMIUM).exists():
                item.add_marker(pytest.mark.skip(reason="missing: chromium; apt-get install -y chromium"))


@pytest.fixture(scope="session")
def browser():
    """Debian's chromium; the one that playwright would download is not needed."""
    from playwright.sync_api import expect, sync_playwright

    expect.set_options(timeout=15_000)  # a busy machine takes its time over sympy and plotly
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox", "--disable-dev-shm-usage"])
        yield launched
        launched.close()


@pytest.fixture
def context(browser):
    made = browser.new_context(viewport={"width": 1280, "height": 800})
    yield made
    made.close()


@pytest.fixture
def page(context, watched):
    return context.new_page()


@pytest.fixture(scope="session")
def tiny_server(tmp_path_factory):
    server = Served(HERE / "tiny_apps", tmp_path_factory.mktemp("served") / "tiny.log", pool=2)
    yield server
    server.stop()


@pytest.fixture
def watched(context):
    """Collects what the pages ask for and complain about; at the end, nothing may have left this computer."""
    asked, complaints = [], []

    def follow(page):
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on(
            "console",
            lambda m: complaints.append(m.text) if m.type == "error" and not KNOWN_CONSOLE.search(m.text) else None,
        )

    context.on("request", lambda request: asked.append(request.url))
    context.on("page", follow)
    context.set_default_timeout(20_000)
    yield asked
    out = [url for url in asked if urlsplit(url).scheme in ("http", "https", "ws", "wss") and not _local(url)]
    assert not out
    assert not complaints
    assert asked


def _local(url):
    return urlsplit(url).hostname in ("localhost", "127.0.0.1")


@pytest.fixture(scope="session")
def axe():
    """Axe's script, as the package axe-playwright-python ships it."""
    return (files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")


@pytest.fixture
def violations(axe):
    """Gives what axe finds on a page, each as one line."""

    def found(page):
        # By evaluation, not by a script element: the page's own policy would rightly refuse a foreign script.
        page.evaluate(axe)
        result = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
        return [f"{v['id']}: {node['html'][:160]}" for v in result["violations"] for node in v["nodes"]]

    return found
