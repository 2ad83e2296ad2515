"""Sheets that can't be right: a hundred tyre codes, totals that contradict, units mixed up. Each is asked about."""

import tomllib

import pytest
from known_rigs import SHEET_RIG, known_text

from rigcalc.core.errors import InputError
from rigcalc.models.rig.file import rig_from
from rigcalc.models.rig.tyre_size import tyre_size

# As they are mistyped, misread, cut off, or belong to something else; two forms that look alike stand side by side.
CODES = [
    "710/70/42", "710-70-42", "710 70 42", "710/70-R-42", "710/70R", "710/R42", "70R42", "R42", "710R42", "710/70",
    "/70R42", "710//70R42", "710/70RR42", "710/70R42R", "710/70R4.2.1", "710/70R 4 2", "7l0/70R42", "71O/7OR42",
    "710\\70R42", "710:70R42", "710*70R42", "710,70R42", "710.70R42", "70/710R42", "42R70/710", "710/7R42", "710/700R42",
    "7100/70R42", "71/70R42", "710/70R420", "710/70R2", "710/70R0", "0/0R0", "-710/70R42", "+710/70R42", "710/-70R42",
    "1e3/70R42", "0x2C6/70R42", "710/70r42 and 600", "710/70R42, 600/70R30", "710/70R42;", "710/70R42!", "#710/70R42",
    "710/70R42 kg", "710/70R42 mm", "710 mm/70R42", "710mm", "28 in", "28\"", "2.05 m", "42", "710", "seventy", "size",
    "none", "?", "n/a", "-", "--", "x", "R", "IF", "VF", "IF VF 710/70R42", "IFVF710/70R42", "FI 710/70R42", "XF 710/70R42",
    "IF", "710/70R42 IF", "710/70R42 VF 173D", "710/70R42 999D", "710/70R42 173Q9", "710/70R42 D173", "710/70R42 173",
    "710/70R42 A8", "710/70R42 173DD", "710/70R42 1730D", "18.4", "18.4-", "-38", "18.4--38", "18.4/38", "18.4x38",
    "18.4 38", "18.4.38", "18,4,38", "184-38", "19.6-38", "18.4-38-", "18.4-380", "30.5L", "30.5L32", "L30.5-32",
    "30.5-L32", "66x43", "66x43.00", "x43.00-25", "66x43.00-65", "660x43.00-25", "66x430-25", "66x-43-25", "66-43-25",
    "205/55ZR16", "P205/55/16", "٧١٠/٧٠R٤٢", "710/70R42\x00", "\x1b[31m710/70R42", "<b>710/70R42</b>", "'; drop table",
    "1" * 61, "710/70R42 " * 7,
]  # fmt: skip
POUND = "29000 lb"
TOTALS = [
    {"total_mass": POUND, "front_axle_mass": "12000 lb", "rear_axle_mass": "12000 lb"},
    {"total_mass": POUND, "front_axle_mass": "12000 lb", "rear_axle_mass": "18000 lb"},
    {"total_mass": POUND, "front_axle_mass": "12000 kg", "rear_axle_mass": "17000 kg"},
    {"total_mass": "29000 kg", "front_axle_mass": "12000 lb", "rear_axle_mass": "17000 lb"},
    {"total_mass": POUND, "front_axle_mass": "29000 lb"},
    {"total_mass": POUND, "front_axle_mass": "40000 lb"},
    {"total_mass": POUND, "rear_axle_mass": "30000 lb"},
    {"total_mass": POUND, "front_axle_mass": "12000 kg", "front_share": "30 percent"},
    {"front_axle_mass": "12000 lb", "rear_axle_mass": "17000 lb", "front_share": "60 percent"},
    {"total_mass": POUND, "front_share": "120 percent"},
    {"total_mass": POUND, "front_share": "40 lb"},
    {"total_mass": "29"}, {"total_mass": "29 lb"}, {"total_mass": "29.000 lb"}, {"total_mass": "0 lb"},
    {"total_mass": "-29000 lb"},
    {"total_mass": "29000 hp"}, {"total_mass": "2900000 lb"},
]  # fmt: skip
UNITS = [
    ("tractor.rated_power", "300"), ("tractor.rated_power", "300 lb"), ("tractor.rated_power", "300000 hp"),
    ("tractor.rated_power", "0.3 hp"), ("tractor.rated_power", "300 W"), ("tractor.wheelbase", "3050 m"),
    ("tractor.wheelbase", "3 in"), ("tractor.wheelbase", "305 kg"), ("tractor.wheelbase", "3,05"),
    ("tractor.drawbar_height", "20 ft"),
    ("tractor.drawbar_height", "20 mm"), ("tractor.drawbar_height", "50 m"), ("implement.spacing", "15 ft"),
    ("implement.spacing", "15 mm"), ("implement.spacing", "38"), ("implement.spacing", "38 km"), ("implement.mass", "5 lb"),
    ("implement.mass", "6000 t"), ("implement.mass", "6000 lbf"), ("implement.hitch_load", "1200 lb"),
    ("implement.hitch_load", "1200 kN"), ("work.depth", "10"), ("work.depth", "10 ft"), ("work.depth", "10 mph"),
    ("work.depth", "25 m"), ("work.depth", "0,250 m"), ("work.speed", "5"), ("work.speed", "5 m"), ("work.speed", "50 mph"),
    ("work.speed", "5 rpm"), ("ground.cone_index", "1200"), ("ground.cone_index", "1200 psi"), ("ground.cone_index", "1.2 kPa"),
    ("ground.grade", "40 deg"), ("ground.grade", "2"), ("implement.tools", "9"), ("implement.tools", 9.5),
    ("implement.tools", 0),
    ("tractor.rear.tyres", 20), ("tractor.rear.section_width", "71 mm"), ("tractor.rear.diameter", "205 m"),
    ("tractor.rear.diameter", "42 in"),
]  # fmt: skip


def sheet(path=None, value=None, **tractor):
    data = tomllib.loads(known_text(SHEET_RIG))
    if tractor:
        data["tractor"].pop("total_mass")
        data["tractor"] |= tractor
    if path is not None:
        *names, last = path.split(".")
        part = data
        for name in names:
            part = part.setdefault(name, {})
        part[last] = value
    return data


def refused(data):
    with pytest.raises(InputError) as error:
        rig_from(data)
    for fault in error.value.faults:
        assert fault.got
        assert fault.expected
        assert str(fault).isprintable()
    return error.value.faults


def test_there_are_a_hundred_codes():
    assert len(set(CODES)) >= 100


@pytest.mark.parametrize("text", CODES, ids=range(len(CODES)))
def test_a_code_that_is_none_is_one_fault_with_what_to_type(text):
    (fault,) = refused(sheet("tractor.rear.size", text))
    assert fault.where in ("tractor.rear", "tractor.rear.size")
    if fault.where == "tractor.rear":
        assert fault.type_this
        near = fault.type_this.partition(", if that is")[0] if "if that is" in fault.type_this else ""
        for form in near.replace(" (bias)", "").replace(" (radial)", "").split(" or ") if near else ():
            assert tyre_size(form).text == form  # what is offered can be typed


@pytest.mark.parametrize("tractor", TOTALS, ids=str)
def test_totals_that_contradict_are_asked_about(tractor):
    faults = refused(sheet(**tractor))
    assert len(faults) == 1, [str(fault) for fault in faults]
    assert faults[0].where.startswith("tractor")
    assert faults[0].type_this


@pytest.mark.parametrize(("path", "value"), UNITS, ids=str)
def test_units_mixed_up_are_asked_about(path, value):
    faults = refused(sheet(path, value))
    assert len(faults) == 1, [str(fault) for fault in faults]
    assert path.startswith(faults[0].where)


def test_everything_at_once():
    data = sheet("tractor.rear.size", "710/70/42", total_mass="29 lb", rated_power="300")
    data["implement"] |= {"spacing": "15", "tools": 0}
    data["work"] |= {"depth": "10 ft", "speed": "fast"}
    places = {fault.where for fault in refused(data)}
    assert {"tractor.rear", "tractor.total_mass", "tractor.rated_power", "implement.spacing", "implement.tools", "work.depth",
            "work.speed"} == places  # fmt: skip
