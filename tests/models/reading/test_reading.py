"""What readings tell, what to read next, what was said before; and that every question goes by them."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import numpy as np
import pytest

import rigcalc
from rigcalc.core.errors import InputError
from rigcalc.models.compare import compare
from rigcalc.models.machine.field import draft_factor_at, in_field, left_out_of, made_with, quantiles, seen_of, told_of
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.ranges import factor_at
from rigcalc.models.reading import foretold, next_reading, record, tells
from rigcalc.models.reading.foretold import Span
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.beside import reading_from
from rigcalc.models.rig.file import demo_rig, replaced
from rigcalc.models.rig.rig import Rig
from rigcalc.models.size.answer import Answer
from rigcalc.models.size.failing import failing
from rigcalc.models.size.verdict import Judgement
from rigcalc.words.reading.listed import said_entry

BASE = demo_rig("articulated")
TOOLS = BASE.implement.tools


def read(**changes: Any) -> dict[str, Any]:
    """Give a reading of a field that pulls about a quarter over the table, at 12 in."""
    data = {
        "date": "2026-11-04",
        "depth": "12 in",
        "depth_behind": 4,
        "speed": "5 mph",
        "made_with": {"tools": TOOLS},
    } | changes
    return {name: value for name, value in data.items() if value is not None}


def with_readings(*readings: dict[str, Any], **changes: Any) -> Rig:
    return replaced(BASE, {"reading": list(readings), **changes})


def load_at(factor: float, depth: float = 30.48, speed: float = 8.04672) -> str:
    """Give the load of rated power that a display shows where the ground pulls `factor` times the table."""
    point = solve(in_field(BASE).at(depth=depth, speed=speed), draft_factor=factor)
    return f"{100 * float(point.engine_share):.6f} percent"


HARD = read(load=load_at(1.25), load_of="rated")
EASY = read(load=load_at(0.75), load_of="rated")


def draft_band(answer: Answer) -> tuple[float, float, float]:
    low, middle, high, _ = answer.sure.bands["draft"]
    assert low is not None
    assert middle is not None
    assert high is not None
    return low, middle, high


# --- every question goes by the field ----------------------------------------------------------------------------------


def test_readings_that_are_all_set_aside_change_nothing_to_the_bit() -> None:
    without, aside = rigcalc.size(BASE), rigcalc.size(with_readings(HARD | {"set_aside": "the display was off"}))
    for each in fields(Answer):
        if each.name not in ("rig", "point"):
            assert repr(getattr(without, each.name)) == repr(getattr(aside, each.name)), each.name  # all digits, NaN too
    for name in vars(without.point.bare):
        assert np.array_equal(getattr(without.point.bare, name), getattr(aside.point.bare, name), equal_nan=True), name
    assert aside.before is None


def test_hard_ground_narrows_the_band_and_turns_the_verdict() -> None:
    before, hard, easy = rigcalc.size(BASE), rigcalc.size(with_readings(HARD)), rigcalc.size(with_readings(EASY))
    assert easy.sure.chance_works > before.sure.chance_works + 0.2
    assert hard.sure.chance_works < before.sure.chance_works - 0.2
    assert (easy.verdict.judgement, hard.verdict.judgement) == (Judgement.GO, Judgement.DONT)
    for answer in (hard, easy):
        low, middle, high = draft_band(answer)
        low_before, _, high_before = draft_band(before)
        assert high / low < 1 + 0.45 * (high_before / low_before - 1)
        # The likely case lies in the middle of its own band.
        assert float(answer.point.bare.draft) == pytest.approx(middle, rel=0.02)


def test_the_answer_keeps_the_one_without_readings() -> None:
    before, answer = rigcalc.size(BASE), rigcalc.size(with_readings(HARD))
    assert answer.before is not None
    assert answer.before.sure == before.sure
    assert answer.before.verdict == before.verdict
    assert answer.before.point.bare.draft == before.point.bare.draft


def test_a_field_that_pulls_by_the_table_stays_near_it() -> None:
    telling = tells(with_readings(read(load=load_at(1.0), load_of="rated")))
    assert telling is not None
    assert telling.draft["all"].low < 1.0 < telling.draft["all"].high


def test_reverse_answers_ballast_compare_and_points_move_too() -> None:
    hard, easy = with_readings(HARD), with_readings(EASY)
    for question in ("deepest", "fastest", "most tools"):
        ends = [rigcalc.size(rig).furthest(question).value for rig in (hard, BASE, easy)]
        assert ends[0] < ends[1] <= ends[2], question
    drafts = [rigcalc.operating_point(rig).draft.m_as("kN") for rig in (hard, BASE, easy)]
    assert drafts == sorted(drafts, reverse=True)
    pulls = [
        next(job.pull for job in rigcalc.ballast(rig, "this").jobs.jobs if job.name == "this") for rig in (hard, BASE, easy)
    ]
    assert pulls[0] > pulls[1] * 1.1 > pulls[2] * 1.3
    found = compare([hard, easy], ["hard", "easy"])
    assert found.ahead == ("easy",)


def test_a_comparison_counts_what_fails_in_the_field_s_own_draws() -> None:
    hard, before = rigcalc.size(with_readings(HARD)), rigcalc.size(BASE)
    assert failing(hard)["engine"] > failing(before)["engine"] + 0.2
    assert failing(hard)["engine"] == pytest.approx(1 - hard.sure.chance_works, abs=0.1)


def test_a_reading_keeps_the_rig_that_made_it() -> None:
    """The rig file may change: the reading is worked with the tools, weights and power that it was made with."""
    fewer = replaced(with_readings(HARD), {"implement.tools": TOOLS - 3, "tractor.rated_power": "400 hp"})
    kept = read(**HARD | {"made_with": {"tools": TOOLS, "rated_power": str(BASE.tractor.rated_power)}})
    for name, value in vars(made_with(BASE, reading_from(kept))).items():
        if name not in ("front", "rear", "implement_weight", "hitch_load", "covered_width", "maximum_pto"):
            assert getattr(made_with(fewer, reading_from(kept)), name) == value, name
    one, other = (told_of(replaced(rig, {"reading": [kept]})) for rig in (BASE, fewer))
    assert one is not None
    assert other is not None
    middles = [float(quantiles(each.combinations.row, each.weighed.weights, [0.5])[0]) for each in (one, other)]
    assert middles[1] == pytest.approx(middles[0], rel=0.03)


@pytest.mark.parametrize(("fields", "asked", "why"), [
    (("north", "south"), {"name": "north"}, {0: "other_zone", 1: "other_field"}),
    (("south", "north"), None, {0: "other_field", 1: "other_zone"}),  # of one day: the last one's field is asked about
])  # fmt: skip
def test_where_nothing_counts_no_reading_is_said_to(fields: Any, asked: Any, why: dict[int, str]) -> None:
    zoned = {"north": "headland", "south": ""}
    rig = with_readings(*(read(slip="8 percent", field=name, zone=zoned[name]) for name in fields), asked=asked)
    assert told_of(rig) is None
    assert left_out_of(rig, None) == why


def test_other_fields_tools_and_days_are_kept_apart() -> None:
    mixed = with_readings(
        HARD | {"field": "north"}, EASY | {"field": "south", "date": "2026-11-02"},
        HARD | {"field": "north", "made_with": {"tool": "subsoiler_narrow"}},
    )  # fmt: skip
    told = told_of(mixed)
    assert told is not None
    assert (told.field, told.day, told.left_out) == ("north", "2026-11-04", {1: "other_field", 2: "other_tool"})
    south = told_of(replaced(mixed, {"asked.name": "south"}))
    assert south is not None
    assert (south.field, south.day, [each.place for each in south.seen]) == ("south", "2026-11-02", [1])


def test_another_day_is_less_sure_than_the_day_that_was_read() -> None:
    same, other = rigcalc.size(with_readings(HARD)), rigcalc.size(with_readings(HARD, **{"asked.day": "another"}))
    before = rigcalc.size(BASE)
    widths = [band[2] / band[0] for band in map(draft_band, (same, other, before))]
    assert widths == sorted(widths)
    assert widths[1] > 1.15 * widths[0]


def test_the_edges_of_the_picture_are_the_field_s() -> None:
    assert draft_factor_at(in_field(BASE), 0.9) == factor_at(0.9, in_field(BASE).draft_range)
    low, high = (draft_factor_at(in_field(with_readings(HARD)), level) for level in (0.1, 0.9))
    assert 0.8 < low < 1 < high < 1.25


def test_seeds_give_other_draws_of_the_same_field() -> None:
    one, other = (rigcalc.size(with_readings(HARD), seed=seed) for seed in (0, 1))
    assert draft_band(one) != draft_band(other)
    assert draft_band(one) == pytest.approx(draft_band(other), rel=0.01)


def test_readings_that_nothing_can_give_are_refused_by_name() -> None:
    heavy = read(slip="10 percent", depth="50 in", made_with={"tools": 150}, date="2026-11-05")
    with pytest.raises(InputError, match=r"reading 2 \(2026-11-05\)"):
        rigcalc.size(with_readings(HARD, heavy))
    rigcalc.size(with_readings(HARD, heavy | {"set_aside": "wrong tool in the file"}))


# --- which number told what --------------------------------------------------------------------------------------------


def test_load_tells_draft_and_what_is_told_together_is_narrower() -> None:
    telling = tells(with_readings(HARD | {"slip": "9 percent", "fuel_rate": "24 gal/h"}))
    assert telling is not None
    assert set(telling.draft) == {"before", "slip", "load", "fuel", "all"}
    widths = {name: span.width for name, span in telling.draft.items()}
    assert widths["all"] < min(widths["slip"], widths["load"], widths["fuel"])
    assert max(widths["slip"], widths["load"], widths["fuel"]) < widths["before"]
    assert set(telling.monitor) == {"load", "fuel"}


def test_slip_tells_soil_strength_where_a_load_cell_tells_draft() -> None:
    pull = read(pull="16000 lbf", pull_error="1 percent")
    firm, soft = (tells(with_readings(pull | slip)) for slip in ({"slip": "4 percent"}, {"slip": "20 percent"}))
    assert firm is not None
    assert soft is not None
    assert soft.cone["all"].middle < firm.cone["all"].middle - 0.02
    assert soft.draft["all"].width == pytest.approx(firm.draft["all"].width, rel=0.03)


def test_contradictions_are_named_and_still_count() -> None:
    low_fuel = HARD | {"fuel_rate": "1 gal/h"}
    telling = tells(with_readings(low_fuel))
    assert telling is not None
    assert [(found.kind, found.why) for found in telling.contradictions] == [("fuel", "under_idle")]
    assert any("fuel" in each.numbers for each in telling.told.seen)
    telling = tells(with_readings(read(pull="90000 lbf", load="90 percent", load_of="available")))
    assert telling is not None
    assert ("pull", "beyond_grip") in [(found.kind, found.why) for found in telling.contradictions]
    same = [HARD | {"depth": f"{12 + place / 10} in"} for place in range(3)]
    telling = tells(with_readings(*same, read(load=load_at(0.4), load_of="rated")))
    assert telling is not None
    assert [(found.place, found.kind, found.why) for found in telling.contradictions] == [(3, "load", "far_off")]
    assert telling.contradictions[0].off < 0
    assert telling.told.misfits == ((3, "load"),)
    two = tells(with_readings(same[0], read(load=load_at(0.4), load_of="rated")))
    assert two is not None
    assert [found.place for found in two.contradictions] == [0, 1]  # nobody can say which


def test_readings_that_go_together_are_no_contradiction() -> None:
    telling = tells(with_readings(HARD, HARD | {"depth": "11 in", "load": load_at(1.2, 27.94)}))
    assert telling is not None
    assert telling.contradictions == ()


def test_numbers_that_can_t_both_be_stand_out_in_the_answer() -> None:
    odd = rigcalc.size(with_readings(HARD | {"fuel_rate": "5 gal/h", "slip": "9 percent"}))
    assert (0, "fuel") in odd.bare_rig.told.misfits
    assert "reading 1" in str(rigcalc.in_words(odd))


# --- what to read next, and whether it was said right ------------------------------------------------------------------


def test_the_first_reading_tells_most_and_sure_fields_need_none() -> None:
    first = next_reading(BASE)
    assert first.stop is None
    assert first.candidates[0].leaves < 0.6
    assert [each.leaves for each in first.candidates] == sorted(each.leaves for each in first.candidates)
    later = next_reading(with_readings(read(load=load_at(1.0), load_of="rated")))
    assert later.candidates[0].leaves > first.candidates[0].leaves + 0.15
    assert later.width < first.width
    assert next_reading(with_readings(EASY, **{"work.depth": "8 in"})).stop == "sure"


def test_what_a_reading_is_said_to_leave_is_about_what_it_leaves() -> None:
    same = next(each for each in next_reading(BASE).candidates if each.name == "same" and each.kinds == ("load",))
    job = BASE.work
    point = solve(in_field(BASE), want=("engine_share",))
    load = f"{100 * float(point.engine_share):.4f} percent"
    made = read(depth=str(job.depth), speed=str(job.speed), depth_behind=1, load=load, load_of="rated")
    (low, _, high), (low_after, _, high_after) = (draft_band(rigcalc.size(rig)) for rig in (BASE, with_readings(made)))
    assert np.log(high_after / low_after) / np.log(high / low) == pytest.approx(same.leaves, abs=0.1)


def test_foretold_bands_hold_the_number_and_narrow_with_readings() -> None:
    new = reading_from(read(load=load_at(1.25), load_of="rated", slip="9 percent", depth="12.5 in"))
    by_table, by_field = foretold(BASE, new), foretold(with_readings(HARD), new)
    assert set(by_table) == {"slip", "load"}
    assert by_field["load"].width - 1 < 0.45 * (by_table["load"].width - 1)
    assert by_field["load"].low < 1.25 * 0.9 * by_table["load"].middle < by_field["load"].high * 1.2


def test_the_record_counts_what_lay_inside_and_says_where_it_is_few() -> None:
    said = {"said_load": "80 to 90 percent", "said_slip": "5 to any percent"}
    rig = with_readings(
        read(load="85 percent", load_of="rated", slip="7 percent", **said),
        read(load="95 percent", load_of="rated", slip="4 percent", depth="13 in", **said),
        read(load="95 percent", load_of="rated", depth="14 in"),
        read(load="95 percent", load_of="rated", depth="15 in", set_aside="no", **said),
    )
    found = record(rig)
    assert [(each.place, each.kind, each.inside) for each in found.kept] == [
        (0, "slip", True), (0, "load", True), (1, "slip", False), (1, "load", False)]  # fmt: skip
    assert (found.inside, found.unsaid, found.few) == (2, 1, True)
    assert not record(replaced(rig, {"reading": [read(load="85 percent", load_of="rated", depth=f"{place} in", **said)
                                                 for place in range(8, 18)]})).few  # fmt: skip


@pytest.mark.parametrize("kind", ["slip", "load", "fuel", "pull"])
def test_what_was_said_is_written_so_that_it_is_read_again(kind: str) -> None:
    for span in (Span(0.0512, 0.1, 0.25), Span(0.0512, 0.1, float("inf")), Span(53.12, 60.0, 71.0)):
        entry = {f"said_{kind}": said_entry(kind, span)}
        low, high = reading_from(HARD | {"slip": "9 percent"} | entry).said(kind) or (0, 0)
        assert (low, high) == (pytest.approx(span.low, abs=1e-4), pytest.approx(span.high, abs=1e-4))


def test_without_a_reading_nothing_is_told() -> None:
    assert tells(BASE) is None
    assert tells(with_readings(HARD | {"set_aside": "why"})) is None


def test_a_held_field_isn_t_mixed_up_with_another() -> None:
    one, other = with_readings(HARD), with_readings(EASY)
    for _ in range(2):
        assert in_field(one).told is told_of(one)
        assert told_of(one) is not told_of(other)
    assert told_of(replaced(one, {"work.depth": "9 in"})) is told_of(one)
    assert replace(in_field(one), depth=10.0).told is told_of(one)


def test_a_load_of_what_there_is_and_one_of_rated_power_are_told_apart() -> None:
    b = in_field(BASE)
    assert b.maximum_pto > 1.05 * b.rated_pto  # at rated speed all of the maximum is there
    rated = told_of(with_readings(read(load="100 percent", load_of="rated")))
    same = told_of(with_readings(read(load=f"{100 * b.rated_pto / b.maximum_pto:.9f} percent", load_of="available")))
    more = told_of(with_readings(read(load="100 percent", load_of="available")))
    assert rated is not None
    assert same is not None
    assert more is not None
    assert same.likely.row == pytest.approx(rated.likely.row, rel=1e-3)
    assert more.likely.row > 1.03 * rated.likely.row


def test_depth_that_was_dug_out_more_often_and_engine_speed_come_into_a_reading() -> None:
    few, many = (seen_of(BASE, reading_from(HARD | {"depth_behind": count}), 0).spread for count in (1, 16))
    assert few == pytest.approx(np.hypot(0.06, 2 / 30.48))
    assert many == pytest.approx(np.hypot(0.06, 0.5 / 30.48))
    assert BASE.gears is not None
    assert BASE.gears.rated_speed is not None
    slow = reading_from(HARD | {"engine_speed": f"{0.8 * BASE.gears.rated_speed.to('rpm')} rpm"})
    assert made_with(BASE, slow).engine_speed_share == pytest.approx(0.8)


def test_an_engine_that_turns_a_little_over_its_rated_speed_is_taken_at_that_speed() -> None:
    """With less than full load a governor lets it turn faster: a display shows so in most work."""
    rated = BASE.gears.rated_speed.to("rpm")
    fast = [{**HARD, "engine_speed": f"{share * rated:g} rpm"} for share in (1.05, 1.15)]
    rig = replaced(BASE, {"reading": fast})
    assert [made_with(BASE, each).engine_speed_share for each in rig.reading] == [1.0, 1.0]
    with pytest.raises(InputError, match=r"1\.15 times it"):
        replaced(BASE, {"reading": [{**HARD, "engine_speed": f"{1.16 * rated:g} rpm"}]})


def test_torque_stands_for_a_load_in_every_answer() -> None:
    """As a share of the most that the engine gives: at full load and rated speed one over one and the torque rise."""
    b = bare(BASE)
    all_of_it = 1 / (b.engine_speed_share * max(1 + b.torque_rise, b.maximum_pto / b.rated_pto / b.maximum_power_speed))
    shown = {"rated": 0.8, "torque": 0.8 * all_of_it}
    drafts = {}
    for kind, load in shown.items():
        reading = {"date": "2026-11-04", "depth": "12 in", "speed": "5 mph", "load": f"{100 * load} percent", "load_of": kind}
        told = tells(replaced(BASE, {"reading": [reading]}))
        drafts[kind] = told.draft["all"]
        assert told.monitor["load"].low < 1 < told.monitor["load"].high
    assert drafts["torque"].middle == pytest.approx(drafts["rated"].middle, rel=0.03)
    assert drafts["torque"].width > 1.05 * drafts["rated"].width
