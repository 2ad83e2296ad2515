"""The comparing page without a browser: rigs on the list, what is asked of all, variations, words, picture, files, links."""

import csv
import io

import numpy as np
import pytest
from compare_readers import known_model, shown
from known_rigs import KNOWN_RIGS, known_rig
from markupsafe import escape

from rigcalc.core.errors import InputError
from rigcalc.models import DEMO_RIGS, demo_rig, replaced
from rigcalc.models.compare import compare
from rigcalc.models.compare.alike import alike
from rigcalc.models.machine.limits import shares, worst
from rigcalc.models.machine.operating_point import solve
from rigcalc.views import CompareApp
from rigcalc.views.compare import fields
from rigcalc.views.compare.inputs import places
from rigcalc.views.compare.model import CompareModel
from rigcalc.views.compare.picture import describe, twin
from rigcalc.views.sheet.compare import comparison_html, comparison_pdf
from rigcalc.views.size.model import SizeModel
from rigcalc.widgets import CompareAnswer, CompareCards, CompareReasons, CompareRigs, CompareRows, CompareTables
from rigcalc.words import in_words

GO = {"implement.tools": 5, "work.depth": "8 in"}
DONT = {"tractor.rated_power": "150 hp", "tractor.maximum_power": None}


@pytest.fixture
def model():
    return known_model()


def test_the_page_says_what_the_models_say(model):
    app = CompareApp(model)
    expected = in_words(compare([known_rig(name) for name in KNOWN_RIGS], KNOWN_RIGS), "us")
    html = shown(app)
    assert str(model.results.words) == str(expected)
    assert escape(expected.said.headline) in html
    for row in expected.rows:
        assert escape(row.title) in html
        if row.differs:
            assert all(f"<td>{escape(text)}</td>" in html for text in row.cells)
    for name, said in expected.each:
        assert escape(name) in html
        assert escape(str(said)) in html
    model.switch_units("si")
    assert "L/ha" in shown(app)
    assert "gal/acre" not in shown(app)


def test_rows_that_differ_come_before_those_that_do_not(model):
    html = CompareRows(model).html
    rows = model.results.words.rows
    differing = [html.index(f'<th scope="row">{escape(row.title)}</th>') for row in rows if row.differs]
    same = [html.index(f'<th scope="row">{escape(row.title)}</th>') for row in rows if not row.differs]
    assert same
    assert max(differing) < html.index("The same in all") < min(same)


def test_each_card_has_verdict_chance_and_the_figures_that_were_asked_for(model):
    cards = CompareCards(model).html.split("<li ")[1:]
    assert len(cards) == len(KNOWN_RIGS)
    rows = {row.name: row for row in model.results.words.rows}
    wanted = "verdict chance_works gives_out_first power_per_tool power_per_width field_capacity fuel_per_area".split()
    for at, card in enumerate(cards):
        for name in wanted:
            assert escape(rows[name].cells[at].replace(" %", "\u00a0%")) in card, name


def test_only_what_is_ahead_is_called_so():
    model = CompareModel()
    model.start_from([replaced(known_rig(), DONT), replaced(known_rig(), GO)], ["weak", "strong"])
    cards = CompareCards(model).html.split("<li ")[1:]
    assert ["ahead" in card for card in cards] == [False, True]
    assert 'class="is-over"' in f"<li {cards[0]}"
    assert CompareAnswer(model).html.count("Strong: go") == 1
    assert "Why" in CompareReasons(model).html
    model.start_from([known_rig(), known_rig()], ["one", "other"])
    assert not any("ahead" in card for card in CompareCards(model).html.split("<li ")[1:])


@pytest.mark.parametrize("same", ["", "work", "tool", "tractor"])
def test_what_is_the_same_comes_from_the_first(model, same):
    model.edit({"same": same})
    first = known_rig(KNOWN_RIGS[0])
    expected = [alike(known_rig(name), first, same) for name in KNOWN_RIGS]
    assert [side.answer.rig for side in model.results.words.comparison.rigs] == expected
    assert model.hides("1.work.depth") == bool(same)
    assert not model.hides("0.work.depth")
    assert model.hides("2.implement.tools") == (same == "tool")
    model.make_first(2)
    first = model.results.words.comparison.rigs[0]
    assert first.name == KNOWN_RIGS[2]
    if same:
        assert all(side.answer.rig.work == first.answer.rig.work for side in model.results.words.comparison.rigs)


def one(text="", entry="implement.tools"):
    model = CompareModel()
    model.start_from([known_rig()], ["mine"])
    model.edit({"vary.0.entry": entry})
    if text:
        model.edit({"vary.0.values": text})
    return model


def tools(model):
    return [side.answer.rig.implement.tools for side in model.results.words.comparison.rigs]


def test_one_rig_with_variations():
    model = one("11, 13; 15".replace(";", ","))
    assert tools(model) == [11, 13, 15]
    assert [side.name for side in model.results.words.comparison.rigs] == ["11 shanks", "13 shanks", "15 shanks"]
    model.edit({"vary.1.entry": "work.depth", "vary.1.values": "10, 30 cm"})
    assert model.inputs["vary.1.values"] == "10 in, 30 cm"
    names = [side.name for side in model.results.words.comparison.rigs]
    assert names[:2] == ["11 shanks, 10 in deep", "11 shanks, 30 cm deep"]
    assert len(names) == 6
    model.edit({"vary.0.entry": ""})
    assert model.inputs["vary.1.entry"] == ""
    assert model.results.words is None
    assert "One more" in CompareAnswer(model).html


def test_values_stay_as_typed_when_the_units_are_switched():
    model = one("10, 12", "work.depth")
    before = [side.answer.rig.work.depth for side in model.results.words.comparison.rigs]
    model.switch_units("si")
    assert [side.answer.rig.work.depth for side in model.results.words.comparison.rigs] == before
    model.edit({"vary.0.values": "9.5; 11"})
    assert [side.answer.rig.work.depth.to("cm") for side in model.results.words.comparison.rigs] == [9.5, 11]


def test_a_comma_that_may_be_a_decimal_point_is_asked_about_and_stays_as_typed():
    model = one("10, 12", "work.depth")
    model.edit({"vary.0.values": "9,5, 11"})
    assert model.inputs["vary.0.values"] == "9,5, 11"
    assert [fault.where for fault in model.faults] == ["vary.0.values"]
    assert "semicolons" in model.faults[0].expected
    model.edit({"vary.0.values": "9,5; 11"})
    depths = [side.answer.rig.work.depth.to("in") for side in model.results.words.comparison.rigs]
    assert not model.faults
    assert depths == pytest.approx([9.5, 11])


@pytest.mark.parametrize("path", fields.varied_fields())
def test_every_entry_that_is_offered_starts_with_values_that_can_be_used(path):
    model = CompareModel()
    model.start_from([demo_rig("articulated")], ["mine"])
    model.edit({"vary.0.entry": path})
    if model.inputs.get(f"0.{path}"):  # one that the rig hasn't got starts in the middle of its slider, which may suit no rig
        assert model.results is not None, model.faults
        assert len(model.results.gathered.rigs) >= 1, (model.inputs["vary.0.values"], model.faults)


def test_as_many_values_are_offered_as_there_is_room_for():
    model = CompareModel()
    for name in (*DEMO_RIGS, DEMO_RIGS[0]):
        model.add_demo(name)
    assert len(places(model.inputs)) == 7
    model.edit({"vary.0.entry": "implement.tools"})
    assert model.results is not None
    model.remove_rig(6), model.remove_rig(5), model.remove_rig(4)
    model.edit({"vary.0.entry": "work.speed"})
    assert len(model.results.gathered.rigs) == 8
    assert model.faults == ()


def test_a_choice_is_varied_by_its_words_too():
    model = one("silty clay, loam", "ground.texture")
    assert [side.answer.rig.ground.texture for side in model.results.words.comparison.rigs] == ["silty clay", "loam"]
    model = one("four-wheel, two-wheel", "tractor.drive")
    assert [side.answer.rig.tractor.drive for side in model.results.words.comparison.rigs] == ["4WD", "2WD"]


def test_what_cannot_be_used_is_named_at_its_entry_and_the_rest_is_shown():
    model = one("11, many, 13, 0")
    assert tools(model) == [11, 13]
    assert {fault.where.partition(":")[0] for fault in model.faults} == {"vary.0.values"}
    assert [name for name in model.results.gathered.left_out] == ["many shanks", "0 shanks"]
    assert "many shanks" in CompareCards(model).html
    model = one()
    model.edit({"vary.0.values": "11, , 13"})
    assert model.results is None
    assert model.faults[0].where == "vary.0.values"
    assert "No answer" in CompareAnswer(model).html


def test_eight_rigs_of_which_one_is_broken():
    model = CompareModel()
    model.start_from([known_rig(KNOWN_RIGS[at % 3]) for at in range(8)], [f"rig no {at}" for at in range(8)])
    model.edit({"3.work.depth": "deep"})
    assert [side.name for side in model.results.words.comparison.rigs] == [f"rig no {at}" for at in range(8) if at != 3]
    (fault,) = model.faults
    assert fault.where.startswith("3.work.depth: rig no 3, Depth")
    assert "deep" in fault.got
    html = CompareCards(model).html
    assert html.count("Left out") == 1
    assert "rig no 3" in html
    model.edit({"same": "work"})  # the broken depth isn't asked for any more, but it stays what it is
    assert len(model.results.words.comparison.rigs) == 7


def test_the_first_that_can_be_used_is_asked_for_where_the_first_cannot(model):
    model.edit({"0.work.depth": "deep", "same": "work"})
    sides = model.results.words.comparison.rigs
    assert [side.name for side in sides] == list(KNOWN_RIGS[1:])
    assert sides[1].answer.rig.work == known_rig(KNOWN_RIGS[1]).work


def test_more_than_eight_are_refused_and_nothing_is_lost(model):
    model.edit({"vary.0.entry": "implement.tools", "vary.0.values": "9, 11, 13"})
    assert model.results is None
    assert any("3 rigs times 3 variations" in fault.got for fault in model.faults)
    model.undo()
    for _ in range(5):
        model.add_demo("two_track")
    before = dict(model.inputs)
    with pytest.raises(InputError, match="at most 8"):
        model.add_demo("two_track")
    assert model.inputs == before
    assert "no room" in CompareRigs(model).html


def test_rigs_come_and_go_in_order_and_undo_brings_them_back(model):
    model.remove_rig("1")
    assert [model.inputs[f"{place}.name"] for place in places(model.inputs)] == [KNOWN_RIGS[0], KNOWN_RIGS[2]]
    model.add_demo("two_track")
    assert model.inputs["2.name"] == demo_rig("two_track").tractor.name
    model.make_first(2)
    assert model.inputs["0.name"] == demo_rig("two_track").tractor.name
    for _ in range(3):
        model.undo()
    assert [model.inputs[f"{place}.name"] for place in places(model.inputs)] == list(KNOWN_RIGS)
    for odd in ("7", "x", None):
        with pytest.raises(InputError):
            model.remove_rig(odd)
        with pytest.raises(InputError):
            model.make_first(odd)


def test_the_picture_has_the_boundary_of_the_models(model):
    spec = describe(model.results.words)
    sides = model.results.words.comparison.rigs
    assert len(spec["data"]) == len(sides)
    looks = [(line["line"]["dash"], line["line"]["width"], line["line"]["color"]) for line in spec["data"]]
    assert len({dash for dash, _, _ in looks}) == len(looks), "told apart without colour"
    marks = [mark for mark in spec["layout"]["annotations"] if mark["text"].startswith("<b>")]
    assert [mark["text"] for mark in marks] == ["<b>A</b>", "<b>B</b>", "<b>C</b>"]
    for mark, side in zip(marks, sides, strict=True):
        at = side.answer.bare_rig.at(depth=np.array([0.93, 1.07]) * mark["y"] * 2.54, speed=mark["x"] * 1.609344)
        above, below = worst(shares(at, solve(at), side.answer.caps))[0]
        assert above < 1 < below
    gaps = [np.hypot(one["x"] - other["x"], one["y"] - other["y"]) for at, one in enumerate(marks) for other in marks[:at]]
    assert min(gaps) > 0.5


def test_rigs_of_one_line_share_it_and_rings_say_where_they_work():
    model = one("8, 12, 16", "work.depth")
    spec = describe(model.results.words)
    assert [line["name"] for line in spec["data"]] == ["A, B, C  8 in deep, 12 in deep, 16 in deep"]
    circles = [shape for shape in spec["layout"]["shapes"] if shape["type"] == "circle"]
    assert [round(shape["yanchor"], 6) for shape in circles] == [8, 12, 16]
    assert {mark["text"] for mark in spec["layout"]["annotations"]} >= {"A", "B", "C"}
    table = twin(model.results.words)
    assert table.heads[1:] == ("8 in deep", "12 in deep", "16 in deep")
    assert all(len(set(row[1:])) == 1 for row in table.rows)


def test_tables_hold_every_rig(model, monkeypatch):
    sent = {}
    card = CompareTables(model)
    monkeypatch.setattr(card, "save", lambda name, content, kind: sent.update({name: content}))
    card.act("table", "csv")
    card.act("table", "xlsx")
    card.act("sheet", "pdf")
    card.act("sheet", "html")
    assert sent["comparison.pdf"] == comparison_pdf(model.results.words)
    assert sent["comparison.html"].decode() == comparison_html(model.results.words)
    rows = list(csv.reader(io.StringIO(sent["comparison.csv"].decode("utf-8-sig"))))
    assert [row[0] for row in rows[1:]] == list(KNOWN_RIGS)
    assert sent["comparison.xlsx"][:2] == b"PK"
    model.start_from([known_rig()], ["alone"])
    assert "disabled" in card.html
    card.act("table", "csv")
    assert any("fewer than two" in fault.got for fault in model.faults)


def test_a_card_leads_to_the_page_about_its_rig(model, monkeypatch):
    monkeypatch.setenv("RIGCALC_SERVED", "1")
    model.edit({"1.work.depth": "9 in"})
    app = CompareApp(model)
    links = [part.partition('"')[0] for part in shown(app).split('href="rig?')[1:]]
    assert len(links) == len(KNOWN_RIGS)
    other = SizeModel()
    other.start_from_query(links[1].replace("&amp;", "&"))
    assert other.results.answer.rig == replaced(known_rig(KNOWN_RIGS[1]), {"work.depth": "9 in"})


def test_parts_stand_alone_and_follow_one_model(model):
    answer, rows = CompareAnswer(["two_track", "articulated"]), CompareRows(model)
    assert "<h2>What" in CompareReasons(model).html or "<h2>Why" in CompareReasons(model).html
    assert [side.name for side in answer.comparison.rigs] == [demo_rig(n).tractor.name for n in ("two_track", "articulated")]
    answer.units = "si"
    assert answer.model.system == "si"
    before = rows.html
    rows.close()
    model.remove_rig(0)
    assert rows.html == before
    with pytest.raises(InputError):
        CompareAnswer(["nowhere.toml", "two_track"])
    with pytest.raises(InputError, match="at most 8"):
        CompareAnswer(["two_track"] * 9)
    alone = CompareAnswer(["two_track", "articulated"])
    alone.model.edit({"0.work.depth": "deep"})
    assert "This needs mending" in alone.html
    assert alone.comparison is None


def test_the_rig_of_another_page_stands_first_and_goes_back():
    sizing, model = SizeModel(), CompareModel()
    before = dict(model.inputs)
    model.take(sizing.to_carry(), "si")
    assert (model.inputs, model.system) == (before, "si"), "it was there already"
    sizing.start_from("two_track")
    sizing.edit({"work.depth": "13 in", "sheet.who": "me"})
    model.take(sizing.to_carry(), "us")
    assert tools(model) == [9, 11, 13]
    assert model.results.words.comparison.rigs[1].answer.rig == sizing.results.answer.rig
    model.edit({"0.work.depth": "12 in"})
    sizing.take(model.to_carry(), "us")
    assert sizing.results.answer.rig == replaced(demo_rig("two_track"), {"work.depth": "12 in"})
    assert sizing.inputs["sheet.who"] == "me"
    model.edit({"vary.0.entry": ""})
    model.add_demo("articulated")
    sizing.edit({"work.depth": "deep"})
    model.take(sizing.to_carry(), "us")
    assert [model.inputs[f"{place}.work.depth"] for place in places(model.inputs)] == ["deep", "11 in"]
    assert model.inputs["1.name"] == demo_rig("articulated").tractor.name
    with pytest.raises(InputError, match="one at least"):
        model.remove_rig(0), model.remove_rig(0)
