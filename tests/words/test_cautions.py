"""Cautions: every text takes its values, in both systems; the depth beyond which each is shown is a number of the table."""

import re

import pytest
from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.core.tables import table
from rigcalc.models import replaced, size
from rigcalc.words import in_words
from rigcalc.words.cautions import caution_source, caution_text
from rigcalc.words.spelling import spelt

KEYS = [row["id"] for row in table("cautions")]


@pytest.mark.parametrize("key", KEYS)
def test_every_text_is_whole_and_uses_every_value(key):
    row = table("cautions")[key]
    us, si = caution_text(key, "us"), caution_text(key, "si")
    assert not re.search(r"[{}]|None|nan", us + si)
    values = [row[f"value_{place}"] for place in (1, 2, 3)]
    for place, value in enumerate(values, 1):
        assert (value is None) == (f"{{{place}" not in row["text"]), "each value has its place in the text"
    assert (spelt(us, "us") == spelt(si, "us")) == (not row["unit"])
    if row["unit"]:
        assert f" {row['unit']}" in us
        assert not re.search(rf"\d {row['unit']}\b", si)
    assert all(caution_source(key))


def test_values_in_both_systems():
    assert caution_text("buried_lines", "us").startswith("Deeper than 12 in have buried lines located first")
    assert caution_text("buried_lines", "si").startswith("Deeper than 30 cm have buried lines located first")
    assert "23,000 lb an axle and 92,000 lb in all" in caution_text("axle_limit_state", "us")
    assert "10,000 kg an axle and 42,000 kg in all" in caution_text("axle_limit_state", "si")
    assert "35 psi" in caution_text("bead_seating", "us")
    assert "240 kPa" in caution_text("bead_seating", "si")
    assert "field tire" in caution_text("bead_seating", "us")
    assert "field tyre" in caution_text("bead_seating", "si")


def test_depth_brings_its_cautions():
    def keys(depth):
        return set(size(replaced(known_rig(KNOWN_RIGS[0]), {"work.depth": depth})).cautions)

    shallow, deep = keys("12 in"), keys("12.1 in")
    assert deep - shallow == {"buried_lines", "buried_private"} == {row["id"] for row in table("cautions") if row["over"]}
    assert "raised_implement" in shallow
    assert "methanol" not in deep


def test_what_can_hurt_is_named_short():
    """What the work itself can do to people and soil: each is there, and none takes more than three lines of a terminal."""
    said = in_words(size(replaced(known_rig(), {"work.depth": "14 in"})), "us").cautions
    for word in ("too wet", "Raise the shanks", "power lines", "wings", "transport", "shear bolts", "seat belt", "long days",
                 "width and height", "buried lines", "Local codes"):  # fmt: skip
        assert any(word in text for text in said), word
    assert max(map(len, said)) < 230
    assert sum("buried" in text or "Marks" in text for text in said) == 2


@pytest.mark.parametrize(
    ("changes", "us", "si"),
    [
        ({}, "Here: 20 in high; tongue load 2,500 lbf of 9,000 lbf.", "Here: 51 cm high; tongue load 11.1 kN of 40 kN."),
        ({"tractor.drawbar_height": "24 in"}, "24 in high, over the 21 in: check it", "61 cm high, over the 53.3 cm: check it"),
        ({"tractor.drawbar_height": "21 in"}, "Here: 21 in high;", "Here: 53 cm high;"),
        ({"implement.hitch_load": "9500 lbf"}, "tongue load 9,500 lbf is over the 9,000 lbf.", "42.3 kN is over the 40 kN."),
        ({"tractor.drawbar_load_limit": None}, "its limit isn't known", "its limit isn't known"),
    ],
)
def test_the_drawbar_caution_checks_what_was_entered(changes, us, si):
    start = {"tractor.drawbar_height": "20 in", "implement.hitch_load": "2500 lbf", "tractor.drawbar_load_limit": "9000 lbf"}
    rig = replaced(known_rig(), start | changes)
    for units, text in (("us", us), ("si", si)):
        assert any(text in said for said in in_words(size(rig), units).cautions)
