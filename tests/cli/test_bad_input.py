"""Nonsense typed at the terminal: each ends in plain words and exit code 2, never in a number, never in a traceback."""

import re
import subprocess
import sys

import pytest
from known_rigs import known_text

from rigcalc.cli import main as cli

GOOD = known_text()


def ends(words, monkeypatch, capsys):
    monkeypatch.setattr(sys, "argv", ["rigcalc", *words])
    with pytest.raises(SystemExit) as end:
        cli.main()
    out = capsys.readouterr()
    return end.value.code, out.out, out.err


def refused(code, out, err, words):
    assert code == 2, (code, out, err)
    assert out == "", "no number on standard output"
    assert "Traceback" not in err
    assert err.strip()
    assert words.lower() in err.lower()
    for jargon in ("pydantic", "ValidationError", "NoneType", "tomllib.", "KeyError", "0x"):
        assert jargon not in err
    assert all(line.isprintable() for line in err.split("\n"))


# What is typed after `rigcalc size` -> words that the refusal holds
TYPED = {
    ("--depth", "-12 in"): "above 0", ("--depth", "0 in"): "above 0", ("--depth", "nan in"): "number and its unit",
    ("--depth", "inf in"): "number and its unit", ("--depth", "1e999 in"): "finite", ("--depth", "12 lb"): "converts to cm",
    ("--depth", "12"): "unit", ("--depth", "twelve inches"): "number and its unit", ("--depth", ""): "number and its unit",
    ("--depth", "12 cubits"): "known names", ("--depth", "12 in/"): "work.depth", ("--depth", "9 ft"): "at most 150",
    ("--depth", "12 in; rm -rf"): "work.depth", ("--depth", "12\x1b[31m in"): "work.depth", ("--depth",
        "x" * 10_000): "work.depth",
    ("--speed", "-5 mph"): "above 0", ("--speed", "5 in"): "converts to km/h", ("--speed", "80 mph"): "at most 30",
    ("--speed", "5"): "unit", ("--speed", "5 mph/h"): "converts",
    ("--tools", "0"): "whole number", ("--tools", "-3"): "whole number", ("--tools", "2.5"): "whole number",
    ("--tools", "many"): "whole number", ("--tools", "999999"): "whole number", ("--tools", "nan"): "whole number",
    ("--tools", "9" * 5000): "whole number", ("--tools", "15 shanks"): "whole number",
    ("--texture", "gumbo"): "silty clay loam", ("--texture", ""): "silty clay loam", ("--units", "imperial"): "us",
    ("--seed", "-1"): "seed", ("--seed", "one"): "seed", ("--colour",): "no such option",
    ("no_such_file.toml",): "exists", ("articulated", "two_track"): "unexpected", (".",): "exists", ("/dev/null",): "exists",
    ("x" * 5000,): "read", ("no\x00name",): "exists", ("/dev/zero",): "exists",
}  # fmt: skip


@pytest.mark.parametrize("typed", TYPED, ids=lambda typed: " ".join(typed)[:30] or "nothing")
def test_typed(typed, monkeypatch, capsys):
    refused(*ends(["size", *typed], monkeypatch, capsys), TYPED[typed])


# A change to a good file: (what stands there, what takes its place) -> words
SPOILED = {
    ('depth = "12 in"', 'depth = "-12 in"'): "work.depth", ('depth = "12 in"', "depth = 12"): "bare number",
    ('depth = "12 in"', "depth = nan"): "work.depth", ('depth = "12 in"', "depth = inf"): "work.depth",
    ('depth = "12 in"', 'depth = "12 kW"'): "work.depth", ('depth = "12 in"', 'depht = "12 in"'): "depth, perhaps",
    ("tools = 15", "tools = 0"): "implement.tools", ("tools = 15", "tools = 2.5"): "implement.tools",
    ("tools = 15", 'tools = "15"'): "implement.tools", ('rated_power = "500 hp"', 'rated_power = "500 Nm"'): "Nm",
    ('texture = "silt loam"', 'texture = "gumbo"'): "gumbo",
    ('texture = "silt loam"', 'sand = "60 percent"\nclay = "50 percent"'): "at most 100",
    ('texture = "silt loam"', 'sand = "60 percent"'): "both or neither", ('texture = "silt loam"', ""): "one of the two",
    ('front_axle_mass = "27500 lb"', 'front_axle_mass = "0 lb"'): "no weight on the front axle",
    ('rear_axle_mass = "22500 lb"', 'rear_axle_mass = "0 lb"'): "tractor.rear_axle_mass",
    ('surface = "firm"', 'surface = "ice"'): "hard", ('tool = "chisel_straight"', 'tool = "spoon"'): "draft table",
    ("[work]", "[wrok]"): "wrok", ("[work]", "[work"): "TOML", ("[work]", "[ground]"): "TOML",
    ('drive = "4WD"', 'drive = "9WD"'): "4WD", ('grade = "0 deg"', 'grade = "80 deg"'): "ground.grade",
    ('kind = "radial"', 'kind = "track"'): "contact_length",
}  # fmt: skip


@pytest.mark.parametrize("command", ["size", "check"])
@pytest.mark.parametrize("change", SPOILED, ids=lambda change: change[1][:30] or "left out")
def test_spoiled_file(change, command, tmp_path, monkeypatch, capsys):
    before, after = change
    assert before in GOOD
    path = tmp_path / "rig.toml"
    path.write_text(GOOD.replace(before, after, 1), encoding="utf-8")
    refused(*ends([command, str(path)], monkeypatch, capsys), SPOILED[change])


def bad_files(folder):
    """Files that are no rig files, by what is wrong with them."""
    half, empty, big, binary, latin = (folder / f"{name}.toml" for name in ("half", "empty", "big", "binary", "latin"))
    half.write_text(GOOD[: len(GOOD) // 2], encoding="utf-8")
    empty.write_text("")
    with big.open("wb") as out:
        out.truncate(100 * 1024 * 1024)
    binary.write_bytes(bytes(range(256)) * 40)
    latin.write_bytes(GOOD.replace("invented", "erdacht, wahrhaftig sch\u00f6n", 1).encode("latin-1"))
    deep = folder / "deep.toml"
    deep.write_text("a = " + "[" * 20_000)
    keys = folder / "keys.toml"
    keys.write_text("\n".join(f'"\\u001b[3{n % 8}m{n}" = {n}' for n in range(2000)))
    number = folder / "number.toml"
    number.write_text("tools = " + "9" * 100_000)
    return {"half": "TOML", "empty": "tractor", "big": "256 KiB", "binary": "not text", "latin": "not text", "deep": "TOML",
            "keys": "doesn't know", "number": "TOML"}  # fmt: skip


@pytest.mark.parametrize("name", ["half", "empty", "big", "binary", "latin", "deep", "keys", "number"])
def test_bad_file(name, tmp_path, monkeypatch, capsys):
    words = bad_files(tmp_path)[name]
    code, out, err = ends(["size", str(tmp_path / f"{name}.toml")], monkeypatch, capsys)
    refused(code, out, err, words)
    assert len(err) < 20_000, "a wall of faults helps nobody"


def test_every_fault_of_a_file_at_once(tmp_path, monkeypatch, capsys):
    path = tmp_path / "rig.toml"
    text = GOOD
    for before, after in (('depth = "12 in"', 'depth = "-12 in"'), ("tools = 15", "tools = 0"), ('surface = "firm"',
        'surface = "ice"'),
                          ('rated_power = "500 hp"', 'rated_power = "500 Nm"'), ('mass = "12500 lb"',
                              'mass = "12500"')):  # fmt: skip
        text = text.replace(before, after, 1)
    path.write_text(text, encoding="utf-8")
    code, out, err = ends(["check", str(path)], monkeypatch, capsys)
    refused(code, out, err, "work.depth")
    for key in ("implement.tools", "ground.surface", "tractor.rated_power", "implement.mass"):
        assert f"  - {key}: got " in err
    assert err.count("\n  - ") == 5


@pytest.mark.parametrize(
    "words", [("size", "no_such_file.toml"), ("check", "."), ("find", "quidditch"), ("size", "--tools", "2.5")]
)
def test_other_commands_refuse_alike(words, monkeypatch, capsys):
    refused(*ends(words, monkeypatch, capsys), "")


@pytest.mark.parametrize("words", [("size", "--depth", "-12 in"), ("nonsense",)])
def test_for_real(words):
    done = subprocess.run([sys.executable, "-m", "rigcalc", *words], capture_output=True, text=True, check=False)
    refused(done.returncode, done.stdout, done.stderr, "")


@pytest.mark.parametrize(
    ("depth", "options", "word"),
    [
        ("12 in", (), "tires"),
        ("30 cm", (), "tyres"),
        ("12 in", ("--units", "si"), "tyres"),
        ("30 cm", ("--units=us",), "tires"),
    ],
)
def test_faults_are_spelt_by_the_units_meant(depth, options, word, tmp_path, monkeypatch, capsys):
    """By --units, else by the depth in the file that was refused; what stands in the file is named letter by letter."""
    text = re.sub(r'(?m)^drive = ".*"', 'drive = "track"', GOOD)
    text = re.sub(r'(?m)^depth = ".*"', f'depth = "{depth}"', text)
    (tmp_path / "odd.toml").write_text(text, encoding="utf-8")
    code, out, err = ends(["size", str(tmp_path / "odd.toml"), *options], monkeypatch, capsys)
    refused(code, out, err, f"a drive of {word}")
