"""`rigcalc shortlist`: what is printed, the JSON with units, exit codes, and every fault at once."""

import json

import pytest


def test_it_says_which_and_shows_every_drive(run):
    code, out, _err = run("shortlist", "front_wheel_assist", "--reserve", "20 percent")
    assert code == 0
    assert "the smallest by class" in out
    for part in ("Two-wheel drive", "Four-wheel drive", "This tractor", "By drive", "What it rests on"):
        assert part in out


def test_json_has_units_and_the_rigs(run):
    _code, out, _err = run("shortlist", "two_wheel_drive", "--drive", "2WD", "--drive", "MFWD", "--json")
    data = json.loads(out)
    assert [each["drive"] for each in data["drives"]] == ["2WD", "MFWD"]
    assert data["reserve"] == {"value": 0.15, "unit": "1"}
    smallest = data["drives"][0]["smallest"]
    assert smallest["power"]["unit"] == "kW"
    assert smallest["engine_share"]["value"] <= 0.85
    assert smallest["rig"]["tractor"]["drive"] == "2WD"
    assert "tractor.wheelbase" in smallest["assumed"]
    assert data["widest"]["widest"]["tools"] >= data["widest"]["surest"]["tools"]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["two_track", "--drive", "track"], 3),
        (["front_wheel_assist", "--depth", "15 in", "--drive", "MFWD"], 1),
        (["two_wheel_drive", "--drive", "2WD"], 0),
    ],
)
def test_exit_codes(run, words, code):
    assert run("shortlist", *words)[0] == code


def test_every_fault_at_once_by_the_option(run):
    code, out, err = run("shortlist", "two_wheel_drive", "--reserve", "lots", "--depth", "12", "--seed", "-1")
    assert code == 2
    assert out == ""
    for name in ("--reserve", "work.depth", "--seed"):
        assert name in err


def test_an_unknown_drive_is_refused(run):
    code, _out, err = run("shortlist", "two_wheel_drive", "--drive", "6WD")
    assert code == 2
    assert "6WD" in err
