"""The ballast app without a browser: rig in and out, weights, tables, slip test, words, drawing, picture."""

import json
import subprocess
import sys
from xml.etree import ElementTree

import numpy as np
import pytest
from known_rigs import KNOWN_RIGS, known_rig, known_text
from markupsafe import escape

from rigcalc.core.errors import InputError
from rigcalc.models import rig_text
from rigcalc.models.ballast.answer import ballast
from rigcalc.models.ballast.slip_test import from_turns, verdict
from rigcalc.views import BallastApp
from rigcalc.views.ballast import curve, fields
from rigcalc.views.ballast import panels as words
from rigcalc.views.ballast import panels_field as words_field
from rigcalc.views.ballast.bars import bars
from rigcalc.views.ballast.model import BallastModel
from rigcalc.views.ballast.rig_inputs import lists_of, places, rig_of, table_text
from rigcalc.widgets.figure import packed, plotly_figure
from rigcalc.words.ballast.notes import cautions
from rigcalc.words.ballast.plan import said
from rigcalc.words.ballast.slip import said as slip_said
from rigcalc.words.ballast.slip import slip_text
from rigcalc.words.numbers import say

HOSTILE = "<script>alert(1)</script>\"'&`$x$ 🚜"
TABLE = "# from the data book\npressure psi, load lb\n8, 6000\n12, 8000\n16, 9500\n"


@pytest.fixture
def model():
    found = BallastModel()
    found.start_from_toml(known_text("front_wheel_assist"))
    found.edit({"plan.job": "full"})
    return found


def wheres(model):
    return {fault.where.partition(":")[0] for fault in model.faults}


@pytest.mark.parametrize("name", KNOWN_RIGS)
@pytest.mark.parametrize("job", ["light", "this", "full"])
def test_page_and_models_say_the_same(name, job):
    app = BallastApp()
    app.model.start_from_toml(known_text(name))
    app.model.edit({"plan.job": job})
    expected = ballast(known_rig(name), job)
    told = said(expected.plan, "us")
    assert said(app.answer.plan, "us") == told
    assert escape(told.word) in app.children[0].html
    assert escape(told.headline) in app.children[0].html
    if not expected.works:
        assert all(escape(text) in words.facts(app.answer) for text in told.rest)
    for caution in cautions(expected):
        assert escape(caution) in words.notes(app.answer)


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_a_rig_goes_in_and_comes_out_the_same(name):
    model = BallastModel()
    model.start_from_toml(known_text(name))
    assert rig_of(model.inputs) == known_rig(name)
    assert model.to_toml() == rig_text(known_rig(name))
    other = BallastModel()
    other.start_from_toml(model.to_toml())
    assert rig_of(other.inputs) == known_rig(name)


def test_links_come_back_with_weights_changed_and_taken_out(model):
    model.edit({"ballast.0.on": "4", "table.rear": TABLE, "slip.loaded": "100", "sheet.who": "me & you"})
    model.add_piece()
    model.remove_piece(1)
    model.switch_units("si")
    other = BallastModel()
    other.start_from_query(model.to_query())
    assert other.faults == ()
    assert rig_of(other.inputs) == rig_of(model.inputs)
    assert said(other.results.ballast.plan, "us") == said(model.results.ballast.plan, "us")
    assert (other.inputs["slip.loaded"], other.inputs["sheet.who"], other.system) == ("100", "me & you", "si")


def test_a_link_from_the_sizing_page_brings_its_list_of_weights():
    pieces = [{"name": "suitcase", "mass": "45 kg", "count": 10, "on": 2, "axle": "rear", "behind": "0.9 m"}]
    from urllib.parse import urlencode

    model = BallastModel()
    model.start_from_query(urlencode({"rig": "two_track", "ballast": json.dumps(pieces), "job": "full"}))
    rig = rig_of(model.inputs)
    assert [(piece.name, piece.on, piece.behind.text) for piece in rig.ballast] == [("suitcase", 2, "0.9 m")]
    assert model.results.ballast.plan.job.name == "full"


def test_taking_the_plan_leaves_nothing_to_do(model):
    before = model.results.ballast.plan.chosen
    assert before.changes
    model.take_plan()
    after = model.results.ballast
    assert model.inputs["ballast.0.on"] == f"{before.changes[0].after:.0f}"
    assert said(after.plan, "us").word == "Leave it"
    assert after.plan.now.front_mass == pytest.approx(before.front_mass, rel=1e-5)
    assert after.plan.now.rear_mass == pytest.approx(before.rear_mass, rel=1e-5)
    model.undo()
    assert model.results.ballast.plan.chosen == before
    model.edit({"setup.mass_limit": "20000 lb"})
    with pytest.raises(InputError, match="no plan"):
        model.take_plan()


@pytest.mark.slow
def test_weights_are_added_and_removed_up_to_the_room_there_is(model):
    count = model.results.ballast.plan.sets
    model.add_piece()
    assert model.faults == ()
    assert model.results.ballast.plan.sets == 11 * count
    for _ in range(9):
        model.add_piece()
    with pytest.raises(InputError, match="12"):
        model.add_piece()
    for place in places(model.inputs):
        model.remove_piece(str(place))
    assert rig_of(model.inputs).ballast == ()
    for nonsense in ("0", "-1", "x", None, "99999999999"):
        with pytest.raises(InputError):
            model.remove_piece(nonsense)


@pytest.mark.parametrize(
    ("changes", "where", "word"),
    [
        ({"ballast.1.mass": "heavy"}, "ballast.1.mass", "heavy"),
        ({"ballast.1.mass": ""}, "ballast.1.mass", "nothing"),
        ({"ballast.1.at": ""}, "ballast.1.at", "in the air"),
        ({"ballast.1.axle": "middle"}, "ballast.1.axle", "middle"),
        ({"ballast.1.on": "99"}, "ballast.1.count", "99"),
        ({"ballast.0.holds": "3"}, "ballast.0.on", "bracket"),
        ({"ballast.1.on": "3"}, "ballast.1.on", "pairs"),
        ({"ballast.1.count": "a few"}, "ballast.1.count", "a few"),
        ({"ballast.1.name": "front plates"}, "rig", "one name"),
        ({"table.rear": "pressure, load\n1, 2"}, "table.rear", "pressure"),
        ({"table.rear": "pressure psi, load lb\n8, 6000\n12, 5000"}, "table.rear", "rise"),
        ({"table.front": "pressure psi, load lb\n8, 6000\ntwelve, 7000"}, "table.front", "twelve"),
        ({"gears.speeds": "5 mph, 4 mph"}, "gears", "rise"),
        ({"gears.speeds": "fast"}, "gears.speeds", "fast"),
        ({"tractor.rear.tyre.fill": "120 percent"}, "tractor.rear.tyre.fill", "120"),
        ({"scale.total": "20000 lb"}, "rig", "agree"),
        ({"plan.job": HOSTILE}, "job", "script"),
    ],
)
def test_what_cannot_be_used_is_said_at_its_field_and_gives_no_answer(model, changes, where, word):
    app = BallastApp(model)
    model.edit(changes)
    assert model.results is None
    assert where in wheres(model)
    assert len(model.faults) == 1
    assert word in str(model.faults[0])
    assert "No answer" in app.children[0].html
    assert "<script>" not in app.faults.html
    model.undo()
    assert model.faults == ()


def test_a_fault_of_the_slip_test_leaves_the_plan(model):
    plan = model.results.ballast.plan.chosen
    for changes, where in (
        ({"slip.loaded": "100", "slip.unloaded": "many"}, "slip.unloaded"),
        ({"slip.loaded": "100", "slip.unloaded": "120"}, "slip.unloaded"),
        ({"slip.loaded": "0", "slip.unloaded": "0"}, "slip.loaded"),
        ({"slip.loaded": "100", "slip.unloaded": "90", "slip.off": "2"}, "slip.off"),
        ({"slip.way": "distance", "slip.turns": "50", "slip.per_turn": "20.4 lb", "slip.distance": "930 ft"}, "slip.per_turn"),
        ({"slip.way": "speeds", "slip.ground": "6 mph", "slip.wheel": "5 mph"}, "slip.ground"),
        ({"slip.way": "by eye"}, "slip.way"),
    ):
        model.edit(changes)
        assert where in wheres(model), changes
        assert model.results.ballast.plan.chosen == plan
        assert "No verdict" in words_field.slip_verdict(model.results, model.inputs["slip.way"])
        model.undo()


def test_slip_test_says_what_the_terminal_says(model):
    assert "two readings" in words_field.slip_verdict(model.results, "turns")
    model.edit({"slip.loaded": "100", "slip.unloaded": "80", "slip.off": "0.25"})
    test = from_turns(100, 80, 0.25)
    html = words_field.slip_verdict(model.results, "turns")
    assert escape(slip_said(verdict(test, rig_of(model.inputs)), "us").headline) in html
    assert escape(slip_text(test)) in html
    assert "25.0 %" in html, "what the wrong base would print"
    model.edit({"slip.way": "distance", "slip.turns": "50", "slip.per_turn": "20.4 ft", "slip.distance": "930 ft"})
    assert model.results.test.slip == pytest.approx(1 - 930 / (50 * 20.4))
    model.edit({"slip.way": "speeds", "slip.ground": "5.10 mph", "slip.wheel": "5.62 mph"})
    assert model.results.test.slip == pytest.approx(1 - 5.10 / 5.62)


def test_only_the_readings_of_the_chosen_way_are_asked_for(model):
    shown = {way: set() for way in ("turns", "distance", "speeds", "screen")}
    paths = [field.path for section in fields.slip_test() for field in section.fields]
    for way, seen in shown.items():
        model.edit({"slip.way": way})
        seen |= {path for path in paths if not model.hides(path)}
    assert shown["turns"] == {"slip.way", "slip.loaded", "slip.unloaded", "slip.off"}
    assert shown["speeds"] == {"slip.way", "slip.ground", "slip.wheel"}
    assert shown["screen"] == {"slip.way", "slip.shown"}
    assert set(paths) == set.union(*shown.values())


def test_a_pasted_table_gives_the_pressure_in_a_straight_line(model):
    model.edit({"table.rear": TABLE})
    rear = next(t for t in model.results.ballast.tyres if (t.axle, t.when) == ("rear", "pull"))
    pounds = rear.each / 0.45359237
    assert rear.inflation.how in ("table", "lowest")
    assert rear.inflation.pressure / 6.894757293168 == pytest.approx(max(8, np.interp(pounds, [6000, 8000, 9500], [8, 12, 16])))
    assert [p.text for p in rig_of(model.inputs).tractor.rear.tyre.pressures] == ["8 psi", "12 psi", "16 psi"]
    assert lists_of(table_text(*lists_of(TABLE))) == lists_of(TABLE)
    model.edit({"table.rear": ""})
    assert rig_of(model.inputs).tractor.rear.tyre.pressures is None
    assert "psi" in words_field.tyres(model.results.ballast)


def test_a_brine_brings_its_dose_and_water_takes_it_away(model):
    model.edit({"tractor.rear.tyre.volume": "100 gal", "tractor.rear.tyre.liquid": "calcium_chloride"})
    assert model.faults == ()
    assert not model.hides("tractor.rear.tyre.dose")
    assert "calcium_chloride" in model.results.ballast.cautions
    model.edit({"tractor.rear.tyre.liquid": "water"})
    assert model.faults == ()
    assert model.hides("tractor.rear.tyre.dose")
    model.edit({"tractor.rear.tyre.fill": "75 percent"})
    model.edit({"tractor.rear.tyre.liquid": ""})
    assert model.faults == ()


def test_the_form_of_weights_follows_the_list(model):
    app = BallastApp(model)
    form = next(part for part in app.children[6].children[0].children if "rig-pieces" in part._dom_classes)
    assert form.titles == ["front plates: 10 of 18 on", "rear wheel weights: 2 of 6 on"]
    spec = form.spec
    form.edit("ballast.0.on", "12")
    assert form.titles[0] == "front plates: 12 of 18 on"
    assert form.spec == spec
    model.add_piece()
    assert len(form.spec) == 3
    assert form.spec[2]["open"]
    model.switch_units("si")
    assert form.state["ballast.0.mass"]["text"] == "45.36 kg"
    model.start_from_toml(known_text("tracks"))
    assert form.spec == []
    form.edit("ballast.0.on", "3")
    assert model.faults == ()


def test_hostile_names_are_escaped_in_every_part(model):
    model.edit({"ballast.0.name": HOSTILE, "tractor.rear.tyre.table_from": HOSTILE, "gears.names": "<script>'&`,b,c,d"})
    assert model.faults == ()
    app = BallastApp(model)
    for part in (*app.children, *app.children[6].children[0].children):
        assert "<script>" not in getattr(part, "html", "")
    assert escape(HOSTILE) in words.plan(app.answer)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_the_words_hold_no_hole_and_are_well_formed(name, units):
    for job in ("light", "this", "full"):
        found = ballast(known_rig(name), job, units=units)
        for write in (words.verdict, words.facts, words.plan, words.limits, words.jobs, words.advice, words.notes, bars,
                      words_field.tyres, words_field.gears, words_field.sheet):  # fmt: skip
            html = write(found)
            ElementTree.fromstring(f"<div>{html.replace('<br>', '<br/>').replace(' disabled>', '>')}</div>")
            assert " nan" not in html
            assert "None" not in html
            assert " inf " not in html
            assert write(None) is not None


def test_every_limit_and_the_broken_ones_are_shown():
    model = BallastModel()
    model.edit({"setup.mass_limit": "18000 lb", "plan.job": "full"})
    found = model.results.ballast
    assert not found.works
    html = words.limits(found)
    assert html.count('class="rig-gauge"') == len(found.checks) + (found.tip is not None)
    assert html.partition("<details")[0].count("· over") == sum(not check.holds for check in found.checks)
    assert "can&#39;t be met" in words.verdict(found)


def test_the_drawing_is_to_one_scale(model):
    import re

    found = model.results.ballast
    html = bars(found)
    wide = [float(text) for text in re.findall(r'class="is-(?:front|rear)" style="width:([\d.]+)%', html)]
    loads = [part for loads in (found.stands.loads, found.loads_after) for when in ("rest", "pull") for part in loads[when]]
    assert len(wide) == 8
    assert np.ptp(np.array(wide) / loads) < 0.02 * np.mean(np.array(wide) / loads)
    assert all(say(load, "kg", "us") in html for load in loads)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_the_picture_is_good_plotly_and_its_table_says_the_same(name, units):
    found = ballast(known_rig(name), "full", units=units)
    spec = curve.describe(found)
    plotly_figure(spec)
    json.dumps(_plain(packed(spec)), allow_nan=False)
    delivery = spec["data"][0]
    assert np.nanmax(delivery["y"]) == pytest.approx(100 * found.curve.best.delivery, rel=2e-3)
    twin = curve.twin(found)
    assert any("the best" in row[0] for row in twin.rows)
    assert any(", now" in row[0] for row in twin.rows)
    assert all(len(row) == len(twin.heads) for row in twin.rows)
    assert "nan" not in str(twin.rows)


def test_a_job_that_no_mass_suits_and_the_depth_nobody_can_pull():
    model = BallastModel()
    model.edit({"work.depth": "40 in", "implement.tools": "60"})
    app = BallastApp(model)
    for part in app.children:
        assert " nan" not in getattr(part, "html", "")
    assert model.faults == (), "the full job is as much as grip gives, and that can be pulled"
    model.edit({"plan.job": "this"})
    (fault,) = model.faults
    assert "no best mass" in fault.got
    assert "No answer" in app.children[0].html


def test_moving_a_slider_computes_once(model):
    count = model.computed
    BallastApp(model)
    model.edit({"work.depth": "9 in"}, live=True)
    assert model.computed == count + 1


@pytest.mark.slow
def test_buttons_do_what_they_say(model, monkeypatch):
    sent = []
    monkeypatch.setattr("ipywidgets.Widget.send", lambda self, content, buffers=None: sent.append((content, buffers)))
    app = BallastApp(model)
    panels = {part.name: part for part in app.children if hasattr(part, "act")}
    panels["Setup sheet with ballast"].act("sheet", "pdf")
    panels["Setup sheet with ballast"].act("sheet", "html")
    assert [content["name"] for content, _ in sent] == [
        f"ballast-sheet-250-hp-front-wheel-assist-7-shank-chisel-loam-firm.{kind}" for kind in ("pdf", "html")
    ]
    assert sent[0][1][0].startswith(b"%PDF")
    assert b"front plates" in sent[1][1][0]
    panels["Plan"].act("take")
    assert said(app.answer.plan, "us").word == "Leave it"
    panels["Jobs"].act("job", "light")
    assert app.answer.plan.job.name == "light"
    panels["Working of the weights"].act("open", "working")
    assert panels["Working of the weights"].html.count("<math") > 3
    assert model.faults == ()


def test_the_terminal_loads_no_widget():
    code = (
        "import sys\nfrom rigcalc.models import demo_rig\nfrom rigcalc.models.ballast.answer import ballast\n"
        "import rigcalc.views.terminal.ballast\nballast(demo_rig())\n"
        "assert not {'ipywidgets', 'anywidget', 'plotly', 'traitlets'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def _plain(value):
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_plain(item) for item in value]
    return len(value) if isinstance(value, bytes) else value
