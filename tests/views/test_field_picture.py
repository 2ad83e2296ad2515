"""The picture of fields: well-formed, told in words, every pass drawn where there is room, nothing outside the paper."""

import json
import re
from xml.etree import ElementTree

import numpy as np
import pytest

from rigcalc import field, in_words
from rigcalc.models.land.files import DEMO
from rigcalc.views.passes import picture
from rigcalc.views.passes.picture import field_picture

POND = json.dumps(json.loads(DEMO.read_text(encoding="utf-8"))["features"][3]).encode()


def drawn(words):
    """The picture's tree and, by class, its paths."""
    tree = ElementTree.fromstring(field_picture(words))
    return tree, {each.get("class"): each for each in tree.iter() if each.get("class")}


def test_one_field_with_its_passes_and_hours():
    words = in_words(field("articulated", POND, heading="20 deg"), "us")
    tree, marked = drawn(words)
    assert marked["passes"].get("d").count("M") == words.answer.fields[0].laid.count
    assert marked["inside"].get("d").count("Z") == 2  # the field's inner edge and the pond's
    assert {"best", "asked", "hours"} <= set(marked)
    assert marked["hours"].get("d").count("L") == len(words.answer.fields[0].ways)
    assert str(words) in "".join(tree.itertext())
    assert tree.get("role") == "img"


def test_passes_run_at_their_heading_with_north_up():
    words = in_words(field("articulated", POND, heading="20 deg"), "us")
    numbers = [float(each) for each in re.findall(r"-?\d+\.\d", drawn(words)[1]["passes"].get("d"))]
    lines = np.array(numbers).reshape(-1, 2, 2)
    longest = max(lines, key=lambda line: np.linalg.norm(line[1] - line[0]))
    east, south = longest[1] - longest[0]
    assert np.rad2deg(np.arctan2(east, -south)) % 180 == pytest.approx(20, abs=0.3)


def test_a_farm_with_its_order_and_nothing_off_the_paper():
    words = in_words(field("articulated"), "si")
    tree, marked = drawn(words)
    assert marked["order"].get("d").count("L") == 5
    text = "".join(tree.itertext())
    assert all(each.boundary.name in text for each in words.answer.fields)
    _, _, wide, tall = map(float, tree.get("viewBox").split())
    for path in tree.iter("{http://www.w3.org/2000/svg}path"):
        if path.get("class"):
            places = np.array([float(each) for each in re.findall(r"-?\d+\.\d", path.get("d"))]).reshape(-1, 2)
            assert (places > 0).all()
            assert (places < [wide, tall]).all()


def test_a_large_farm_shows_some_passes_and_says_so(monkeypatch):
    monkeypatch.setattr(picture, "_MOST_LINES", 200)
    words = in_words(field("articulated"), "us")
    tree, _ = drawn(words)
    count = sum(each.get("d").count("M") for each in tree.iter() if each.get("class") == "passes")
    assert count <= 200 + len(words.answer.fields)
    assert "th pass is drawn" in "".join(tree.itertext())
