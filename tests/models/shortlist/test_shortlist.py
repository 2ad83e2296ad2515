"""The shortlist: tractors by class stand as their rules say, the smallest is the smallest, and more asked is never less."""

import itertools
import math
import os

import pytest
from known_rigs import known_rig

from rigcalc.core.errors import InputError
from rigcalc.core.tables import table
from rigcalc.models.machine.wetness import Wet
from rigcalc.models.rig.file import demo_rig, replaced
from rigcalc.models.shortlist import DRIVES, shortlist
from rigcalc.models.shortlist.answer import NOTHING, power_of, resized
from rigcalc.models.shortlist.classes import borders, mass, span, weight, with_tractor
from rigcalc.models.shortlist.trial import trial
from rigcalc.models.size.answer import size
from rigcalc.models.size.verdict import GO_FROM, Judgement, State

# The three take a minute: all of them with RIGCALC_LONG=1, one without.
RIGS = ("front_wheel_assist", "articulated", "two_wheel_drive")[: 3 if os.environ.get("RIGCALC_LONG") else 1]
CLASSES = [(row["drive"], row[end]) for row in table("tractor_classes") for end in ("power_from", "power_to")]


def powers(found):
    """Give the powers found, smallest and surest of each drive; infinite where there is none."""
    answers = [answer for fit in found.fits for answer in (fit.smallest, fit.surest)]
    return [math.inf if answer is None else power_of(answer) for answer in answers]


def counts(found):
    """Give how many shanks this tractor takes, at most and for "go"; 0 where none."""
    return [0 if answer is None else answer.rig.implement.tools for answer in (found.widest.widest, found.widest.surest)]


@pytest.mark.parametrize(("drive", "power"), CLASSES, ids=lambda value: str(value))
def test_every_class_stands_at_both_its_ends(drive, power):
    made = with_tractor(demo_rig(), drive, power)
    b = size(made).bare_rig
    assert made.tractor.rated_power.to("kW") == pytest.approx(power)
    assert b.front_weight + b.rear_weight == pytest.approx(mass(drive, power) * 9.80665e-3, rel=1e-3)
    assert (made.tractor.front is None) == (drive == "track" and power < 440)


def test_the_classes_of_a_drive_leave_no_gap():
    for drive in DRIVES:
        rows = [row for row in table("tractor_classes") if row["drive"] == drive]
        assert [row["power_to"] for row in rows[:-1]] == [row["power_from"] for row in rows[1:]]
        assert span(drive) == (rows[0]["power_from"], rows[-1]["power_to"])


@pytest.mark.parametrize(
    ("drive", "pounds", "front"),
    [("2WD", 100 * 1.34102 * 0.9 * 145, 0.25), ("MFWD", 100 * 1.34102 * 0.9 * 130, 0.35), ("4WD", 200 * 1.34102 * 110, 0.53)],
)
def test_weight_and_split_are_those_of_the_printed_advice(drive, pounds, front):
    """145 and 130 lb for each hp at the power take-off, 110 for each of the engine: reference_tables/weight_advice.csv."""
    made = with_tractor(demo_rig(), drive, 200 if drive == "4WD" else 100).tractor
    on = made.front_axle_mass.to("lb"), made.rear_axle_mass.to("lb")
    assert sum(on) == pytest.approx(pounds, rel=1e-3)
    assert on[0] / sum(on) == pytest.approx(front, abs=0.001)


def test_tracks_are_weighed_by_a_rule_of_ours():
    assert weight("track", 200).ours
    assert not any(weight(drive, 200 if drive == "4WD" else 100).ours for drive in ("2WD", "MFWD", "4WD"))
    assert mass("track", 300) == pytest.approx(mass("4WD", 300))


def test_what_belongs_to_the_own_tractor_stays_with_it():
    made = with_tractor(demo_rig(), "MFWD", 120)
    own = demo_rig()
    assert own.ballast
    assert own.gears
    assert own.setup.mass_limit is not None
    assert not made.ballast
    assert made.gears is None
    assert made.setup.mass_limit is None
    assert made.setup.hitching == own.setup.hitching
    assert (made.implement, made.ground, made.work) == (own.implement, own.ground, own.work)


def test_a_mounted_tool_shifts_the_split_of_a_front_wheel_assist():
    mounted = with_tractor(replaced(demo_rig(), {"setup.hitching": "mounted"}), "MFWD", 100).tractor
    assert mounted.front_axle_mass.to("kg") / mass("MFWD", 100) == pytest.approx(0.40, abs=0.001)


@pytest.mark.parametrize(
    ("name", "drive"), [("two_wheel_drive", "MFWD"), ("front_wheel_assist", "2WD"), ("articulated", "track")]
)
def test_the_smallest_is_the_first_that_passes_of_all(name, drive):
    """Against a plain walk over every kilowatt."""
    rig, reserve = demo_rig(name), 0.2
    fit = shortlist(rig, reserve=reserve, drives=[drive]).fits[0]
    low = span(drive)[0]
    walked = next(power for step in range(600) if trial(with_tractor(rig, drive, power := low + step), reserve, 0).fits)
    assert power_of(fit.smallest) == walked
    assert fit.smallest.point.bare.engine_share <= 1 - reserve


@pytest.mark.parametrize("name", RIGS)
def test_what_is_found_keeps_its_word(name):
    """As `size` says of the same tractor: every limit holds, the reserve is left, and "go" is go."""
    found = shortlist(demo_rig(name), reserve=0.15)
    for fit in found.fits:
        if fit.smallest is not None:
            assert fit.smallest.works
            assert fit.smallest.verdict.judgement is not Judgement.DONT
            assert fit.smallest.point.bare.engine_share <= 0.85
        if fit.surest is not None:
            assert fit.surest.verdict.judgement is Judgement.GO
            assert fit.surest.sure.chance_works >= GO_FROM
            assert power_of(fit.surest) >= power_of(fit.smallest)


@pytest.mark.slow
@pytest.mark.parametrize("name", RIGS)
def test_deeper_never_gives_a_smaller_tractor_nor_a_wider_tool(name):
    found = [shortlist(replaced(demo_rig(name), {"work.depth": f"{depth} in"})) for depth in (8, 10, 12, 14)]
    for shallow, deep in itertools.pairwise(found):
        assert all(more >= less for less, more in zip(powers(shallow), powers(deep), strict=True))
        assert all(more <= less for less, more in zip(counts(shallow), counts(deep), strict=True))
    assert powers(found[0]) != powers(found[-1])


@pytest.mark.slow
@pytest.mark.parametrize("name", RIGS)
def test_more_shanks_and_more_speed_never_give_a_smaller_tractor(name):
    rig = demo_rig(name)
    own = rig.implement.tools
    wider = [powers(shortlist(resized(rig, own + more))) for more in (0, 1, 4)]
    faster = [powers(shortlist(replaced(rig, {"work.speed": f"{speed} mph"}))) for speed in (4, 4.7, 5.4)]
    for rows in (wider, faster):
        for less, more in itertools.pairwise(rows):
            assert all(b >= a for a, b in zip(less, more, strict=True))
        assert rows[0] != rows[-1]


@pytest.mark.slow
@pytest.mark.parametrize("name", RIGS)
def test_more_reserve_never_gives_a_smaller_tractor_nor_a_wider_tool(name):
    found = [shortlist(demo_rig(name), reserve=reserve) for reserve in (0.0, 0.15, 0.2, 0.35)]
    for little, much in itertools.pairwise(found):
        assert all(more >= less for less, more in zip(powers(little), powers(much), strict=True))
        assert all(more <= less for less, more in zip(counts(little), counts(much), strict=True))
    assert powers(found[0]) != powers(found[-1])
    assert counts(found[0]) != counts(found[-1])


def test_none_fits_and_what_stops_is_named():
    found = shortlist(replaced(demo_rig("articulated"), {"implement.tools": 60}))
    assert found.best is None
    assert found.judgement is Judgement.DONT
    assert {fit.binds for fit in found.fits} <= {"engine", "grip", "slip", "tipping"}
    assert all(fit.used > 1 for fit in found.fits)
    assert [fit.most_power for fit in found.fits] == [span(drive)[1] for drive in DRIVES]


def test_what_the_tool_itself_forbids_stops_every_tractor():
    found = shortlist(replaced(demo_rig(), {"work.depth": "15 in"}))
    assert found.best is None
    assert {fit.binds for fit in found.fits} == {"tool_depth"}
    assert found.widest.widest is None
    assert found.widest.binds == "tool_depth"


def test_a_chance_too_small_is_no_fit():
    """The tool's rated power is nearly used in the likely case: no tractor helps where the draft is higher."""
    rig = replaced(demo_rig("articulated"), {"work.depth": "14 in", "implement.rated_power_per_tool": "27 hp"})
    fit = shortlist(rig, drives=["track"], reserve=0.0).fits[0]
    assert fit.surest is None
    assert fit.smallest is None or fit.smallest.sure.chance_works < GO_FROM


def test_no_power_mends_a_point_that_works_too_deep():
    found = shortlist("two_track", drives=["track"])
    assert found.fits[0].smallest.verdict.state is State.TOO_DEEP
    assert found.fits[0].surest is None
    assert found.judgement is Judgement.TRY


def test_the_least_of_a_kind_is_called_so():
    fits = {fit.drive: fit for fit in shortlist("two_wheel_drive").fits}
    assert fits["4WD"].is_least
    assert power_of(fits["4WD"].smallest) == borders("4WD")[0]
    assert not fits["2WD"].is_least


def test_the_best_has_the_least_power_of_all():
    found = shortlist("articulated")
    assert found.best.drive == "track"
    assert power_of(found.best.smallest) == min(powers(found))


@pytest.mark.parametrize("name", [*RIGS, "two_track"])
def test_the_widest_holds_and_one_more_does_not(name):
    rig, found = demo_rig(name), shortlist(demo_rig(name), drives=["MFWD"])
    most, surest = counts(found)
    assert trial(resized(rig, most), 0.15, 0).fits
    assert not trial(resized(rig, most + 1), 0.15, 0).fits
    assert surest <= most
    if surest:
        assert trial(resized(rig, surest), 0.15, 0).goes
        assert not trial(resized(rig, surest + 1), 0.15, 0).goes
    assert found.widest.binds == trial(resized(rig, most + 1), 0.15, 0).binds[0]


def test_the_own_tractor_stays_as_it_is_for_the_widest():
    found = shortlist(demo_rig(), drives=["2WD"])
    assert found.widest.widest.rig.tractor == demo_rig().tractor
    assert found.widest.widest.rig.ballast == demo_rig().ballast


def test_a_lower_engine_speed_leaves_less_and_maximum_power_is_no_reserve():
    rig = demo_rig("two_wheel_drive")
    slow = replaced(rig, {"tractor.engine_speed_share": "60 percent"})
    assert counts(shortlist(slow, drives=["2WD"]))[0] < counts(shortlist(rig, drives=["2WD"]))[0]
    bare = replaced(rig, {"tractor.maximum_power": None})
    assert trial(rig, 0.15, 0).load == pytest.approx(trial(bare, 0.15, 0).load)


def test_a_tool_by_its_width_gets_wider_too():
    changes = {"implement.tool": "disk_tandem_primary", "implement.width": "12 ft", "work.depth": "4 in"}
    counted = ("tools", "spacing", "point_width", "rated_power_per_tool", "rated_depth")
    changes |= {f"implement.{entry}": None for entry in counted}
    rig = replaced(demo_rig(), changes)
    found = shortlist(rig, drives=["MFWD"])
    widest = found.widest.widest.rig.implement
    sections, step = widest.width.to("m") / rig.implement.spacing.to("m"), widest.width.to("m") / rig.implement.width.to("m")
    assert step > 1
    assert sections == pytest.approx(round(sections), rel=1e-4)
    assert widest.mass.to("kg") / rig.implement.mass.to("kg") == pytest.approx(step, rel=1e-3)


def test_a_tool_that_nothing_stops_ends_where_no_yard_has_a_wider():
    rig = replaced(demo_rig("two_track"), {"work.depth": "2 in", "implement.mass": "100 kg", "implement.hitch_load": "0 kN"})
    found = shortlist(rig, drives=["track"])
    assert found.widest.widest is not None
    assert found.widest.binds != NOTHING or found.widest.widest.rig.implement.tools == 200


def test_wet_ground_forbids_what_power_would_do():
    wet = shortlist(replaced(known_rig("front_wheel_assist"), {"ground.wetness": "wet"}), drives=["MFWD"])
    dry = shortlist(known_rig("front_wheel_assist"), drives=["MFWD"])
    assert wet.judgement is Judgement.DONT
    assert wet.wet is Wet.WET
    assert dry.wet is None
    assert powers(wet) == powers(dry)


def test_the_same_seed_gives_the_same_list():
    assert powers(shortlist("articulated", seed=3)) == powers(shortlist("articulated", seed=3))


@pytest.mark.parametrize("reserve", ["15 percent", "15 %", "0.15", 0.15, "15,0 percent"])
def test_a_reserve_as_people_write_it(reserve):
    assert shortlist("two_wheel_drive", reserve=reserve, drives=["2WD"]).reserve == pytest.approx(0.15)


@pytest.mark.parametrize(
    "reserve",
    ["15", "-1 percent", "61 percent", "90 percent", "15 hp", "", "lots", "nan", math.nan, math.inf, True, None, [0.1]],
)
def test_a_reserve_that_can_not_be_is_refused(reserve):
    with pytest.raises(InputError, match="reserve"):
        shortlist("two_wheel_drive", reserve=reserve, drives=["2WD"])


def test_every_fault_is_told_at_once():
    with pytest.raises(InputError) as error:
        shortlist("no_such_rig", reserve="lots", drives=["8WD"], seed=-1)
    assert {fault.where for fault in error.value.faults} == {"rig file", "reserve", "drives", "seed"}
    for drives in ("MFWD", [], ["MFWD", "x"], None):
        with pytest.raises(InputError, match="drives"):
            shortlist("two_wheel_drive", drives=drives)


def test_readings_tell_of_no_other_tractor():
    reading = {"date": "2026-11-04", "depth": "10 in", "speed": "5 mph", "slip": "9 percent"}
    read = replaced(demo_rig(), {"reading": [reading], "asked": {"day": "another"}})
    made = with_tractor(read, "MFWD", 120)
    assert not made.reading
    assert made.asked is None
    assert powers(shortlist(read, drives=["MFWD"])) == powers(shortlist(demo_rig(), drives=["MFWD"]))


def test_the_engine_is_counted_without_the_reserve():
    """More than three quarters of the power is taken: enough for all of it, too much where a quarter is to be left."""
    rig = demo_rig("articulated")
    plain, spared = trial(rig, 0.0, 0), trial(rig, 0.25, 0)
    assert 0.75 < plain.load < 1
    assert plain.holds
    assert not spared.holds
    assert spared.binds == ("engine", pytest.approx(plain.load / 0.75))


def test_the_load_is_that_of_rated_power_or_of_what_the_engine_gives_whichever_is_fuller():
    rig = demo_rig("two_wheel_drive")
    strong = trial(replaced(rig, {"tractor.maximum_power": "110 hp"}), 0.15, 0)
    slow = trial(replaced(rig, {"tractor.engine_speed_share": "60 percent"}), 0.15, 0)
    for each, fuller in ((strong, strong.case.point.engine_share), (slow, slow.case.used["engine"])):
        assert each.load == pytest.approx(fuller)
        assert each.load > 1.02 * min(each.case.point.engine_share, each.case.used["engine"])
