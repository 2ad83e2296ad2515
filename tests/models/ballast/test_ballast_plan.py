"""The plan against brute force over every set, its words when none works, and the integer programme for large spaces."""

import itertools

import numpy as np
import pytest
from ballast_rigs import piece, plain
from hypothesis import given, settings
from hypothesis import strategies as st

from rigcalc.core.errors import InputError
from rigcalc.core.units import GRAVITY
from rigcalc.models.ballast import ballast
from rigcalc.models.ballast.at_hand import choices
from rigcalc.models.ballast.limits import weight_limits
from rigcalc.models.ballast.mass_curve import delivery_of
from rigcalc.models.ballast.plan import make_plan
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.statics import roller_shares
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import demo_rig, read_rig, replaced, rig_text
from rigcalc.words.ballast.notes import cautions
from rigcalc.words.ballast.plan import said


def by_hand(rig, plan, soft=True):
    """Every set that passes, worked out one by one from the statics alone: (handled, -delivery, options, worst soft excess).

    Without soft, advice of tables may be passed.
    """
    b = bare(rig)
    length = b.wheelbase
    kinds = []
    for part in rig.ballast:
        most = part.count if part.holds is None else min(part.count, part.holds)
        place = (length if part.axle == "front" else 0) + (part.ahead.to("m") if part.ahead else -part.behind.to("m"))
        kinds.append((part, range(0, most + 1, 2 if part.in_pairs else 1), place))
    limits = weight_limits(rig, b, plan.job.draft_factor)
    passing = []
    for counts in itertools.product(*(range_ for _, range_, _ in kinds)):
        front, rear, handled = b.front_weight / GRAVITY * 1000, b.rear_weight / GRAVITY * 1000, 0.0
        for (part, _, place), count in zip(kinds, counts, strict=True):
            mass = (count - part.on) * part.mass.to("kg")
            front, rear, handled = front + mass * place / length, rear + mass * (1 - place / length), handled + abs(mass)
        if any(limit.excess(front, rear) > 1e-6 for limit in limits if soft or limit.hard):
            continue
        strays = max([limit.excess(front, rear) for limit in limits if not limit.hard] + [0.0])
        p = solve(
            b.at(front_weight=front * GRAVITY / 1000, rear_weight=rear * GRAVITY / 1000), draft_factor=plan.job.draft_factor
        )
        delivery = float(delivery_of(p))
        if delivery >= plan.wanted * (1 - 1e-12):
            passing.append((handled, -delivery, counts, strays))
    return sorted(passing)


weights = st.lists(
    st.tuples(st.sampled_from([40, 45.5, 120, 300]), st.integers(0, 7), st.integers(0, 7), st.sampled_from(["front", "rear"]),
              st.sampled_from(["ahead", "behind"]), st.sampled_from([0.0, 0.4, 1.1]), st.booleans()),
    min_size=1, max_size=3,
)  # fmt: skip


@settings(max_examples=12)
@given(
    weights, st.sampled_from(["four_wheel_drive", "front_wheel_assist"]), st.sampled_from(["this", "full"]),
    st.floats(0.85, 1.3), st.floats(0.3, 0.6), st.sampled_from([None, "18 t", "11500 kg"]),
)  # fmt: skip
def test_chosen_set_is_the_best_of_all(parts, name, job, heavier, share, most):
    entries = []
    for place, (mass, count, on, axle, side, reach, pairs) in enumerate(parts):
        on = min(on, count)
        on -= on % 2 if pairs else 0
        entries.append({"name": f"kind {place}", "mass": f"{mass} kg", "count": count, "on": on, "axle": axle,
                        side: f"{reach} m", "in_pairs": pairs})  # fmt: skip
    total = (22000 if name == "four_wheel_drive" else 12000) * heavier
    changes = {"tractor.front_axle_mass": f"{total * share:.3f} kg", "tractor.rear_axle_mass": f"{total * (1 - share):.3f} kg",
               "ballast": entries}  # fmt: skip
    if most:
        changes["setup"] = {"mass_limit": most}
    rig = replaced(plain(name), changes)
    plan = make_plan(rig, job)
    passing = by_hand(rig, plan)
    if not passing:
        # Then advice gives way: of the sets within every hard limit the one that strays least from it.
        passing = by_hand(rig, plan, soft=False)
        assert plan.works == bool(passing)
        if not passing:
            assert plan.unmet
            assert plan.nearest is not None
            return
        least = min(entry[3] for entry in passing)
        strays = max(check.short for check in plan.bent)
        assert strays == pytest.approx(least, abs=1e-5)
        assert plan.chosen.handled == pytest.approx(min(e[0] for e in passing if e[3] <= least + 1e-8), abs=1e-6)
        assert all(check.holds for check in plan.chosen.checks if check.hard)
        assert plan.runner_up is None
        return
    assert plan.works
    assert plan.bent == ()
    assert plan.chosen.handled == pytest.approx(passing[0][0], abs=1e-6)
    # Of the sets that cost the same, the one that delivers most.
    level = [entry for entry in passing if entry[0] <= passing[0][0] + 1e-6]
    assert plan.chosen.delivery == pytest.approx(max(-entry[1] for entry in level), rel=1e-12)
    if len(passing) > 1:
        assert plan.runner_up.handled == pytest.approx(passing[1][0], abs=1e-6)
    else:
        assert plan.runner_up is None


def large(rig_count=9):
    """A front-wheel assist tractor that needs pieces moved, with a few hundred sets at hand."""
    return replaced(plain("front_wheel_assist"), {"ballast": [
        piece("plates", "45 kg", 18, 12, ahead="1.1 m"),
        piece("wheel weights", "200 kg", rig_count, 2, axle="rear"),
        piece("front wheel weights", "110 kg", 4, 2, in_pairs=True),
    ]})  # fmt: skip


@pytest.mark.parametrize("job", ["full", "this"])
def test_integer_programme_finds_the_same(job):
    walked, solved = make_plan(large(), job), make_plan(large(), job, most_sets=10)
    assert solved.method == "integer_programme"
    assert walked.method == "every_set"
    assert walked.works == solved.works
    if walked.works:
        assert solved.chosen.handled == pytest.approx(walked.chosen.handled, abs=1e-6)
        assert solved.runner_up.handled == pytest.approx(walked.runner_up.handled, abs=1e-6)
    else:
        assert solved.nearest.checks


def test_blocks_do_not_change_the_answer(monkeypatch):
    from rigcalc.models.ballast import search

    whole = make_plan(large(), "full")
    monkeypatch.setattr(search, "INNER", 7)
    parted = make_plan(large(), "full")
    assert [step.after for step in parted.chosen.steps] == [step.after for step in whole.chosen.steps]
    assert parted.runner_up == whole.runner_up


@pytest.mark.parametrize("job", ["light", "this", "full"])
def test_lots_do_not_change_the_answer(job, monkeypatch):
    from rigcalc.models.ballast import search

    whole = make_plan(large(), job)
    monkeypatch.setattr(search, "FIRST", 1)
    parted = make_plan(large(), job)
    assert (parted.chosen, parted.runner_up, parted.nearest) == (whole.chosen, whole.runner_up, whole.nearest)


def test_what_each_piece_does_adds_up():
    plan = make_plan(large(), "full")
    chosen, now = plan.chosen, plan.now
    assert chosen.front_mass - now.front_mass == pytest.approx(sum(step.front for step in chosen.steps))
    assert chosen.rear_mass - now.rear_mass == pytest.approx(sum(step.rear for step in chosen.steps))
    for step in chosen.steps:
        assert step.front + step.rear == pytest.approx(step.change)
    assert all(check.holds for check in chosen.checks)


def test_a_limit_that_no_set_meets_is_named_with_what_is_missing():
    rig = replaced(large(), {"setup": {"mass_limit": "9000 kg"}})
    plan = make_plan(rig, "full")
    assert not plan.works
    kinds = choices(rig)
    lightest = bare(rig).weight / GRAVITY * 1000 - sum(kind.masses[kind.now] - kind.masses.min() for kind in kinds)
    by_name = {unmet.name: unmet for unmet in plan.unmet}
    assert by_name["mass_limit"].alone
    assert by_name["mass_limit"].short == pytest.approx(lightest - 9000, abs=1e-6)
    answer = ballast(rig, "full", units="si")
    assert not answer.works
    assert "can't be met by any set" in said(answer.plan, "si").headline


def test_limits_that_fight_each_other_are_named_together():
    # Each can be met by itself: the light limit by taking plates off, the share by leaving them on.
    rig = replaced(plain("front_wheel_assist", tractor__front_axle_mass="4300 kg", tractor__rear_axle_mass="7900 kg"), {
        "ballast": [piece("plates", "45 kg", 10, 10, ahead="1.1 m")],
        "setup": {"mass_limit": "11900 kg", "front_share_low": "35 percent", "front_share_high": "36 percent"},
    })  # fmt: skip
    plan = make_plan(rig, "full")
    assert not plan.works
    assert {unmet.alone for unmet in plan.unmet} == {False}
    assert {"mass_limit", "front_share_low"} & {unmet.name for unmet in plan.unmet}


def test_a_delivery_that_is_out_of_reach_is_named_with_the_share_that_is_missing():
    # Far too light for the job, and next to nothing at hand.
    rig = replaced(plain("front_wheel_assist", tractor__front_axle_mass="2400 kg", tractor__rear_axle_mass="4600 kg",
                         work__depth="16 in"), {"ballast": [piece("plates", "10 kg", 2, 0)]})  # fmt: skip
    plan = make_plan(rig, "this")
    assert not plan.works
    (unmet,) = (each for each in plan.unmet if each.name == "delivery")
    assert unmet.alone
    assert (unmet.unit, unmet.short) == ("1", pytest.approx(1 - plan.nearest.delivery / plan.wanted, abs=1e-6))
    assert 0 < unmet.short < 1


def test_a_delivery_that_a_limit_forbids_is_named_together_with_it():
    # The plates would bring the mass, but all of it on the front, whose share may not grow.
    rig = replaced(plain("front_wheel_assist", tractor__front_axle_mass="2400 kg", tractor__rear_axle_mass="4600 kg",
                         work__depth="16 in"), {
        "ballast": [piece("plates", "100 kg", 40, 0)],
        "setup": {"front_share_low": "30 percent", "front_share_high": "35 percent"},
    })  # fmt: skip
    plan = make_plan(rig, "this")
    assert not plan.works
    assert not any(each.alone for each in plan.unmet)
    by_name = {each.name: each for each in plan.unmet}
    assert "delivery" in by_name
    assert by_name["delivery"].short == pytest.approx(1 - plan.nearest.delivery / plan.wanted, abs=1e-9)
    for check in plan.nearest.checks:
        assert (check.name in by_name) == (check.hard and not check.holds), check.name
        if check.name in by_name:
            assert (by_name[check.name].unit, by_name[check.name].short) == ("kg", check.short)


def test_steps_that_change_something_come_first_in_the_order_of_the_file():
    pieces = [piece("a", "10 kg", 1, 1), piece("b", "45 kg", 12, 2, ahead="1.1 m"), piece("c", "7 kg", 1, 1),
              piece("d", "150 kg", 6, 0, axle="rear")]  # fmt: skip
    plan = make_plan(replaced(plain("front_wheel_assist"), {"ballast": pieces}), "full")
    names = [step.name for step in plan.chosen.steps]
    moved = [step.name for step in plan.chosen.changes]
    assert moved
    assert moved != sorted(names)[: len(moved)] or len(moved) == 4, "the test needs a first piece that stays"
    assert names == moved + [name for name in "abcd" if name not in moved]
    assert moved == sorted(moved)


def test_nothing_at_hand_is_one_set():
    plan = make_plan(plain(), "full")
    assert plan.sets == 1
    assert plan.works
    assert plan.chosen.changes == ()


def test_liquid_is_a_choice_of_levels_and_never_past_three_quarters():
    rig = replaced(plain(), {"tractor.rear.tyre": {"volume": "700 L", "liquid": "water", "fill": "20 percent"}})
    (kind,) = choices(rig)
    assert kind.options == (0.0, 0.2, 0.4, 0.75)
    # Two tyres of 700 L at 40 percent with water of 8.34 lb/gal.
    assert kind.masses[2] == pytest.approx(2 * 700 * 0.4 * 8.34 * 0.45359237 / 3.785411784)
    assert kind.front == pytest.approx(np.zeros(4))
    assert ballast(rig, "full").liquids[0].mass == pytest.approx(kind.masses[1])


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"ahead": None}, "hung in the air"),
        ({"axle": None}, "hung in the air"),
        ({"behind": "1 m"}, "two places"),
        ({"on": 5, "holds": 4}, "bracket that holds 4"),
        ({"on": 9}, "no more on than there are"),
        ({"on": 3, "in_pairs": True}, "an even number"),
        ({"mass": "45"}, "a number with a unit"),
        ({"mass": "-45 kg"}, "above 0"),
        ({"weight": "45 kg"}, "known key"),
        ({"count": 2.5}, "whole number"),
    ],
)
def test_pieces_that_make_no_sense_are_refused(change, words):
    entry = {**piece("plates", "45 kg", 8, 2), **change}
    with pytest.raises(InputError, match=words):
        replaced(plain(), {"ballast": [{key: value for key, value in entry.items() if value is not None}]})


@pytest.mark.parametrize(
    ("tyre", "words"),
    [
        ({"fill": "120 percent", "volume": "500 L", "liquid": "water"}, "at most 1"),
        ({"fill": "50 percent", "volume": "500 L"}, "without liquid"),
        ({"fill": "50 percent", "liquid": "water"}, "without volume"),
        ({"liquid": "mercury"}, "a liquid of the table"),
        ({"liquid": "calcium_chloride"}, "without a dose"),
        ({"liquid": "water", "dose": "0.3 kg/L"}, "with a dose"),
        ({"liquid": "calcium_chloride", "dose": "0.7 kg/L"}, "goes no further"),
        ({"load_index": 281}, "from 0 to 200"),
        ({"speed_symbol": "Z9"}, "A8"),
        ({"pressures": ["10 psi", "12 psi"]}, "both lists"),
        ({"pressures": ["10 psi", "12 psi"], "loads": ["3000 kg", "2900 kg"]}, "loads that don't rise at row 2"),
        ({"pressures": ["10 psi", "10 psi"], "loads": ["2900 kg", "3000 kg"]}, "pressures that don't rise"),
        ({"pressures": ["10 psi"], "loads": ["2900 kg"]}, "two at least"),
    ],
)
def test_tyres_that_make_no_sense_are_refused(tyre, words):
    with pytest.raises(InputError, match=words):
        replaced(plain(), {"tractor.rear.tyre": tyre})


def test_a_fill_over_three_quarters_is_a_caution():
    rig = replaced(plain(), {"tractor.rear.tyre": {"volume": "700 L", "liquid": "water", "fill": "80 percent"}})
    assert ("overfilled", "rear") in {(note.name, note.axle) for note in ballast(rig, "full").notes}
    rig = replaced(rig, {"tractor.rear.tyre.fill": "75 percent"})
    assert "overfilled" not in {note.name for note in ballast(rig, "full").notes}


def test_unknown_job_and_job_without_pull_are_refused():
    with pytest.raises(InputError, match="one of light, this, full"):
        make_plan(plain(), "heavy")


def test_round_trip_of_every_new_section():
    rig = replaced(plain(), {
        "ballast": [piece("plates \"A\"", "100 lb", 4, 2, ahead="2 ft", holds=4), piece("wheel", "45 kg", 2, axle="rear")],
        "setup": {"hitching": "mounted", "front_suspension": True, "raised_mass": "2 t", "raised_behind": "1.8 m"},
        "scale": {"total": "50000 lb"},
        "gears": {"speeds": ["4 mph", "5 mph"], "names": ["low", "high"], "rated_speed": "2100 rpm"},
        "tractor.rear.tyre": {"load_index": 168, "pressures": ["10 psi", "14 psi"], "loads": ["3 t", "3.6 t"]},
    })  # fmt: skip
    assert read_rig(rig_text(rig)) == rig
    assert "[[ballast]]" in rig_text(rig)


def test_cautions_of_a_liquid_come_with_it_alone():
    water = replaced(plain(), {"tractor.rear.tyre": {"volume": "700 L", "liquid": "water"}})
    brine = replaced(plain(), {"tractor.rear.tyre": {"volume": "700 L", "liquid": "calcium_chloride", "dose": "0.42 kg/L"}})
    washer = replaced(plain(), {"tractor.rear.tyre": {"volume": "700 L", "liquid": "washer_fluid"}})
    texts = [" ".join(cautions(ballast(rig, "full"))) for rig in (water, brine, washer)]
    assert ["eats rims" in text for text in texts] == [False, True, False]
    assert ["Methanol" in text for text in texts] == [False, False, True]
    for text in texts:
        for word in ("stands", "burst", "Duals", "ratings", "tire professional"):
            assert word in text


def test_advice_gives_way_only_among_sets_that_deliver():
    # One rear weight brings the share nearer to its band and still delivers; two would be nearer yet, but too heavy.
    rig = replaced(plain("front_wheel_assist"), {"ballast": [piece("rear weights", "400 kg", 2, axle="rear")]})
    plan = make_plan(rig, "this")
    assert [step.after for step in plan.chosen.steps] == [1.0]
    assert [check.name for check in plan.bent] == ["front_share_high"]
    assert plan.chosen.delivery >= plan.wanted * (1 - 1e-12)


@pytest.mark.parametrize("most", ["9000 kg", "11500 kg"])
def test_the_nearest_set_misses_least_of_all(most):
    rig = replaced(plain("front_wheel_assist"), {
        "ballast": [piece("plates", "45 kg", 6, 4, ahead="1.1 m"), piece("wheel weights", "150 kg", 3, 2, axle="rear")],
        "setup": {"mass_limit": most, "front_share_low": "41 percent", "front_share_high": "43 percent"},
    })  # fmt: skip
    plan = make_plan(rig, "full")
    assert not plan.works
    b, limits, kinds = bare(rig), weight_limits(rig, bare(rig), plan.job.draft_factor), choices(rig)
    now = b.front_weight / GRAVITY * 1000, b.rear_weight / GRAVITY * 1000

    def miss(front, rear):
        there = b.at(front_weight=front * GRAVITY / 1000, rear_weight=rear * GRAVITY / 1000)
        delivery = float(delivery_of(solve(there, draft_factor=plan.job.draft_factor)))
        over = max(limit.excess(front, rear) for limit in limits if limit.hard) / sum(now)
        return max(over, 1 - delivery / plan.wanted, 0.0)

    misses = []
    for places in itertools.product(*(range(len(kind.options)) for kind in kinds)):
        front, rear = (start + sum(getattr(kind, axle)[at] for kind, at in zip(kinds, places, strict=True))
                       for start, axle in zip(now, ("front", "rear"), strict=True))  # fmt: skip
        misses.append(miss(front, rear))
    assert miss(plan.nearest.front_mass, plan.nearest.rear_mass) == pytest.approx(min(misses), abs=2e-9)
    assert max(misses) > min(misses)


def test_two_tracks_stand_on_their_rollers_at_work():
    rig = demo_rig("two_track")
    answer = ballast(rig, "full")
    now = answer.plan.now
    pull = float(solve(bare(rig), draft_factor=answer.plan.job.draft_factor).drawbar_pull)
    front, _ = roller_shares(bare(rig), pull)
    assert now.front_share_pull == pytest.approx(front)
    assert 0 < now.front_share_pull < now.front_share
