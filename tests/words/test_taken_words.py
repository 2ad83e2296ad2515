"""What rules filled in, in words: all of it, in either system of units, and nothing where nothing was."""

import io

import pytest
from known_rigs import KNOWN_RIGS, SHEET_RIG, known_rig
from rich.console import Console

from rigcalc.models import replaced, size
from rigcalc.views.json.size import answer_data
from rigcalc.views.sheet.data import sheet_data
from rigcalc.views.terminal.size import print_answer
from rigcalc.words.size import SizeWords
from rigcalc.words.taken import taken_in_short, taken_lines

RIG = known_rig(SHEET_RIG)


def printed(words, **options):
    out = io.StringIO()
    print_answer(words, Console(file=out, width=400), **options)
    return out.getvalue()


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_nothing_where_nothing_was_filled_in(name):
    assert taken_lines(known_rig(name), "us") == ()
    assert taken_in_short(known_rig(name), "us") == ""
    assert "Taken by rule" not in printed(SizeWords(size(known_rig(name)), "us"), all_notes=True)


def test_each_entry_has_its_line_and_its_rule():
    lines = taken_lines(RIG, "si")
    by_size = {one.entry for one in RIG.assumed if one.rule in ("size", "sections")}
    assert len(lines) == 2 + len(RIG.assumed) - len(by_size)
    assert "Rear tyres 710/70R42 173D: 0.71 m wide, 2.06 m high (its figures)." in lines
    assert "Wheelbase 3.05 m: usual for the drive and the power, our own rule." in lines
    assert "Weight of the tool 2,740 kg: usual for a tool of this width, our own rule." in lines


def test_american_units_and_spelling():
    text = "\n".join(taken_lines(RIG, "us"))
    assert "tyre" not in text
    assert "Wheelbase 10 ft" in text
    assert "28 in wide" in text or "2.33 ft wide" in text


@pytest.mark.parametrize(("changes", "said"), [
    ({"tractor.front_share": "40 percent"}, "the typed share of the total mass"),
    ({"tractor.front_axle_mass": "10000 lb"}, "what the total mass leaves"),
])  # fmt: skip
def test_arithmetic_is_called_so(changes, said):
    assert said in "\n".join(taken_lines(replaced(RIG, changes), "us"))


def test_one_line_in_a_terminal_all_of_it_on_demand():
    words = SizeWords(size(RIG), "us")
    short, long = printed(words), printed(words, all_notes=True)
    assert short.count("Taken by rule") == long.count("Taken by rule") == 1
    assert words.taken_in_short in short
    assert "our own rule" not in short
    assert all(line in long for line in words.taken)


def test_on_the_sheet_and_in_json():
    words = SizeWords(size(RIG), "us")
    assert sum("Taken by rule" in note for note in sheet_data(words).notes) == 1
    listed = answer_data(words)["assumed"]
    assert [one["entry"] for one in listed] == [one.entry for one in RIG.assumed]
    assert all(one["rule"] and one["source"] for one in listed)
