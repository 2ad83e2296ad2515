"""A season's plan: what the farm does with its rigs. A TOML file of its own, since several rigs share one season."""

from __future__ import annotations

import copy
import tomllib
from os import PathLike
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationError

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.machine.water import choice as choice
from rigcalc.models.rig.bounds import LARGEST_FILE, too_much, too_much_in
from rigcalc.models.rig.faults import fault_of
from rigcalc.models.rig.measure import Kind, Measure
from rigcalc.models.season.reading_plan import Clock, Day, Latitude, Money, People, PriceFor

MOST_YEARS = 120
MOST_RIGS = 12
MOST_PASSES = 8
Hours = Annotated[Measure, Kind("h", "45 min", least=0, most=12)]
Share = Annotated[Measure, Kind("1", "8 percent", least=0, most=0.9)]
Area = Annotated[Measure, Kind("ha", "3000 acre", above=0, most=1_000_000)]
PriceOfFuel = Annotated[float, BeforeValidator(PriceFor("L", "3.50 per gal"))]
PriceOfHour = Annotated[float, BeforeValidator(PriceFor("h", "25 per h"))]
PriceOfArea = Annotated[float, BeforeValidator(PriceFor("ha", "24 per acre"))]
PriceOfCrop = Annotated[float, BeforeValidator(PriceFor("t", "180 per t"))]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


class Clockwork(_Part):
    """[day]: what the clock day is made of. What isn't typed is taken from the table of choices.

    operators: people who take turns on one rig; fuel_helper: whether somebody comes with a trailer and fuels at the field;
    pumping: what a filling takes then; helper_hours: that person's hours for each filling."""

    leave: Clock | None = None
    home: Clock | None = None
    meals: Hours | None = None
    checks: Hours | None = None
    way: Hours | None = None
    other: Hours | None = None
    fill: Hours | None = None
    fetch: Hours | None = None
    move: Hours | None = None
    field_area: Area | None = None
    stops: Share | None = None
    field_hours: Annotated[Measure, Kind("h/day", "10 h/day", above=0, most=24)] | None = None
    breakdown_hours: Annotated[Measure, Kind("h", "200 h", above=1, most=100_000)] | None = None
    repair_hours: Hours | None = None
    operators: People | None = None
    hand_over: Hours | None = None
    fuel_helper: bool = False
    pumping: Hours | None = None
    helper_hours: Hours | None = None

    @property
    def people(self) -> int:
        """How many take turns on one rig."""
        return self.operators or 1

    @property
    def leaves(self) -> float:
        """Hour at which the day begins."""
        return self.leave if self.leave is not None else choice("leave")

    @property
    def comes_home(self) -> float:
        """Hour at which it ends, from the midnight before it begins; over 24 where people who take turns go on past that."""
        if self.home is not None:
            return self.home + (24.0 if self.people > 1 and self.home <= self.leaves else 0.0)
        if self.people > 1:
            return self.leaves + min(self.people * choice("shift"), 24.0)
        return choice("home")


class Ground(_Part):
    """[field]: what the field efficiency is built from."""

    row_length: Annotated[Measure, Kind("m", "2500 ft", above=5, most=20_000)] | None = None
    turn_time: Annotated[Measure, Kind("s", "25 s", least=0, most=600)] | None = None
    overlap: Annotated[Measure, Kind("m", "8 in", least=0, most=10)] | None = None
    steering: Literal["hand", "satellite", "rtk"] = "hand"
    adjust: Share | None = None


class Fit(_Part):
    """[days]: which days are fit. share: your own, of a middle year; counted: days fit from start to deadline, year by year;
    weather: a file of daily weather from which they are worked out, with what it doesn't say of itself."""

    share: Annotated[Measure, Kind("1", "65 percent", least=0, most=1)] | None = None
    counted: Annotated[tuple[float, ...], Field(min_length=5, max_length=MOST_YEARS)] | None = None
    sundays_off: bool = False
    weather: Annotated[str, Field(min_length=1, max_length=4096)] | None = None
    weather_units: Literal["tenths", "metric", "us"] | None = None
    latitude: Latitude | None = None
    water_left: Annotated[Measure, Kind("1", "50 percent", least=0, most=1)] | None = None


class Later(_Part):
    """[[later]]: a pass that the same people do after this one, before the deadline. wait: days after the pass before it."""

    name: Annotated[str, Field(max_length=60)]
    width: Annotated[Measure, Kind("m", "40 ft", above=0, most=80)]
    speed: Annotated[Measure, Kind("km/h", "7 mph", above=0, most=40)]
    field_efficiency: Annotated[Measure, Kind("1", "80 percent", above=0, most=1)]
    field_hours: Annotated[Measure, Kind("h/day", "10 h/day", above=0, most=24)] | None = None
    wait: Annotated[Measure, Kind("day", "3 day", least=0, most=120)] | None = None


class There(_Part):
    """[[calendar]]: first and last day on which a rig is there, in the order of the rigs; the season's where none is typed."""

    comes: Day | None = None
    goes: Day | None = None


_ShareOfList = Annotated[Measure, Kind("1", "25 percent", least=0, most=2)]


class Prices(_Part):
    """[[money.each]]: what is another rig's alone, in the order of the rigs; what isn't typed is as in [money]."""

    tractor_price: Money | None = None
    tool_price: Money | None = None
    tractor_hours: Annotated[Measure, Kind("h", "500 h", above=0, most=5000)] | None = None
    wear: PriceOfArea | None = None


class Costs(_Part):
    """[money]: prices in whatever you pay with. Nothing is said of money until both prices and the fuel's are typed.

    salvage_, repairs_: share of the list price that is left at the end, and that repairs come to until then."""

    tractor_price: Money | None = None
    tool_price: Money | None = None
    tractor_hours: Annotated[Measure, Kind("h", "500 h", above=0, most=5000)] | None = None
    fuel_price: PriceOfFuel | None = None
    def_price: PriceOfFuel | None = None
    wage: PriceOfHour | None = None
    wear: PriceOfArea | None = None
    hire: PriceOfArea | None = None
    interest: Annotated[Measure, Kind("1", "7 percent", least=0, most=0.5)] | None = None
    years: Annotated[float, Field(gt=0, le=40)] | None = None
    loss_a_day: Annotated[Measure, Kind("1/day", "0.3 percent/day", least=0, most=0.2)] | None = None
    crop_value: PriceOfArea | None = None
    crop_price: PriceOfCrop | None = None
    gain: PriceOfArea | None = None
    # what stands in a table unless somebody knows better
    holding: Annotated[Measure, Kind("1", "1 percent", least=0, most=0.2)] | None = None
    oil: Annotated[Measure, Kind("1", "15 percent", least=0, most=1)] | None = None
    labour_factor: Annotated[float, Field(ge=1, le=3)] | None = None
    price_of_list: Annotated[Measure, Kind("1", "85 percent", above=0, most=1.5)] | None = None
    salvage_tractor: _ShareOfList | None = None
    salvage_tool: _ShareOfList | None = None
    repairs_tractor: _ShareOfList | None = None
    repairs_tool: _ShareOfList | None = None
    each: Annotated[tuple[Prices, ...], Field(max_length=MOST_RIGS)] = ()

    def coefficient(self, name: str) -> float:
        """Give a coefficient as typed, else that of the table of choices."""
        typed: Measure | None = getattr(self, name)
        return float(typed.to("1")) if typed is not None else choice(name)

    def of(self, place: int) -> Costs:
        """Give the costs of the rig at a place: its own prices laid over those of all; beyond those typed, the first's."""
        if not self.each:
            return self
        own = self.each[place if place < len(self.each) else 0].model_dump(exclude_none=True)
        return self.model_copy(update={**own, "each": ()})


class Plan(_Part):
    """A season's plan. Every entry may be left out; what is taken in its place is listed in the answer."""

    area: Area | None = None
    start: Day | None = None
    by: Day | None = None
    day: Clockwork = Clockwork()
    field: Ground = Ground()
    days: Fit = Fit()
    later: Annotated[tuple[Later, ...], Field(max_length=MOST_PASSES)] = ()
    calendar: Annotated[tuple[There, ...], Field(max_length=MOST_RIGS)] = ()
    money: Costs = Costs()

    def calendar_of(self, place: int) -> There:
        """Give the calendar of the rig at a place; beyond those typed, the first's."""
        if not self.calendar:
            return There()
        return self.calendar[place if place < len(self.calendar) else 0]


def plan_from(data: Any) -> Plan:
    """Make a plan of nested dicts, as a plan file holds them. Raises InputError that lists every fault with its key."""
    if isinstance(data, Plan):
        return data
    if not isinstance(data, dict):
        raise InputError([Fault("plan", shown(data), "a Plan, nested dicts, or the path of a plan file", '{"by": "15 Nov"}')])
    if (fault := too_much_in(data)) is not None:
        raise InputError([fault])
    try:
        plan = Plan.model_validate(_as_tuples(data))
    except ValidationError as error:
        entries = error.errors(include_url=False)
        found = [_fault(dict(entry)) for entry in entries]
        try:
            rest = Plan.model_validate(_without(_as_tuples(data), [entry["loc"] for entry in entries]))
            found += _faults_across(rest)
        except ValidationError:  # what is left isn't whole: it can't be looked at together
            pass
        raise InputError(dict.fromkeys(found), title="This plan can't be used as it stands") from None
    if faults := list(_faults_across(plan)):
        raise InputError(faults, title="This plan can't be used as it stands")
    return plan


def load_plan(path: str | PathLike[str]) -> Plan:
    """Read a plan file (TOML). Raises InputError for one that can't be read, and for every entry that can't be right."""
    return plan_from(plan_data(path))


def plan_data(path: str | PathLike[str]) -> dict[str, Any]:
    """Read what stands in a plan file, unchecked. Raises InputError for one that can't be read or isn't TOML."""
    try:
        with Path(path).open("rb") as stream:
            raw = stream.read(LARGEST_FILE + 1)
        text = raw.decode("utf-8-sig")
    except OSError as error:
        got = f"{shown(str(path))} ({error.strerror})"
        raise InputError([Fault("plan", got, "a file that can be read", "the path of a plan file")]) from None
    except ValueError:
        raise InputError([Fault("plan", "bytes that are not text", "a TOML text file in UTF-8", 'by = "15 Nov"')]) from None
    if (fault := too_much(text)) is not None:
        raise InputError([fault])
    try:
        data = tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        got = f"text that breaks off or is not TOML ({str(error)[:120]})"
        raise InputError([Fault("plan", got, "TOML", 'for example by = "15 Nov"')]) from None
    days = data.get("days")
    if isinstance(days, dict) and isinstance(days.get("weather"), str) and days["weather"]:
        days["weather"] = str(Path(path).parent / days["weather"])  # where it stands, from wherever the plan is read
    return data


def _without(data: Any, places: list[tuple[int | str, ...]]) -> Any:
    """Give the data without the entries at these places; a row of a list goes as a whole."""
    left = copy.deepcopy(data)
    for place in places:
        *path, last = place[: next((at for at, part in enumerate(place) if isinstance(part, int)), len(place))]
        part = left
        for name in path:
            part = part.get(name) if isinstance(part, dict) else None
        if isinstance(part, dict):
            part.pop(last, None)
    return left


def _as_tuples(value: Any) -> Any:
    """Give lists as tuples, and whole numbers of lists as floats: TOML knows neither."""
    if isinstance(value, dict):
        return {key: _number(part) if key in ("years", "labour_factor") else _as_tuples(part) for key, part in value.items()}
    if isinstance(value, (list, tuple)):
        return tuple(_as_tuples(_number(part)) for part in value)
    return value


def _number(value: Any) -> Any:
    return float(value) if isinstance(value, int) and not isinstance(value, bool) else value


def _fault(entry: dict[str, Any]) -> Fault:
    kind, where = entry["type"], ".".join(str(part) for part in entry["loc"])
    if kind == "measure":
        return fault_of(entry)
    got = shown(entry.get("input"))
    if kind == "extra_forbidden":
        return Fault(where, "an entry that a plan hasn't got", "an entry of docs/season.md", "")
    if kind == "literal_error":
        good = str(entry["ctx"]["expected"])
        return Fault(where, got, f"one of {good}", f'"{good.split()[-1].strip(chr(39))}"')
    if kind == "missing":
        return Fault(where, "nothing", "a value: this entry must be there")
    if len(entry["loc"]) > 2 and entry["loc"][-2] == "counted":
        return Fault(where, got, "days fit for work, a number", "31")
    if entry["loc"] and entry["loc"][-1] == "counted":
        return Fault(where, got, "days fit for work, one number for each of 5 to 120 years", "[31, 24, 36, 29, 33]")
    return Fault(where, got, str(entry["msg"])[:200])


def _faults_across(plan: Plan) -> Any:
    """Give the faults that lie between entries."""
    leave, home = plan.day.leave, plan.day.home
    clock = plan.day.comes_home - plan.day.leaves
    if clock <= 0:
        yield Fault("day.home", "a time no later than day.leave",
                    "the day to end after it begins; past midnight only with operators who take turns", '"21:00"')  # fmt: skip
    hours = plan.day.field_hours.to("h/day") if plan.day.field_hours is not None else 0.0
    if hours > clock > 0 and not (leave is None and home is None):
        yield Fault("day.field_hours", f"{plan.day.field_hours} in a clock day of {clock:g} h",
                    "no more field hours than the clock day has", '"10 h/day"')  # fmt: skip
    if plan.start is not None and plan.by is not None and plan.by < plan.start:
        yield Fault("by", "a deadline before the start", "a day from the start on, in one calendar year", '"15 Nov"')
    whose = [name for name in ("share", "counted", "weather") if getattr(plan.days, name) is not None]
    if len(whose) > 1:
        yield Fault("days", f"{' and '.join(whose)} at once", "one of them", "counted, where you have it")
    if plan.days.weather is None:
        for name in ("weather_units", "latitude", "water_left"):
            if getattr(plan.days, name) is not None:
                yield Fault(f"days.{name}", f"{name} without weather", "a file of daily weather beside it",
                            'weather = "station.csv"')  # fmt: skip
    if plan.days.counted is not None and plan.days.sundays_off:
        yield Fault("days.sundays_off", "sundays_off beside counted", "counted days without Sundays", "counted alone")
    for at, days in enumerate(plan.days.counted or ()):
        if not 0 <= days <= 366:
            yield Fault(f"days.counted.{at}", shown(days), "days from 0 to 366", "31")
