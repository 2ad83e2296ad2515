"""The whole answer: what stands now, the loads of each situation, tipping, notes, cautions and working, each by hand."""

import math
import re

import pytest
from ballast_rigs import piece, plain

from rigcalc.core.tables import table
from rigcalc.equations.ballast import lifting_pull
from rigcalc.models.ballast.answer import ballast
from rigcalc.models.ballast.limits import tipping
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import replaced

TO_KG = 1000 / 9.80665
WEIGHTS = [piece("plates", "45 kg", 8, 8, ahead="1.2 m"), piece("wheel weights", "200 kg", 4, 0, axle="rear")]


@pytest.mark.parametrize("job", ["light", "this", "full"])
@pytest.mark.parametrize(("name", "grade"), [("four_wheel_drive", "4 deg"), ("front_wheel_assist", "0 deg")])
def test_what_stands_now(name, grade, job):
    rig = plain(name, ground__grade=grade)
    answer = ballast(rig, job)
    b, stands = bare(rig), answer.stands
    p = solve(b, draft_factor=answer.plan.job.draft_factor)
    front, rear = rig.tractor.front_axle_mass.to("kg"), rig.tractor.rear_axle_mass.to("kg")
    assert (stands.front_mass, stands.rear_mass) == (front, rear)
    assert stands.front_share == pytest.approx(front / (front + rear))
    assert stands.front_share_pull == pytest.approx(float(p.front_load / (p.front_load + p.rear_load)))
    assert stands.per_power == pytest.approx((front + rear) / b.rated_pto)
    assert stands.slip == pytest.approx(float(p.slip))
    assert stands.delivery == pytest.approx(float(p.drawbar_power / p.pto_power))
    assert stands.tractive_efficiency == pytest.approx(float(p.tractive_efficiency))
    assert stands.loads["rest"] == pytest.approx((front, rear))
    assert stands.loads["pull"] == pytest.approx((float(p.front_load) * TO_KG, float(p.rear_load) * TO_KG))


def test_loads_on_the_road_and_with_a_raised_tool():
    rig = replaced(plain("front_wheel_assist", tractor__front_axle_mass="4000 kg", tractor__rear_axle_mass="6000 kg",
                         tractor__wheelbase="3 m", tractor__hitch_behind_axle="1 m"),
                   {"setup": {"hitching": "mounted", "raised_mass": "900 kg", "raised_behind": "2 m",
                              "road_hitch_load": "9.80665 kN"}})  # fmt: skip
    loads = ballast(rig, "this").stands.loads
    # A tonne on the hitch a metre behind the axle takes a third of a tonne off the front; 900 kg at 2 m take 600 off.
    assert loads["road"] == pytest.approx((4000 - 1000 / 3, 6000 + 4000 / 3))
    assert loads["raised"] == pytest.approx((4000 - 600, 6000 + 900 + 600))


@pytest.mark.parametrize("grade", ["0 deg", "9 deg"])
def test_tipping_now_and_with_the_plan(grade):
    rig = plain("front_wheel_assist", ground__grade=grade, ballast=WEIGHTS)
    answer = ballast(rig, "this")
    b, chosen = bare(rig), answer.plan.chosen
    assert chosen.changes
    for tip, front, rear in ((answer.tip, answer.stands.front_mass, answer.stands.rear_mass),
                             (answer.tip_after, chosen.front_mass, chosen.rear_mass)):  # fmt: skip
        weight, ahead = (front + rear) / TO_KG, front / (front + rear) * b.wheelbase
        lifts = float(
            lifting_pull.bare(weight, ahead, b.center_height, b.grade, b.hitch_load, b.hitch_behind, b.drawbar_height)
        )
        at_work = solve(b)
        factor = (lifts - float(at_work.drawbar_pull - at_work.draft)) / float(at_work.draft)
        tipped = solve(b.at(front_weight=front / TO_KG, rear_weight=rear / TO_KG), draft_factor=factor * (1 - 1e-9))
        holds = float(tipped.peak_pull) - weight * math.sin(math.radians(b.grade))
        assert tip == pytest.approx((holds / lifts, lifts, holds), rel=1e-6)
    assert answer.tip == pytest.approx(tipping(b))
    assert answer.tip_after[1] != pytest.approx(answer.tip[1], rel=1e-3)


def test_a_front_that_stands_on_nothing_lifts_by_itself():
    # So steep that the plumb line through the center of gravity falls behind the rear wheels.
    b = bare(plain("front_wheel_assist")).at(grade=35.0, center_height=3.0)
    used, lifts, _ = tipping(b)
    assert used == math.inf
    assert lifts < 0


SETUP = {"mass_limit": "40 t", "road_front_limit": "15 t", "road_rear_limit": "15 t"}
TYRE = {"load_index": 168, "speed_symbol": "A8"}


@pytest.mark.parametrize(
    ("name", "changes", "there"),
    [
        ("no_pieces", {}, True),
        ("no_pieces", {"ballast": WEIGHTS}, False),
        ("no_pieces", {"tractor.rear.tyre": {"volume": "700 L", "liquid": "water"}}, False),
        ("no_mass_limit", {}, True),
        ("no_mass_limit", {"setup": {"hitching": "towed"}}, True),
        ("no_mass_limit", {"setup": SETUP}, False),
        ("no_road_limits", {}, True),
        ("no_road_limits", {"setup": SETUP}, False),
        ("no_road_limits", {"setup": {"road_front_limit": "15 t"}}, True),
        ("no_road_limits", {"setup": {"road_rear_limit": "15 t"}}, True),
        ("raised_unweighed", {}, False),
        ("raised_unweighed", {"setup": {"hitching": "mounted"}}, True),
        ("raised_unweighed", {"setup": {"hitching": "towed"}}, False),
        ("raised_unweighed", {"setup": {"hitching": "mounted", "raised_mass": "1 t", "raised_behind": "2 m"}}, False),
        ("speed_of_index", {}, False),
        ("speed_of_index", {"tractor.front.tyre": TYRE}, True),
        ("speed_of_index", {"tractor.front.tyre": {"load_index": 168}}, False),
        ("lighter_job", {}, False),
        ("pressure_follows", {}, True),
        ("from_memory", {}, True),
    ],
)
def test_notes_where_they_belong(name, changes, there):
    notes = ballast(replaced(plain("front_wheel_assist"), changes), "full").notes
    assert (name in {note.name for note in notes}) == there


def test_notes_bring_their_numbers():
    rig = replaced(plain("front_wheel_assist"), {"tractor.rear.tyre": TYRE})
    notes = {note.name: note for note in ballast(rig, "full").notes}
    assert (notes["speed_of_index"].axle, notes["speed_of_index"].value, notes["speed_of_index"].symbol) == ("rear", 40, "A8")
    assert notes["pressure_follows"].value == bare(rig).center_height


def test_a_tractor_too_heavy_for_this_job_is_told_of_the_share_it_takes():
    heavy = plain(work__depth="9 in", setup={"mass_limit": "40 t"}, ballast=[piece("weights", "1 t", 6, 6)])
    answer = ballast(heavy, "this")
    job = answer.plan.job
    assert job.best.high < answer.stands.front_mass + answer.stands.rear_mass
    assert {note.name: note for note in answer.notes}["lighter_job"].value == job.engine_share
    assert "lighter_job" not in {note.name for note in ballast(heavy, "light").notes}, "it is told of the rig's own job alone"


def test_cautions_are_those_of_weights_tyres_and_the_road():
    about = {row["id"]: row["when"] for row in table("cautions")}
    dry = set(ballast(plain(), "full").cautions)
    wanted = {key for key, when in about.items() if when in ("ballast", "tyres", "road")}
    assert dry == wanted - {"calcium_chloride", "methanol", "ethylene_glycol"}
    wet = replaced(plain(), {"tractor.front.tyre": {"volume": "700 L", "liquid": "glycol_half"}})
    assert set(ballast(wet, "full").cautions) - dry == {"ethylene_glycol"}


def test_the_working_ends_in_the_answers_own_numbers():
    rig = replaced(plain(), {"tractor.rear.tyre": {"volume": "700 L", "liquid": "water", "fill": "40 percent"}})
    answer = ballast(rig, "full")

    def results(name):
        return [float(re.search(r"[\d.]+", w.result.replace(",", "")).group()) for w in answer.working if w.equation == name]

    assert results("front_share") == pytest.approx([answer.stands.front_share], rel=1e-3)
    assert results("lifting_pull") == pytest.approx([answer.tip[1]], rel=1e-3)
    assert results("liquid_mass") == pytest.approx([answer.liquids[0].mass], rel=1e-3)
    assert results("ballast_mass") == pytest.approx([row.high for row in answer.advice if row.per_power], rel=1e-3)
    assert len(results("ballast_mass")) > 3
    assert {w.equation for w in ballast(replaced(plain("tracks"), {"tractor.front": None}), "this").working} == {"front_share"}
