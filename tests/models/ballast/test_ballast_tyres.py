"""Tyres: strict reading of tables, pressures between rows and never past them, loads on each, effect of pressure."""

import numpy as np
import pytest
from ballast_rigs import plain

from rigcalc.core.errors import InputError
from rigcalc.equations.stress import stress_depth
from rigcalc.equations.tyre import listed_load_index_mass
from rigcalc.models.ballast.limits import situations
from rigcalc.models.ballast.tyres import (
    InflationTable,
    pressure_effect,
    read_table,
    required_inflation,
    roller_shares,
    tyre_loads,
)
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import replaced

TABLE = InflationTable((80.0, 100.0, 140.0), (2000.0, 2400.0, 3000.0))


def test_pressure_between_rows_is_a_straight_line():
    assert required_inflation(2200, TABLE).pressure == pytest.approx(90)
    assert required_inflation(2700, TABLE).pressure == pytest.approx(120)
    for load, pressure in zip(TABLE.loads, TABLE.pressures, strict=True):
        assert required_inflation(load, TABLE).pressure == pytest.approx(pressure)


def test_pressure_is_never_carried_past_the_table():
    low, over = required_inflation(500, TABLE), required_inflation(3000.001, TABLE)
    assert (low.pressure, low.how) == (80, "lowest")
    assert (over.pressure, over.how) == (None, "over")
    assert np.isnan(TABLE.load_at(79.9))
    assert np.isnan(TABLE.load_at(141))


def test_generic_law_is_marked_as_a_makeshift():
    found = required_inflation(2200, None, (2000, 100))
    assert found.how == "law"
    assert found.how == "law"
    assert found.pressure == pytest.approx(100 * 1.1 ** (1 / 0.585))
    assert required_inflation(2000, None).how == "unknown"
    with pytest.raises(InputError):
        required_inflation(float("nan"), TABLE)


@pytest.mark.parametrize("text", [
    "pressure psi, load lb\n10, 5000\n14, 6000\n",
    "load lb,pressure psi\n# a note\n5000,10\n\n6000,14\n",
    "Pressure (psi),Load [lb]\n10,5000\n14,6000",
])  # fmt: skip
def test_tables_are_read_in_either_order(text):
    found = read_table(text)
    assert found.pressures == pytest.approx([68.948, 96.527], rel=1e-4)
    assert found.loads == pytest.approx([2267.96, 2721.55], rel=1e-5)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "nothing"),
        ("10,5000\n14,6000", "both columns"),
        ("pressure psi\n10\n12", "both columns"),
        ("pressure psi, pressure bar\n10,1\n12,2", "both columns"),
        ("pressure lb, load psi\n10,5000\n14,6000", "converts to kPa"),
        ("pressure wibble, load lb\n10,5000\n14,6000", "converts to kPa"),
        ("pressure psi, load lb\n10,5000", "two at least"),
        ("pressure psi, load lb\n10,5000\n14,4000", "don't rise"),
        ("pressure psi, load lb\n14,5000\n10,6000", "don't rise"),
        ("pressure psi, load lb\n10,5000\nfourteen,6000", "line 3"),
        ("pressure psi, load lb\n10,5000\n14,-6000", "line 3"),
        ("pressure psi, load lb\n10,5000\n14,6000,7000", "line 3"),
        ("pressure psi, load lb\n10,5000\n0,6000", "line 3"),
        ("pressure psi, load lb\n10,5000\n14,6e3", "line 3"),
        ("pressure psi, load lb\n10,5000\n14,nan", "line 3"),
        ("x" * 70_000, "more than 64 KiB"),
    ],
)
def test_tables_that_are_none_are_refused(text, words):
    with pytest.raises(InputError, match=words):
        read_table(text)


def test_every_bad_line_is_named_at_once():
    with pytest.raises(InputError) as caught:
        read_table("pressure psi, load lb\nten,5000\n12,six\n14,6000")
    assert len(caught.value.faults) == 2


def test_each_tyre_carries_its_part():
    rig = replaced(plain(), {"tractor.rear.tyre": {"load_index": 168}, "tractor.front.load_limit_each": None})
    loads = {(t.axle, t.when): t for t in tyre_loads(rig, {"rest": (12000.0, 10000.0), "pull": (11000.0, 11500.0)})}
    assert loads["front", "rest"].each == 3000
    assert loads["rear", "pull"].each == 2875
    assert loads["front", "rest"].capacity is None
    # The least of 5600 kg in the rig file and 0.88 of the 5600 kg behind load index 168.
    assert loads["rear", "rest"].capacity == pytest.approx(0.88 * 5600)
    triple = replaced(rig, {"tractor.rear.tyres": 6})
    assert tyre_loads(triple, {"rest": (12000.0, 12000.0)})[1].capacity == pytest.approx(0.82 * 5600)
    single = replaced(rig, {"tractor.rear.tyres": 2})
    assert tyre_loads(single, {"rest": (12000.0, 12000.0)})[1].capacity == pytest.approx(5600)


def test_more_pressure_less_deflection_more_slip():
    rig = plain()
    each = float(solve(bare(rig)).rear_load) / 4 * 1000 / 9.80665
    table = InflationTable((50.0, 100.0, 200.0), (0.7 * each, each, 1.4 * each))
    found = pressure_effect(rig, "rear", [60, 100, 150, 199], table)
    assert found.deflection_ratio[1] == pytest.approx(0.20)  # the rig's own, at the load that the table lists
    assert (np.diff(found.deflection_ratio) < 0).all()
    assert (np.diff(found.contact_area) < 0).all()
    assert (np.diff(found.mobility) < 0).all()
    assert (np.diff(found.slip) > 0).all()
    assert found.slip[1] == pytest.approx(float(solve(bare(rig)).slip), rel=1e-12)
    assert np.isnan(pressure_effect(rig, "rear", [300], table).slip).all()
    with pytest.raises(InputError, match="the tyre's own table"):
        pressure_effect(rig, "front", [100])


def test_rollers_of_a_two_track_tractor():
    rig = replaced(plain("tracks"), {"tractor.front": None})
    front, rear = roller_shares(rig)
    assert front + rear == pytest.approx(1)
    at = situations(plain("tracks"), bare(plain("tracks"))).pull  # the same moments as on two axles
    masses = rig.tractor.front_axle_mass.to("kg"), rig.tractor.rear_axle_mass.to("kg")
    loads = [a * masses[0] + b * masses[1] + c for a, b, c in at]
    assert front == pytest.approx(loads[0] / sum(loads))
    assert roller_shares(plain()) is None


def test_mean_ground_pressure():
    # A track of 30 in by 2.2 m under 6000 kg: 58.84 kN on 1.6764 m2.
    track = tyre_loads(plain("tracks"), {"rest": (12000.0, 10000.0)})[0]
    assert track.ground_pressure == pytest.approx(6000 * 9.80665e-3 / (0.762 * 2.2))
    tyre = tyre_loads(plain(), {"rest": (12000.0, 10000.0)})[0]
    assert tyre.ground_pressure == pytest.approx(3000 * 9.80665e-3 / (0.71 * 2.05 / 4))


def test_load_index_outside_the_list_is_no_number():
    assert np.isnan(listed_load_index_mass.bare([-1, 201, 150.5])).all()
    assert listed_load_index_mass.bare(0) == 45


def test_stress_is_boussinesq_at_a_concentration_of_three():
    # Under the middle of a round, even load Boussinesq's stress is p*(1 - 1/(1 + (a/z)^2)^1.5) (textbook elasticity).
    area, pressure, stress = 0.36, 120.0, 50.0
    depth = stress_depth.bare(area, pressure, stress, 3.0)
    radius = np.sqrt(area / np.pi)
    assert pressure * (1 - 1 / (1 + (radius / depth) ** 2) ** 1.5) == pytest.approx(stress, rel=1e-12)
