"""Our app and a stock page with the same pictures, each on its own server, and what a browser sees of them.

The stock page is what a competent person would write with the parts as they come: ipywidgets sliders, plotly's
FigureWidgets, served by `voila` with its default settings. It asks the same models the same questions and updates inside
`batch_update`, so that the difference is how the page is put together, not what is calculated.
"""

from __future__ import annotations

import json
import os
import re
import socket
import subprocess
import sys
import time
from contextlib import contextmanager
from pathlib import Path

CHROMIUM = Path("/usr/bin/chromium")
PICTURES = 5

STOCK = """
import ipywidgets
import plotly.graph_objects as go

from rigcalc.models import demo_rig, replaced, size
from rigcalc.widgets.entries import show_number
from rigcalc.words import in_words
from rigcalc.widgets.fields import Number
from rigcalc.views.size.pictures import axle_loads, chance, limits_map, power_flow, slip_curve
from rigcalc.widgets.figure import painted
from rigcalc.views.rig.fields import groups, setting
from rigcalc.views.rig.model import flat
from rigcalc.views.size.model import SizeModel

PICTURES = (limits_map, power_flow, slip_curve, axle_loads, chance)
rig = demo_rig()
inputs = flat(rig)
sliders, boxes = {}, []
for section in (*setting(), *groups()):
    members = []
    for field in section.fields:
        if not isinstance(field, Number):
            continue
        scale, look = field.scale("us"), show_number(field, inputs.get(field.path, ""), "us", "us")
        if look.number is None:  # not given for this rig: a plain slider can't say so
            continue
        low, high = min(scale.low, look.number), max(scale.high, look.number)
        sliders[field.path] = ipywidgets.FloatSlider(
            value=look.number, min=low, max=high, step=scale.step, description=f"{field.label}, {scale.unit}"
        )
        members.append(sliders[field.path])
    boxes.append(ipywidgets.VBox(members))
units = {field.path: field.scale("us").unit for s in (*setting(), *groups()) for field in s.fields if isinstance(field, Number)}
said = ipywidgets.HTML()
said.add_class("stock-sentence")
answer = in_words(size(rig), "us")
said.value = str(answer)
figures = [go.FigureWidget(painted({k: v for k, v in each.describe(answer).items() if k != "ground"})) for each in PICTURES]


def redraw(change):
    path = next(path for path, slider in sliders.items() if slider is change["owner"])
    number = sliders[path].value
    changes[path] = f"{number:g} {units[path]}".strip() if units[path] else int(number)
    answer = in_words(size(replaced(rig, changes)), "us")
    said.value = str(answer)
    for figure, each in zip(figures, PICTURES):
        spec = painted(each.describe(answer))
        with figure.batch_update():
            for trace, new in zip(figure.data, spec["data"]):
                trace.update({key: value for key, value in new.items() if key in ("x", "y", "z", "base", "text")})
            figure.layout.shapes = spec["layout"].get("shapes", ())
            figure.layout.annotations = spec["layout"].get("annotations", ())


changes = {}
for slider in sliders.values():
    slider.observe(redraw, names="value")
folds = ipywidgets.Accordion(boxes[1:], titles=[section.title for section in groups()])
ipywidgets.VBox([said, boxes[0], folds, *figures])
"""

# Counts what comes over websockets, and how many ended, inside the page:
# asking the browser's debugger to pass every frame on would slow it.
COUNTER = """(() => {
  window.heard = window.ended = 0;
  const Plain = window.WebSocket;
  window.WebSocket = class extends Plain {
    constructor(...all) {
      super(...all);
      this.addEventListener('close', () => { window.ended += 1; });
      this.addEventListener('message', ({ data }) => {
        window.heard += typeof data === 'string' ? new TextEncoder().encode(data).length : data.byteLength ?? data.size;
      });
    }
  };
})()"""

# move(i) takes the depth half an inch further, 10 in to 16 in and back again, alike on both pages; sentence() is the answer.
MOVERS = {
    "ours": """
      window.move = (i) => {
        const slider = document.querySelector('[data-path="work.depth"] .rig-slider'), at = i % 24;
        slider.value = String(10 + 0.5 * (at < 12 ? at + 1 : 23 - at));
        slider.dispatchEvent(new Event('input', { bubbles: true }));
      };
      window.sentence = () => document.querySelector('.rig-sentence').textContent;""",
    "stock": """
      window.move = (i) => document.querySelector('.noUi-handle').dispatchEvent(
        new KeyboardEvent('keydown', { key: i % 24 < 12 ? 'ArrowRight' : 'ArrowLeft', bubbles: true }));
      window.sentence = () => document.querySelector('.stock-sentence').textContent;""",
}
FIRST_SLIDER = {"ours": '[data-path="work.depth"] .rig-slider', "stock": ".noUi-handle"}

# Milliseconds from each move until the last picture was redrawn and the sentence had changed, one move after the other;
# null, and no more moves, when nothing changed in ten seconds.
DRIVE = """async ({ first, count, pause }) => {
  let last = 0;
  const mark = () => { last = performance.now(); };
  for (const plot of document.querySelectorAll('.js-plotly-plot')) plot.on('plotly_afterplot', mark);
  const watcher = new MutationObserver(mark);
  const answer = document.querySelector('.rig-answer, .stock-sentence');
  watcher.observe(answer, { childList: true, subtree: true, characterData: true });
  const wait = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
  const times = [];
  for (let i = first; i < first + count; i++) {
    const before = window.sentence(), from = performance.now();
    last = 0;
    window.move(i);
    while (performance.now() - from < 10000) {
      await wait(25);
      if (window.sentence() !== before && last && performance.now() - last > pause) break;
    }
    if (window.sentence() === before) { times.push(null); break; }
    times.push(last - from);
  }
  watcher.disconnect();
  return times;
}"""


class Server:
    """A server process on a free port of this computer, with what it prints kept for the error message."""

    def __init__(self, kind: str, folder: Path, pool: int = 1):
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        self.kind, self.log = kind, folder / f"{kind}.log"
        if kind == "ours":
            code = f"from rigcalc.views.serving.serve import serve; serve(port={port}, open_browser=False, pool={pool})"
            call, ready, path = [sys.executable, "-c", code], "is open at", "app/rig"
        else:
            write_stock(folder / "stock.ipynb")
            call = [sys.executable, "-m", "voila", "stock.ipynb", "--no-browser", f"--port={port}"]
            ready, path = "is running at", ""
        self.url = f"http://localhost:{port}/{path}"
        # Nobody's own settings of Jupyter, so that the defaults are the defaults.
        env = {**os.environ, "JUPYTER_CONFIG_DIR": str(folder / "config"), "JUPYTER_PLATFORM_DIRS": "1"}
        with self.log.open("w") as out:
            self.process = subprocess.Popen(call, cwd=folder, env=env, stdout=out, stderr=subprocess.STDOUT)
        end = time.monotonic() + 60
        while ready not in self.log.read_text():
            if self.process.poll() is not None or time.monotonic() > end:
                self.stop()
                raise RuntimeError(self.log.read_text())
            time.sleep(0.05)

    def kernels(self) -> list:
        """Give the kernel processes of this server."""
        import psutil

        children = psutil.Process(self.process.pid).children(recursive=True)
        return [child for child in children if re.search(r"kernel-[0-9a-f-]+\.json", " ".join(child.cmdline()))]

    def settled(self, limit: float = 20) -> None:
        """Wait until no kernel of this server works, such as one that is made ready for the next visitor."""
        end, before = time.monotonic() + limit, None
        while time.monotonic() < end:
            now = {kernel.pid: sum(kernel.cpu_times()[:2]) for kernel in self.kernels()}
            busy = before is None or any(spent - before.get(pid, -1) > 0.05 for pid, spent in now.items())
            if not busy:
                return
            before = now
            time.sleep(0.7)

    def memory_of(self, kernel_id: str) -> float:
        """Give the resident memory of one kernel in MB."""
        (one,) = [kernel for kernel in self.kernels() if f"kernel-{kernel_id}" in " ".join(kernel.cmdline())]
        return one.memory_info().rss / 1e6

    def stop(self) -> None:
        """Stop the server and with it its kernels."""
        if self.process.poll() is None:
            self.process.terminate()
            self.process.wait(30)


def write_stock(path: Path) -> None:
    """Write the stock page as a notebook of one cell."""
    cell = {"cell_type": "code", "id": "cell-0", "execution_count": None, "metadata": {}, "outputs": [], "source": STOCK}
    about = {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}}
    path.write_text(json.dumps({"cells": [cell], "metadata": about, "nbformat": 4, "nbformat_minor": 5}), encoding="utf-8")


@contextmanager
def opened(browser, kind: str, height: int = 800):
    """Open an empty page that counts its websocket bytes and can reach this computer alone."""
    context = browser.new_context(viewport={"width": 1280, "height": height})
    context.set_default_timeout(90_000)
    context.add_init_script(COUNTER + ";" + MOVERS[kind])
    # The stock page asks for two style sheets outside; they are refused at once, which is the fastest they can be.
    context.route(re.compile(r"^https?://(?!localhost)"), lambda route: route.abort())
    try:
        yield context.new_page()
    finally:
        context.close()


def answers(page, first: int = 0) -> None:
    """Move the depth and wait for another answer in words: only then is a page interactive."""
    before = page.evaluate("window.sentence()")
    page.evaluate(f"window.move({first})")
    page.wait_for_function("before => window.sentence() !== before", arg=before)


def load(page, server: Server) -> dict[str, float]:
    """Give seconds from a cold cache to the first changed answer and to all five pictures, and the bytes that came.

    The page is so tall that every picture is in sight: ours draws only those.
    """
    from_ = time.monotonic()
    page.goto(server.url, wait_until="commit")
    page.wait_for_selector(FIRST_SLIDER[server.kind], state="attached")
    page.wait_for_function("window.sentence() !== ''")
    answers(page)
    interactive = time.monotonic() - from_
    page.wait_for_function(f"document.querySelectorAll('.js-plotly-plot .infolayer').length >= {PICTURES}")
    drawn = time.monotonic() - from_
    heard = -1
    while heard != (heard := page.evaluate("window.heard")):
        page.wait_for_timeout(700)
    http = page.evaluate("performance.getEntriesByType('resource').reduce((sum, each) => sum + each.transferSize, 0)")
    return {"interactive": interactive, "drawn": drawn, "heard": heard, "http": http}


def drive(page, first: int, count: int, pause: int = 150) -> list[float]:
    """Move the depth `count` times; give the milliseconds of each until all was redrawn."""
    times = page.evaluate(DRIVE, {"first": first, "count": count, "pause": pause})
    assert None not in times, f"a move was not answered: {times}; {page.evaluate('window.sentence()')}"
    return times


def memory_behind(page, server: Server) -> float:
    """Give the resident memory of the kernel that calculates for a page, MB."""
    kernel = page.evaluate("JSON.parse(document.getElementById('jupyter-config-data').textContent).kernelId")
    return server.memory_of(kernel)


def many(browser, server: Server, count: int, most: float, at_once: int = 4, moving: int = 5) -> dict:
    """Open `count` sessions, `at_once` arriving together; move them, `moving` together; ask each its own question.

    Gives seconds of each arrival; milliseconds of each redraw, in rounds of five moves of each session: another round
    where 95 in 100 take `most` or longer; what is known of each session that was lost; the memory of each kernel, MB.
    """
    contexts, pages, arrivals, lost = [], [], [], []
    try:
        for start in range(0, count, at_once):
            group = []
            from_ = time.monotonic()
            for _ in range(start, min(start + at_once, count)):
                context = browser.new_context(viewport={"width": 1280, "height": 1150})
                contexts.append(context)
                context.set_default_timeout(120_000)
                context.add_init_script(COUNTER + ";" + MOVERS["ours"])
                page = context.new_page()
                page.goto(server.url, wait_until="commit")
                group.append(page)
            for page in group:
                page.wait_for_selector("#rendered_cells .rig-sentence")
                answers(page)
                arrivals.append(time.monotonic() - from_)
                # The pictures of limits, power and slip stand in sight beside the sliders, as on a screen turned upright.
                page.locator(".rig-plot").first.scroll_into_view_if_needed()
                page.wait_for_selector(".rig-plot[data-drawn]")
            pages += group
        rounds = []
        while not lost and (not rounds or (p95(rounds[-1]) >= most and len(rounds) < 3)):
            rounds.append([])
            for start in range(0, count, moving):
                group = pages[start : start + moving]
                for page in group:
                    how = {"first": 1 + 5 * len(rounds), "count": 5, "pause": 150}
                    page.evaluate(f"(how) => {{ window.run = ({DRIVE})(how); }}", how)
                for page in group:
                    times = page.evaluate("window.run")
                    rounds[-1] += [each for each in times if each is not None]
                    if None in times:
                        lost.append(f"session {pages.index(page)}, move {len(times)}: {state_of(page, server)}")
        # Each answers its own question still.
        for index, page in enumerate(pages):
            field = page.get_by_label("Depth", exact=True)
            field.fill(own_depth(index))
            field.press("Enter")
        for index, page in enumerate(pages):
            end = time.monotonic() + 20
            while f" {own_depth(index)} deep" not in page.evaluate("window.sentence()"):
                if time.monotonic() > end:
                    lost.append(f"session {index}, asked {own_depth(index)}: {state_of(page, server)}")
                    break
                page.wait_for_timeout(50)
        memory = [kernel.memory_info().rss / 1e6 for kernel in server.kernels()]
    finally:
        for context in contexts:
            context.close()
    return {"arrivals": arrivals, "rounds": rounds, "lost": lost, "memory": memory}


def p95(times: list[float]) -> float:
    """Give what 95 in 100 stay under."""
    return sorted(times)[int(0.95 * (len(times) - 1))]


def state_of(page, server: Server) -> str:
    """Say what is known of a session that gives no answer."""
    kernel = page.evaluate("JSON.parse(document.getElementById('jupyter-config-data').textContent).kernelId")
    alive = any(f"kernel-{kernel}" in " ".join(each.cmdline()) for each in server.kernels())
    banner = page.evaluate("document.getElementById('rig-banner')?.textContent ?? ''")
    says, ended = page.evaluate("[window.sentence(), window.ended]")
    return f"kernel {'alive' if alive else 'gone'}, {ended} connections ended, banner {banner!r}, says {says!r}"


def own_depth(index: int) -> str:
    """Give a depth that no other of forty sessions has."""
    return f"{4 + 0.1 * index:.1f} in".replace(".0 in", " in")
