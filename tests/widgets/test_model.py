"""The app model with no kernel and no widget: change sets, undo, faults, links, files."""

import subprocess
import sys
from typing import ClassVar

import pytest

from rigcalc.core.errors import Fault, InputError
from rigcalc.widgets.model import AppModel


class Doubling(AppModel):
    defaults: ClassVar = {"a.number": "4", "a.word": "x"}
    short_names: ClassVar = {"number": "a.number"}

    def compute(self, inputs):
        if inputs["a.word"] == "crash":
            raise ZeroDivisionError("1/0 <b>")
        try:
            return 2 * float(inputs["a.number"])
        except ValueError:
            raise InputError([Fault("a.number", inputs["a.number"], "a number", "4")]) from None


def test_one_recompute_for_one_change_set_and_none_for_no_change():
    model = Doubling()
    assert (model.results, model.computed) == (8, 1)
    model.edit({"a.number": "5", "a.word": "y"})
    assert (model.results, model.computed) == (10, 2)
    model.edit({"a.number": "5"})
    model.switch_units("si")
    assert model.computed == 2


def test_bad_input_gives_faults_and_no_number_until_mended():
    model = Doubling()
    model.edit({"a.number": "five"})
    assert model.results is None
    assert [fault.type_this for fault in model.faults] == ["4"]
    model.edit({"a.number": "5"})
    assert (model.results, model.faults) == (10, ())


def test_an_error_in_the_program_becomes_words():
    model = Doubling()
    model.edit({"a.word": "crash"})
    assert model.results is None
    assert "ZeroDivisionError" in model.faults[0].got
    model.undo()
    assert (model.results, model.faults) == (8, ())


def test_a_failing_watcher_is_said_and_the_others_still_run():
    model, seen = Doubling(), []

    def fails():
        raise KeyError("gone")

    model.watch(fails, "the picture")
    model.watch(lambda: seen.append(model.results), "the table")
    assert [fault.where for fault in model.faults] == ["the picture"]
    model.edit({"a.number": "1"})
    assert seen == [8, 2]
    assert [fault.where for fault in model.faults] == ["the picture"]


def test_undo_takes_a_whole_drag_back_at_once():
    model = Doubling()
    for step in range(10):
        model.edit({"a.number": str(step)}, live=True)
    model.edit({"a.word": "y"})
    model.undo()
    assert model.inputs == {"a.number": "9", "a.word": "x"}
    model.undo()
    assert model.inputs == {"a.number": "4", "a.word": "x"}
    assert not model.can_undo()
    model.undo()
    assert model.results == 8


def test_a_link_holds_what_differs_and_comes_back():
    model = Doubling()
    assert model.to_query() == ""
    model.edit({"a.number": "7", "a.word": "<&é 🚜"})
    model.switch_units("si")
    other = Doubling()
    other.start_from_query("?" + model.to_query())
    assert (other.inputs, other.system) == (model.inputs, "si")
    assert not other.can_undo()


def test_odd_links_are_said():
    model = Doubling()
    model.start_from_query("number=3&colour=red&units=furlongs&token=abc")
    assert model.results == 6
    assert {fault.got for fault in model.faults} == {"'colour'", "'furlongs'"}
    with pytest.raises(InputError):
        model.start_from_query("number=" + "1" * 30_000)


def test_files_come_back_and_bad_ones_change_nothing():
    model = Doubling()
    model.edit({"a.word": 'quote " and\nline \\ 🚜'})
    other = Doubling()
    other.start_from_toml(model.to_toml())
    assert other.inputs == model.inputs
    for bad in ("not toml at all", "a = 1", 'unknown = "x"', "#" * 300_000):
        with pytest.raises(InputError):
            other.start_from_toml(bad)
        assert other.inputs == model.inputs


def test_ten_thousand_letters_are_refused():
    with pytest.raises(InputError, match=r"10,000 letters"):
        Doubling().edit({"a.word": "x" * 10_000})


def test_the_model_needs_no_widgets():
    code = "import sys, rigcalc.widgets.model, rigcalc.widgets.entries; assert 'ipywidgets' not in sys.modules"
    subprocess.run([sys.executable, "-c", code], check=True)


def test_a_traceback_never_reaches_the_page_but_the_file_that_was_asked_for(tmp_path):
    code = (
        "from rigcalc.widgets.model import AppModel\n"
        "class M(AppModel):\n"
        "    def compute(self, inputs): raise KeyError('on purpose')\n"
        "M()"
    )
    wanted = tmp_path / "faults.log"
    ran = subprocess.run(
        [sys.executable, "-c", code], env={"RIGCALC_LOG": str(wanted)}, capture_output=True, text=True, check=True
    )
    assert (ran.stdout, ran.stderr) == ("", "")
    assert "Traceback" in wanted.read_text()
