"""The real day: its parts add up to the clock, each does what it is named for, and it lands where operators say it does."""

import pytest

from rigcalc import season
from rigcalc.core.errors import InputError
from rigcalc.core.units import factor
from rigcalc.models import demo_rig, replaced, size
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import rig_from
from rigcalc.models.season.plan import choice

PLAN = {"start": "1 Oct", "by": "15 Nov"}
TRACKS = {"kind": "track", "tracks": 2, "track_width": "30 in", "contact_length": "2.2 m"}
# The unbranded rig that common practice is told of: see tests/test_common_practice.py.
TOLD_OF = {
    "tractor": {
        "drive": "track", "rated_power": "620 hp", "power_rating": "net engine", "front_axle_mass": "29500 lb",
        "rear_axle_mass": "25500 lb", "wheelbase": "4 m", "drawbar_height": "20 in", "fuel_tank": "400 gal",
        "front": TRACKS, "rear": TRACKS,
    },
    "implement": {"tool": "chisel_straight", "tools": 19, "spacing": "14.5263 in", "mass": "16000 lb", "hitch_load": "3000 lbf",
                  "field_efficiency": "83 percent"},
    "ground": {"texture": "silt loam", "surface": "firm"},
    "work": {"depth": "17 in", "speed": "6.5 mph"},
}  # fmt: skip


def built(rig="articulated", **day):
    """The day of a rig that types no field hours, with these entries of [day]."""
    own = replaced(demo_rig(rig), {"work.hours_per_day": None})
    return season(own, PLAN | {"day": day}).rigs[0].day


def test_the_parts_add_up_to_the_clock():
    day = built()
    assert sum(day.parts.values()) == pytest.approx(day.clock, rel=1e-12)
    assert day.clock == 14.5
    assert day.parts["work"] + day.parts["in_field"] == pytest.approx(day.field)
    assert min(day.parts.values()) > 0


def test_by_hand():
    """Two hours of stops that come with the day; of each field hour 0.1 h of stops: 8 h of clock leave 6 / 1.1."""
    day = built(leave="8:00", home="16:00", meals="1 h", checks="1 h", way="0 h", other="0 h", fill="0 h", move="0 h",
                stops="10 percent")  # fmt: skip
    assert day.field == pytest.approx(6 / 1.1)
    assert day.parts["stops"] == pytest.approx(0.6 / 1.1)


@pytest.mark.parametrize("name", ["meals", "checks", "way", "other"])
def test_an_hour_that_goes_anyway_costs_less_than_an_hour(name):
    """What stops with the work stops less when there is less of it."""
    now, more = built(**{name: "1 h"}), built(**{name: "2 h"})
    assert 0.8 < now.field - more.field < 1


@pytest.mark.parametrize(("name", "part"), [("fill", "filling"), ("fetch", "filling"), ("move", "moves")])
def test_what_comes_with_the_work(name, part):
    now, more = built(**{name: "30 min"}), built(**{name: "60 min"})
    assert more.parts[part] > now.parts[part] > 0
    assert more.field < now.field


def test_fillings_are_of_what_is_burned():
    day = built()
    tank = demo_rig("articulated").tractor.fuel_tank.to("L") * choice("usable")
    assert day.fills == pytest.approx(day.fuel / tank)
    assert day.parts["filling"] == pytest.approx(choice("fill") * day.fills, rel=0.02)


def test_typed_field_hours_win_and_what_is_left_is_not_explained_away():
    typed = season("articulated", PLAN).rigs[0].day
    assert typed.typed
    assert typed.field == 10
    assert typed.built == pytest.approx(built().field)
    assert typed.parts["unexplained"] > 0
    most = season("articulated", PLAN | {"day": {"field_hours": "14 h/day"}}).rigs[0].day
    assert most.parts["all_else"] == pytest.approx(0.5)


def test_the_same_field_hours_give_the_same_day_as_size():
    """One home for a day's work: the season of `size` and this one can't drift apart."""
    day, line = season("articulated", PLAN).rigs[0].day, size("articulated").season
    assert day.area == pytest.approx(line.area_per_day)
    assert day.fuel_parts["field"] == pytest.approx(line.fuel_per_day)


def test_field_efficiency_from_the_row_beside_the_typed_one():
    untyped = demo_rig("articulated").model_dump(exclude_none=True)
    del untyped["implement"]["field_efficiency"]
    row = {"row_length": "2500 ft", "turn_time": "25 s", "overlap": "0 m", "adjust": "0 percent"}
    e = season(rig_from(untyped), PLAN | {"field": row}).rigs[0].day.efficiency
    speed = demo_rig("articulated").work.speed.to("m/s")
    assert e.used == e.built == pytest.approx((762 / speed) / (762 / speed + 25))
    kept = season("articulated", PLAN | {"field": row}).rigs[0].day.efficiency
    assert kept.typed
    assert kept.used == 0.84
    assert kept.built == pytest.approx(e.built)


def test_half_the_overlap_is_half_the_loss():
    untyped = demo_rig("articulated").model_dump(exclude_none=True)
    del untyped["implement"]["field_efficiency"]

    def parts(overlap):
        return season(rig_from(untyped), PLAN | {"field": {"row_length": "800 m", "overlap": overlap}}).rigs[0].day

    assert parts("20 cm").parts["overlap"] / parts("20 cm").field == pytest.approx(
        2 * parts("10 cm").parts["overlap"] / parts("10 cm").field
    )
    assert parts("0 cm").area > parts("20 cm").area
    day = parts("20 cm")
    assert sum(day.parts.values()) == pytest.approx(day.clock)
    assert day.parts["turns"] / (day.field - day.parts["setting"]) == pytest.approx(1 - day.efficiency.row)
    assert day.parts["setting"] / day.field == pytest.approx(choice("adjust"))


def test_steering_decides_the_overlap_unless_it_is_typed():
    untyped = demo_rig("articulated").model_dump(exclude_none=True)
    del untyped["implement"]["field_efficiency"]

    def width(**more):
        return season(rig_from(untyped), PLAN | {"field": {"row_length": "800 m"} | more}).rigs[0].day.efficiency.width

    assert width() == pytest.approx(0.95)
    assert width() < width(steering="satellite") < width(steering="rtk") < 1
    assert width(steering="rtk", overlap="20 cm") == width(overlap="20 cm")
    with pytest.raises(InputError, match="hand"):
        width(steering="luck")


def test_it_lands_where_operators_say():
    """Common practice: from half past six to nine at night such a rig covers about 150 acres and fills up once a day; two do
    about 300; full width and speed without a stop would be a good half more, so that a third or so is lost."""
    rig = rig_from(TOLD_OF)
    answer = season([rig, rig], {"area": "6000 acre", "by": "30 Nov", "days": {"share": "50 percent"}})
    day = answer.rigs[0].day
    assert day.clock == 14.5
    assert 125 < day.area * factor("ha", "acre") < 180
    assert 250 < sum(one.day.area for one in answer.rigs) * factor("ha", "acre") < 360
    assert 0.6 < day.fills < 1.3
    assert 0.3 < day.lost_share < 0.45
    assert 0.25 < 1 - day.field / day.clock < 0.4
    assert answer.finish.needed[1] < 60


def test_idling_and_turning_burn_less_but_count():
    parts = built().fuel_parts
    assert parts["field"] > 20 * parts["idle"] > 0
    assert parts["moves"] > 0


def test_exhaust_fluid_goes_with_all_of_the_days_fuel():
    found = season("articulated", PLAN)
    day = found.rigs[0].day
    assert day.fuel_parts["idle"] > 0
    assert day.def_fluid == pytest.approx(bare(found.rig).def_share * day.fuel)
