"""The app against the same pictures put together the ordinary way, in the same run on the same machine: ratios, no seconds."""

import re
import socket
import statistics
import subprocess
import sys
import time
from pathlib import Path

import pytest
from conftest import Served

HERE = Path(__file__).parent
# Moves a slider and waits until no picture has been redrawn for a while; gives milliseconds from the move to the last redraw.
DRIVE = """async ([start, count]) => {
  const plots = [...document.querySelectorAll('.js-plotly-plot')];
  let last = 0;
  for (const plot of plots) plot.on('plotly_afterplot', () => { last = performance.now(); });
  const wait = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
  const times = [];
  for (let i = 0; i < count; i++) {
    const from = performance.now();
    last = 0;
    start(i);
    while (performance.now() - from < 4000 && (last === 0 || performance.now() - last < 250)) await wait(5);
    times.push(last - from);
  }
  return [plots.length, times];
}"""
OURS = """(i) => { const s = document.querySelector('[data-path="work.depth"] .rig-slider');
  s.value = String(6 + (i % 16) * 0.5); s.dispatchEvent(new Event('input', { bubbles: true })); }"""
PLAIN = """(i) => { document.querySelector('.noUi-handle').dispatchEvent(
  new KeyboardEvent('keydown', { key: i % 16 < 8 ? 'ArrowLeft' : 'ArrowRight', bubbles: true })); }"""


class Plain:
    """Voila as it comes, on the plain notebook."""

    def __init__(self, log):
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        self.url = f"http://localhost:{port}/"
        call = [sys.executable, "-m", "voila", "stock.ipynb", "--no-browser", f"--port={port}"]
        self.out = log.open("w")
        self.process = subprocess.Popen(call, cwd=HERE / "stock", stdout=self.out, stderr=subprocess.STDOUT)
        end = time.monotonic() + 40
        while "is running at" not in log.read_text():
            if self.process.poll() is not None or time.monotonic() > end:
                raise RuntimeError(log.read_text())
            time.sleep(0.05)

    def stop(self):
        self.process.terminate()
        self.process.wait(20)
        self.out.close()


def visit(browser, url, start, loads=2):
    """Give (seconds to the last picture, bytes over the websocket until then, milliseconds from slider to redraw)."""
    seconds, sizes, times = [], [], []
    for load in range(loads):
        context = browser.new_context(viewport={"width": 1280, "height": 4600})
        # The ordinary page asks for two style sheets outside; here they are refused at once.
        context.route(re.compile(r"^https?://(?!localhost)"), lambda route: route.abort())
        page = context.new_page()
        got = []
        page.on("websocket", lambda ws, got=got: ws.on("framereceived", lambda frame: got.append(len(frame))))
        from_ = time.monotonic()
        page.goto(url)
        page.wait_for_function("document.querySelectorAll('.js-plotly-plot .main-svg').length >= 15", timeout=60_000)
        seconds.append(time.monotonic() - from_)
        sizes.append(sum(got))
        if load == loads - 1:
            page.wait_for_timeout(1500)
            plots, times = page.evaluate(f"([count]) => ({DRIVE})([{start}, count])", [16])
            assert plots == 5
        context.close()
        time.sleep(3)  # the pool fills again, for both alike
    return min(seconds), min(sizes), statistics.median(times[2:])


@pytest.mark.usefixtures("browser")
def test_faster_than_the_ordinary_way(browser, tmp_path, record_property):
    plain, ours = Plain(tmp_path / "plain.log"), None
    try:
        slow = visit(browser, plain.url, PLAIN)
        plain.stop()
        ours = Served(None, tmp_path / "ours.log", pool=1)
        time.sleep(4)  # until the first calculation waits ready
        fast = visit(browser, f"{ours.url}app/size", OURS)
    finally:
        plain.stop()
        if ours:
            ours.stop()
    for name, one, other in zip(("load", "websocket", "redraw"), fast, slow, strict=True):
        record_property(name, f"{one:.4g} against {other:.4g}")
        print(f"{name}: {one:.4g} against {other:.4g}, ratio {one / other:.3f}")
    assert fast[0] <= 0.3 * slow[0]
    assert fast[1] <= 0.05 * slow[1]
    assert fast[2] <= slow[2]
