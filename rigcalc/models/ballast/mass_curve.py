"""What the physics says: delivery to the drawbar, slip, fuel and stress in the soil against the tractor's mass.

The job stays the same (draft, speed, hitch load); the mass changes. Tyre deflection is held: the pressure is taken to follow
the load. The best mass is the root of the derivative of the curve, the flat top is where delivery is within 1 percent.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from rigcalc.core.units import mass_of, weight_of
from rigcalc.equations import stress as book
from rigcalc.models.machine.operating_point import Point, solve
from rigcalc.models.rig.bare import BareGear, BareRig

FLAT = 0.99  # within 1 percent of the best counts as just as good
STRESS = 50.0  # kPa at which moist subsoil is commonly called at risk: from memory of the 50-50 rule, sohne_1953's stress
MOIST = 5.0  # concentration factor of soil at the moisture of field work, from memory of sohne_1953
_GRID = np.geomspace(0.12, 8.0, 97)  # masses searched, as multiples of the mass as it stands
_NODES = 24
_DEGREE = 12


@dataclass(frozen=True)
class Best:
    """The mass of best delivery for one job. Masses in kg, the rest shares.

    low and high: the masses between which delivery is within 1 percent of the best.
    """

    mass: float
    delivery: float
    slip: float
    low: float
    high: float


@dataclass(frozen=True)
class Curve:
    """The picture's data, 1-d arrays over the tractor's mass; NaN where it can't pull.

    mass and added in kg; delivery (drawbar power over power at the power take-off), slip as shares; pto_power and
    drawbar_power in kW; fuel_per_area in L/ha; front_depth and rear_depth in m: down to where a wheel or track brings the
    stress of `STRESS`. best is None where the curve has no top inside the masses searched (a job without pull).
    """

    mass: Any
    added: Any
    delivery: Any
    slip: Any
    pto_power: Any
    drawbar_power: Any
    fuel_per_area: Any
    front_depth: Any
    rear_depth: Any
    mass_now: float
    best: Best | None


def delivery_of(point: Point) -> Any:
    """Give the share of power at the power take-off that arrives at the drawbar; NaN where there is no pull."""
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.divide(point.drawbar_power, point.pto_power)


def with_mass(b: BareRig, mass: Any, front_share: float | None = None) -> BareRig:
    """Give the rig with another tractor mass in kg (any shape), split as it stands or by `front_share`."""
    share = b.front_weight / b.weight if front_share is None else front_share
    weight = weight_of(np.asarray(mass, float))
    return replace(b, front_weight=weight * share, rear_weight=weight * (1 - share))


def mass_curve(
    b: BareRig, *, low: float = 0.5, high: float = 2.0, count: int = 81, front_share: float | None = None,
    draft_factor: float = 1.0,
) -> Curve:  # fmt: skip
    """Give the picture's data.

    low, high: masses at the ends as multiples of the mass now. count: points. front_share: how the mass is split (as it
    stands when None). draft_factor: another job of the same tractor, as a multiple of this draft.
    """
    now = mass_of(b.weight)
    scale = np.linspace(low, high, count)
    # One call serves the picture and the search: a call's own cost is most of the time for so few points.
    p = solve(with_mass(b, np.concatenate([scale, _GRID]) * now, front_share), draft_factor=draft_factor)
    delivery = delivery_of(p)
    shown = slice(0, count)
    return Curve(
        mass=scale * now,
        added=(scale - 1) * now,
        delivery=delivery[shown],
        slip=p.slip[shown],
        pto_power=p.pto_power[shown],
        drawbar_power=p.drawbar_power[shown],
        fuel_per_area=p.fuel_per_area[shown],
        front_depth=depth_of_stress(b.front, p.front_load[shown]),
        rear_depth=depth_of_stress(b.rear, p.rear_load[shown]),
        mass_now=now,
        best=_best(b, delivery[count:], front_share, draft_factor),
    )


def best_mass(b: BareRig, *, front_share: float | None = None, draft_factor: float = 1.0) -> Best | None:
    """Find the mass of best delivery for one job, and the range that is as good.

    Gives None where delivery has no top among the masses searched: no pull, or a pull that grip never gives.
    """
    now = mass_of(b.weight)
    values = delivery_of(solve(with_mass(b, _GRID * now, front_share), draft_factor=draft_factor))
    return _best(b, values, front_share, draft_factor)


def _best(b: BareRig, values: Any, front_share: float | None, draft_factor: float) -> Best | None:
    now = mass_of(b.weight)

    def solved(scale: Any) -> tuple[Any, Any]:
        p = solve(with_mass(b, scale * now, front_share), draft_factor=draft_factor)
        return _known(delivery_of(p)), p.slip

    values = _known(values)
    top = int(np.argmax(values))
    inside = 0 < top < _GRID.size - 1 and values[top] > 0
    if not inside or not np.isfinite(values[[top - 1, top + 1]]).all():
        return None
    # Around its top the curve is smooth: a polynomial through a few nodes gives the root of the derivative to 1e-9.
    ends = (float(_GRID[top - 1]), float(_GRID[top + 1]))
    middle, half = sum(ends) / 2, (ends[1] - ends[0]) / 2
    nodes = middle + half * np.cos(np.pi * (np.arange(_NODES) + 0.5) / _NODES)
    delivered, slips = solved(nodes)
    fitted = np.polynomial.Chebyshev.fit(nodes, delivered, _DEGREE, domain=ends)
    roots = fitted.deriv().roots()
    roots = np.real(roots[(np.abs(np.imag(roots)) < 1e-9) & (roots.real >= ends[0]) & (roots.real <= ends[1])])
    if not roots.size:
        return None
    scale = float(roots[np.argmax(fitted(roots))])
    peak = float(fitted(scale))
    slip = float(np.polynomial.Chebyshev.fit(nodes, slips, _DEGREE, domain=ends)(scale))
    low, high = _flat(lambda x: solved(x)[0], values, top, FLAT * peak)
    return Best(scale * now, peak, slip, low * now, high * now)


def _flat(delivery: Any, values: Any, top: int, floor: float) -> tuple[float, float]:
    """Find where delivery passes `floor` on either side of its top; the end of the search where it doesn't."""
    left, right = np.flatnonzero(values[:top] < floor), np.flatnonzero(values[top:] < floor)
    brackets = [(_GRID[left[-1]], _GRID[left[-1] + 1]) if left.size else (_GRID[0], _GRID[0]),
                (_GRID[top + right[0]], _GRID[top + right[0] - 1]) if right.size else (_GRID[-1], _GRID[-1])]  # fmt: skip
    for _ in range(3):  # each round narrows both brackets 32 times
        grids = np.array([np.linspace(outside, inside, 33) for outside, inside in brackets])
        holds = (delivery(grids.ravel()) >= floor).reshape(grids.shape)
        first = np.where(holds.any(axis=1), holds.argmax(axis=1), 32)
        brackets = [(grid[max(place - 1, 0)], grid[place]) for grid, place in zip(grids, first, strict=True)]
    return float(brackets[0][1]), float(brackets[1][1])


def _known(delivery: Any) -> Any:
    return np.where(np.isfinite(delivery), delivery, -np.inf)


def depth_of_stress(gear: BareGear | None, load: Any, stress: float = STRESS) -> Any:
    """Give the depth in m down to which a wheel or track brings `stress` (kPa) under an axle load in kN; zero where none."""
    if gear is None:
        return 0.0 * np.asarray(load, float)
    area = gear.area_each
    pressure = np.asarray(load, float) / gear.count / area
    deep = pressure > stress
    with np.errstate(invalid="ignore"):
        depth = book.stress_depth.bare(area, np.where(deep, pressure, 2 * stress), stress, MOIST)
    return np.where(deep, depth, np.where(np.isfinite(pressure), 0.0, np.nan))[()]
