"""What to measure first in words: a line for each entry, both spellings, three in sight in a terminal and all on demand."""

import io

import pytest
from known_rigs import KNOWN_RIGS, SHEET_RIG, known_rig
from rich.console import Console

from rigcalc.core.tables import table
from rigcalc.models import replaced, size
from rigcalc.models.rig.file import rig_from
from rigcalc.views.json.size import answer_data
from rigcalc.views.terminal.size import MOST_FIRST, print_answer
from rigcalc.words import in_words
from rigcalc.words.size import first

SHEET = known_rig(SHEET_RIG)


def printed(words, **options):
    out = io.StringIO()
    print_answer(words, Console(file=out, width=500), **options)
    return out.getvalue()


def test_every_entry_of_the_table_has_words():
    assert {row["entry"].rpartition(".")[2] for row in table("usual_scatter")} == set(first._ENTRIES)


@pytest.mark.parametrize("name", [*KNOWN_RIGS, SHEET_RIG])
def test_each_line_says_what_to_do_and_what_hangs_on_it(name):
    answer = size(known_rig(name))
    words = in_words(answer)
    for said, doubt in zip(words.first, answer.measure_first, strict=True):
        assert said.line.startswith(f"{said.do}: ")
        assert said.line.endswith(".")
        assert ("the verdict hangs on it" in said.line) == bool(doubt.verdicts)
        assert ("little hangs on it" in said.line) == (not doubt.matters)
        assert "None" not in " ".join(vars(said).values())
    assert len(words.first_lines) == max(sum(doubt.matters for doubt in answer.measure_first), 1)


def test_figures_are_those_of_the_answer():
    answer = size(replaced(SHEET, {"work.depth": "16 in"}))
    said, doubt = next(pair for pair in zip(in_words(answer, "us").first, answer.measure_first, strict=True)
                       if pair[1].entry == "ground.cone_index")  # fmt: skip
    assert f"the chance by {round(100 * doubt.chance)} in 100" in said.line
    assert f"slip by {100 * doubt.slip:.2g} points" in said.line
    assert said.stands == "174 psi, by rule"
    assert said.tried == "122 psi to 226 psi"


def test_tires_and_tyres_and_tracks_without_an_axle():
    assert "tire" in " ".join(said.name for said in in_words(size(SHEET), "us").first)
    assert "tire" not in " ".join(said.line for said in in_words(size(SHEET), "si").first)
    tracks = {"kind": "track", "tracks": 2, "track_width": "25 in"}
    two = replaced(SHEET, {"tractor.drive": "track", "tractor.front": None, "tractor.rear": tracks})
    assert "length of the tracks on the ground" in {said.name for said in in_words(size(two), "us").first}


def test_three_in_sight_and_all_on_demand():
    words = in_words(size(replaced(SHEET, {"work.depth": "16 in"})), "us")
    short, long = printed(words), printed(words, all_first=True)
    assert len(words.first_lines) > MOST_FIRST
    assert [line in short for line in words.first_lines] == [place < MOST_FIRST for place in range(len(words.first_lines))]
    assert f"{len(words.first) - MOST_FIRST} more entries, and what was tried: --first" in short
    assert all(line in long for line in words.first_lines)
    assert words.first_idle in long
    assert "--first" not in long


def test_where_little_hangs_on_any_entry_that_is_said():
    data = SHEET.model_dump(exclude_none=True)
    light = rig_from(data | {"implement": data["implement"] | {"tools": 1, "tool": "field_cultivator_secondary"},
                             "work": {"depth": "1.5 in", "speed": "1 mph"}})  # fmt: skip
    words = in_words(size(light), "us")
    little = [said.name for said, doubt in zip(words.first, size(light).measure_first, strict=True) if not doubt.matters]
    assert words.first_idle == f"Little hangs on: {', '.join(little)}."


def test_json_holds_every_entry_with_units():
    words = in_words(size(SHEET), "us")
    listed = answer_data(words)["measure_first"]
    assert [one["entry"] for one in listed] == [doubt.entry for doubt in words.answer.measure_first]
    depth = next(one for one in listed if one["entry"] == "work.depth")
    assert depth["here"]["value"] == {"value": pytest.approx(25.4), "unit": "cm"}
    assert [end["value"]["value"] for end in depth["ends"]] == pytest.approx([22.86, 27.94])
    texture = next(one for one in listed if one["entry"] == "ground.texture")
    assert texture["ends"][0]["value"] == "loam"
    assert all(one["source"] and one["text"] for one in listed)
