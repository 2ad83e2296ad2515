"""The page "What the field said" without a browser: boxes, faults, what goes along, setting aside, folds, links and files."""

import json

import pytest
from known_rigs import known_text

from rigcalc.core.errors import InputError
from rigcalc.models import load_rig, size
from rigcalc.models.machine.field import told_of
from rigcalc.models.machine.sure import how_sure
from rigcalc.models.reading import foretold, tells
from rigcalc.models.reading.adding import made_now, with_reading
from rigcalc.models.reading.before_after import over_depth
from rigcalc.models.reading.tells import told_so
from rigcalc.models.reading.zones import zones
from rigcalc.models.rig.beside import reading_from
from rigcalc.models.rig.file import rig_from
from rigcalc.views import RigPages
from rigcalc.views.reading.fields import BOX
from rigcalc.views.reading.picture import describe, twin
from rigcalc.views.rig.model import nested
from rigcalc.views.size.model import SizeModel
from rigcalc.widgets import (
    BeforeAfter,
    CabCard,
    FieldApp,
    FieldModel,
    ReadingBox,
    ReadingChanges,
    ReadingList,
    ReadingNext,
    ReadingRecord,
    ReadingSays,
    ReadingTold,
    ReadingZones,
)
from rigcalc.words import in_words
from rigcalc.words.reading.zones import zone_lines

HOSTILE = "<script>alert(1)</script>\"'&`$x$"
FIRST = {"depth": "14", "speed": "5.1", "slip": "13", "load": "105", "load_of": "available", "date": "2026-11-04"}
AGAIN = {"depth": "12.5", "speed": "5.4", "load": "95", "depth_behind": "3"}


@pytest.fixture
def model():
    found = FieldModel()
    found.start_from_toml(known_text())
    return found


@pytest.fixture
def box(model):
    return ReadingBox(model)


def typed_in(box, **entries):
    box.type(**entries)
    box.add()


def at_boxes(model):
    return {fault.where.removeprefix(BOX): fault for fault in model.faults}


def test_a_number_pad_is_completed_with_the_unit_of_the_page(model, box):
    typed_in(box, **FIRST)
    (reading,) = model.rig_shown().reading
    assert [str(each) for each in (reading.depth, reading.speed, reading.slip, reading.load)] == [
        *("14 in", "5.1 mph", "13 percent", "105 percent")
    ]
    assert (reading.date, reading.load_of, reading.depth_behind) == ("2026-11-04", "available", 1)
    model.switch_units("si")
    typed_in(box, depth="32", speed="8.5", fuel_rate="80")
    second = model.rig_shown().reading[1]
    assert [str(each) for each in (second.depth, second.speed, second.fuel_rate)] == ["32 cm", "8.5 km/h", "80 L/h"]
    assert second.load_of is None, "what a load is a share of goes with a load"
    assert model.inputs[BOX + "load_of"] == "available", "it stays for the next one"


def test_what_is_kept_is_what_the_command_keeps(model, box):
    before = model.rig_shown()
    typed_in(box, **FIRST)
    units = {"depth": "14 in", "speed": "5.1 mph", "slip": "13 percent", "load": "105 percent"}
    plain = reading_from({**FIRST, **units, "made_with": made_now(before)})
    (kept,) = model.rig_shown().reading
    assert kept.made_with == plain.made_with
    for kind, span in foretold(before, plain).items():
        assert kept.said(kind) == pytest.approx((span.low, span.high), rel=1e-3)


def test_every_fault_stands_at_its_box_at_once_until_it_is_mended(model, box):
    wrong = {"depth": "deep", "speed": "5 kg", "slip": "120", "load": "85", "depth_behind": "three", "date": "2026-13-01"}
    typed_in(box, **wrong)
    assert set(at_boxes(model)) == {*wrong, "load_of"} - {"load"}
    assert model.rig_shown().reading == ()
    state = box.form.state
    for name in at_boxes(model):
        assert state[BOX + name]["fault"].startswith("Expected"), name
    assert "6 things need mending" in box.button.html
    box.type(depth="14", date="2026-11-04", load_of="rated")
    assert set(at_boxes(model)) == {"speed", "slip", "depth_behind"}, "what was mended is said no more"
    box.type(speed="5.1", slip="12", depth_behind="2")
    assert model.faults == ()
    assert model.rig_shown().reading == (), "nothing is added before the button is pressed"
    box.add()
    assert model.rig_shown().reading[0].depth_behind == 2


def test_an_empty_box_says_what_to_type_and_today_is_never_filled_in_silently(model, box):
    box.add()
    assert set(at_boxes(model)) == {"date", "depth", "speed", "slip"}
    assert at_boxes(model)["depth"].type_this == "14 in"
    model.switch_units("si")
    box.add()
    assert at_boxes(model)["depth"].type_this == "36 cm"
    assert model.inputs.get(BOX + "date", "") == ""
    box.button.act("today")
    assert len(model.inputs[BOX + "date"]) == 10
    assert "date" not in at_boxes(model)


def test_a_fuel_rate_out_of_range_is_one_fault(model, box):
    typed_in(box, **{**FIRST, "slip": "", "load": "", "fuel_rate": "900"})
    assert set(at_boxes(model)) == {"fuel_rate"}


def test_the_same_reading_twice_is_refused_and_so_is_one_that_no_field_gives(model, box):
    typed_in(box, **FIRST)
    typed_in(box, **FIRST)
    assert "the same as reading 1" in box.button.html
    assert len(model.rig_shown().reading) == 1
    box.type(depth="51", date="2026-11-05")
    box.add()
    assert "Not added" in box.button.html
    assert len(model.rig_shown().reading) == 1
    box.type(depth="14")
    assert "Not added" not in box.button.html


def test_the_page_says_what_the_models_say(model, box):
    app = FieldApp(model)
    typed_in(box, **FIRST)
    typed_in(box, **AGAIN)
    rig = model.rig_shown()
    answer = size(rig)
    assert model.results.words.answer.verdict == answer.verdict
    assert told_so(told_of(rig)) == tells(rig).draft["all"]
    assert in_words(answer).said.word in app.children[0].html
    assert "from 2 readings of 4 November 2026" in app.children[0].html
    assert "2 readings of 4 November 2026" in ReadingSays(model).html
    assert "Without the readings" in ReadingSays(model).html
    rows = in_words(answer).changed
    assert all(row.before in ReadingChanges(model).html and row.after in ReadingChanges(model).html for row in rows)
    told = ReadingTold(model)
    assert "alone" not in told.html, "worked out when it is opened"
    told.act("open", "told")
    assert "engine load alone" in told.html
    later = ReadingNext(model)
    later.unfold()
    assert "By 2 readings" in later.html
    assert "Being worked out" not in later.html


def test_headland_and_cart_lanes_are_worked_out_when_they_are_opened(model, box):
    card = ReadingZones(model)
    assert "times as hard" not in card.html
    card.unfold()
    assert card.html.count("no reading there") == 2
    assert "The headland pulls 1.30 to 2.10 times as hard" in card.html
    typed_in(box, **FIRST)
    typed_in(box, **FIRST | {"zone": "headland", "depth": "10", "slip": "12"})
    assert model.inputs[BOX + "zone"] == "", "the next reading is of the open field again"
    assert [reading.zone for reading in model.rig_shown().reading] == ["", "headland"]
    assert model.results.weighed.told.left_out == {1: "other_zone"}
    assert "its zone alone" in ReadingList(model).html
    assert "(1 reading there)" in card.html
    assert "(no reading there)" in card.html
    for line in zone_lines(zones(model.rig_shown()), model.rig_shown(), "us"):
        assert line in card.html


def test_without_a_reading_the_page_says_so_and_shows_the_table_alone(model):
    assert "Nothing yet" in ReadingSays(model).html
    assert "None yet" in ReadingList(model).html
    assert (ReadingChanges(model).html, ReadingTold(model).html, ReadingRecord(model).html) == ("", "", "")
    words = model.results.words
    assert {line["name"] for line in describe(words)["data"]} == {"by the table"}
    assert len(twin(words).heads) == 3


def test_the_picture_shows_before_and_after_and_its_table_says_the_same(model, box):
    before = model.results.words.answer
    typed_in(box, **FIRST)
    words, picture = model.results.words, BeforeAfter(model)
    answer = words.answer
    lines = describe(words)["data"]
    assert [line["name"] for line in lines] == ["by the table"] * 3 + ["by the readings"] * 3
    depth = [float(answer.point.bare.depth)]
    for one, other in ((before, answer.before), (answer, answer)):
        found, sure = over_depth(one.bare_rig, one.caps, depth), how_sure(other.bare_rig, other.caps)
        low, _, high, _ = sure.bands["draft"]
        assert (found.low[0], found.high[0]) == pytest.approx((low, high), rel=0.03)
        assert found.chance[0] == pytest.approx(sure.chance_works, abs=0.04)
    narrow = [line["y"][-1] for line in lines]
    assert narrow[4] / narrow[3] < narrow[1] / narrow[0], "the band of the readings is narrower"
    assert len(twin(words).heads) == 5
    picture.open_twin()
    assert "by the readings" in picture.twin


def test_a_reading_is_set_aside_with_a_reason_and_counted_again(model, box):
    typed_in(box, **FIRST)
    listed = ReadingList(model)
    assert "Why is it set aside?" not in listed.html
    listed.act("ask", "0")
    assert "Why is it set aside?" in listed.html
    listed.act("aside")
    assert "why this reading isn't to be counted" in str(model.faults[0])
    assert model.rig_shown().reading[0].set_aside == ""
    listed.act("why", HOSTILE)
    listed.act("aside")
    assert model.rig_shown().reading[0].set_aside == HOSTILE
    assert model.results.weighed.told is None
    assert "<script" not in listed.html
    assert "No reading counts" in ReadingSays(model).html
    listed.act("count", "0")
    assert model.results.weighed.told is not None
    model.undo()
    assert model.rig_shown().reading[0].set_aside == HOSTILE
    for odd in ("9", "-1", "x", "1e9", "٣"):
        listed.act("count", odd)
        assert "reading of the list" in str(model.faults[-1])


def test_a_number_that_goes_with_nothing_is_named_and_still_counts(model, box):
    typed_in(box, **FIRST)
    typed_in(box, depth="14", speed="5.1", load="20", date="2026-11-04")
    told = model.results.weighed.told
    assert len(told.seen) == 2
    assert told.misfits
    assert "Look again" in ReadingSays(model).html
    assert "set that reading aside" in ReadingSays(model).html


def test_readings_that_cannot_be_stay_in_sight_to_be_set_aside(model, box):
    typed_in(box, **FIRST)
    bad = json.loads(model.inputs["reading"])
    bad[0] |= {"depth": "51 in", "speed": "5.1 mph"}
    bad[0]["made_with"]["tools"] = 100  # more than grip can pull in any field
    model.edit({"reading": json.dumps(bad)})
    assert model.results.words is None
    assert "reading 1" in str(model.faults[0])
    listed = ReadingList(model)
    listed.act("ask", 0)
    listed.act("why", "typed wrong")
    listed.act("aside")
    assert model.faults == ()
    assert model.results.words is not None


def test_the_record_counts_and_says_that_few_say_little(model, box):
    typed_in(box, **FIRST)
    record = ReadingRecord(model)
    assert "of 2 numbers lay inside" in record.html
    assert "So few say next to nothing" in record.html
    assert "engine load of reading 1" in record.html


def test_typing_into_a_box_weighs_nothing_again(model, box):
    typed_in(box, **FIRST)
    weighed = model.results.weighed
    box.type(depth="11", speed="5")
    assert model.results.weighed is weighed
    model.edit({"work.depth": "11 in"})
    assert model.results.weighed is not weighed


def test_a_link_and_a_file_keep_readings_and_half_of_one(model, box):
    typed_in(box, **FIRST)
    typed_in(box, **AGAIN)
    box.type(depth="11")
    other = FieldModel()
    other.start_from_query(model.to_query())
    assert other.rig_shown() == model.rig_shown()
    assert other.inputs[BOX + "depth"] == "11 in"
    assert other.faults == ()
    third = FieldModel()
    third.start_from_toml(model.to_toml())
    assert third.rig_shown() == model.rig_shown()


def test_a_link_that_would_be_too_long_says_so_and_a_file_keeps_all(model, box):
    typed_in(box, **FIRST)
    (one,) = json.loads(model.inputs["reading"])
    many = [{**one, "depth": f"{14 + place / 100:g} in"} for place in range(40)]
    model.edit({"reading": json.dumps(many)})
    assert model.faults == ()
    assert model.to_query() == ""
    assert "more here than a link can hold" in ReadingList(model).html
    assert len(rig_from(nested(model.inputs)).reading) == 40
    assert "more here than a link can hold" in FieldApp(model).bar.html


def test_readings_go_along_to_the_other_pages_and_back():
    pages = RigPages("field")
    model = pages.app.model
    model.start_from_toml(known_text())
    box = ReadingBox(model)
    typed_in(box, **FIRST)
    typed_in(box, **AGAIN)
    rig = model.rig_shown()
    pages.row.act("page", "answer")
    answer = pages.app.model
    assert answer.rig_shown() == rig
    assert "from 2 readings of 4 November 2026" in str(answer.results)
    assert not any(path.startswith(BOX) for path in answer.inputs)
    pages.row.act("page", "weight")
    assert pages.app.model.rig_shown() == rig
    pages.row.act("page", "rig")
    assert pages.app.model.rig_shown() == rig
    pages.row.act("page", "compare")
    pages.row.act("page", "field")
    assert model.rig_shown() == rig
    assert model.inputs[BOX + "date"] == "2026-11-04", "what stands in the boxes stays with the page"


def test_the_card_of_the_chance_says_of_what(model, box):
    sized = SizeModel()
    sized.start_from_toml(known_text())
    assert "such fields: every limit holds" in CabCard(sized).html
    typed_in(box, **FIRST)
    sized.start_from(model.rig_shown())
    assert "for this field: every limit holds" in CabCard(sized).html


def test_the_box_stands_alone_and_goes_away(tmp_path):
    box = ReadingBox("articulated")
    heard = []
    box.observe(heard.append, names="answer")
    typed_in(box, **FIRST)
    assert box.answer.before is not None
    assert heard
    assert len(box.rig.reading) == 1
    with pytest.raises(InputError, match="a box of a reading"):
        box.type(colour="red")
    box.close()


def test_a_rig_takes_one_more_reading_and_leaves_the_first_alone():
    rig = load_rig("articulated")
    made = reading_from({"date": "2026-11-04", "depth": "12 in", "speed": "5 mph", "slip": "9 percent"})
    one = with_reading(rig, made)
    assert (rig.reading, one.reading) == ((), (made,))
    with pytest.raises(InputError, match="same as reading 1"):
        with_reading(one, made)


def test_a_reading_of_the_headland_alone_leaves_the_open_field_to_the_table(model, box):
    before = model.results.words.answer.verdict
    typed_in(box, **FIRST | {"zone": "headland", "depth": "10"})
    assert model.results.weighed.told is None
    assert model.results.words.answer.verdict == before
    assert "its zone alone" in ReadingList(model).html
    assert "No reading counts as things stand, so the answer goes by the table" in ReadingSays(model).html


def test_the_boxes_that_few_need_take_what_the_command_takes(model, box):
    errors = {"depth_error": "0.5", "slip_error": "2", "load_error": "4", "fuel_error": "6", "pull_error": "5"}
    plain = {name: text for name, text in FIRST.items() if name not in ("slip", "load", "load_of")}
    typed_in(box, **plain, wheel_speed="5.8", engine_speed="1900", pull="9000", note="by the road", **errors)
    (reading,) = model.rig_shown().reading
    assert [str(each) for each in (reading.wheel_speed, reading.engine_speed, reading.pull)] == [
        "5.8 mph",
        "1900 rpm",
        "9000 lbf",
    ]
    assert (str(reading.depth_error), str(reading.slip_error), str(reading.pull_error)) == ("0.5 in", "2 percent", "5 percent")
    assert reading.load_error is None, "of a number that wasn't read nothing is off"
    assert reading.fuel_error is None
    assert reading.note == "by the road"
    assert model.inputs[BOX + "fuel_error"] == "6 percent", "they stay for the next reading"
    assert model.inputs[BOX + "pull"] == model.inputs[BOX + "note"] == ""
    typed_in(box, depth="13", speed="5", turns_loaded="100", turns_unloaded="88")
    second = model.rig_shown().reading[1]
    assert second.measured_slip[0] == pytest.approx(0.12)
    assert second.said_slip.startswith("0 to "), "after so light a pull a display may well show none, never less than none"


def test_what_is_wrong_in_those_boxes_is_said_there(model, box):
    plain = {name: text for name, text in FIRST.items() if name not in ("slip", "load", "load_of")}
    typed_in(box, **plain, wheel_speed="5 kg", pull="much", load_error="90")
    assert set(at_boxes(model)) == {"wheel_speed", "pull"}
    assert box.more.state[BOX + "pull"]["fault"].startswith("Expected")
    box.type(wheel_speed="4", pull="9000")
    assert set(at_boxes(model)) == {"slip"}, "wheels slower than the ground"
    assert "below zero" in at_boxes(model)["slip"].expected
    with pytest.raises(InputError, match="a box of a reading"):
        box.type(pace="3")
