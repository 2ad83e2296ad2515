"""`rigcalc new`: asks in a terminal and nowhere else, says at once what to type, writes a file that is read again."""

import os
import pty
import subprocess
import sys
import tomllib

import click
import pytest

from rigcalc.cli import rig as new_file
from rigcalc.models.rig.file import load_rig, read_rig, starter_text

ANSWERS = {"units": "us", "drive": "2", "power": "300", "rating": "pto", "total": "29000", "rear": "710/70R42", "tyres": "",
           "front": "480/70R34", "tool": "chisel_straight", "tools": "9", "spacing": "15", "texture": "clay loam",
           "surface": "", "depth": "10", "speed": "5"}  # fmt: skip


@pytest.fixture
def asked(tmp_path, monkeypatch):
    """Hold the interview with given replies: what was said, and the file."""
    monkeypatch.chdir(tmp_path)

    def hold(replies, file="a.toml", units=None):
        left, said = list(replies), []

        def reply(text):
            said.append(text)
            if not left:
                raise click.Abort
            return left.pop(0)

        new_file._interview(file, units, reply, said.append)
        assert left == []
        return "\n".join(said), tmp_path / (file or "my_rig.toml")

    return hold


def test_answers_become_a_rig(asked):
    said, file = asked(ANSWERS.values())
    rig = load_rig(file)
    assert (rig.tractor.rated_power.text, rig.implement.tools, rig.ground.texture) == ("300 hp", 9, "clay loam")
    assert rig.ground.surface == "firm"
    assert "Now: rigcalc size a.toml" in said
    assert "tires" in said
    assert "tyres" not in said


def test_the_unit_of_the_asked(asked):
    metric = ANSWERS | {"units": "si", "power": "220", "total": "13200", "spacing": "38", "depth": "25", "speed": "8"}
    said, file = asked(metric.values())
    rig = load_rig(file)
    assert (rig.tractor.total_mass.text, rig.work.speed.text) == ("13200 kg", "8 km/h")
    assert "in kg" in said
    assert "tires" not in said
    again, _ = asked(list(metric.values())[1:], file="b.toml", units="si")
    assert "American units or metric" not in again


def test_a_bad_answer_is_said_at_once_with_what_to_type(asked):
    replies = list(ANSWERS.values())
    place = list(ANSWERS).index("rear")
    said, file = asked([*replies[:place], "710/70/42", "710", *replies[place:]])
    assert "Type 710/70R42, if that is what you meant" in said
    assert said.count("Rear tire size") == 3
    assert load_rig(file).tractor.rear.size == "710/70R42"


def test_what_isn_t_known_is_named_and_stands_as_a_comment(asked):
    said, file = asked((ANSWERS | {"total": "", "texture": ""}).values())
    text = file.read_text(encoding="utf-8")
    assert "Still missing:" in said
    assert "a scale, or the dealer's sheet" in said
    assert '# total_mass = ""' in text
    assert "rigcalc check a.toml" in said
    whole = text.replace('# total_mass = ""', 'total_mass = "29000 lb"').replace('# texture = ""', 'texture = "loam"')
    assert read_rig(whole).ground.texture == "loam"
    tomllib.loads(text)


def test_nobody_who_knows_nothing_is_stuck(asked):
    said, file = asked([""] * len(ANSWERS))
    assert said.count("\n  ") >= 12
    empty = {"tractor": {"front": {}, "rear": {}}, "implement": {}, "ground": {}, "work": {}}
    assert tomllib.loads(file.read_text(encoding="utf-8")) == empty


def test_answers_that_don_t_go_together_are_asked_again(asked):
    replies = ANSWERS | {"rear": "16x6.50-8"}
    again = ["2", "300", "pto", "29000", "710/70R42", "480/70R34"]  # of the tractor, what was answered
    said, file = asked([*replies.values(), *again])
    assert "These answers don't go together:" in said
    assert "drawbar_height of 20 in with rear tires" in said
    assert load_rig(file).tractor.rear.size == "710/70R42"


def test_who_insists_gets_the_file_and_the_faults(asked):
    replies = ANSWERS | {"rear": "16x6.50-8"}
    said, file = asked([*replies.values(), *(replies[name] for name in ("drive", "power", "rating", "total", "rear", "front"))])
    assert said.count("These answers don't go together:") == 2
    assert "Mend it in the file, then: rigcalc check a.toml" in said
    assert "16x6.50-8" in file.read_text(encoding="utf-8")


def test_breaking_off_writes_nothing(asked, tmp_path):
    with pytest.raises(click.Abort):
        asked(list(ANSWERS.values())[:5])
    assert list(tmp_path.iterdir()) == []


def test_a_name_of_its_own_where_none_is_given(asked, tmp_path):
    (tmp_path / "my_rig.toml").write_text("mine")
    said, _ = asked(ANSWERS.values(), file=None)
    assert "Wrote my_rig_2.toml" in said
    assert (tmp_path / "my_rig.toml").read_text() == "mine"


def test_without_a_terminal_the_starters(run, tmp_path, monkeypatch):
    def refuse(*_):
        raise AssertionError

    monkeypatch.setattr(new_file, "_interview", refuse)
    assert run("new")[1] == starter_text(full=False)
    assert run("new", "--small")[1] == starter_text(full=False)
    assert run("new", "--full")[1] == starter_text()
    assert run("new", "--full", "--small")[0] == 2
    for words in ((), ("--full",)):
        path = tmp_path / f"rig{len(words)}.toml"
        assert run("new", *words, str(path))[0] == 0
        assert run("check", str(path))[0] == 0


def test_the_small_starter_is_short_and_full_of_rules():
    small = read_rig(starter_text(full=False))
    assert len(starter_text(full=False).splitlines()) < len(starter_text().splitlines()) / 2
    assert len(small.assumed) > 7


@pytest.mark.slow
def test_in_a_real_terminal_it_asks_and_behind_a_pipe_it_doesn_t(tmp_path):
    command = [sys.executable, "-m", "rigcalc", "new", "a.toml"]
    ours, theirs = pty.openpty()
    with subprocess.Popen(command, stdin=theirs, stdout=theirs, stderr=theirs, cwd=tmp_path, close_fds=True) as process:
        os.close(theirs)
        os.write(ours, "".join(f"{answer}\n" for answer in ANSWERS.values()).encode())
        heard = b""
        while True:
            try:
                heard += os.read(ours, 4096)
            except OSError:  # the other side has closed
                break
        assert process.wait(60) == 0
    os.close(ours)
    assert b"Which axles pull?" in heard
    assert load_rig(tmp_path / "a.toml").implement.tools == 9
    done = subprocess.run([*command[:-1], "b.toml"], stdin=subprocess.DEVNULL, capture_output=True, cwd=tmp_path, check=False)
    assert done.returncode == 0
    assert (tmp_path / "b.toml").read_text(encoding="utf-8") == starter_text(full=False)
