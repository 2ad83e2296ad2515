"""What gives out first: every limit as a share used, 1.0 being at the limit.

`shares` works on bare numbers and arrays, for pictures and for the reverse questions; `margins` turns one point into
named margins with words.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.equation import words
from rigcalc.core.tables import Row, table
from rigcalc.core.units import factor, weight_of
from rigcalc.models.machine.operating_point import Point, Record
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.rig import Rig

STEER_SHARE = 0.20  # operator_manual (maker withheld): at least 20 percent of the unladen weight on the front axle
TIGHT = 0.9  # our choice: from this share up a limit is called tight
SLIP_CAP = 0.15  # isu_a3_27: fuel tables assume slip under 15 percent; used where no band is known


@dataclass(frozen=True)
class Caps:
    """Limits that a rig file or a table gives, in bare units; None where unknown."""

    slip_low: float
    slip_high: float
    slip_source: str
    front_load: float | None
    rear_load: float | None
    front_pressure: float | None
    rear_pressure: float | None
    hitch_load: float | None
    tool_depth: float | None
    tool_power: float | None
    critical_depth: float | None
    extreme_depth: float | None
    usual_depth: tuple[float, float] | None
    usual_speed: tuple[float, float]


@dataclass(frozen=True)
class Limit:
    """A limit: short name, title in words, whether passing it means that the job can't be done or may break something."""

    name: str
    title: str
    hard: bool
    value: str = ""
    source: str = ""


LIMITS: dict[str, Limit] = {limit.name: limit for limit in (
    Limit("engine", "engine power", True, "engine_power", "rig file; power ratios of d497"),
    Limit("grip", "grip", True, "net_pull", "traction equations, peak net pull"),
    Limit("front_load", "front axle load", True, "front_load", "rig file"),
    Limit("rear_load", "rear axle load", True, "rear_load", "rig file"),
    Limit("front_pressure", "front track pressure", True, "", "rig file"),
    Limit("rear_pressure", "rear track pressure", True, "", "rig file"),
    Limit("steering", "weight left to steer", True, "front_load", "operator manual (maker withheld): 20 percent in front"),
    Limit("hitch_load", "load on the hitch", True, "", "rig file"),
    Limit("tool_depth", "the tool's rated depth", True, "depth", "rig file"),
    Limit("tool_power", "the tool's rated power", True, "", "rig file"),
    Limit("slip", "slip band", False, "slip", "slip_bands"),
    Limit("critical_depth", "critical depth of the point", False, "depth", "bc_soil_handbook: 5 to 7 point widths"),
    Limit("equation_range", "range of the equations", False, "", "valid range of each equation's source"),
    Limit("extreme_depth", "depth that counts as extreme for this tool", False, "depth", "common practice"),
)}  # fmt: skip

# Passing one of these means the work goes badly, so the reverse answers stop at them as well as at the hard limits.
WORKING = ("slip",)


def caps(rig: Rig, b: BareRig) -> Caps:
    """Collect the limits of a rig from its file and the tables."""
    tractor, implement = rig.tractor, rig.implement
    low, high, source = _slip_band(rig)
    usual = next((row for row in table("usual_depths") if row["tool"] == implement.tool), None)
    speeds = table("d497_field_operations")["chisel_plow_or_coulter_chisel"]
    ratio = table("critical_depth")["usual"]

    def axle(mass: Any, gear: Any) -> float | None:
        known = [limit for limit in (weight_of(mass.to("kg")) if mass else None, gear and gear.load_limit) if limit]
        return min(known) if known else None

    return Caps(
        slip_low=low,
        slip_high=high,
        slip_source=source,
        front_load=axle(tractor.front_axle_mass_limit, b.front),
        rear_load=axle(tractor.rear_axle_mass_limit, b.rear),
        front_pressure=b.front.pressure_limit if b.front else None,
        rear_pressure=b.rear.pressure_limit,
        hitch_load=tractor.drawbar_load_limit.to("kN") if tractor.drawbar_load_limit else None,
        tool_depth=implement.rated_depth.to("cm") if implement.rated_depth else None,
        tool_power=implement.rated_power_per_tool.to("kW") if implement.rated_power_per_tool else None,
        critical_depth=implement.point_width.to("cm") * (ratio["low"] + ratio["high"]) / 2 if implement.point_width else None,
        extreme_depth=usual["extreme"] * factor("in", "cm") if usual and usual["extreme"] else None,
        usual_depth=_span(usual, "usual", "in", "cm") if usual else None,
        usual_speed=_span(speeds, "speed", "mph", "km/h"),
    )


def _span(row: Row, name: str, unit: str, to: str) -> tuple[float, float]:
    """Give the two ends of a span in a table's row, in another unit."""
    return row[f"{name}_low"] * factor(unit, to), row[f"{name}_high"] * factor(unit, to)


def _slip_band(rig: Rig) -> tuple[float, float, str]:
    """Give the slip band: what the sources span for this surface on wheels, or for tracks."""
    gears = [gear for gear in (rig.tractor.front, rig.tractor.rear) if gear and gear.driven]
    if all(gear.kind == "track" for gear in gears):
        rows = [row for row in table("slip_bands") if row["tractor_type"] == "track"]
        words = "a low-confidence memory for tracks on firm ground"
    else:
        surface = "firm" if rig.ground.surface == "hard" else rig.ground.surface
        rows = [row for row in table("slip_bands") if row["surface"] == surface and row["kind"] == "optimum"]
        words = f"the span of {len(rows)} source{'s' if len(rows) > 1 else ''} for {surface} ground"
    if not rows:
        return 0.0, SLIP_CAP, "the 15 percent that fuel tables assume"
    return min(row["low"] for row in rows) / 100, max(row["high"] for row in rows) / 100, words


def shares(b: BareRig, p: Point, c: Caps) -> dict[str, Any]:
    """Give every known limit's share used, by name; arrays where the point holds arrays.

    A share is infinite where a load can't be carried at all or there is no grip left. Where grip can't give the pull there is
    no slip and no engine power, so their shares are NaN; grip itself is then over 1.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        out: dict[str, Any] = {
            "engine": p.engine_share * b.rated_pto / b.maximum_pto,
            "grip": np.where(p.peak_pull > 0, p.net_pull / p.peak_pull, np.where(p.net_pull > p.peak_pull, np.inf, 0.0)),
        }
        if b.front is not None:
            least = STEER_SHARE * b.weight
            out["steering"] = np.where(p.front_load > 0, least / np.maximum(p.front_load, 1e-300), np.inf)
        if c.front_load and b.front is not None:
            out["front_load"] = p.front_load / c.front_load
        if c.rear_load:
            out["rear_load"] = p.rear_load / c.rear_load
        if c.front_pressure and b.front is not None:
            out["front_pressure"] = p.front_load / b.front.contact_area / c.front_pressure
        if c.rear_pressure:
            out["rear_pressure"] = p.rear_load / b.rear.contact_area / c.rear_pressure
        if c.hitch_load:
            out["hitch_load"] = b.hitch_load / c.hitch_load + 0 * p.draft
        if c.tool_depth:
            out["tool_depth"] = p.depth / c.tool_depth
        if c.tool_power:
            out["tool_power"] = p.engine_power / p.tools / c.tool_power
        out["slip"] = p.slip / c.slip_high
        if c.critical_depth:
            out["critical_depth"] = p.depth / c.critical_depth
        if c.extreme_depth:
            out["extreme_depth"] = p.depth / c.extreme_depth
    return {name: np.asarray(out[name], float)[()] for name in LIMITS if name in out}


@dataclass(frozen=True)
class RangeUse:
    """The equation's input that stands nearest to the end of its source's range, or farthest beyond it.

    share: 1.0 at the end of the range; value and end in `unit`.
    """

    share: float
    value: float
    end: float
    unit: str
    text: str


def range_use(record: Record) -> RangeUse | None:
    """Find, among recorded equations, the input that uses most of its source's valid range; None without any range."""
    found: list[RangeUse] = []
    for eq, values in record:
        for symbol, value in zip(eq.takes, values, strict=True):
            if symbol.name in eq.valid and np.isfinite(value):
                low, high = eq.valid[symbol.name]
                number = float(value)
                text = f"{words(symbol.name)} {number:.3g} in {low:g} to {high:g} ({words(eq.__name__)})"
                found.append(RangeUse(number / high, number, high, symbol.unit, text))
                if low > 0 and number > 0:
                    found.append(RangeUse(low / number, number, low, symbol.unit, text))
    return max(found, key=lambda use: use.share, default=None)


def worst(used: dict[str, Any], hard_only: bool = False) -> tuple[Any, Any]:
    """Give, among hard and working limits, the greatest share and the name that has it."""
    names = _counting(used, hard_only)
    stacked = np.stack(np.broadcast_arrays(*(used[name] for name in names)))
    stacked = np.where(np.isnan(stacked), -np.inf, stacked)
    order = np.asarray(np.asarray(names)[stacked.argmax(axis=0)])
    return stacked.max(axis=0)[()], order[()]


def state_of(used: float | None) -> str:
    """Give the state of a limit by the share of it that is used: "ok", "tight", "over", or "unknown" for None."""
    if used is None:
        return "unknown"
    return "over" if not used <= 1.0 else "tight" if used >= TIGHT else "ok"


def works(used: dict[str, Any]) -> Any:
    """True where every hard limit holds and the work goes well: a bool, or an array of them. A share of NaN doesn't hold."""
    return np.logical_and.reduce([used[name] <= 1.0 for name in _counting(used)])[()]


def _counting(used: dict[str, Any], hard_only: bool = False) -> list[str]:
    return [name for name in used if LIMITS[name].hard or (not hard_only and name in WORKING)]


def limit_values(b: BareRig, p: Point, c: Caps) -> dict[str, tuple[Any, Any, str]]:
    """Give (value, limit, unit) of every limit at one point, in bare units, for showing."""
    front_area = b.front.contact_area if b.front and b.front.kind == "track" else np.nan
    rear_area = b.rear.contact_area if b.rear.kind == "track" else np.nan
    return {
        "engine": (p.engine_power, b.maximum_pto * b.engine_per_pto, "kW"),
        "grip": (p.net_pull, p.peak_pull, "kN"),
        "front_load": (p.front_load, c.front_load, "kN"),
        "rear_load": (p.rear_load, c.rear_load, "kN"),
        "front_pressure": (p.front_load / front_area, c.front_pressure, "kPa"),
        "rear_pressure": (p.rear_load / rear_area, c.rear_pressure, "kPa"),
        "steering": (p.front_load, STEER_SHARE * b.weight, "kN"),
        "hitch_load": (b.hitch_load, c.hitch_load, "kN"),
        "tool_depth": (p.depth, c.tool_depth, "cm"),
        "tool_power": (p.engine_power / p.tools, c.tool_power, "kW"),
        "slip": (p.slip, c.slip_high, "1"),
        "critical_depth": (p.depth, c.critical_depth, "cm"),
        "extreme_depth": (p.depth, c.extreme_depth, "cm"),
    }  # fmt: skip
