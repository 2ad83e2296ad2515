"""The file that is taken along: every answer in it is the model's, nothing between reads kinder, and it needs nothing else."""

import json
import re
from html.parser import HTMLParser

import numpy as np
import pytest
from known_rigs import known_rig

from rigcalc.models import size
from rigcalc.models.rig.file import replaced
from rigcalc.models.size.around import FIGURES, JUDGED, around
from rigcalc.views.along import take_along
from rigcalc.views.along.page import table_of
from rigcalc.words import in_words

pytestmark = pytest.mark.slow

RIGS = ["front_wheel_assist", "four_wheel_drive"]


@pytest.fixture(scope="module")
def grids():
    return {name: around(known_rig(name)) for name in RIGS}


def at(rig, depth, speed):
    return size(replaced(rig, {"work.depth": f"{depth!r} cm", "work.speed": f"{speed!r} km/h"}))


@pytest.mark.parametrize("name", RIGS)
def test_every_point_is_the_model_s_own_answer(grids, name):
    found = grids[name]
    for i, j in [(0, 0), (6, 4), (12, 8), (3, 7), (11, 2)]:
        answer = at(found.rig, float(found.depths[i]), float(found.speeds[j]))
        assert JUDGED[found.judged[i, j]] == answer.verdict.judgement
        assert found.chance[i, j] == answer.sure.chance_works
        assert found.nearest[i, j] == answer.nearest.name
        for figure in FIGURES:
            if np.isfinite(value := float(getattr(answer.point.bare, figure))):
                assert found.figures[figure][i, j] == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(("entries", "judged", "said"), [
    ({"ground.wetness": "frozen"}, "Don't", "frozen"),
    ({"ground.wetness": "wet"}, "Don't", "too wet"),
    ({"ground.thread_test": "rolls"}, None, ""),
])  # fmt: skip
def test_ground_that_says_no_says_so_at_every_place(entries, judged, said):
    rig = replaced(known_rig(), entries)
    found = around(rig)
    for i, j in [(0, 0), (6, 4), (12, 8)]:
        answer = at(rig, float(found.depths[i]), float(found.speeds[j]))
        assert JUDGED[found.judged[i, j]] == answer.verdict.judgement
    assert found.judged.min() >= 1, "no plain go on ground that asks for more"
    if judged:
        data = table_of(found, "us")
        assert {data["words"][place] for row in data["judged"] for place in row} == {judged}
        assert all(said in data["limits"][place] for row in data["nearest"] for place in row)


def test_a_field_that_was_read_is_this_field(grids):
    assert table_of(grids["front_wheel_assist"], "us")["fields"] == "such fields"
    reading = {"date": "2026-11-04", "field": "a", "depth": "10 in", "speed": "5 mph", "slip": "7 percent"}
    assert table_of(around(replaced(known_rig(), {"reading": [reading]})), "us")["fields"] == "for this field"


@pytest.mark.parametrize("name", RIGS)
def test_nothing_between_reads_kinder_and_the_error_is_the_greatest_found(grids, name):
    found = grids[name]
    assert found.kinder == 0
    rng = np.random.default_rng(3)
    for _ in range(12):
        i, j = rng.integers(0, 12), rng.integers(0, 8)
        a, b = rng.random(2)
        depth, speed = found.depths[i] + a * 1.27, found.speeds[j] + b * 0.40234
        answer = at(found.rig, float(depth), float(speed))
        worst = found.judged[i : i + 2, j : j + 2].max()
        assert worst >= JUDGED.index(answer.verdict.judgement)
        weights = np.outer([1 - a, a], [1 - b, b])
        read = (found.figures["slip"][i : i + 2, j : j + 2] * weights).sum()
        if np.isfinite(answer.point.bare.slip) and np.isfinite(read):
            assert abs(read - answer.point.bare.slip) <= 2 * found.off["slip"]
    assert found.off["slip"] > 0


def test_a_cell_that_reads_kinder_would_be_counted(monkeypatch):
    from rigcalc.models.size import around as module

    true = module._judged

    def judged(rig, depth, speed):
        on_grid = abs((depth - rig.work.depth.to("cm")) / 1.27 % 1 - 0.5) > 0.4
        return (0 if on_grid else 2, *true(rig, depth, speed)[1:])

    monkeypatch.setattr(module, "_judged", judged)
    monkeypatch.setattr(module, "DEPTHS", 1)
    monkeypatch.setattr(module, "SPEEDS", 1)
    found = around(known_rig())
    assert found.kinder == 4
    assert (found.judged == 2).all(), "and no point of such a cell reads kinder than the cell"


def test_progress_is_told_and_may_stop_it():
    told = []

    def progress(share):
        told.append(share)
        if share > 0.1:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        around(known_rig(), progress)
    assert told == sorted(told)


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_file_stands_alone_and_is_small(units):
    rig = replaced(known_rig(), {"farm": "</script><script>alert(1)</script>", "tractor.name": "<b>x</b>"})
    text = take_along(in_words(size(rig), units))
    assert len(text.encode()) < 400_000
    assert "http" not in re.sub(
        r'xmlns="http://www.w3.org/(?:2000/svg|1998/Math/MathML)"|http-equiv', "", text.replace("&#34;", '"')
    )
    assert text.count("<script") == 2 == text.count("</script>")
    assert "<b>x</b>" not in text
    data = json.loads(re.search(r'id="table">(.*?)</script>', text)[1])
    unit = "in" if units == "us" else "cm"
    assert data["axes"][0]["unit"] == unit
    assert len(data["judged"]) == len(data["axes"][0]["values"])
    HTMLParser().feed(text)
    off = re.search("four answers: ([^T]*)", text)
    assert "slip 0.0" in off[1]
    assert "area" not in off[1], "it goes straight over speed"
    assert take_along(in_words(size(rig), units)) == text


def test_what_isn_t_pulled_is_empty_in_the_table(grids):
    found = around(replaced(known_rig("four_wheel_drive"), {"implement.tools": 60}))
    data = table_of(found, "us")
    slips = next(figure for figure in data["figures"] if figure["title"] == "Slip")["values"]
    assert any(value is None for row in slips for value in row)
    assert data["words"][data["judged"][-1][-1]] == "Don't"
