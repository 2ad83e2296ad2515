"""Slopes along and across the passes, against the limits of a practice standard; what the rig's grade contradicts."""

import math

import pytest

import rigcalc
from rigcalc.core.errors import InputError
from rigcalc.models.ground.slope import Line, slope
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.rig.file import load_rig, replaced

RIG = "front_wheel_assist"  # on level ground
GO, TRY, DONT = Judgement.GO, Judgement.TRY, Judgement.DONT
FLAGS = ["7 in to 8 in"] * 8 + ["none"] * 2


@pytest.mark.parametrize(
    ("text", "grade", "line", "judged"),
    [
        ("1.9 percent along", 0.0, Line.FLAT, GO),
        ("2 percent along", 0.0, Line.ALONG, TRY),
        ("10 percent along", 0.0, Line.ALONG, TRY),
        ("10.1 percent along", 0.0, Line.ALONG, DONT),
        ("10 percent across", 0.0, Line.ACROSS, GO),
        ("10.1 percent across", 0.0, Line.ACROSS, TRY),
        ("6 deg along", 0.0, Line.ALONG, DONT),  # 10.5 percent
        ("5.7 deg ACROSS", 0.0, Line.ACROSS, GO),  # 9.98 percent
        ("6 percent", 0.0, Line.UNKNOWN, TRY),
        ("12 percent", 0.0, Line.UNKNOWN, TRY),
        ("6 percent", 1.1, Line.ACROSS, GO),  # rows that fall by 1.9 percent
        ("6 percent", -1.1, Line.ACROSS, GO),
        ("6 percent", 1.2, Line.ALONG, TRY),  # 2.1 percent
        ("3 percent", 0.9, Line.ALONG, TRY),  # 1.6 percent, more than half
        (None, 1.0, Line.FLAT, GO),
        (None, -3.0, Line.ALONG, TRY),
        (None, 6.0, Line.ALONG, DONT),
    ],
)
def test_lines_and_limits(text, grade, line, judged):
    found = slope(text, grade)
    assert (found.line, found.judgement) == (line, judged)
    if text is None:
        assert found.steep == pytest.approx(abs(math.tan(math.radians(grade))))


def test_level_ground_and_no_slope_say_nothing():
    assert slope(None, 0.0) is None
    assert rigcalc.ground(RIG).slope is None


@pytest.mark.parametrize(
    ("text", "judged", "first"),
    [
        ("12 percent along", DONT, "passes along a slope of 12 % lead water down every furrow, and loose soil"),
        ("6 percent along", TRY, "passes along a slope of 6 %"),
        ("6 percent", TRY, "the field falls by 6 %, and nobody has said"),
        ("12 percent across", TRY, "across a slope of 12 %"),
        ("10.2 percent along", DONT, "passes along a slope of 10.2 % lead water down every furrow, and loose soil"),
        ("6 percent across", GO, "10 in gets under the layer"),
        ("1 percent along", GO, "10 in gets under the layer"),
    ],
)
def test_a_slope_can_say_dont_in_the_first_sentence(text, judged, first):
    rig = replaced(load_rig(RIG), {"ground.thread_test": "crumbles"})
    answer = rigcalc.ground(rig, FLAGS, slope=text)
    words = rigcalc.in_words(answer, "us")
    assert answer.judgement is judged
    assert words.said.headline.startswith(first)
    asked = [each.judgement for each in words.questions if each.title.startswith("Does water")]
    assert asked == ([] if text.startswith("1 ") else [judged])
    assert any("contour farming" in note for note in words.notes) == bool(asked)


@pytest.mark.parametrize(
    "text", ["", "6", "steep", "6 m along", "-1 percent", "90 deg along", "nan percent", "60 percent", 6, True]
)
def test_bad_input_gives_no_number(text):
    with pytest.raises(rigcalc.InputError, match="slope"):
        rigcalc.ground(RIG, slope=text)


def test_a_slope_is_refused_with_the_rest_also_where_the_rig_is():
    for rig in (RIG, "no_such_rig"):
        with pytest.raises(rigcalc.InputError) as error:
            rigcalc.ground(rig, slope="steep", cover="much", see="5")
        assert {"slope", "cover", "see"} <= {fault.where for fault in error.value.faults}


def test_what_the_rigs_grade_contradicts_is_refused():
    steep = replaced(load_rig(RIG), {"ground.grade": "5 percent"})
    for text in ("4 percent along", "8 percent across"):
        with pytest.raises(rigcalc.InputError, match="grade of 5 percent"):
            rigcalc.ground(steep, slope=text)
    assert rigcalc.ground(steep, slope="8 percent along").slope.along == pytest.approx(0.05)


def test_the_rig_files_own_slope_is_taken_where_none_is_typed():
    file = replaced(load_rig(RIG), {"ground.slope": "12 percent", "ground.passes_run": "along"})
    assert rigcalc.ground(file).slope == slope("12 percent along", 0.0)
    assert rigcalc.ground(file, slope="6 percent").slope == slope("6 percent along", 0.0), "the way is still the file's"
    assert rigcalc.ground(file, slope="6 percent across").slope == slope("6 percent across", 0.0)
    assert rigcalc.ground(replaced(file, {"ground.passes_run": None})).slope.line is Line.UNKNOWN
    assert rigcalc.ground(replaced(file, {"ground.slope": "0.05 rad"})).slope.steep == pytest.approx(math.tan(0.05))
    with pytest.raises(InputError, match=r"ground\.passes_run"):
        replaced(file, {"ground.passes_run": "around"})
