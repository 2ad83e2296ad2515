"""`rigcalc field`: what is printed, files that it writes, JSON with units, exit codes, every fault at once by its option."""

import json
import tomllib

import pytest

from rigcalc.models.land.files import DEMO, read_boundaries

FEATURES = json.loads(DEMO.read_text(encoding="utf-8"))["features"]


@pytest.fixture
def pond(tmp_path):
    file = tmp_path / "pond.geojson"
    file.write_text(json.dumps(FEATURES[3]), encoding="utf-8")
    return file


def test_it_says_which_way_and_sets_headings_beside_each_other(run, pond):
    code, out, _err = run("field", "articulated", pond, width=120)
    assert code == 0
    for part in (
        "Go: by time alone",
        "69° (249° back)",
        "Headings compared",
        "north and south",
        "Where the field hours go",
        "█",
    ):
        assert part in out


def test_the_demo_farm_in_order(run):
    code, out, err = run("field", "articulated", "--units", "si", width=120)
    assert code == 0
    assert "middle of an ocean" in err
    assert "The fields in order" in out
    assert "long wedge" in out
    assert "ha" in out


def test_exit_codes(run, pond):
    assert run("field", "articulated", pond, "--rounds", "41")[0] == 2
    assert run("field", "articulated", "--rounds", "5")[0] == 3
    assert run("field", "two_track", pond)[0] == 1


def test_files_that_it_writes(run, pond, tmp_path):
    outs = {"--picture": "field.svg", "--passes-out": "passes.geojson", "--plan-out": "season.toml"}
    words = [word for option, name in outs.items() for word in (option, tmp_path / name)]
    code, out, _err = run("field", "articulated", pond, *words, width=200)
    assert code == 0
    assert out.count("Wrote ") == 3
    assert (tmp_path / "field.svg").read_text(encoding="utf-8").startswith("<svg ")
    plan = tomllib.loads((tmp_path / "season.toml").read_text(encoding="utf-8"))
    assert plan["field"]["turn_time"] == "25 s"
    assert run("season", "articulated", "--plan", tmp_path / "season.toml", "--start", "1 Oct", "--by", "15 Nov")[0] == 0
    lines = json.loads((tmp_path / "passes.geojson").read_text(encoding="utf-8"))["features"]
    kinds = [line["properties"]["kind"] for line in lines]
    assert kinds.count("pass") == 137
    assert kinds.count("round") == 4  # two along the boundary, two round the pond
    lon, lat = lines[-1]["geometry"]["coordinates"][0]
    middle = read_boundaries(pond)[0].middle
    assert abs(lon - middle[0]) < 0.01
    assert abs(lat - middle[1]) < 0.01
    code, _out, err = run("field", "articulated", pond, *words)
    assert code == 2
    assert err.count("a file that isn't there yet") == 3
    assert run("field", "articulated", pond, *words, "--force")[0] == 0


def test_json_has_units_and_every_part(run, pond):
    code, out, _err = run("field", "articulated", pond, "--heading", "30 deg", "--json")
    data = json.loads(out)
    assert code == 0
    one = data["fields"][0]
    assert one["area"]["unit"] == "ha"
    assert one["driven"]["heading"] == {"value": 30.0, "unit": "deg"}
    assert one["best"]["hours"]["value"] < one["driven"]["hours"]["value"]
    assert sum(part["value"] for part in one["driven"]["parts"].values()) == pytest.approx(data["hours"]["value"])
    assert set(one["compared"]) == {"asked", "side", "north", "east", "across"}
    assert data["turn_length"] is None
    assert "NaN" not in out


def test_every_fault_at_once_by_its_option(run, tmp_path):
    bad = tmp_path / "bad.geojson"
    bad.write_text('{"type": "Polygon", "coordinates": [[[1, 2], [3, 2], [3, 4]]]}', encoding="utf-8")
    code, out, err = run("field", "no_such_rig", bad, "--turn-time", "5 kg", "--rounds", "two", "--picture", "field.png")
    assert code == 2
    assert out == ""
    for part in ("rig", "ring 1", "--turn-time", "--rounds", "--picture"):
        assert part in err


def test_names_from_a_file_neither_steer_a_terminal_nor_become_markup(run, tmp_path):
    feature = {**FEATURES[3], "properties": {"name": "\x1b[31m<b>[red]</b>&"}}
    file, picture = tmp_path / "odd.geojson", tmp_path / "odd.svg"
    file.write_text(json.dumps({"type": "FeatureCollection", "features": [feature, FEATURES[5]]}), encoding="utf-8")
    _code, out, _err = run("field", "articulated", file, "--picture", picture, width=160)
    assert "\x1b[31m" not in out
    assert "<b>" in out
    text = picture.read_text(encoding="utf-8")
    assert "<b>" not in text
    assert "&lt;b&gt;" in text
