"""The comparing app in a real browser, as a person uses it."""

import re

import pytest
from known_rigs import known_rig, known_text
from playwright.sync_api import expect
from served import Served

from rigcalc.models import demo_rig, rig_text
from rigcalc.models.compare import compare
from rigcalc.models.compare.alike import alike
from rigcalc.words import in_words
from rigcalc.words.numbers import capital

pytestmark = pytest.mark.usefixtures("watched")
expect.set_options(timeout=15_000)  # a machine that does other things as well may take longer than playwright's 5 s
ONE, TWO = "front_wheel_assist", "articulated"


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    found = Served(None, tmp_path_factory.mktemp("served") / "compare.log", pool=1)
    yield found
    found.stop()


@pytest.fixture
def app(page, server):
    page.goto(f"{server.url}app/rig?page=compare")
    expect(here(page).locator(".rig-each h3")).to_have_count(2)
    return page


def here(page):
    """Give the page in sight; those that were left stay beside it."""
    return page.locator(".rig-app:not(.rig-away)")


def unfold(page, title):
    here(page).locator("summary", has_text=re.compile(f"^{re.escape(title)}")).first.click()


def fits(page):
    return page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def sentence(rigs, names=None, units="us"):
    said = in_words(compare(rigs, names or [rig.tractor.name for rig in rigs]), units).said
    return capital(f"{said.word}: {said.headline}")


def test_the_start_page_leads_to_it_and_it_says_what_the_models_say(page, server):
    page.goto(server.url)
    page.get_by_role("link", name=re.compile("This one or that one")).click()
    one, two = demo_rig(ONE), demo_rig(TWO)
    expect(here(page).locator(".rig-sentence")).to_have_text(sentence([one, alike(two, one, "work")]))
    here(page).get_by_label("The same for all").select_option("")
    expect(here(page).locator(".rig-sentence")).to_have_text(sentence([one, two]))
    here(page).get_by_role("button", name=f"First: {two.tractor.name}").click()
    here(page).get_by_label("The same for all").select_option("tool")
    expect(here(page).locator(".rig-sentence")).to_have_text(sentence([two, alike(one, two, "tool")]))
    expect(here(page).locator(".rig-each h3")).to_have_text([f"A {two.tractor.name}", f"B {one.tractor.name}"])
    for _ in range(3):
        here(page).get_by_role("button", name="Undo").click()
    expect(here(page).locator(".rig-sentence")).to_have_text(sentence([one, alike(two, one, "work")]))


def test_one_rig_with_other_shanks_by_keyboard_alone_and_the_link_opens_the_same(app, context, server):
    here(app).get_by_role("button", name=f"Remove: {demo_rig(TWO).tractor.name}").press("Enter")
    expect(here(app).locator(".rig-word")).to_have_text("One more")
    vary = here(app).get_by_label("Vary", exact=True)
    vary.focus()
    app.keyboard.type("Shanks")
    app.keyboard.press("Enter")
    values = here(app).get_by_label("Its values").first
    expect(values).to_have_value("8, 9, 10")
    values.focus()
    app.keyboard.press("Control+a")
    app.keyboard.type("7, 9, many, 13")
    app.keyboard.press("Tab")
    expect(here(app).locator(".rig-each h3")).to_have_text(["A 7 shanks", "B 9 shanks", "C 13 shanks", "many shanks"])
    expect(here(app).get_by_role("alert").filter(has_text="many")).to_contain_text("whole number")
    expect(values).to_have_attribute("aria-invalid", "true")
    expect(app).to_have_url(re.compile("values=7%2C\\+9%2C\\+many"))
    other = context.new_page()
    other.goto(app.url)
    expect(here(other).locator(".rig-each h3")).to_have_text(["A 7 shanks", "B 9 shanks", "C 13 shanks", "many shanks"])
    other.close()


def test_files_of_which_one_is_broken_tables_and_a_saved_comparison(app, tmp_path):
    good, broken = tmp_path / "the large one.toml", tmp_path / "broken.toml"
    good.write_text(known_text(), encoding="utf-8")
    broken.write_text(rig_text(known_rig()).replace("depth", "dephth"), encoding="utf-8")
    here(app).get_by_label("Add rig files").set_input_files([good, broken])
    expect(here(app).locator(".rig-each h3")).to_have_text(
        [f"A {demo_rig(ONE).tractor.name}", f"B {demo_rig(TWO).tractor.name}", "C the large one"]
    )
    expect(here(app).get_by_role("alert").filter(has_text="broken")).to_contain_text("dephth")
    for kind in ("CSV", "XLSX"):
        with app.expect_download() as saved:
            here(app).get_by_role("button", name=f"Save as {kind}").click()
        saved.value.save_as(tmp_path / "table")
        assert (tmp_path / "table").stat().st_size > 1000
    with app.expect_download() as saved:
        here(app).get_by_role("button", name="Save", exact=True).click()
    assert saved.value.suggested_filename == "comparison-of-3.toml"
    unfold(app, "File and screen")
    saved.value.save_as(tmp_path / "comparison.toml")
    told = here(app).locator(".rig-sentence").text_content()
    here(app).get_by_role("button", name="Remove: the large one").click()
    expect(here(app).locator(".rig-each h3")).to_have_count(2)
    here(app).get_by_label("Open a file").set_input_files(tmp_path / "comparison.toml")
    expect(here(app).locator(".rig-each h3")).to_have_count(3)
    expect(here(app).locator(".rig-sentence")).to_have_text(told)


def test_the_rig_at_hand_comes_along_from_the_answer_and_goes_back(page, server):
    page.goto(f"{server.url}app/rig?rig=two_track")
    expect(here(page).locator(".rig-sentence")).to_contain_text("16 in")
    page.get_by_role("button", name="Compare", exact=True).click()
    expect(here(page).locator(".rig-each h3")).to_have_text(["A 9 shanks", "B 11 shanks", "C 13 shanks"])
    unfold(page, demo_rig("two_track").tractor.name)
    depth = here(page).get_by_label("Depth", exact=True).last
    depth.fill("13 in")
    depth.press("Enter")
    expect(here(page).locator(".rig-each h3")).to_have_count(3)
    page.get_by_role("button", name="Will it pull?").click()
    expect(here(page).locator(".rig-sentence")).to_contain_text("13 in")


def test_a_card_opens_its_rig_by_itself(app):
    with app.context.expect_page() as opened:
        here(app).get_by_role("link", name=re.compile("Look at it alone")).nth(1).click()
    other = opened.value
    expect(here(other).locator(".rig-sentence")).to_contain_text("16 shanks 10 in deep at 5 mph")
    other.close()


EIGHT = "&".join(f"rig{at + 1}={name}&name{at + 1}=a+long+name+of+a+rig+{at}" for at, name in enumerate([ONE, TWO] * 4))
LOOKS = [{"color_scheme": "light"}, {"color_scheme": "dark"}, {"forced_colors": "active"}]


@pytest.mark.parametrize("look", LOOKS, ids=lambda look: next(iter(look.values())))
@pytest.mark.parametrize("size", [(1280, 800), (390, 844)], ids=["desk", "phone"])
def test_nothing_for_axe_to_find_and_nothing_cut_off(browser, server, page, violations, look, size):
    page.goto(server.url)
    context = browser.new_context(viewport={"width": size[0], "height": size[1]}, **look)
    app = context.new_page()
    app.goto(f"{server.url}app/rig?page=compare&{EIGHT}&4.work.depth=deep&vary=&same=")
    expect(here(app).locator(".rig-each h3")).to_have_count(8)
    for title in ("The same in all", "Each by itself", "a long name of a rig 2", "File and screen"):
        unfold(app, title)
    plots = here(app).locator(".rig-plot")
    expect(plots).to_have_count(2)
    for plot in plots.all():
        plot.scroll_into_view_if_needed()
        expect(plot).to_have_attribute("data-drawn", re.compile(r"\d+"))
    for fold in here(app).locator("summary", has_text="The same as a table").all():
        fold.click()
    expect(here(app).locator("table caption", has_text="How fast each works")).to_be_visible()
    assert violations(app) == []
    assert fits(app)
    app.evaluate("document.documentElement.style.fontSize = '200%'")
    assert fits(app)
    context.close()
