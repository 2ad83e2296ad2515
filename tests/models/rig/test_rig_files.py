"""Rig files: writing and reading gives the same rig, every fault is listed with its key, and the schema says the same."""

import copy
import datetime
import tomllib
from pathlib import Path

import jsonschema
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from known_rigs import known_rig, known_text

from rigcalc.core.errors import InputError
from rigcalc.core.tables import table
from rigcalc.models import DEMO_RIGS, Rig, demo_rig, load_rig, read_rig, replaced, rig_text, size
from rigcalc.models.rig import file as rig_file_module
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import LARGEST_FILE, rig_from
from rigcalc.models.rig.measure import Kind

DEMO = Path(rig_file_module.__file__).parent / "demo"
TEXTURES = [row["texture"] for row in table("soil_groups")]
TOOLS = [row["tool"] for row in table("d497_draft") if row["width_unit"] == "tool" and row["depth_matters"] == "true"]
NASTY = st.text(max_size=200) | st.sampled_from(
    ['"""', "\\", "'''", "a\nb", "\r\n", "\x00", "\x7f", "# no note", "= [x]", "🚜", "‮", "\ufeff", " "]
)


def measure(low, high, *units):
    number = st.floats(low, high).map(lambda x: repr(round(x, 6))) | st.integers(int(low) + 1, int(high)).map(str)
    return st.tuples(st.sampled_from(["", " ", "  "]), number, st.sampled_from(["", " "]), st.sampled_from(units),
        st.sampled_from(["", " "])).map("".join)  # fmt: skip


def maybe(**fields):
    return st.fixed_dictionaries({}, optional=fields)


def both(**parts):
    """Fields that must be there, and under `optional` those that may be."""
    optional = parts.pop("optional", {})
    return st.fixed_dictionaries(parts, optional=optional)


def _fitting(made):
    """The drive that this running gear can have: tracks at the rear for "track", no driven front axle with "2WD"."""
    if made["drive"] == "track" and made["rear"]["kind"] != "track":
        return "4WD"
    return "MFWD" if made["drive"] == "2WD" and made["front"].get("driven") else made["drive"]


def _standing(made):
    """Rim and loaded radius that this tyre can have, where there are any."""
    diameter = Kind("m", "").read(made["diameter"]).to("m")
    return {
        key: f"{share * diameter:.4f} m"
        for key, share in (("rim_diameter", 0.5), ("static_loaded_radius", 0.45))
        if key in made
    }


def _boosted(made):
    return {"maximum_power": made["rated_power"]} if "maximum_power" in made else {}


tyres = both(
    kind=st.sampled_from(["radial", "bias"]), tyres=st.integers(1, 8), section_width=measure(300, 900, "mm"),
    diameter=measure(40, 90, "in"),
    optional={"driven": st.just(True), "rim_diameter": measure(20, 54, "in"), "static_loaded_radius": measure(0.5, 1.5, "m"),
              "deflection_ratio": measure(6, 44, "percent", "%"), "load_limit_each": measure(500, 9000, "kg", "lb")},
)  # fmt: skip
tracks = both(
    kind=st.just("track"),
    tracks=st.integers(1, 4),
    track_width=measure(10, 40, "in"),
    contact_length=measure(1.1, 5, "m"),
    optional={"driven": st.just(True), "pressure_limit": measure(4, 30, "psi")},
)
gear = tyres.map(lambda made: made | _standing(made)) | tracks
any_tractor = both(
    drive=st.sampled_from(["2WD", "MFWD", "4WD", "track"]), rated_power=measure(50, 400, "hp", "kW", "metric_horsepower", "PS"),
    power_rating=st.sampled_from(["gross engine", "net engine", "pto"]), front_axle_mass=measure(1000, 20_000, "lb", "kg"),
    rear_axle_mass=measure(1000, 20_000, "kg", "lbs"), wheelbase=measure(2, 5, "m"), drawbar_height=measure(12, 30, "in"),
    front=gear, rear=gear,
    optional={
        "name": NASTY, "maximum_power": measure(600, 900, "kW"), "hitch_behind_axle": measure(-1, 2, "m"),
        "center_of_gravity_height": measure(20, 80, "in"), "drawbar_load_limit": measure(100, 20_000, "lbf"),
        "front_axle_mass_limit": measure(5, 40, "t", "ton"), "rear_axle_mass_limit": measure(5, 40, "t"),
        "fuel_tank": measure(10, 900, "gal", "L"), "def_tank": measure(1, 90, "gal"), "def_share": measure(0, 20, "%"),
        "engine_speed_share": measure(50, 100, "percent"),
    },
)  # fmt: skip
tractor = any_tractor.map(lambda made: made | {"drive": _fitting(made)} | _boosted(made))
implement = both(
    tool=st.sampled_from(TOOLS), tools=st.integers(1, 200), spacing=measure(8, 60, "in"), mass=measure(500, 30_000, "lb"),
    optional={"name": NASTY, "point_width": measure(1, 15, "in"), "hitch_load": measure(0, 9000, "lbf"),
              "wheel_share": measure(0, 100, "%"), "rated_depth": measure(4, 40, "in"),
              "rated_power_per_tool": measure(5, 90, "hp"), "field_efficiency": measure(40, 100, "percent")},
)  # fmt: skip
soil = st.fixed_dictionaries({"texture": st.sampled_from(TEXTURES)}) | both(
    sand=measure(0, 50, "%"), clay=measure(0, 50, "percent")
)
ground = st.tuples(soil, maybe(
    soil_group=st.sampled_from(["fine", "medium", "coarse"]), surface=st.sampled_from(["hard", "firm", "tilled", "soft"]),
    cone_index=measure(60, 700, "psi"), grade=measure(-20, 20, "deg", "percent"), wheels_follow_in_track=st.booleans(),
)).map(lambda parts: parts[0] | parts[1])  # fmt: skip
work = both(
    depth=measure(2, 40, "in", "cm"), speed=measure(1, 12, "mph", "km/h", "kph"),
    optional={"area": measure(1, 9000, "acre", "ha"), "hours_per_day": measure(1, 24, "h/day"), "calendar_days": measure(1,
        90, "day"),
              "fit_days": measure(0, 100, "%")},
)  # fmt: skip
piece = both(
    name=st.uuids().map(str), mass=measure(20, 900, "kg", "lb"), count=st.integers(10, 30), axle=st.sampled_from(["front",
        "rear"]),
    optional={"on": st.integers(0, 5).map(lambda n: 2 * n), "in_pairs": st.booleans(), "holds": st.integers(10, 40)},
).flatmap(lambda made: st.sampled_from(["ahead", "behind"]).map(lambda side: made | {side: "0.9 m"}))  # fmt: skip
rig = both(tractor=tractor, implement=implement, ground=ground, work=work,
           optional={"farm": NASTY, "note": NASTY, "ballast": st.lists(piece, max_size=3)})  # fmt: skip


@pytest.mark.slow
@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(rig)
def test_written_and_read_again(data):
    made = rig_from(data)
    text = rig_text(made)
    again = read_rig(text)
    assert again == made
    assert rig_text(again) == text
    # everything that was typed stands in the file as it was typed
    typed = tomllib.loads(text)
    for part in ("tractor", "implement", "ground", "work"):
        for key, value in data[part].items():
            if isinstance(value, str) and value and key != "name":
                assert typed[part][key] == value.strip()
            elif key == "name" and value:
                assert typed[part][key] == value
    jsonschema.validate(typed, SCHEMA)
    assert replaced(made, {}) == made


SCHEMA = Rig.model_json_schema()


@pytest.mark.slow
@pytest.mark.parametrize("name", [*DEMO_RIGS, "starter", "small"])
def test_demo_files_keep_to_the_schema(name):
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    data = tomllib.loads((DEMO / f"{name}.toml").read_text(encoding="utf-8"))
    jsonschema.validate(data, SCHEMA)
    assert rig_from(data) == read_rig(rig_text(rig_from(data)))
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(data | {"colour": "red"}, SCHEMA)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({key: value for key, value in data.items() if key != "work"}, SCHEMA)


def test_demo_rigs_are_invented_and_plausible():
    rigs = [demo_rig(name) for name in DEMO_RIGS]
    assert {rig.tractor.drive for rig in rigs} == {"2WD", "MFWD", "4WD", "track"}
    assert len({rig.ground.texture for rig in rigs}) == len({rig.implement.tools for rig in rigs}) == len(rigs)
    assert all(1 <= rig.implement.tools <= 18 for rig in rigs)
    assert all("invented" in rig.farm + rig.note for rig in rigs)


def test_the_demo_rigs_show_every_verdict_and_the_first_says_go():
    found = [size(demo_rig(name)).verdict.judgement for name in DEMO_RIGS]
    assert found[0] == "go"
    assert set(found) == {"go", "try", "dont"}


def whole():
    return copy.deepcopy(tomllib.loads(known_text()))


# A change to a good rig file -> (the key that has to be named, words that have to be in its line)
FAULTS = {
    "negative depth": (("work", "depth", "-12 in"), "work.depth", "above 0"),
    "no depth": (("work", "depth", None), "work.depth", "must be there"),
    "zero depth": (("work", "depth", "0 in"), "work.depth", "above 0"),
    "zero shanks": (("implement", "tools", 0), "implement.tools", "whole number"),
    "half a shank": (("implement", "tools", 2.5), "implement.tools", "whole number"),
    "shanks as text": (("implement", "tools", "15"), "implement.tools", "without quotes"),
    "shanks as truth": (("implement", "tools", True), "implement.tools", "whole number"),
    "nan": (("work", "speed", "nan mph"), "work.speed", "number and its unit"),
    "inf": (("work", "speed", "inf mph"), "work.speed", "number and its unit"),
    "toml nan": (("work", "speed", float("nan")), "work.speed", "unit"),
    "toml inf for a share": (("implement", "field_efficiency", float("inf")), "implement.field_efficiency", ""),
    "overflow": (("work", "speed", "1e999 mph"), "work.speed", "finite"),
    "wrong dimension": (("work", "depth", "12 lb"), "work.depth", "converts to cm"),
    "bare number": (("work", "depth", 12), "work.depth", "bare number has no unit"),
    "bare number as text": (("work", "depth", "12"), "work.depth", "converts to cm"),
    "unknown unit": (("tractor", "rated_power", "500 Nm"), "tractor.rated_power", "known names"),
    "unknown texture": (("ground", "texture", "gumbo"), "ground", "silty clay loam"),
    "unknown tool": (("implement", "tool", "chissel"), "implement.tool", "chisel_straight"),
    "tool measured by width": (("implement", "tool", "moldboard_plow"), "implement", "no width"),
    "tool without depth": (("implement", "tool", "rotary_hoe"), "implement.tool", "works at a depth"),
    "unknown key": (("work", "depht", "12 in"), "work.depht", "depth"),
    "unknown section": (("wrok", None, {}), "wrok", "work"),
    "no weight on the front axle": (("tractor", "front_axle_mass", "0 kg"), "tractor", "no weight"),
    "no weight on the rear axle": (("tractor", "rear_axle_mass", "0 kg"), "tractor.rear_axle_mass", "above 0"),
    "negative weight": (("tractor", "rear_axle_mass", "-5000 kg"), "tractor.rear_axle_mass", "above 0"),
    "no front axle": (("tractor", "front", None), "tractor", "front axle"),
    "less than rated": (("tractor", "maximum_power", "100 hp"), "tractor", "at least the rated power"),
    "unknown rating": (("tractor", "power_rating", "brake"), "tractor.power_rating", "net engine"),
    "steeper than a plow climbs": (("ground", "grade", "60 deg"), "ground.grade", "25"),
    "share over one": (("implement", "field_efficiency", "120 percent"), "implement.field_efficiency", "at most 1"),
    "text in place of truth": (("ground", "wheels_follow_in_track", "perhaps"), "ground.wheels_follow_in_track", ""),
    "list": (("work", "depth", ["12 in"]), "work.depth", "not a text"),
    "date": (("work", "depth", datetime.date(2020, 1, 1)), "work.depth", "not a text"),
    "table in place of a value": (("work", "depth", {"inches": 12}), "work.depth", "not a text"),
    "long name": (("tractor", "name", "x" * 300), "tractor.name", "200"),
    "control characters": (("work", "depth", "12\x1b[31m in"), "work.depth", "number and its unit"),
}  # fmt: skip


def spoil(data, change):
    section, key, value = change
    if key is None:
        data[section] = value
    elif value is None:
        del data[section][key]
    else:
        data[section][key] = value
    return data


@pytest.mark.parametrize("name", sorted(FAULTS))
def test_one_fault(name):
    change, key, words = FAULTS[name]
    with pytest.raises(InputError) as refused:
        rig_from(spoil(whole(), change))
    faults = refused.value.faults
    assert [fault.where for fault in faults] == [key], "one fault, and no other blamed for it"
    assert words in str(faults[0])
    assert faults[0].expected
    assert str(faults[0]).isprintable()
    assert "pydantic" not in str(refused.value)
    assert "type=" not in str(refused.value)


def test_all_faults_at_once():
    data = whole()
    picked = ["negative depth", "nan", "zero shanks", "unknown unit", "unknown texture", "unknown rating", "share over one",
              "no weight on the rear axle"]  # fmt: skip
    for name in picked:
        spoil(data, FAULTS[name][0])
    data["tractor"]["front"]["tyres"] = -4
    data["tractor"]["colour"] = "green"
    with pytest.raises(InputError) as refused:
        rig_from(data)
    where = [fault.where for fault in refused.value.faults]
    assert sorted(where) == sorted([*(FAULTS[name][1] for name in picked), "tractor.front.tyres", "tractor.colour"])
    assert str(refused.value).count("\n  - ") == len(where)


@pytest.mark.parametrize(("sand", "clay", "words"), [
    ("60 percent", "50 percent", "at most 100"), ("60 percent", None, "both or neither"), ("-1 percent", "20 percent",
        "at least 0"),
    ("0.6", "0.5", "at most 100"), ("60 deg", "20 percent", "percentage"),
])  # fmt: skip
def test_sand_and_clay(sand, clay, words):
    data = whole()
    del data["ground"]["texture"]
    data["ground"] |= {name: value for name, value in (("sand", sand), ("clay", clay)) if value}
    with pytest.raises(InputError, match=words):
        rig_from(data)
    data["ground"] |= {"sand": "60 percent", "clay": "0.4"}
    assert rig_from(data).ground.sand.to("1") == pytest.approx(0.6)
    data["ground"]["texture"] = "loam"
    with pytest.raises(InputError, match="one of the two"):
        rig_from(data)


def test_gear_that_is_neither_tyre_nor_track():
    data = whole()
    data["tractor"]["rear"] = {"kind": "track", "tyres": 4, "section_width": "710 mm", "diameter": "2 m"}
    with pytest.raises(InputError) as refused:
        rig_from(data)
    (fault,) = refused.value.faults
    assert fault.where == "tractor.rear"
    assert "tracks" in str(fault)
    assert "contact_length missing" in str(fault)
    assert "tyres" in fault.got


def test_pressure_limit_of_a_tyre_is_refused():
    """A tyre's pressure isn't its load over width and diameter, so no limit can be held against that."""
    with pytest.raises(InputError, match="pressure_limit given"):
        replaced(known_rig(), {"tractor.rear.pressure_limit": "15 psi"})
    assert replaced(known_rig("tracks"), {"tractor.rear.pressure_limit": "15 psi"}).tractor.rear.pressure_limit is not None


def test_a_key_in_the_wrong_section():
    with pytest.raises(InputError) as refused:
        rig_from(spoil(whole(), ("work", "load_limit_each", "5000 kg")))
    assert "own section" in str(refused.value)
    assert "perhaps" not in str(refused.value)


def test_nothing_driven():
    data = whole()
    data["tractor"]["front"]["driven"] = data["tractor"]["rear"]["driven"] = False
    with pytest.raises(InputError, match="no driven axle"):
        rig_from(data)


def test_the_drive_decides_which_axles_are_driven():
    """A 2WD file that says nothing of the front axle used to drive it, without a word."""
    quiet = {"tractor.front.driven": None, "tractor.rear.driven": None}
    for drive, front in (("2WD", False), ("MFWD", True), ("4WD", True)):
        rig = replaced(known_rig(), quiet | {"tractor.drive": drive})
        assert (rig.tractor.drives("front"), rig.tractor.drives("rear")) == (front, True)
        assert bare(rig).front.driven is front
        assert replaced(rig, {"work.depth": "11 in"}).tractor.drives("front") is front, "a change keeps what was left open"


@pytest.mark.parametrize(("changes", "match"), [
    ({"tractor.drive": "2WD", "tractor.front.driven": True}, "driven = true under .tractor.front"),
    ({"tractor.drive": "MFWD", "tractor.front.driven": False}, "driven = false under .tractor.front"),
    ({"tractor.rear.driven": False, "tractor.front.driven": True}, "driven = false under .tractor.rear"),
    ({"tractor.drive": "track"}, "drive = .track. on radial tyres"),
])  # fmt: skip
def test_a_drive_that_contradicts_its_running_gear(changes, match):
    with pytest.raises(InputError, match=match):
        replaced(known_rig(), changes)


def test_percent_grade_is_a_tangent():
    assert replaced(known_rig(), {"ground.grade": "100 percent"} | {"ground.grade": "10 percent"}).ground.grade.to(
        "deg"
    ) == pytest.approx(5.710593)


@settings(deadline=None, max_examples=150)
@given(st.text(max_size=300) | st.binary(max_size=300).map(lambda raw: raw.decode("latin-1")))
def test_any_text_is_a_rig_or_is_refused(text):
    with pytest.raises(InputError):
        read_rig(text)


@pytest.mark.slow
@settings(deadline=None, max_examples=100)
@given(st.recursive(st.none() | st.booleans() | st.floats() | st.integers() | NASTY,
                    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(NASTY, inner, max_size=3), max_leaves=8),
       st.sampled_from(["tractor", "implement", "ground", "work", "ballast", "gears", "setup", "scale", "farm"]))  # fmt: skip
def test_anything_in_place_of_a_section(value, section):
    faults = ()
    try:
        rig_from(whole() | {section: value})
    except InputError as error:
        faults = error.faults
    if not faults:  # what is optional may be taken
        assert section in ("farm", "ballast", "gears", "setup", "scale")
    assert all(str(fault).isprintable() for fault in faults)


@pytest.mark.parametrize("length", [40, 200, 700, 1200])
def test_half_a_file(length):
    text = known_text()[:length]
    with pytest.raises(InputError):
        read_rig(text)


def test_files_that_are_no_rig_files(tmp_path):
    big = tmp_path / "big.toml"
    with big.open("wb") as out:
        out.truncate(100 * 1024 * 1024)
    binary = tmp_path / "binary.toml"
    binary.write_bytes(bytes(range(256)))
    nested = tmp_path / "nested.toml"
    nested.write_text("a = " + "[" * 5000 + "]" * 5000)
    for path, words in ((big, "256 KiB"), (binary, "not text"), (tmp_path, "exists"), (tmp_path / "no.toml", "exists"),
                        (nested, "TOML"), (Path("no\x00name"), "exists"), (Path("x" * 5000), "read")):  # fmt: skip
        with pytest.raises(InputError, match=words):
            load_rig(path)
    with pytest.raises(InputError, match="256 KiB"):
        read_rig("#" * (LARGEST_FILE + 1))


def test_a_byte_order_mark_and_other_line_ends_are_no_fault(tmp_path):
    text = known_text("tracks")
    path = tmp_path / "typed_elsewhere.toml"
    path.write_bytes(text.replace("\n", "\r\n").encode())
    assert load_rig(path) == known_rig("tracks")
    path.write_bytes(b"\xef\xbb\xbf" + text.encode())
    assert load_rig(path) == known_rig("tracks")


def test_replaced_reaches_every_field():
    made = replaced(known_rig(), {"work.depth": "14 in", "tractor.front.tyres": 2, "ground.texture": None,
                                  "ground.sand": "20 %", "ground.clay": "20 %"})  # fmt: skip
    assert str(made.work.depth) == "14 in"
    assert made.tractor.front.tyres == 2
    assert made.ground.texture is None
    assert str(known_rig().work.depth) == "12 in", "the rig it came from is as it was"
    with pytest.raises(InputError, match=r"work\.depht"):
        replaced(made, {"work.depht": "14 in"})
