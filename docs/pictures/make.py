"""The pictures of the docs, taken of the apps as they are now: `uv run python docs/pictures/make.py`, needs Debian's chromium.

Starts the apps on a free port of this computer, takes pages of them on a desk and a phone, and the setup sheet; writes them
beside this file, cut down to few colours so that the repository stays small.
"""

from __future__ import annotations

import io
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import parse_qsl

HERE = Path(__file__).parent
CHROMIUM = Path("/usr/bin/chromium")
MOST_BYTES = 120_000
PHONE = {"has_touch": True, "is_mobile": True}
# name: (address, heading to scroll to, width, height, what the browser is set to); without a heading what a person sees first
SCREENS: dict[str, tuple[str, str, int, int, dict[str, Any]]] = {
    "desk": ("app/rig", "", 1280, 800, {"color_scheme": "light"}),
    "phone": ("app/rig", "", 390, 844, {"color_scheme": "light", **PHONE}),
    "ballast": ("app/rig?page=weight&job=full", "", 1280, 800, {"color_scheme": "light"}),
    "ground": ("app/rig?page=ground", "", 1280, 800, {"color_scheme": "light"}),
    "season": ("app/rig?page=season", "", 1280, 800, {"color_scheme": "light"}),
    "working": ("app/rig?page=working", "", 1280, 800, {"color_scheme": "light"}),
}


@contextmanager
def running_app(apps: Path | None = None) -> Iterator[str]:
    """Serve the apps, or those of a folder, on a free port while the block runs; give the address."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    folder = f"Path({str(apps)!r})" if apps else "None"
    call = f"serve(port={port}, open_browser=False, apps={folder})"
    code = f"from pathlib import Path; from rigcalc.views.serving.serve import serve; {call}"
    with tempfile.TemporaryFile("w+") as log:
        process = subprocess.Popen([sys.executable, "-c", code], stdout=log, stderr=subprocess.STDOUT)  # noqa: S603
        try:
            end = time.monotonic() + 60
            while not _says(log, "is open at"):
                if process.poll() is not None or time.monotonic() > end:
                    log.seek(0)
                    raise RuntimeError(f"the app does not start: {log.read()}")
                time.sleep(0.1)
            yield f"http://localhost:{port}/"
        finally:
            process.terminate()
            process.wait(20)


def _says(log: Any, words: str) -> bool:
    log.seek(0)
    return words in log.read()


def screens(browser: Any, address: str) -> Iterator[tuple[str, bytes]]:
    """Give (name, PNG) of each screen, once everything in sight is drawn."""
    for name, (path, heading, width, height, set_to) in SCREENS.items():
        with browser.new_context(viewport={"width": width, "height": height}, reduced_motion="reduce", **set_to) as context:
            page = context.new_page()
            page.goto(f"{address}{path}")
            page.locator("body[data-ready=yes] #rendered_cells .rig-sentence").first.wait_for(timeout=60_000)
            wanted = dict(parse_qsl(path.partition("?")[2])).get("page", "answer")
            page.locator(f".rig-pages [aria-current][data-value={wanted}]").wait_for(timeout=60_000)
            if heading:
                # The answer stays on top: the heading belongs just under it.
                page.get_by_role("heading", name=heading).evaluate("(it) => scrollBy(0, it.getBoundingClientRect().top - 120)")
            page.wait_for_function(
                """() => [...document.querySelectorAll('.rig-app:not(.rig-away) .rig-plot')].every((plot) =>
                plot.dataset.drawn || plot.getBoundingClientRect().top > innerHeight)"""
            )
            page.evaluate("document.fonts.ready.then(() => true)")
            page.wait_for_timeout(500)
            yield name, page.screenshot()


def sheet(browser: Any) -> bytes:
    """Give a PNG of the first page of the first demo rig's setup sheet, as a browser shows its HTML."""
    from rigcalc.models import demo_rig, size
    from rigcalc.views.sheet import sheet_html
    from rigcalc.words import in_words

    with browser.new_context(viewport={"width": 820, "height": 400}) as context:
        page = context.new_page()
        page.set_content(sheet_html(in_words(size(demo_rig()), "us")))
        return page.locator("main").first.screenshot()


def small(png: bytes) -> bytes:
    """Cut a picture down to the most colours, at most 128, with which it stays small. Raises ValueError if none does."""
    from PIL import Image

    whole = Image.open(io.BytesIO(png)).convert("RGB")
    for colours in (128, 64, 32, 16):
        out = io.BytesIO()
        # No dithering: it blurs text and makes the file bigger.
        whole.quantize(colours, method=Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE).save(out, "PNG", optimize=True)
        if out.tell() < MOST_BYTES:
            return out.getvalue()
    raise ValueError(f"the picture stays over {MOST_BYTES:,} bytes")


def main() -> None:
    """Take and write every picture."""
    if not CHROMIUM.exists():
        sys.exit("needs chromium: apt-get install -y chromium")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright, running_app() as address:
        browser = playwright.chromium.launch(executable_path=str(CHROMIUM), args=["--no-sandbox", "--disable-dev-shm-usage"])
        for name, png in [*screens(browser, address), ("sheet", sheet(browser))]:
            kept = small(png)
            (HERE / f"{name}.png").write_bytes(kept)
            print(f"{name}.png: {len(kept):,} bytes")  # noqa: T201
        browser.close()


if __name__ == "__main__":
    main()
