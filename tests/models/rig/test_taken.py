"""Each rule that fills in what a rig file leaves out, by hand; what is typed wins; what contradicts is a fault."""

import json
import tomllib
from pathlib import Path

import jsonschema
import pytest
from known_rigs import KNOWN_RIGS, SHEET_RIG, known_rig, known_text

from rigcalc.core.errors import InputError
from rigcalc.core.tables import table
from rigcalc.models import read_rig, replaced, rig_text, size
from rigcalc.models.ballast.tyres import pressure_effect
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import rig_from
from rigcalc.words.taken import taken_lines

SCHEMA = json.loads((Path(__file__).parents[3] / "docs" / "rig.schema.json").read_text(encoding="utf-8"))
POUND, INCH, GRAVITY = 0.45359237, 0.0254, 9.80665


def sheet(**changes):
    """The rig by its sheet with entries changed: tractor__drive="4WD"; None takes one out."""
    data = tomllib.loads(known_text(SHEET_RIG))
    for path, value in changes.items():
        *names, last = path.split("__")
        part = data
        for name in names:
            part = part.setdefault(name, {})
        part.pop(last, None)
        if value is not None:
            part[last] = value
    return data


def taken(rig, entry):
    """The one line of the list about an entry; None where it was typed."""
    found = [one for one in rig.assumed if one.entry == entry]
    assert len(found) <= 1
    return found[0] if found else None


def refused(data):
    with pytest.raises(InputError) as error:
        rig_from(data)
    return error.value.faults


def test_a_sheet_is_enough_for_an_answer():
    answer = size(known_rig(SHEET_RIG))
    assert answer.verdict.judgement.value in ("go", "try", "dont")
    assert 0 < answer.point.bare.slip < 1


def test_what_was_filled_in_is_not_written_back():
    rig = known_rig(SHEET_RIG)
    text = rig_text(rig)
    assert read_rig(text) == rig
    assert not {"section_width", "front_axle_mass", "load_index", "mass", "tyre]"} & set(text.replace("=", " ").split())
    assert "tyre" not in text.replace("tyres", "")
    assert rig.assumed == read_rig(text).assumed


def test_a_changed_size_takes_everything_else_along():
    rig = replaced(known_rig(SHEET_RIG), {"tractor.rear.size": "520/85R42 162A8"})
    assert rig.tractor.rear.section_width.to("m") == pytest.approx(0.52)
    assert rig.tractor.rear.tyre.load_index == 162


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_a_full_rig_needs_no_rule(name):
    assert [one.entry for one in known_rig(name).assumed] == []


def test_the_schema_asks_for_no_more_than_the_reader():
    jsonschema.validate(sheet(), SCHEMA)
    jsonschema.validate(tomllib.loads(known_text()), SCHEMA)


# one test for each rule ---------------------------------------------------------------------------------------------------


def test_tyre_by_its_size():
    rig = known_rig(SHEET_RIG)
    rear = rig.tractor.rear
    assert (rear.kind, rear.section_width.text, rear.rim_diameter.text) == ("radial", "710 mm", "42 in")
    assert rear.diameter.to("m") == pytest.approx(42 * INCH + 2 * 0.7 * 0.71, abs=5e-4)
    assert (rear.tyre.load_index, rear.tyre.speed_symbol) == (173, "D")
    assert taken(rig, "tractor.rear.diameter").rule == "size"
    assert taken(rig, "tractor.front.diameter").rule == "sections"
    assert rig_from(sheet(tractor__rear__size="18.4-38")).tractor.rear.kind == "bias"


@pytest.mark.parametrize(("drive", "tyres"), [("2WD", 2), ("MFWD", 2), ("4WD", 4)])
def test_singles_and_on_four_wheel_drive_duals(drive, tyres):
    rig = rig_from(sheet(tractor__drive=drive))
    assert (rig.tractor.front.tyres, rig.tractor.rear.tyres) == (tyres, tyres)


@pytest.mark.parametrize(("drive", "share"), [("2WD", 0.25), ("MFWD", 0.35), ("4WD", 0.53)])
def test_split_of_a_total_by_drive(drive, share):
    rig = rig_from(sheet(tractor__drive=drive))
    total = 29000 * POUND
    assert rig.tractor.front_axle_mass.to("kg") == pytest.approx(share * total, abs=0.6)
    assert rig.tractor.rear_axle_mass.to("kg") == pytest.approx((1 - share) * total, abs=0.6)
    assert taken(rig, "tractor.front_axle_mass").source == "ballast_six_steps"


def test_split_with_a_tool_on_the_hitch():
    rig = rig_from(sheet(setup__hitching="mounted"))
    assert rig.tractor.front_axle_mass.to("kg") == pytest.approx(0.40 * 29000 * POUND, abs=0.6)


def test_split_as_typed():
    rig = rig_from(sheet(tractor__front_share="42 percent"))
    assert rig.tractor.front_axle_mass.to("kg") == pytest.approx(0.42 * 29000 * POUND, abs=0.6)
    assert taken(rig, "tractor.front_axle_mass").rule == "share"


def test_rest_of_a_total():
    rig = rig_from(sheet(tractor__front_axle_mass="10000 lb"))
    assert rig.tractor.rear_axle_mass.to("lb") == pytest.approx(19000, abs=1.5)
    assert taken(rig, "tractor.rear_axle_mass").rule == "rest"
    assert taken(rig, "tractor.front_axle_mass") is None


@pytest.mark.parametrize(("drive", "power", "rating", "wheelbase"), [
    ("MFWD", "60 hp", "net engine", 2.2), ("MFWD", "150 hp", "net engine", 2.75), ("2WD", "300 hp", "pto", 3.05),
    ("MFWD", "300 hp", "net engine", 2.95), ("MFWD", "280 hp", "pto", 3.05), ("4WD", "300 hp", "gross engine", 3.3),
    ("4WD", "500 hp", "net engine", 3.9),
])  # fmt: skip
def test_wheelbase_by_drive_and_power(drive, power, rating, wheelbase):
    made = sheet(tractor__drive=drive, tractor__rated_power=power, tractor__power_rating=rating)
    assert rig_from(made).tractor.wheelbase.to("m") == pytest.approx(wheelbase)


@pytest.mark.parametrize(("power", "inches"), [("150 hp", 17), ("300 hp", 20)])
def test_drawbar_height_by_power(power, inches):
    made = rig_from(sheet(tractor__rated_power=power, tractor__power_rating="net engine"))
    assert made.tractor.drawbar_height.to("in") == pytest.approx(inches)


def test_two_tracks_by_their_width():
    data = sheet(
        tractor__drive="track", tractor__front=None, tractor__rear={"kind": "track", "tracks": 2, "track_width": "25 in"}
    )
    rig = rig_from(data)
    assert (rig.tractor.rear.contact_length.text, rig.tractor.wheelbase.text) == ("2.3 m", "2.5 m")


@pytest.mark.parametrize(("tool", "each"), [("chisel_straight", 800), ("subsoiler_narrow", 1000)])
def test_mass_of_a_tool_by_its_width_and_tongue_load_by_its_mass(tool, each):
    rig = rig_from(sheet(implement__tool=tool))
    mass = each * 9 * 15 * INCH
    assert rig.implement.mass.to("kg") == pytest.approx(mass, rel=1e-3)
    assert rig.implement.hitch_load.to("kN") == pytest.approx(0.2 * mass * GRAVITY / 1000, rel=5e-3)


def test_a_tool_that_was_weighed_keeps_its_tongue_load():
    rig = rig_from(sheet(implement__mass="6000 lb"))
    assert rig.implement.hitch_load.value == 0
    assert taken(rig, "implement.hitch_load") is None


def test_deflection_as_usual_or_by_the_loaded_radius():
    assert bare(known_rig(SHEET_RIG)).rear.deflection_ratio == pytest.approx(0.20)
    assert taken(known_rig(SHEET_RIG), "tractor.rear.deflection_ratio").source == "common_practice"
    radius = rig_from(sheet(tractor__rear__static_loaded_radius="0.93 m"))
    assert taken(radius, "tractor.rear.deflection_ratio") is None
    assert bare(radius).rear.deflection_ratio == pytest.approx((2.061 / 2 - 0.93) / ((2.061 - 1.06 * 42 * INCH) / 2))


def test_every_class_of_the_table_has_a_rule_here():
    tried = {"wheelbase", "drawbar_height", "front_share", "tyres", "contact_length", "mass", "hitch_load", "deflection_ratio"}
    assert {row["entry"] for row in table("rig_by_class")} == tried


# what is typed, and what contradicts --------------------------------------------------------------------------------------


def test_typed_figures_win_within_tolerance():
    rig = rig_from(sheet(tractor__rear__section_width="720 mm", tractor__rear__diameter="2.09 m"))
    assert (rig.tractor.rear.section_width.text, rig.tractor.rear.diameter.text) == ("720 mm", "2.09 m")
    assert taken(rig, "tractor.rear.diameter") is None


CONTRADICTIONS = {
    "width": ({"tractor__rear__section_width": "620 mm"}, "tractor.rear", "section_width of 620 mm"),
    "diameter": ({"tractor__rear__diameter": "2.2 m"}, "tractor.rear", "diameter of 2.2 m"),
    "rim": ({"tractor__rear__rim_diameter": "38 in"}, "tractor.rear", "rim_diameter of 38 in"),
    "build": ({"tractor__rear__kind": "bias"}, "tractor.rear", 'kind = "bias"'),
    "index": ({"tractor__rear__tyre": {"load_index": 160}}, "tractor.rear", "load_index of 160"),
    "total": ({"tractor__front_axle_mass": "12000 lb", "tractor__rear_axle_mass": "20000 lb"}, "tractor", "add up to 14515 kg"),
    "share": ({"tractor__front_axle_mass": "12000 lb", "tractor__rear_axle_mass": "17000 lb",
               "tractor__front_share": "30 percent"}, "tractor", "front_share of 30 percent"),
    "no rest": ({"tractor__front_axle_mass": "30000 lb"}, "tractor.rear_axle_mass", "kg"),
    "track": ({"tractor__rear__kind": "track"}, "tractor.rear", "track gear"),
    "size": ({"tractor__rear__size": "710/70/42"}, "tractor.rear", "size of '710/70/42'"),
    "no size": ({"tractor__rear__size": 710}, "tractor.rear.size", "710"),
    "mass": ({"tractor__total_mass": "29000"}, "tractor.total_mass", "'29000'"),
    "light": ({"tractor__total_mass": "0 lb"}, "tractor.total_mass", "'0 lb'"),
}  # fmt: skip


@pytest.mark.parametrize("name", CONTRADICTIONS)
def test_contradictions_are_one_fault(name):
    changes, where, got = CONTRADICTIONS[name]
    faults = refused(sheet(**changes))
    assert [fault.where for fault in faults] == [where], [str(fault) for fault in faults]
    assert got in faults[0].got
    assert faults[0].type_this


def test_a_size_that_can_not_be_read_is_asked_about():
    (fault,) = refused(sheet(tractor__rear__size="710/70/42"))
    assert fault.type_this == "710/70R42, if that is what you meant"


def test_several_faults_are_named_at_once():
    faults = refused(sheet(tractor__rear__size="710/70/42", tractor__total_mass="12", work__depth="ten inches"))
    assert {fault.where for fault in faults} == {"tractor.rear", "tractor.total_mass", "work.depth"}


@pytest.mark.parametrize("path", ["tractor", "implement", "tractor__rear", "tractor__front", "setup", "tractor__rear__tyre"])
@pytest.mark.parametrize("odd", [3, "text", [], [1], True])
def test_odd_sections_are_faults(path, odd):
    assert refused(sheet(**{path: odd}))


def test_nothing_to_go_by_is_asked_for():
    faults = refused(sheet(tractor__total_mass=None, tractor__rear__size=None))
    assert {"tractor.front_axle_mass", "tractor.rear_axle_mass", "tractor.rear.kind"} <= {fault.where for fault in faults}


TABLE = {"pressures": ["10 psi", "14 psi", "20 psi"], "loads": ["2200 kg", "2700 kg", "3400 kg"]}


def pressed(inflation="14 psi", rear="8100 kg", **tyre):
    changes = {"tractor.rear.deflection_ratio": None, "tractor.rear.tyre": {**TABLE, "inflation": inflation, **tyre},
               "tractor.rear_axle_mass": rear, "tractor.rear.tyres": 4}  # fmt: skip
    return replaced(known_rig("front_wheel_assist"), changes)


def test_deflection_follows_load_and_pressure_by_the_tyre_s_own_table():
    """2,025 kg on each of four tyres that carry 2,700 kg at 14 psi: three quarters of the rated 20 percent."""
    rig = pressed()
    assert rig.tractor.rear.deflection_ratio.to("1") == pytest.approx(0.15)
    assert [(one.rule, one.value) for one in rig.assumed if one.entry == "tractor.rear.deflection_ratio"] == [
        ("pressed", "15 percent")
    ]
    assert "tyre's own table" in " ".join(taken_lines(rig, "si"))
    assert bare(rig).rear.deflection_ratio == pytest.approx(0.15)


def test_more_load_and_less_pressure_deflect_more_and_what_is_typed_stands():
    at = [float(pressed(*given).tractor.rear.deflection_ratio.to("1")) for given in
          (("14 psi", "8100 kg"), ("14 psi", "9000 kg"), ("12 psi", "9000 kg"))]  # fmt: skip
    assert at == sorted(set(at))
    rig = replaced(pressed(), {"tractor.rear.deflection_ratio": "18 percent"})
    assert bare(rig).rear.deflection_ratio == pytest.approx(0.18)


@pytest.mark.parametrize(("inflation", "rear"), [("8 psi", "8100 kg"), ("24 psi", "8100 kg"), ("14 psi", "40000 kg")])
def test_outside_the_table_and_beyond_what_a_tyre_stands_the_usual_is_taken(inflation, rear):
    rig = pressed(inflation, rear)
    assert [one.rule for one in rig.assumed if one.entry == "tractor.rear.deflection_ratio"] == ["class"]


def test_a_change_of_load_moves_it_and_a_pressure_on_trial_starts_from_the_rated_one():
    rig = pressed()
    heavier = replaced(rig, {"tractor.rear_axle_mass": "9450 kg"})
    assert heavier.tractor.rear.deflection_ratio.to("1") == pytest.approx(0.175)
    effect = pressure_effect(rig, "rear", [14 * 6.894757])
    load = float(solve(bare(rig)).rear_load) / 4 / 9.80665 * 1000
    assert float(effect.deflection_ratio[0]) == pytest.approx(0.20 * load / 2700, rel=1e-6)
