"""The wedge before narrow tines: the angle of failure against a search, Coulomb's coefficient, what moves draft, odd input."""

import math

import numpy as np
import pytest
from known_rigs import known_rig
from scipy.optimize import minimize_scalar

from rigcalc.equations import wedge as book
from rigcalc.models import replaced
from rigcalc.models.ground import ground
from rigcalc.models.machine.failure import FLATTEST, STEEPEST, failure_angle
from rigcalc.models.machine.tines import Voice, Voices, tine_force, voices, wedge
from rigcalc.models.machine.wetness import wetness
from rigcalc.models.rig.bare import bare
from rigcalc.words import in_words
from rigcalc.words.ground.voices import voices_part


def tines(count, seed=5):
    rng = np.random.default_rng(seed)
    friction = rng.uniform(0, 50, count)
    metal = np.minimum(rng.uniform(0, 35, count), friction)
    return rng.uniform(3, 90, count), friction, metal, np.exp(rng.uniform(-3, 3.5, count))


def weight_factor(angle, rake, friction, metal, slenderness):
    gain = book.side_gain_of_weight.bare(book.crescent_ratio.bare(rake, angle), slenderness, 1.0)
    return book.wedge_weight_factor.bare(rake, friction, metal, angle) * gain


def test_no_search_finds_an_angle_with_a_lesser_factor():
    each = tines(150)
    found = weight_factor(failure_angle(*each), *each)
    for at, tine in enumerate(zip(*each, strict=True)):
        most = min(STEEPEST, 180 - sum(tine[:3]) - 1e-6)
        places = np.linspace(FLATTEST, most, 300)
        searched = minimize_scalar(weight_factor, bounds=(FLATTEST, most), args=tine, method="bounded")
        assert found[at] <= min(searched.fun, weight_factor(places, *tine).min()) * (1 + 1e-6), tine


def test_a_wide_blade_meets_coulombs_passive_pressure():
    rake, friction, metal, _ = tines(400)
    steep = rake > np.maximum(
        friction + 5, 40
    )  # Coulomb's wall: flatter ones break at no angle between the two that are looked at
    rake, friction, metal = rake[steep], friction[steep], metal[steep]
    angle = failure_angle(rake, friction, metal, 0.0)
    inside = (angle > FLATTEST + 1) & (angle < STEEPEST - 1)
    assert inside.sum() > 100
    twice = 2 * book.wedge_weight_factor.bare(rake, friction, metal, angle)
    assert twice[inside] == pytest.approx(book.coulomb_passive.bare(rake, friction, metal)[inside], rel=1e-9)


@pytest.mark.parametrize(
    "tine",
    [(0, 30, 20, 3), (90.1, 30, 20, 3), (-5, 30, 20, 3), (60, 90, 20, 3), (60, -1, 20, 3), (60, 30, -1, 3), (60, 30, 20, -1),
     (89, 60, 40, 3), (60, 30, 20, np.inf), (np.nan, 30, 20, 3), (60, 30, 20, np.nan)],
)  # fmt: skip
def test_what_is_no_tine_has_no_angle(tine):
    assert math.isnan(failure_angle(*tine))
    assert np.isnan(failure_angle(*np.broadcast_arrays(*(np.array([each, each]) for each in tine)))).all()


def test_ten_thousand_odd_tines_get_an_angle_or_none_and_never_a_warning():
    rng = np.random.default_rng(8)
    each = [
        rng.choice([0, 1e-9, 30, 89.999, 90, 180, -3, np.nan, np.inf, 1e300, *rng.uniform(0, 95, 20)], 10_000) for _ in "four"
    ]
    angle = failure_angle(*each)
    known = np.isfinite(angle)
    assert 500 < known.sum() < 9_500
    assert ((angle[known] > 0) & (angle[known] <= STEEPEST)).all()
    assert (sum(each[:3])[known] + angle[known] < 180 + 1e-3).all()


def test_many_tines_in_threads_are_those_of_one_block():
    each = tines(120_000)
    assert failure_angle(*each)[::1000].tolist() == failure_angle(*(values[::1000] for values in each)).tolist()
    shaped = failure_angle(*(values[:6].reshape(2, 3) for values in each))
    assert shaped.shape == (2, 3)


def test_what_makes_the_soil_stronger_or_the_tine_larger_makes_it_pull_more():
    usual = {"rake": 45, "friction": 30, "metal": 22, "cohesion": 12, "adhesion": 1, "density": 1.4, "width": 0.05}

    def force(depth=0.25, speed=1.5, **changed):
        return tine_force(*(np.array([value]) for value in {**usual, **changed}.values()), depth, speed)[0].item()

    assert 1 < force() < 6, "kN: the table's chisels pull 2 to 4 each at this depth"
    for name in ("rake", "friction", "metal", "cohesion", "density", "width"):
        assert force(**{name: usual[name] * 1.1}) > force(), name
    assert force(depth=0.3) > 1.2 * force()
    assert force(speed=3) > force() > force(speed=0)


def test_a_narrow_point_deep_in_weak_soil_squeezes_it_aside_below_its_critical_depth():
    soft = [np.array([value]) for value in (60, 5, 5, 10, 0, 1.4)]
    depth = 0.6
    narrow, critical = tine_force(*soft, np.array([0.02]), depth, 1.0)
    wide, lifts = tine_force(*soft, np.array([0.2]), depth, 1.0)
    assert critical[0] < 0.5 * depth
    assert lifts[0] == pytest.approx(depth)
    assert wide > narrow
    deep = book.deep_weight_factor.bare(5.0)
    below = book.lateral_resistance.bare(
        0.02, 10, book.deep_cohesion_factor.bare(5.0, deep), depth, critical[0], 5.0, 1.4 * 9.80665, deep
    )
    alone = tine_force(*soft, np.array([0.02]), critical[0], 1.0)[0]
    assert narrow == pytest.approx(alone + below, rel=0.02), "lifted down to there, squeezed below"


def test_voices_are_held_against_each_other():
    rig = known_rig()
    found = voices(rig, bare(rig), None)
    assert found.wedge.low < found.wedge.likely < found.wedge.high
    assert [row.name for row in found.rows] == ["row"]
    deep = replaced(rig, {"work.depth": "18 in"})
    assert [row.name for row in voices(deep, bare(deep), None).rows] == ["row", "deep_row"]
    assert wedge(replaced(rig, {"implement.tool": "subsoiler_winged"}), None) is None
    unknown = wedge(replaced(rig, {"implement.point_width": None}), None)
    assert unknown[1] == (4.0, 8.0)
    assert unknown[0].likely == pytest.approx(found.wedge.likely, rel=0.1), "the crescents pull, not the point's width"


def test_wet_ground_is_weaker_and_dry_ground_stronger():
    rig = replaced(known_rig(), {"ground.texture": "clay loam"})
    likely = {}
    for feel in ("dry", "moist", "wet"):
        felt = replaced(rig, {"ground.wetness": feel})
        likely[feel] = wedge(felt, wetness(felt))[0].likely
    assert likely["dry"] > likely["moist"] > likely["wet"]
    assert likely["moist"] == wedge(rig, None)[0].likely


def test_bands_that_part_are_said_and_those_that_meet_are_not():
    table, far = Voice("table", 30, 20, 40), Voice("wedge", 80, 41, 120)
    parted = Voices(table, (), far, (5, 5), (math.inf,) * 3)
    assert parted.apart
    assert "says more than the table" in voices_part(parted, "us")
    assert "says less than the table" in voices_part(Voices(far, (), table, (5, 5), (math.inf,) * 3), "si")
    meets = Voices(table, (), Voice("wedge", 80, 40, 120), (5, 5), (math.inf,) * 3)
    assert not meets.apart
    assert voices_part(meets, "us") == ""
    under = Voice("wedge", 10, 5, 20)  # bands that touch meet, from either side
    assert under.meets(table)
    assert table.meets(under)
    assert not Voice("wedge", 10, 5, 19.9).meets(table)
    dry = replaced(known_rig(), {"ground.wetness": "dry", "ground.texture": "clay", "work.depth": "16 in"})
    answer = ground(dry)
    said = str(in_words(answer, "us"))
    assert answer.voices.apart == ("second way of working out the draft" in said.lower())
    assert any("low confidence" in line for line in in_words(answer, "si").tool)


def test_all_tools_pull_as_often_as_one_and_a_critical_depth_above_the_work_is_in_cm():
    rig = known_rig()
    one = wedge(replaced(rig, {"implement.tools": 1}), None)[0]
    assert wedge(rig, None)[0].likely == pytest.approx(rig.implement.tools * one.likely)
    weak = {"ground.texture": "clay", "ground.wetness": "wet", "work.depth": "24 in", "implement.point_width": "1 in"}
    soft = replaced(rig, weak)
    voice, width, critical = wedge(soft, wetness(soft))
    assert width == (2.54, 2.54)
    assert 10 < critical[0] < 60.96, "cm, above the depth of work"
    assert voice.low < voice.high


def test_metal_is_never_rougher_than_the_soil_itself():
    """Where friction of soil is drawn below that on steel, the soil shears beside the steel: no angle of its own is left."""
    soft = replaced(known_rig(), {"ground.texture": "clay", "ground.wetness": "wet"})
    low = tine_force(*(np.array([each]) for each in (45, 3, 3, 10, 4, 1.3, 0.05)), 0.25, 1.5)[0].item()
    rough = tine_force(*(np.array([each]) for each in (45, 3, 12, 10, 4, 1.3, 0.05)), 0.25, 1.5)[0].item()
    assert rough > low
    assert wedge(soft, wetness(soft))[0].low < rough * soft.implement.tools
