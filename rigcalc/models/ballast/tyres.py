"""Tyres: the load that each carries, the pressure that it asks for by its own table, and what another pressure would do."""

from __future__ import annotations

import csv
import io
import math
import re
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from pydantic_core import PydanticCustomError

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.tables import table
from rigcalc.core.units import factor, mass_of, weight_of
from rigcalc.equations import inflation as book
from rigcalc.equations import stress
from rigcalc.equations.traction_track import ground_pressure
from rigcalc.models.machine import statics
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import BareRig, bare
from rigcalc.models.rig.parts import check_table
from rigcalc.models.rig.rig import Gear, Rig
from rigcalc.models.rig.running_gear import area_each, capacity_each, sizes
from rigcalc.models.rig.taken import RATED_DEFLECTION

LARGEST_TABLE = 64 * 1024  # characters
_HEADER = re.compile(r"((?i:pressure|load))[ (\[]+([A-Za-z]+)[)\]]?")
_NUMBER = re.compile(r"\d+(\.\d+)?")


@dataclass(frozen=True)
class InflationTable:
    """A tyre's own table: pressures in kPa and the kg that one tyre carries at each, both rising."""

    pressures: tuple[float, ...]
    loads: tuple[float, ...]
    source: str = ""

    def load_at(self, pressure: Any) -> Any:
        """Give the kg that the table allows at a pressure in kPa; NaN outside the table."""
        return np.interp(pressure, self.pressures, self.loads, left=np.nan, right=np.nan)[()]


@dataclass(frozen=True)
class Inflation:
    """The pressure that a load asks for: kPa (None where nothing is known or the table ends), and how it was found.

    how: "table", "lowest" (the load is under the table's first row), "over" (past its last row, which holds `most` kg), "law"
    (generic law, a makeshift), "track", "unknown".
    """

    pressure: float | None
    how: str
    most: float | None = None


@dataclass(frozen=True)
class TyreLoad:
    """One axle in one situation (`when` as in `Situations.each`): kg on each tyre or track, capacity in kg, share used.

    capacity and used are None where nothing is known. ground_pressure is the mean under a track, or under a tyre on firm
    ground by a rule of thumb, kPa.
    """

    axle: str
    when: str
    each: float
    capacity: float | None
    used: float | None
    ground_pressure: float
    inflation: Inflation


def read_table(text: str) -> InflationTable:
    """Read a table of pressures and loads from text or CSV, strictly.

    The first line names both columns with their units, in either order: `pressure psi, load lb`. Every line after it holds
    two numbers. Blank lines and lines that begin with # are passed over. Raises InputError that lists every bad line.
    """
    what = "inflation table"
    if len(text) > LARGEST_TABLE:
        raise InputError([Fault(what, f"more than {LARGEST_TABLE // 1024} KiB", "a table of a few lines")])
    lines = [(place, row) for place, row in enumerate(csv.reader(io.StringIO(text)), 1)
             if any(cell.strip() for cell in row) and not row[0].lstrip().startswith("#")]  # fmt: skip
    example = "pressure psi, load lb"
    if not lines:
        raise InputError([Fault(what, "nothing", "a line of headings and two or more rows", example)])
    place, head = lines[0]
    headings = [match for cell in head if (match := _HEADER.fullmatch(cell.strip()))]
    names = [match[1].lower() for match in headings]
    if sorted(names) != ["load", "pressure"] or len(head) != 2:
        raise InputError([Fault(f"{what}, line {place}", shown(",".join(head)), "both columns with their units", example)])
    faults, scales = [], {}
    for name, match in zip(names, headings, strict=True):
        target = "kPa" if name == "pressure" else "kg"
        try:
            scales[name] = factor(match[2], target)
        except InputError:
            faults.append(Fault(f"{what}, line {place}", shown(match[2]), f"a unit that converts to {target}", example))
    rows: list[tuple[float, float]] = []
    for place, cells in lines[1:]:
        cells = [cell.strip() for cell in cells]
        if len(cells) != 2 or not all(_NUMBER.fullmatch(cell) and float(cell) > 0 for cell in cells):
            faults.append(Fault(f"{what}, line {place}", shown(",".join(cells)), "two numbers above zero", "12, 6800"))
        else:
            rows.append((float(cells[0]), float(cells[1])))
    if faults:
        raise InputError(faults)
    columns = dict(zip(names, zip(*rows, strict=True), strict=True)) if rows else {"pressure": (), "load": ()}
    return _table([p * scales["pressure"] for p in columns["pressure"]], [m * scales["load"] for m in columns["load"]])


def table_of(gear: Gear | None) -> InflationTable | None:
    """Give the table that a rig file holds for an axle's tyres."""
    tyre = gear.tyre if gear else None
    if tyre is None or tyre.pressures is None or tyre.loads is None:
        return None
    return InflationTable(tuple(p.to("kPa") for p in tyre.pressures), tuple(m.to("kg") for m in tyre.loads), tyre.table_from)


def required_inflation(load: float, known: InflationTable | None, pair: tuple[float, float] | None = None) -> Inflation:
    """Give the pressure that a load in kg on one tyre asks for.

    known: the tyre's own table; between its rows by a straight line, never past its ends. pair: (kg, kPa) known to go
    together, for the generic law where there is no table.
    """
    if not math.isfinite(load) or load < 0:
        raise InputError([Fault("load on a tyre", f"{load:g} kg", "a load from 0 kg up")])
    if known is not None:
        loads, pressures = known.loads, known.pressures
        if load > loads[-1]:
            return Inflation(None, "over", loads[-1])
        if load <= loads[0]:
            return Inflation(pressures[0], "lowest")
        row = int(np.searchsorted(loads, load))
        found = book.inflation_between_rows.bare(load, loads[row - 1], loads[row], pressures[row - 1], pressures[row])
        return Inflation(float(found), "table")
    if pair is not None:
        exponent = table("tyre_rules")["inflation_exponent"]
        found = book.inflation_by_law.bare(pair[1], load, pair[0], exponent["value"])
        return Inflation(float(found), "law")
    return Inflation(None, "unknown")


def tyre_loads(rig: Rig, loads: dict[str, tuple[float, float]]) -> tuple[TyreLoad, ...]:
    """Give what each tyre or track carries. loads: situation -> (front, rear) axle load in kg."""
    out = []
    for side, (axle, gear) in enumerate((("front", rig.tractor.front), ("rear", rig.tractor.rear))):
        if gear is None:
            continue
        count, width, length = sizes(gear)
        capacity, pair, area = capacity_each(gear), _known_pair(gear), area_each(gear.kind, width, length)
        for when, both in loads.items():
            total = sum(both) if rig.tractor.front is None else both[side]
            each = max(total, 0.0) / count
            needs = (Inflation(None, "track") if gear.kind == "track"
                     else required_inflation(each, table_of(gear), pair))  # fmt: skip
            pressure = float(ground_pressure.bare(weight_of(each), area))
            out.append(TyreLoad(axle, when, each, capacity, each / capacity if capacity else None, pressure, needs))
    return tuple(out)


@dataclass(frozen=True)
class PressureEffect:
    """What other pressures would do on one axle, 1-d arrays over pressure (kPa): deflection ratio, contact area of one tyre
    in m2, mobility number, slip of the tractor. NaN where the table says nothing or the tractor can't pull."""  # fmt: skip

    axle: str
    pressures: Any
    deflection_ratio: Any
    contact_area: Any
    mobility: Any
    slip: Any


def pressure_effect(rig: Rig, axle: str, pressures: Any, known: InflationTable | None = None) -> PressureEffect:
    """Work out what pressures (kPa, 1-d) would do on the "front" or "rear" axle at this job.

    Deflection is taken in proportion to load over the load that the table lists at the pressure. Raises InputError without
    a table.
    """
    gear = rig.tractor.front if axle == "front" else rig.tractor.rear
    known = known or table_of(gear)
    b = bare(rig)
    own = b.front if axle == "front" else b.rear
    if known is None or own is None or own.kind == "track":
        raise InputError([Fault(f"{axle} tyres", "no table of loads and pressures", "the tyre's own table",
                                'pressures = ["12 psi", …] and loads = ["6800 lb", …]')])  # fmt: skip
    pressures = np.asarray(pressures, float)
    p = solve(b)
    load = float(p.front_load if axle == "front" else p.rear_load) / own.count
    # What was worked out of load and pressure holds for this load alone; the table's loads are those of the rated deflection.
    pressed = any(one.rule == "pressed" and one.entry == f"tractor.{axle}.deflection_ratio" for one in rig.assumed)
    rated = RATED_DEFLECTION if pressed else own.deflection_ratio
    ratio = book.deflection_at_pressure.bare(rated, mass_of(load), known.load_at(pressures))
    changed = solve(_with_deflection(b, axle, ratio))
    return PressureEffect(
        axle, pressures, ratio, stress.contact_area_from_inflation.bare(load, pressures),
        changed.front_mobility if axle == "front" else changed.rear_mobility, changed.slip,
    )  # fmt: skip


def roller_shares(rig: Rig) -> tuple[float, float] | None:
    """Give the shares of a two-track tractor's load on its front and rear rollers under pull; None for other tractors."""
    b = bare(rig)
    return statics.roller_shares(b, float(solve(b).drawbar_pull))


def _with_deflection(b: BareRig, axle: str, ratio: Any) -> BareRig:
    gear = b.front if axle == "front" else b.rear
    assert gear is not None
    changed = replace(gear, deflection_ratio=ratio)
    return replace(b, front=changed) if axle == "front" else replace(b, rear=changed)


def _known_pair(gear: Gear) -> tuple[float, float] | None:
    """Give (kg, kPa) that the rig file says go together: the load limit at the pressure it is driven at."""
    if gear.load_limit_each is None or gear.tyre is None or gear.tyre.inflation is None:
        return None
    return gear.load_limit_each.to("kg"), gear.tyre.inflation.to("kPa")


def _table(pressures: list[float], loads: list[float], source: str = "") -> InflationTable:
    try:
        check_table(pressures, loads)
    except PydanticCustomError as error:
        about = error.context or {}
        raise InputError([Fault("inflation table", about["got"], about["expected"], about["type_this"])]) from None
    return InflationTable(tuple(pressures), tuple(loads), source)
