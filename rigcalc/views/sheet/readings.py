"""What the screen in the cab should show, each figure with the band outside which to stop and look."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.equations import capacity
from rigcalc.models.machine.engine import available_pto
from rigcalc.models.machine.engine import burn as burn_at
from rigcalc.models.rig.tool import least_efficiency
from rigcalc.words.numbers import figure, percent, say
from rigcalc.words.size import SizeWords


@dataclass(frozen=True)
class Reading:
    """One figure of the screen: its name, the value to expect and its unit, the band's ends, and what it is a share of."""

    name: str
    value: str
    unit: str
    low: str
    high: str
    share_of: str = ""


def readings(words: SizeWords) -> tuple[Reading, ...]:
    """Give slip, engine load, fuel each hour and area each hour; empty where the rig can't pull.

    The bands of the first three are those of "8 fields in 10", cut where a limit comes first: the top of the slip band,
    the engine's most power, the fuel that it burns there. The area's band runs from the lowest field efficiency that
    table d497_field_operations has for the tool (for any work, where it doesn't know the tool) to no time lost at all.
    """
    answer, units = words.answer, words.units
    if not answer.pulls:
        return ()
    p, b, bands = answer.point.bare, answer.bare_rig, answer.sure.bands
    most_share = available_pto(b) / b.rated_pto
    most_fuel = burn_at(b, most_share, b.engine_speed_share)
    slip = _band(bands["slip"], answer.caps.slip_high)
    load = _band(bands["engine_share"], most_share)
    burn = _band(bands["fuel_rate"], most_fuel)
    worst = least_efficiency(answer.rig.implement.tool)
    least = capacity.effective_field_capacity.bare(p.speed, p.width, worst)
    most = capacity.effective_field_capacity.bare(p.speed, p.width, 1.0)
    return (
        Reading("Slip", *figure(p.slip, "1", units), percent(slip[0]), percent(slip[1])),
        Reading("Engine load", *figure(p.engine_share, "1", units), percent(load[0]), percent(load[1]), "of rated"),
        Reading("Fuel", *figure(p.fuel_rate, "L/h", units), say(burn[0], "L/h", units), say(burn[1], "L/h", units)),
        Reading("Area", *figure(p.field_capacity, "ha/h", units), say(least, "ha/h", units), say(most, "ha/h", units)),
    )  # fmt: skip


def _band(band: tuple[float | None, float | None, float | None, str], most: float) -> tuple[float, float]:
    """Give a band's ends, the upper one no higher than `most`; an end that grip can't reach lies at `most`."""
    low, _, high, _ = band
    ends = (most if low is None else low, most if high is None else min(high, most))
    return min(ends), ends[1]
