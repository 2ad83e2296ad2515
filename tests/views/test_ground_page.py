"""The page "The ground" without a browser: flags as typed, faults at their box, what goes along, the picture and its table."""

import numpy as np
import pytest
from known_rigs import known_text

from rigcalc.core.errors import InputError
from rigcalc.models import read_rig, size
from rigcalc.models.ground import ground as ground_for
from rigcalc.views import RigPages
from rigcalc.views.ground.fields import with_units
from rigcalc.views.ground.picture import _columns, describe, twin
from rigcalc.widgets import GroundApp, GroundModel, SoilAnswer, SoilDepth, SoilPicture, SoilPressing, SoilQuestions, SoilWhere
from rigcalc.words import in_words

HOSTILE = "<script>alert(1)</script>\"'&`$x$"
FLAGS = "7 11 340\n8 12 350\n-\n6\t9\t330\n9 deeper\n7 to 10\n8 11 400\n7 9 320\n8 10 350\n7 10"
TABLE = "depth (cm)\tA (kPa)\tB (kPa)\n" + "\n".join(f"{d}\t{a}\t{b}" for d, a, b in (
    (5, 500, 400), (10, 900, 800), (15, 1500, 900), (20, 2800, 1100), (25, 2900, 1200), (30, 1500, 1100), (35, 1200, 1200),
))  # fmt: skip


@pytest.fixture
def model():
    found = GroundModel()
    found.start_from_toml(known_text())
    return found


@pytest.mark.parametrize(
    ("typed", "system", "kept"),
    [
        ("8 12 350", "us", "8 in to 12 in, 350 psi"),
        ("8\t12\t350", "us", "8 in to 12 in, 350 psi"),
        ("20 30 2400", "si", "20 cm to 30 cm, 2400 kPa"),
        ("20,5; 30; 2400", "si", "20.5 cm to 30 cm, 2400 kPa"),
        ("8 to 12", "us", "8 in to 12 in"),
        ("9 deeper", "us", "9 in to deeper"),
        ("-\n none \n\n7 9", "us", "none\nnone\n7 in to 9 in"),
        ("8 in to 12 in", "si", "8 in to 12 in"),
        ("120 180 320 210 psi each 3 in", "si", "120 180 320 210 psi each 3 in"),
        ("8", "us", "8"),
        ("8 12 350 7", "us", "8 12 350 7"),
        (HOSTILE, "us", HOSTILE),
    ],
)
def test_flags_get_the_units_that_stand_at_the_box_and_nothing_else(typed, system, kept):
    assert with_units(typed, system) == kept


def test_a_table_with_headings_stays_as_it_is(model):
    model.edit({"ground.flags": TABLE})
    assert model.inputs["ground.flags"] == TABLE
    layers = model.results.answer.layers
    assert layers.found.tolist() == [True, False]
    assert 15 < layers.top[0] < 20 < 25 < layers.bottom[0] < 30


def test_every_fault_stands_at_its_box_at_once_and_no_number_is_shown(model):
    app = GroundApp(model)
    changes = {"ground.flags": f"8 12 14\n{HOSTILE}\n12 8 350", "ground.axles": "a cart", "ground.residue_keep": "much"}
    model.edit(changes)
    assert model.results is None
    wheres = {fault.where for fault in model.faults}
    assert "ground.residue_keep" in wheres
    model.edit({"ground.residue_keep": "30 percent"})
    wheres = {fault.where for fault in model.faults}
    assert wheres >= {"ground.flags: flag 1", "ground.flags: flag 2", "ground.flags: flag 3", "ground.axles: axle 1"}
    (answer,) = [child for child in app.children if isinstance(child, SoilAnswer)]
    assert "No answer" in answer.html
    assert "<script>" not in app.faults.html
    assert "&lt;script&gt;" in app.faults.html


def test_the_page_says_what_the_command_says_and_the_answer_page_goes_by_it(model):
    model.edit({"ground.flags": FLAGS, "ground.thread_test": "rolls"})
    rig = model.rig_shown()
    words = in_words(ground_for(rig), "us")
    assert SoilAnswer(model).html.count(words.said.headline.replace("'", "&#39;")) == 1
    assert words.said.word == "Don't"
    assert "too wet" in words.said.headline
    assert str(in_words(size(rig), "us")).startswith("Don't: too wet")
    assert in_words(ground_for(read_rig(model.to_toml())), "us").said == words.said
    other = GroundModel()
    other.inputs = other.inputs_from_link({"rig": model.inputs["rig"], **model.inputs})
    other.recompute()
    assert other.rig_shown() == rig


@pytest.mark.slow
def test_what_is_typed_on_the_page_goes_along_to_the_answer():
    pages = RigPages("ground")
    pages.app.model.edit({"ground.thread_test": "rolls", "ground.flags": "8 12 350"})
    pages.row.act("page", "answer")
    assert pages.app.model.inputs["ground.flags"] == "8 in to 12 in, 350 psi"
    assert str(pages.app.model.results).startswith("Don't: too wet")


def test_every_question_has_its_word_and_its_reason(model):
    model.edit({"ground.flags": FLAGS, "ground.thread_test": "crumbles", "ground.residue_cover": "85 percent"})
    titles = [each.title for each in model.results.questions]
    assert titles == ["Dry enough to break?", "A layer, and how deep?", "Do wheels put it back?"]
    model.edit({"ground.residue_keep": "80 percent"})
    html = SoilQuestions(model).html
    assert "Enough residue left?</strong> Don&#39;t" in html
    assert "9 of 10 flags pass 300 psi" in SoilDepth(model).html
    model.edit({"ground.axles": "<b>cart</b>: 30 t on 2 tyres of 600 mm by 1.5 m"})
    assert "&lt;b&gt;cart&lt;/b&gt;" in SoilPressing(model).html


def test_the_line_of_depth_is_the_rigs_and_a_tap_moves_it(model):
    picture = SoilPicture(model)
    model.edit({"ground.flags": FLAGS})
    first = describe(model.results)
    assert first["point"] == [0.0, pytest.approx(model.rig_shown().work.depth.to("in"))]
    picture.tap(3.0, 12.8, live=False)
    assert model.inputs["work.depth"] == "13 in"
    moved = describe(model.results)
    assert moved["point"][1] == pytest.approx(13)
    bars = {trace["name"]: len(trace["x"]) for trace in moved["data"] if trace["type"] == "bar"}
    assert bars == {"layer that stays": 1, "layer got under": 8}, "the one that ends deeper stays at any depth"
    texts = [note["text"] for note in moved["layout"]["annotations"]]
    assert texts == ["13 in", "under 8 of 9"]
    model.switch_units("si")
    assert describe(model.results)["point"][1] == pytest.approx(33.02)


def test_what_is_drawn_stands_where_it_was_read(model):
    """Bars from top to bottom of each layer, the band from their middles, stress and critical depth in the units shown."""
    model.edit({"ground.flags": "6 9 330\n7 10 340\n8 12 350\n-", "work.depth": "10.5 in"})
    answer, drawn = model.results.answer, describe(model.results)
    bars = {trace["name"]: trace for trace in drawn["data"] if trace["type"] == "bar"}
    got, stays = bars["layer got under"], bars["layer that stays"]
    assert (list(got["x"]), list(got["base"]), list(got["y"])) == ([1], pytest.approx([6]), pytest.approx([3]))
    # 10 in is within an inch of the points: they have to run 1 in under it
    assert (list(stays["x"]), list(stays["base"]), list(stays["y"])) == ([2, 3], pytest.approx([7, 8]), pytest.approx([3, 4]))
    (band,) = [shape for shape in drawn["layout"]["shapes"] if shape.get("layer") == "below"]
    assert (band["y0"], band["y1"]) == (pytest.approx(7), pytest.approx(10))
    traces = {trace["name"].split(",")[0]: trace for trace in drawn["data"]}
    cut = answer.pressing.section
    assert traces["stress"]["x"] == pytest.approx(cut.across / 0.0254)
    assert traces["stress"]["y"][-1] <= drawn["layout"]["yaxis"]["range"][0]
    middle = sum(answer.shanks.critical) / 2 / 2.54
    assert traces["critical depth"]["y"] == [pytest.approx(middle)] * 2
    (circle,) = [trace for trace in drawn["data"] if trace["name"] == "no layer"]
    assert list(circle["x"]) == [4]


def test_nothing_is_drawn_below_the_last_reading_of_a_site(model):
    model.edit({"ground.flags": "depth (cm)\tA (kPa)\n" + "\n".join(f"{d}\t{100 * d}" for d in (10, 20, 30)) + "\n"})
    log = model.results.answer.readings.profiles
    short = type(log)(("a", "b"), np.vstack([log.depth, [10, 20, np.nan]]), np.vstack([log.reading, [700, 800, np.nan]]))
    columns = _columns(short, np.arange(2), 2000.0, "si")
    below = columns["y"] > 20.01
    assert np.isnan(columns["z"][below, 1]).all()
    assert columns["z"][~below, 0][-1] == pytest.approx(100 * columns["y"][~below][-1])
    assert (columns["z"][-1, 0], list(columns["x"])) == (pytest.approx(3000), [1, 2])


def test_the_section_is_no_deeper_than_the_rig_and_ridges_stand_between_shanks(model):
    shanks = model.results.answer.shanks
    across = np.linspace(-100, 100, 401)
    places = shanks.places(100.0, 9)
    deep = shanks.loosened_to(across, places)
    reach = min(shanks.work, sum(shanks.critical) / 2)
    assert deep.max() == pytest.approx(reach)
    between = shanks.loosened_to((places[:-1] + places[1:]) / 2, places)
    ridge = shanks.at(shanks.work, "ridge") - (shanks.work - reach)
    assert reach - between == pytest.approx(np.full(places.size - 1, ridge), abs=0.26), "the curve has a value each cm"
    area = deep[(across >= places[3]) & (across < places[4])].mean() * shanks.spacing / 1e4
    assert area == pytest.approx(shanks.at(shanks.work, "section"), rel=0.02)
    assert shanks.places(1000.0, 1).tolist() == [0.0]
    near = shanks.places(20.0, 9)
    assert near == pytest.approx(-near[::-1]), "as many to the left as to the right"


def test_the_table_beside_the_picture_says_the_same(model):
    model.edit({"ground.flags": FLAGS, "work.depth": "10 in"})
    found = twin(model.results)
    (row,) = [row for row in found.rows if row[0].endswith("(the rig)")]
    assert row[-1] == "2 of the 9 flags with a layer", row
    assert len(found.heads) == len(found.rows[0]) == 5
    model.edit({"ground.flags": ""})
    assert len(twin(model.results).heads) == 4


def test_readings_show_as_columns_and_many_sites_are_thinned():
    lines = ["depth (cm)," + ",".join(f"s{n} (kPa)" for n in range(150))]
    lines += [f"{d}," + ",".join(str(900 + 10 * d + 2000 * (20 <= d <= 25)) for _ in range(150)) for d in range(5, 45, 5)]
    model = GroundModel()
    model.edit({"ground.flags": "\n".join(lines)})
    assert model.faults == ()
    described = describe(model.results)
    (columns,) = [trace for trace in described["data"] if trace["type"] == "heatmap"]
    assert columns["z"].shape == (41, 60)
    assert "150" in SoilDepth(model).html
    assert "the first 60 of 150" in SoilDepth(model).html


def test_a_file_that_is_no_text_of_flags_is_refused_in_words():
    for text in ("a\tdepth (cm)\n1", "depth\tA (kPa)\n5\t500\n10\t600", ";;;", "x" * 19_000):
        model = GroundModel()
        model.edit({"ground.flags": text})
        assert model.results is None or not model.inputs["ground.flags"].strip(";"), text[:20]
    with pytest.raises(InputError, match="letters"):
        GroundModel().edit({"ground.flags": "x" * 30_000})


def test_flags_after_the_pass_say_whether_it_worked_and_each_fault_stands_at_its_box(model):
    model.edit({"ground.flags_after": "-\n-"})
    assert [fault.where for fault in model.faults] == ["ground.flags_after"], "nothing was probed before"
    model.edit({"ground.flags": FLAGS})
    model.edit({"ground.flags_after": "8 12 14\n-"})
    assert [fault.where for fault in model.faults] == ["ground.flags_after: flag 1"]
    model.edit({"ground.flags_after": "-\n" * 9 + "8\t11\t330"})
    assert model.inputs["ground.flags_after"].endswith("none\n8 in to 11 in, 330 psi")
    words = model.results
    assert (words.said.word, words.answer.worked.after) == ("It worked", (1, 10))
    assert "It worked: a layer is still there at 1 of 10 flags" in SoilQuestions(model).html
    assert "After: at 1 of 10" in SoilDepth(model).html
    assert in_words(ground_for(read_rig(model.to_toml())), "us").said == words.said
    model.switch_units("si")
    model.edit({"ground.flags_after": "20 30 2400\n" * 10})
    assert model.inputs["ground.flags_after"].startswith("20 cm to 30 cm, 2400 kPa\n")
    assert model.results.said.word == "It didn't work"
    drawn = describe(model.results)
    after = [trace for trace in drawn["data"] if trace.get("xaxis") == "x3"]
    assert [(trace["name"], len(trace["x"])) for trace in after] == [("layer after the pass", 10)]
    assert drawn["layout"]["xaxis2"]["domain"][1] < drawn["layout"]["xaxis3"]["domain"][0]
    model.edit({"ground.flags_after": ""})
    assert model.results.answer.worked is None
    assert "xaxis3" not in describe(model.results)["layout"]


def test_the_slope_and_the_way_of_the_passes_are_two_boxes(model):
    model.edit({"ground.slope": "12 percent"})
    assert "nobody has said how the passes run" in SoilQuestions(model).html
    model.edit({"ground.passes_run": "along"})
    assert model.results.said.word == "Don't"
    assert "passes along a slope of 12 %" in SoilAnswer(model).html
    model.edit({"ground.passes_run": "across", "ground.slope": "6 deg"})
    assert model.results.answer.slope.steep == pytest.approx(np.tan(np.deg2rad(6)))
    assert model.results.answer.slope.line.value == "across"
    model.edit({"ground.grade": "5 deg"})
    assert [fault.where for fault in model.faults] == ["ground.slope"], "rows that climb 5 deg don't run across"
    model.edit({"ground.grade": "0 deg", "ground.slope": "80 percent"})
    assert [fault.where for fault in model.faults] == ["ground.slope"]


def test_the_parts_of_the_field_have_boxes_a_table_and_faults_of_their_own(model):
    assert SoilWhere(model).html.count("<table") == 0
    model.edit({"ground.traffic": "combine: 9 m apart, 2 tyres of 75 cm; a cart"})
    assert [fault.where for fault in model.faults] == ["ground.field", "ground.traffic: traffic 2"]
    model.edit(
        {"ground.field": "800 m by 400 m", "ground.traffic": "combine: 9 m apart, 2 tyres of 75 cm", "ground.headland": "0 m"}
    )
    assert [fault.where for fault in model.faults] == ["ground.headland"]
    model.edit({"ground.headland": ""})
    answer = model.results.answer
    assert answer.zones == ground_for(read_rig(model.to_toml())).zones
    assert sum(each.area for each in answer.zones.each) == pytest.approx(32)
    html = SoilWhere(model).html
    assert "headland" in html
    assert "(controlled traffic)" in html
    typed = ground_for(model.rig_shown(), field="600 m by 300 m").zones
    assert (sum(each.area for each in typed.each), typed.lanes) == (pytest.approx(18), answer.zones.lanes), (
        "what isn't typed is the file's"
    )


def test_the_page_never_sends_its_reader_to_a_terminal(model):
    model.edit({"ground.field": "800 m by 400 m", "ground.traffic": "combine: 9 m apart, 2 tyres of 75 cm",
                "ground.wetness": "moist", "ground.residue_cover": "90 percent"})  # fmt: skip
    page = model.results
    every = (str(page), *page.pressing, *page.zone_lines, *page.tool, *page.notes, *page.residue, *page.layer)
    assert not [line for line in every if "--" in line or "rigcalc " in line or "[ground]" in line or "`" in line]
    terminal = in_words(page.answer, "us")
    assert any("--axle" in line for line in terminal.pressing)
    assert any("rigcalc reading zones" in line for line in terminal.zone_lines)


def test_strips_with_the_pass_and_without_have_boxes_lines_and_faults_of_their_own(model):
    assert "Strips with the pass" not in SoilDepth(model).html
    model.edit({"ground.trial_scatter": "8 percent"})
    assert (model.results.answer.trial, model.faults) == (None, ())
    model.edit({"ground.trial_see": "5 percent", "ground.trial_pairs": "6"})
    trial = model.results.answer.trial
    assert (trial.needed, trial.pairs, trial.enough, trial.known) == ((23, 23), 6, False, True)
    html = SoilDepth(model).html
    assert "Strips with the pass and without" in html
    assert "23 pairs" in html
    assert ground_for(read_rig(model.to_toml())).trial == trial
    assert ground_for(read_rig(model.to_toml()), see="20 percent").trial.needed == ground_for(
        "front_wheel_assist", see="20 percent", scatter="8 percent").trial.needed  # fmt: skip
    model.edit({"ground.trial_see": "5", "ground.trial_scatter": HOSTILE})
    assert {fault.where for fault in model.faults} == {"ground.trial_see", "ground.trial_scatter"}
    model.edit({"ground.trial_see": "", "ground.trial_scatter": "", "ground.trial_pairs": "1"})
    assert [fault.where for fault in model.faults] == ["ground.trial_pairs"]
