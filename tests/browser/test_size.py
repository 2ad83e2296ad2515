"""The sizing app in a real browser, as a person uses it."""

import re

import pytest
from playwright.sync_api import expect
from served import Served

from rigcalc.models import demo_rig, read_rig, replaced, size
from rigcalc.words import in_words
from rigcalc.words.numbers import percent, say

pytestmark = pytest.mark.usefixtures("watched")
HOSTILE = "<script>document.title='taken'</script>\"'><img src=x onerror=\"document.title='taken'\"> $x$ `a` 🚜 & "
# where a point of a picture's axes stands on the page
PLACE = """(p, at) => { const f = p._fullLayout, b = p.getBoundingClientRect();
    return [b.left + f._size.l + f.xaxis.d2p(at[0]), b.top + f._size.t + f.yaxis.d2p(at[1])]; }"""


@pytest.fixture(scope="session")
def size_server(tmp_path_factory):
    server = Served(None, tmp_path_factory.mktemp("served") / "size.log", pool=2)
    yield server
    server.stop()


@pytest.fixture
def app(page, size_server):
    page.goto(f"{size_server.url}app/rig")
    expect(page.locator("body")).to_have_attribute("data-ready", "yes", timeout=60_000)
    return page


def fill(page, label, text):
    field = page.get_by_label(label, exact=True)
    field.fill(text)
    field.press("Enter")
    return field


def expected(changes, rig=None, units="us"):
    return in_words(size(replaced(rig or demo_rig(), changes)), units)


def unfold(page, title):
    page.locator("summary", has_text=re.compile(f"^{re.escape(title)}")).first.click()


def middle(locator):
    box = locator.bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def settles(page, what):
    """Wait until it is so: the answer to the last move of a finger comes after the finger has gone."""
    for _ in range(60):
        if what():
            return
        page.wait_for_timeout(100)
    assert what()


def first_words(answer):
    return answer.said.headline


def test_every_entry_moves_the_answer_of_the_models(app):
    sentence = app.locator(".rig-sentence")
    expect(sentence).to_contain_text(first_words(expected({})))
    fill(app, "Depth", "35 cm")
    expect(sentence).to_contain_text(first_words(expected({"work.depth": "35 cm"})))
    app.get_by_label("Speed, slider").focus()
    app.keyboard.press("ArrowRight")
    now = {"work.depth": "35 cm", "work.speed": "5.25 mph"}
    expect(sentence).to_contain_text(first_words(expected(now)))
    app.get_by_role("button", name="Shanks: more").click()
    now["implement.tools"] = 10
    expect(sentence).to_contain_text(first_words(expected(now)))
    unfold(app, "Ground")
    app.get_by_label("Soil texture").select_option("clay")
    now["ground.texture"] = "clay"
    expect(sentence).to_contain_text(first_words(expected(now)))
    expect(app.locator(".rig-drawing svg")).to_contain_text("13.8 in")
    for _ in range(4):
        app.get_by_role("button", name="Undo").click()
    expect(sentence).to_contain_text(first_words(expected({})))


def test_an_impossible_rig_explains_itself_and_a_typo_gives_no_number(app):
    fill(app, "Shanks", "60")
    expect(app.locator(".rig-word")).to_have_text("Don't")
    expect(app.locator(".rig-sentence")).to_contain_text("60 shanks")
    fill(app, "Shanks", "many")
    expect(app.locator(".rig-word")).to_have_text("No answer")
    expect(app.get_by_role("alert").filter(has_text="many")).to_be_visible()
    expect(app.locator(".rig-stale .rig-cards").first).to_be_visible()
    fill(app, "Shanks", "9")
    expect(app.locator(".rig-word")).to_have_text("Go")


def test_units_demo_rigs_and_reverse_answers(app):
    app.get_by_role("button", name="cm, kg, km/h").click()
    expect(app.locator(".rig-sentence")).to_contain_text(first_words(expected({}, units="si")))
    expect(app.get_by_label("Depth", exact=True)).to_have_value("25.4 cm")
    app.get_by_role("button", name="in, lb, mph").click()
    expect(app.get_by_label("Depth", exact=True)).to_have_value("10 in")
    app.get_by_text("File and screen").click()
    app.get_by_label("Look at an example").select_option("two_track")
    expect(app.locator(".rig-sentence")).to_contain_text(first_words(expected({}, demo_rig("two_track"))))
    expect(app).to_have_url(re.compile(r"rig=two_track"))
    unfold(app, "Rear axle")
    expect(app.locator('[data-path="tractor.rear.track_width"]')).to_be_visible()
    expect(app.locator('[data-path="tractor.rear.diameter"]')).to_be_hidden()
    app.locator(".rig-cards li", has_text="Most shanks").get_by_role("button", name="Try it").click()
    most = next(each for each in expected({}, demo_rig("two_track")).answer.reverse if each.question == "most tools")
    expect(app.get_by_label("Shanks", exact=True)).to_have_value(f"{most.value:.0f}")


def test_a_new_running_gear_brings_what_it_needs(app):
    unfold(app, "Rear axle")
    app.locator('[data-path="tractor.rear.kind"] select').select_option("track")
    expect(app.locator('[data-path="tractor.rear.track_width"] .rig-typed')).to_have_value("30 in")
    expect(app.locator(".rig-word")).not_to_have_text("No answer")
    unfold(app, "Front axle")
    app.locator('[data-path="tractor.front.kind"] select').select_option("none")
    expect(app.locator(".rig-word")).not_to_have_text("No answer")


def test_a_tap_on_the_limits_sets_depth_and_speed(app):
    plot = app.locator(".rig-plot").first
    plot.scroll_into_view_if_needed()
    expect(plot).to_have_attribute("data-drawn", re.compile(r"\d+"))
    where = plot.evaluate(PLACE, [4.02, 14.1])
    app.mouse.click(*where)
    expect(app.get_by_label("Depth", exact=True)).to_have_value("14 in")
    expect(app.get_by_label("Speed", exact=True)).to_have_value("4 mph")
    expect(app.locator(".rig-sentence")).to_contain_text("14 in is below")


def test_dragging_the_ring_moves_depth_and_speed_and_is_one_step_to_undo(app):
    plot, ring = app.locator(".rig-plot").first, app.locator(".rig-handle").first
    plot.scroll_into_view_if_needed()
    expect(plot).to_have_attribute("data-drawn", re.compile(r"\d+"))
    start, end = (plot.evaluate(PLACE, at) for at in ([5, 10], [4.02, 14.1]))
    assert middle(ring) == pytest.approx(start, abs=1)
    app.mouse.move(*start)
    app.mouse.down()
    app.mouse.move((start[0] + end[0]) / 2, (start[1] + end[1]) / 2, steps=5)
    expect(app.locator(".rig-sentence")).to_contain_text(re.compile(r"12 in deep at 4\.5 mph"))  # it follows while it is held
    app.mouse.move(*end, steps=5)
    app.mouse.up()
    expect(app.locator(".rig-sentence")).to_contain_text("14 in is below")
    settles(app, lambda: middle(ring) == pytest.approx(plot.evaluate(PLACE, [4, 14]), abs=1))
    app.get_by_role("button", name="Undo").click()
    expect(app.locator(".rig-sentence")).to_contain_text("10 in deep at 5 mph")
    expect(app.get_by_role("button", name="Undo")).to_be_disabled()


def test_a_ring_dragged_off_the_picture_stays_on_its_edge(app):
    plot = app.locator(".rig-plot").first
    plot.scroll_into_view_if_needed()
    expect(plot).to_have_attribute("data-drawn", re.compile(r"\d+"))
    box = app.locator(".rig-handle").first.bounding_box()
    app.mouse.move(box["x"] + 26, box["y"] + 26)
    app.mouse.down()
    app.mouse.move(2, box["y"] + 26, steps=4)
    app.mouse.up()
    expect(app.get_by_label("Speed", exact=True)).to_have_value("2 mph")
    expect(app.get_by_label("Depth", exact=True)).to_have_value("10 in")


def test_a_finger_sets_the_point_and_scrolls_the_page(browser, size_server, page):
    page.goto(size_server.url)
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    phone = context.new_page()
    phone.goto(f"{size_server.url}app/rig")
    plot = phone.locator(".rig-plot").first
    plot.scroll_into_view_if_needed()
    expect(plot).to_have_attribute("data-drawn", re.compile(r"\d+"))
    where = plot.evaluate(PLACE, [4, 8])
    phone.touchscreen.tap(*where)
    expect(phone.locator("[data-path='work.depth'] .rig-typed")).to_have_value("8 in")
    expect(phone.locator("[data-path='work.speed'] .rig-typed")).to_have_value("4 mph")
    assert plot.evaluate("p => getComputedStyle(p).touchAction").startswith("pan-y")
    context.close()


def test_a_finger_drags_the_ring_and_the_picture_stays_under_it(browser, size_server, page):
    page.goto(size_server.url)
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    phone = context.new_page()
    phone.goto(f"{size_server.url}app/rig")
    plot = phone.locator(".rig-plot").first
    plot.scroll_into_view_if_needed()
    expect(plot).to_have_attribute("data-drawn", re.compile(r"\d+"))
    box, end = phone.locator(".rig-handle").first.bounding_box(), plot.evaluate(PLACE, [4, 8])
    start, top = [box["x"] + box["width"] / 2, box["y"] + box["height"] / 2], plot.bounding_box()["y"]
    finger = context.new_cdp_session(phone)
    for step in range(11):
        x, y = (one + (other - one) * step / 10 for one, other in zip(start, end, strict=True))
        touch = {"type": "touchMove" if step else "touchStart", "touchPoints": [{"x": x, "y": y}]}
        finger.send("Input.dispatchTouchEvent", touch)
    finger.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    expect(phone.locator("[data-path='work.depth'] .rig-typed")).to_have_value("8 in")
    expect(phone.locator("[data-path='work.speed'] .rig-typed")).to_have_value("4 mph")
    # The limits above take more or less room as they go from tight to kept: the picture stays under the finger all the same.
    settles(phone, lambda: plot.bounding_box()["y"] == pytest.approx(top, abs=2))
    context.close()


def test_working_numbers_and_twins_open_with_the_right_numbers(app):
    words = expected({})
    answer, first = words.answer, words.working[1]  # the one before it is a row looked up, without a formula
    unfold(app, "How each number is worked out")
    step = app.locator("summary", has_text=f"{first.title}: {first.result}")
    step.click()
    expect(app.locator("math").first).to_be_visible()
    unfold(app, "Every number")
    expect(app.locator("table", has_text="Tractive efficiency")).to_contain_text(percent(answer.point.bare.tractive_efficiency))
    for fold in app.locator("summary", has_text="The same as a table").all():
        fold.click()
    expect(app.locator("table", has_text="Axle loads")).to_contain_text(say(answer.point.bare.front_load, "kN", "us"))
    expect(app.locator("table caption")).to_have_count(6)


def test_a_link_opens_the_rig_that_it_names(page, size_server):
    page.goto(f"{size_server.url}app/rig?rig=front_wheel_assist&depth=9in&speed=4.5mph&shanks=5&units=si")
    rig = demo_rig("front_wheel_assist")
    changes = {"work.depth": "9 in", "work.speed": "4.5 mph", "implement.tools": 5}
    expect(page.locator(".rig-sentence")).to_contain_text(first_words(expected(changes, rig, "si")))
    page.goto(f"{size_server.url}app/rig?rig=../../etc/passwd&depth=<b>")
    expect(page.get_by_role("alert").filter(has_text="front_wheel_assist")).to_be_visible()


def test_the_setup_sheet_holds_the_right_numbers(app, tmp_path):
    fill(app, "Depth", "11 in")
    unfold(app, "On the setup sheet")
    fill(app, "Where", HOSTILE)
    expect(app.locator(".rig-sentence")).to_contain_text("11 in")
    for kind in ("PDF", "HTML"):
        with app.expect_download() as saved:
            app.get_by_role("button", name=f"Save as {kind}").click()
        assert saved.value.suggested_filename.startswith("setup-sheet-212-hp-")
        saved.value.save_as(tmp_path / f"sheet.{kind.lower()}")
    text = (tmp_path / "sheet.html").read_text(encoding="utf-8")
    assert "11 in" in text
    assert "<script>document" not in text
    from pypdf import PdfReader

    pages = PdfReader(tmp_path / "sheet.pdf").pages
    assert len(pages) == 2
    words = " ".join(pages[0].extract_text().split())
    assert "11 in" in words
    assert "5 mph" in words


def test_save_and_load_give_the_same_rig(app, tmp_path):
    fill(app, "Depth", "0.31 m")
    unfold(app, "Season, farm and notes")
    fill(app, "Farm", HOSTILE)
    unfold(app, "File and screen")
    with app.expect_download() as saved:
        app.get_by_role("button", name="Save", exact=True).click()
    kept = tmp_path / "rig.toml"
    saved.value.save_as(kept)
    rig = read_rig(kept.read_text(encoding="utf-8"))
    assert (rig.work.depth.text, rig.farm) == ("0.31 m", HOSTILE)
    app.get_by_label("Look at an example").select_option("two_track")
    expect(app.get_by_label("Depth", exact=True)).to_have_value("16 in")
    app.get_by_label("Open a file").set_input_files(kept)
    expect(app.get_by_label("Farm", exact=True)).to_have_value(HOSTILE)
    expect(app.locator("[data-path='work.depth'] .rig-typed")).to_have_value("12.2 in")
    assert "taken" not in app.title()


@pytest.mark.parametrize("label", ["Depth", "Shanks", "Name of the tractor", "Name of the implement", "Note"])
def test_hostile_text_in_any_field_is_only_text(app, label):
    for title in ("Tractor", "Implement", "Season, farm and notes"):
        unfold(app, title)
    fill(app, label, HOSTILE * 3)
    fill(app, "Speed", "5 mph")
    expect(app.get_by_label("Speed", exact=True)).to_have_value("5 mph")
    expect(app.get_by_label(label, exact=True)).to_have_value(HOSTILE * 3)
    assert app.locator("img[src=x]").count() == 0
    assert "taken" not in app.title()
    assert app.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size_", [(1280, 800), (390, 844), (1024, 768)])
def test_nothing_for_axe_to_find_and_nothing_overflows(app, violations, scheme, size_):
    app.set_viewport_size({"width": size_[0], "height": size_[1]})
    unfold(app, "File and screen")
    app.get_by_role("button", name=scheme.capitalize()).click()
    for title in ("Ground", "How each number", "Every number", "The drawing in words"):
        unfold(app, title)
    app.locator(".rig-plot").first.scroll_into_view_if_needed()
    expect(app.locator(".rig-plot").first).to_have_attribute("data-drawn", re.compile(r"\d+"))
    assert violations(app) == []
    assert app.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def test_the_whole_way_by_keyboard_and_at_twice_the_size(app):
    # 200 percent zoom is a window of half the size.
    app.set_viewport_size({"width": 640, "height": 400})
    depth = app.get_by_label("Depth", exact=True)
    for _ in range(40):
        app.keyboard.press("Tab")
        if depth.evaluate("e => e === document.activeElement"):
            break
    else:
        pytest.fail("the depth can't be reached by keyboard")
    app.keyboard.press("Control+a")
    app.keyboard.type("11 in")
    app.keyboard.press("Enter")
    expect(app.locator(".rig-sentence")).to_contain_text("11 in")
    app.keyboard.press("Tab")
    app.keyboard.press("Tab")
    app.keyboard.press("End")
    expect(depth).to_have_value("24.0 in")
    reached = set()
    for _ in range(60):
        app.keyboard.press("Tab")
        reached.add(app.evaluate("document.activeElement.textContent.slice(0, 40)"))
    assert {"Ground", "Tractor", "Season, farm and notes", "The same as a table"} <= reached
    assert app.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def test_nothing_moves_when_motion_is_unwanted(app):
    app.emulate_media(reduced_motion="reduce")
    moving = app.evaluate("document.getAnimations().length")
    assert moving == 0


def test_a_stopped_server_is_said(watched, page, tmp_path):
    server = Served(None, tmp_path / "stopped.log", pool=1)
    try:
        page.goto(f"{server.url}app/rig")
        expect(page.locator("body")).to_have_attribute("data-ready", "yes", timeout=60_000)
        server.stop()
        expect(page.locator("#rig-banner")).to_contain_text("rigcalc app", timeout=20_000)
    finally:
        server.stop()
