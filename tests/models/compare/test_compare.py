"""Which one, why, and whether it matters: from rigs that differ in one known thing, and from answers made by hand."""

import dataclasses
import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from known_rigs import KNOWN_RIGS, known_path, known_rig

import rigcalc
from rigcalc.core.errors import InputError
from rigcalc.models import replaced, size
from rigcalc.models.compare import Outcome, compare, variations
from rigcalc.models.compare.alike import alike
from rigcalc.models.compare.answer import default_names, distinct
from rigcalc.models.compare.choice import NEAR, PARTS, choice
from rigcalc.models.compare.figures import FIGURES, UNITS, figures, first_limit, same
from rigcalc.models.compare.vary import doubtful, varied
from rigcalc.models.machine.draws import draws
from rigcalc.models.rig.changes import typed_changes
from rigcalc.models.rig.file import demo_rig
from rigcalc.models.size.failing import failing, fails_most
from rigcalc.models.size.verdict import Judgement, State, Verdict

LB, HP, FT = 0.45359237, 0.745699871582, 0.3048
BASE = size(known_rig())


def made(judgement, chance, state=State.UNSURE, **figures_of):
    """An answer by hand, and its figures: only what a choice looks at is changed."""
    answer = dataclasses.replace(
        BASE, verdict=Verdict(judgement, state), sure=dataclasses.replace(BASE.sure, chance_works=chance)
    )
    return answer, figures(answer) | figures_of


def chosen(*sides):
    return choice([answer for answer, _ in sides], [each for _, each in sides])


def test_each_is_what_size_says_of_it_with_the_same_draws():
    found = compare([known_rig(name) for name in KNOWN_RIGS], seed=3)
    for side, name in zip(found.rigs, KNOWN_RIGS, strict=True):
        alone = size(known_rig(name), seed=3)
        assert side.answer.sure == alone.sure
        assert side.answer.verdict == alone.verdict
    one, other = draws(0.5, 0.3, 3), draws(0.25, 0.3, 3)
    assert (one.deep == other.deep).all()
    assert (one.cone == other.cone).all()
    assert (one.row.argsort() == other.row.argsort()).all()


def test_figures_by_hand():
    answer = size(known_rig())
    found, p, rig = figures(answer), answer.point.bare, known_rig()
    assert list(found) == [figure.name for figure in FIGURES]
    assert len(UNITS) == len(FIGURES)
    width = rig.implement.tools * rig.implement.spacing.to("m")
    assert found["power_per_tool"] == pytest.approx(float(p.engine_power) / rig.implement.tools)
    assert found["power_per_width"] == pytest.approx(float(p.engine_power) / width)
    # Area: width x speed x field efficiency, by hand in ha/h from m and km/h.
    efficiency = rig.implement.field_efficiency.to("1")
    assert found["field_capacity"] == pytest.approx(width * rig.work.speed.to("km/h") / 10 * efficiency)
    assert found["tractor_mass"] == pytest.approx((27500 + 22500) * LB)
    assert found["rated_power"] == pytest.approx(500 * HP)
    assert found["depth"] == pytest.approx(12 * 2.54)
    assert found["verdict"] == answer.verdict.judgement.value
    assert found["gives_out_first"] == answer.binding.name


def test_what_gives_out_first_is_what_the_verdict_stands_on():
    point = {"implement.point_width": "1 in", "implement.rated_depth": "30 in", "work.depth": "10 in", "implement.tools": 5}
    answer = size(replaced(known_rig(), point))
    assert answer.verdict.state is State.TOO_DEEP
    assert first_limit(answer).name == "critical_depth"
    assert figures(answer)["used_of_it"] == pytest.approx(10 / 6)  # 5 to 7 widths of an inch: 6 in


def test_a_rig_with_itself_does_not_matter():
    for name in KNOWN_RIGS:
        found = compare([known_rig(name)] * 3)
        assert found.choice.outcome is Outcome.SAME
        assert found.choice.parted == ()
        assert found.choice.different_work == ()
        assert [side.name for side in found.rigs] == ["rig 1", "rig 2", "rig 3"]


def test_more_shanks_on_one_tractor_cost_chance_and_cover_more():
    found = compare([varied(known_rig("front_wheel_assist"), each) for each in variations({"tools": ["5", "7", "15"]})])
    chances = [side.figures["chance_works"] for side in found.rigs]
    assert chances == sorted(chances, reverse=True)
    areas = [side.figures["field_capacity"] for side in found.rigs]
    assert areas[1] / areas[0] == pytest.approx(7 / 5)
    assert 0 in found.choice.front
    assert found.choice.different_work == ()


@pytest.mark.parametrize("order", list(itertools.permutations(range(3))))
def test_order_changes_nothing_that_is_said_of_each(order):
    rigs = {"a": known_rig("tracks"), "b": known_rig("four_wheel_drive"),
            "c": replaced(known_rig("four_wheel_drive"), {"work.depth": "15 in"})}  # fmt: skip
    plain = compare(list(rigs.values()), list(rigs))
    names = [list(rigs)[at] for at in order]
    turned = compare([rigs[name] for name in names], names)
    assert {side.name: repr(side.figures) for side in turned.rigs} == {side.name: repr(side.figures) for side in plain.rigs}
    assert set(turned.ahead) == set(plain.ahead)
    assert turned.choice.outcome is plain.choice.outcome
    assert turned.choice.different_work == plain.choice.different_work

    def parted(found):
        return {(part.figure, frozenset(found.rigs[at].name for at in part.first),
                 frozenset(found.rigs[at].name for at in part.last)) for part in found.choice.parted}  # fmt: skip

    assert parted(turned) == parted(plain)


def test_the_best_verdict_leads_whatever_the_chances():
    found = chosen(made(Judgement.TRY, 0.99, State.TOO_DEEP), made(Judgement.GO, 0.86, State.WORKS))
    assert (found.outcome, found.front, found.judgement) == (Outcome.BEST, (1,), Judgement.GO)
    assert found.close == ()  # too deep is no matter of chance


@pytest.mark.parametrize("order", list(itertools.permutations([Judgement.GO, Judgement.TRY, Judgement.DONT], 2)))
def test_go_is_before_try_and_try_before_dont(order):
    found = chosen(*(made(judgement, 0.5) for judgement in order))
    ranks = [Judgement.GO, Judgement.TRY, Judgement.DONT]
    best = min(order, key=ranks.index)
    assert (found.judgement, found.front) == (best, (order.index(best),))


def test_a_verdict_that_hangs_on_the_line_is_called_close():
    found = chosen(made(Judgement.GO, 0.86, State.WORKS), made(Judgement.TRY, 0.84), made(Judgement.TRY, 0.60))
    assert (found.outcome, found.front, found.close) == (Outcome.BEST, (0,), (1,))


@pytest.mark.parametrize(("other", "outcome", "front"), [
    (0.95 - NEAR / 2, Outcome.EVEN, (0, 1)), (0.95 - 2 * NEAR, Outcome.BEST, (0,)), (0.95 + 0.0499, Outcome.EVEN, (0, 1)),
])  # fmt: skip
def test_chances_within_five_of_a_hundred_are_even(other, outcome, front):
    found = chosen(made(Judgement.GO, 0.95, State.WORKS), made(Judgement.GO, other, State.WORKS))
    assert (found.outcome, found.front) == (outcome, front)


def test_all_dont():
    found = chosen(made(Judgement.DONT, 0.1), made(Judgement.DONT, 0.0, State.LITTLE_GRIP))
    assert found.outcome is Outcome.NONE
    assert found.parted == ()


def test_what_parts_even_rigs_needs_three_percent_and_leaves_out_dont():
    def go(area, fuel):
        return made(Judgement.GO, 0.95, State.WORKS, field_capacity=area, fuel_per_area=fuel)

    assert chosen(go(4.0, 20.0), go(4.0 * (1 + PARTS / 2), 20.1)).parted == ()
    found = chosen(go(4.0, 20.0), go(5.0, 20.0), go(5.0, 25.0))
    area, fuel = found.parted
    assert (area.figure, area.first, area.last) == ("field_capacity", (1, 2), (0,))
    assert (fuel.figure, fuel.first, fuel.last) == ("fuel_per_area", (0, 1), (2,))
    (depth,) = chosen(made(Judgement.GO, 0.95, depth=30.0), made(Judgement.GO, 0.95, depth=35.0)).parted
    assert (depth.figure, depth.first, depth.last) == ("depth", (1,), (0,)), "the deeper one is ahead"
    never = made(Judgement.DONT, 0.1, field_capacity=9.0, fuel_per_area=1.0)
    assert chosen(go(4.0, 20.0), never).parted == ()
    nothing = made(Judgement.TRY, 0.5, field_capacity=math.nan, fuel_per_area=None)
    assert chosen(go(4.0, 20.0), nothing).parted == ()


def test_different_work_is_named_and_one_depth_in_two_units_is_one_depth():
    rig = known_rig()
    found = compare([rig, replaced(rig, {"work.depth": "14 in", "ground.surface": "tilled"})])
    assert found.choice.different_work == ("depth", "ground")
    assert compare([rig, replaced(rig, {"work.depth": "30.5 cm"})]).choice.different_work == ()
    for change in ({"ground.grade": "2 deg"}, {"ground.cone_index": "900 kPa"}, {"ground.texture": "clay"}):
        assert compare([rig, replaced(rig, change)]).choice.different_work == ("ground",)


USABLE = st.tuples(st.sampled_from([Judgement.GO, Judgement.TRY]), st.floats(0, 1))


@pytest.mark.slow
@given(st.lists(USABLE, min_size=2, max_size=8))
def test_the_front_holds_the_best_and_nothing_outside_the_doubt(sides):
    found = chosen(*(made(judgement, chance) for judgement, chance in sides))
    assert found.front
    best = max(chance for judgement, chance in sides if judgement is found.judgement)
    for at, (judgement, chance) in enumerate(sides):
        assert (at in found.front) == (judgement is found.judgement and chance >= best - NEAR)
    assert not set(found.front) & set(found.close)


def test_what_cannot_be_pulled_is_the_same_as_what_cannot():
    assert same(math.nan, math.nan)
    assert not same(math.nan, 1.0)
    assert not same(None, 0.0)


def test_variations_change_what_they_name_and_nothing_else():
    rig = known_rig()
    wider = varied(rig, {"tools": "20"})
    assert wider.implement.tools == 20
    assert wider.implement.mass.to("kg") == pytest.approx(rig.implement.mass.to("kg") * 20 / 15, rel=1e-5)
    assert wider.tractor == rig.tractor
    assert varied(rig, {"implement.mass": "5000 kg", "tools": "20"}).implement.mass.text == "5000 kg"  # what is given stays
    assert varied(rig, {"texture": "clay"}).ground.texture == "clay"
    assert varied(rig, {"ground.wheels_follow_in_track": "false"}).ground.wheels_follow_in_track is False
    assert varied(rig, {"tractor.rear.tyres": "2"}).tractor.rear.tyres == 2
    assert varied(rig, {"implement.name": "12"}).implement.name == "12"
    # Both at once: each alone would pass over the other.
    both = varied(rig, {"tractor.rated_power": "700 hp", "tractor.maximum_power": "720 hp"})
    assert both.tractor.rated_power.text == "700 hp"
    assert len(variations({"tools": ["1", "2", "3"], "depth": ["a", "b"]})) == 6
    assert variations({}) == [{}]


@pytest.mark.parametrize("variation", [
    {"colour": "red"}, {"tractor": "x"}, {"tractor.rear": "x"}, {"farm.name": "x"}, {"ballast.0.on": "2"}, {"tools": "many"},
    {"tools": "0"}, {"depth": "12"}, {"implement.colour": "red"}, {"": "x"}, {"..": "x"}, {"texture": "gumbo"},
    {"implement.tools.x": "3"}, {"work.": "3"},
])  # fmt: skip
def test_variations_that_cannot_be(variation):
    with pytest.raises(InputError):
        varied(known_rig(), variation)


def test_every_bad_variation_is_named_at_once():
    with pytest.raises(InputError) as error:
        varied(known_rig(), {"tools": "many", "colour": "red"})
    assert len(error.value.faults) == 2
    assert typed_changes(known_rig(), "work.depth", "14 in") == typed_changes(known_rig(), "depth", "14 in")


def test_names():
    assert default_names(["a/rig.toml", "b/rig.toml", "c.toml", known_rig()]) == ["a/rig.toml", "b/rig.toml", "c", "rig 4"]
    assert default_names(["a/rig.toml", "a/rig.toml"]) == ["rig", "rig"]
    assert distinct(["rig", "rig", " ", "rig (2)"]) == ["rig", "rig (2)", "rig (3)", "rig (2) (2)"]


def test_bad_calls_name_everything_at_once(tmp_path):
    for rigs, names in (("two_track", None), ([known_rig()], None), ([known_rig()] * 9, None), ([known_rig()] * 2, ["one"]),
                        ([known_rig()] * 2, "ab"), ([known_rig()] * 2, [1, 2]), (None, None)):  # fmt: skip
        with pytest.raises(InputError):
            rigcalc.compare(rigs, names)
    broken = tmp_path / "broken.toml"
    broken.write_text(known_path().read_text().replace('depth = "12 in"', 'depth = "12"'))
    with pytest.raises(InputError) as error:
        rigcalc.compare([broken, "no_such_rig", known_rig()], ["my own", "other", "good"], seed=-1)
    places = [fault.where for fault in error.value.faults]
    assert places[0].startswith("my own: work.depth")
    assert places[1].startswith("other: ")
    assert places[-1] == "seed"


def test_what_gives_out_in_most_fields_is_what_the_doubt_is_about():
    rig = replaced(known_rig(), {"tractor.rated_power": "400 hp", "tractor.maximum_power": None})
    answer = size(rig)
    parts = failing(answer)
    assert fails_most(answer) == "engine"
    # Every field in which a limit is passed counts under one limit at least.
    assert max(parts.values()) <= 1 - answer.sure.chance_works + 1e-12 <= sum(parts.values()) + 1e-12
    assert 1 - parts["engine"] - parts.get("grip", 0.0) == pytest.approx(answer.sure.chance_pulls)
    # A shank built for less than the engine gives out before it does: in more fields.
    both = size(replaced(rig, {"implement.rated_power_per_tool": "20 hp"}))
    parts = failing(both)
    assert parts["tool_power"] > parts["engine"] > 0
    assert fails_most(both) == "tool_power"
    assert fails_most(size(replaced(known_rig(), {"implement.tools": 3, "work.depth": "8 in"}))) is None


def test_one_tool_that_runs_in_more_wheel_tracks_pulls_harder_and_why_is_told():
    rigs = [demo_rig("front_wheel_assist"), demo_rig("articulated")]
    behind = [alike(rig, rigs[0], "tool") for rig in rigs]
    found = compare(behind)
    most, least = found.choice.wheel_tracks
    assert (most, least) == (1, 0)
    assert found.rigs[1].figures["draft"] > 1.03 * found.rigs[0].figures["draft"]
    assert found.rigs[1].figures["wheel_tracks"] > found.rigs[0].figures["wheel_tracks"] > 0
    assert compare(behind[::-1]).choice.wheel_tracks == (0, 1)
    assert compare(rigs).choice.wheel_tracks is None  # another tool, another work
    other_depth = replaced(behind[1], {"work.depth": "11 in"})
    assert compare([behind[0], other_depth]).choice.wheel_tracks is None
    other_tool = replaced(behind[1], {"implement.point_width": "3 in"})
    assert compare([behind[0], other_tool]).choice.wheel_tracks is None
    assert compare([behind[0], replaced(behind[0], {"tractor.rear_axle_mass": "15500 lb"})]).choice.wheel_tracks is None


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("9,5 km/h", True), ("9,5 km/h, 11 km/h", True), ("9,5 km/h,11,5 km/h", True), ("5,500 lb, 6,100 lb", True),
        ("9,5, 11", True),
        ("12,14 in", True), ("12, 14 in", False), ("12 in,14 in", False), ("9,5 km/h; 11 km/h", False), ("11,13,15", False),
        ("11, 13, 15", False), ("firm,soft", False), ("710/70R42,650/65R42", False),
    ],
)  # fmt: skip
def test_a_comma_that_may_be_a_decimal_point_is_asked_about(text, asked):
    assert doubtful(text) is asked
