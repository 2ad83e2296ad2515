"""The season's answer, as facts: the real day of each rig, whether it is done in time, what would help, what it costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from math import isclose
from os import PathLike
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError
from rigcalc.equations.capacity import days_needed, effective_field_capacity
from rigcalc.models.machine.case import Case, case_of
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.machine.weather import Weather
from rigcalc.models.rig.asked import asked
from rigcalc.models.rig.measure import Measure
from rigcalc.models.rig.rig import Rig
from rigcalc.models.season.calendar import calendar_faults, share_of_work, there
from rigcalc.models.season.change import SHALLOWER, Change, Setting, ranked, settings_of
from rigcalc.models.season.day import RealDay, burned_an_hour, hours_of, real_day, stated_hours
from rigcalc.models.season.finish import Breakdowns, Finish, Pass, run_seasons
from rigcalc.models.season.money import Money, missing, money_of
from rigcalc.models.season.plan import MOST_RIGS as MOST_RIGS
from rigcalc.models.season.plan import Costs, Plan, choice, load_plan, plan_from
from rigcalc.models.season.rate import Rate, rate
from rigcalc.models.season.reading_plan import MOST_PEOPLE, day_text
from rigcalc.models.season.record import RECORD, WEATHER, Seasons, seasons

AUTUMN = 213  # 1 Aug: our choice
START, BY = 274, 319  # 1 Oct and 15 Nov: an autumn after harvest, where nothing is typed (our choice)


@dataclass(frozen=True)
class OfRig:
    """One rig of the season: its case, its real day, its area an hour over the draws, and its costs (None without prices).

    limit: the hard limit that doesn't hold in the likely case, None where all hold.
    """

    rig: Rig
    case: Case = field(repr=False)
    day: RealDay
    rate: Rate = field(repr=False)
    money: Money | None
    limit: str | None
    alone: float


@dataclass(frozen=True)
class SeasonAnswer:
    """Everything found about one season. area: ha; start, by: days of a common year; taken: entries that nobody typed.

    finish: how the seasons end (see `Finish`); seasons: the years they stand on. `rigcalc.in_words(answer)` says it.
    """

    rigs: tuple[OfRig, ...]
    plan: Plan
    area: float
    start: int
    by: int
    seasons: Seasons
    finish: Finish
    later: tuple[Pass, ...]
    taken: tuple[str, ...]
    seed: int

    @property
    def rig(self) -> Rig:
        """The first rig, whose units are shown."""
        return self.rigs[0].rig

    @property
    def own_days(self) -> bool:
        """Whether the days fit for work are the user's own, neither those of the record alone nor worked out from weather."""
        return self.seasons.kind not in (RECORD, WEATHER)

    @property
    def autumn(self) -> bool:
        """Whether it begins when autumn does or later: never by weather read south of the equator."""
        worked = self.seasons.worked
        return self.start >= AUTUMN and (worked is None or worked.place >= 0)

    @property
    def by_year(self) -> np.ndarray:
        """Chance of being done in time in each of the years."""
        made: np.ndarray = self.finish.by_year.reshape(len(self.seasons.years), -1).mean(axis=1)  # weather: several rows a year
        return made

    @property
    def failing(self) -> OfRig | None:
        """The first rig that passes a hard limit in the likely case; None where every one holds."""
        return next((one for one in self.rigs if one.limit is not None), None)

    @property
    def doubted(self) -> RealDay | None:
        """The day whose typed field hours are furthest beyond what its clock leaves; None where all can be."""
        days = [one.day for one in self.rigs if one.day.typed and one.day.field > choice("hardly") * one.day.built]
        return max(days, key=lambda day: day.field - day.built, default=None)

    @property
    def tired(self) -> RealDay | None:
        """The day that is longest for one person, where it is longer than the table lets it be and isn't the table's own clock
        day; None where nobody's is."""
        usual = choice("home") - choice("leave")
        days = [one.day for one in self.rigs if one.day.each > choice("person_hours")]
        return max((day for day in days if day.people > 1 or day.each > usual), key=lambda day: day.each, default=None)

    @property
    def judgement(self) -> Judgement:
        """ "dont" where a hard limit is passed or it is late more often than in time; "go" from the chance that plans are made
        for, by your own days; "try" between, where the days or their scatter are somebody else's or of another time, where
        more field hours are typed than the clock leaves, and where one person's day is longer than that can be kept up."""
        if self.failing is not None or self.finish.chance < choice("dont"):
            return Judgement.DONT
        known = self.own_days and not self.seasons.borrowed and self.doubted is None and self.tired is None
        return Judgement.GO if self.finish.chance >= choice("go") and known else Judgement.TRY

    @property
    def missing_prices(self) -> tuple[str, ...]:
        """Entries of [money] without which nothing is said of it, of any of the rigs."""
        each = (missing(self.plan.money.of(place)) for place in range(len(self.rigs)))
        return tuple(dict.fromkeys(name for names in each for name in names))

    def of_one(self, place: int) -> SeasonAnswer:
        """Give the season of the rig at a place with all of the fields to itself, by the same days and its own prices."""
        rig, found = self.rigs[place].rig, self.seasons
        if found.worked is not None:  # a shallower rig waits for fewer layers
            found = seasons(self.plan, self.start, self.by, None, (rig,), found.worked.weather)
        calendar = (self.plan.calendar_of(place),) if self.plan.calendar else ()
        plan = self.plan.model_copy(update={"money": self.plan.money.of(place), "calendar": calendar})
        rigs, finish = _run(Setting((rig,), self.area), plan, found, self.seed, self.start, alone=True)
        later = _later(plan, self.area, rigs)
        return replace(self, rigs=rigs, plan=plan, seasons=found, finish=finish, later=later)

    @cached_property
    def changes(self) -> tuple[Change, ...]:
        """What each change alone would bring, the best first."""
        now = Setting(tuple(one.rig for one in self.rigs), self.area)
        metric = self.rig.work.depth.unit not in ("in", "ft", "yd")
        made = []
        driver = any(one.day.people < MOST_PEOPLE and (one.day.people == 1 or one.day.clock < 24) for one in self.rigs)
        helper = not self.plan.day.fuel_helper and any(one.day.fills for one in self.rigs)
        for name, setting in settings_of(now, metric, driver, helper).items():
            found = self.seasons
            if found.worked is not None and name == SHALLOWER:  # fewer layers have to be dry
                found = seasons(self.plan, self.start, self.by, None, setting.rigs, found.worked.weather)
            rigs, finish = _run(setting, self.plan, found, self.seed, self.start)
            cost, day = together(rigs), rigs[0].day
            made.append(Change(name, finish.chance, finish.in_hand[1], cost, all(one.limit is None for one in rigs), metric,
                               day.clock, day.people, len(rigs)))  # fmt: skip
        return ranked(made)


def together(rigs: Sequence[OfRig]) -> float | None:
    """Give the cost of a hectare of rigs that each work their own part of the fields; None without prices."""
    costs = [one.money for one in rigs if one.money is not None]
    return sum(each.a_year for each in costs) / sum(each.area for each in costs) if costs else None


def season(
    rigs: Rig | str | PathLike[str] | Sequence[Rig | str | PathLike[str]], plan: Any = None, *, seed: int = 0,
    weather: Weather | None = None,
) -> SeasonAnswer:  # fmt: skip
    """Say whether a season's work is done in time, what a day of it is made of, and what it costs.

    Parameters
    ----------
    rigs : Rig, str, pathlib.Path, or a sequence of them
        The rig or rigs that share the fields, at most 12: a Rig, the path of a rig file, or the name of a demo rig.
    plan : Plan, dict, str or pathlib.Path, optional
        What the farm does: a plan file's path, or its entries as nested dicts (docs/season.md). What is left out is taken from
        the rig file or from a table of usual numbers, and named in `taken`.
    seed : int, optional
        Seed of the draws, from 0 up; the same seed gives the same answer.
    weather : Weather, optional
        Daily weather that was read already: it takes the place of the file that the plan names.

    Returns
    -------
    SeasonAnswer
        Facts in bare numbers: hours, ha, L, days, chances from 0 to 1, money as typed. `rigcalc.in_words(answer)` says them.

    Raises
    ------
    InputError
        For rigs and plans that can't be read, entries that can't be, and rig files that say different things of the fields
        they share where the plan says nothing: all at once.

    Examples
    --------
    >>> answer = season("articulated", {"area": "1150 acre", "start": "1 Oct", "by": "15 Nov"})
    >>> answer.judgement.value, len(answer.seasons.years)
    ('go', 22)
    """
    faults: list[Fault] = []
    try:
        held = plan_from({}) if plan is None else load_plan(plan) if isinstance(plan, (str, PathLike)) else plan_from(plan)
    except InputError as error:
        faults += error.faults
        held = Plan()
    given = [rigs] if isinstance(rigs, (Rig, str, PathLike)) or not isinstance(rigs, Sequence) else list(rigs)
    if not 1 <= len(given) <= MOST_RIGS:
        faults.append(Fault("rigs", f"{len(given)} rigs", f"1 to {MOST_RIGS} that share the fields", "my_rig.toml"))
    loaded = []
    for rig in given[:MOST_RIGS]:
        try:
            loaded.append(asked(rig, seed=seed))
        except InputError as error:
            faults += [fault for fault in error.faults if fault not in faults]
    if faults:
        raise InputError(faults)
    return _answer(tuple(loaded), held, seed, weather)


def _answer(rigs: tuple[Rig, ...], plan: Plan, seed: int, weather: Weather | None) -> SeasonAnswer:
    taken: list[str] = []
    faults: list[Fault] = []
    if plan.money.each and len(plan.money.each) != len(rigs):
        faults.append(Fault("money.each", f"prices of {len(plan.money.each)} rigs", f"one for each of {len(rigs)}, in order",
                            "[[money.each]] once for each rig"))  # fmt: skip
    area = plan.area or _shared(rigs, "area", "area", '--area "3000 acre", or area = "3000 acre"', faults)
    if area is None:
        faults.append(Fault("area", "nothing", "the area to be worked", '--area "3000 acre", or area = "3000 acre"'))
    own = None
    if plan.days.share is None and plan.days.counted is None and plan.days.weather is None:
        own = _shared(rigs, "fit_days", "days", '--fit "50 percent", or share = "50 percent" in [days]', faults)
    start = plan.start
    if start is None:
        start, taken = START, [*taken, "start"]
    by = plan.by
    if by is None:
        calendar = _shared(rigs, "calendar_days", "by", '--by "15 Nov", or by = "15 Nov"', faults)
        if calendar is not None:
            by = start + max(round(calendar.to("day")), 1) - 1
        else:
            by, taken = BY, [*taken, "by"]
    found: Seasons | None = None
    if by < start or by > 365:
        got = day_text(by) if plan.by else f"nothing ({day_text(by)})"
        faults.append(Fault("by", got, f"a deadline from {day_text(start)} on, in the same year", '"15 Nov"'))
    else:
        faults += calendar_faults(plan, len(rigs), start, by)
        try:
            found = seasons(plan, start, by, own, rigs, weather)
        except InputError as error:
            faults += error.faults
    if faults or area is None or found is None:
        raise InputError(dict.fromkeys(faults))
    taken += [f"day.{name}" for name in _parts_taken(plan) if getattr(plan.day, name) is None]
    setting = Setting(rigs, area.to("ha"))
    of_rigs, finish = _run(setting, plan, found, seed, start, alone=True)
    return SeasonAnswer(
        rigs=of_rigs, plan=plan, area=setting.area, start=start, by=by, seasons=found, finish=finish,
        later=_later(plan, setting.area, of_rigs), taken=tuple(taken), seed=seed,
    )  # fmt: skip


def _parts_taken(plan: Plan) -> list[str]:
    """Give the entries of [day] that are taken from the table where nobody types them: those that this day is made of."""
    day = plan.day
    aside = {"field_hours", "operators", "fuel_helper"} | ({"meals"} if day.people > 1 else {"hand_over"})
    aside |= {"fetch"} if day.fuel_helper else {"pumping", "helper_hours"}
    return [name for name in type(day).model_fields if name not in aside]


def _shared(rigs: Sequence[Rig], name: str, where: str, type_this: str, faults: list[Fault]) -> Measure | None:
    """Give what the rig files say of the fields or dates that they share, None where none does; a fault where two differ."""
    said: list[Measure] = [measure for rig in rigs if (measure := getattr(rig.work, name)) is not None]
    if not said:
        return None
    if not all(isclose(each.to(said[0].unit), said[0].value, rel_tol=1e-6) for each in said):
        texts = " and ".join(dict.fromkeys(str(each) for each in said))
        faults.append(Fault(where, f"work.{name} of {texts}", "one for all the rigs, since they share the fields", type_this))
    return said[0]


def _run(
    setting: Setting, plan: Plan, found: Seasons, seed: int, start: int, alone: bool = False
) -> tuple[tuple[OfRig, ...], Finish]:  # fmt: skip
    """Run the seasons of a setting. alone: whether each rig is run by itself too."""
    down = Breakdowns(
        plan.day.breakdown_hours.to("h") if plan.day.breakdown_hours is not None else choice("breakdown_hours"),
        plan.day.repair_hours.to("h") if plan.day.repair_hours is not None else choice("repair_hours"),
    )
    known: dict[Rig, tuple[Case, RealDay, Rate, Any]] = {}
    for rig in setting.rigs:
        if rig in known:
            continue
        case = case_of(rig)
        own = _staffed(_longer(plan, rig, setting.more_hours), rig, case, setting)
        day = real_day(case.bare, rig, own)
        b = case.bare.at(field_efficiency=day.efficiency.used)
        rated = rate(b, case, seed)
        hours = hours_of(rig, own)
        known[rig] = case, day, rated, rated.capacity * hours.field_hours(
            rated.capacity, burned_an_hour(b, hours, rated.capacity, rated.burned))  # fmt: skip
    per_day = sum(known[rig][3] for rig in setting.rigs)
    going = [known[rig][1] for rig in setting.rigs if known[rig][1].area > 0]
    fields = float(np.mean([day.field for day in going])) if going else 0.0
    present = there(plan, len(setting.rigs), start, start + found.fit.shape[1] - 1)
    team = share_of_work(present, [float(np.mean(known[rig][3])) for rig in setting.rigs])
    fit_of_day = found.fit.mean(axis=0)
    # what each does is by its own day and the fit days on which it is there
    parts = [known[rig][1].area * float(fit_of_day @ days) for rig, days in zip(setting.rigs, present, strict=True)]
    fit = float(np.median(found.fit.mean(axis=1)))
    made = []
    for place, rig in enumerate(setting.rigs):
        case, day, rated, _ = known[rig]
        share = setting.area * (parts[place] / sum(parts) if sum(parts) > 0 else 1 / len(setting.rigs))
        money = _money(case, rig, plan.money.of(place), share, day, fit)
        limit = case.passed
        made.append(OfRig(rig, case, day, rated, money, limit, float("nan")))
    later = _later(plan, setting.area, made)
    finish = run_seasons(found.fit, setting.area, per_day, fields, len(setting.rigs), down, later, seed, team)
    if alone:  # the later passes wait for this one, whoever does it
        made = [
            replace(one, alone=run_seasons(
                found.fit, setting.area, known[one.rig][3], one.day.field, 1, down, later, seed, days).chance)
            for one, days in zip(made, present, strict=True)
        ]  # fmt: skip
    return tuple(made), finish


def _money(case: Case, rig: Rig, costs: Costs, area: float, day: RealDay, fit: float) -> Money | None:
    """Add up a rig's costs, the fuel of the whole day over its field hours; None where it does nothing."""
    if not (np.isfinite(day.area) and day.area > 0 and area > 0):
        return None
    capacity, fuel, fluid = (amount / day.field for amount in (day.area, day.fuel, day.def_fluid))
    return money_of(case.bare, rig, costs, area, capacity, fuel, fluid, day.field, fit, day.helper)


def _later(plan: Plan, area: float, rigs: Sequence[OfRig]) -> tuple[Pass, ...]:
    """Give the later passes by the fit days that they need; hours a day as the first rig's where none are typed."""
    made = []
    for each in plan.later:
        kept = each.field_efficiency.to("1")
        capacity = float(effective_field_capacity.bare(each.speed.to("km/h"), each.width.to("m"), kept))
        hours = each.field_hours.to("h/day") if each.field_hours is not None else rigs[0].day.field
        wait = each.wait.to("day") if each.wait is not None else 0.0
        made.append(Pass(each.name, float(days_needed.bare(area, capacity, hours)), wait))
    return tuple(made)


def _longer(plan: Plan, rig: Rig, more: float) -> Plan:
    """Give the plan of one rig with a longer clock day; typed field hours grow as much as the clock."""
    if not more:
        return plan
    day, stated = plan.day, stated_hours(rig, plan)
    changes: dict[str, Any] = {}
    if stated is not None:
        changes["field_hours"] = Measure.of(min(stated.to("h/day") + more, 24.0), "h/day")
    leave, home = day.leaves, day.comes_home + more
    if day.people > 1:  # past midnight, but never round to the hour at which it began
        changes |= {"leave": leave, "home": min(home, leave + 24.0)}
    else:
        changes |= {"leave": max(leave - max(home - 24.0, 0.0), 0.0), "home": min(home, 24.0)}
    return plan.model_copy(update={"day": day.model_copy(update=changes)})


def _staffed(plan: Plan, rig: Rig, case: Case, setting: Setting) -> Plan:
    """Give the plan of one rig with a person more who takes turns, or a helper who fuels; typed field hours grow by as much as
    those that the parts leave."""
    if not (setting.driver_more or setting.helper):
        return plan
    day, stated = plan.day, stated_hours(rig, plan)
    changes: dict[str, Any] = {"fuel_helper": day.fuel_helper or setting.helper}
    if setting.driver_more:
        clock = max(hours_of(rig, plan).clock, min((day.people + 1) * choice("shift"), 24.0))
        changes |= {"operators": day.people + 1, "leave": day.leaves, "home": day.leaves + clock}
    own = plan.model_copy(update={"day": day.model_copy(update=changes)})
    if stated is None:
        return own
    gained = real_day(case.bare, rig, own).built - real_day(case.bare, rig, plan).built
    most = hours_of(rig, own).clock
    changes["field_hours"] = Measure.of(min(stated.to("h/day") + max(gained, 0.0), most), "h/day")
    return plan.model_copy(update={"day": day.model_copy(update=changes)})
