"""The form of a rig: tyres by their size or by measures, a tool by its pieces or by its width, and back again."""

import pytest
from known_rigs import SHEET_RIG, known_rig, known_text

from rigcalc.models.rig.file import load_rig, read_rig
from rigcalc.models.rig.tyre_size import tyre_size
from rigcalc.views.size.model import SizeModel


@pytest.fixture
def model():
    made = SizeModel()
    made.start_from_toml(known_text("front_wheel_assist"))
    return made


def rear(model):
    assert model.faults == (), [str(fault) for fault in model.faults]
    return model.results.answer.rig.tractor.rear


def test_by_the_size_and_back_by_measures(model):
    model.edit({"tractor.rear.kind": ""})
    assert (rear(model).size, rear(model).diameter.to("m")) == (
        "710/70R42",
        pytest.approx(tyre_size("710/70R42").diameter, abs=1e-3),
    )
    assert model.hides("tractor.rear.section_width")
    assert not model.hides("tractor.rear.size")
    model.edit({"tractor.rear.size": "18.4-38"})
    assert rear(model).kind == "bias"
    model.edit({"tractor.rear.kind": "radial"})
    assert (rear(model).kind, rear(model).size) == ("radial", None)
    assert rear(model).section_width is not None
    assert model.hides("tractor.rear.size")
    assert not model.hides("tractor.rear.diameter")


def test_a_bad_size_is_asked_about_by_the_form(model):
    model.edit({"tractor.rear.kind": "", "tractor.rear.size": "710/70/42"})
    (fault,) = model.faults
    assert "710/70R42" in fault.type_this
    assert model.results is None


def test_tracks_take_neither(model):
    model.edit({"tractor.rear.kind": "", "tractor.front.kind": ""})
    model.edit({"tractor.drive": "track"})
    assert rear(model).kind == "track"
    assert model.hides("tractor.rear.size")
    assert model.hides("tractor.rear.diameter")


def test_a_rig_by_its_sheet_comes_in_and_goes_out_the_same(model):
    model.start_from_toml(known_text(SHEET_RIG))
    assert model.faults == ()
    assert not model.hides("tractor.rear.size")
    assert model.hides("tractor.rear.diameter")
    assert read_rig(model.to_toml()) == known_rig(SHEET_RIG)
    model.edit({"tractor.rear.size": "520/85R42"})
    assert rear(model).section_width.to("m") == pytest.approx(0.52)


def test_a_size_with_typed_measures_keeps_both(model, tmp_path):
    text = known_text(SHEET_RIG).replace('size = "710/70R42 173D"', 'size = "710/70R42 173D"\nsection_width = "720 mm"')
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    model.start_from_toml(text)
    assert rear(model).section_width.text == "720 mm"
    assert not model.hides("tractor.rear.section_width")
    assert read_rig(model.to_toml()) == load_rig(tmp_path / "a.toml")


def test_undo_brings_the_measures_back(model):
    before = rear(model)
    model.edit({"tractor.rear.kind": ""})
    model.undo()
    assert rear(model) == before


def test_a_tool_by_its_width_and_back_by_its_pieces(model):
    pieces = model.results.answer.rig.implement.tools
    model.edit({"implement.tool": "disk_tandem_primary"})
    assert model.faults == ()
    assert model.results.answer.rig.implement.width.text == "20 ft"
    assert model.hides("implement.spacing")
    assert not model.hides("implement.width")
    assert 'width = "20 ft"' in model.to_toml()
    assert "tools" not in model.to_toml()
    model.edit({"implement.tool": "chisel_straight"})
    assert model.faults == ()
    assert model.results.answer.rig.implement.tools == pieces
    assert model.hides("implement.width")
