"""The operating point: where draft, weight transfer, grip and engine meet in steady pull.

In steady pull the net pull equals draft, grade and the implement's rolling resistance, so axle loads and mobility numbers
are known before slip is; the kernel then gives slip in one step. `solve` works on bare numbers and arrays of any shape;
`operating_point` takes a rig and quantities and gives quantities.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from os import PathLike
from typing import Any

import numpy as np

from rigcalc.core.equation import Equation
from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import Q
from rigcalc.core.values import apart
from rigcalc.models.machine import blocks
from rigcalc.models.machine.chain import Chain
from rigcalc.models.machine.draws import Draws
from rigcalc.models.machine.field import in_field
from rigcalc.models.rig.asked import asked
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.rig import Rig

Record = list[tuple[Equation, tuple[Any, ...]]]


@dataclass(frozen=True)
class Point:
    """An operating point in bare numbers (unit of each in `UNITS`). NaN wherever the rig can't pull, None where not wanted."""

    depth: Any = None
    speed: Any = None
    tools: Any = None
    width: Any = None
    draft: Any = None
    specific_draft: Any = None
    drawbar_pull: Any = None
    net_pull: Any = None
    peak_pull: Any = None
    missing_pull: Any = None
    slip: Any = None
    slip_at_peak: Any = None
    no_slip_speed: Any = None
    front_load: Any = None
    rear_load: Any = None
    front_load_at_rest: Any = None
    rear_load_at_rest: Any = None
    front_mobility: Any = None
    rear_mobility: Any = None
    axle_force: Any = None
    axle_power: Any = None
    pto_power: Any = None
    engine_power: Any = None
    engine_share: Any = None
    drawbar_power: Any = None
    tractive_efficiency: Any = None
    fuel_rate: Any = None
    mean_fuel_rate: Any = None
    fuel_per_area: Any = None
    def_rate: Any = None
    field_capacity: Any = None
    tipping: Any = None
    resultant_ahead: Any = None
    braking: Any = None


UNITS: dict[str, str] = {
    "depth": "cm", "speed": "km/h", "tools": "1", "width": "m", "draft": "kN", "specific_draft": "kPa",
    "drawbar_pull": "kN", "net_pull": "kN", "peak_pull": "kN", "missing_pull": "kN", "slip": "1", "slip_at_peak": "1",
    "no_slip_speed": "km/h", "front_load": "kN", "rear_load": "kN", "front_load_at_rest": "kN", "rear_load_at_rest": "kN",
    "front_mobility": "1", "rear_mobility": "1", "axle_force": "kN", "axle_power": "kW", "pto_power": "kW",
    "engine_power": "kW", "engine_share": "1", "drawbar_power": "kW", "tractive_efficiency": "1",
    "fuel_rate": "L/h", "mean_fuel_rate": "L/h", "fuel_per_area": "L/ha", "def_rate": "L/h", "field_capacity": "ha/h",
    "tipping": "1", "resultant_ahead": "m", "braking": "kN",
}  # fmt: skip


NAMES = tuple(UNITS)
# The order in which a record tells the story: from draft to slip, back to the engine, and what comes of it.
_RECORDED = tuple(dict.fromkeys(("net_pull", "rear_load", "slip", "axle_power", "drawbar_power", "field_capacity", "fuel_rate",
                                 "specific_draft", "fuel_per_area", *NAMES)))  # fmt: skip


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


def operating_point(
    rig: Rig | str | PathLike[str], *, depth: Any = None, speed: Any = None, tools: Any = None, threads: int = 1,
    strict: bool = False,
) -> OperatingPoint:  # fmt: skip
    """Find the operating point of a rig, or a whole field of them.

    Parameters
    ----------
    rig : Rig, str or pathlib.Path
        The rig, the path of its file, or the name of a demo rig.
    depth, speed : pint.Quantity, optional
        Lengths and speeds of any shapes that broadcast; the rig's own where none is given.
    tools : int or array_like, optional
        Numbers of tools; the rig's own where none is given.
    threads : int, optional
        Threads to spread a large array over.
    strict : bool, optional
        True refuses values outside the range that an equation's source gives; else they are worked all the same.

    Returns
    -------
    OperatingPoint
        draft, drawbar_pull (force), slip and shares (plain numbers), engine_power (power), fuel_rate (volume an hour) and more:
        quantities of the common shape. NaN where the rig can't pull, with the pull that is missing in `missing_pull`.

    Raises
    ------
    InputError
        For a rig that can't be read, a value that can't be worked, and options that aren't known: all at once.

    Examples
    --------
    >>> point = operating_point("two_track", depth=Q([12, 14], "in"), speed=Q(5.5, "mph"))
    >>> point.draft.m_as("lbf").round(-2).tolist(), point.pulls.tolist()
    ([10300.0, 12500.0], [True, True])
    """
    changes = {name: value for name, value in (("depth", depth), ("speed", speed), ("tools", tools)) if value is not None}
    numbers, faults = bare_work(**changes)
    rig = asked(rig, faults, threads=threads, strict=strict)
    record: Record | None = [] if strict else None
    point = solve(in_field(rig).at(**numbers), record=record, threads=threads)
    hold_to_range(record or [])
    return OperatingPoint(point)


def hold_to_range(record: Record) -> None:
    """Refuse values that left the range of an equation that was used. Raises InputError that names each."""
    named = [(eq, dict(zip((symbol.name for symbol in eq.takes), values, strict=True))) for eq, values in record]
    faults = [fault for eq, values in named for fault in eq.range_faults(values)]
    if faults:
        raise InputError(dict.fromkeys(faults), title="Outside the range of the equations")


def bare_work(**values: Any) -> tuple[dict[str, Any], list[Fault]]:
    """Check depth, speed and tools given as quantities; give them as bare numbers, and what is wrong."""
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
    fault = apart("operating_point", {name: np.shape(number) for name, number in out.items()})
    return out, [*faults, fault] if fault else faults


def solve(
    b: BareRig, *, draft_factor: Any = 1.0, cone_factor: Any = 1.0, drawn: Draws | None = None,
    record: Record | None = None, threads: int = 1,
    want: Sequence[str] = NAMES, out: Mapping[str, Any] | None = None,
) -> Point:  # fmt: skip
    """Find the operating point on bare numbers.

    draft_factor, cone_factor: multiply draft and cone index; any shape that broadcasts. drawn: what is uncertain, as
    combinations; the likely one where it is None.
    record: a list that gets every equation of the book with the values put in; all outputs are then worked out.
    threads: how many work on large arrays. want: names of the outputs (see `UNITS`) that are needed; the others are None.
    out: float64 arrays of the common shape for some of them. Raises ValueError for a name that there is none of.
    """
    unknown = [name for name in (*want, *(out or ())) if name not in UNITS]
    if unknown:
        raise ValueError(f"no output is named {', '.join(unknown)}; there are {', '.join(NAMES)}")
    if record is None:
        return Point(**blocks.run(b, draft_factor, cone_factor, drawn, tuple(want), dict(out or {}), threads))

    def use(eq: Equation, *values: Any) -> Any:
        record.append((eq, values))
        return eq.bare(*values)

    chain = Chain(b, draft_factor, cone_factor, use, drawn)
    numbers = {name: getattr(chain, name) for name in _RECORDED}
    shape = np.broadcast_shapes(*(np.shape(value) for value in numbers.values()))
    return Point(**{name: blocks.spread(numbers[name], shape) for name in NAMES})


def slip_sweep(b: BareRig, slip: Any) -> tuple[Any, Any]:
    """Give (net pull, gross traction), kN, over an array of slips above zero, at the axle loads of the rig's own point.

    The loads follow from the pull, not from slip: nothing is solved for.
    """
    grip = Chain(b).grip
    return grip.pull(slip), grip.axle_force(slip)
