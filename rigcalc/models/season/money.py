"""What the work costs: owning, repairs, fuel, oil, labour, wear; hire instead; delay; and what it has to gain.

Inflation is left out: prices are today's, and the interest is the real one where you take inflation off it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from rigcalc.core.tables import table
from rigcalc.equations import cost as book
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.rig import Rig
from rigcalc.models.season.plan import Costs, choice

NEEDED = ("tractor_price", "tool_price", "fuel_price")
OWNING = ("owning_tractor", "owning_tool")
_ALL_AFTER = 2.0  # timeliness factor where the work begins at the best day and goes on after it (EP496, from memory)
_VALUE_CLASSES = ((60.0, "tractor_under_60_kw"), (112.0, "tractor_60_to_112_kw"), (float("inf"), "tractor_over_112_kw"))
_TOOLS = {"moldboard": "moldboard_plow", "disk_harrow_tandem": "tandem_disk_harrow", "disk": "heavy_duty_disk",
          "field_cultivator": "field_cultivator"}  # fmt: skip


@dataclass(frozen=True)
class Money:
    """Costs of one rig as bare numbers of the user's money. parts: name -> cost of a field hour, wear too. area: ha a year of
    this rig; hours: field hours a year.

    salvage: name -> share of list price that is left at the end. hire, break_even (ha a year; None where hire is never dearer),
    delay (a season), gain_needed (t/ha), margin (the user's own gain less cost, 1/ha): None where what they need isn't typed.
    """

    parts: dict[str, float]
    area: float
    hours: float
    salvage: dict[str, float]
    hire: float | None
    break_even: float | None
    delay: float | None
    gain_needed: float | None
    margin: float | None
    energy: float  # MJ/ha
    carbon: float  # kg/ha

    @property
    def an_hour(self) -> float:
        """Cost of a field hour."""
        return sum(self.parts.values())

    @property
    def per_area(self) -> float:
        """Cost of a hectare."""
        return self.an_hour * self.hours / self.area

    @property
    def a_year(self) -> float:
        """Cost of a year's work."""
        return self.an_hour * self.hours


def missing(costs: Costs) -> tuple[str, ...]:
    """Give the entries without which nothing is said of money."""
    return tuple(name for name in NEEDED if getattr(costs, name) is None)


def money_of(
    b: BareRig, rig: Rig, costs: Costs, area: float, capacity: float, fuel: float, def_fluid: float, field_hours: float,
    fit: float, helper: float = 0.0,
) -> Money | None:  # fmt: skip
    """Add up the costs of one rig. area: ha a year it does; capacity: ha/h; fuel, def_fluid: L for each field hour, all of the
    day's; field_hours: a day; fit: share of days; helper: hours a day of somebody who fuels at the field. None where prices are
    missing or nothing is done."""
    if missing(costs) or not capacity > 0 or not area > 0:
        return None
    hours = area / capacity
    tractor, tool, tractor_hours, salvage = _owning(b, rig, costs, hours)
    burnt = book.fuel_cost.bare(costs.fuel_price, fuel)
    parts: dict[str, float] = {
        "owning_tractor": tractor[0] / tractor_hours,
        "owning_tool": tool[0] / hours,
        "repairs_tractor": tractor[1],
        "repairs_tool": tool[1],
        "fuel": float(burnt),
        "oil": float(book.oil_cost.bare(costs.coefficient("oil"), burnt)),
    }
    if costs.def_price is not None:
        parts["def"] = float(book.fuel_cost.bare(costs.def_price, def_fluid))
    if costs.wage is not None:
        parts["labour"] = float(book.labour_cost.bare(costs.wage, costs.labour_factor or choice("labour")))
        if helper > 0:  # hours that are known as they are, so the factor of labour isn't on them
            parts["helper"] = float(book.labour_cost.bare(costs.wage, helper / field_hours))
    if costs.wear is not None:
        parts["wear"] = costs.wear * capacity
    per_area = float(book.cost_per_area.bare(sum(parts.values()), capacity))
    owning = (parts["owning_tractor"] + parts["owning_tool"]) * hours
    running = per_area - owning / area
    loss, value = costs.loss_a_day, costs.crop_value
    return Money(
        parts=parts,
        area=area,
        hours=hours,
        salvage=salvage,
        hire=costs.hire,
        break_even=_break_even(costs, owning, running),
        delay=None if loss is None or value is None or not fit > 0 else float(book.timeliness_cost.bare(
            loss.to("1/day"), area, value, _ALL_AFTER, capacity, field_hours, fit)),
        gain_needed=None if costs.crop_price is None or not costs.crop_price else float(
            book.gain_to_pay.bare(per_area, costs.crop_price)),
        margin=None if costs.gain is None else costs.gain - per_area,
        energy=fuel / capacity * choice("diesel_heat"),
        carbon=float(book.carbon_per_area.bare(fuel / capacity, choice("diesel_carbon"))),
    )  # fmt: skip


def _break_even(costs: Costs, owning: float, running: float) -> float | None:
    if costs.hire is None or costs.hire <= running:
        return None
    return float(book.break_even_area.bare(owning, costs.hire, running))


def _owning(b: BareRig, rig: Rig, costs: Costs, hours: float) -> Any:
    """Give (owning a year, repairs an hour) of tractor and of tool, the tractor's hours a year, the shares left at the end."""
    tractor_hours = max(costs.tractor_hours.to("h"), hours) if costs.tractor_hours is not None else hours
    power = float(b.rated_pto)
    value_class = next(name for most, name in _VALUE_CLASSES if power <= most)
    field_row = "tractor_4wd_crawler" if rig.tractor.drive in ("4WD", "track") else "tractor_2wd_stationary"
    made: list[tuple[float, float]] = []
    shares: dict[str, float] = {}
    assert costs.tractor_price is not None
    assert costs.tool_price is not None
    for name, price, row, machine, used, years in (
        ("tractor", costs.tractor_price, field_row, value_class, tractor_hours, costs.years or choice("years_tractor")),
        ("tool", costs.tool_price, _tool_row(rig), "tillage_tool", hours, costs.years or choice("years_tool")),
    ):
        list_price = price / costs.coefficient("price_of_list")
        life = table("d497_field_operations")[row]["life"]
        years = years if costs.years else min(years, life / used)  # nobody keeps it beyond its hours
        c = table("remaining_value")[machine]
        typed_left, typed_repairs = getattr(costs, f"salvage_{name}"), getattr(costs, f"repairs_{name}")
        left = (float(book.remaining_value.bare(c["c1"], c["c2"], c["c3"], years, used)) if typed_left is None
                else float(typed_left.to("1")))  # fmt: skip
        interest = costs.coefficient("interest")
        factor = 1 / years if interest == 0 else book.capital_recovery_factor.bare(interest, years)
        salvage = min(left * list_price, price)
        a_year = book.capital_recovery.bare(price, salvage, factor, interest)
        a_year += book.taxes_insurance_housing.bare(costs.coefficient("holding"), price, salvage)
        r = table("d497_field_operations")[row]
        repairs = (book.repairs_since_new.bare(r["repair_factor_1"], r["repair_factor_2"], list_price, used * years)
                   if typed_repairs is None else list_price * typed_repairs.to("1"))  # fmt: skip
        made.append((float(a_year), float(repairs) / (used * years)))
        shares[name] = left
    return made[0], made[1], tractor_hours, shares


def _tool_row(rig: Rig) -> str:
    return next((row for start, row in _TOOLS.items() if rig.implement.tool.startswith(start)), "chisel_plow_or_coulter_chisel")
