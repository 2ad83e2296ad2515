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
from rigcalc.equations.traction_wheel import gross_traction_ratio_radial
from rigcalc.models.ballast.reach import Reach
from rigcalc.models.machine.operating_point import Point, solve
from rigcalc.models.machine.seeking import edge
from rigcalc.models.rig.bare import BareGear, BareRig

FLAT = 0.99  # within 1 percent of the best counts as just as good
STRESS = 50.0  # kPa at which moist subsoil is commonly called at risk: from memory of the 50-50 rule, sohne_1953's stress
MOIST = 5.0  # concentration factor of soil at the moisture of field work, from memory of sohne_1953
_GRID = np.geomspace(0.12, 8.0, 97)  # masses searched, as multiples of the mass as it stands
_DELIVERY = ("drawbar_power", "pto_power")  # the outputs that `delivery_of` looks at
_NODES = 24
_DEGREE = 12

End = tuple[float, str]  # kg, and what ends the masses there: see `Best.cut`


@dataclass(frozen=True)
class Best:
    """The mass of best delivery for one job. Masses in kg, the rest shares.

    low and high: the masses between which delivery is within 1 percent of the best. cut: what ends the masses there where the
    curve has its top beyond: "bare" (nothing more comes off), "mass_limit" (the maker's), "equations" (the mobility number
    leaves their range); empty at a real top.
    """

    mass: float
    delivery: float
    slip: float
    low: float
    high: float
    cut: str = ""


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
    draft_factor: float = 1.0, best: Best | None = None, reach: Reach | None = None,
) -> Curve:  # fmt: skip
    """Give the picture's data.

    low, high: masses at the ends as multiples of the mass now. count: points. front_share: how the mass is split (as it
    stands when None). draft_factor: another job of the same tractor, as a multiple of this draft. best: the mass of best
    delivery, where it is known already. reach: the masses it can have; the picture goes a twentieth
    beyond only where there is next to nothing to show.
    """
    now = mass_of(b.weight)
    if reach is not None:
        low, high = min(max(low, reach.low / now), 1.0), max(min(high, reach.high / now), 1.0)
        low, high = (low, high) if high - low > 0.1 else (low - 0.05, high + 0.05)
        best = best or best_mass(b, draft_factor=draft_factor, front_share=front_share, reach=reach)
    scale = np.linspace(low, high, count)
    # One call serves the picture and the search: a call's own cost is most of the time for so few points.
    searched = scale if best is not None else np.concatenate([scale, _GRID])
    p = solve(with_mass(b, searched * now, front_share), draft_factor=draft_factor)
    delivery = delivery_of(p)
    shown = slice(0, count)
    if best is None:
        best = _tops(b, np.array([draft_factor]), _known(delivery[None, count:]), front_share)[0]
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
        best=best,
    )


def best_mass(
    b: BareRig, *, front_share: float | None = None, draft_factor: float = 1.0, reach: Reach | None = None
) -> Best | None:
    """Find the mass of best delivery for one job, and the range that is as good.

    reach: the masses it can have; with it the search also ends where the equations do. Gives None where delivery has no top
    among the masses searched: no pull, or a pull that grip never gives.
    """
    p = over_masses(b, [draft_factor], front_share)
    return best_masses(b, [draft_factor], p, front_share=front_share, reach=reach)[0]


def over_masses(b: BareRig, draft_factors: list[float], front_share: float | None = None) -> Point:
    """Give the points of several jobs (first index) at today's mass and then at each of the masses searched."""
    masses = mass_of(b.weight) * np.concatenate([[1.0], _GRID])
    return solve(with_mass(b, masses, front_share), draft_factor=np.asarray(draft_factors, float)[:, None])


def best_masses(
    b: BareRig, draft_factors: list[float], p: Point, *, front_share: float | None = None, reach: Reach | None = None
) -> list[Best | None]:
    """Find what `best_mass` finds for several jobs at once: the calls are those of one. p: their `over_masses`."""
    factors = np.asarray(draft_factors, float)
    values = _known(delivery_of(p))[:, 1:]
    if reach is None:
        return _tops(b, factors, values, front_share)
    ends = [_ends(numbers, mass_of(b.weight), reach) for numbers in np.swapaxes(_mobility(b, p)[..., 1:], 0, 1)]
    return _tops(b, factors, values, front_share, ends)


def _ends(mobility: Any, now: float, reach: Reach) -> tuple[End, End]:
    """Give (kg, what ends it) at the light and at the heavy end.

    A tractor whose mobility number is out of range already isn't judged farther out than it stands.
    """
    least, most = gross_traction_ratio_radial.valid["mobility_number"]
    low, high = (reach.low, "bare"), (reach.high, "mass_limit")
    for numbers in mobility:
        if not np.isfinite(numbers).any():
            continue
        # The number falls as mass grows; it is smooth enough in the logarithm for a straight line between the masses.
        ends = [now * float(np.exp(np.interp(-np.log(end), -np.log(numbers), np.log(_GRID)))) for end in (most, least)]
        low = max(low, (min(ends[0], now), "equations"))
        high = min(high, (max(ends[1], now), "equations"))
    return low, high


def _mobility(b: BareRig, p: Point) -> Any:
    """Give the mobility numbers of the wheels that pull, first index the axle; NaN for tracks and wheels that don't pull."""
    shape = np.shape(p.drawbar_pull)
    pulls = ((b.front, p.front_mobility), (b.rear, p.rear_mobility))
    return np.array([np.broadcast_to(x if gear is not None and gear.driven and gear.kind != "track" else np.nan, shape)
                     for gear, x in pulls])  # fmt: skip


def _tops(
    b: BareRig, factors: Any, values: Any, front_share: float | None, ends: list[tuple[End, End]] | None = None
) -> list[Best | None]:
    """Find the top of each row of deliveries over `_GRID`, one row for each multiple of the draft.

    ends: the light and the heavy end of each row's masses; a top beyond gives way to the end, see `Best.cut`. All rows go
    through the same calls.
    """
    now = mass_of(b.weight)

    def solved(scale: Any, factor: Any, *more: str) -> Point:
        return solve(with_mass(b, scale * now, front_share), draft_factor=factor, want=(*_DELIVERY, *more))

    tops = {k: top for k, row in enumerate(values) if (top := _top(row)) is not None}
    found: list[Best | None] = [None] * len(values)
    if not tops:
        return found
    rows = list(tops)
    # Around its top the curve is smooth: a polynomial through a few nodes gives the root of the derivative to 1e-9. The two
    # masses that the top may have to give way to are tried along with them.
    sides = np.array([(_GRID[top - 1], _GRID[top + 1]) for top in tops.values()])
    nodes = sides.mean(axis=1, keepdims=True) + np.diff(sides) / 2 * np.cos(np.pi * (np.arange(_NODES) + 0.5) / _NODES)
    limits = np.array([[end[0] for end in ends[k]] if ends else (0.0, np.inf) for k in rows])
    instead = np.where((limits > 0) & np.isfinite(limits), limits / now, 1.0)
    p = solved(np.hstack([nodes, instead]), factors[rows, None], "slip")
    delivered = delivery_of(p)
    peaks: dict[int, Best] = {}
    for place, k in enumerate(rows):
        peak = _peak(sides[place], nodes[place], _known(delivered[place, :_NODES]), p.slip[place, :_NODES])
        if peak is None:
            continue
        made = Best(peak[0] * now, peak[1], peak[2], low=0.0, high=np.inf)
        for side in (0, 1):
            if ends and (made.mass < limits[place, 0], made.mass > limits[place, 1])[side]:
                (mass, why), at = ends[k][side], (place, _NODES + side)
                made = Best(mass, float(delivered[at]), float(p.slip[at]), low=0.0, high=np.inf, cut=why)
        if np.isfinite(made.delivery):
            peaks[k] = made
    if not peaks:
        return found
    kept = list(peaks)
    floors = FLAT * np.repeat([peak.delivery for peak in peaks.values()], 2)
    brackets = np.array([side for k in kept for side in _sides(values[k], tops[k], FLAT * peaks[k].delivery)])

    def holds(scale: Any) -> Any:
        return (_known(delivery_of(solved(scale.reshape(-1, floors.size), np.repeat(factors[kept], 2)))) >= floors).ravel()

    flat, _ = edge(holds, brackets[:, 1], brackets[:, 0], points=193, rounds=2)
    for k, low, high in zip(kept, flat[::2] * now, flat[1::2] * now, strict=True):
        least, most = limits[rows.index(k)]
        found[k] = replace(peaks[k], low=float(max(low, least)), high=float(min(high, most)))
    return found


def _top(values: Any) -> int | None:
    """Give the place of the greatest delivery, if it lies inside the masses searched with known values on both sides."""
    top = int(np.argmax(values))
    inside = 0 < top < _GRID.size - 1 and values[top] > 0
    return top if inside and np.isfinite(values[[top - 1, top + 1]]).all() else None


def _peak(ends: Any, nodes: Any, delivered: Any, slips: Any) -> tuple[float, float, float] | None:
    """Give (scale, delivery, slip) where the derivative of the curve through the nodes is nothing."""
    fitted = np.polynomial.Chebyshev.fit(nodes, delivered, _DEGREE, domain=ends)
    roots = fitted.deriv().roots()
    roots = np.real(roots[(np.abs(np.imag(roots)) < 1e-9) & (roots.real >= ends[0]) & (roots.real <= ends[1])])
    if not roots.size:
        return None
    scale = float(roots[np.argmax(fitted(roots))])
    slip = float(np.polynomial.Chebyshev.fit(nodes, slips, _DEGREE, domain=ends)(scale))
    return scale, float(fitted(scale)), slip


def _sides(values: Any, top: int | None, floor: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """Give (outside, inside) of the two stretches in which delivery passes `floor`; the end of the search where it doesn't."""
    left, right = np.flatnonzero(values[:top] < floor), np.flatnonzero(values[top:] < floor)
    first = (_GRID[left[-1]], _GRID[left[-1] + 1]) if left.size else (_GRID[0], _GRID[0])
    place = (top or 0) + int(right[0]) if right.size else 0
    return first, (_GRID[place], _GRID[place - 1]) if right.size else (_GRID[-1], _GRID[-1])


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
