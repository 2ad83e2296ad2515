"""What is said of an answer: the judgement in every state, every kind of note, the season, and both systems of units."""

import dataclasses
import re

import pytest
from known_rigs import KNOWN_RIGS, SHEET_RIG, known_rig

import rigcalc
from rigcalc.core.errors import Fault, InputError
from rigcalc.models import replaced, size
from rigcalc.models.machine.limits import LIMITS
from rigcalc.models.size import notes as facts
from rigcalc.models.size.verdict import DONT_BELOW, GO_FROM, HARD, Judgement, State, Verdict, verdict
from rigcalc.words import in_words
from rigcalc.words.limits import LIMIT_TITLES, STATE_WORDS
from rigcalc.words.size import notes as says
from rigcalc.words.size.parts import reverse_lines
from rigcalc.words.spelling import faults_text, spelt

SEASON = {
    "work.area": "900 acre",
    "work.hours_per_day": "10 h/day",
    "work.calendar_days": "21 day",
    "work.fit_days": "50 percent",
}
SPINNING = {"ground.surface": "soft", "implement.tools": 52, "work.speed": "2.5 mph", "tractor.rated_power": "900 hp",
            "tractor.maximum_power": "950 hp"}  # fmt: skip
TWO_TRACKS = {
    "tractor.drive": "track", "tractor.front": None, "tractor.front_axle_mass": "0 kg", "tractor.rear_axle_mass": "18000 kg",
    "tractor.wheelbase": "2.6 m", "implement.tools": 5, "setup": None, "ballast": (),
    "tractor.rear": {"kind": "track", "tracks": 2, "track_width": "30 in", "contact_length": "2.6 m"},
}  # fmt: skip
NOSE_LIGHT = TWO_TRACKS | {"tractor.front_axle_mass": "4000 kg", "tractor.rear_axle_mass": "14000 kg"}
NOSE_UP = {"tractor.front_axle_mass": "5500 lb", "tractor.rear_axle_mass": "33000 lb", "ballast": (),
           "tractor.rear.load_limit_each": None, "tractor.rear.tyre": None}  # fmt: skip
TIPPING = {"tractor.front_axle_mass": "1800 lb", "tractor.rear_axle_mass": "25200 lb", "tractor.drawbar_height": "40 in"}
STATES = {
    State.LITTLE_GRIP: ({"work.depth": "40 in", "ground.surface": "soft", "implement.rated_depth": None}, "Don't", "missing"),
    State.LITTLE_ENGINE: ({"tractor.rated_power": "150 hp", "tractor.maximum_power": None}, "Don't", "from the engine"),
    State.OVER_A_LIMIT: ({"work.depth": "18 in"}, "Don't", "not built for that depth"),
    State.MUCH_SLIP: (SPINNING, "Try it first", "add weight"),
    State.TOO_DEEP: ({"work.depth": "13 in"}, "Try it first", "loosens no deeper"),
    State.PUSHED: ({"ground.grade": "-25 percent", "work.depth": "3 in", "implement.tools": 5}, "Try it first", "hold back"),
    State.SOFTER_THAN_KNOWN: (
        {"ground.cone_index": "440 kPa", "work.depth": "6 in", "implement.tools": 7},
        "Try it first",
        "bears",
    ),
    State.STEEP: (
        {"ground.grade": "15.5 deg", "implement.tools": 5},
        "Try it first",
        "15.5 deg is steep",
    ),
    State.LIGHT_FRONT: (NOSE_UP, "Try it first", "hang weight in front"),
    State.UNSURE: ({"work.speed": "8 mph", "implement.rated_power_per_tool": None}, "Try it first", "begin at"),
    State.WORKS: ({}, "Go", "engine load"),
}


# What belongs to the working alone: names of symbols, equations, entries and tables, and the mark "from memory".
RAW = r"mobility number|traction ratio|\w_\w|d497|from memory|decision|docs/|\[\["


def said(changes, units="us", name=KNOWN_RIGS[0]):
    return in_words(size(replaced(known_rig(name), changes) if changes else known_rig(name)), units)


@pytest.mark.parametrize("state", list(STATES))
def test_every_state_has_its_word_and_reason(state):
    changes, word, reason = STATES[state]
    words = said(changes)
    assert words.answer.verdict.state is state
    assert words.said.word == word
    assert reason in words.said.headline
    assert str(words) == " ".join((f"{word}: {words.said.headline}", *words.said.rest))
    for sentence in (words.said.headline, *words.said.rest):
        assert sentence.endswith(".")
        assert "nan" not in sentence
        assert "None" not in sentence


def test_no_grip_at_all_is_said_without_a_pull():
    words = said({})
    none = dataclasses.replace(words.answer, verdict=Verdict(Judgement.DONT, State.NO_GRIP))
    assert "no grip left at all" in in_words(none, "us").said.headline


def test_an_engine_too_small_says_how_fast_it_goes():
    assert any("the engine holds" in sentence for sentence in said(STATES[State.LITTLE_ENGINE][0]).said.rest)


def test_every_limit_passed_is_named():
    words = said({"work.depth": "18 in", "implement.rated_power_per_tool": "5 hp"})
    assert set(words.answer.verdict.passed) == {"tool_depth", "tool_power"}
    assert "not built for that depth and each shank takes more power" in words.said.headline


@pytest.mark.parametrize(("chance", "judged"), [(0.849, Judgement.TRY), (GO_FROM, Judgement.GO), (DONT_BELOW, Judgement.TRY),
                                                (0.249, Judgement.DONT)])  # fmt: skip
def test_the_chance_decides_between_the_three(chance, judged):
    answer = said({}).answer
    used = {margin.name: margin.used for margin in answer.margins if margin.used is not None}
    assert verdict(answer.point.bare, used, chance).judgement is judged
    if judged is not Judgement.GO:
        assert verdict(answer.point.bare, used, chance).state is State.UNSURE


def test_a_hard_limit_is_no_matter_of_chance():
    answer = said({"work.depth": "18 in"}).answer
    used = {margin.name: margin.used for margin in answer.margins if margin.used is not None}
    assert verdict(answer.point.bare, used, 1.0).judgement is Judgement.DONT
    assert verdict(answer.point.bare, {**used, "tipping": 1.1}, 1.0).state is State.TIPS
    assert said({}).answer.verdict.state not in HARD


def test_the_depth_to_begin_at_has_the_chance_for_go():
    changes = STATES[State.UNSURE][0]
    answer = said(changes).answer
    assert 0 < answer.sure_depth < answer.point.bare.depth
    at = {**changes, "work.depth": f"{answer.sure_depth:.4f} cm"}
    assert size(replaced(known_rig(), at)).sure.chance_works == pytest.approx(GO_FROM, abs=0.03)


def test_a_number_and_its_limit_are_told_apart():
    """A rig that needs 400.2 hp of 400 isn't told that it needs 400 of at most 400."""
    power = said({}).answer.point.bare.engine_power
    words = said({"tractor.rated_power": f"{0.9995 * power:.6f} kW", "tractor.maximum_power": None})
    found = re.search(r"need ([\d.,]+) hp from the engine, which has at most ([\d.,]+) hp", words.said.headline)
    assert found[1] != found[2]


def test_the_words_of_a_tool_are_its_own():
    deep = {"implement.tool": "subsoiler_narrow", "work.depth": "18 in", "implement.tools": 5, "implement.rated_depth": None}
    words = said(deep)
    everything = " ".join((str(words), *words.notes, *(line.text for line in words.reverse)))
    assert "chisel" not in everything
    assert words.answer.second_opinion is None
    assert words.answer.margin("extreme_depth").used is None
    coulters = said({"implement.tool": "coulter_bubble_or_flute", "work.depth": "4 in"})
    assert "15 coulters 4 in deep" in str(coulters)
    assert coulters.answer.margin("critical_depth").used is None, "a coulter has no point"
    assert any(line.title == "Most coulters at this depth and speed" for line in coulters.reverse)
    assert "1 shank 12 in deep" in str(said({"implement.tools": 1}))


def test_every_kind_of_note_has_words_and_every_word_a_kind():
    assert set(says._SAYS) == facts.KINDS


@pytest.mark.slow
def test_every_kind_of_note_can_come_and_is_said_without_a_hole():
    cases = [
        {}, {"work.depth": "14 in"}, {"work.depth": "17 in", "implement.point_width": "2 in"}, {"work.speed": "8 mph"},
        {"ground.soil_group": "coarse"}, {"ground.texture": "clay loam"}, {"ground.wheels_follow_in_track": False},
        {"ground.grade": "-12 deg"}, {"tractor.rated_power": "250 hp", "tractor.maximum_power": "275 hp"},
        {"tractor.front.deflection_ratio": "40 percent"}, {"ground.texture": "sand"}, {"ground.cone_index": "1600 kPa"},
        {"ground.cone_index": "900 kPa"}, {"tractor.engine_speed_share": "60 percent", "gears": None},
        {"ground.grade": "-12 deg", "work.depth": "2 in", "implement.tools": 3}, TWO_TRACKS, NOSE_LIGHT, TIPPING,
        {"implement.gangs": [{"tool": "coulter_smooth_or_ripple", "tools": 15, "depth": "3 in"}]},
    ]  # fmt: skip
    seen = set()
    for name in KNOWN_RIGS:
        for changes in cases:
            if name == "tracks" and "tractor.front.deflection_ratio" in changes:
                continue
            for units in ("us", "si"):
                words = said(changes, units, name)
                seen |= {note.kind for note in words.answer.notes}
                for text in words.notes:
                    assert text.endswith("."), text
                    assert not re.search(RAW, text), text
                    assert not re.search(r"\bnan\b|None|\{|\}", text), text
    assert seen == facts.KINDS


def test_notes_are_ranked_and_every_kind_has_a_rank():
    assert set(says.RANK) == facts.KINDS
    answer = said({"work.depth": "17 in", "implement.point_width": "2 in", "ground.texture": "sand"}).answer
    texts = says.note_texts(answer, "us")
    first = {note.kind: says.note_text(note, answer, "us") for note in answer.notes}
    assert texts[0] == first["below_critical_depth"]
    assert texts.index(first["sand"]) < texts.index(first["cone_index_assumed"]) < texts.index(first["side_slope"])
    assert len(set(texts)) == len(texts)


def test_usual_depths_are_said_alike_by_slider_and_note():
    from rigcalc.views import SizeApp

    app = SizeApp()
    app.model.edit({"work.depth": "14 in"})
    note = next(text for text in app.words.notes if "usually works" in text)
    span = re.search(r"usually works ([\d.]+ to [\d.]+ in) deep", note)[1]
    mark = app.children[4].children[0].children[0].state["work.depth"]["mark"]
    assert mark.endswith(span)


@pytest.mark.parametrize(("units", "force"), [("us", "lbf"), ("si", "kN")])
def test_a_rig_that_is_pushed_is_not_said_to_pull(units, force):
    words = said({"ground.grade": "-12 deg", "work.depth": "2 in", "implement.tools": 3}, units)
    assert "it pulls" not in words.said.headline
    assert re.search(rf"push the tractor on, and engine and brakes have to hold back [\d.,]+ {force}:", words.said.headline)
    assert not any("Slip of" in note for note in words.notes)


@pytest.mark.parametrize("units", ["us", "si"])
def test_a_rig_that_tips_over_has_words_for_every_limit(units):
    """Where it stands on no axle there is no grip to hold a pull against: said, not a number that isn't one."""
    words = said(TIPPING, units, "front_wheel_assist")
    assert words.answer.verdict.state is State.TIPS
    grip = next(line for line in words.margins if line.name == "grip")
    assert (grip.text, grip.used, grip.state) == ("can't be pulled", "", STATE_WORDS["unknown"])
    assert words.best_slip == ""
    assert not re.search(r"\bnan\b|\binf\b", " ".join(line.text + line.used for line in words.margins))


def test_what_has_no_answer_stands_in_one_line():
    lines = reverse_lines(said({"tractor.rear_axle_mass_limit": "9000 kg"}).reverse)
    assert sum("whatever you choose" in line for line in lines) == 1
    assert "No answer for depth, speed, width, engine and weight: rear axle load" in lines[-1]
    assert reverse_lines(said({}).reverse) == tuple(line.text for line in said({}).reverse)


def test_a_depth_that_is_the_deepest_already_is_not_said_to_go_deeper():
    assert "No deeper than 12 in: this is the critical depth of the point." in said({}).said.rest
    assert "Going deeper, the first limit is critical depth of the point, at 12 in." in said({"work.depth": "11 in"}).said.rest


def test_best_slip_stands_by_itself():
    words = said({})
    low, best, high = words.answer.best_slip
    shown = [float(number) for number in re.findall(r"[\d.]+\d", words.best_slip.replace("1 %", ""))]
    assert shown == pytest.approx([100 * best, 100 * low, 100 * high], rel=0.05)


def test_what_left_its_range_is_named_in_the_working_alone():
    words = said({"ground.cone_index": "2400 kPa"})
    named = says.ranges_left(words.answer)
    assert any("mobility number" in text and "5 to 80" in text for text in named)
    assert any("firmer" in text for text in words.notes)


@pytest.mark.parametrize(("units", "yes", "no"), [("us", "tires", "tyre"), ("si", "tyres", "tire")])
def test_tires_under_american_and_tyres_under_metric_units(units, yes, no):
    words = said({"ground.grade": "-12 deg", "tractor.front.deflection_ratio": "40 percent"}, units)
    everything = " ".join((str(words), *words.notes, *words.cautions, *(line.title for line in words.margins)))
    assert yes in everything
    assert no not in everything.replace("entire", "")


def test_spelling_leaves_names_alone():
    assert spelt("Tyres: tyres = 4 under [tractor.rear.tyres], filled_tyres, a tyre's load.", "us") == (
        "Tires: tyres = 4 under [tractor.rear.tyres], filled_tyres, a tire's load."
    )
    fault = Fault("tractor.rear.tyres", "'tyre'", "a count of tyres", "tyres = 4")
    assert faults_text(f"Title:\n  - {fault}", [fault], "us") == (
        "Title:\n  - tractor.rear.tyres: got 'tyre'; expected a count of tires. Type tyres = 4"
    )


def test_limits_have_titles_and_states_have_words():
    assert set(LIMIT_TITLES) == set(LIMITS)
    words = said({"work.depth": "18 in"})
    for margin, line in zip(words.answer.margins, words.margins, strict=True):
        assert line.state == STATE_WORDS[margin.state]
        assert line.source
        assert (line.used == "") == (margin.used is None)
    assert [line.text for line in words.margins if line.name == "tool_depth"] == ["18 in of 16 in"]
    assert words.binding.title == "the tool's rated depth"


def test_reverse_answers_stand_in_parts():
    lines = {line.question: line for line in said({}).reverse}
    deepest = lines["deepest"]
    assert (deepest.title, deepest.value, deepest.why) == ("Deepest at this speed", "12 in", "critical depth of the point")
    assert deepest.text == "Deepest at this speed: 12 in (critical depth of the point)"
    assert lines["smallest engine"].text.endswith(", with nothing in reserve")
    stuck = {line.question: line for line in said({"tractor.rear_axle_mass_limit": "9000 kg"}).reverse}["deepest"]
    assert (stuck.value, stuck.why) == ("none works", "rear axle load is past its limit whatever you choose")


def test_the_season_in_a_line_and_in_short():
    words = said(SEASON)
    assert words.season.text.startswith(words.season.a_day)
    assert "in hand" in words.season.text
    assert "too few" in said(SEASON | {"work.fit_days": "20 percent"}).season.text
    assert "0 to be expected" in said(SEASON | {"work.fit_days": "0 percent"}).season.text
    nothing = said({"work.hours_per_day": None}).season
    assert (nothing.text, nothing.a_day) == ("", "")
    for missing in ("work.area", "work.calendar_days", "work.fit_days"):
        assert not re.search("nan|None", said(SEASON | {missing: None}).season.text)


def test_units_are_as_the_depth_is_typed_unless_asked_for():
    assert in_words(size(replaced(known_rig(), {"work.depth": "30 cm"}))).units == "si"
    assert rigcalc.in_words(rigcalc.size(known_rig())).units == "us"
    assert " km/h" in str(said({}, "si"))
    with pytest.raises(InputError, match="metric"):
        in_words(size(known_rig()), "metric")


def test_an_answer_holds_no_sentence():
    """Facts alone: whoever changes a sentence has only words/ to look at."""
    answer = size(replaced(known_rig(), {"work.depth": "14 in"}))
    texts = [value for part in (*answer.margins, *answer.reverse) for value in vars(part).values() if isinstance(value, str)]
    texts += [*answer.cautions, *(note.kind for note in answer.notes)]
    assert [text for text in texts if text.count(" ") > 1] == []


def test_the_first_sentence_says_how_much_of_the_rig_is_taken_by_rule():
    rig = known_rig(SHEET_RIG)
    # Mass, tyres and deflection of both axles, wheelbase, drawbar height, tool, tongue load; sizes are read, not guessed.
    assert "; 10 entries of this rig are taken by rule, not measured." in in_words(size(rig)).said.headline
    short = {"tractor.wheelbase": "3 m", "tractor.front.tyres": 2, "tractor.rear.tyres": 2, "tractor.drawbar_height": "18 in"}
    assert "; 6 entries of this rig" in in_words(size(replaced(rig, short))).said.headline
    assert "by rule" not in in_words(size(known_rig())).said.headline
    refused = in_words(size(replaced(rig, {"tractor.rated_power": "60 hp"}))).said
    assert refused.word == "Don't"
    assert "by rule" not in refused.headline


@pytest.mark.parametrize("over", [1.0003, 1.004, 1 + 1e-9])
def test_a_limit_that_is_passed_never_reads_as_just_full(over):
    rig = known_rig("tracks")
    most = size(rig).margin("rear_pressure").value / over
    answer = size(replaced(rig, {"tractor.rear.pressure_limit": f"{most!r} kPa"}))
    for units in ("us", "si"):
        found = next(margin for margin in in_words(answer, units).margins if margin.name == "rear_pressure")
        assert found.state == "over"
        assert found.used != "100 %"
        value, _, limit = found.text.partition(" of ")
        assert value != limit or over < 1 + 1e-6
