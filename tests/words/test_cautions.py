"""Cautions: every text takes its values, in both systems; the depth beyond which each is shown is a number of the table."""

import re

import pytest
from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.core.tables import table
from rigcalc.models import replaced, size
from rigcalc.words.cautions import caution_source, caution_text

KEYS = [row["id"] for row in table("cautions")]


@pytest.mark.parametrize("key", KEYS)
def test_every_text_is_whole_and_uses_every_value(key):
    row = table("cautions")[key]
    us, si = caution_text(key, "us"), caution_text(key, "si")
    assert not re.search(r"[{}]|None|nan", us + si)
    values = [row[f"value_{place}"] for place in (1, 2, 3)]
    for place, value in enumerate(values, 1):
        assert (value is None) == (f"{{{place}" not in row["text"]), "each value has its place in the text"
    assert (us == si) == (not row["unit"])
    if row["unit"]:
        assert f" {row['unit']}" in us
        assert not re.search(rf"\d {row['unit']}\b", si)
    assert all(caution_source(key))


def test_values_in_both_systems():
    assert "2 deep" not in caution_text("drain_tile", "us")
    assert caution_text("drain_tile", "us").startswith("Drain tile usually lies 30 to 48 in deep")
    assert caution_text("drain_tile", "si").startswith("Drain tile usually lies 76 to 120 cm deep")
    assert "23,000 lb an axle and 92,000 lb in all" in caution_text("axle_limit_state", "us")
    assert "10,000 kg an axle and 42,000 kg in all" in caution_text("axle_limit_state", "si")
    assert "35 psi" in caution_text("bead_seating", "us")
    assert "240 kPa" in caution_text("bead_seating", "si")


def test_depth_brings_its_cautions():
    def keys(depth):
        return set(size(replaced(known_rig(KNOWN_RIGS[0]), {"work.depth": depth})).cautions)

    shallow, deep, deeper = keys("12 in"), keys("12.1 in"), keys("18.1 in")
    assert deep - shallow == {row["id"] for row in table("cautions") if row["over"] == 12}
    assert deeper - deep == {"call_law_18"}
    assert "raised_implement" in shallow
    assert "methanol" not in deeper
