"""Form, panels, picture and page with no browser: messages in, traits out."""

import re
import sys
from pathlib import Path

import numpy as np
import pytest

from rigcalc.core.errors import Fault
from rigcalc.widgets.colours import DARK, LIGHT, contrast
from rigcalc.widgets.figure import packed, painted, plotly_figure
from rigcalc.widgets.html import button, esc, fault_list, table
from rigcalc.widgets.part import safe_name

sys.path.insert(0, str(Path(__file__).parents[1] / "browser" / "tiny_apps"))
from tiny import TinyApp, TinyModel

HOSTILE = "<script>alert('1')</script> \" ' & `$x$` 🚜"


@pytest.fixture
def app():
    return TinyApp(TinyModel())


@pytest.fixture
def form(app):
    return app.children[3].children[0].children[0]


@pytest.fixture
def sent(monkeypatch):
    """Collects what widgets send to the browser."""
    out = []
    monkeypatch.setattr("ipywidgets.Widget.send", lambda self, content, buffers=None: out.append((content, buffers)))
    return out


def test_an_edit_moves_answer_state_picture_and_address_in_one_message(app, form, sent):
    before = app.children[4].spec
    app.page._heard(app.page, {"kind": "ping"}, None)
    sent.clear()
    form._heard(form, {"kind": "edit", "path": "depth", "text": "10", "live": False}, None)
    assert form.state["depth"]["text"] == "10 in"
    assert "56.77 kN" in app.children[0].html
    assert app.children[4].spec != before
    assert app.page.query == "depth=10+in"
    (together, _), done = sent
    assert together["kind"] == "together"
    told = {name: state for name, state, _ in together["updates"]}
    assert told[app.page.model_id]["query"] == "depth=10+in"
    assert "56.77 kN" in told[app.children[0].model_id]["html"]
    assert done == ({"kind": "done"}, None)


def test_a_part_without_its_page_is_sent_its_own(app, form, sent, monkeypatch):
    own = []
    monkeypatch.setattr("ipywidgets.Widget._send", lambda self, msg, buffers=None: own.append((self.model_id, msg["method"])))
    form._heard(form, {"kind": "edit", "path": "depth", "text": "10", "live": False}, None)
    assert sent == [({"kind": "done"}, None)]
    assert (app.children[0].model_id, "update") in own
    assert (form.model_id, "update") in own


def test_messages_that_make_no_sense_do_no_harm(app, form, sent):
    for message in ({}, {"kind": "edit"}, {"kind": "edit", "path": "nowhere", "text": None}, {"kind": "act", "name": []}):
        form._heard(form, message, None)
        app.bar._heard(app.bar, message, None)
        app.page._heard(app.page, message, None)
    assert "45.42 kN" in app.children[0].html


def test_a_fault_stands_at_its_field_and_in_the_box(app, form):
    form.edit("depth", HOSTILE)
    assert form.state["depth"]["fault"]
    assert "<script>" not in app.faults.html
    assert esc("<script>") in app.faults.html
    app.bar.act("undo")
    assert app.faults.html == ""
    assert form.state["depth"]["fault"] == ""


def test_hostile_names_are_escaped_in_every_part(app):
    app.model.edit({"name": HOSTILE})
    assert "<script>" not in app.children[0].html
    assert esc(HOSTILE) in app.children[0].html


def test_a_link_is_no_step_to_undo(app):
    app.page._heard(app.page, {"kind": "start", "query": "depth=30+cm"}, None)
    assert app.model.inputs["depth"] == "30 cm"
    assert re.search(r"<button[^>]*undo[^>]*>", app.bar.html)[0].count("disabled") == 1
    app.model.edit({"depth": "40 cm"})
    assert re.search(r"<button[^>]*undo[^>]*>", app.bar.html)[0].count("disabled") == 0


def test_units_undo_files(app, form, sent):
    app.bar.act("units", "si")
    assert form.state["depth"]["unit"] == "cm"
    app.bar.act("units", "parsec")
    assert any(fault.where == "units" for fault in app.model.faults)
    form.edit("depth", "30 cm")
    app.bar.act("save")
    content, buffers = sent[-1]
    assert content["name"] == "rig.toml"
    app.bar.act("undo")
    app.bar.act("load", {"name": "rig.toml", "size": 100, "text": buffers[0].decode()})
    assert app.model.inputs["depth"] == "30 cm"
    app.bar.act("load", {"name": "../../x", "size": 50_000_000, "text": ""})
    assert "50.0 MB" in app.faults.html
    app.bar.act("load", "nonsense")
    assert app.model.inputs["depth"] == "30 cm"


def test_a_tap_and_a_sign_of_life(app, sent):
    app.children[4]._heard(None, {"kind": "tap", "x": 2.0, "y": 0.3}, None)
    assert app.model.inputs["depth"] == "0.300 m"
    app.page._heard(None, {"kind": "ping"}, None)
    assert sent[-1][0] == {"kind": "pong"}


@pytest.mark.parametrize("place", [{}, {"x": "2", "y": 0.3}, {"x": None, "y": 1}, {"x": float("nan"), "y": 1.0}])
def test_a_tap_nowhere_is_said_and_answered(app, sent, place):
    app.children[4]._heard(None, {"kind": "tap", **place}, None)
    assert "a place in the picture" in app.faults.html
    assert sent[-1][0] == {"kind": "done"}


def test_numbers_travel_as_float32_and_colours_by_name():
    spec = {"z": np.array([[1.0, np.nan], [3, 4]]), "x": [np.float64(1.5)], "names": np.array(["a"]), "c": "@ink"}
    out = packed(spec)
    assert out["z"]["shape"] == [2, 2]
    assert np.array_equal(np.frombuffer(out["z"]["@f4"], "<f4"), [1, np.nan, 3, 4], equal_nan=True)
    assert (out["x"], out["names"], out["c"]) == ([1.5], ["a"], "@ink")
    assert painted(["@ink", "@signal/50"], LIGHT) == ["rgba(17,20,23,1)", "rgba(173,0,93,0.5)"]
    with pytest.raises(ValueError, match="dimensions"):
        packed(np.zeros((2, 2, 2)))


def test_a_description_is_a_plotly_figure_too(app):
    figure = plotly_figure(app.children[4].describe())
    assert figure.data[0].z.shape == (40, 50)


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_contrast_is_enough_in_the_sun(colours):
    wanted = "ink paper 15, soft paper 7, signal paper 7, on-signal signal 7, line paper 3, ink soil 7, ink wash 7"
    for front, back, least in map(str.split, wanted.split(",")):
        assert contrast(colours[front], colours[back]) >= float(least), (front, back)
    steps = [contrast(colours[f"scale{i}"], colours["paper"]) for i in range(1, 6)]
    assert steps == sorted(steps)


def test_html_pieces_escape():
    assert "<b>" not in table("<b>", ["<b>"], [["<b>", "<b>"]])
    assert '"x"' not in button("a", "b", 'on"x"')
    assert "<i>" not in fault_list([Fault("<i>", "<i>", "<i>", "<i>")], "<i>").replace("<li>", "")
    assert fault_list([], "x") == ""


@pytest.mark.parametrize(
    ("name", "safe"),
    [("a b.toml", "a-b.toml"), ("../../etc/a.toml", "etc-a.toml"), ("", "rig"), (".toml", "rig.toml"), ("🚜.pdf", "rig.pdf")],
)
def test_file_names_are_safe(name, safe):
    assert safe_name(name) == safe
