"""Widgets that stand by themselves: quantities in and out, links, look, what is saved, what closing one leaves behind."""

import re

import ipywidgets
import numpy as np
import pytest
import traitlets
from known_rigs import known_rig
from markupsafe import escape

import rigcalc.widgets as toolkit
from rigcalc import InputError, Q, size
from rigcalc.views.size.model import SizeModel
from rigcalc.widgets import Figure, LimitsMap, PictureChoice, QuantityEntry, RigForm, linked
from rigcalc.widgets.colours import colour_css
from rigcalc.widgets.page_look import look
from rigcalc.words.size.kept import kept_rows

CARDS = ["AnswerCard", "CabCard", "Gauges", "SideDrawing", "ReachCard", "NumbersTable", "WorkingSteps", "NotesCard",
         "SheetCard", "RigCard", "FileCard", "KeptCard", "FirstCard", "LinkCard"]  # fmt: skip
PICTURES = ["LimitsMap", "PowerFlow", "SlipCurve", "AxleLoads", "ChanceByDepth"]


@pytest.fixture
def depth():
    return QuantityEntry("12 in", low=4, high=20, step=0.5, usual=(8, 14), description="Depth")


def typed(entry, text):
    entry._heard(entry, {"kind": "edit", "path": "value", "text": text, "live": False}, None)


def test_a_quantity_goes_in_and_out_in_any_unit(depth):
    assert (depth.value, depth.number, depth.unit) == (Q(12.0, "in"), 12.0, "in")
    depth.value = Q(38.1, "cm")
    assert (depth.number, depth.state["text"], depth.state["also"]) == (15.0, "38.1 cm", "= 15 in")
    assert depth.state["number"] == depth.number, "the browser compares the two, to the last digit"
    assert depth.state["mark"] == "outside the usual range: 8 to 14 in"
    typed(depth, "20 cm")
    assert depth.value == Q(20.0, "cm")
    assert depth.number == pytest.approx(20 / 2.54)
    typed(depth, "9.5")
    assert str(depth.value.units) == "inch"
    depth.number = 7.0
    assert (depth.value, depth.state["text"]) == (Q(7.0, "in"), "7 in")
    depth.value = 11
    assert depth.value == Q(11.0, "in")


@pytest.mark.parametrize("text", ["", "deep", "5 mph", "21 in", "3.9 in", "nan", "inf in", "12 kg", "1e400 in", "12 in in"])
def test_what_cannot_be_used_is_said_and_changes_nothing(depth, text):
    heard = []
    depth.observe(heard.append, names="value")
    typed(depth, text)
    assert (depth.value, depth.number, depth.valid, heard) == (Q(12.0, "in"), 12.0, False, [])
    assert "from 4 in to 20 in" in depth.fault
    assert "stays 12 in" in depth.fault
    assert depth.state["text"] == text
    typed(depth, "13 in")
    assert (depth.valid, depth.fault, depth.state["fault"]) == (True, "", "")


@pytest.mark.parametrize("value", [Q(5, "mph"), Q(2, "m"), "21 in", None, [1], True, "nan in", np.array([1.0])])
def test_python_is_refused_in_words_and_the_old_value_stays(depth, value):
    with pytest.raises(traitlets.TraitError, match="from 4 in to 20 in"):
        depth.value = value
    assert depth.value == Q(12.0, "in")


def test_a_link_in_the_browser_stops_at_the_ends(depth):
    for sent, kept in ((99.0, 20.0), (-1.0, 4.0), (float("nan"), 4.0)):
        depth.set_state({"number": sent})
        assert (depth.number, depth.value.magnitude) == (kept, kept)


ENDS = [(20, 4, None), (4, 4, None), (4, 20, 0), (float("nan"), 4, None), (13, 20, None)]


@pytest.mark.parametrize(("low", "high", "step"), ENDS)
def test_an_entry_that_cannot_be_is_refused(low, high, step):
    with pytest.raises(InputError):
        QuantityEntry("12 in", low=low, high=high, step=step)
    with pytest.raises(InputError):
        QuantityEntry("12 in", low=4, high=20, unit="mph")


def test_entries_of_other_units_are_linked_by_quantity(depth):
    other = QuantityEntry(Q(20.0, "cm"), low=10, high=50, description="Tiefe")
    ipywidgets.link((depth, "value"), (other, "value"))
    assert other.number == pytest.approx(30.48)
    typed(other, "40")
    assert depth.value == Q(40.0, "cm")
    assert depth.number == pytest.approx(40 / 2.54)
    slider = ipywidgets.FloatSlider(min=4, max=20, value=5)
    ipywidgets.dlink((slider, "value"), (depth, "number"))
    assert depth.value == Q(5.0, "in")
    assert other.value == Q(5.0, "in")


def test_a_slider_has_a_hundred_steps_unless_told():
    assert QuantityEntry("12 in", low=4, high=20).step == 0.16


def test_ends_that_move_take_the_value_along_and_stay_in_order(depth):
    depth.high = 10.0
    assert (depth.value, depth.state["high"]) == (Q(10.0, "in"), 10.0)
    with pytest.raises(traitlets.TraitError, match="expected low below high"):
        depth.low = 11.0
    assert (depth.low, depth.value) == (4.0, Q(10.0, "in"))
    with pytest.raises(traitlets.TraitError):
        depth.unit = "cm"


def test_interactive_output_gets_the_quantity(depth):
    got = []
    ipywidgets.interactive_output(lambda deep: got.append(deep.to("cm").magnitude), {"deep": depth})
    depth.number = 10.0
    assert got == pytest.approx([30.48, 25.4])


def test_a_choice_knows_its_options():
    choice = PictureChoice([("2WD", "two-wheel"), ("track", "tracks", "<svg/>")], description="Drive")
    assert choice.value == "2WD"
    choice.value = "track"
    with pytest.raises(traitlets.TraitError, match="none of the options: 2WD, track"):
        choice.value = "legs"
    assert choice.value == "track"
    for options in ([], ["ab"], [("a", "A"), ("a", "B")], [("a",)]):
        with pytest.raises(InputError):
            PictureChoice(options)


@pytest.mark.parametrize("name", [*CARDS, *PICTURES])
def test_each_part_of_a_sizing_stands_alone_and_tells_what_it_shows(name):
    rig = known_rig("four_wheel_drive")
    part = getattr(toolkit, name)(rig)
    assert part.answer.point.bare.draft == size(rig).point.bare.draft
    assert part.rig.work.depth == part.model.results.answer.rig.work.depth
    assert {"rig-look", "rig-alone"} <= set(part._dom_classes)
    shown = part.html if name in CARDS else part.spec
    heard = []
    part.observe(heard.append, names="answer")
    part.rig = "two_wheel_drive"
    assert len(heard) == 1
    assert name in ("SheetCard", "FileCard", "KeptCard", "FirstCard", "NumbersTable", "WorkingSteps") or shown != (
        part.html if name in CARDS else part.spec
    )
    with pytest.raises(traitlets.TraitError, match="expected a file that exists"):
        part.rig = "no such rig"
    part.units = "si"
    assert part.model.system == "si"
    part.layout.width = "300px"
    assert getattr(toolkit, name)(rig).layout.width is None, "each has a layout of its own"


@pytest.mark.parametrize("name", [*CARDS, *PICTURES, "RigChoice", "RigForm"])
def test_what_a_notebook_saves_of_one_is_small(name):
    part = getattr(toolkit, name)(SizeModel())
    state = part.get_state()
    size_of = sum(len(str(value)) for key, value in state.items() if key != "ground")
    bytes_of = sum(len(value.tobytes() if hasattr(value, "tobytes") else value) for value in _bytes_in(state.get("ground", [])))
    assert size_of + bytes_of * 4 / 3 < 200_000
    assert "plotly.js" not in str(state)[:400_000]


def _bytes_in(value):
    if isinstance(value, dict):
        return [found for each in value.values() for found in _bytes_in(each)]
    if isinstance(value, list):
        return [found for each in value for found in _bytes_in(each)]
    return [value] if isinstance(value, bytes | memoryview) else []


def test_parts_of_one_model_move_together_and_a_closed_one_no_more():
    model = SizeModel()
    answer, chart, form = toolkit.AnswerCard(model), LimitsMap(model), RigForm(model, "work.depth", "work.speed")
    entry = QuantityEntry("12 in", low=2, high=20, description="How deep")
    linked(entry, model, "work.depth")
    assert entry.state["text"] == model.inputs["work.depth"]
    entry.value = "8 in"
    assert "8 in deep" in answer.html
    assert chart.point[0] == Q(8.0, "in")
    form.edit("work.depth", "9 in")
    assert entry.value == Q(9.0, "in")
    chart.point = (Q(20.0, "cm"), Q(6.0, "km/h"))
    assert (model.inputs["work.depth"], form.state["work.speed"]["text"]) == ("20 cm", "6 km/h")
    assert entry.value == Q(20.0, "cm")
    before = answer.html
    answer.close()
    entry.value = "6 in"
    assert (answer.html, chart.point[0]) == (before, Q(6.0, "in"))


def test_what_a_rig_holds_beyond_the_ends_of_an_entry_is_said_there():
    model = SizeModel()
    entry = QuantityEntry("12 in", low=4, high=20, description="How deep")
    linked(entry, model, "work.depth")
    model.edit({"work.depth": "22 in"})
    assert (entry.state["text"], entry.valid, model.inputs["work.depth"]) == ("22 in", False, "22 in")
    model.edit({"work.depth": "9 in"})
    assert (entry.value, entry.valid) == (Q(9.0, "in"), True)


def test_the_choice_of_a_rig_follows_the_model_and_keeps_what_was_entered():
    model = SizeModel()
    choice, answer = toolkit.RigChoice(model), toolkit.AnswerCard(model)
    model.edit({"work.depth": "8 in"})
    assert model.inputs["work.depth"] == "8 in"
    answer.rig = "two_track"
    assert choice.value == "two_track"
    choice.value = "two_wheel_drive"
    assert answer.rig.tractor.drive == "2WD"
    choice.close()
    answer.rig = "articulated"
    assert choice.value == "two_wheel_drive"


def test_a_bad_entry_is_said_by_the_answer_itself():
    model = SizeModel()
    card = toolkit.AnswerCard(model)
    model.edit({"work.depth": "deep"})
    assert "No answer" in card.html
    assert "work.depth" in card.html
    assert card.answer is None
    model.undo()
    assert card.answer is not None
    assert "<li>" not in card.html


def test_points_and_paths_that_cannot_be_are_refused():
    chart = LimitsMap("front_wheel_assist")
    for point in ((), (1, 2), (Q(1, "mph"), Q(1, "in")), (Q(1, "in"),)):
        with pytest.raises(traitlets.TraitError, match="a depth and a speed"):
            chart.point = point
    with pytest.raises(InputError) as refused:
        RigForm("front_wheel_assist", "work.deep", "work.fast")
    assert len(refused.value.faults) == 2
    with pytest.raises(InputError):
        linked(QuantityEntry("12 in", low=2, high=20), SizeModel(), "ground.texture")


def test_a_figure_takes_a_plotly_figure_or_a_description():
    import plotly.graph_objects as go

    own = go.Figure(go.Scatter(x=[1, 2], y=[3, 5]), layout={"title": {"text": "@home"}})
    picture = Figure(own, label="Mine")
    assert picture.figure is own
    assert (picture.spec["plain"], picture.spec["layout"]["title"]["text"]) == (True, "@home")
    picture.figure = {"data": [{"y": np.array([1.0, 2.0])}], "layout": {}}
    assert picture.spec["data"][0]["y"]["shape"] == [2]
    for odd in ("a picture", {"data": []}, 3):
        with pytest.raises(InputError, match="a plotly figure, or a mapping"):
            picture.figure = odd


def test_plotly_s_script_is_held_once_for_all_figures():
    one, other = Figure(label="One"), LimitsMap("articulated")
    assert one.held_by == other.held_by != ""
    model = SizeModel()
    model.dressed = True  # a page in a notebook, opened later
    assert toolkit.SlipCurve(model).held_by == one.held_by
    held = ipywidgets.widgets.widget._instances[one.held_by]
    assert "plotly.js" in held.source[:200]


def test_a_tap_by_hand_reaches_the_owner_and_nonsense_is_said():
    got = []
    picture = Figure({"data": [], "layout": {}}, label="Mine", on_tap=lambda *tap: got.append(tap))
    picture._heard(picture, {"kind": "tap", "x": 1, "y": 2.5}, None)
    picture._heard(picture, {"kind": "tap", "x": "1", "y": None}, None)
    assert got == [(1.0, 2.5, False)]
    assert "a place in the picture" in picture.note


def test_own_colours_by_name_alone(depth):
    depth.style = {"signal": "#0b6e4f"}
    assert depth.worn == {"signal": "#0b6e4f"}
    with pytest.raises(traitlets.TraitError):
        depth.style = {"--paper": "red"}


def test_nothing_of_a_notebook_but_our_own_parts_is_dressed():
    css = re.sub(r"/\*.*?\*/|@[^{]*(?=\{)", "", look(), flags=re.DOTALL)
    for heads in re.findall(r"([^{}]+)\{[^{}]*\}", css):
        for head in re.split(r",(?![^()]*\))", heads):
            assert re.search(r"[.#](rig|is|has)-", head), head
    # By the system, by a notebook's theme, by an editor's, by the page's own switch.
    assert colour_css().count("{color-scheme:dark") == 4


def test_the_window_shows_all_and_says_what_it_has():
    assert set(dir(toolkit)) == set(toolkit.__all__)
    for name in toolkit.__all__:
        assert getattr(toolkit, name).__doc__, name
    with pytest.raises(AttributeError, match="QuantityEntry"):
        _ = toolkit.Nonsense


def test_a_kept_answer_stands_beside_the_next_and_can_be_gone_back_to():
    model = SizeModel()
    card = toolkit.KeptCard(model)
    assert "<table" not in card.html
    card.act("keep")
    before = model.results
    model.edit({"work.depth": "14 in"})
    rows = kept_rows(before, model.results)
    differing = {row.title for row in rows if row.differs}
    assert {"Depth and speed", "Engine load", "Drawbar pull", "Fuel", "Slip"} <= differing
    assert not differing & {"Rig", "Tools"}
    assert card.html.count('class="is-other"') == len(differing)
    assert "10 in, 5 mph" in card.html
    assert "14 in, 5 mph" in card.html
    model.switch_units("si")
    assert "25.4 cm" in card.html, "the kept one is told in the units of the page"
    card.act("back")
    assert model.inputs["work.depth"] == "10 in"
    model.undo()
    assert model.inputs["work.depth"] == "14 in"
    model.edit({"work.depth": "deep"})
    assert "<table" not in card.html
    card.act("keep")
    assert "a rig that has an answer" in model.faults[-1].expected
    card.act("forget")
    assert card.kept is None


def test_what_to_measure_first_is_worked_out_when_it_is_opened():
    card = toolkit.FirstCard("two_wheel_drive")
    assert "<table" not in card.html
    card.act("open", "first")
    words = card.words
    assert card.html.count("<tr>") == len(words.first) + 1
    assert all(str(escape(line)) in card.html for line in words.first_lines)


def test_beside_a_fault_the_last_answer_stays_greyed_and_is_said_to_be_old():
    model = SizeModel()
    cab, drawing, chart, answer = (
        make(model) for make in (toolkit.CabCard, toolkit.SideDrawing, LimitsMap, toolkit.AnswerCard)
    )
    slip, drawn, note = re.search(r"<b>([\d.]+ %)</b>", cab.html)[1], chart.spec, chart.note
    model.edit({"work.depth": "deep"})
    assert "No answer" in answer.html
    assert cab.answer is None
    for card in (cab, drawing):
        assert 'class="rig-stale"' in card.html
        assert "last answer" in card.html
    assert slip in cab.html
    assert chart.spec == drawn
    assert "rig-stale" in chart._dom_classes
    assert "last answer" in chart.note
    model.switch_units("si")
    assert "ha/h" in cab.html
    model.edit({"work.depth": "11 in"})
    assert "rig-stale" not in cab.html
    assert "rig-stale" not in chart._dom_classes
    assert chart.note == note


def test_a_fault_names_its_entry_as_the_page_does_and_leads_there():
    app = toolkit.SizeApp()
    app.model.edit({"tractor.rated_power": "<b>strong</b>"})
    assert (
        '<button type="button" class="rig-goto" data-browser="goto" data-path="tractor.rated_power">Rated power (Tractor)'
        in (app.faults.html)
    )
    assert "<b>strong" not in app.faults.html


def test_a_part_refuses_the_model_of_another_question():
    with pytest.raises(InputError, match="a SizeModel, a rig"):
        toolkit.AnswerCard(toolkit.BallastModel())
    with pytest.raises(InputError, match="a BallastModel, a rig"):
        toolkit.MassBars(SizeModel())
