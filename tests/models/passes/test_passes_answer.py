"""The answer about fields: hours by hand, the best heading, what turns it, a farm's order, and its two other questions."""

import itertools
import json

import numpy as np
import pytest

from rigcalc import field, in_words, season
from rigcalc.core.errors import InputError
from rigcalc.models import demo_rig, replaced
from rigcalc.models.land.plane import Plane, apart, on_ellipsoid
from rigcalc.models.passes import answer as answer_of
from rigcalc.models.passes.heading import COARSE, LIKE, STEP
from rigcalc.models.passes.order import length_of, ordered
from rigcalc.models.passes.turning import choice, turn_on

PLANE = Plane(-121.0, -47.0)
RIG = replaced(demo_rig("articulated"), {"implement.tools": 20, "implement.spacing": "0.5 m", "work.speed": "9 km/h"})  # 10 m
PLAIN = {"rounds": 2, "overlap": "0 m", "turn_time": "20 s"}


def geojson(*shapes, names=()):
    """Fields of positions in metres on one plane."""
    features = []
    for at, shape in enumerate(shapes):
        lon, lat = PLANE.to_degrees(np.array([*shape, shape[0]], float))
        features.append({"type": "Feature", "properties": {"name": names[at] if names else ""}, "geometry": {
            "type": "Polygon", "coordinates": [[[float(x), float(y)] for x, y in zip(lon, lat, strict=True)]]}})  # fmt: skip
    return json.dumps({"type": "FeatureCollection", "features": features}).encode()


def box(wide, high, east=0.0, north=0.0):
    return [(east, north), (east + wide, north), (east + wide, north + high), (east, north + high)]


def test_hours_of_a_rectangle_by_hand():
    """800 by 400 m, 10 m at 9 km/h: 36 passes of 760 m, 4,640 m of rounds, 2.5 m/s; 35 turns, 8 corners, 2 rounds begun."""
    answer = field(RIG, geojson(box(800, 400)), **PLAIN)
    best = answer.fields[0].best
    assert answer.driving.width == pytest.approx(10)
    assert best.heading == pytest.approx(90, abs=0.01)
    assert best.passes == 36
    assert best.turns == 35 + 8 + 2
    seconds = (36 * 760 + 4640) / 2.5 + 45 * 20
    assert best.hours == pytest.approx(seconds / 3600 / (1 - choice("adjust")), rel=1e-4)
    assert sum(best.parts.values()) == pytest.approx(best.hours)
    assert best.parts["turns"] == pytest.approx(45 * 20 / 3600)
    assert answer.efficiency == pytest.approx(32 / (9 * best.hours), rel=1e-4)  # 9 ha/h at full width and speed
    assert answer.area == pytest.approx(32, rel=1e-5)


def test_what_a_rectangle_gives_to_be_typed_is_the_rectangle():
    words = in_words(field(RIG, geojson(box(800, 400)), move="45 min", **PLAIN), "si")
    assert words.to_type[-1] == 'rigcalc ground RIG --field "800 m by 400 m" --headland "20 m"'
    assert 'move = "45 min"' in words.plan


@pytest.mark.parametrize("at", [0, 25, 60, 118.5])
def test_the_best_heading_turns_with_the_field(at):
    angle = np.deg2rad(at)
    turned = np.array(box(700, 250)) @ np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])  # clockwise
    found = field(RIG, geojson(turned), **PLAIN).fields[0]
    assert found.best.heading == pytest.approx((90 + at) % 180, abs=0.05)
    assert found.best.heading == found.sides[0]
    assert found.also["across"].hours > found.best.hours
    assert found.best.hours <= min(way.hours for way in found.ways) * 1.003


def test_a_heading_that_is_asked_for_is_driven_and_set_beside_the_best():
    answer = field(RIG, geojson(box(800, 200)), heading="0 deg", **PLAIN)
    one = answer.fields[0]
    assert answer.way_of(one) is one.also["asked"]
    assert answer.hours == one.also["asked"].hours > one.best.hours
    assert one.laid.heading == 0
    assert field(RIG, geojson(box(800, 200)), heading=180, **PLAIN).hours == answer.hours


def test_ways_between_passes_are_driven_at_working_speed():
    """Passes across a slanted side begin farther on than the last one ended: 10 m over, 10 m along, 14.1 m for 10."""
    slanted = field(RIG, geojson([(0, 0), (900, 0), (600, 300), (0, 300)]), heading="90 deg", **PLAIN).fields[0].also["asked"]
    one_side = (slanted.passes - 1) / 2
    assert slanted.travel * 1000 == pytest.approx(one_side * 10 * (np.sqrt(2) - 1), rel=0.1)
    assert slanted.parts["travel"] == pytest.approx(slanted.travel * 1000 / 2.5 / 3600)


def test_slower_turns_ask_for_longer_passes():
    found = [field(RIG, geojson(box(800, 400)), **{**PLAIN, "turn_time": f"{s} s"}).fields[0] for s in (5, 60)]
    more = [one.also["north"].hours - one.best.hours for one in found]
    assert more[1] > more[0]
    assert found[1].best.hours > found[0].best.hours


def test_wider_tool_fewer_hours_and_overlap_costs():
    narrow = replaced(RIG, {"implement.tools": 10})
    shape = geojson(box(600, 500))
    wide, half, lapped = (
        field(rig, shape, **PLAIN | more) for rig, more in ((RIG, {}), (narrow, {}), (RIG, {"overlap": "1 m"}))
    )
    assert wide.hours < half.hours
    assert lapped.hours > wide.hours
    assert lapped.fields[0].best.lap == pytest.approx(lapped.fields[0].best.passes * 0.1 * 0.56, rel=0.05)


def closed(radius, spacing):
    """Drive the loop turn in small steps: left, right, left again on a circle; give where it ends and how far it reached."""
    swing = np.arccos((2 * radius + spacing) / (4 * radius))
    turn = [(-swing, 1), (np.pi + 2 * swing, -1), (-swing, 1)]
    place, heading, path, length = np.zeros(2), np.pi / 2, [np.zeros(2)], 0.0
    for angle, _ in turn:
        for step in np.full(4000, angle / 4000):
            heading -= step
            place = place + radius * abs(step) * np.array([np.cos(heading + step / 2), np.sin(heading + step / 2)])
            path.append(place)
        length += radius * abs(angle)
    return place, heading, np.array(path), length


@pytest.mark.parametrize(("radius", "spacing"), [(8.0, 10.0), (9.0, 5.0), (6.0, 11.9)])
def test_a_loop_turn_ends_in_the_next_pass(radius, spacing):
    """The circle and the two that touch it, driven in small steps, come out a spacing to the side and face back."""
    place, heading, path, length = closed(radius, spacing)
    found = turn_on(radius, spacing, 10.0)
    assert place == pytest.approx([spacing, 0.0], abs=1e-3)
    assert np.cos(heading) == pytest.approx(0, abs=1e-6)
    assert np.sin(heading) == pytest.approx(-1)
    assert found.length == pytest.approx(length, rel=1e-6)
    assert found.deep == pytest.approx(path[:, 1].max(), abs=1e-3)


def test_turns_meet_where_the_loop_is_no_longer_needed_and_take_what_they_take():
    near, far = turn_on(5.0, 9.999999, 10.0), turn_on(5.0, 10.0, 10.0)
    assert far.length == pytest.approx(5 * np.pi)
    assert near.length == pytest.approx(far.length, rel=1e-3)
    assert near.deep == pytest.approx(far.deep, rel=0.02)
    assert turn_on(5.0, 14.0, 10.0).length == pytest.approx(5 * np.pi + 4)
    assert far.seconds == pytest.approx(5 * np.pi / (choice("turn_speed") / 3.6) + choice("lift"))
    assert far.rounds == np.ceil((5 + choice("behind") + 5) / 10)


def test_a_circle_makes_the_turn_and_the_rounds():
    answer = field(RIG, geojson(box(800, 400)), turn_radius="12 m")
    assert answer.turn_known == "circle"
    need = answer.turn.deep + choice("behind") + 5
    assert answer.driving.rounds == answer.turn.rounds == np.ceil(need / answer.driving.spacing)
    assert answer.driving.turn == answer.turn.seconds
    assert "turn_time" not in answer.taken
    assert answer.judgement == "go"
    tight = field(RIG, geojson(box(800, 400)), turn_radius="12 m", rounds=1)
    assert tight.driving.rounds == 1
    assert tight.cramped
    assert tight.judgement == "try"
    with pytest.raises(InputError, match="turn_radius"):
        field(replaced(RIG, {"implement.tools": 3}), geojson(box(800, 400)), turn_radius="50 m")


def test_when_it_is_no_go():
    small, large = box(200, 35, east=-900), box(800, 400)
    assert field(RIG, geojson(large), **PLAIN).judgement == "go"
    partly = field(RIG, geojson(large, small), **PLAIN)
    assert partly.judgement == "try"
    assert [each.inside.rounds for each in partly.small] == [1]
    assert field(RIG, geojson(box(200, 15)), **PLAIN).judgement == "dont"
    assert field(RIG, geojson(box(200, 15)), **PLAIN | {"rounds": 0}).judgement == "go"
    stuck = field(replaced(RIG, {"work.depth": "30 in"}), geojson(large), **PLAIN)
    assert stuck.judgement == "dont"
    assert stuck.limit


def test_a_field_that_is_there_twice_is_said():
    answer = field(RIG, geojson(box(800, 400), box(400, 400, east=795), box(400, 400, east=1300)), **PLAIN)
    assert [(a, b) for a, b, _ in answer.doubled] == []  # five metres are within what an edge may be off by
    answer = field(RIG, geojson(box(800, 400), box(400, 400, east=780)), **PLAIN)
    assert answer.doubled == ((0, 1, pytest.approx(0.8, rel=1e-3)),)
    answer = field(RIG, geojson(box(800, 400), box(400, 400, east=600), names=("A", "B")), **PLAIN)
    assert answer.doubled == ((0, 1, pytest.approx(8.0, rel=1e-3)),)
    assert answer.judgement == "try"


def test_a_best_heading_that_hangs_on_a_turn_nobody_timed_is_said():
    """A field whose long side is slanted to a long inner edge: short turns ask for one, long ones for the other."""
    for shape in (box(400, 380), [(0, 0), (900, 0), (900, 60), (0, 420)]):
        answer = field(RIG, geojson(shape), rounds=1, overlap="0 m")
        one = answer.fields[0]
        other = [one.best_with(turn, answer.driving.turn) for turn in (12, 45)]
        assert (len(answer.hanging) == 1) == any(way.hours > one.best.hours * (1 + LIKE) for way in other)
    assert not field(RIG, geojson(box(400, 380)), rounds=1, overlap="0 m", turn_time="25 s").hanging


def test_many_fields_are_tried_in_coarser_steps(monkeypatch):
    shape = box(300, 200), box(300, 200, east=400)
    assert field(RIG, geojson(*shape), **PLAIN).step == STEP
    monkeypatch.setattr(answer_of, "MANY", 2)
    assert field(RIG, geojson(shape[0]), **PLAIN).step == STEP
    coarse = field(RIG, geojson(*shape), **PLAIN)
    assert coarse.step == COARSE > STEP
    assert len(coarse.fields[0].ways) < len(field(RIG, geojson(shape[0]), **PLAIN).fields[0].ways) / 2


def test_best_with_another_turn_is_what_that_turn_gives():
    shape = geojson([(0, 0), (900, 0), (900, 60), (0, 420)])
    now, then = (field(RIG, shape, **PLAIN | {"turn_time": f"{s} s"}) for s in (20, 45))
    assert now.fields[0].best_with(45, 20).hours <= then.fields[0].best.hours
    assert now.fields[0].best_with(45, 20).heading == pytest.approx(then.fields[0].best.heading, abs=3)


def test_order_is_the_shortest_of_all_for_a_few():
    """Every order of seven fields tried: the best is found in most cases, and never missed by much."""
    rng = np.random.default_rng(3)
    worse = []
    for _ in range(12):
        middles = np.column_stack([-121 + rng.uniform(0, 0.2, 7), -47 + rng.uniform(0, 0.2, 7)])
        order, way = ordered(middles)
        assert sorted(order) == list(range(7))
        assert order[0] == 0
        place = on_ellipsoid(*middles.T)
        between = apart(place[:, None], place[None])
        assert way == pytest.approx(length_of(between, order))
        best = min(length_of(between, (0, *rest)) for rest in itertools.permutations(range(1, 7)))
        worse.append(way / best)
    assert min(worse) >= 1 - 1e-12
    assert max(worse) < 1.08
    assert np.median(worse) < 1 + 1e-9


def test_crossings_are_taken_out():
    """On a line, begun in its middle, the nearest is never wrong by much; two rows that tempt across are driven one by one."""
    middles = [(-121 + 0.01 * k, -47 + 0.006 * (k % 2)) for k in range(12)]
    order, way = ordered(middles)
    place = on_ellipsoid(*np.array(middles).T)
    between = apart(place[:, None], place[None])
    for one, other in itertools.combinations(range(12), 2):
        turned = (*order[: one + 1], *order[one + 1 : other + 1][::-1], *order[other + 1 :])
        assert length_of(between, turned) >= way - 1e-9


def test_one_field_is_an_order_of_one():
    assert ordered([(-121.0, -47.0)]) == ((0,), 0.0)


@pytest.mark.parametrize(("shape", "more"), [(box(800, 400), PLAIN), ([(0, 0), (900, 0), (300, 500)], {}),
                                              (box(600, 300), {"turn_radius": "9 m", "steering": "rtk"})])  # fmt: skip
def test_the_season_keeps_what_the_shape_keeps(shape, more, tmp_path):
    """The plan that is written makes the season's own built-up field efficiency that of these fields."""
    untyped = replaced(RIG, {"implement.field_efficiency": None})
    answer = field(untyped, geojson(shape), **more)
    plan = tmp_path / "season.toml"
    plan.write_text(in_words(answer, "si").plan)
    found = season(untyped, str(plan))
    assert found.rigs[0].day.efficiency.built == pytest.approx(answer.efficiency, rel=2e-3)
    assert found.area == pytest.approx(answer.area, rel=1e-3)


@pytest.mark.parametrize(
    ("options", "places"),
    [
        (
            {"turn_time": "-5 s", "overlap": "8 kg", "rounds": 99, "steering": "x"},
            ["turn_time", "overlap", "rounds", "steering"],
        ),
        ({"turn_time": "20 s", "turn_radius": "9 m"}, ["turn_time"]),
        ({"heading": "north", "move": "13 h", "rounds": True}, ["heading", "move", "rounds"]),
        ({"heading": float("nan")}, ["heading"]),
        ({"heading": 400}, ["heading"]),
        ({"rounds": 1.5}, ["rounds"]),
        ({"overlap": "6 m"}, ["overlap"]),
        ({"boundary": 7}, ["BOUNDARY"]),
        ({"boundary": "nowhere.geojson", "rig": "no_such_rig", "turn_time": "x"}, ["turn_time", "BOUNDARY", "rig file"]),
    ],
)
def test_every_fault_at_once(options, places):
    options = dict(options)
    rig, boundary = options.pop("rig", RIG), options.pop("boundary", geojson(box(800, 400)))
    with pytest.raises(InputError) as caught:
        field(rig, boundary, **options)
    assert {fault.where for fault in caught.value.faults} == set(places)


def test_progress_is_told_and_may_stop():
    told = []
    field(RIG, "demo_farm", progress=told.append)
    assert told == pytest.approx([k / 6 for k in range(1, 7)])

    def stop(_share):
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        field(RIG, "demo_farm", progress=stop)


def test_without_the_extra_it_says_what_to_install(monkeypatch):
    import sys

    monkeypatch.setitem(sys.modules, "shapely", None)
    with pytest.raises(InputError, match=r"pip install 'rigcalc\[fields\]'"):
        field(RIG, geojson(box(800, 400)))
