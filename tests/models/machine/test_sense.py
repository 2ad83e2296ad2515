"""Physics that a specialist would sign: nothing from a tractor that tips, no more torque than there is, and the rest."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from known_rigs import KNOWN_RIGS, known_rig
from made_rigs import KINDS, many, one

from rigcalc.models import replaced, size
from rigcalc.models.machine.contact import track_contact
from rigcalc.models.machine.engine import available_pto, torque_at
from rigcalc.models.machine.facts import facts
from rigcalc.models.machine.limits import caps, shares, works, worst
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.sure import how_sure
from rigcalc.models.rig.bare import bare
from rigcalc.models.size.reverse import reverse_answers

modest = settings(deadline=None, max_examples=40)
LOOSE = {"implement.rated_depth": None, "implement.rated_power_per_tool": None, "tractor.drawbar_load_limit": None}


def named(rig):
    b = bare(rig)
    return {fact.name: fact for fact in facts(rig, b, solve(b))}


# engine speed


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_a_slow_engine_gives_less(name):
    """55 percent of rated speed used to hold a job that took 93 percent of rated power: 1.7 times rated torque."""
    slow = replaced(known_rig(name), LOOSE | {"tractor.engine_speed_share": "55 percent"})
    b = bare(slow)
    assert available_pto(b) < 0.75 * b.rated_pto
    hard = b.at(depth=b.depth * 0.93 / float(solve(b).engine_share))
    assert shares(hard, solve(hard), caps(slow, b))["engine"] > 1.2
    deepest = {a.question: a for a in reverse_answers(b, caps(slow, b))}["deepest"]
    full = bare(replaced(slow, {"tractor.engine_speed_share": "100 percent"}))
    there = {a.question: a for a in reverse_answers(full, caps(slow, full))}["deepest"]
    assert (deepest.uncut or deepest.value) < (there.uncut or there.value)


@modest
@given(speed=st.floats(0.5, 1.0), top=st.floats(1.0, 1.4), rise=st.floats(0.0, 0.6))
def test_power_falls_with_engine_speed_and_never_passes_the_maximum(speed, top, rise):
    b = bare(known_rig())
    b = b.at(maximum_pto=b.rated_pto * top, torque_rise=rise)
    speeds = np.linspace(0.3, 1.0, 141)
    power = np.array([available_pto(b.at(engine_speed_share=float(s))) for s in speeds])
    assert (np.diff(power) >= -1e-9).all()
    assert power.max() <= b.maximum_pto * (1 + 1e-12)
    torque = torque_at(b, speeds)
    assert torque.max() <= max(1 + rise, top / 0.9) + 1e-9
    there = available_pto(b.at(engine_speed_share=speed))
    if speed < 0.9:
        assert there <= torque_at(b, speed) * speed * b.rated_pto * (1 + 1e-12)


@modest
@given(kind=st.sampled_from(list(KINDS)), place=st.integers(0, 199), speed=st.floats(0.5, 1.0))
def test_no_answer_that_works_has_more_torque_than_the_engine(kind, place, speed):
    b = one(many(kind, 200), place).at(engine_speed_share=speed)
    with np.errstate(divide="ignore", invalid="ignore"):
        p = solve(b)
    if np.isfinite(p.slip) and p.engine_share * b.rated_pto <= available_pto(b) and speed < 0.9:
        assert p.engine_share / speed <= torque_at(b, speed) * (1 + 1e-9)


@pytest.mark.parametrize(("gears", "peak", "most"), [
    ({"torque_peak_speed": "2000 rpm"}, 2000 / 2100, 2000 / 2100), ({"maximum_power_speed": "1300 rpm"}, 0.67, 1300 / 2100),
    ({"torque_peak_speed": "1300 rpm", "maximum_power_speed": "1800 rpm"}, 1300 / 2100, 1800 / 2100),
    ({"torque_peak_speed": "1500 rpm"}, 1500 / 2100, 0.9),
])  # fmt: skip
def test_what_is_known_of_the_torque_stands_and_what_is_typical_gives_way(gears, peak, most):
    known = {"torque_rise": "35 percent"} if "torque_peak_speed" in gears else {}
    b = bare(replaced(known_rig("front_wheel_assist"), {f"gears.{name}": value for name, value in (gears | known).items()}))
    assert (b.torque_peak_speed, b.maximum_power_speed) == pytest.approx((min(peak, most), most))


def test_full_throttle_gives_what_it_gave():
    for name in KNOWN_RIGS:
        b = bare(known_rig(name))
        assert available_pto(b) == b.maximum_pto


# balance


def test_a_tractor_that_tips_is_told_so_and_nothing_else():
    """A front axle load of -258 lbf was "too light to steer"."""
    rig = replaced(known_rig("front_wheel_assist"), LOOSE | {"tractor.front_axle_mass": "2500 lb", "work.depth": "20 in",
                                                           "tractor.drawbar_height": "40 in"})  # fmt: skip
    b = bare(rig)
    p = solve(b)
    assert p.tipping > 1
    assert p.front_load == 0
    assert p.rear_load == pytest.approx(b.weight + b.hitch_load)
    for name in ("slip", "peak_pull", "missing_pull", "engine_power", "tractive_efficiency", "fuel_rate"):
        assert np.isnan(getattr(p, name)), name
    used = shares(b, p, caps(rig, b))
    assert str(worst(used)[1]) == "tipping"
    assert not works(used)
    assert set(named(rig)) >= {"tips"}
    assert how_sure(b, caps(rig, b)).chance_works < 0.5


@modest
@given(kind=st.sampled_from(list(KINDS)), seed=st.integers(0, 5))
def test_no_load_is_negative_or_beyond_the_weight_there_is(kind, seed):
    rigs = many(kind, 200, seed).at(depth=np.full(200, 90.0), drawbar_height=np.full(200, 1.2))
    with np.errstate(divide="ignore", invalid="ignore"):
        p = solve(rigs)
    there = (rigs.front_weight + rigs.rear_weight) * np.cos(np.deg2rad(rigs.grade)) + rigs.hitch_load
    for load in (p.front_load, p.rear_load):
        assert (load >= 0).all()
        assert (load <= there * (1 + 1e-12)).all()
    np.testing.assert_allclose(p.front_load + p.rear_load, there, rtol=1e-12)
    assert (p.tipping >= 1).any()


TWO_TRACKS = {
    "tractor.drive": "track", "tractor.front": None, "tractor.front_axle_mass": "9000 kg", "tractor.rear_axle_mass": "9000 kg",
    "tractor.wheelbase": "2.6 m",
    "tractor.rear": {"kind": "track", "tracks": 2, "track_width": "30 in", "contact_length": "2.6 m"},
}  # fmt: skip


def test_the_load_of_two_tracks_moves_back_under_pull():
    rig = replaced(known_rig(), LOOSE | TWO_TRACKS | {"implement.tools": 9})
    places = [
        float(solve(bare(replaced(rig, {"tractor.drawbar_height": h}))).resultant_ahead) for h in ("12 in", "20 in", "28 in")
    ]
    assert places[0] > places[1] > places[2]
    assert places[2] < 0
    b = bare(rig)
    limits = shares(b, solve(b), caps(rig, b))
    assert limits["resultant"] == pytest.approx(abs(places[1]) / (2.6 / 6))
    high = replaced(rig, {"tractor.drawbar_height": "60 in", "work.depth": "16 in"})
    b = bare(high)
    used = shares(b, solve(b), caps(high, b))
    assert used["resultant"] > 1
    assert not works(used)


@pytest.mark.parametrize("ahead", [-0.9, -0.5, -0.2, 0.0, 0.3, 0.433, 0.7, 1.1])
def test_pressure_under_a_track_carries_the_load_where_it_stands(ahead):
    """Against the pressure itself, integrated along the contact: it adds up to the load and has its middle at the resultant."""
    length, load, area = 2.6, 180.0, 2.6 * 1.5
    contact = track_contact(load, area, length, ahead)
    x = (np.arange(200_000) + 0.5) / 200_000 * length - length / 2
    off = abs(ahead)
    if off <= length / 6:
        pressure = load / area * (1 + 12 * ahead * x / length**2)
    else:
        base = 3 * (length / 2 - off)
        from_heavy = length / 2 - np.sign(ahead) * x
        pressure = np.maximum(contact.peak_pressure * (1 - from_heavy / base), 0)
    assert pressure.mean() * area == pytest.approx(load, rel=1e-4)
    assert (pressure * x).sum() / pressure.sum() == pytest.approx(ahead, abs=1e-4)
    assert pressure.max() == pytest.approx(contact.peak_pressure, rel=1e-4)
    thirds = [part.sum() / pressure.sum() for part in (pressure[:66_667], pressure[66_667:133_333], pressure[133_333:])]
    np.testing.assert_allclose(contact.parts, thirds, atol=1e-4)
    assert contact.lifts == (off > length / 6)


@pytest.mark.parametrize(("ahead", "parts"), [(1.3, (0.0, 0.0, 1.0)), (1.5, (0.0, 0.0, 1.0)), (-1.3, (1.0, 0.0, 0.0))])
def test_a_load_at_the_very_end_of_a_track_or_past_it_stands_on_that_end_alone(ahead, parts):
    contact = track_contact(180.0, 2.6 * 1.5, 2.6, ahead)
    assert contact.parts == parts
    assert contact.lifts
    assert contact.peak_pressure == np.inf


def test_two_tracks_without_a_weighed_front_balance_in_the_middle_and_say_so():
    rig = replaced(known_rig(), LOOSE | TWO_TRACKS | {"tractor.front_axle_mass": "0 kg", "tractor.rear_axle_mass": "18000 kg"})
    assert "track_center_assumed" in named(rig)
    assert abs(float(solve(bare(rig)).resultant_ahead)) < 0.4


# soil


@pytest.mark.parametrize("name", KNOWN_RIGS)
@pytest.mark.parametrize("cone", ["700 kPa", "1000 kPa", "1600 kPa"])
def test_a_typed_cone_index_moves_grip_draft_band_and_rolling(name, cone):
    """On tracks it changed nothing at all."""
    plain, typed = known_rig(name), replaced(known_rig(name), {"ground.cone_index": cone})
    a, b = bare(plain), bare(typed)
    p, q = solve(a), solve(b)
    harder = b.cone_index > a.cone_index
    assert (q.peak_pull > p.peak_pull) == harder
    assert (q.draft > p.draft) == harder
    assert (b.rolling_ratio < a.rolling_ratio) == harder
    if not harder:
        assert caps(typed, b).slip_high > caps(plain, a).slip_high
    same = replaced(plain, {"ground.cone_index": "1200 kPa"})
    assert float(solve(bare(same)).slip) == float(p.slip), "the surface's own figure changes nothing"
    assert caps(same, bare(same)).slip_high == pytest.approx(caps(plain, a).slip_high)


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_soil_strength_scatters_on_every_running_gear(name):
    b = bare(known_rig(name))
    low, _, high, _ = how_sure(b.at(draft_range=0.0, covered_width=None, deep_from=None), caps(known_rig(name), b)).bands[
        "slip"
    ]
    assert high > low * 1.001


def test_harder_ground_is_no_free_gift():
    """Grip grows, and so does draft: at an extreme cone index the engine is worse off than on the named surface."""
    plain, hard = bare(known_rig()), bare(replaced(known_rig(), {"ground.cone_index": "2500 kPa"}))
    assert solve(hard).engine_share > solve(plain).engine_share
    assert solve(hard).draft / solve(plain).draft == pytest.approx(1.25)


def test_sand_is_a_fact():
    assert "sand" in named(replaced(known_rig(), {"ground.texture": "sand"}))
    assert "sand" not in named(known_rig())


# downhill


def test_downhill_the_tool_pushes_and_there_is_no_efficiency():
    """It said "Yes, efficiency -920 percent"."""
    rig = replaced(known_rig(), LOOSE | {"work.depth": "2 in", "implement.tools": 5, "ground.grade": "-12 deg"})
    b = bare(rig)
    p = solve(b)
    assert p.net_pull < 0
    assert p.slip == 0
    assert np.isnan(p.tractive_efficiency)
    assert 0 < p.braking < -p.net_pull, "rolling holds back a part"
    assert p.engine_power == 0
    fact = named(rig)["pushed"]
    assert fact.numbers["power"][0] == pytest.approx(float(p.braking * p.speed / 3.6))
    assert shares(b, p, caps(rig, b))["holding"] == pytest.approx(float(p.braking / p.peak_pull))
    assert "pushed" not in named(known_rig())


def test_a_slope_beyond_what_the_tyres_hold_is_a_limit():
    rig = replaced(known_rig("front_wheel_assist"), LOOSE | {
        "work.depth": "1 in", "implement.tools": 1, "implement.mass": "60000 lb", "ground.grade": "-25 deg",
        "ground.surface": "soft"})  # fmt: skip
    b = bare(rig)
    used = shares(b, solve(b), caps(rig, b))
    assert used["holding"] > 1
    assert not works(used)


# directions of the chance


@pytest.mark.parametrize("name", KNOWN_RIGS)
@pytest.mark.parametrize(("entry", "values"), [
    ("depth", np.linspace(15, 60, 16)), ("speed", np.linspace(4, 14, 16)), ("tools", np.arange(5.0, 45.0, 3.0)),
])  # fmt: skip
def test_more_work_is_never_surer(name, entry, values):
    rig = replaced(known_rig(name), LOOSE)
    b = bare(rig)
    c = caps(rig, b)
    chances = [how_sure(b.at(**{entry: float(value)}), c).chance_pulls for value in values]
    assert (np.diff(chances) <= 0).all(), chances
    assert chances[0] > 0.95


# reverse answers


def test_deepest_and_fastest_stop_where_sense_stops():
    """ "29.5 in for 2 in points": below the critical depth the point loosens no more."""
    rig = replaced(known_rig(), LOOSE | {"implement.tools": 4, "tractor.rated_power": "900 hp", "tractor.maximum_power": None})
    found = {answer.question: answer for answer in size(rig).reverse}
    assert (found["deepest"].binds, found["deepest"].value) == ("critical_depth", pytest.approx(12 * 2.54))
    assert (found["fastest"].binds, found["fastest"].value) == ("row_speed", pytest.approx(6.5 * 1.609344))
    pointless = replaced(rig, {"implement.point_width": None})
    deepest = next(answer for answer in size(pointless).reverse if answer.question == "deepest")
    assert (deepest.binds, deepest.value) == ("row_depth", pytest.approx(20 * 2.54))


def test_least_mass_stops_at_the_bare_tractor_and_says_when_the_limit_is_passed():
    easy = replaced(known_rig(), LOOSE | {"work.depth": "5 in"})
    b = bare(easy)
    least = {a.question: a for a in reverse_answers(b, caps(easy, b))}["least mass"]
    hung = 14 * 100 + 4 * 450 + 4 * 450  # lb, what hangs on the demo rig
    bare_mass = (27500 + 22500 - hung) * 0.45359237
    assert least.binds in ("bare_tractor", "mobility_range")
    assert least.value >= bare_mass - 1e-6
    assert least.uncut < bare_mass
    hard = replaced(known_rig(), LOOSE | {"work.depth": "17 in", "ground.surface": "soft", "tractor.rated_power": "1500 hp",
                                         "tractor.maximum_power": None, "setup.mass_limit": "50500 lb", "implement.tools": 24,
                                         "tractor.front.load_limit_each": None})  # fmt: skip
    b = bare(hard)
    c = caps(hard, b)
    least = {a.question: a for a in reverse_answers(b, c)}["least mass"]
    assert (least.value, least.binds) == (None, "mass_limit")
    assert least.uncut > c.mass_limit


def test_liquid_in_the_tyres_is_ballast_too():
    """The bare tractor is without pieces and without liquid: 4 tyres of 190 gal (719 L) three quarters full of brine."""
    dry = {"work.depth": "5 in", "tractor.rear.tyre.filled_tyres": 4}
    wet = replaced(known_rig(), dry | {"tractor.rear.tyre.fill": "75 percent"})
    dry = replaced(known_rig(), dry)
    at = {name: caps(rig, bare(rig)).bare_mass for name, rig in (("dry", dry), ("wet", wet))}
    liters = 4 * 190 * 3.785411784 * 0.75
    assert 1.15 * liters < at["dry"] - at["wet"] < 1.3 * liters  # brine is a fifth to a fourth heavier than water
    alone = replaced(wet, {"ballast": ()})
    hung = (14 * 100 + 4 * 450 + 4 * 450) * 0.45359237
    assert caps(alone, bare(alone)).bare_mass == pytest.approx(at["wet"] + hung)
    neither = replaced(known_rig(), {"ballast": (), "tractor.rear.tyre.liquid": None, "tractor.rear.tyre.dose": None,
                                    "tractor.rear.tyre.fill": None})  # fmt: skip
    assert caps(neither, bare(neither)).bare_mass == pytest.approx(50000 * 0.45359237), "what isn't listed can't come off"


def test_the_bare_tractor_over_the_mass_limit_has_no_least_mass():
    rig = replaced(known_rig(), LOOSE | {"work.depth": "5 in", "setup.mass_limit": "44000 lb"})
    b = bare(rig)
    least = {a.question: a for a in reverse_answers(b, caps(rig, b))}["least mass"]
    assert (least.value, least.binds) == (None, "mass_limit")


# steering


def test_standing_and_pulling_ask_for_different_shares_in_front():
    """A fifth standing (a manual), half of that under pull (ours); both advise, neither stops a reverse answer."""

    def at(share):
        return replaced(known_rig("front_wheel_assist"), {
            "tractor.drive": "2WD", "tractor.front_axle_mass": f"{27000 * share} lb",
            "tractor.rear_axle_mass": f"{27000 * (1 - share)} lb", "tractor.rear.load_limit_each": None, "work.depth": "7 in",
            "tractor.rear.tyre": None,
        })  # fmt: skip

    usual, light = size(at(0.205)), size(at(0.15))
    assert usual.margin("steering_rest").used == pytest.approx(20 / 20.5)
    assert usual.margin("steering").used < 1
    assert usual.verdict.judgement == "go"
    assert light.margin("steering_rest").state == "over"
    assert light.margin("steering_rest").used == pytest.approx(20 / 15)
    assert light.verdict.state in ("works", "light_front")
    assert not usual.margin("steering_rest").hard
    assert not usual.margin("steering").hard


# wheel tracks


def test_wheel_tracks_count_only_for_the_difference_from_the_average():
    b = bare(known_rig())
    row = float(solve(b.at(covered_width=None)).draft)
    usual = b.tools * b.spacing * 0.3
    assert float(solve(b.at(covered_width=usual)).draft) == pytest.approx(row)
    assert float(solve(b.at(covered_width=0.0)).draft) == pytest.approx(row / 1.3)
    assert float(solve(b).draft) == pytest.approx(row * (1 + 4 * 0.71 / (15 * 15 * 0.0254)) / 1.3, rel=1e-6)
    fact = named(known_rig())["wheel_tracks"]
    assert fact.numbers["covered"][0] == pytest.approx(4 * 0.71 / (15 * 15 * 0.0254))
