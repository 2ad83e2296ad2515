"""The framework in a real browser, with a very small app: every kind of control, faults, links, life and death."""

import os
import re
import signal
import subprocess

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.usefixtures("watched")


@pytest.fixture
def tiny(watched, page, tiny_server):
    page.goto(f"{tiny_server.url}app/tiny")
    expect(page.locator(".rig-sentence")).to_be_visible()
    return page


def sentence(page):
    return page.locator(".rig-sentence, .rig-answer .rig-word").last


def kernel_pid(page, server):
    """Process id of the kernel behind a page."""
    name = page.evaluate("JSON.parse(document.getElementById('jupyter-config-data').textContent).kernelId")
    out = subprocess.run(["ps", "-ww", "-o", "pid=,args=", "--ppid", str(server.process.pid)], capture_output=True, text=True)
    return next(int(line.split()[0]) for line in out.stdout.splitlines() if name in line)


def test_typed_fields_sliders_and_steps_move_the_answer_and_the_picture(tiny):
    expect(sentence(tiny)).to_have_text("trial: 45.42 kN")
    plot = tiny.locator(".rig-plot[data-drawn]")
    expect(plot).to_be_visible()
    tiny.get_by_label("Depth", exact=True).fill("0.4 m")
    tiny.get_by_label("Depth", exact=True).press("Enter")
    expect(sentence(tiny)).to_have_text("trial: 89.41 kN")
    expect(tiny.locator("[data-path=depth] .rig-also")).to_have_text("= 15.75 in")
    drawn = plot.get_attribute("data-drawn")
    tiny.get_by_label("Speed, slider").focus()
    tiny.keyboard.press("ArrowRight")
    expect(tiny.get_by_label("Speed", exact=True)).to_have_value("5.25 mph")
    expect(sentence(tiny)).to_have_text("trial: 93.88 kN")
    expect(plot).not_to_have_attribute("data-drawn", drawn)
    tiny.get_by_role("button", name="Speed: less").click()
    expect(sentence(tiny)).to_have_text("trial: 89.41 kN")
    tiny.get_by_role("button", name="Undo").click()
    expect(sentence(tiny)).to_have_text("trial: 93.88 kN")


def test_a_fast_drag_ends_on_the_last_value(tiny):
    slider = tiny.get_by_label("Depth, slider")
    box = slider.bounding_box()
    tiny.mouse.move(box["x"] + box["width"] * 0.35, box["y"] + box["height"] / 2)
    tiny.mouse.down()
    tiny.mouse.move(box["x"] + box["width"] - 1, box["y"] + box["height"] / 2, steps=40)
    tiny.mouse.up()
    expect(tiny.get_by_label("Depth", exact=True)).to_have_value("20.0 in")
    expect(sentence(tiny)).to_have_text("trial: 113.55 kN")
    tiny.get_by_role("button", name="Undo").click()
    expect(sentence(tiny)).to_have_text("trial: 45.42 kN")


def test_units_switch_there_and_back_without_losing_a_digit(tiny):
    depth = tiny.get_by_label("Depth", exact=True)
    tiny.get_by_role("button", name="cm, kg, km/h").click()
    expect(depth).to_have_value("20.32 cm")
    expect(tiny.locator("[data-path=depth] .rig-also")).to_have_text("typed: 8 in")
    tiny.get_by_role("button", name="in, lb, mph").click()
    expect(depth).to_have_value("8 in")
    expect(sentence(tiny)).to_have_text("trial: 45.42 kN")


def test_faults_are_said_in_words_and_give_no_number(tiny):
    tiny.get_by_label("Depth", exact=True).fill("14 furlongs")
    tiny.get_by_label("Depth", exact=True).press("Enter")
    alert = tiny.get_by_role("alert").filter(has_text="furlongs")
    expect(alert).to_be_visible()
    expect(sentence(tiny)).to_have_text("No answer")
    expect(tiny.get_by_label("Depth", exact=True)).to_have_attribute("aria-invalid", "true")
    tiny.get_by_label("Depth", exact=True).fill("14")
    tiny.get_by_label("Depth", exact=True).press("Enter")
    expect(tiny.get_by_label("Depth", exact=True)).to_have_value("14 in")
    expect(alert).to_have_count(0)
    expect(sentence(tiny)).to_have_text("trial: 79.48 kN")
    tiny.get_by_label("Depth", exact=True).fill("40 in")
    tiny.get_by_label("Depth", exact=True).press("Enter")
    expect(tiny.locator("[data-path=depth] .rig-mark")).to_contain_text("2 to 20 in")


def test_an_error_in_the_program_is_said_too(tiny):
    name = tiny.get_by_label("Name")
    name.fill("break it")
    name.press("Tab")
    expect(tiny.get_by_role("alert").filter(has_text="broken on purpose")).to_be_visible()
    expect(tiny.get_by_text("Traceback")).to_have_count(0)
    name.fill("mended")
    name.press("Tab")
    expect(sentence(tiny)).to_have_text("mended: 45.42 kN")


@pytest.mark.parametrize(
    "hostile",
    [
        "<script>document.title='taken'</script>",
        '"><img src=x onerror="document.title=\'taken\'">',
        "$x$ `a` 🚜 ' & <b>",
        "x" * 2000,
    ],
)
def test_hostile_text_is_shown_as_text(tiny, hostile):
    name = tiny.get_by_label("Name")
    name.fill(hostile)
    name.press("Tab")
    expect(sentence(tiny)).to_have_text(f"{hostile}: 45.42 kN")
    assert "taken" not in tiny.title()
    assert tiny.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def test_a_tap_sets_the_point(tiny):
    plot = tiny.locator(".rig-plot[data-drawn]")
    expect(plot).to_be_visible()
    where = tiny.evaluate(
        """() => { const p = document.querySelector('.rig-plot'), f = p._fullLayout, b = p.getBoundingClientRect();
        return [b.left + f._size.l + f.xaxis.d2p(3), b.top + f._size.t + f.yaxis.d2p(0.4)]; }"""
    )
    tiny.mouse.click(*where)
    expect(sentence(tiny)).to_have_text(re.compile(r"trial: 1(19|20|21)\.\d\d kN"))


def test_a_link_starts_the_app_and_the_address_keeps_the_entries(page, tiny_server):
    page.goto(f"{tiny_server.url}app/tiny?depth=14in&speed=5.5+mph&units=si&colour=red")
    expect(page.get_by_label("Depth", exact=True)).to_have_value("35.56 cm")
    expect(page.get_by_role("alert").filter(has_text="colour")).to_be_visible()
    page.get_by_label("Depth", exact=True).fill("30 cm")
    page.get_by_label("Depth", exact=True).press("Enter")
    expect(page).to_have_url(re.compile(r"depth=30\+cm&speed=5\.5\+mph&units=si"))
    page.reload()
    expect(page.get_by_label("Depth", exact=True)).to_have_value("30 cm")


def test_files_are_saved_and_opened_and_bad_ones_refused(tiny, tmp_path):
    tiny.get_by_label("Depth", exact=True).fill("10 in")
    tiny.get_by_label("Depth", exact=True).press("Enter")
    expect(sentence(tiny)).to_have_text("trial: 56.77 kN")
    tiny.locator("summary", has_text="File and screen").click()
    with tiny.expect_download() as saved:
        tiny.get_by_role("button", name="Save", exact=True).click()
    kept = tmp_path / "kept.toml"
    saved.value.save_as(kept)
    assert 'depth = "10 in"' in kept.read_text()
    bad, big = tmp_path / "..bad.toml", tmp_path / "big.toml"
    bad.write_bytes(bytes(range(256)))
    big.write_bytes(b"#" * 50_000_000)
    opener = tiny.get_by_label("Open a file")
    opener.set_input_files(bad)
    expect(tiny.get_by_role("alert").filter(has_text="isn't TOML")).to_be_visible()
    opener.set_input_files(big)
    expect(tiny.get_by_role("alert").filter(has_text="50.0 MB")).to_be_visible()
    expect(sentence(tiny)).to_have_text("trial: 56.77 kN")
    tiny.get_by_role("button", name="Undo").click()
    expect(sentence(tiny)).to_have_text("trial: 45.42 kN")
    opener.set_input_files(kept)
    expect(sentence(tiny)).to_have_text("trial: 56.77 kN")


def test_two_people_at_once_don_t_see_each_other(tiny, browser, tiny_server):
    other = browser.new_context().new_page()
    other.goto(f"{tiny_server.url}app/tiny")
    expect(other.locator(".rig-sentence")).to_be_visible()
    tiny.get_by_label("Depth", exact=True).fill("10 in")
    tiny.get_by_label("Depth", exact=True).press("Enter")
    expect(sentence(tiny)).to_have_text("trial: 56.77 kN")
    other.get_by_role("button", name="Speed: more").click()
    expect(sentence(other)).to_have_text("trial: 47.69 kN")
    expect(other.get_by_label("Depth", exact=True)).to_have_value("8 in")
    other.context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [(1280, 800), (390, 844)])
def test_nothing_for_axe_to_find(tiny, violations, scheme, size):
    tiny.set_viewport_size({"width": size[0], "height": size[1]})
    tiny.locator("summary", has_text="File and screen").click()
    tiny.get_by_role("button", name=scheme.capitalize()).click()
    assert tiny.evaluate("document.documentElement.dataset.theme") == scheme
    assert violations(tiny) == []
    assert tiny.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


@pytest.mark.parametrize("path", ["", "nowhere", "app/nothing", "voila/tree", "voila/files/tiny.ipynb", "app/../../etc/passwd"])
def test_plain_pages_are_in_order_and_show_no_file(page, tiny_server, violations, path):
    answer = page.goto(f"{tiny_server.url}{path}")
    assert answer.status == (200 if not path else 404)
    expect(page.get_by_role("heading", level=1)).to_have_count(1)
    assert violations(page) == []


def test_a_killed_calculation_is_said_and_starts_again_with_the_same_entries(tiny, tiny_server):
    tiny.get_by_label("Depth", exact=True).fill("10 in")
    tiny.get_by_label("Depth", exact=True).press("Enter")
    expect(sentence(tiny)).to_have_text("trial: 56.77 kN")
    os.kill(kernel_pid(tiny, tiny_server), signal.SIGKILL)
    banner = tiny.locator("#rig-banner")
    expect(banner).to_contain_text("stopped unexpectedly", timeout=15_000)
    banner.get_by_role("button").click()
    expect(banner).to_have_count(0)
    expect(sentence(tiny)).to_have_text("trial: 56.77 kN")


def test_a_foreign_host_name_is_refused(page, tiny_server):
    page.goto(tiny_server.url)
    answer = page.request.get(tiny_server.url, headers={"Host": "evil.example:80"})
    assert answer.status == 403
