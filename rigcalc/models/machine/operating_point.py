"""The operating point: where draft, weight transfer, grip and engine meet in steady pull.

In steady pull the net pull equals draft, grade and the implement's rolling resistance, so axle loads and mobility numbers
are known before slip is; the kernel then gives slip in one step. `solve` works on bare numbers and arrays of any shape;
`operating_point` takes a rig and quantities and gives quantities.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any

import numpy as np

from rigcalc.core.equation import Equation
from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import Q
from rigcalc.equations import balance, capacity, draft, fuel, power, traction_wheel
from rigcalc.models.machine import engine, statics
from rigcalc.models.machine.grip import Grip
from rigcalc.models.rig.bare import BareRig, bare
from rigcalc.models.rig.rig import Rig

Record = list[tuple[Equation, tuple[Any, ...]]]


@dataclass(frozen=True)
class Point:
    """An operating point in bare numbers (unit of each in `UNITS`). NaN wherever the rig can't pull."""

    depth: Any
    speed: Any
    tools: Any
    width: Any
    draft: Any
    specific_draft: Any
    drawbar_pull: Any
    net_pull: Any
    peak_pull: Any
    missing_pull: Any
    slip: Any
    slip_at_peak: Any
    no_slip_speed: Any
    front_load: Any
    rear_load: Any
    front_load_at_rest: Any
    rear_load_at_rest: Any
    front_mobility: Any
    rear_mobility: Any
    axle_force: Any
    axle_power: Any
    pto_power: Any
    engine_power: Any
    engine_share: Any
    drawbar_power: Any
    tractive_efficiency: Any
    fuel_rate: Any
    fuel_per_area: Any
    def_rate: Any
    field_capacity: Any


_POINT = tuple(each.name for each in fields(Point))


UNITS: dict[str, str] = {
    "depth": "cm", "speed": "km/h", "tools": "1", "width": "m", "draft": "kN", "specific_draft": "kPa",
    "drawbar_pull": "kN", "net_pull": "kN", "peak_pull": "kN", "missing_pull": "kN", "slip": "1", "slip_at_peak": "1",
    "no_slip_speed": "km/h", "front_load": "kN", "rear_load": "kN", "front_load_at_rest": "kN", "rear_load_at_rest": "kN",
    "front_mobility": "1", "rear_mobility": "1", "axle_force": "kN", "axle_power": "kW", "pto_power": "kW",
    "engine_power": "kW", "engine_share": "1", "drawbar_power": "kW", "tractive_efficiency": "1",
    "fuel_rate": "L/h", "fuel_per_area": "L/ha", "def_rate": "L/h", "field_capacity": "ha/h",
}  # fmt: skip


class OperatingPoint:
    """An operating point as quantities: every name of `UNITS` is an attribute; `pulls` says where it can be pulled."""

    def __init__(self, point: Point):
        self.bare = point

    @property
    def pulls(self) -> Any:
        """True where grip is enough: a bool, or an array of them."""
        return np.isfinite(self.bare.slip)[()]

    @property
    def travel_speed(self) -> Any:
        """Travel speed over the ground (the same as `speed`)."""
        return self.speed

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_") or name not in UNITS:
            raise AttributeError(f"an operating point has no {name}; it has {', '.join(UNITS)}")
        return Q(getattr(self.bare, name), UNITS[name])

    def __repr__(self) -> str:
        """Show the main figures."""
        return f"OperatingPoint(draft={self.draft:.4g}, slip={self.slip:.3g}, engine_share={self.engine_share:.3g})"


def operating_point(rig: Rig, *, depth: Any = None, speed: Any = None, tools: Any = None, threads: int = 1) -> OperatingPoint:
    """Find the operating point of a rig.

    depth, speed: quantities of any shape that broadcast (default: the rig's own). tools: whole numbers.
    Gives an OperatingPoint whose attributes are quantities of the common shape; NaN where the rig can't pull, with the
    pull that is missing in `missing_pull`. Raises InputError for a value that can't be worked.
    """
    changes = {name: value for name, value in (("depth", depth), ("speed", speed), ("tools", tools)) if value is not None}
    return OperatingPoint(solve(bare(rig).at(**bare_work(**changes)), threads=threads))


def bare_work(**values: Any) -> dict[str, Any]:
    """Check depth, speed and tools given as quantities, and give them as bare numbers. Raises InputError."""
    wanted = {"depth": ("cm", "Q(14, 'in')"), "speed": ("km/h", "Q(5.5, 'mph')"), "tools": ("1", "15")}
    faults, out = [], {}
    for name, value in values.items():
        unit, example = wanted[name]
        try:
            number = np.asarray(value if name == "tools" and not hasattr(value, "magnitude") else value.m_as(unit or ""), float)
        except Exception:  # pint raises many kinds; each means the same to the user
            faults.append(Fault(name, shown(value), f"a quantity that converts to {unit}", example))
            continue
        if not number.size or not np.isfinite(number).all() or (number <= 0).any():
            faults.append(Fault(name, shown(value), "finite and above zero", example))
        elif name == "tools" and (number != np.round(number)).any():
            faults.append(Fault(name, shown(value), "a whole number", example))
        else:
            out[name] = number[()]
    if faults:
        raise InputError(faults)
    return out


def solve(
    b: BareRig, *, draft_factor: Any = 1.0, cone_factor: Any = 1.0, record: Record | None = None, threads: int = 1
) -> Point:
    """Find the operating point on bare numbers.

    draft_factor, cone_factor: multiply draft and cone index, for uncertainty; any shape that broadcasts.
    record: a list that gets every equation of the book with the values put in.
    """

    def use(eq: Equation, *values: Any) -> Any:
        if record is not None:
            record.append((eq, values))
        return eq.bare(*values)

    force = use(draft.implement_draft, b.soil_factor, b.draft_a, b.draft_b, b.draft_c, b.speed, b.tools, b.depth)
    force = force * draft_factor / 1000
    width = b.tools * b.spacing
    rolling = use(balance.implement_rolling_resistance, b.rolling_ratio, b.implement_weight * b.wheel_share)
    drawbar_pull = force + rolling + use(balance.grade_resistance, b.implement_weight, b.grade)
    net_pull = drawbar_pull + use(balance.grade_resistance, b.weight, b.grade)
    ahead = statics.center_ahead(b, use)
    rest_front, rest_rear = statics.gear_loads(b, *statics.axle_loads(b, ahead, 0.0, 0.0))
    front, rear = statics.gear_loads(b, *statics.axle_loads(b, ahead, drawbar_pull, b.hitch_load, use))
    grip, front_mobility, rear_mobility = _gripping(b, use, front, rear, cone_factor)
    slip, slip_at_peak, peak_pull = grip.slip(net_pull, threads)
    missing = np.where(np.isfinite(slip), 0.0, net_pull - peak_pull)

    axle_force = grip.axle_force(slip)
    turning = use(power.no_slip_speed, b.speed, slip)
    axle_power = use(power.axle_power, axle_force, turning / 3.6)
    pto = axle_power / b.axle_ratio
    share = pto / b.rated_pto
    drawbar_power = use(power.drawbar_power, drawbar_pull + 0 * slip, b.speed)
    capacity_ = use(capacity.effective_field_capacity, b.speed, width, b.field_efficiency) + 0 * slip
    burn = engine.burn(b.rated_pto, share, b.engine_speed_share, use)
    numbers = {
        "depth": b.depth, "speed": b.speed, "tools": b.tools, "width": width, "draft": force,
        "specific_draft": use(draft.specific_draft, force, width, b.depth / 100),
        "drawbar_pull": drawbar_pull, "net_pull": net_pull, "peak_pull": peak_pull, "missing_pull": missing,
        "slip": slip, "slip_at_peak": slip_at_peak, "no_slip_speed": turning,
        "front_load": front, "rear_load": rear, "front_load_at_rest": rest_front, "rear_load_at_rest": rest_rear,
        "front_mobility": front_mobility, "rear_mobility": rear_mobility,
        "axle_force": axle_force, "axle_power": axle_power, "pto_power": pto, "engine_power": pto * b.engine_per_pto,
        "engine_share": share, "drawbar_power": drawbar_power,
        "tractive_efficiency": np.divide(net_pull * b.speed / 3.6, axle_power),
        "fuel_rate": burn, "fuel_per_area": use(fuel.fuel_per_area, burn, capacity_),
        "def_rate": use(fuel.def_use, burn, b.def_share), "field_capacity": capacity_,
    }  # fmt: skip
    shape = np.broadcast_shapes(*(np.shape(value) for value in numbers.values()))
    return Point(**{name: _spread(numbers[name], shape) for name in _POINT})


def _spread(value: Any, shape: tuple[int, ...]) -> Any:
    """Give a number or array in the common shape; most are in it already."""
    if np.shape(value) == shape:
        return value if shape else np.float64(value)
    return np.broadcast_to(value, shape)


def slip_sweep(b: BareRig, slip: Any) -> tuple[Any, Any]:
    """Give (net pull, gross traction), kN, over an array of slips above zero, at the axle loads of the rig's own point."""
    point = solve(b)
    grip, _, _ = _gripping(b, statics.plain, point.front_load, point.rear_load, 1.0)
    return grip.pull(slip), grip.axle_force(slip)


def _gripping(b: BareRig, use: Any, front: Any, rear: Any, cone_factor: Any) -> tuple[Grip, Any, Any]:
    """Give the running gear's grip at these axle loads, and the mobility numbers of the front and rear wheels."""
    grip = Grip(use)
    cone = b.cone_index * np.asarray(cone_factor, float)
    front_mobility = grip.axle(b, b.front, front, cone) if b.front else np.nan
    if b.multipass and b.front and b.front.kind != "track" and b.rear.kind != "track":
        cone = use(traction_wheel.cone_index_after_pass, cone, front_mobility)
    return grip, front_mobility, grip.axle(b, b.rear, rear, cone)
