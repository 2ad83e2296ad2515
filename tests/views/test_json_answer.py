"""The answer as JSON: stable names, every number with its unit, nothing that JSON can't hold."""

import json

import pytest
from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.core.units import canonical_unit
from rigcalc.models import replaced, size
from rigcalc.models.machine.operating_point import UNITS
from rigcalc.models.rig.file import rig_from
from rigcalc.views.json.size import VERSION, answer_data
from rigcalc.words import in_words

# Programs read these names. Taking one away or changing a unit needs a new VERSION; adding one doesn't.
PROMISED = {"version", "rig", "sentence", "works", "pulls", "point", "margins", "binding", "reverse", "sure", "season", "notes",
            "cautions", "word", "headline", "rest", "state"}  # fmt: skip
PROMISED_UNITS = {
    "depth": "cm", "speed": "km/h", "width": "m", "draft": "kN", "drawbar_pull": "kN", "net_pull": "kN", "peak_pull": "kN",
    "missing_pull": "kN", "slip": "1", "front_load": "kN", "rear_load": "kN", "axle_power": "kW", "engine_power": "kW",
    "engine_share": "1", "tractive_efficiency": "1", "fuel_rate": "L/h", "fuel_per_area": "L/ha", "field_capacity": "ha/h",
}  # fmt: skip
CASES = {
    **{name: {} for name in KNOWN_RIGS},
    "stuck": {"work.depth": "50 in", "ground.surface": "soft", "implement.rated_depth": None},
    "weak": {"tractor.rated_power": "90 hp", "tractor.maximum_power": None},
}


def data_for(case, **options):
    rig = replaced(known_rig(case if case in KNOWN_RIGS else KNOWN_RIGS[0]), CASES[case])
    return answer_data(in_words(size(rig)), **options)


def numbers(data, path=""):
    if isinstance(data, dict):
        if set(data) == {"value", "unit"}:
            yield path, data
        else:
            for key, value in data.items():
                yield from numbers(value, f"{path}.{key}")
    elif isinstance(data, list):
        for place, value in enumerate(data):
            yield from numbers(value, f"{path}[{place}]")


@pytest.mark.parametrize("case", sorted(CASES))
def test_it_is_json_and_carries_units(case):
    data = data_for(case)
    text = json.dumps(data, allow_nan=False)
    assert json.loads(text) == data
    found = dict(numbers(data))
    assert len(found) > (25 if case == "stuck" else 50)
    for number in found.values():
        assert isinstance(number["value"], float)
        canonical_unit(number["unit"])
    assert PROMISED <= set(data)
    assert data["version"] == VERSION == 1
    assert set(data["point"]) == set(UNITS)
    for name, unit in PROMISED_UNITS.items():
        assert data["point"][name] is None or data["point"][name]["unit"] == unit
    assert [r["question"] for r in data["reverse"]] == ["deepest", "fastest", "most tools", "smallest engine", "least mass"]
    assert data["binding"] in {margin["name"] for margin in data["margins"]}


@pytest.mark.parametrize("case", sorted(CASES))
def test_the_rig_inside_gives_the_same_answer(case):
    data = data_for(case)
    assert answer_data(in_words(size(rig_from(data["rig"])))) == data


def test_stuck_has_nulls_where_there_is_no_answer():
    data = data_for("stuck")
    assert data["pulls"] is False
    assert data["works"] is False
    for name in ("slip", "engine_power", "engine_share", "fuel_rate", "tractive_efficiency"):
        assert data["point"][name] is None
    assert data["point"]["missing_pull"]["value"] > 0
    assert data["season"] is None
    assert {m["state"] for m in data["margins"] if m["name"] == "grip"} == {"over"}


def test_only_tracks_have_a_track_pressure():
    for case in KNOWN_RIGS:
        values = {m["name"]: m["value"] for m in data_for(case)["margins"]}
        assert (values["front_pressure"] is not None) == (values["rear_pressure"] is not None) == (case == "tracks")


def test_a_step_of_the_working_has_its_check_and_is_solved_when_asked_for():
    steps = {step["equation"]: step for step in data_for("tracks", with_working=True, solve_for="depth")["working"]}
    power = steps["drawbar_power"]
    assert power["dimensions"]["units"] == "[kW] = [kN] * [km/h] / 3.6"
    assert (power["dimensions"]["agree"], power["solved"]) == (True, None)
    assert steps["implement_draft"]["solved"].startswith("depth = draft/(")
    assert steps["d497_draft"]["dimensions"] is None
    assert "solved" not in data_for("tracks", with_working=True)["working"][0]


def test_working_is_there_when_asked_for():
    data = data_for("tracks", with_working=True)
    assert "working" not in data_for("tracks")
    steps = {step["equation"] for step in data["working"]}
    assert {"implement_draft", "front_axle_load", "track_thrust", "axle_power", "effective_field_capacity"} <= steps
    for step in data["working"]:
        assert step["source"]
        assert step["result"]
        assert step["formula"]
    json.dumps(data, allow_nan=False)
