"""Statics by hand: moments on the level and on a grade, loads conserved, wheelbases without end, tipping, limits."""

import math

import numpy as np
import pytest
from ballast_rigs import plain

from rigcalc.core.errors import InputError
from rigcalc.equations.ballast import front_axle_gain, front_mass_with_tool, lifting_pull, rear_axle_gain, tool_center_behind
from rigcalc.models.ballast.limits import checks, situations, tipping, weight_limits
from rigcalc.models.ballast.plan import make_plan
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.statics import raised_tool
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import replaced

TO_KG = 1000 / 9.80665


def at(load, front, rear):
    return load[0] * front + load[1] * rear + load[2]


def test_moments_by_hand_on_the_level():
    # 10 t with 4 t in front on 3 m; a pull of 30 kN at 0.5 m and 10 kN down on a hitch 1 m behind.
    # Off the front: (30*0.5 + 10*1)/3 = 8.3333 kN = 849.76 kg. On the rear besides: 10 kN = 1019.72 kg.
    rig = plain("front_wheel_assist", tractor__front_axle_mass="4000 kg", tractor__rear_axle_mass="6000 kg",
                tractor__wheelbase="3 m", tractor__drawbar_height="0.5 m", tractor__hitch_behind_axle="1 m",
                implement__hitch_load="10 kN")  # fmt: skip
    b = bare(rig)
    pull = float(solve(b).drawbar_pull)
    front, rear = situations(rig, b).pull
    off = (pull * 0.5 + 10 * 1) / 3 / 9.80665 * 1000
    assert at(front, 4000, 6000) == pytest.approx(4000 - off, rel=1e-12)
    assert at(rear, 4000, 6000) == pytest.approx(6000 + off + 10 / 9.80665 * 1000, rel=1e-12)


def test_moments_by_hand_on_a_grade():
    # On a grade of 10 degrees the weight's part along the slope acts at the center of gravity and shifts load to the rear.
    rig = plain("front_wheel_assist", ground__grade="10 deg", implement__hitch_load="0 kN")
    b = bare(rig)
    front, rear = situations(rig, b).pull
    mass_front, mass_rear = 4000.0, 7000.0
    weight = (mass_front + mass_rear) * 9.80665e-3
    ahead = mass_front / (mass_front + mass_rear) * b.wheelbase
    pull = float(solve(b).drawbar_pull)
    sine, cosine = math.sin(math.radians(10)), math.cos(math.radians(10))
    by_hand = (weight * cosine * ahead - weight * sine * b.center_height - pull * b.drawbar_height) / b.wheelbase
    assert at(front, mass_front, mass_rear) == pytest.approx(by_hand * TO_KG, rel=1e-12)
    assert at(front, mass_front, mass_rear) + at(rear, mass_front, mass_rear) == pytest.approx(
        weight * cosine * TO_KG, rel=1e-12
    )


@pytest.mark.parametrize("name", ["four_wheel_drive", "front_wheel_assist", "tracks"])
@pytest.mark.parametrize("grade", ["-6 deg", "0 deg", "8 deg"])
def test_straight_functions_are_the_operating_point(name, grade):
    rig = plain(name, ground__grade=grade)
    b = bare(rig)
    p = solve(b)
    masses = b.front_weight * TO_KG, b.rear_weight * TO_KG
    front, rear = situations(rig, b).pull
    assert at(front, *masses) == pytest.approx(float(p.front_load) * TO_KG, rel=1e-12)
    assert at(rear, *masses) == pytest.approx(float(p.rear_load) * TO_KG, rel=1e-12)


def test_a_piece_adds_its_mass_wherever_it_hangs():
    places = np.linspace(-3, 6, 19)
    front, rear = front_axle_gain.bare(500, places, 3), rear_axle_gain.bare(500, places, 3)
    assert front + rear == pytest.approx(500)
    assert front[places == 3] == 500
    assert (rear[places > 3] < 0).all()


def test_wheelbases_without_end():
    # A plate a set way ahead of the front axle: on an endless wheelbase all of it is on the front and none comes off the rear;
    # on one that shrinks to nothing the lever has no end.
    endless, short = 1e12, 1e-9
    assert rear_axle_gain.bare(500, endless + 1.0, endless) == pytest.approx(0, abs=1e-6)
    assert rear_axle_gain.bare(500, short + 1.0, short) < -1e9
    assert front_axle_gain.bare(500, short + 1.0, short) > 1e9
    # And on an endless wheelbase a pull moves no load.
    rig = plain(tractor__wheelbase="9 m")
    b = bare(rig).at(wheelbase=1e12)
    front, _ = situations(rig, b).pull
    assert front == pytest.approx((1, 0, 0), abs=1e-6)


def test_raised_tool_by_hand_and_from_tickets():
    # 2000 kg with its center 1.5 m behind the axle of a 3 m tractor takes 1000 kg off the front.
    assert front_mass_with_tool.bare(4000, 2000, 1.5, 3) == 3000
    assert tool_center_behind.bare(4000, 3000, 3, 2000) == 1.5
    rig = replaced(
        plain(
            "front_wheel_assist",
            tractor__front_axle_mass="4000 kg",
            tractor__rear_axle_mass="6000 kg",
            tractor__wheelbase="3 m",
        ),
        {"scale": {"front_raised": "3000 kg", "rear_raised": "9000 kg", "total_raised": "12000 kg", "total": "10000 kg"}},
    )
    assert raised_tool(rig) == pytest.approx((2000, 1.5))
    raised = situations(rig, bare(rig)).raised
    assert at(raised[0], 4000, 6000) == pytest.approx(3000)
    assert at(raised[1], 4000, 6000) == pytest.approx(9000)
    names = {limit.name for limit in weight_limits(rig)}
    assert "steer_raised" in names
    # 20 percent of 10 t must stay: a front of 3000 kg holds, one of 1900 kg does not.
    found = {check.name: check for check in checks(weight_limits(rig), 4000, 6000)}
    assert found["steer_raised"].holds
    assert not {check.name: check for check in checks(weight_limits(rig), 2900, 7100)}["steer_raised"].holds


@pytest.mark.parametrize(
    ("scale", "words"),
    [
        ({"total": "12000 kg"}, "add up"),
        ({"front_raised": "3000 kg"}, "only one axle"),
        ({"front_raised": "3000 kg", "rear_raised": "9000 kg", "total_raised": "13000 kg"}, "add up"),
        ({"front_raised": "4100 kg", "rear_raised": "9000 kg"}, "less on the front"),
        ({"front_raised": "3000 kg", "rear_raised": "6500 kg"}, "more in all"),
        ({"total_raised": "13000 kg"}, "no axles"),
    ],
)
def test_scale_tickets_that_do_not_belong_together_are_refused(scale, words):
    rig = plain("front_wheel_assist", tractor__front_axle_mass="4000 kg", tractor__rear_axle_mass="6000 kg")
    with pytest.raises(InputError, match=words):
        replaced(rig, {"scale": scale})


def test_scale_tickets_within_two_percent_are_taken():
    rig = plain("front_wheel_assist", tractor__front_axle_mass="4000 kg", tractor__rear_axle_mass="6000 kg")
    assert replaced(rig, {"scale": {"total": "10150 kg"}}).scale.total.text == "10150 kg"


def test_lifting_pull_by_hand():
    # 100 kN, center 1 m ahead, hitch 0.5 m high, nothing on the hitch: 100*1/0.5 = 200 kN; a load of 10 kN 1 m behind: 180.
    assert lifting_pull.bare(100, 1.0, 1.2, 0, 0, 1.0, 0.5) == pytest.approx(200)
    assert lifting_pull.bare(100, 1.0, 1.2, 0, 10, 1.0, 0.5) == pytest.approx(180)
    # Where the plumb line falls behind the rear contact it lifts by itself.
    steep = math.degrees(math.atan(1.0 / 1.2))
    assert lifting_pull.bare(100, 1.0, 1.2, steep, 0, 1.0, 0.5) == pytest.approx(0, abs=1e-9)


def test_tipping_grows_with_hitch_height_and_grade():
    low = tipping(bare(plain()))
    high = tipping(bare(plain(tractor__drawbar_height="1.5 m")))
    steep = tipping(bare(plain(ground__grade="12 deg")))
    assert low[0] < high[0] < 1.5
    assert steep[1] < low[1]
    assert tipping(bare(plain(tractor__drawbar_height="2 m", tractor__front_axle_mass="4000 kg",
                              tractor__rear_axle_mass="16000 kg")))[0] > 1  # fmt: skip


def test_tipping_front_load_is_nothing_at_the_lifting_pull():
    b = bare(plain(ground__grade="5 deg"))
    _, lifts, _ = tipping(b)
    p = solve(b)
    rest = float(p.drawbar_pull - p.draft)
    tipped = solve(b, draft_factor=(lifts - rest) / float(p.draft))
    assert float(tipped.front_load) == pytest.approx(0, abs=1e-9 * b.weight)


def test_every_given_limit_is_checked_at_rest_under_pull_and_on_the_road():
    rig = replaced(plain(), {
        "tractor.front_axle_mass_limit": "15000 kg", "tractor.rear_axle_mass_limit": "15000 kg",
        "tractor.front.tyre": {"load_index": 168}, "setup": {"mass_limit": "26000 kg", "road_front_limit": "12000 kg",
                                                             "road_hitch_load": "20 kN"},
    })  # fmt: skip
    limits = {limit.name: limit for limit in weight_limits(rig)}
    for when in ("rest", "pull", "road"):
        assert {f"front_axle_{when}", f"rear_axle_{when}", f"front_tyres_{when}", f"front_index_{when}"} <= set(limits)
    assert {"mass_limit", "front_road_limit", "steer_rest", "steer_pull", "front_share_low", "front_share_high"} <= set(limits)
    # Duals carry 0.88 of the index each: 4 * 5600 * 0.88.
    assert limits["front_index_rest"].limit[2] == pytest.approx(4 * 5600 * 0.88)
    # On the road 20 kN at the hitch 1.2 m behind a 3.9 m wheelbase.
    off = 20 * 1.2 / 3.9 / 9.80665 * 1000
    assert at(limits["front_axle_road"].value, 12000, 10000) == pytest.approx(12000 - off)
    assert at(limits["rear_axle_road"].value, 12000, 10000) == pytest.approx(10000 + off + 20000 / 9.80665)


def test_used_and_short_say_the_same():
    limits = weight_limits(plain(tractor__front_axle_mass_limit="12000 kg"))
    for front, rear in ((12000.0, 10000.0), (12500.0, 9000.0), (3000.0, 17000.0)):
        for check in checks(limits, front, rear):
            assert check.holds == (check.used <= 1 + 1e-12), check
            assert (check.short > 0) == (not check.holds)


def test_two_tracks_have_neither_axles_nor_tipping():
    rig = plain("tracks")
    rig = replaced(rig, {"tractor.front": None})
    b = bare(rig)
    assert {limit.name for limit in weight_limits(rig, b)} == {"track_pressure"}
    assert tipping(b) is None


@pytest.mark.parametrize("share", ["20 percent", "25 percent"])
def test_two_wheel_drive_of_the_usual_split_has_a_plan(share):
    # 20 to 25 percent in front at rest and at least 20 percent under pull contradict each other; at rest it stays a limit.
    part = float(share.split()[0]) / 100
    rig = replaced(plain("front_wheel_assist", tractor__front_axle_mass=f"{27000 * part} lb",
                         tractor__rear_axle_mass=f"{27000 * (1 - part)} lb"),
                   {"tractor.drive": "2WD", "tractor.front.driven": False})  # fmt: skip
    limits = {limit.name: limit for limit in weight_limits(rig)}
    assert (limits["steer_rest"].hard, limits["steer_pull"].hard) == (True, False)
    assert (limits["steer_rest"].limit[0], limits["steer_pull"].limit[0]) == (0.20, 0.10)
    assert make_plan(rig).works


def test_advice_of_tables_is_soft_and_an_own_aim_is_hard():
    hard = {limit.name: limit.hard for limit in weight_limits(plain())}
    assert not hard["front_share_low"]
    assert not hard["front_share_high"]
    aimed = plain(setup={"front_share_low": "50 percent", "front_share_high": "52 percent"})
    assert {limit.name: limit.hard for limit in weight_limits(aimed)}["front_share_low"]


def test_capacity_rows_are_each_their_own_mass():
    rig = replaced(plain(), {
        "tractor.rear_axle_mass_limit": "15000 kg", "tractor.rear.load_limit_each": "5000 kg",
        "tractor.rear.tyre": {"load_index": 168, "pressures": ["10 psi", "14 psi"], "loads": ["3 t", "3.6 t"],
                              "table_from": "a data book"},
    })  # fmt: skip
    rows = {limit.which.what: limit for limit in weight_limits(rig) if (limit.which.axle, limit.which.when) == ("rear", "rest")}
    assert {what: rows[what].limit for what in ("axle", "tyres", "index", "table")} == {
        "axle": (0, 0, 15000), "tyres": (0, 0, 20000), "index": (0, 0, pytest.approx(4 * 5600 * 0.88)), "table": (0, 0, 14400),
    }  # fmt: skip
    assert (rows["table"].source, rows["table"].cited) == ("tyre_table", "a data book")
