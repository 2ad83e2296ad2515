"""With readings in a rig every question's answer stands on the field's own values, and says so."""

from __future__ import annotations

import re
import sys
from html import unescape
from typing import Any

import numpy as np
import pytest

from rigcalc import season
from rigcalc.models import size
from rigcalc.models.ballast.answer import ballast
from rigcalc.models.compare.answer import compare
from rigcalc.models.machine.curves import limits_map
from rigcalc.models.machine.field import in_field
from rigcalc.models.machine.limits import shares
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.file import demo_rig, replaced
from rigcalc.models.size.around import around
from rigcalc.models.size.first import _at
from rigcalc.views.along.page import _by, table_of
from rigcalc.views.compare.model import CompareModel
from rigcalc.views.json.ballast import ballast_data
from rigcalc.views.json.compare import comparison_data
from rigcalc.views.sheet import sheet_html
from rigcalc.views.sheet.readings import readings as on_the_sheet
from rigcalc.views.size.pictures import chance as chance_picture
from rigcalc.views.size.pictures import limits_map as map_picture
from rigcalc.words import in_words
from rigcalc.words.ballast import plan as plan_words
from rigcalc.words.compare import CompareWords
from rigcalc.words.numbers import percent

BASE = demo_rig("articulated")
READ = {"date": "2026-11-04", "depth": "12 in", "depth_behind": 3, "speed": "5 mph", "load": "80 percent", "load_of": "rated"}
FROM = "from 1 reading of 4 November 2026"


@pytest.fixture(scope="module")
def rig() -> Any:
    return replaced(BASE, {"reading": [READ]})


@pytest.fixture(scope="module")
def answer(rig: Any) -> Any:
    return size(rig)


def test_the_field_is_another_than_the_table_s(answer: Any) -> None:
    draft, before = (float(each.point.bare.draft) for each in (answer, answer.before))
    assert abs(draft / before - 1) > 0.05, "else nothing here could fail"


def test_pictures_of_size_are_of_the_field(rig: Any, answer: Any) -> None:
    words, p, b = in_words(answer, "us"), answer.point.bare, in_field(rig)
    pulls, works = chance_picture.chances(words, [float(p.depth)])
    assert (pulls[0], works[0]) == pytest.approx((answer.sure.chance_pulls, answer.sure.chance_works), abs=0.02)
    found = limits_map(b, answer.caps, np.array([float(p.depth)]), np.array([float(p.speed)]))
    assert found.slip[0, 0] == pytest.approx(float(p.slip))
    without = limits_map(b.at(told=None), answer.caps, np.array([float(p.depth)]), np.array([float(p.speed)]))
    assert without.slip[0, 0] == pytest.approx(float(answer.before.point.bare.slip))
    at_ten = next(row for row in map_picture.twin(words).rows if row[0] == "10 in")
    plain_ten = next(row for row in map_picture.twin(in_words(answer.before, "us")).rows if row[0] == "10 in")
    assert at_ten != plain_ten


def test_the_deepest_that_works_is_the_field_s(answer: Any) -> None:
    found = answer.furthest("deepest")
    b = answer.bare_rig.at(depth=found.value)
    assert float(shares(b, solve(b), answer.caps)[found.binds]) == pytest.approx(1.0, abs=0.01)
    assert found.value > 1.05 * answer.before.furthest("deepest").value, "it pulls lighter than the table says"


def test_ballast_stands_on_the_field_and_says_so(rig: Any, answer: Any) -> None:
    found, plain = ballast(rig, "this"), ballast(BASE, "this")
    assert float(found.plan.job.point.draft) == pytest.approx(float(answer.point.bare.draft))
    assert found.plan.now.slip == pytest.approx(float(answer.point.bare.slip), rel=0.02)
    assert found.plan.now.slip != pytest.approx(plain.plan.now.slip, rel=0.02)
    for job in ("light", "this", "full"):
        told = ballast(rig, job)
        assert plan_words.said(told.plan, "us").rest[-1] == f"Draft and grip are those of the field, {FROM}."
        assert ballast_data(told)["readings"]["from"] == FROM
    assert not any("of the field" in line for line in plan_words.said(plain.plan, "us").rest)
    assert "readings" not in ballast_data(plain)


def test_a_comparison_stands_on_the_field_and_says_of_which_fields_its_chances_are(rig: Any, answer: Any) -> None:
    narrow = replaced(rig, {"implement.tools": 12})
    both = CompareWords(compare([rig, narrow], ["read", "narrow"]), "us")
    assert float(both.comparison.rigs[0].answer.point.bare.draft) == float(answer.point.bare.draft)
    assert "in 100 fields that would read so" in str(both.said)
    assert f"All of it {FROM}" in str(both.said)
    data = comparison_data(both)
    assert [each["readings"]["from"] for each in data["rigs"]] == [FROM, FROM]
    one = CompareWords(compare([rig, BASE], ["read", "plain"]), "us")
    assert str(one.said).count("in 100 fields that would read so") == 1, "of the one that was read"
    assert str(one.said).count("in 100 such fields") == 1, "of the other"
    assert f"read: {FROM}; what has no reading goes by the table." in str(one.said)
    assert ["readings" in each for each in comparison_data(one)["rigs"]] == [True, False]


def test_the_cards_of_a_comparison_say_it_for_each(rig: Any) -> None:
    from rigcalc.views.compare.panels import cards

    model = CompareModel()
    model.start_from([rig, BASE], ["read", "plain"])
    text = cards(model.results, links=False)
    assert len(re.findall("</b>fields that would read so</p>", text)) == 1
    assert len(re.findall("</b>such fields</p>", text)) == 1


def test_the_sheet_stands_on_the_field(answer: Any) -> None:
    words = in_words(answer, "us")
    slip = next(each for each in on_the_sheet(words) if each.name == "Slip")
    assert slip.value == percent(answer.point.bare.slip).removesuffix(" %")
    text = unescape(re.sub("<[^>]+>", " ", sheet_html(words)))
    assert text.count(FROM) >= 2, "the answer and how sure it is"


def test_what_is_taken_along_stands_on_the_field_and_says_so(rig: Any, answer: Any, monkeypatch: Any) -> None:
    for steps in ("DEPTHS", "SPEEDS"):
        monkeypatch.setattr(sys.modules[around.__module__], steps, 1)
    found = around(rig)
    assert found.chance[1, 1] == answer.sure.chance_works
    assert found.figures["slip"][1, 1] == pytest.approx(float(answer.point.bare.slip))
    assert table_of(found, "us")["fields"] == "for this field"
    assert _by(found) == f"Draft and grip are those of the field, {FROM}."
    plain = around(BASE)
    assert table_of(plain, "us")["fields"] == "such fields"
    assert _by(plain) == ""


def test_what_to_measure_first_is_asked_of_the_field(rig: Any) -> None:
    read, plain = (_at(each, "ground.cone_index", "1200 kPa", {}, "kPa", 0) for each in (rig, BASE))
    assert read is not None
    assert plain is not None
    assert read.chance > plain.chance + 0.1
    assert read.engine_share < 0.97 * plain.engine_share


def test_the_season_s_day_is_the_field_s_and_says_so(rig: Any) -> None:
    plan = {"start": "1 Oct", "by": "15 Nov"}
    told, plain = (in_words(season(each, plan), "us") for each in (rig, BASE))
    lines, without = (words.day_lines(words.answer.rigs[0]) for words in (told, plain))
    assert lines[-1] == f"Draft and grip are those of the field, {FROM}."
    assert not any("Draft and grip" in line for line in without)
    assert told.answer.rigs[0].day.fuel != pytest.approx(plain.answer.rigs[0].day.fuel, rel=0.01)
