"""A season in words: the facts with everything that is said about them, in one system of units."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from rigcalc.core.tables import table
from rigcalc.core.units import factor
from rigcalc.models.machine.field import told_of
from rigcalc.models.season.answer import OfRig, SeasonAnswer
from rigcalc.models.season.day import RealDay
from rigcalc.models.season.money import OWNING, Money
from rigcalc.models.season.plan import choice
from rigcalc.words.field import by_readings
from rigcalc.words.numbers import System, chance, number, percent, say
from rigcalc.words.rig_name import rig_name
from rigcalc.words.said import Said
from rigcalc.words.season.abreast import Shown, shown_points
from rigcalc.words.season.sentence import change_text, days_rest_on, hours, of_seasons, say_season

PARTS = {
    "work": "at work, full width", "overlap": "overlap", "turns": "turns", "setting": "setting and looking",
    "in_field": "turns, overlap and setting", "filling": "filling up", "moves": "moves between fields",
    "stops": "plugs, bolts and points", "hand_over": "hand-overs", "meals": "meals", "checks": "grease and checks",
    "way": "way there and home",
    "other": "other", "all_else": "all else", "unexplained": "not accounted for",
}  # fmt: skip
_COSTS = {
    "owning_tractor": "owning the tractor", "owning_tool": "owning the tool", "repairs_tractor": "tractor repairs",
    "repairs_tool": "tool repairs", "fuel": "fuel", "oil": "oil and filters", "def": "exhaust fluid", "labour": "labour",
    "helper": "the helper's hours", "wear": "points and bolts",
}  # fmt: skip
_FUEL = {"field": "in the field", "moves": "on the road between fields", "idle": "idling at stops"}
_ALWAYS = (
    "Whole seasons are run, each with its own weeks: sums of bad weeks would be too bad.",
    "Field hours are hours in the field, at work or turning; a clock day runs from setting out to coming home.",
)
_PRICES = {"tractor_price": "price of the tractor", "tool_price": "price of the tool", "fuel_price": "price of fuel"}
_NAMES = {"start": "the start", "by": "the deadline"}


@dataclass(frozen=True)
class Bar:
    """One part of a day: what it is called, its hours as text, and its share of the clock day."""

    name: str
    title: str
    text: str
    share: float


@dataclass(frozen=True)
class SeasonWords:
    """A season with its words, in American ("us") or metric ("si") units. answer: the facts; `str()` gives the sentences."""

    answer: SeasonAnswer
    units: System

    @cached_property
    def said(self) -> Said:
        """What is said first: is it done in time."""
        return say_season(self.answer, self.units)

    @cached_property
    def names(self) -> tuple[str, ...]:
        """What each rig is called."""
        return tuple(rig_name(one.rig, self.units) for one in self.answer.rigs)

    def bars(self, one: OfRig) -> tuple[Bar, ...]:
        """Every part of a rig's clock day, in order; none where it can't pull."""
        day = one.day
        if not day.area > 0:
            return ()
        return tuple(Bar(name, PARTS[name], hours(value), value / day.clock) for name, value in day.parts.items())

    def day_lines(self, one: OfRig) -> tuple[str, ...]:
        """What is said beside a rig's bar: the hours, the efficiency, the fuel."""
        day, e = one.day, one.day.efficiency
        if not day.area > 0:
            return ("It can't pull at this depth and speed, so its day can't be told.",)
        typed = "as typed" if self.answer.plan.day.field_hours is not None else "as typed in the rig"
        whose = typed if day.typed else "built up from the parts"
        lines = [f"Clock day {hours(day.clock)}; field hours {hours(day.field)}, {whose}; {say(day.area, 'ha', self.units)}."]
        if day.typed:
            lines.append(f"Built up from the parts it would be {hours(day.built)}.")
        lines.append(_of_people(day))
        full = say(day.full, "ha", self.units)
        lines.append(f"Full width and speed over the clock day would be {full}: {percent(day.lost_share)} is lost.")
        chisel = table("d497_field_operations")["chisel_plow_or_coulter_chisel"]
        band = f"tables give {chisel['efficiency_low']:.0f} to {chisel['efficiency_high']:.0f} %"
        if e.built is None:
            lines.append(f"Field efficiency {percent(e.used)}, {'as typed' if e.typed else 'the usual one'}; {band}.")
        else:
            counts = "; the typed one counts" if e.typed else " and that counts"
            built = f"{percent(e.built)} by row, turns and overlap{counts}"
            lines.append(f"Field efficiency {f'{percent(e.used)} as typed, ' if e.typed else ''}{built}; {band}.")
        lines.append(self._fuel(one))
        if (told := told_of(one.rig)) is not None:
            lines.append(by_readings(told))
        return tuple(lines)

    def _fuel(self, one: OfRig) -> str:
        day = one.day
        parts = ", ".join(
            f"{percent(litres / day.fuel)} {_FUEL[name]}" for name, litres in day.fuel_parts.items() if litres > 0
        )
        fills = "" if day.fills is None else f"; {number(day.fills, 2)} fillings of the tank"
        fluid = f"; {say(day.def_fluid, 'L', self.units)} of exhaust fluid" if day.def_fluid > 0 else ""
        week = say(6 * day.fuel, "L", self.units)
        return f"Fuel {say(day.fuel, 'L', self.units)} a day ({parts}), {week} in a week of six fit days{fills}{fluid}."

    @cached_property
    def changes(self) -> tuple[tuple[str, str, str, str], ...]:
        """What each change alone brings: what, done in, days in hand in 8 of 10, and cost or what stands against it.

        Chances are finer here than elsewhere: the same years and draws stand behind each, so that a difference is the change's.
        """
        out = []
        for change in self.answer.changes:
            hand = "-" if change.in_hand == -float("inf") else f"{change.in_hand:+.1f}"
            cost = "-" if change.cost is None else self._per_area(change.cost)
            against = cost if change.holds else "a hard limit is passed"
            out.append((change_text(change, self.units), chance(change.chance), hand, against))
        return tuple(out)

    @cached_property
    def abreast(self) -> tuple[Shown, ...]:
        """Cost against chance: the season as it stands, each of several rigs alone, and each change."""
        return shown_points(self.answer, self.names, self.units)

    def costs(self, one: OfRig) -> tuple[tuple[str, str, str], ...]:
        """Each part of a rig's cost: what, of an area, of a field hour; the sum last. Empty without prices."""
        money = one.money
        if money is None:
            return ()
        each = money.hours / money.area
        rows = [(_COSTS[name], self._per_area(cost * each), number(cost, 3)) for name, cost in money.parts.items()]
        return (*rows, ("all of it", self._per_area(money.per_area), number(money.an_hour, 3)))

    def money_lines(self, one: OfRig) -> tuple[str, ...]:
        """What is said of a rig's money beside the table."""
        money = one.money
        if money is None:
            return (self.no_prices,) if self.answer.missing_prices else ()
        return tuple(self._money(money))

    @property
    def no_prices(self) -> str:
        """What has to be typed before anything is said of money."""
        missing = ", ".join(_PRICES[name] for name in self.answer.missing_prices)
        return f"Nothing is said of money until these are typed: {missing}."

    def _money(self, m: Money) -> list[str]:
        area, owning = say(m.area, "ha", self.units), sum(m.parts[k] for k in OWNING) / (m.an_hour or 1.0)
        lines = [f"A year of {area} costs {number(m.a_year, 3)}; owning is {percent(owning)} of it."]
        if m.hire is not None:
            hired = self._per_area(m.hire)
            if m.break_even is None:
                lines.append(f"Hire at {hired} is cheaper than running your own, whatever the area.")
            else:
                which = "own" if m.area >= m.break_even else "hire"
                lines.append(f"Hire at {hired} breaks even at {say(m.break_even, 'ha', self.units)} a year: {which}.")
        if m.delay is not None:
            lines.append(f"Delay costs {number(m.delay, 3)} a season, by the loss a day typed.")
        if m.gain_needed is not None:
            lines.append(f"To pay for itself the pass has to gain {self._crop(m.gain_needed)}.")
        if m.margin is not None:
            verdict = "it pays" if m.margin >= 0 else "it doesn't pay"
            lines.append(f"By the gain that you expect {verdict}: {self._per_area(m.margin)} left.")
        lines.append(f"{number(m.energy / self._areas(), 3)} MJ and {number(m.carbon / self._areas() * self._kilos(), 3)} "
                     f"{'kg' if self.units == 'si' else 'lb'} of carbon dioxide {self._an_area()}, from the fuel.")  # fmt: skip
        lines.append("Prices are today's; inflation is left out.")
        return lines

    def _areas(self) -> float:
        return 1.0 if self.units == "si" else factor("ha", "acre")

    def _kilos(self) -> float:
        return 1.0 if self.units == "si" else factor("kg", "lb")

    def _an_area(self) -> str:
        return "a hectare" if self.units == "si" else "an acre"

    def _per_area(self, cost: float) -> str:
        return f"{cost / self._areas():,.2f} {self._an_area()}"

    def _crop(self, tonnes: float) -> str:
        if self.units == "si":
            return f"{number(tonnes, 3)} t a hectare"
        pounds = tonnes * factor("t/ha", "lb/acre")
        return f"{number(pounds, 3)} lb an acre ({number(pounds / 56, 2)} bushels of corn at 56 lb)"

    @cached_property
    def notes(self) -> tuple[str, ...]:
        """What the answer rests on: whose days, what was taken, what isn't counted."""
        found = self.answer
        lines = days_rest_on(found, self.units)
        own = next((rig.work.fit_days for rig in (one.rig for one in found.rigs) if rig.work.fit_days is not None), None)
        if found.seasons.worked is not None and own is not None:
            lines.append(f"The rig file's own {own} of days fit are left aside: the weather stands in their place.")
        if found.plan.days.sundays_off:
            lines.append("No work is done on Sundays; your own share is of all days, before Sundays are taken out.")
        for name, rated in zip(self.names, (one.rate for one in found.rigs), strict=True):
            if rated.slowed + rated.stuck < 0.005:
                continue
            slowed, stuck = percent(rated.slowed), percent(rated.stuck)
            lines.append(f"{name}: in {slowed} of such fields it goes slower than wished, in {stuck} it can't go on.")
        aside = dict.fromkeys(str(rig.work.hours_per_day) for rig in (one.rig for one in found.rigs if not one.day.typed)
                              if rig.work.hours_per_day is not None)  # fmt: skip
        if aside:
            lines.append(f"Parts of the day are typed, so the rig's own {' and '.join(aside)} in the field are left aside.")
        if any(each.field_hours is None for each in found.plan.later):
            first = "the first rig's " if len(found.rigs) > 1 else ""
            lines.append(f"Later passes have {first}{hours(found.rigs[0].day.field)} in the field a day where none are typed.")
        named = [_NAMES[name] for name in found.taken if name in _NAMES]
        if named:
            lines.append(f"Not typed and taken: {' and '.join(named)}.")
        count = sum(name.startswith("day.") for name in found.taken)
        if count and not all(one.day.typed for one in found.rigs):
            lines.append(f"{count} parts of the day are from a table of what is usual (common practice); type yours.")
        lines += self._people()
        lines += _ALWAYS
        if len(found.rigs) > 1:
            each = zip(self.names, found.rigs, strict=True)
            lines.append("; ".join(f"{name} alone: {of_seasons(one.alone, found.autumn)}" for name, one in each) + ".")
        lines.append("Whether depth, speed and load go well is a question of its own; here only what stops the work counts.")
        return tuple(lines)

    def _people(self) -> list[str]:
        """Say what isn't counted of those who take turns and of a helper; nothing where there are none."""
        plan, lines = self.answer.plan, []
        if plan.day.people > 1:
            lines.append("Who takes turns eats while the rig goes on. Hours at night go as fast here and are paid no better.")
        if plan.day.fuel_helper:
            lines.append("One helper is enough for all the rigs here, and is always there in time; the trailer costs nothing.")
        if plan.day.fuel_helper and any(one.day.fills is None for one in self.answer.rigs):
            lines.append("A tank that nobody typed takes no time to fill, with a helper or not: type how much yours holds.")
        if not self.answer.missing_prices and plan.money.wage is None:
            lines.append("No wage is typed, so nobody's hours cost anything: neither a second driver's nor a helper's.")
        return lines

    def __str__(self) -> str:
        """Give the answer's sentences."""
        return str(self.said)


def _of_people(day: RealDay) -> str:
    """Say how long a day is for one person, and doubt one that is too long."""
    who = "One person has" if day.people == 1 else f"{day.people} people take turns: each has"
    most = choice("person_hours")
    tired = f", and over {hours(most)} it is doubted: tired drivers get hurt, change drivers" if day.each > most else ""
    helper = f" A helper with fuel is away for {hours(day.helper)} of a day." if day.helper > 0 else ""
    return f"{who} {hours(day.each)} a day{tired}.{helper}"
