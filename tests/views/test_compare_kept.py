"""The comparison in links and files: what opens the same again, what can't be held is said, what is bad changes nothing."""

import json

import pytest
from compare_readers import known_model, shown
from known_rigs import KNOWN_RIGS, known_rig, known_text
from markupsafe import escape

from rigcalc.core.errors import InputError
from rigcalc.models import demo_rig, replaced, rig_text
from rigcalc.views import CompareApp
from rigcalc.views.compare.inputs import places
from rigcalc.views.compare.model import CompareModel
from rigcalc.views.compare.picture import CompareLimits
from rigcalc.widgets import CompareRigs

HOSTILE = "<script>alert(1)</script>\"'&`$x$ 🚜"


@pytest.fixture
def model():
    return known_model()


def picked(name, text, at=0):
    return {"name": f"{name}.toml", "size": len(text), "text": text, "at": at}


def tools(model):
    return [side.answer.rig.implement.tools for side in model.results.words.comparison.rigs]


def test_a_link_opens_the_same(model):
    model.edit({"1.name": "me & <you>", "same": "tool", "2.implement.point_width": "", "vary.0.entry": "work.depth",
                "vary.0.values": "10, 12 in"})  # fmt: skip
    model.switch_units("si")
    other = CompareModel()
    other.start_from_query(model.to_query())
    assert other.faults == ()
    assert (str(other.results.words), other.system) == (str(model.results.words), "si")
    assert CompareModel().to_query() == ""
    other.start_from_query("vary=implement.tools&values=9,11&rig1=two_track")
    assert tools(other) == [9, 11]
    with pytest.raises(InputError, match="nobody"):
        other.start_from_query("rig1=nobody")
    other.start_from_query("rig1=two_track&rig2=articulated&0.work.depht=3")
    assert any("0.work.depht" in fault.got for fault in other.faults)


def test_a_link_of_two_demo_rigs_is_short():
    model = CompareModel()
    model.start_from(
        [demo_rig("two_track"), demo_rig("articulated")], [demo_rig(n).tractor.name for n in ("two_track", "articulated")]
    )
    assert model.to_query() == "same=&rig1=two_track&rig2=articulated"


def test_what_a_link_cannot_hold_is_said():
    model = CompareModel()
    model.start_from(
        [replaced(known_rig(), {"note": "long " * 390, "work.depth": f"{at + 8} in"}) for at in range(8)], "abcdefgh"
    )
    assert model.to_query() == ""
    assert "more here than a link can hold" in CompareRigs(model).html
    assert "more here" not in CompareRigs(CompareModel()).html


def test_a_comparison_is_saved_and_opened_again(model):
    model.edit({"same": "work", "vary.0.entry": "work.speed", "vary.0.values": "4, 5", "1.name": HOSTILE})
    other = CompareModel()
    other.start_from_toml(model.to_toml())
    assert str(other.results.words) == str(model.results.words)
    assert other.to_toml() == model.to_toml()
    model.edit({"0.work.depth": "deep"})
    with pytest.raises(InputError, match=KNOWN_RIGS[0]):
        model.to_toml()


NO_COMPARISON = [
    *("rigs = []", "rigs = [1]", "rigs = [{name = 'a'}]", "compare = 1\nrigs = [{name = 'a', rig = {}}]"),
    *(f"rigs = [{', '.join(['{rig = 1}'] * 9)}]", "[[", "", "x" * 200_001),
]


@pytest.mark.parametrize("text", NO_COMPARISON)
def test_a_file_that_is_no_comparison_changes_nothing(model, text):
    before = dict(model.inputs)
    with pytest.raises(InputError):
        model.start_from_toml(text, "broken")
    assert model.inputs == before


def test_rig_files_are_added_and_bad_ones_are_named_without_piling_up(model):
    card = CompareRigs(model)
    texts = [known_text(KNOWN_RIGS[0]), "[[", known_text(KNOWN_RIGS[1]), rig_text(known_rig()).replace("depth", "dephth")]
    for at, text in enumerate(texts):
        card.act("add", picked(f"file {at}", text, at))
    names = [model.inputs[f"{place}.name"] for place in places(model.inputs)]
    assert names == [*KNOWN_RIGS, "file 0", "file 2"]
    assert {fault.where.partition(",")[0] for fault in model.faults} == {"file file 1", "file file 3"}
    card.act("add", picked("next", "]]"))
    assert {fault.where.partition(",")[0] for fault in model.faults} == {"file next"}
    for odd in (None, 5, {"name": 5, "size": "big"}, {"name": "a", "size": 5_000_000, "text": ""}):
        card.act("add", odd)
        assert len(model.faults) == 1
    card.act("add", picked("good", known_text()))
    assert model.faults == ()
    assert len(places(model.inputs)) == 6


def test_names_from_outside_are_texts_everywhere(model):
    model.edit({"0.name": HOSTILE, "vary.0.entry": "implement.tools", "vary.0.values": f"{HOSTILE}, 9"})
    app = CompareApp(model)
    html = shown(app)
    assert "<script" not in html
    assert str(escape("<script>alert(1)")) in html
    model.edit({"vary.0.entry": ""})
    picture = CompareLimits(model)
    picture.open_twin()
    assert "<script" not in picture.twin
    texts = json.dumps(picture.spec["layout"])
    assert "script" not in texts, "plotly reads a few tags in texts of its own; names stand in the page's key alone"
