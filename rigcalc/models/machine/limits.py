"""What gives out first: every limit as a share used, 1.0 being at the limit.

`shares` works on bare numbers and arrays, for pictures and for the reverse questions; `limit_values` gives what each
share is made of.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.tables import table
from rigcalc.core.units import weight_of
from rigcalc.models.machine.contact import peak_pressure
from rigcalc.models.machine.draft_force import gangs_force
from rigcalc.models.machine.engine import available_pto
from rigcalc.models.machine.operating_point import Point, Record
from rigcalc.models.rig.bare import BareRig, ratio
from rigcalc.models.rig.liquid import hung_mass
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.tool import Usual, usual

STEER_SHARE = table("steering")["rest"]["share"] / 100  # of the tractor's weight on the front axle, as it was weighed
STEER_PULL_SHARE = table("steering")["pull"]["share"] / 100  # under pull: lower, ours, and advice alone
TIGHT = 0.9  # our choice: from this share up a limit is called tight


@dataclass(frozen=True)
class SlipSource:
    """Where a slip band is from, and how many sources there are.

    of: the surface it is for; "track" (from memory) or "track_fitted" (our own curve); "cone_index" or "track_by_cone_index"
    for a band between those of the surfaces.
    """

    of: str
    count: int


@dataclass(frozen=True)
class Caps:
    """Limits that a rig file or a table gives, in bare units; None where unknown."""

    slip_low: float
    slip_high: float
    slip_source: SlipSource
    front_load: float | None
    rear_load: float | None
    front_pressure: float | None
    rear_pressure: float | None
    hitch_load: float | None
    tool_depth: float | None
    tool_power: float | None  # kW of engine power a tool
    critical_depth: float | None
    extreme_depth: float | None
    usual_depth: tuple[float, float] | None
    usual_speed: tuple[float, float] | None
    to_drawbar: float = 1.0  # share of engine power that gets to the drawbar, by the table of power ratios
    row_depth: float | None = None  # cm: past the deep end of the subsoiler's usual depth no row of the table is meant
    bare_mass: float | None = None  # kg: without pieces and liquid; what the rig file doesn't list can't come off
    mass_limit: float | None = None  # kg


@dataclass(frozen=True)
class Limit:
    """A limit: its name, and whether passing it means that the job can't be done or may break something."""

    name: str
    hard: bool
    value: str = ""


LIMITS: dict[str, Limit] = {limit.name: limit for limit in (
    Limit("tipping", True, "tipping"),
    Limit("holding", True, "braking"),
    Limit("engine", True, "engine_power"),
    Limit("grip", True, "net_pull"),
    Limit("front_load", True, "front_load"),
    Limit("rear_load", True, "rear_load"),
    Limit("front_pressure", True),
    Limit("rear_pressure", True),
    Limit("steering", False, "front_load"),
    Limit("steering_rest", False),
    Limit("hitch_load", True),
    Limit("tool_depth", True, "depth"),
    Limit("tool_power", True),
    Limit("slip", False, "slip"),
    Limit("resultant", False, "resultant_ahead"),
    Limit("critical_depth", False, "depth"),
    Limit("equation_range", False),
    Limit("extreme_depth", False, "depth"),
)}  # fmt: skip

# The outputs of the chain that `shares` looks at, for `solve(..., want=NEEDS)`.
NEEDS = ("depth", "tools", "draft", "net_pull", "peak_pull", "slip", "front_load", "rear_load", "engine_power", "engine_share",
         "tipping", "resultant_ahead", "braking")  # fmt: skip

# Passing one of these means the work goes badly, so the reverse answers stop at them as well as at the hard limits.
WORKING = ("slip", "resultant")


def caps(rig: Rig, b: BareRig) -> Caps:
    """Collect the limits of a rig from its file and the tables."""
    tractor, implement = rig.tractor, rig.implement
    low, high, source = _slip_band(rig, b)
    know = usual(implement.tool)
    width, widths = implement.point_width, know.critical_ratio

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
        critical_depth=width.to("cm") * (widths[0] + widths[1]) / 2 if width and widths else None,
        extreme_depth=know.extreme,
        usual_depth=know.depth,
        usual_speed=know.speed,
        to_drawbar=ratio("drawbar_from_pto", tractor.drive, _named(rig)) / b.engine_per_pto,
        row_depth=_row_depth(know),
        bare_mass=rig.tractor.front_axle_mass.to("kg") + rig.tractor.rear_axle_mass.to("kg") - hung_mass(rig),
        mass_limit=rig.setup.mass_limit.to("kg") if rig.setup and rig.setup.mass_limit else None,
    )


def _row_depth(know: Usual) -> float | None:
    """Give the deep end of what the tool's own row, or the row that is asked below its usual depth, is meant for, cm."""
    rows = [row["operation"] for row in table("d497_draft") if row["tool"] == know.second_opinion]
    other = usual(str(know.second_opinion)).depth if rows else None
    return (other or know.depth or (0.0, None))[1]


def _named(rig: Rig) -> str:
    """Give the surface as the tables of slip and power ratios name it: hard ground stands under firm."""
    return "firm" if rig.ground.surface == "hard" else rig.ground.surface


def _slip_band(rig: Rig, b: BareRig) -> tuple[float, float, SlipSource]:
    """Give the slip band: what the sources span for this surface on wheels, or on tracks; between surfaces by cone index."""
    driven = (
        rig.tractor.front if rig.tractor.drives("front") else None,
        rig.tractor.rear if rig.tractor.drives("rear") else None,
    )
    on_tracks = all(gear.kind == "track" for gear in driven if gear)
    spans = {name: _span_of_slip(name, on_tracks) for name in ("soft", "tilled", "firm")}
    if rig.ground.cone_index is None:
        return spans[_named(rig)]
    known = [table("traction_soil_classes")[name]["cone_index"] for name in spans]
    lows, highs = [span[0] for span in spans.values()], [span[1] for span in spans.values()]
    low, high = (float(np.interp(b.cone_index, known, ends)) for ends in (lows, highs))
    return low, high, SlipSource("track_by_cone_index" if on_tracks else "cone_index", len(spans))


def _span_of_slip(surface: str, on_tracks: bool) -> tuple[float, float, SlipSource]:
    rows = [row for row in table("slip_bands") if row["surface"] == surface
            and (row["tractor_type"] == "track" if on_tracks else row["kind"] == "optimum")]  # fmt: skip
    of = surface if not on_tracks else "track" if surface == "firm" else "track_fitted"
    return min(row["low"] for row in rows) / 100, max(row["high"] for row in rows) / 100, SlipSource(of, len(rows))


def shares(b: BareRig, p: Point, c: Caps) -> dict[str, Any]:
    """Give every known limit's share used, by name; arrays where the point holds arrays.

    A share is infinite where a load can't be carried at all or there is no grip left. Where grip can't give the pull there is
    no slip and no engine power, so their shares are NaN; grip itself is then over 1.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        out: dict[str, Any] = {
            "engine": p.engine_share * b.rated_pto / available_pto(b),
            "grip": np.where(p.peak_pull > 0, p.net_pull / p.peak_pull, np.where(p.net_pull > p.peak_pull, np.inf, 0.0)),
        }
        out["tipping"] = p.tipping
        if np.any(p.braking > 0):
            out["holding"] = np.where(p.braking > 0, np.where(p.peak_pull > 0, p.braking / p.peak_pull, np.inf), 0.0)
        if b.front is None:
            out["resultant"] = np.abs(p.resultant_ahead) / (b.rear.length / 6)
        if b.front is not None:
            least = STEER_PULL_SHARE * b.weight
            steered = np.where(p.front_load > 0, least / np.maximum(p.front_load, 1e-300), np.inf)
            out["steering"] = np.where(p.tipping < 1, steered, np.nan)  # a tractor that tips over has nothing to steer with
            out["steering_rest"] = STEER_SHARE * b.weight / b.front_weight + 0 * p.draft
        if c.front_load and b.front is not None:
            out["front_load"] = p.front_load / c.front_load
        if c.rear_load:
            out["rear_load"] = p.rear_load / c.rear_load
        if c.front_pressure and b.front is not None:
            out["front_pressure"] = p.front_load / b.front.contact_area / c.front_pressure
        if c.rear_pressure:
            out["rear_pressure"] = _rear_pressure(b, p) / c.rear_pressure
        if c.hitch_load:
            out["hitch_load"] = b.hitch_load / c.hitch_load + 0 * p.draft
        if c.tool_depth:
            out["tool_depth"] = p.depth / c.tool_depth
        if c.tool_power:
            out["tool_power"] = _tool_power(b, p, c) / c.tool_power
        out["slip"] = p.slip / c.slip_high
        if c.critical_depth:
            out["critical_depth"] = p.depth / c.critical_depth
        if c.extreme_depth:
            out["extreme_depth"] = p.depth / c.extreme_depth
    return {name: np.asarray(out[name], float)[()] for name in LIMITS if name in out}


@dataclass(frozen=True)
class RangeUse:
    """The equation's input that stands nearest to the end of its source's range, or farthest beyond it.

    share: 1.0 at the end of the range; value, end and the range's `low` and `high` in `unit`.
    """

    share: float
    value: float
    end: float
    low: float
    high: float
    unit: str
    symbol: str
    equation: str


def range_use(record: Record) -> RangeUse | None:
    """Find, among recorded equations, the input that uses most of its source's valid range; None without any range."""
    found: list[RangeUse] = []
    for eq, values in record:
        for symbol, value in zip(eq.takes, values, strict=True):
            if symbol.name in eq.valid and np.isfinite(value):
                low, high = eq.valid[symbol.name]
                number = float(value)
                what = (low, high, symbol.unit, symbol.name, eq.__name__)
                found.append(RangeUse(number / high, number, high, *what))
                if low > 0 and number > 0:
                    found.append(RangeUse(low / number, number, low, *what))
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
    out = {
        "tipping": (p.tipping, 1.0, "1"),
        "engine": (p.engine_power, available_pto(b) * b.engine_per_pto, "kW"),
        "grip": (p.net_pull, p.peak_pull, "kN"),
        "front_load": (p.front_load, c.front_load, "kN"),
        "rear_load": (p.rear_load, c.rear_load, "kN"),
        "front_pressure": (p.front_load / front_area, c.front_pressure, "kPa"),
        "rear_pressure": (_rear_pressure(b, p), c.rear_pressure, "kPa"),
        "steering": (p.front_load, STEER_PULL_SHARE * b.weight if b.front else None, "kN"),
        "steering_rest": (b.front_weight, STEER_SHARE * b.weight if b.front else None, "kN"),
        "hitch_load": (b.hitch_load, c.hitch_load, "kN"),
        "tool_depth": (p.depth, c.tool_depth, "cm"),
        "tool_power": (_tool_power(b, p, c), c.tool_power, "kW"),
        "slip": (p.slip, c.slip_high, "1"),
        "critical_depth": (p.depth, c.critical_depth, "cm"),
        "extreme_depth": (p.depth, c.extreme_depth, "cm"),
    }  # fmt: skip
    if b.front is None:
        out["resultant"] = (np.abs(p.resultant_ahead), b.rear.length / 6, "m")
    if np.any(p.braking > 0):
        out["holding"] = (p.braking, p.peak_pull, "kN")
    return out


def _tool_power(b: BareRig, p: Point, c: Caps) -> Any:
    """Give the engine power, kW, behind each tool on a usual tractor: what this one takes to roll itself loads no tool.

    Nor does the draft of gangs beside the tool.
    """
    own = p.draft - gangs_force(b) if b.gangs else p.draft
    return own * b.speed / 3.6 / p.tools / c.to_drawbar + 0 * p.slip  # none where it stands still


def _rear_pressure(b: BareRig, p: Point) -> Any:
    """Give the greatest pressure under the rear tracks, kPa: at the heavier end of two tracks; NaN for tyres."""
    if b.rear.kind != "track":
        return np.nan * p.rear_load
    mean = p.rear_load / b.rear.contact_area
    return mean if b.front is not None else peak_pressure(mean, p.resultant_ahead, b.rear.length)
