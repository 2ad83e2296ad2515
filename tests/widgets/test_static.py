"""Widgets kept in a page of their own, without a browser: what is kept, what is refused, and that nothing in it can run."""

import json
import re

import ipywidgets
import pytest

from rigcalc.core.errors import InputError
from rigcalc.widgets import AnswerCard, Figure, LimitsMap, QuantityEntry, SizeModel, WorkingSteps, save_page
from rigcalc.widgets.static import page_of


def kept(text):
    return json.loads(re.search(r'id="saved">(.*?)</script>', text, re.DOTALL)[1])


def test_what_stands_is_kept_each_script_once_and_plotly_only_for_a_picture():
    model = SizeModel()
    cards = [AnswerCard(model), WorkingSteps(model), QuantityEntry("12 in", low=4, high=20, description="How deep")]
    text = page_of(ipywidgets.VBox([cards[0], ipywidgets.HBox(cards[1:])]), ipywidgets.Label("<b>x</b>"), title="<i>")
    data = kept(text)
    assert len(data["scripts"]) == 2
    first, second = data["shown"][0]["children"]
    assert "it pulls 9 shanks" in first["state"]["html"]
    assert "<math" in second["children"][0]["state"]["html"], "a fold is filled, since nobody can ask for it later"
    assert second["classes"] == ["rig-row"]
    assert data["shown"][1]["html"] == "&lt;b&gt;x&lt;/b&gt;"
    assert "<title>&lt;i&gt;</title>" in text
    assert 'id="plotly"' not in text
    assert len(text) < 300_000
    assert 'id="plotly"' in page_of(LimitsMap(model))


def test_nothing_that_was_typed_ends_the_script_or_runs():
    model = SizeModel()
    model.edit({"tractor.name": "</script><script>alert(1)</script>"})
    text = page_of(AnswerCard(model), Figure({"data": [{"x": [1], "name": "</script>"}], "layout": {}}))
    assert "alert(1)" not in re.sub(r'id="saved">.*?</script>', "", text, flags=re.DOTALL)
    assert text.count("</script>") == 3
    assert re.search(r"https?://[^w]", re.sub(r'id="plotly">.*?</script>', "", text, flags=re.DOTALL)) is None


def test_numbers_of_a_picture_are_kept_as_text():
    state = kept(page_of(LimitsMap(SizeModel())))["shown"][0]["state"]
    assert "@bytes" in json.dumps(state["ground"])
    assert "<table" in state["twin"]


def test_every_fault_is_told_at_once(tmp_path):
    there = tmp_path / "there.htm"
    there.write_text("kept", encoding="utf-8")
    with pytest.raises(InputError) as told:
        save_page(there, ipywidgets.IntSlider(), ipywidgets.Text())
    assert [fault.got for fault in told.value.faults] == ["'there.htm'", "IntSlider", "Text", "'there.htm'"]
    assert there.read_text(encoding="utf-8") == "kept"
    with pytest.raises(InputError, match="none"):
        page_of()
    with pytest.raises(InputError, match="can be written to"):
        save_page(tmp_path / "no" / "such.html", AnswerCard())
    made = save_page(tmp_path / "rig.html", AnswerCard())
    with pytest.raises(InputError, match="force=True"):
        save_page(made, AnswerCard())
    assert save_page(made, AnswerCard(), title="again", force=True).read_text(encoding="utf-8").count("<title>again<") == 1
