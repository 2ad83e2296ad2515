"""The page of passes without a browser: boxes, a file in slices, faults at their places, the picture, what is saved."""

import io
import json
import zipfile

import pytest
import shapefile
from picking import Browser

from rigcalc import field, in_words
from rigcalc.core.units import parse
from rigcalc.models import DEMO_RIGS
from rigcalc.models.land.boundary import MOST_BYTES
from rigcalc.views.passes import model as of_page
from rigcalc.views.passes.fields import OWN, PATHS
from rigcalc.views.passes.picture import field_picture
from rigcalc.widgets import (
    FieldsFile,
    FieldsNotes,
    FieldsPicture,
    FieldsSays,
    FieldsTable,
    FieldsTake,
    FieldsVerdict,
    PassesApp,
    PassesModel,
    SizeModel,
)

SQUARE = [[-120.0, -47.0], [-119.99, -47.0], [-119.99, -46.993], [-120.0, -46.993], [-120.0, -47.0]]
NORTH = {"type": "Feature", "properties": {"name": "north"}, "geometry": {"type": "Polygon", "coordinates": [SQUARE]}}
TURNED = {**NORTH, "geometry": {"type": "Polygon", "coordinates": [[[lat, lon] for lon, lat in SQUARE]]}}
PARTS = (FieldsVerdict, FieldsFile, FieldsPicture, FieldsSays, FieldsTable, FieldsTake, FieldsNotes)


def page(data=None, name="north.geojson", **typed):
    made = PassesModel()
    card = FieldsFile(made)
    if data is not None:
        Browser(card).pick(name, data if isinstance(data, bytes) else json.dumps(data).encode())
    if typed:
        made.edit({OWN + entry: text for entry, text in typed.items()})
    return made, card


def test_the_page_says_what_the_question_says():
    made, card = page(NORTH, heading="88 deg", rounds="3", turn_time="30 s")
    asked = field(DEMO_RIGS[0], json.dumps(NORTH).encode(), heading="88 deg", rounds=3, turn_time="30 s")
    assert made.faults == ()
    assert made.results.answer.hours == asked.hours
    assert "north.geojson: 1 field" in card.html
    assert str(made.results.said.headline)[1:] in FieldsVerdict(made).html


def test_every_box_does_something():
    values = {"heading": "20 deg", "rounds": "4", "turn_time": "60 s", "turn_radius": "60 ft", "steering": "rtk",
              "overlap": "2 ft", "move": "90 min"}  # fmt: skip
    assert {OWN + name for name in values} == PATHS
    made, _card = page(NORTH)
    facts = [(made.results.answer.hours, made.results.answer.move)]
    for name, text in values.items():
        made.edit({f"{OWN}turn_time": "", OWN + name: text} if name == "turn_radius" else {OWN + name: text})
        assert made.faults == (), name
        facts.append((made.results.answer.hours, made.results.answer.move))
        assert facts[-1] != facts[-2], name


def test_faults_of_boxes_file_and_rig_stand_at_their_places_at_once():
    made, card = page(TURNED, rounds="many", heading="12 lb")
    made.edit({"work.speed": "fast"})
    where = {fault.where for fault in made.faults}
    assert {f"{OWN}rounds", f"{OWN}heading", "work.speed"} < where
    assert any(each.startswith("boundary file, feature 1 (north), ring 1, position 1") for each in where)
    assert "swapped" in " ".join(fault.expected for fault in made.faults)
    assert made.results is None
    app = PassesApp(made)
    assert "boundary file" in app.faults.html
    assert "own.passes" not in app.faults.html.replace('data-path="own.passes', "").replace('data-value="own.passes', "")
    assert "not used yet" in card.html
    for part in PARTS:
        assert part(made) is not None  # each can be shown without an answer


@pytest.mark.parametrize(
    "data", [b"", b"{}", b"PK\x03\x04 no zip", b"\xff\xfe", b"[" * 100_000, {"type": "Point", "coordinates": [0, 0]}]
)
def test_what_is_no_boundary_is_told(data):
    made, _card = page(data)
    assert made.results is None
    assert all(fault.where.startswith("boundary file") for fault in made.faults)
    assert all("inside the program" not in fault.got for fault in made.faults)
    assert "pip" not in str(made.faults)


def test_a_zipped_shapefile_of_the_same_field(tmp_path):
    with shapefile.Writer(str(tmp_path / "a"), shapeType=shapefile.POLYGON) as out:
        out.field("NAME", "C", 20)
        out.poly([SQUARE])
        out.record("north")
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as packed:
        for end in ("shp", "dbf"):
            packed.write(tmp_path / f"a.{end}", f"farm/a.{end}")
    made, _card = page(held.getvalue(), "farm.zip")
    assert made.results.answer.area == page(NORTH)[0].results.answer.area


def test_a_file_that_is_left_out_or_too_big():
    made, card = page(NORTH)
    assert not made.fits_a_link()
    card.act("leave")
    assert made.results.answer.fields[0].boundary.name != "north"
    assert "invented field" in card.html
    assert made.fits_a_link()
    card.act("pick", {"name": "big", "size": MOST_BYTES + 1})
    assert "at most 16 MiB" in made.faults[0].expected


def test_more_fields_than_a_page_takes(monkeypatch):
    monkeypatch.setattr(of_page, "MOST_ON_PAGE", 1)
    east = {**NORTH, "geometry": {"type": "Polygon", "coordinates": [[[lon + 0.02, lat] for lon, lat in SQUARE]]}}
    made, _card = page({"type": "FeatureCollection", "features": [NORTH, east]})
    assert [fault.got for fault in made.faults] == ["2 fields"]


def test_the_picture_and_what_is_saved():
    made, _card = page({"type": "FeatureCollection", "features": [{**NORTH, "properties": {"name": "<b>n"}}]})
    picture = FieldsPicture(made)
    assert "<svg" in picture.html
    assert "<b>n" not in picture.html
    assert "&lt;b&gt;n" in picture.html
    take, sent = FieldsTake(made), []
    take.save = lambda *given: sent.append(given)
    take.act("save", "geojson")
    take.act("save", "svg")
    lines = json.loads(sent[0][1])
    assert sum(each["properties"]["kind"] == "pass" for each in lines["features"]) == made.results.answer.fields[0].laid.count
    assert sent[1][1].decode() == field_picture(made.results)


def test_a_picture_is_as_wide_as_it_is_asked_to_be():
    words = in_words(field("articulated"), "si")
    assert 'viewBox="0 0 760 ' in field_picture(words, 760)
    assert 'viewBox="0 0 1200 ' in field_picture(words)


@pytest.mark.parametrize("units", ["us", "si"])
def test_what_to_type_for_the_season_is_what_the_plan_has(units):
    made, _card = page()
    made.switch_units(units)
    words = made.results
    for line in words.for_season[:-1]:
        value = line.split(": ")[1].split(",")[0]
        assert any(value in each for each in words.plan.splitlines()), line
    d, last = words.answer.driving, words.for_season[-1]
    assert len(words.for_season) == 6
    assert parse(last.split(": ")[1])[0] == pytest.approx((d.width - d.spacing) * (100 if units == "si" else 39.3701), rel=1e-3)


def test_units_boxes_and_file_stay_while_the_rig_goes_along():
    made, _card = page(NORTH, rounds="3")
    before = made.results.answer
    made.switch_units("si")
    assert made.results.answer is before
    assert "ha" in FieldsVerdict(made).html
    size = SizeModel()
    size.start_from("two_track")
    made.take(size.to_carry(), "us")
    assert made.inputs[f"{OWN}rounds"] == "3"
    assert made.results.answer.rig == size.rig_shown()
    assert len(made.results.answer.fields) == 1
    assert not any(path.startswith(OWN) for path in made.to_carry())
    again = PassesModel()
    again.start_from_query(made.to_query())
    assert again.inputs[f"{OWN}rounds"] == "3"
