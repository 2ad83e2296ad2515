"""What presses on the ground: the axles of the rig where they carry most in the field, and those that somebody types."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import mass_of, weight_of
from rigcalc.models.ground.given import number_given
from rigcalc.models.ground.strength import stress_value
from rigcalc.models.machine.draft_force import draft_force
from rigcalc.models.machine.statics import gear_loads, plain, situations
from rigcalc.models.rig.bare import BareGear, BareRig
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.running_gear import area_each

MOST_TYPED = 20
_TYPED = re.compile(
    r"(?:(?P<name>[^:\x00-\x1f\x7f-\x9f]{1,40}):)?\s*(?P<mass>.{1,40}?) on (?P<count>[0-9]{1,2}) "
    r"(?P<kind>tyre|tire|track)s? of (?P<width>.{1,40}?) by (?P<length>.{1,40}?)(?: at (?P<pressure>.{1,40}))?"
)
_EXAMPLE = (
    '"cart: 40000 lb on 2 tyres of 42 in by 78 in at 35 psi" (width by height, the pressure where it is known), or "cart: 18 t '
    'on 2 tracks of 36 in by 2 m"'
)
_LEAST_MASS, _MOST_MASS, _MOST_COUNT = 50.0, 100_000.0, 12  # kg: a garden cart to several times the heaviest cart's axle
_WIDTHS = (0.08, 2.0)  # m, as in a rig file
_PRESSURES = (10.0, 600.0)  # kPa, as in a rig file
_LENGTHS = {"tyre": (0.25, 3.0), "track": (0.3, 8.0)}


@dataclass(frozen=True)
class Axle:
    """One axle: its load (kN) and when it's that much, its wheels or tracks, contact area of each (m2, low and high).

    name: "front", "rear", "tracks", or as typed. when: "rest", "pull", "raised", or "typed". diameter: of a tyre in m, NaN for
    a track. inflation and recommended: the tyres' pressure and what their own table asks for at that load, kPa, None where
    nobody says.
    """

    name: str
    when: str
    load: float
    kind: str
    count: int
    width: float
    area: tuple[float, float]
    diameter: float = math.nan
    inflation: float | None = None
    recommended: float | None = None

    @property
    def mass(self) -> float:
        """What it weighs, kg."""
        return float(mass_of(self.load))

    @property
    def each(self) -> float:
        """Load of one wheel or track, kN."""
        return self.load / self.count

    @property
    def pressure(self) -> tuple[float, float]:
        """Mean pressure in the contact, kPa."""
        return self.each / self.area[1], self.each / self.area[0]

    @property
    def beside(self) -> tuple[float, ...]:
        """How far aside (m) the other tyres of one side stand from the one with most neighbours."""
        if self.kind == "track" or self.count < 4:
            return ()
        step = self.width * (1 + stress_value("dual_gap", "1"))
        return (step,) if self.count < 6 else (step, -step)


def rig_axles(rig: Rig, b: BareRig) -> tuple[Axle, ...]:
    """Give the tractor's axles, each where it carries most in the field: at rest, pulling, or with the tool raised."""
    pull = float(draft_force(b, plain))
    found = situations(rig, b, pull)
    masses = (float(mass_of(b.front_weight)), float(mass_of(b.rear_weight)))
    loads: dict[str, dict[str, float]] = {"front": {}, "rear": {}}
    for when, ends in (("rest", found.rest), ("pull", found.pull), ("raised", found.raised)):
        if ends is None:
            continue
        front, rear = (weight_of(a * masses[0] + c * masses[1] + k) for a, c, k in ends)
        for name, load in zip(loads, gear_loads(b, front, rear), strict=True):
            loads[name][when] = float(load)
    out = []
    for name, gear in (("front", b.front), ("rear", b.rear)):
        if gear is not None:
            when = max(loads[name], key=loads[name].__getitem__)
            axle = _axle("tracks" if b.front is None else name, when, loads[name][when], gear)
            out.append(replace(axle, **_pressures(getattr(rig.tractor, name), axle)))
    return tuple(out)


def _axle(name: str, when: str, load: float, gear: BareGear) -> Axle:
    area = float(gear.area_each)
    high = math.nan if gear.kind == "track" else gear.length
    return Axle(name, when, load, gear.kind, gear.count, gear.width, _areas(gear.kind, area), high)


def _pressures(fitted: Any, axle: Axle) -> dict[str, Any]:
    """Give what a rig file says of the pressure of an axle's tyres, and what their table asks for where it reaches."""
    tyre = getattr(fitted, "tyre", None)
    if axle.kind == "track" or tyre is None or tyre.inflation is None:
        return {}
    found = {"inflation": tyre.inflation.to("kPa")}
    if tyre.loads is not None and tyre.pressures is not None:
        rows = sorted((load.to("kg"), pressure.to("kPa")) for load, pressure in zip(tyre.loads, tyre.pressures, strict=True))
        loads, pressures = zip(*rows, strict=True)
        each = axle.mass / axle.count
        if each <= loads[-1]:
            found["recommended"] = float(np.interp(each, loads, pressures))
    return found


def _areas(kind: str, area: float) -> tuple[float, float]:
    """Give the span of a contact area from firm to soft ground; a belt's is the same on both."""
    return (area, area) if kind == "track" else (area, area * stress_value("soft_area", "1"))


def typed_axles(texts: Any) -> tuple[Axle, ...]:
    """Read axles such as "cart: 40000 lb on 2 tyres of 42 in by 78 in". Raises InputError with every fault."""
    if isinstance(texts, str) or not isinstance(texts, Sequence) or not all(isinstance(text, str) for text in texts):
        raise InputError([Fault("axles", shown(texts), "a list of texts", f"[{_EXAMPLE.split(' (')[0]}]")])
    if len(texts) > MOST_TYPED:
        raise InputError([Fault("axles", f"{len(texts):,} axles", f"at most {MOST_TYPED}", "the heaviest ones")])
    faults: list[Fault] = []
    found = [_read(text, f"axle {place}", faults) for place, text in enumerate(texts, 1)]
    if faults:
        raise InputError(faults)
    return tuple(axle for axle in found if axle is not None)


def _read(text: str, where: str, faults: list[Fault]) -> Axle | None:
    match = _TYPED.fullmatch(text.strip()) if len(text) <= 300 else None
    if match is None:
        faults.append(Fault(where, shown(text), "a mass on so many tyres or tracks of a width by a height or length", _EXAMPLE))
        return None
    kind = "track" if match["kind"] == "track" else "tyre"
    count = int(match["count"])
    mass = number_given(match["mass"], "kg", (_LEAST_MASS, _MOST_MASS), f"{where}, mass", _EXAMPLE, faults)
    width = number_given(match["width"], "m", _WIDTHS, f"{where}, width", _EXAMPLE, faults)
    length = number_given(
        match["length"], "m", _LENGTHS[kind], f"{where}, {'height' if kind == 'tyre' else 'length'}", _EXAMPLE, faults
    )
    if not 1 <= count <= _MOST_COUNT:
        faults.append(Fault(f"{where}, count", f"{count}", f"1 to {_MOST_COUNT} on one axle", "2"))
        return None
    if math.isnan(mass + width + length):
        return None
    pressure = None
    if match["pressure"] is not None:
        pressure = number_given(match["pressure"], "kPa", _PRESSURES, f"{where}, pressure", _EXAMPLE, faults)
        if kind == "track":
            faults.append(Fault(f"{where}, pressure", shown(match["pressure"]), "none: a track has no air in it", _EXAMPLE))
    area = float(area_each(kind, width, length))
    name = (match["name"] or where).strip() or where
    high = length if kind == "tyre" else math.nan
    return Axle(name, "typed", float(weight_of(mass)), kind, count, width, _areas(kind, area), high, pressure)
