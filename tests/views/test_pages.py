"""Pages that share one rig, without a browser: what goes along, what stays, what the address says."""

import re

import pytest
from known_rigs import known_text

from rigcalc.core.errors import InputError
from rigcalc.core.tables import table
from rigcalc.models import size
from rigcalc.models.rig.file import rig_from
from rigcalc.views import RigPages
from rigcalc.views.own.app import OwnApp
from rigcalc.views.own.fields import gear_of, texture_of
from rigcalc.views.own.model import OwnModel
from rigcalc.views.rig.model import nested
from rigcalc.words import in_words

FROM_THE_SEAT = {
    **{"own.gear": "MFWD", "tractor.rated_power": "231 hp", "tractor.power_rating": "pto", "tractor.total_mass": "24600 lb"},
    **{"tractor.rear.size": "480/80R46", "tractor.front.size": "380/85R34", "implement.tool": "chisel_twisted"},
    **{"implement.tools": "9", "implement.spacing": "15 in", "own.ribbon": "middle", "own.feel": "neither"},
    **{"ground.surface": "firm", "work.depth": "9 in", "work.speed": "5 mph"},
}


def own(answers=FROM_THE_SEAT):
    model = OwnModel()
    model.clear()
    for path, text in answers.items():
        model.edit({path: text})
    return model


@pytest.mark.slow
def test_a_rig_goes_along_and_comes_back_changed():
    pages = RigPages()
    answer = pages.app.model
    answer.start_from_toml(known_text("front_wheel_assist"))
    answer.edit({"work.depth": "9.5 in"})
    answer.switch_units("si")
    pages.row.act("page", "weight")
    weight = pages.app.model
    assert (weight.faults, weight.inputs["work.depth"], weight.system) == ((), "9.5 in", "si")
    assert weight.rig_shown() == answer.rig_shown()
    assert "page=weight" in pages.page.query
    assert pages.page.title == answer.named() == weight.named()
    weight.edit({"ballast.0.on": "3", "plan.job": "light"})
    pages.row.act("page", "answer")
    assert answer.rig_shown().ballast[0].on == 3
    assert "page=" not in pages.page.query
    pages.row.act("page", "weight")
    assert weight.inputs["plan.job"] == "light", "what is a page's own stays with it"
    assert len(pages.children) == 4, "a page is made once"
    assert ["rig-away" in app._dom_classes for app in pages.made.values()] == [True, False]


@pytest.mark.slow
def test_a_rig_that_is_the_same_costs_no_step_and_no_sum():
    pages = RigPages()
    pages.row.act("page", "weight")
    computed = [app.model.computed for app in pages.made.values()]
    for name in ("answer", "weight", "answer"):
        pages.row.act("page", name)
    assert [app.model.computed for app in pages.made.values()] == computed
    assert not any(app.model.can_undo() for app in [pages.made["answer"]])


@pytest.mark.slow
def test_the_address_opens_a_page_with_its_entries_and_an_odd_one_is_said():
    pages = RigPages()
    pages.page._heard(pages.page, {"kind": "start", "query": "page=weight&depth=9in&job=light&units=si"}, None)
    assert (pages.now, pages.app.model.inputs["work.depth"], pages.app.model.inputs["plan.job"]) == ("weight", "9in", "light")
    assert pages.app.model.system == "si"
    pages.page._heard(pages.page, {"kind": "start", "query": "page=<b>&depth=9in"}, None)
    assert pages.now == "weight"
    assert pages.app.model.faults[0].got == "'<b>'"


@pytest.mark.slow
def test_a_rig_that_can_t_be_used_stays_where_it_is_and_says_so():
    pages = RigPages("weight")
    pages.app.model.edit({"work.depth": "9 acres"})
    pages.row.act("page", "answer")
    assert pages.now == "weight"
    assert any("depth" in fault.where for fault in pages.app.model.faults)
    answer = RigPages()
    answer.app.model.edit({"work.depth": "9 acres"})
    answer.row.act("page", "weight")
    assert answer.app.model.inputs["work.depth"] == "9 acres", "as typed, to be mended there"


def test_a_rig_from_the_seat_has_the_answer_of_its_file():
    model = own()
    assert (model.faults, model.results.missing) == ((), ())
    rig = model.rig_shown()
    assert (rig.ground.texture, rig.tractor.drive, rig.tractor.front.kind) == ("clay loam", "MFWD", "radial")
    assert model.results.words.said.headline == in_words(size(rig)).said.headline
    assert rig_from(nested(model.to_carry())) == rig
    assert model.named() == "231 hp front-wheel assist + 9-shank chisel, clay loam, firm"


@pytest.mark.parametrize("left_out", [path for path in FROM_THE_SEAT if path not in ("own.ribbon", "own.feel")])
def test_whatever_is_missing_is_asked_for_and_is_no_fault(left_out):
    model = own({path: text for path, text in FROM_THE_SEAT.items() if path != left_out})
    assert left_out in model.results.missing
    assert model.faults == ()
    with pytest.raises(InputError, match="before the rig goes along"):
        model.to_carry()


def test_what_is_typed_badly_is_a_fault_at_once():
    model = own({"own.gear": "MFWD", "tractor.rated_power": "strong", "tractor.rear.size": "a big one"})
    assert {fault.where for fault in model.faults} >= {"tractor.rated_power"}
    assert "implement.tools" in model.results.missing


@pytest.mark.parametrize("gear", ["2WD", "MFWD", "4WD", "two", "four"])
def test_each_silhouette_leads_to_a_rig(gear):
    running = {"tractor.rear.track_width": "28 in"} if gear in ("two", "four") else {"tractor.rear.size": "620/70R42"}
    skipped = ("own.gear", "tractor.rear.size", "tractor.front.size", "tractor.total_mass", "tractor.rated_power")
    rest = {path: text for path, text in FROM_THE_SEAT.items() if path not in skipped}
    front = {"tractor.front.size": "480/70R30"} if gear in ("2WD", "MFWD") else {}
    heavy = {"tractor.total_mass": "38000 lb", "tractor.rated_power": "390 hp"}
    model = own({"own.gear": gear, **heavy, **running, **front, **rest})
    assert (model.faults, model.results.missing) == ((), ())
    rig = model.rig_shown()
    assert (rig.tractor.drive == "track") == (gear in ("two", "four"))
    assert (rig.tractor.front is None) == (gear == "two")
    assert gear_of(model.inputs) == gear
    if gear == "4WD":
        assert rig.tractor.front.size == rig.tractor.rear.size


def test_another_silhouette_and_a_typed_total_take_the_place_of_what_stood():
    model = OwnModel()
    model.start_from_toml(known_text("front_wheel_assist"))
    assert model.results.missing == ()
    model.edit({"tractor.total_mass": "25000 lb"})
    assert not model.inputs["tractor.front_axle_mass"]
    assert model.rig_shown().tractor.total_mass.text == "25000 lb"
    model.edit({"tractor.rear.size": "710/70R42"})
    assert not model.inputs["tractor.rear.diameter"]
    assert model.rig_shown().tractor.rear.size == "710/70R42"
    model.edit({"own.gear": "two"})
    assert set(model.results.missing) == {"tractor.rear.track_width"}
    model.edit({"tractor.rear.track_width": "30 in"})
    assert model.faults == ()
    assert model.rig_shown().tractor.front is None


def test_texture_by_feel_reads_every_row_of_its_table():
    for row in table("texture_by_feel"):
        for feel in ("gritty", "smooth", "neither") if row["feel"] == "any" else (row["feel"],):
            assert texture_of(row["ribbon"], feel) == row["texture"]
    assert texture_of("short", "") == ""
    assert texture_of("", "gritty") == ""


def test_what_is_assumed_stands_at_its_entry_with_its_rule():
    model = own()
    told = model.taken("tractor.wheelbase")
    assert told["taken"].endswith(" ft")
    assert "power" in told["rule"]
    assert model.taken("tractor.rear.kind")["taken"] == "radial"
    assert model.taken("work.depth") == {}
    model.edit({"tractor.wheelbase": "9 ft"})
    assert model.taken("tractor.wheelbase") == {}


@pytest.mark.slow
def test_the_page_of_a_rig_says_what_is_still_to_answer():
    app = OwnApp()
    model = app.model
    model.clear()
    assert "answers to go" in app.children[0].html
    for path, text in FROM_THE_SEAT.items():
        if path != "work.speed":
            model.edit({path: text})
    assert "Still to answer: Speed" in app.children[0].html
    model.edit({"work.speed": "5 mph"})
    assert "Show the whole answer" in app.children[0].html
    assert '<p class="rig-verdict is-ok">' in app.children[0].html
    assert "wheelbase" in app.children[0].html
    gone = []
    app.go_to = gone.append
    app.children[0].act("page", "answer")
    app.children[0].act("demo", "two_track")
    assert gone == ["answer"]
    assert model.inputs["own.gear"] == "two"


def test_what_a_cell_shows_has_the_first_words_for_readers_without_scripts():
    pages = RigPages()
    shown = pages._repr_mimebundle_()
    early = shown["text/html"]
    assert "application/vnd.jupyter.widget-view+json" in shown
    assert early.startswith('<div class="rig-early')
    assert "<script" not in early
    sentence = re.search('rig-sentence">(.*?)<', pages.app.children[0].html)[1]
    assert early.index("rig-pages") < early.index(sentence) < early.index("rig-bar")
    pages.app.model.edit({"implement.name": "<script>alert(1)</script>"})
    assert "<script" not in pages._repr_mimebundle_()["text/html"]
    pages.turn_to("weight")
    assert pages.app.children[0].html in pages._repr_mimebundle_()["text/html"]
