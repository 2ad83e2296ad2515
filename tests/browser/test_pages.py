"""One rig on several pages, in a real browser: from nothing to a verdict on a phone, from page to page, by keyboard."""

import re
from contextlib import suppress

import pytest
from playwright.sync_api import TimeoutError, expect
from served import Served

from rigcalc.views.pages import PAGES


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    made = Served(None, tmp_path_factory.mktemp("served") / "pages.log", pool=1)
    yield made
    made.stop()


def in_sight(page):
    return page.locator(".rig-app:not(.rig-away)")


def opened(page, server, query=""):
    page.goto(f"{server.url}app/rig{query}")
    expect(page.locator("body")).to_have_attribute("data-ready", "yes", timeout=60_000)
    return in_sight(page)


@pytest.fixture
def phone(browser, server):
    made = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    yield made.new_page()
    made.close()


def test_from_nothing_to_a_verdict_in_twelve_taps_and_eight_numbers(phone, server):
    page = phone
    app = opened(page, server, "?page=rig")
    taps = numbers = 0

    def tap(target):
        nonlocal taps
        taps += 1
        target.tap()

    def answer(path, text):
        nonlocal numbers
        numbers += 1
        box = app.locator(f"[data-path='{path}'] .rig-typed").first
        box.fill(text)
        box.press("Enter")

    tap(app.get_by_role("button", name="Start from nothing"))
    expect(app.locator(".rig-sentence")).to_contain_text("answers to go")
    tap(app.get_by_role("radio", name="front-wheel assist"))
    answer("tractor.rated_power", "230")
    tap(app.get_by_role("radio", name="PTO"))
    answer("tractor.total_mass", "24500")
    answer("tractor.rear.size", "480/80R46")
    answer("tractor.front.size", "380/85R34")
    tap(app.get_by_role("radio", name="twisted shovel"))
    answer("implement.tools", "9")
    answer("implement.spacing", "15")
    tap(app.get_by_role("radio", name="1 to 2 in"))
    tap(app.get_by_role("radio", name="neither, or both"))
    tap(app.get_by_role("radio", name="firm, stubble"))
    answer("work.depth", "9")
    answer("work.speed", "5")
    tap(app.get_by_role("button", name="Show the whole answer"))
    assert (taps, numbers) == (8, 8)
    expect(in_sight(page).locator(".rig-answer .rig-word")).to_have_text("Go")
    expect(in_sight(page).locator(".rig-named")).to_have_text("230 hp front-wheel assist + 9-shank chisel, clay loam, firm")
    assert page.title().startswith("230 hp front-wheel assist")
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= 390, "nothing hangs over the edge"


def test_the_answer_stands_before_the_scripts_are_there_and_only_where_it_is_the_answer_to_come(page, server):
    page.route("**/voila/static/**", lambda route: route.abort())
    for query in ("?page=answer", ""):  # the first is how the list of pages leads to it
        page.goto(f"{server.url}app/rig{query}", wait_until="commit")
        expect(page.locator(".rig-early .rig-sentence")).to_contain_text("it pulls")
    expect(page.locator("#loading")).to_contain_text("come next")
    for query in ("?work.depth=14+in", "?page=weight"):
        page.goto(f"{server.url}app/rig{query}", wait_until="commit")
        expect(page.locator("#loading")).to_contain_text("Getting ready")
        expect(page.locator(".rig-early")).to_have_count(0)
    page.unroute("**/voila/static/**")
    opened(page, server)
    expect(page.locator(".rig-early")).to_have_count(0)
    expect(page.locator(".rig-sentence")).to_be_visible()


def test_a_swipe_over_the_page_changes_no_entry(phone, server):
    page = phone
    app = opened(page, server)
    before = app.locator(".rig-typed").evaluate_all("boxes => boxes.map((box) => box.value)")
    touch = page.context.new_cdp_session(page)
    sliders = app.locator(".rig-slider:visible")
    assert sliders.count() == 3
    for place in range(3):
        slider = sliders.nth(place)
        slider.scroll_into_view_if_needed()
        page.evaluate("window.scrollBy(0, 250)")
        for along in (0.15, 0.5, 0.85):
            box = slider.bounding_box()
            x, y = box["x"] + along * box["width"], box["y"] + box["height"] / 2
            touch.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
            for step in range(1, 9):
                point = {"x": x + step, "y": y - 12 * step}
                touch.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [point]})
            touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    expect(page.locator("body")).to_have_attribute("data-ready", "yes")
    assert app.locator(".rig-typed").evaluate_all("boxes => boxes.map((box) => box.value)") == before


def test_a_slider_still_follows_a_thumb_that_moves_across(phone, server):
    page = phone
    app = opened(page, server)
    touch = page.context.new_cdp_session(page)
    slider = app.locator(".rig-slider:visible").first
    slider.scroll_into_view_if_needed()
    page.evaluate("window.scrollBy(0, 250)")
    box = slider.bounding_box()
    x, y = box["x"] + box["width"] * 8 / 22, box["y"] + box["height"] / 2
    touch.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    for step in range(1, 11):
        touch.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [{"x": x + 6 * step, "y": y + 1}]})
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    expect(app.locator("[data-path='work.depth'] .rig-typed").first).not_to_have_value("10 in")
    expect(page).to_have_url(re.compile(r"depth=1\d"))


def test_the_rig_goes_from_page_to_page_and_a_link_opens_the_same(page, server, violations):
    app = opened(page, server, "?depth=9in&units=si")
    page.get_by_role("navigation", name="Pages").get_by_role("button", name="Weight").press("Enter")
    expect(in_sight(page).locator("h1")).to_have_text("Where should the weight go?")
    expect(page.locator("[aria-current=page]")).to_have_text("Weight")
    expect(page.locator("[aria-current=page]")).to_be_focused()
    expect(page).to_have_url(re.compile(r"page=weight.*depth=9in"))
    assert violations(page) == []
    in_sight(page).get_by_role("button", name="Change").press("Enter")
    expect(in_sight(page).locator("h1")).to_have_text("Your rig")
    assert violations(page) == []
    link = page.url
    other = page.context.new_page()
    expect(
        opened(other, server, "?" + link.partition("?")[2]).locator("[data-path='work.depth'] .rig-typed").first
    ).to_have_value("22.86 cm")
    assert other.title() == page.title()
    assert app is not None


def test_printing_draws_every_picture_and_sharing_copies_the_link(page, server):
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    app = opened(page, server)
    page.evaluate(
        "window.print = () => { document.body.dataset.printed = document.querySelectorAll('.rig-plot[data-drawn]').length; }"
    )
    app.get_by_role("button", name="Print").click()
    expect(page.locator("body")).to_have_attribute("data-printed", "5")
    app.get_by_role("button", name="Share").click()
    expect(app.get_by_role("status")).to_have_text("Link copied")
    assert page.evaluate("navigator.clipboard.readText()") == page.url


# What stands beyond the window, a box whose text is cut, and a label under its own box.
CUT = """() => {
  const wide = document.documentElement.clientWidth, found = [];
  if (document.documentElement.scrollWidth > wide) found.push(`the page is ${document.documentElement.scrollWidth} wide`);
  const inside = [...document.querySelectorAll(".rig-app:not(.rig-away) *")].filter((each) => each.checkVisibility());
  for (const each of inside) {
    const holds = each.matches("button, textarea, input:not([type=file], [type=range])");
    if (holds && each.scrollWidth > each.clientWidth + 2) found.push(`cut: ${each.value || each.textContent}`);
    if (!each.matches(".rig-field > label")) continue;
    const words = document.createRange();
    words.selectNodeContents(each);
    const a = words.getBoundingClientRect(), b = each.parentElement.querySelector(".rig-typed, select").getBoundingClientRect();
    const across = a.left < b.right - 1 && b.left < a.right - 1, along = a.top < b.bottom - 1 && b.top < a.bottom - 1;
    if (across && along) found.push(`under its box: ${each.textContent}`);
  }
  return found;
}"""


@pytest.mark.parametrize("name", PAGES)
def test_nothing_is_cut_and_no_label_is_covered_by_its_box(page, server, violations, name):
    app = opened(page, server, "" if name == "answer" else f"?page={name}")
    expect(page.locator(".rig-pages [aria-current]")).to_have_attribute("data-value", name)
    page.evaluate("document.querySelectorAll('.rig-app:not(.rig-away) details').forEach((fold) => { fold.open = true; })")

    def look(*about):
        for width, height in ((390, 844), (1024, 768)):
            page.set_viewport_size({"width": width, "height": height})
            with suppress(TimeoutError):  # pictures follow a new width a moment later
                page.wait_for_function(f"({CUT})().length === 0", timeout=5_000)
            assert page.evaluate(CUT) == [], (*about, width)

    for letters in ("100%", "200%"):
        page.evaluate("(size) => { document.documentElement.style.fontSize = size; }", letters)
        look(letters, "us")
    app.get_by_role("button", name="cm, kg, km/h").press("Enter")
    expect(app.get_by_role("button", name="cm, kg, km/h")).to_have_attribute("aria-pressed", "true")
    look("200%", "si")
    assert violations(page) == []
