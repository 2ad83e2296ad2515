"""What the screen in the cab should show, each figure with the band outside which to stop and look."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.core.tables import table
from rigcalc.equations import capacity, fuel
from rigcalc.models import Answer
from rigcalc.words.numbers import percent, say


@dataclass(frozen=True)
class Reading:
    """One figure of the screen: its name, the value to expect, the band's ends, and what the band means."""

    name: str
    value: str
    low: str
    high: str
    about: str


def readings(answer: Answer) -> tuple[Reading, ...]:
    """Give slip, engine load, fuel each hour and area each hour; empty where the rig can't pull.

    The bands of the first three are those of "8 fields in 10", cut where a limit comes first: the top of the slip band,
    the engine's most power, the fuel that it burns there. The area's band runs from the lowest field efficiency that
    table d497_field_operations has for a chisel to no time lost at all.
    """
    if not answer.pulls:
        return ()
    p, b, units, bands = answer.point.bare, answer.bare_rig, answer.units, answer.sure.bands
    most_share = b.maximum_pto / b.rated_pto
    most_fuel = fuel.fuel_rate.bare(b.rated_pto, most_share)
    most_fuel *= fuel.partial_throttle_multiplier.bare(most_share, b.engine_speed_share)
    slip = _band(bands["slip"], answer.caps.slip_high)
    load = _band(bands["engine_share"], most_share)
    burn = _band(bands["fuel_rate"], most_fuel)
    worst = table("d497_field_operations")["chisel_plow_or_coulter_chisel"]["efficiency_low"] / 100
    least = capacity.effective_field_capacity.bare(p.speed, p.width, worst)
    most = capacity.effective_field_capacity.bare(p.speed, p.width, 1.0)
    return (
        Reading("Slip", percent(p.slip), percent(slip[0]), percent(slip[1]), "of travel"),
        Reading("Engine load", percent(p.engine_share), percent(load[0]), percent(load[1]), "of rated power"),
        Reading("Fuel", say(p.fuel_rate, "L/h", units), say(burn[0], "L/h", units), say(burn[1], "L/h", units), "each hour"),
        Reading("Area", say(p.field_capacity, "ha/h", units), say(least, "ha/h", units), say(most, "ha/h", units),
                "each hour, turns included"),
    )  # fmt: skip


def _band(band: tuple[float | None, float | None, float | None, str], most: float) -> tuple[float, float]:
    """Give a band's ends, the upper one no higher than `most`; an end that grip can't reach lies at `most`."""
    low, _, high, _ = band
    ends = (most if low is None else low, most if high is None else min(high, most))
    return min(ends), ends[1]
