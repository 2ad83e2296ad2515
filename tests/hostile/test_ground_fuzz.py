"""Odd readings, logs, axles, fields and rigs: an answer or an error in words, never a traceback, never a number from nothing.

All of them behind RIGCALC_LONG; a share without.
"""

import math
import os
import random

import numpy as np
import pytest
from known_rigs import known_rig

from rigcalc.core.errors import InputError
from rigcalc.models import replaced
from rigcalc.models.ground import ground
from rigcalc.models.ground.layers import find_layers
from rigcalc.models.ground.logs import read_log, read_probe
from rigcalc.models.ground.readings import MOST_SITES, profiles
from rigcalc.models.ground.soil_map import soil_map
from rigcalc.models.ground.typed import flags_typed
from rigcalc.words import in_words

LONG = bool(os.environ.get("RIGCALC_LONG"))
LIMIT = 2068.0  # kPa
COUNT = 10_000 if LONG else 600
WHOLE = COUNT // 25  # of them through the whole answer and its words
NUMBERS = ("0", "-1", "8", "12", "1e9", "1e999", "nan", "inf", "8,5", "8.5", "1,234,567", "٣", "½", "0x10", "", " ", "9" * 400)
UNITS = ("in", "cm", "psi", "MPa", "kg", "degC", "percent", "", "in in", "<b>", "\x00", "'", "mm", "bananas")
JOINTS = (" to ", "; ", "\n", "\t", ", ", " ", " each ", " by ", " on 2 tyres of ", " apart, 2 tyres of ", ": ", "/")
WORDS = (
    "none",
    "deeper",
    "depth (cm)",
    "site",
    "reading (kPa)",
    "flag 1 (psi)",
    "x",
    "lanes ",
    "cart",
    "{}",
    "%s",
    "\ud83d",
    "à",
)


GOOD = (
    "8 in to 12 in; none; 7 in to 9 in, 350 psi; 9 in to deeper",
    "120 180 320 310 210 psi each 3 in; 8 10 12 in",
    "depth (cm)\tA (kPa)\tB (kPa)\n5\t400\t300\n10\t2500\t900\n20\t2600\t\n30\t900\t2100",
    "site;depth (cm);reading (MPa)\nn;2,5;0,8\nn;5,0;2,9\nn;7,5;1,1\ns;2,5;0,8\ns;5,0;0,9\ns;9,5;0,7",
)


def odd(rng):
    if rng.random() < 0.4:  # nearly good: a few letters gone wrong
        text = list(rng.choice(GOOD))
        for _ in range(rng.randint(0, 4)):
            text[rng.randrange(len(text))] = rng.choice((*NUMBERS[:4], "", ";", "\n", "-", ",", "x"))
        return "".join(text)
    pieces = []
    for _ in range(rng.randint(1, 9)):
        word = rng.choice(WORDS) if rng.random() < 0.3 else f"{rng.choice(NUMBERS)} {rng.choice(UNITS)}"
        pieces += [word, rng.choice(JOINTS)]
    return "".join(pieces)[: rng.choice((5, 40, 400, 5000))]


def tried(call, *given, **named):
    """Give what comes of it, None for what is refused in words; anything else that is raised fails."""
    try:
        return call(*given, **named)
    except InputError as error:
        refused = error.faults
    assert refused
    assert all(fault.expected and len(str(fault)) < 2000 for fault in refused)
    return None


def sensible(layers):
    assert len(layers.names) == layers.found.size
    found = layers.found
    assert np.isfinite(layers.top[found]).all()
    assert (layers.top[found] >= 0).all()
    ends = found & ~layers.open_below
    assert (layers.bottom[ends] >= layers.top[ends]).all()
    assert np.isnan(layers.top[~found]).all()


def test_odd_flags_and_logs_are_read_or_refused():
    rng, read = random.Random(14), 0
    readers = (lambda each: read_probe(each, LIMIT), read_log, lambda each: read_probe(flags_typed(each, "in", "psi"), 0))
    for _ in range(COUNT):
        text = odd(rng)
        for reader in readers:
            found = tried(reader, text)
            if found is not None:
                sensible(found.layers(LIMIT))
                read += 1
    assert 0.05 * COUNT < read < 2.5 * COUNT, "some must get through and some not, or nothing was tried"


def test_odd_words_through_the_whole_answer():
    rng = random.Random(15)
    good = {"flags": ("8 in to 12 in",), "axles": (), "cover": None, "passes": (), "keep": None, "field": None, "traffic": (),
            "headland": None, "limit": "300 psi", "share": 0.8, "residue": "fragile"}  # fmt: skip
    for _ in range(WHOLE):
        given = dict(good)
        for name in rng.sample(sorted(good), rng.randint(1, 3)):
            text = odd(rng)
            given[name] = rng.choice((text, (text,), [text] * 3, None, 3, math.nan, {}, b"8 in")) if name != "flags" else [text]
        answer = tried(ground, known_rig(), **given)
        assert answer is None or str(in_words(answer, rng.choice(("us", "si"))))


def test_odd_ground_entries_of_a_rig_are_answered_or_refused():
    rng = random.Random(16)
    entries = (
        *("flags", "axles", "flags_under", "residue_cover", "residue_keep", "residue", "water_by_mass", "plastic_limit"),
        *("organic_matter", "bulk_density", "sampled_at", "clay", "sand", "cone_index", "thread_test", "wetness"),
        *("flags_after", "slope", "passes_run"),
    )
    ends = {"water_by_mass": ("0 percent", "100 percent"), "plastic_limit": ("5 percent", "80 percent"),
            "organic_matter": ("0 percent", "30 percent"), "bulk_density": ("0.5 g/cm**3", "2.2 g/cm**3"),
            "clay": ("0 percent", "100 percent"), "sand": ("0 percent", "100 percent")}  # fmt: skip
    answers = 0
    for _ in range(WHOLE):
        changes = {}
        for name in rng.sample(entries, 3):
            changes[f"ground.{name}"] = rng.choice(ends[name]) if name in ends and rng.random() < 0.8 else odd(rng)
        if "ground.clay" in changes or "ground.sand" in changes:
            changes = {"ground.texture": None, "ground.clay": "30 percent", "ground.sand": "30 percent"} | changes
        answer = tried(lambda changed: ground(replaced(known_rig(), changed)), changes)
        if answer is not None:
            words = in_words(answer, "us")
            assert "nan" not in " ".join((str(words), *words.tool, *words.notes, *words.pressing)).lower().split()
            answers += 1
    assert answers > 0


SAMPLES = "x (m);y (m);clay (%);sand (%);SOC (%);water by mass (%)\n0;0;18,5;40;1,4;17\n50;9;41;20;2;30\n9;70;30;;1;2\n"


def test_odd_soil_samples_are_read_or_refused(tmp_path):
    rng, read, file = random.Random(18), 0, tmp_path / "samples.csv"
    for _ in range(2 * WHOLE):
        text = list(SAMPLES)
        for _ in range(rng.randint(0, 5)):
            text[rng.randrange(len(text))] = rng.choice((*NUMBERS[:8], "", ";", "\n", "-", "%", "x", "\x00"))
        kept = "".join(text) if rng.random() < 0.8 else odd(rng)
        file.write_bytes(kept.encode("utf-8", "surrogatepass"))
        found = tried(soil_map, known_rig(), file)
        if found is not None:
            assert np.isfinite(found.drafts).all()
            words = in_words(ground(known_rig(), soil=file), "si")
            assert "nan" not in " ".join((str(words), *words.soil_lines, *map(" ".join, words.soil))).lower().split()
            read += 1
    assert 0 < read < 2 * WHOLE


@pytest.mark.parametrize("sites", [1, MOST_SITES if LONG else 5_000])
def test_unsorted_and_absurd_profiles_are_put_in_order(sites):
    rng = np.random.default_rng(17)
    depths = rng.permuted(np.tile(np.linspace(0, 60, 7), (sites, 1)), axis=1)
    readings = rng.choice([0.0, 2068.0, 20_000.0, 1500.0], depths.shape)
    made = profiles([(f"s{at}", depths[at], readings[at]) for at in range(sites)])
    assert (np.diff(made.depth, axis=1) > 0).all()
    sensible(find_layers(made.names, made.depth, made.reading, LIMIT))


def test_more_sites_than_there_is_room_for_are_refused():
    with pytest.raises(InputError, match="sites"):
        profiles([("s", [5, 10, 15], [1, 2, 3])] * (MOST_SITES + 1))
