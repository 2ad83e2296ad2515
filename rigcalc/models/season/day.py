"""The real day: from the hours of the clock to field hours and area, with a name for every part that is lost, and the fuel.

A clock day runs from setting out to coming home. Field hours are those in the field with the tool at work or turning; field
efficiency says what is kept of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from rigcalc.equations.day import field_efficiency_of_parts, field_hours_of_day, share_in_the_row
from rigcalc.models.machine.day import field_day
from rigcalc.models.machine.engine import burn
from rigcalc.models.machine.operating_point import Point, solve
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.measure import Measure
from rigcalc.models.rig.rig import Rig
from rigcalc.models.season.plan import Plan, choice

FIXED = ("meals", "checks", "way", "other")
WITH_ENGINE = ("checks", "filling", "stops")  # parts of a day that the engine idles through for a share of the time
_OF_SEASONS = frozenset({"breakdown_hours", "repair_hours", "helper_hours"})  # entries of [day] that no day is built from


@dataclass(frozen=True)
class Efficiency:
    """Field efficiency as a decimal. used: the one that counts; built: from row, turns and overlap, None where no row is known;
    typed: whether used stands in the rig file. width, row, kept: its parts, None without a row."""

    used: float
    built: float | None
    typed: bool
    width: float | None = None
    row: float | None = None
    kept: float | None = None


@dataclass(frozen=True)
class RealDay:
    """One rig's day, bare: hours a day, ha, L. parts: name -> hours, in the order of the bar; they add up to `clock`.

    field: field hours; built: those that the parts leave, the same where none are typed. fuel_parts: name -> L. fills: fillings
    of the tank, None where it isn't known. full: ha at full width and speed in all the hours of the clock.
    """

    clock: float
    field: float
    built: float
    typed: bool
    parts: dict[str, float]
    efficiency: Efficiency
    area: float
    full: float
    fuel_parts: dict[str, float]
    def_fluid: float
    fills: float | None
    people: int = 1
    each: float = 0.0  # h a day of the one who has most, hand-overs on both sides of it
    helper: float = 0.0  # h a day of somebody who fuels at the field

    @property
    def fuel(self) -> float:
        """Fuel of the whole day, L."""
        return sum(self.fuel_parts.values())

    @property
    def lost_share(self) -> float:
        """Share of the clock day's hours at full width and speed that doesn't come out as area."""
        return 1 - self.area / self.full


@dataclass(frozen=True)
class Hours:
    """What a day's field hours hang on, bare: h/day, and what is lost with each field hour at a field capacity and a burn."""

    clock: float
    fixed: dict[str, float]
    stops: float
    per_fill: float  # h for each tank
    tank: float | None  # L that are burned before it is filled
    per_move: float  # h
    field_area: float  # ha
    typed: float | None
    people: int
    each: float  # h a day of one person
    helper: float  # h of a helper for each tank

    def lost(self, capacity: Any, burned: Any) -> dict[str, Any]:
        """Give name -> hours lost for each field hour, at ha/h and L/h; numbers or arrays."""
        filling = burned / self.tank * self.per_fill if self.tank else 0 * capacity
        return {"filling": filling, "moves": capacity / self.field_area * self.per_move, "stops": self.stops + 0 * capacity}

    def field_hours(self, capacity: Any, burned: Any) -> Any:
        """Give field hours a day: those typed, or what the clock leaves; never below nothing."""
        if self.typed is not None:
            return self.typed + 0 * capacity
        return self.built(capacity, burned)

    def built(self, capacity: Any, burned: Any) -> Any:
        """Give what the clock leaves, typed or not."""
        made = field_hours_of_day.bare(self.clock, sum(self.fixed.values()), sum(self.lost(capacity, burned).values()))
        return made * (made > 0)


def stated_hours(rig: Rig, plan: Plan) -> Measure | None:
    """Give the field hours that count as typed: the plan's, or the rig file's where no part of the day is typed."""
    typed = plan.day
    return typed.field_hours or (None if typed.model_fields_set - _OF_SEASONS else rig.work.hours_per_day)


def hours_of(rig: Rig, plan: Plan) -> Hours:
    """Put together what the plan says of a day with one rig, and what is taken where it says nothing."""
    typed, stated = plan.day, stated_hours(rig, plan)

    def hours(name: str) -> float:
        measure = getattr(typed, name)
        return float(measure.to("h")) if measure is not None else choice(name)

    clock = typed.comes_home - typed.leaves
    if stated is not None and stated.to("h/day") > clock:  # round the clock, with people who take turns
        clock = 24.0
    tank = rig.tractor.fuel_tank.to("L") * choice("usable") if rig.tractor.fuel_tank else None
    fixed, each = {name: hours(name) for name in FIXED}, clock
    if typed.people > 1:  # who is off eats, and the rig goes on
        turns = typed.people if clock >= 24 else typed.people - 1
        fixed["hand_over"] = turns * hours("hand_over")
        del fixed["meals"]
        each = (clock + fixed["hand_over"]) / typed.people
    per_fill = hours("fill") + hours("fetch")
    if typed.fuel_helper and tank is not None:  # never longer than filling it oneself
        pumping = typed.pumping.to("h") if typed.pumping is not None else tank / 60 / choice("pump_rate")
        per_fill = min(hours("fill"), pumping)
    return Hours(
        clock=clock,
        fixed=fixed,
        stops=typed.stops.to("1") if typed.stops is not None else choice("stops"),
        per_fill=per_fill,
        tank=tank,
        per_move=hours("move"),
        field_area=typed.field_area.to("ha") if typed.field_area is not None else choice("field_area"),
        typed=None if stated is None else stated.to("h/day"),
        people=typed.people,
        each=each,
        helper=hours("helper_hours") if typed.fuel_helper else 0.0,
    )


def efficiency_of(rig: Rig, plan: Plan, width: float, speed: float) -> Efficiency:
    """Give the field efficiency that counts: typed in the rig file, built from the row, or the tool's usual one. m, km/h."""
    own, field = rig.implement.field_efficiency.to("1"), plan.field
    typed = "field_efficiency" in rig.implement.model_fields_set
    if field.row_length is None:
        return Efficiency(own, None, typed)
    by_steering = {"hand": choice("overlap") * width, "satellite": choice("satellite"), "rtk": choice("rtk")}
    overlap = field.overlap.to("m") if field.overlap is not None else by_steering[field.steering]
    kept = 1 - (field.adjust.to("1") if field.adjust is not None else choice("adjust"))
    turn = field.turn_time.to("s") if field.turn_time is not None else choice("turn")
    row = float(share_in_the_row.bare(field.row_length.to("m"), speed / 3.6, turn))
    across = max(1 - overlap / width, 0.0)
    built = float(field_efficiency_of_parts.bare(across, row, kept))
    return Efficiency(own if typed else built, built, typed, across, row, kept)


def real_day(b: BareRig, rig: Rig, plan: Plan) -> RealDay:
    """Build one rig's day in the likely case. b: the rig as bare numbers."""
    efficiency = efficiency_of(rig, plan, float(solve(b, want=("width",)).width), float(b.speed))
    b = b.at(field_efficiency=efficiency.used)
    point = solve(b, want=("field_capacity", "mean_fuel_rate", "def_rate"))
    return _day(b, rig, hours_of(rig, plan), efficiency, point)


def road_burn(b: BareRig) -> float:
    """Give the fuel burned on the road between fields, L/h."""
    return float(burn(b, choice("road_load"), b.engine_speed_share))


def burned_an_hour(b: BareRig, hours: Hours, capacity: Any, in_field: Any) -> Any:
    """Give the fuel that goes with each field hour, moves with it, L/h."""
    return in_field + capacity / hours.field_area * hours.per_move * road_burn(b)


def _day(b: BareRig, rig: Rig, hours: Hours, efficiency: Efficiency, point: Point) -> RealDay:
    capacity = float(point.field_capacity)
    burned = float(burned_an_hour(b, hours, capacity, float(point.mean_fuel_rate)))
    field, built = float(hours.field_hours(capacity, burned)), float(hours.built(capacity, burned))
    lost = {name: float(share) * field for name, share in hours.lost(capacity, burned).items()}
    rest = {**lost, **hours.fixed}
    over = hours.clock - field - sum(rest.values())
    if over < -1e-9:  # more field hours typed than the parts leave: they can't be told apart
        rest = {"all_else": hours.clock - field}
    elif over > 1e-9:
        rest["unexplained"] = over
    work = field_day(rig, point, field)
    idle = choice("idle_fuel") * float(b.rated_pto) * choice("idle_share")
    standing = sum(rest.get(name, 0.0) for name in WITH_ENGINE)
    fuel = {"field": work.fuel, "moves": rest.get("moves", 0.0) * road_burn(b), "idle": standing * idle}
    total = sum(fuel.values())
    return RealDay(
        clock=hours.clock,
        field=field,
        built=built,
        typed=hours.typed is not None,
        parts={**_in_field(field, efficiency), **rest},
        efficiency=efficiency,
        area=work.area,
        full=capacity / efficiency.used * hours.clock,
        fuel_parts=fuel,
        def_fluid=float(b.def_share) * total,
        fills=total / hours.tank if hours.tank else None,
        people=hours.people,
        each=hours.each,
        helper=hours.helper * total / hours.tank if hours.tank else 0.0,
    )


def _in_field(field: float, e: Efficiency) -> dict[str, float]:
    """Part the field hours: at full width, overlap, turns, setting; turns and overlap in one where the row isn't known."""
    if e.built is None or e.typed or e.row is None or e.kept is None or e.width is None:
        return {"work": field * e.used, "in_field": field * (1 - e.used)}
    in_row = field * e.kept * e.row
    return {"work": in_row * e.width, "overlap": in_row * (1 - e.width), "turns": field * e.kept * (1 - e.row),
            "setting": field * (1 - e.kept)}  # fmt: skip
