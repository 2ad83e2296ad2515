"""Fields in words: the first sentence, a no, both systems, nothing said that isn't known."""

import json
import re

import pytest

from rigcalc import field, in_words
from rigcalc.models import demo_rig, replaced
from rigcalc.models.land.files import DEMO
from rigcalc.words.passes.sentence import bearing, hours, say_way

FEATURES = json.loads(DEMO.read_text(encoding="utf-8"))["features"]
WEDGE, POND, CORNER = (json.dumps(FEATURES[at]).encode() for at in (1, 3, 5))


def said(boundary=POND, units="us", rig="articulated", **options):
    return in_words(field(rig, boundary, **options), units)


def test_one_field_is_told_with_its_heading_and_what_that_is_worth():
    words = said()
    text = str(words)
    assert text.startswith("Go: by time alone, 134 acre at 69° (249° back), along the longest side, take 14.8 h in 137 passes;")
    worst = max(words.answer.fields[0].ways, key=lambda way: way.hours)
    assert f"the worst heading, {round(worst.heading, 1):g}°, takes" in words.said.headline
    assert "Slope, wet spots and the last pass's direction aren't known here" in text
    assert "tables give 70 to 90 %" in text


def test_a_heading_that_is_asked_for_is_set_beside_the_best():
    assert "more than at 69° (249° back)" in str(said(heading="0 deg"))
    assert "no heading is much better" in str(said(heading="69 deg"))


def test_a_no_is_said_first():
    wide = replaced(demo_rig("articulated"), {"implement.tools": 60, "work.depth": "6 in", "work.speed": "3 mph"})
    assert str(said(CORNER, rig=wide)).startswith("Don't: ")
    stuck = said(rig=replaced(demo_rig("articulated"), {"work.depth": "30 in"}))
    assert str(stuck).startswith("Don't: ")
    assert "whichever way it is driven" in stuck.said.headline
    small = said(CORNER, rounds=5)
    assert str(small).startswith("Try it first: ")
    assert "No room for 5 rounds and a pass in corner piece" in str(small)


def test_a_turn_that_the_typed_rounds_leave_no_room_for_is_said():
    words = said(turn_radius="30 ft", rounds=1)
    assert words.said.word == "Try it first"
    assert "rounds of headland, 1 are typed: it would leave the field" in str(words)


def test_a_farm_is_told_with_its_order_and_simple_rules():
    words = in_words(field("articulated"), "us")
    assert words.said.headline.startswith("by time alone, each at its best heading, 6 fields of 604 acre take")
    assert "Nearly as good: all along their longest sides." in str(words)
    assert "5 moves, " in str(words)
    assert [row[0] for row in words.listed] == [str(place) for place in range(1, 7)]
    assert {row[1] for row in words.listed} == {feature["properties"]["name"] for feature in FEATURES}
    assert sum(share for _, _, share in words.parts) == pytest.approx(1)


def test_units_are_equals():
    us, si = said(units="us"), said(units="si")
    for text, own, other in (
        (us, ("acre", "ft", "mph"), ("ha", "km/h")),
        (si, ("ha", "m", "km/h"), ("acre", "ft", "mph")),
    ):
        whole = " ".join([str(text), *text.notes, *(cell for row in text.headings(text.answer.fields[0]) for cell in row)])
        assert all(re.search(rf"\d {unit}\b", whole) for unit in own)
        assert not any(re.search(rf"\d {unit}\b", whole) for unit in other)
    assert us.answer.hours == si.answer.hours


def test_notes_say_what_was_taken_and_what_was_typed():
    usual, typed, circle = said(), said(turn_time="18 s", overlap="4 in"), said(turn_radius="30 ft")
    assert any("25 s is taken, as is usual (common practice)" in line for line in usual.notes)
    assert any(line == "A turn of 18 s, as typed." for line in typed.notes)
    assert any("overlap 4 in (typed)" in line for line in typed.notes)
    assert any("on arcs of the circle typed" in line for line in circle.notes)
    assert any("rounds along the boundary" in line and "beyond the end of a pass" in line for line in circle.notes)
    assert any("46.999° S, 120.99" in line or "47.0" in line for line in usual.notes)


def test_a_typed_efficiency_that_is_far_off_is_said():
    off = replaced(demo_rig("articulated"), {"implement.field_efficiency": "60 percent"})
    assert "the rig file has 60 %: that is far off for these fields" in str(said(rig=off))
    assert "far off" not in str(said())


def test_what_to_type_can_be_typed():
    lines = said(WEDGE).to_type
    assert any(line.startswith("rigcalc season RIG --plan season.toml") for line in lines)
    ground = next(line for line in lines if "rigcalc ground" in line)
    assert ground.count(" ft") == 3
    assert not any("," in part for part in ground.split('"')[1::2])


@pytest.mark.parametrize(("value", "text"), [(88.0, "88° (268° back)"), (0.04, "0° (180° back)"), (101.98, "102° (282° back)")])
def test_bearings(value, text):
    assert bearing(value) == text


def test_ways_between_fields():
    assert (say_way(3.218688, "us"), say_way(3.218688, "si")) == ("2 mi", "3.2 km")


@pytest.mark.parametrize(("value", "text"), [(0.25, "15 min"), (1.5, "1.5 h"), (12.345, "12.3 h"), (0.999, "0.999 h")])
def test_hours(value, text):
    assert hours(value) == text
