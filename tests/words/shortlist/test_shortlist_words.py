"""A shortlist in words: the first sentence says which and how sure, or that there is none and what stands against it."""

import pytest
from known_rigs import known_rig

from rigcalc.models.rig.file import demo_rig, replaced
from rigcalc.models.shortlist import DRIVES, shortlist
from rigcalc.models.shortlist.answer import power_of
from rigcalc.words import in_words
from rigcalc.words.numbers import chance, say


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_first_sentence_names_power_drive_job_reserve_and_chance(units):
    found = shortlist("front_wheel_assist", reserve="10 percent")
    said = in_words(found, units).said
    smallest = found.best.smallest
    assert said.word == f"{say(power_of(smallest), 'kW', units)} front-wheel assist"
    assert "9 shanks" in said.headline
    assert "10 % of its engine power in reserve" in said.headline
    assert f"try it first, every limit holds in {chance(smallest.sure.chance_works)} such fields" in said.headline
    assert f"Go from {say(power_of(found.best.surest), 'kW', units)}" in said.headline


def test_each_other_drive_and_the_own_tractor_get_a_sentence():
    said = in_words(shortlist("articulated"), "us").said
    starts = [line.split(":")[0].split(",")[0] for line in said.rest]
    assert starts == ["Two-wheel drive", "Front-wheel assist", "Four-wheel drive", "This tractor"]
    assert said.rest[0] == "Two-wheel drive: none up to 200 hp, engine power with the reserve gives out."
    assert "takes 13 shanks at most with the same reserve" in said.rest[-1]
    assert said.rest[-1].endswith("engine power stops more. It is go with no number of them.")


def test_none_is_said_first_with_the_most_that_was_looked_at():
    rig = replaced(demo_rig("articulated"), {"implement.tools": 60})
    said = in_words(shortlist(rig, drives=["MFWD", "4WD"]), "us").said
    assert said.word == "None"
    assert said.headline.startswith("no tractor by class up to 700 hp pulls 60 shanks 11 in deep")
    assert said.rest[0].startswith("Front-wheel assist: none up to 449 hp, ")
    assert said.rest[1].startswith("Four-wheel drive: none up to 700 hp, ")


def test_what_the_tool_forbids_is_said_once_not_of_every_drive():
    said = in_words(shortlist(replaced(demo_rig(), {"work.depth": "15 in"})), "us").said
    assert said.word == "None"
    assert said.rest[0] == "The tool is not built for that depth, whichever tractor pulls it."
    assert len(said.rest) == 2
    assert "not even one shank" in said.rest[1]


def test_what_no_power_mends_is_said_so():
    said = in_words(shortlist("two_track", drives=["track"]), "us").said
    assert "all else holds in" in said.headline
    assert said.headline.endswith(
        "None up to 700 hp is go: it works below the critical depth of the point, behind any tractor."
    )


def test_wet_ground_comes_first():
    rig = replaced(known_rig("front_wheel_assist"), {"ground.wetness": "wet"})
    said = in_words(shortlist(rig, drives=["MFWD"]), "us").said
    dry = in_words(shortlist(known_rig("front_wheel_assist"), drives=["MFWD"]), "us").said
    assert said.word == "Don't"
    assert "wet" in said.headline
    assert said.rest[0] == f"Once it is fit: {dry.word}, {dry.headline}"


def test_the_least_of_its_kind_is_called_so_and_no_reserve_too():
    said = in_words(shortlist("two_wheel_drive", reserve=0), "us").said
    assert "Four-wheel drive: from 201 hp, the least that is looked at of its kind, go" in " ".join(said.rest)
    assert "with none of its engine power in reserve" in said.headline


def test_rows_stand_for_every_drive_and_empty_ones_go():
    words = in_words(shortlist("articulated"), "us")
    rows = dict(words.rows)
    assert len(words.heads) == len(DRIVES)
    assert all(len(cells) == len(DRIVES) for cells in rows.values())
    assert rows["Smallest with the reserve"][0] == "none up to 200 hp"
    assert rows["What stops it"][2:] == ("-", "-")
    assert rows["Stands on"][3].startswith("2 tracks ")
    none = in_words(shortlist(replaced(demo_rig(), {"work.depth": "15 in"})), "us")
    assert [title for title, _ in none.rows] == ["Smallest with the reserve", "What stops it"]


def test_notes_say_what_it_rests_on_in_either_system():
    found = shortlist("two_wheel_drive", drives=["2WD"])
    us, si = ("\n".join(in_words(found, units).notes) for units in ("us", "si"))
    assert "145 lb/hp of power at the power take-off" in us
    assert "88.2 kg/kW" in si  # 145 lb over 1 hp: 65.77 kg over 0.7457 kW
    assert "tires" in us and "tyres" in si  # noqa: PT018
    assert "our own rule after" in "\n".join(in_words(shortlist("articulated", drives=["track"]), "us").notes)
    assert "Wheelbase" in us


def test_readings_that_stay_with_the_own_tractor_are_told_of():
    reading = {"date": "2026-11-04", "depth": "10 in", "speed": "5 mph", "slip": "9 percent"}
    read = replaced(demo_rig(), {"reading": [reading]})
    assert any("stand on the table" in note for note in in_words(shortlist(read, drives=["MFWD"]), "us").notes)
    assert not any("stand on the table" in note for note in in_words(shortlist(demo_rig(), drives=["MFWD"]), "us").notes)
