"""What to measure first: each end is the answer to a rig changed by hand, one entry at a time, ranked by what it moves."""

import numpy as np
import pytest
from known_rigs import KNOWN_RIGS, SHEET_RIG, known_rig

from rigcalc.core.tables import table
from rigcalc.models import replaced, size
from rigcalc.models.size import answer as answer_file
from rigcalc.models.size.first import UNITS, _neighbours
from rigcalc.models.size.verdict import Judgement

POUND = 0.45359237
TRACKS = {"kind": "track", "tracks": 2, "track_width": "25 in"}


def doubt(answer, entry):
    return next(one for one in answer.measure_first if one.entry == entry)


def outcome_of(answer):
    p = answer.point.bare
    return answer.verdict.judgement, answer.sure.chance_works, float(p.slip), float(p.engine_share)


def assert_is(outcome, answer):
    judgement, chance, slip, engine = outcome_of(answer)
    assert outcome.judgement is judgement
    assert outcome.chance == pytest.approx(chance, abs=1e-3)  # a draw or two may stand on a limit
    assert (outcome.slip, outcome.engine_share) == pytest.approx((slip, engine))


@pytest.mark.parametrize(("entry", "texts"), [
    ("tractor.front_axle_mass", ("98 percent", "102 percent")), ("implement.mass", ("95 percent", "105 percent")),
    ("work.speed", ("95 percent", "105 percent")), ("implement.hitch_load", ("80 percent", "120 percent")),
])  # fmt: skip
def test_each_end_is_the_answer_to_the_rig_changed_by_hand(entry, texts):
    rig = known_rig()
    found = doubt(size(rig), entry)
    part, last = entry.split(".")
    own = getattr(getattr(rig, part), last)
    for end, text in zip(found.ends, texts, strict=True):
        share = float(text.split()[0]) / 100
        assert end.value == pytest.approx(own.to(UNITS[last]) * share, rel=1e-5)
        assert_is(end, size(replaced(rig, {entry: f"{own.value * share:.6g} {own.unit}"})))


def test_depth_is_tried_an_inch_either_way():
    rig = known_rig()
    found = doubt(size(rig), "work.depth")
    own = rig.work.depth.to("in")
    assert [end.value / 2.54 for end in found.ends] == pytest.approx([own - 1, own + 1])
    assert_is(found.ends[1], size(replaced(rig, {"work.depth": f"{own + 1} in"})))


def test_the_split_moves_with_the_total_held():
    rig = known_rig(SHEET_RIG)
    found = doubt(size(rig), "tractor.front_share")
    assert (found.given, [end.value for end in found.ends]) == ("rule", pytest.approx([0.3, 0.4], abs=1e-4))
    total = 29_000 * POUND
    by_hand = {"tractor.front_axle_mass": f"{0.4 * total:.6g} kg", "tractor.rear_axle_mass": f"{0.6 * total:.6g} kg"}
    judgement, _, slip, engine = outcome_of(size(replaced(rig, by_hand)))
    assert found.ends[1].judgement is judgement
    assert (found.ends[1].slip, found.ends[1].engine_share) == pytest.approx((slip, engine), rel=1e-3)


def test_a_total_moves_with_the_split_held():
    rig = known_rig(SHEET_RIG)
    found = doubt(size(rig), "tractor.total_mass")
    assert_is(found.ends[0], size(replaced(rig, {"tractor.total_mass": f"{0.95 * 29_000:.6g} lb"})))
    assert "tractor.total_mass" not in {one.entry for one in size(known_rig()).measure_first}


def test_another_power_changes_no_rule_of_its_class():
    rig = replaced(known_rig(SHEET_RIG), {"tractor.rated_power": "272 hp"})  # five percent more is the next class
    more = replaced(rig, {"tractor.rated_power": "285.6 hp"})
    assert rig.tractor.wheelbase != more.tractor.wheelbase
    found = doubt(size(rig), "tractor.rated_power")
    assert found.slip == pytest.approx(0, abs=1e-12)
    assert found.engine_load == pytest.approx(size(rig).point.bare.engine_share * (1 / 0.95 - 1))


def test_a_heavier_tool_keeps_the_tongue_load_of_the_rule():
    rig = known_rig(SHEET_RIG)
    mass, tongue = rig.implement.mass, rig.implement.hitch_load
    by_hand = replaced(rig, {"implement.mass": f"{1.3 * mass.to('kg'):.6g} kg", "implement.hitch_load": str(tongue)})
    assert_is(doubt(size(rig), "implement.mass").ends[1], size(by_hand))


def test_a_tongue_load_that_nobody_typed_may_be_a_fifth_of_the_tool():
    rig = replaced(known_rig(SHEET_RIG), {"implement.mass": "6000 lb"})
    found = doubt(size(rig), "implement.hitch_load")
    assert (found.given, found.here.value) == ("nothing", 0)
    assert [end.value for end in found.ends] == pytest.approx([0.2 * 6000 * POUND * 9.80665 / 1000], rel=1e-4)
    on_the_hitch = replaced(rig, {"setup.hitching": "mounted"})
    assert "implement.hitch_load" not in {one.entry for one in size(on_the_hitch).measure_first}


def test_singles_are_tried_as_duals_and_never_as_none():
    found = doubt(size(known_rig(SHEET_RIG)), "tractor.rear.tyres")
    assert [end.value for end in found.ends] == [4]


def test_both_powers_are_off_together():
    rig = replaced(known_rig(SHEET_RIG), {"tractor.maximum_power": "305 hp"})
    found = doubt(size(rig), "tractor.rated_power")
    assert len(found.ends) == 2
    by_hand = {"tractor.rated_power": "315 hp", "tractor.maximum_power": f"{305 * 1.05} hp"}
    assert found.ends[1].chance == pytest.approx(size(replaced(rig, by_hand)).sure.chance_works, abs=1e-3)


def test_what_the_file_always_took_is_by_rule_also_after_it_was_written_back():
    rig = known_rig(SHEET_RIG)
    for each in (rig, replaced(rig, {"work.depth": "10 in"})):
        assert doubt(size(each), "tractor.hitch_behind_axle").given == "rule"
        assert doubt(size(each), "ground.grade").given == "rule"


@pytest.mark.parametrize(("texture", "beside"), [
    ("silt", {"silt loam"}), ("sand", {"loamy sand"}), ("sandy clay", {"sandy clay loam", "clay loam", "clay"}),
    ("loam", {"sandy loam", "silt loam", "clay loam", "sandy clay loam"}),
])  # fmt: skip
def test_textures_border_on_each_other_as_in_the_triangle(texture, beside):
    assert set(_neighbours(texture)) == beside


def test_neighbours_are_so_both_ways():
    names = [row["texture"] for row in table("soil_groups")]
    assert all(name in _neighbours(other) for name in names for other in _neighbours(name))


def test_texture_is_tried_as_each_neighbour():
    rig = known_rig(SHEET_RIG)
    found = doubt(size(rig), "ground.texture")
    assert [end.value for end in found.ends] == list(_neighbours("clay loam"))
    clay = next(end for end in found.ends if end.value == "clay")
    assert_is(clay, size(replaced(rig, {"ground.texture": "clay"})))


def test_ranked_by_the_verdict_then_by_the_greatest_move():
    for name in (*KNOWN_RIGS, SHEET_RIG):
        ranks = [one.rank for one in size(known_rig(name)).measure_first]
        assert ranks == sorted(ranks, reverse=True)
    turning = size(replaced(known_rig(SHEET_RIG), {"work.depth": "16 in"}))
    changes = [bool(one.verdicts) for one in turning.measure_first]
    assert any(changes)
    assert not all(changes)
    assert changes == sorted(changes, reverse=True)


def test_a_verdict_that_changes_is_named_with_its_end():
    answer = size(replaced(known_rig(SHEET_RIG), {"work.depth": "16 in"}))
    for one in answer.measure_first:
        for end in one.ends:
            assert (end.judgement in one.verdicts) == (end.judgement is not answer.verdict.judgement)
        assert one.matters or not one.verdicts


def test_where_grip_gives_out_at_one_end_it_is_said():
    soft = replaced(known_rig(SHEET_RIG), {"ground.surface": "soft"})
    depths = [f"{inches} in" for inches in np.arange(8, 40, 1.0)]
    answers = (size(replaced(soft, {"work.depth": depth})) for depth in depths)
    last = next(answer for answer in answers if not size(
        replaced(soft, {"work.depth": f"{answer.point.bare.depth / 2.54 + 1} in"})).point.pulls)  # fmt: skip
    found = doubt(last, "work.depth")
    assert found.out_of_reach
    assert found.matters
    assert {end.slip is None for end in found.ends} == {True, False}


def test_nothing_is_worked_out_before_it_is_asked_for(monkeypatch):
    def refuse(*_):
        raise AssertionError

    monkeypatch.setattr(answer_file, "measure_first", refuse)
    answer = size(known_rig())
    with pytest.raises(AssertionError):
        _ = answer.measure_first


def tried_rigs():
    sheet = known_rig(SHEET_RIG)
    tracks = replaced(sheet, {"tractor.drive": "track", "tractor.front": None, "tractor.rear": TRACKS})
    four = replaced(sheet, {"tractor.drive": "track", "tractor.front": TRACKS, "tractor.rear": TRACKS})
    typed = {"tractor.front.contact_length": "2.1 m", "tractor.rear.contact_length": "2.1 m"}
    sand = {"ground.texture": None, "ground.sand": "30 percent", "ground.clay": "30 percent", "ground.cone_index": "1000 kPa"}
    measured = {"tractor.front_share": "40 percent", "ground.grade": "2 deg", "implement.wheel_share": "40 percent",
                "tractor.center_of_gravity_height": "1 m", "tractor.hitch_behind_axle": "1 m"}  # fmt: skip
    weighed = {"implement.mass": "6000 lb"}
    return [*map(known_rig, KNOWN_RIGS), sheet, tracks, four, replaced(four, typed),
            *(replaced(sheet, each) for each in (sand, measured, weighed))]  # fmt: skip


def test_every_row_of_the_table_is_used_and_every_entry_has_its_unit():
    used = {(one.entry, one.given) for rig in tried_rigs() for one in size(rig).measure_first}
    assert used == {(row["entry"], row["given"]) for row in table("usual_scatter")}
    assert {row["entry"].rpartition(".")[2] for row in table("usual_scatter")} == set(UNITS)


def test_rules_scatter_no_less_than_what_is_typed():
    rows = {(row["entry"], row["given"]): row for row in table("usual_scatter")}
    both = [entry for entry, given in rows if given == "rule" and (entry, "typed") in rows]
    assert len(both) > 10
    for entry in both:
        rule, typed = rows[entry, "rule"], rows[entry, "typed"]
        if rule["of"] == typed["of"] and rule["unit"] == typed["unit"]:
            assert rule["high"] - rule["low"] > typed["high"] - typed["low"], entry


def test_ground_that_is_too_wet_stays_so_at_every_end():
    answer = size(replaced(known_rig(), {"ground.thread_test": "rolls"}))
    assert answer.verdict.judgement is Judgement.DONT
    assert {end.judgement for one in answer.measure_first if not one.entry.startswith("ground.") for end in one.ends} == {
        Judgement.DONT
    }


def test_the_judgement_here_is_the_answers_own():
    answer = size(known_rig())
    assert all(one.here.judgement is answer.verdict.judgement for one in answer.measure_first)
    assert {one.here.judgement for one in answer.measure_first} <= set(Judgement)
