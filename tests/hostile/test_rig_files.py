"""Rig files that nobody of good will writes: each is refused in words or answered, soon, without a traceback.

`RIGCALC_HOSTILE=10000 uv run pytest tests/hostile` tries that many; the ordinary run 500.
"""

import json
import os
import random
import re
import time
from pathlib import Path

import pytest

from rigcalc import InputError, in_words, size
from rigcalc.models.ballast import ballast
from rigcalc.models.rig import file as rig_file
from rigcalc.models.rig.file import DEMO_RIGS, demo_rig, read_rig, replaced
from rigcalc.views.json.size import answer_data

MANY = int(os.environ.get("RIGCALC_HOSTILE", "0")) or 250
LONGEST = 5.0  # seconds of the processor for one file
MOST_MEMORY = 2**20  # KiB more than there was before
BEFORE = {"memory": 0}
FILES = [(Path(rig_file.__file__).parent / "demo" / f"{name}.toml").read_text(encoding="utf-8") for name in DEMO_RIGS]
VALUES = [
    *(
        '"0 m"',
        '"-1 kg"',
        '"1e-300 in"',
        '"5e-324 mph"',
        '"1e300 hp"',
        '"0,250 kN"',
        '"१३ in"',
        '"1_3 in"',
        "1_3",
        "nan",
        "inf",
    ),
    *(
        '"12"',
        "12",
        "true",
        "[]",
        "{}",
        '""',
        '"\\u0000"',
        '"\\u001b[2J"',
        '"x"',
        '"50 kPa"',
        '"5000 kPa"',
        '"25 deg"',
        '"1 mm"',
    ),
    *(
        '"0.1 m"',
        '"100 percent"',
        '"0 percent"',
        '"1 percent"',
        '"2WD"',
        '"track"',
        '"bias"',
        '"soft"',
        '"60000 lb"',
        '"200 kg"',
    ),
    *("1", "0", "200", "-1", "9" * 30, "0.30000000000000004", '"12.000000000000000001 in"', '"900 mm"', '"2 m"', '"1 km/h"'),
]


def memory(what):
    """Give a figure of this process's memory in KiB: VmRSS what it holds, VmHWM the most that it held."""
    return int(re.search(rf"{what}:\s+(\d+) kB", Path("/proc/self/status").read_text())[1])


@pytest.fixture(autouse=True)
def from_here():
    """Forget what other tests took: what counts is what these files take."""
    Path("/proc/self/clear_refs").write_text("5")
    BEFORE["memory"] = memory("VmRSS")


def held(start, what):
    assert time.process_time() - start < LONGEST, what
    assert memory("VmHWM") - BEFORE["memory"] < MOST_MEMORY, what


def damaged(text, chance):
    """Do a thing or two to a good file."""
    for _ in range(1 + (chance.random() < 0.3)):
        lines = text.split("\n")
        at = chance.randrange(len(lines))
        way = chance.randrange(6)
        if way <= 2 and "=" in lines[at]:
            lines[at] = lines[at].split("=")[0] + "= " + chance.choice(VALUES)
        elif way == 3:
            del lines[at]
        elif way == 4:
            lines.insert(at, chance.choice(lines))
        else:
            spot = chance.randrange(len(text))
            lines = (text[:spot] + chance.choice('."[]{}=\n\x00é,') + text[spot + chance.randint(0, 3) :]).split("\n")
        text = "\n".join(lines)
    return text


def sound(words):
    assert not re.search(r"(?<![\w'])(nan|-?inf)(?![\w'])", words), words[:500]
    assert not re.search(r"\d[\d.]{15,}\d", words), words[:500]


def test_damaged_files():
    chance = random.Random(40)
    answered = 0
    for _ in range(MANY):
        text = damaged(chance.choice(FILES), chance)
        start = time.process_time()
        try:
            answer = size(read_rig(text))
        except InputError:
            pass
        else:
            answered += 1
            words = in_words(answer)
            sound(str(words))
            json.dumps(answer_data(words, False), allow_nan=False)
            if answered % 10 == 0:
                try:
                    ballast(answer.rig)
                except InputError:
                    pass
        held(start, text)
    assert 0.05 * MANY < answered < 0.9 * MANY, "some are refused and some are answered"


def refused(text, words):
    start = time.process_time()
    with pytest.raises(InputError, match=words) as error:
        read_rig(text)
    held(start, text[:100])
    return str(error.value)


@pytest.mark.parametrize("parts", [60_000, 500, 9])
@pytest.mark.parametrize("form", ["{} = 1", "[{}]\nx = 1", "[[{}]]"])
def test_dotted_keys(parts, form):
    refused(form.format(".".join("a" * parts)), "deep")


@pytest.mark.parametrize(
    "text", ["a = " + "[" * 5000, "a = " + "{a = " * 5000, 'a."' * 50_000, '"""' * 40_000, "a=1\n" * 60_000]
)
def test_text_that_is_long_to_read(text):
    refused(text, "rig file")


def test_unknown_keys_are_counted():
    assert refused("\n".join(f"k{n} = 1" for n in range(3900)), "and 3,864 more")
    refused("\n".join(f"k{n} = 1" for n in range(20_000)), "4,000 entries")


def test_kinds_of_ballast():
    piece = '[[ballast]]\nname = "p{}"\nmass = "40 kg"\ncount = 10\naxle = "front"\nahead = "1 m"\n'
    refused(FILES[0] + "\n".join(map(piece.format, range(3000))), "entries")
    refused(FILES[0] + "\n".join(map(piece.format, range(100))), "entries; expected at most 40")


def test_a_plan_too_large_says_how_to_cut_it():
    chance = random.Random(1)
    pieces = []
    for n in range(20):
        count = chance.randint(1, 20)
        pieces.append({"name": f"p{n}", "mass": f"{chance.uniform(20, 400):.1f} kg", "count": count,
                       "on": chance.randint(0, count), "axle": chance.choice(["front", "rear"]), "ahead": "0.7 m"})  # fmt: skip
    rig = replaced(demo_rig(), {"ballast": [*pieces, *({**piece, "name": f"{piece['name']} too"} for piece in pieces)]})
    for job in ("light", "this"):
        start = time.process_time()
        try:
            ballast(rig, job)
        except InputError as error:
            assert "a smaller count for" in str(error)  # noqa: PT017
        held(start, job)


@pytest.mark.parametrize("name", DEMO_RIGS)
@pytest.mark.parametrize("grade", ["25 deg", "0 deg", "-25 deg"])
def test_no_slip_is_best_in_mud(name, grade):
    answer = size(replaced(demo_rig(name), {"ground.cone_index": "50 kPa", "ground.grade": grade}))
    words = in_words(answer)
    sound(str(words))
    json.dumps(answer_data(words, True), allow_nan=False)


ASKED = {
    ("tractor.wheelbase", "3.9 mm"): '"3.9 m", if', ("tractor.rear.diameter", "2.05 cm"): '"2.05 m", if',
    ("tractor.rated_power", "500 W"): '"500 kW", if', ("tractor.maximum_power", "550 kW"): "1.4 times",
    ("work.depth", "1e-300 in"): "vanishing", ("work.speed", "5e-324 mph"): "vanishing",
    ("implement.hitch_load", "0,250 kN"): "0.250 kN", ("work.depth", "१३ in"): "a number and its unit",
    ("work.depth", "1_3 in"): "known names", ("implement.tools", "1_3"): "whole number",
    ("tractor.rear.static_loaded_radius", "1.1 m"): "0.55 m, half of it",
    ("tractor.rear.rim_diameter", "1.9 m"): "section height",
    ("tractor.rear.tyres", 40): "at most 8", ("tractor.center_of_gravity_height", "4 m"): "0.1 to 3 m",
}  # fmt: skip


@pytest.mark.parametrize("entry", ASKED, ids=lambda entry: f"{entry[0]} {entry[1]}")
def test_asked_about(entry):
    with pytest.raises(InputError) as error:
        replaced(demo_rig(), {entry[0]: entry[1]})
    assert ASKED[entry] in str(error.value)


@pytest.mark.parametrize(("radius", "fits"), [("0.94 m", True), ("0.985 m", False), ("0.7 m", False)])
def test_a_derived_deflection_is_bounded_as_a_typed_one(radius, fits):
    changes = {"tractor.rear.rim_diameter": "42 in", "tractor.rear.static_loaded_radius": radius}
    for typed in ("20 percent", None):
        if fits:
            replaced(demo_rig(), changes | {"tractor.rear.deflection_ratio": typed})
            continue
        with pytest.raises(InputError, match="5% to 45%"):
            replaced(demo_rig(), changes | {"tractor.rear.deflection_ratio": typed})


def test_long_digits_are_kept_as_they_are_shown():
    rig = replaced(demo_rig(), {"work.depth": f"{0.1 + 0.2 + 11.7!r}0000000000000001 in", "implement.wheel_share": 0.1 + 0.2})
    assert rig.work.depth.text == "12 in"
    assert rig.implement.wheel_share.text == "0.3"


SMALL_AND_LARGE = [
    {"tractor.rated_power": "14 kW", "tractor.maximum_power": None, "tractor.wheelbase": "1.1 m",
     "tractor.front_axle_mass": "80 kg", "tractor.rear_axle_mass": "120 kg",
     "tractor.front.diameter": "15 in", "tractor.front.section_width": "6 in",
     "tractor.rear.diameter": "20 in", "tractor.rear.section_width": "8 in", "tractor.drawbar_height": "11 in",
     "tractor.center_of_gravity_height": "0.5 m", "tractor.front.tyres": 2, "tractor.rear.tyres": 2, "implement.tools": 1,
     "implement.mass": "25 kg", "work.depth": "4 in", "implement.hitch_load": "0 kN"},
    {"tractor.rated_power": "700 hp", "tractor.maximum_power": "780 hp", "implement.tools": 60, "implement.mass": "18 t",
     "tractor.rear.diameter": "2.32 m", "tractor.rear.section_width": "900 mm", "work.depth": "18 in"},
]  # fmt: skip


@pytest.mark.parametrize("changes", SMALL_AND_LARGE, ids=["garden", "largest"])
def test_no_real_machine_is_refused(changes):
    sound(str(in_words(size(replaced(demo_rig(), changes)))))
