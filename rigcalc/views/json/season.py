"""A season as JSON-ready data: stable names, every number with its unit; what there isn't is null. Money has the unit "1"."""

from __future__ import annotations

from typing import Any

from rigcalc.models.season.answer import OfRig, SeasonAnswer
from rigcalc.models.season.finish import LEVELS
from rigcalc.models.season.money import Money
from rigcalc.models.season.reading_plan import day_text
from rigcalc.models.season.workable import Worked
from rigcalc.views.json.numbers import number
from rigcalc.views.json.said import said_data
from rigcalc.words.season import SeasonWords

_ENDS = ("dry_end", "middle", "wet_end")
VERSION = 1  # raised when a name or a unit changes


def season_data(words: SeasonWords) -> dict[str, Any]:
    """Give nested dicts and lists."""
    found, said = words.answer, words.said
    finish = found.finish
    return {
        "version": VERSION,
        **said_data(said),
        "verdict": found.judgement.value,
        "seed": found.seed,
        "area": number(found.area, "ha"),
        "start": day_text(found.start),
        "by": day_text(found.by),
        "taken": list(found.taken),
        "days": {
            "kind": found.seasons.kind,
            "years": list(found.seasons.years),
            "left_out": found.seasons.left_out,
            "borrowed": found.seasons.borrowed,
            "there": _at_levels(finish.there, "day"),
            "worked_out": None if found.seasons.worked is None else _worked(found.seasons.worked),
        },
        "chance": number(finish.chance, "1"),
        "chance_by_year": [number(share, "1") for share in found.by_year],
        "done_by_day": [number(share, "1") for share in finish.done],
        "days_needed": [number(days, "day") for days in finish.needed],
        "days_in_hand": _at_levels(finish.in_hand, "day"),
        "latest_start": {f"{level:g}": None if day < 0 else day_text(found.start + day)
                         for level, day in zip(LEVELS, finish.latest, strict=True)},
        "later": [{"name": each.name, "days": number(each.days, "day"), "wait": number(each.wait, "day")}
                  for each in found.later],
        "rigs": [{**_rig(one), **_calendar(found, place)} for place, one in enumerate(found.rigs)],
        "changes": [
            {"change": change.name, "chance": number(change.chance, "1"), "days_in_hand": number(change.in_hand, "day"),
             "cost_per_area": number(change.cost, "1/ha"), "limits_hold": change.holds,
             "clock_hours": number(change.clock, "h/day"), "operators": number(change.people, "1")}
            for change in found.changes
        ],
        "abreast": [
            {"name": each.point.name, "title": each.title, "rig": each.point.place, "chance": number(each.point.chance, "1"),
             "cost_per_area": number(each.point.cost, "1/ha"), "limits_hold": each.point.holds}
            for each in words.abreast
        ],
        "notes": list(words.notes),
    }  # fmt: skip


def _worked(worked: Worked) -> dict[str, Any]:
    return {
        "texture": worked.texture,
        "depth": number(100 * worked.depth, "cm"),
        "fit_shares": {name: number(share, "1") for name, share in zip(_ENDS, worked.shares, strict=True)},
        "begins": number(worked.begins, "1"),
        "begins_typed": worked.begins_typed,
        "drains_to_limit": worked.drains,
        "limit_measured": worked.measured,
        "temperatures_filled": worked.filled,
        "values_flagged": worked.flagged,
        "left_out": {str(year): str(day) for year, day in worked.left_out.items()},
    }


def _calendar(found: SeasonAnswer, place: int) -> dict[str, str]:
    """Give the first and last day on which a rig is there."""
    own = found.plan.calendar_of(place)
    return {"comes": day_text(own.comes or found.start), "goes": day_text(own.goes or found.by)}


def _rig(one: OfRig) -> dict[str, Any]:
    day = one.day
    return {
        "limit": one.limit,
        "chance_alone": number(one.alone, "1"),
        "clock_hours": number(day.clock, "h/day"),
        "field_hours": number(day.field, "h/day"),
        "field_hours_built": number(day.built, "h/day"),
        "field_hours_typed": day.typed,
        "parts": {name: number(hours, "h/day") for name, hours in day.parts.items()},
        "field_efficiency": number(day.efficiency.used, "1"),
        "field_efficiency_built": number(day.efficiency.built, "1"),
        "area_per_day": number(day.area, "ha/day"),
        "lost_share": number(day.lost_share, "1"),
        "fuel_per_day": number(day.fuel, "L/day"),
        "fuel_parts": {name: number(litres, "L/day") for name, litres in day.fuel_parts.items()},
        "def_per_day": number(day.def_fluid, "L/day"),
        "operators": number(day.people, "1"),
        "hours_each": number(day.each, "h/day"),
        "helper_hours": number(day.helper, "h/day"),
        "fillings_per_day": number(day.fills, "1/day"),
        "slowed": number(one.rate.slowed, "1"),
        "stuck": number(one.rate.stuck, "1"),
        "money": None if one.money is None else _money(one.money),
    }


def _money(m: Money) -> dict[str, Any]:
    return {
        "parts_an_hour": {name: number(cost, "1/h") for name, cost in m.parts.items()},
        "an_hour": number(m.an_hour, "1/h"),
        "per_area": number(m.per_area, "1/ha"),
        "a_year": number(m.a_year, "1"),
        "hours_a_year": number(m.hours, "h"),
        "area_a_year": number(m.area, "ha"),
        "salvage": {name: number(share, "1") for name, share in m.salvage.items()},
        "break_even_area": number(m.break_even, "ha"),
        "delay": number(m.delay, "1"),
        "gain_needed": number(m.gain_needed, "t/ha"),
        "margin": number(m.margin, "1/ha"),
        "energy": number(m.energy, "MJ/ha"),
        "carbon": number(m.carbon, "kg/ha"),
    }


def _at_levels(values: tuple[float, ...], unit: str) -> dict[str, Any]:
    return {f"{level:g}": number(value, unit) for level, value in zip(LEVELS, values, strict=True)}
