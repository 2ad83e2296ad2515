"""How deep, by hand: each plan, the depth that a share asks for, and what the shanks loosen."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import rigcalc
from rigcalc.core.errors import InputError
from rigcalc.core.tables import table
from rigcalc.models.ground import ground
from rigcalc.models.ground.depth import Plan, depth_advice
from rigcalc.models.ground.readings import read_flags
from rigcalc.models.ground.shanks import critical_band, shanks
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import replaced

BASE = rigcalc.load_rig("front_wheel_assist")
TEN = [f"20 cm to {bottom} cm" for bottom in (24, 25, 26, 27, 28, 29, 30, 31, 32, 33)]


def advice(flags, work=30.0, wanted=0.8, critical=None, rated=None):
    return depth_advice(read_flags(flags).layers(2068.4), work, wanted, critical, rated)


def test_the_depth_is_an_inch_below_the_layer_at_the_share_that_is_wanted():
    for wanted, bottom in ((0.1, 24), (0.5, 28), (0.8, 31), (0.81, 32), (1.0, 33)):
        found = advice(TEN, work=35.0, wanted=wanted)
        assert found.need == pytest.approx((bottom + 2.5, bottom + 5.0))
    found = advice(TEN, work=30.0)
    assert found.at_work == pytest.approx(0.4)  # 27.5 cm and shallower
    assert found.under(100) == 1
    assert (np.diff(found.shares) >= 0).all()
    assert found.shares[found.depths == 30.0] == pytest.approx(0.4)
    np.testing.assert_allclose(found.steps, np.arange(24, 34) + 2.5)


@pytest.mark.parametrize(
    ("flags", "about", "plan", "judgement"),
    [
        (["none"] * 10, {}, Plan.NO_LAYER, Judgement.DONT),
        (["none"] * 9, {}, Plan.FEW, Judgement.TRY),
        (TEN, {"work": 33.4}, Plan.SHALLOW, Judgement.DONT),
        (TEN, {"work": 33.5}, Plan.RIGHT, Judgement.GO),
        (TEN, {"work": 41.0}, Plan.RIGHT, Judgement.GO),
        (TEN, {"work": 41.1}, Plan.DEEP, Judgement.TRY),
        (TEN, {"work": 35, "rated": 33.4}, Plan.BEYOND_TOOL, Judgement.DONT),
        (TEN, {"work": 35, "rated": 33.5}, Plan.RIGHT, Judgement.GO),
        (TEN, {"work": 35, "critical": (20.0, 33.4)}, Plan.BELOW_CRITICAL, Judgement.TRY),
        (TEN, {"work": 35, "critical": (20.0, 33.6)}, Plan.RIGHT, Judgement.GO),
        (TEN[:7], {"work": 33}, Plan.FEW, Judgement.TRY),
        (TEN[:9] + ["20 cm to deeper"] * 3, {"work": 60}, Plan.UNREACHED, Judgement.TRY),
        (TEN[:4] + ["none"] * 6, {"work": 31}, Plan.PATCHY, Judgement.TRY),
        (TEN[:5] + ["none"] * 5, {"work": 31}, Plan.RIGHT, Judgement.GO),
    ],
)
def test_each_plan(flags, about, plan, judgement):
    found = advice(flags, **about)
    assert found.plan is plan
    assert found.judgement is judgement


def test_readings_that_end_inside_are_never_got_under():
    found = advice([*TEN[:8], "20 cm to deeper", "20 cm to deeper"], work=200.0)
    assert found.under(200.0) == pytest.approx(0.8)
    assert found.need == pytest.approx((33.5, 36.0))
    assert found.unreached == 2


def test_ridge_and_section_by_hand():
    """Shanks 30 cm apart, points 6 cm wide, sides at 45 deg: the ridge is half of 24 cm high; what stays is a triangle."""
    rig = replaced(BASE, {"implement.spacing": "30 cm", "implement.point_width": "6 cm", "work.depth": "30 cm"})
    found = shanks(rig, bare(rig), 60.0)
    assert found.at(30.0, "ridge") == pytest.approx(12.0)
    assert found.at(30.0, "section") == pytest.approx(0.3 * 0.3 - 0.12 * 0.24 / 2)
    assert found.at(10.0, "section") == pytest.approx(0.1 * (0.06 + 0.1))  # they don't meet yet
    assert found.at(30.0, "loosened") == pytest.approx(1 - 0.0144 / 0.09)
    assert found.critical == pytest.approx((30.0, 42.0))
    # below the middle of the critical depth nothing more is loosened, and what isn't is ridge
    assert found.at(50.0, "section") == found.at(40.0, "section") == pytest.approx(found.at(36.0, "section"))
    assert found.at(50.0, "ridge") == pytest.approx(12.0 + 14.0)
    assert found.at(50.0, "loosened") == pytest.approx((0.09 - 0.0144 + 0.3 * 0.06) / (0.3 * 0.5))
    at_work = found.at(30.0, "draft") / (rig.implement.tools * found.at(30.0, "section"))  # kN on m2
    assert found.at(30.0, "specific") == pytest.approx(at_work)
    deep = replaced(rig, {"work.depth": "50 cm"})
    assert shanks(deep, bare(deep), 60.0).loosened_to([0.0, 3.0, 10.0], [0.0]) == pytest.approx([36, 36, 29])
    assert found.specific[-1] > found.specific[found.depths == found.cheapest]
    assert 15 < found.cheapest <= 36  # where it stops loosening; sooner as a deep chisel begins to pull like a subsoiler
    assert found.multiple == pytest.approx(1.0)


def test_spacing_against_the_table():
    rig = replaced(BASE, {"implement.spacing": "60 cm", "work.depth": "30 cm"})
    assert shanks(rig, bare(rig), 40.0).wide
    rig = replaced(BASE, {"implement.spacing": "45 cm", "work.depth": "30 cm"})
    assert not shanks(rig, bare(rig), 40.0).wide
    assert table("shank_spacing")["plain"]["high"] == 1.5


def test_a_point_of_unknown_width_has_no_critical_depth():
    rig = replaced(BASE, {"implement.point_width": None})
    assert critical_band(rig) is None
    assert shanks(rig, bare(rig), 40.0).critical is None
    assert "not known" in " ".join(rigcalc.in_words(ground(rig)).tool)


def test_wet_ground_stands_before_any_depth_and_a_wrong_depth_before_what_is_well():
    at_14 = replaced(BASE, {"work.depth": "34 cm"})
    wet = replaced(at_14, {"ground.thread_test": "rolls"})
    dry = replaced(at_14, {"ground.thread_test": "crumbles"})
    found = ground(wet, TEN)
    assert found.judgement is Judgement.DONT
    assert rigcalc.in_words(found, "us").said.headline.startswith("too wet at 13.4 in")
    found = ground(dry, TEN)
    assert found.judgement is Judgement.GO
    assert rigcalc.in_words(found, "si").said.headline.startswith("34 cm gets under the layer at 8 of the 10 flags")
    found = ground(replaced(dry, {"work.depth": "25 cm"}), TEN)
    assert found.judgement is Judgement.DONT
    said = rigcalc.in_words(found, "si").said
    assert said.headline.startswith("25 cm is too shallow: it gets under the layer at 0 of the 10")
    assert said.rest[0].startswith("Dry enough to break")


def test_what_nobody_looked_at_is_a_reason_to_try_first():
    for rig, flags, missing in (
        (BASE, [], "probed"),
        (replaced(BASE, {"ground.thread_test": "crumbles"}), [], "probed"),
        (replaced(BASE, {"work.depth": "34 cm"}), TEN, "how wet"),
    ):
        found = ground(rig, flags)
        assert found.judgement is Judgement.TRY
        assert missing in str(rigcalc.in_words(found))


def test_dry_ground_overstates():
    found = ground(replaced(BASE, {"ground.wetness": "dry", "work.depth": "34 cm"}), TEN)
    assert found.overstated
    assert found.judgement is Judgement.TRY
    assert "reads harder than it is" in str(rigcalc.in_words(found))


def test_a_log_and_flags_go_together(tmp_path):
    file = tmp_path / "log.csv"
    file.write_text("depth (cm),a (kPa)\n10,500\n15,600\n20,3000\n25,3200\n30,700\n35,600\n40,500\n45,600\n50,700\n")
    found = ground(BASE, ["none", "8 in to 10 in"], log=file)
    assert (found.depth.flags, found.depth.with_layer) == (3, 2)
    assert found.readings.profiles.names == ("a",)
    assert found.readings.by_hand.names == ("flag 1", "flag 2")


def test_every_fault_at_once():
    with pytest.raises(InputError) as error:
        ground("nowhere.toml", ["8 in"], log="nowhere.csv", share=2, limit="300")
    assert [fault.where for fault in error.value.faults] == ["rig file", "limit", "share", "flag 1", "log"]
    for wrong in ({"flags": "8 in to 12 in"}, {"flags": [8]}, {"share": True}, {"share": float("nan")}, {"limit": "9 MPa"}):
        with pytest.raises(InputError):
            ground(BASE, **wrong)


def test_the_limit_moves_the_layer():
    flags = ["100 250 280 260 120 100 psi each 3 in"] * 10
    assert ground(BASE, flags).depth.with_layer == 0
    assert ground(BASE, flags, limit="200 psi").depth.with_layer == 10


@settings(max_examples=60, deadline=None)
@given(
    bottoms=st.lists(st.one_of(st.none(), st.floats(0.1, 150), st.just(float("inf"))), min_size=1, max_size=30),
    work=st.floats(1, 130),
    wanted=st.floats(0.01, 1),
    width=st.one_of(st.none(), st.floats(0.5, 60)),
)
def test_whatever_the_flags_there_is_a_plan_and_a_sentence(bottoms, work, wanted, width):
    flags = [
        "none" if bottom is None else "0 cm to deeper" if bottom == float("inf") else f"0 cm to {bottom:.4f} cm"
        for bottom in bottoms
    ]
    rig = replaced(
        BASE, {"work.depth": f"{work:.4f} cm", "implement.point_width": None if width is None else f"{width:.3f} cm"}
    )
    found = ground(rig, flags, share=wanted)
    for units in ("us", "si"):
        words = rigcalc.in_words(found, units)
        assert "nan" not in str(words)
        assert "inf " not in str(words)
        assert all("nan" not in line for line in (*words.layer, *words.tool, *words.notes))
    if found.depth.need is not None:
        assert found.depth.under(found.depth.need[0]) >= wanted - 1e-9
        assert found.depth.under(found.depth.need[0] - 0.01) < wanted
    assert np.isfinite(found.shanks.specific).all()


ARTICULATED = rigcalc.load_rig("articulated")
PROBED = ["20 cm to 33 cm"] * 12


def test_never_a_go_where_the_rig_stands_at_its_depth():
    able = replaced(ARTICULATED, {"ground.thread_test": "crumbles", "work.depth": "36 cm"})
    assert ground(able, PROBED).judgement is Judgement.GO
    wide = replaced(able, {"implement.tools": 60})
    answer = ground(wide, PROBED)
    assert answer.judgement is Judgement.DONT
    assert answer.failing is answer.holds
    assert answer.holds.hold == "depth"
    assert answer.holds.depth < 36
    assert " at 36 cm, at any speed; it goes " in rigcalc.in_words(answer, "si").said.headline


def test_a_speed_that_is_too_much_at_the_depth_is_said_and_where_it_is_held_it_is_not():
    able = replaced(ARTICULATED, {"ground.thread_test": "crumbles", "work.depth": "36 cm"})
    slow = replaced(able, {"work.speed": "7 km/h"})
    assert "at this depth hold" not in str(rigcalc.in_words(ground(slow, PROBED)))
    fast = replaced(able, {"work.speed": "12 km/h"})
    answer = ground(fast, PROBED)
    assert (answer.holds.hold, answer.failing) == ("speed", None)
    assert answer.holds.speed < 12
    said = rigcalc.in_words(answer, "si").said.rest
    assert f"The engine gives out at 12 km/h: at this depth hold {answer.holds.speed:.2g} km/h or less." in said


def test_the_standard_cone_is_named_where_somebody_probed():
    """ASAE S313 as restated: 323 and 130 mm2 (129 to 130), so 2.5 times."""
    si, us = (" ".join(rigcalc.in_words(ground(ARTICULATED, PROBED), units).notes) for units in ("si", "us"))
    assert "base 12.83 mm wide (in soft soil 20.27 mm), pushed in at about 30 mm/s" in si
    assert "0.505 in wide (in soft soil 0.798 in), pushed in at about 1.2 in/s" in us
    assert 323 / 129.5 == pytest.approx(2.5, abs=0.01)
    assert "other cone they are 2.5 times off; a cone worn by 3 % is replaced" in si
    assert "standard cone" not in " ".join(rigcalc.in_words(ground(ARTICULATED)).notes)


def test_what_the_rig_holds_goes_by_its_readings():
    able = replaced(ARTICULATED, {"ground.thread_test": "crumbles", "work.speed": "5 km/h", "work.depth": "36 cm"})
    hard = {"date": "2026-11-04", "depth": "36 cm", "speed": "5 km/h", "load": "99 percent", "load_of": "available"}
    read = replaced(able, {"reading": [hard | {"made_with": {"tools": able.implement.tools}}]})
    field = {"field": "800 m by 400 m", "traffic": ["combine: 9 m apart, 2 tyres of 750 mm"]}
    as_table, as_read = ground(able, PROBED, **field).zones, ground(read, PROBED, **field).zones
    assert [zone.hold for zone in as_table.each] == ["as it is"] * 2
    assert [zone.hold for zone in as_read.each] == ["depth"] * 2
    assert as_read.fuel > 1.2 * as_table.fuel
    fast = {"work.speed": "7.5 km/h"}
    assert ground(replaced(able, fast), PROBED).holds.hold == "as it is"
    assert ground(replaced(read, fast), PROBED).holds.hold == "speed"
    wrong = {**hard, "depth": "50 in", "slip": "10 percent", "load": None, "load_of": None, "made_with": {"tools": 150}}
    wrong = {name: value for name, value in wrong.items() if value is not None}
    with pytest.raises(InputError, match=r"(?s)flag 1.*reading 1"):
        ground(replaced(able, {"reading": [wrong]}), ["8 in"])


def test_a_zone_that_cannot_be_worked_at_the_depth_is_said_first():
    able = replaced(ARTICULATED, {"ground.thread_test": "crumbles", "work.depth": "36 cm"})
    for tools in range(able.implement.tools, 60):
        rig = replaced(able, {"implement.tools": tools})
        answer = ground(rig, PROBED, field="800 m by 400 m", traffic=["cart: 6 m apart, 4 tyres of 1 m"])
        if answer.failing is not None:
            break
    assert answer.failing in answer.zones.each
    assert answer.judgement is Judgement.TRY
    assert "in the headland" in rigcalc.in_words(answer, "si").said.headline
    assert ground(rig, PROBED).judgement is Judgement.GO
