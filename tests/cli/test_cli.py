"""The terminal: exit codes, plain pipes, width, JSON, and the commands beside `size`. Mostly in one process, some for real."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from rigcalc.cli import main as cli
from rigcalc.models import DEMO_RIGS, demo_rig, load_rig, rig_text, size
from rigcalc.models.rig.file import starter_text
from rigcalc.views.json.size import answer_data
from rigcalc.words import in_words
from rigcalc.words.size.parts import reverse_lines

ESCAPE = "\x1b"


def for_real(*words, **env):
    """Run the command as a user does: another process, with pipes, from a terminal that knows colours."""
    clean = {k: v for k, v in os.environ.items() if k not in ("COLUMNS", "NO_COLOR", "FORCE_COLOR")} | {
        "TERM": "xterm-256color"
    }
    return subprocess.run(
        [sys.executable, "-m", "rigcalc", *words], capture_output=True, text=True, env=clean | env, check=False
    )


def test_answer_first():
    done = for_real("size")
    assert done.returncode == 0
    assert done.stderr == ""
    assert ESCAPE not in done.stdout
    assert done.stdout.startswith("Go: it pulls 9 shanks 10 in")
    heads = ["What it takes", "Limits", "The other way round", "How sure", "Season", "Notes", "Cautions"]
    places = [done.stdout.index(f"\n{head}") for head in heads]
    assert places == sorted(places)


def test_piped_output_is_plain_and_colour_can_be_had(run):
    for words in (("size",), ("size", "--working"), ("find", "slip")):
        assert ESCAPE not in run(*words, TERM="xterm-256color")[1]
    assert ESCAPE in run("size", FORCE_COLOR="1", TERM="xterm-256color")[1]
    assert ESCAPE not in run("size", NO_COLOR="1")[1]
    assert ESCAPE not in run("size", "--json", FORCE_COLOR="1", TERM="xterm-256color")[1]


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="needs a pseudo terminal")
@pytest.mark.parametrize(("env", "coloured"), [({}, True), ({"NO_COLOR": "1"}, False)])
def test_a_real_terminal_gets_colour_unless_it_says_no(env, coloured):
    import pty

    main, side = pty.openpty()
    clean = {k: v for k, v in os.environ.items() if k not in ("NO_COLOR", "FORCE_COLOR", "COLUMNS")}
    with subprocess.Popen([sys.executable, "-m", "rigcalc", "size"], stdout=side, stdin=side, stderr=subprocess.PIPE,
                          env=clean | {"TERM": "xterm-256color"} | env):  # fmt: skip
        os.close(side)
        out = b""
        while True:
            try:
                part = os.read(main, 65536)
            except OSError:
                break
            if not part:
                break
            out += part
    os.close(main)
    text = out.decode()
    assert "Go: it pulls" in re.sub(r"\x1b\[[0-9;]*m", "", text)
    # Bold is no colour: NO_COLOR takes the colours alone.
    assert bool(re.search(r"\x1b\[[0-9;]*3[1-7]m", text)) == coloured


@pytest.mark.parametrize("width", [40, 60, 80, 120])
@pytest.mark.parametrize("words", [("size",), ("size", "--working"), ("find", "draft")])
def test_width_is_kept(run, width, words):
    code, out, _ = run(*words, width=width)
    assert code == 0
    assert max(len(line) for line in out.splitlines()) <= width


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", DEMO_RIGS)
def test_the_first_screen_is_for_whoever_drives(run, name, units):
    """No names of symbols, equations, entries and tables; the weightiest five notes; the rest by an option."""
    _, out, _ = run("size", name, "--units", units, width=200)
    assert not re.search(r"mobility number|traction ratio|[a-z]_[a-z]|d497|share of rated|each area|delivered", out)
    assert out.count("from memory") == 1
    notes = in_words(size(demo_rig(name)), units).notes
    assert [note in out for note in notes] == [True] * 5 + [False] * (len(notes) - 5)
    assert f"{len(notes) - 5} more notes: --notes" in out or f"{len(notes) - 5} more note: --notes" in out
    assert ("tyre" not in out) if units == "us" else ("tire" not in out)


@pytest.mark.parametrize("name", DEMO_RIGS)
def test_every_demo_rig_works_and_prints_its_own_numbers(run, name):
    code, out, err = run("size", name, "--notes", width=200)
    answer = size(demo_rig(name))
    words = in_words(answer)
    assert (code, err) == ({"go": 0, "try": 3, "dont": 1}[answer.verdict.judgement], "")
    assert " ".join(str(words).split()) in " ".join(out.split())
    for margin, said in zip(answer.margins, words.margins, strict=True):
        assert said.title in out or (margin.limit is None and "pressure" in margin.name)
    for line in (*reverse_lines(words.reverse), *words.notes, *words.cautions):
        assert " ".join(line.split()) in " ".join(out.split())


def test_exit_codes(run):
    assert run("size")[0] == 0
    assert run("size", "--depth", "30 in")[0] == 1
    assert run("size", "--depth", "13 in")[0] == 3
    assert run("size", "--depth", "30")[0] == 2
    assert run("size", "--wrong")[0] == 2
    assert run("nothing")[0] == 2
    assert run("check", "two_track")[0] == 0
    assert run("check", "no_such_file.toml")[0] == 2
    assert run("--help")[0] == 0
    assert run("--version")[0] == 0
    assert "0 go, 1 don't, 3 try it first, 2 bad input" in run("--help")[1]


def test_overrides_change_what_they_say(run):
    def data(*words):
        code, out, _ = run("size", *words, "--json")
        assert code in (0, 1, 3)
        return json.loads(out)

    base = data()
    assert data("--depth", "14 in")["point"]["depth"]["value"] == pytest.approx(35.56)
    assert data("--speed", "8 km/h")["point"]["speed"]["value"] == pytest.approx(8)
    assert data("--tools", "7")["point"]["tools"]["value"] == 7
    assert data("--texture", "clay")["point"]["draft"]["value"] == pytest.approx(base["point"]["draft"]["value"] / 0.85)
    assert data("--seed", "3")["sure"]["seed"] == 3
    assert data("--units", "si")["point"] == base["point"]


def test_units_of_the_words(run):
    us, si = run("size", "--units", "us")[1], run("size", "--units", "si")[1]
    assert " mph" in us
    assert "lbf" in us
    assert " km/h" in si
    assert "kN" in si
    assert "lbf" not in si
    typed = run("size", "--depth", "30 cm")[1]
    assert "30 cm deep" in typed, "units as the depth is typed"
    assert run("size", "--units", "imperial")[0] == 2


def test_json_is_the_answer_and_nothing_else(run):
    code, out, err = run("size", "two_track", "--json")
    assert (code, err) == (1, "")
    assert json.loads(out) == json.loads(json.dumps(answer_data(in_words(size(demo_rig("two_track")), "us"))))
    assert "working" in json.loads(run("size", "--json", "--working")[1])
    solved = json.loads(run("size", "--json", "--solve-for", "depth")[1])["working"][1]["solved"]
    assert solved.endswith("so depth = 10 in (25.4 cm)")
    assert json.loads(run("size", "--json")[1])["version"] == 1


def test_working_shows_every_equation(run):
    out = run("size", "--working", width=300)[1]
    text = out.split("\nWorking")[1]
    for step in size(demo_rig()).working:
        assert step.text in text
        assert step.text_numbers in text
        assert step.result in text
        assert step.source in text


def test_find(run):
    code, out, _ = run("find", "slip")
    assert code == 0
    assert "travel_reduction" in out
    assert "traction_wheel.py:" in out
    file, line = re.search(r"(rigcalc/equations/\w+\.py):(\d+)", out).groups()
    source = (Path(cli.__file__).parents[2] / file).read_text().splitlines()
    assert source[int(line) - 1].lstrip().startswith(("@equation", "def ")), "the place is the equation's own"
    assert "subsoiler_winged" in run("find", "winged")[1]
    assert run("find", "gross", "traction")[0] == 0
    assert run("find", "quidditch")[0] == 2
    assert run("find")[0] == 2


def test_new_writes_a_rig_that_works(run, tmp_path):
    path = tmp_path / "mine.toml"
    code, out, _ = run("new", str(path))
    assert code == 0
    assert str(path) in out
    assert run("check", str(path))[0] == 0
    assert run("size", str(path))[0] == 0
    assert run("new")[1] == path.read_text(encoding="utf-8")


def test_every_field_that_the_starter_comments_out_is_one(tmp_path):
    """With every commented field put in, the starter is a rig, apart from fields that exclude each other."""
    text = starter_text()
    text = re.sub(r"^# (\w+ = |\[+[\w.]+\])", r"\1", text, flags=re.MULTILINE)
    excluded = ('kind = "track"', "width =", "tracks =", "track_width", "contact_length", "pressure_limit", "texture =")
    path = tmp_path / "whole.toml"
    path.write_text("\n".join(line for line in text.splitlines() if not line.startswith(excluded)), encoding="utf-8")
    made = load_rig(path)
    assert made.ground.sand is not None
    assert made.work.fit_days is not None
    assert made.tractor.drawbar_load_limit is not None
    assert made.gears is not None
    assert made.ballast
    assert str(in_words(size(made)))


def test_new_never_writes_over_a_file(run, tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text("my own")
    code, out, err = run("new", str(path))
    assert (code, out) == (2, "")
    assert "isn't there yet" in err
    assert path.read_text() == "my own"
    (tmp_path / "link.toml").symlink_to(tmp_path / "target.toml")
    assert run("new", str(tmp_path / "link.toml"))[0] == 2
    assert not (tmp_path / "target.toml").exists()


def test_check_says_what_it_read(run, tmp_path):
    path = tmp_path / "rig.toml"
    path.write_text(rig_text(demo_rig("two_track")), encoding="utf-8")
    code, out, _ = run("check", str(path))
    assert code == 0
    assert "11 shanks, 16 in deep at 5 mph" in out


@pytest.mark.slow
def test_a_reader_that_leaves_early_is_no_fault():
    """`rigcalc size | head -1` ends quietly."""
    with subprocess.Popen([sys.executable, "-m", "rigcalc", "size", "--json", "--working"], stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE, text=True) as process:  # fmt: skip
        process.stdout.readline()
        process.stdout.close()
        err = process.stderr.read()
    assert "Traceback" not in err
    assert process.returncode in (0, 1, 3)


@pytest.mark.slow
def test_output_in_an_old_encoding():
    """A terminal that knows no UTF-8 gets marks in place of letters, not a traceback."""
    for words in (("size",), ("size", "--json"), ("size", "--working"), ("find", "track"), ("new",)):
        done = for_real(*words, PYTHONIOENCODING="ascii", PYTHONUTF8="0")
        assert "Traceback" not in done.stderr, words
        assert done.returncode in (0, 1, 3)


@pytest.mark.slow
def test_take_along_writes_one_file_and_never_over_another(tmp_path):
    out = tmp_path / "field.html"
    first = for_real("take-along", "front_wheel_assist", "--depth", "11 in", "--out", str(out))
    assert first.returncode == 0, first.stderr
    assert "11 in deep" in out.read_text(encoding="utf-8")
    again = for_real("take-along", "front_wheel_assist", "--out", str(out))
    assert again.returncode == 2
    assert "--force" in again.stderr
    odd = for_real("take-along", "front_wheel_assist", "--depth", "deep", "--out", str(tmp_path / "field.exe"))
    assert odd.returncode == 2
    assert odd.stderr.count("expected") == 2
