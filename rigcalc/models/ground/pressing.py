"""Putting it back: the stress that each axle brings down, the depth to which the ground yields, and the rules of thumb."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from rigcalc.equations import precompression
from rigcalc.equations import stress as book
from rigcalc.models.ground.axles import Axle, rig_axles
from rigcalc.models.ground.contact import Contact, contact
from rigcalc.models.ground.layers import Floats
from rigcalc.models.ground.strength import Bearing, bearing, stress_value
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.machine.wetness import Wet, Wetness
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.rig import Rig

_DEEPEST, _STEP = 150.0, 1.0  # cm
_RINGS, _ACROSS, _DOWN = 12, 41, 31  # points of the picture
_HALF_ACROSS, _PICTURE_DEEP = 1.0, 1.0  # m
_ASKED = np.array([5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 100, 125, 150], float)  # cm, of the second opinion
_STATES = {Wet.HARD: ("hard", "hard"), Wet.READY: ("moist", "moist"), Wet.NEAR: ("moist", "wet"), Wet.WET: ("wet", "wet")}


@dataclass(frozen=True)
class Pressed:
    """One axle: stress (kPa, low and high over depths in cm), and the depths (cm) to which the ground yields.

    contact: a second opinion by the tyres' pressure, None where nobody says it or the model isn't for such a tyre. sure: where
    even the least stress is more than the most that the ground bears; maybe: where the most is more than the
    least. Both are 0 where it doesn't yield at the surface and NaN where nothing says what it bears.
    """

    axle: Axle
    low: Floats
    high: Floats
    sure: float
    maybe: float
    contact: Contact | None = None

    @property
    def over_axle_rule(self) -> bool:
        """True where the axle is heavier than the 10 t rule allows."""
        return self.axle.mass > 1000 * stress_value("axle_rule", "t")


@dataclass(frozen=True)
class Section:
    """Stress under one wheel of the axle that presses most, to draw: across and down in m, kPa[down, across]."""

    axle: str
    across: Floats
    down: Floats
    kpa: Floats


@dataclass(frozen=True)
class Pressing:
    """All axles over depths (cm), what the ground bears, the concentration factors taken (low, high), a section to draw.

    work: the rig's depth in cm, below which no shank lifts what is pressed.
    """

    depths: Floats
    axles: tuple[Pressed, ...]
    bearing: Bearing
    concentration: tuple[float, float]
    work: float
    section: Section

    def at(self, pressed: Pressed, depth: float) -> tuple[float, float]:
        """Give the stress under an axle at a depth in cm, kPa (low, high)."""
        return float(np.interp(depth, self.depths, pressed.low)), float(np.interp(depth, self.depths, pressed.high))

    def rule(self, pressed: Pressed) -> bool | None:
        """Say whether an axle keeps the 50-50 rule: True, False, or None where that is within the doubt."""
        low, high = self.at(pressed, stress_value("rule_depth", "cm"))
        most = stress_value("rule_stress", "kPa")
        return True if high <= most else False if low > most else None

    @property
    def worst(self) -> Pressed:
        """The axle that surely, else maybe, presses deepest; else the one with the most stress at the rig's depth."""
        return max(self.axles, key=lambda one: (np.nan_to_num(one.sure), np.nan_to_num(one.maybe), self.at(one, self.work)[1]))

    @property
    def deepest(self) -> float:
        """The depth in cm below which nobody looked."""
        return float(self.depths[-1])

    @property
    def judgement(self) -> Judgement | None:
        """What the axles ask for; None where they ask for nothing.

        Don't where ground surely yields below the rig's depth at the water that was read; try where an axle surely breaks the
        50-50 rule on ground that isn't dry and hard.
        """
        if self.bearing.measured and self.worst.sure > self.work:
            return Judgement.DONT
        return Judgement.TRY if self.breaks_rule and not self.bearing.dry else None

    @property
    def breaks_rule(self) -> tuple[Pressed, ...]:
        """The axles that surely break the 50-50 rule."""
        return tuple(one for one in self.axles if self.rule(one) is False)


def pressing(rig: Rig, b: BareRig, wet: Wetness | None, typed: Sequence[Axle] = ()) -> Pressing:
    """Work out what the axles of a rig, and those typed, do to its ground."""
    axles = (*rig_axles(rig, b), *typed)
    held = bearing(rig, wet)
    names = _STATES.get(wet.state if wet is not None else Wet.FROZEN, ("hard", "wet"))
    spread = tuple(stress_value(f"concentration_{name}", "1") for name in names)
    factors = (spread[0], spread[1])
    depths = np.arange(_STEP, _DEEPEST + _STEP, _STEP)
    pressed = tuple(_pressed(axle, depths, factors, held) for axle in axles)
    work = rig.work.depth.to("cm")
    most = max(pressed, key=lambda one: float(np.interp(work, depths, one.high))).axle
    return Pressing(depths, pressed, held, factors, work, section(most, sum(factors) / 2))


def stress_under(axle: Axle, area: float, depths: Floats, concentration: float) -> Floats:
    """Give the stress in kPa under the wheel with most neighbours at depths in cm, its neighbours' share counted in."""
    down = depths / 100
    own = book.stress_under_load.bare(area, axle.each / area, down, concentration)
    beside = [_even(axle.each, area, concentration, np.array([far]), down)[:, 0] for far in axle.beside]
    return np.asarray(own + sum(beside), float)


def under_roller(axle: Axle, depths: Floats, concentration: float) -> Floats:
    """Give the stress in kPa under one roller of a belt, which presses harder than the belt does in the mean."""
    peak = stress_value("track_peak", "1")
    area = axle.area[0] / peak / stress_value("track_rollers", "1")
    return np.asarray(book.stress_under_load.bare(area, peak * axle.pressure[1], depths / 100, concentration), float)


def _pressed(axle: Axle, depths: Floats, factors: tuple[float, float], held: Bearing) -> Pressed:
    curves = np.array([stress_under(axle, area, depths, one) for area in axle.area for one in factors])
    low, high = curves.min(axis=0), curves.max(axis=0)
    if axle.kind == "track":
        high = np.max([high, *(under_roller(axle, depths, one) for one in factors)], axis=0)
    second = _contact(axle, factors)
    if held.kpa is None:
        return Pressed(axle, low, high, float("nan"), float("nan"), second)
    return Pressed(axle, low, high, _down_to(depths, low, held.kpa[1]), _down_to(depths, high, held.kpa[0]), second)


def _contact(axle: Axle, factors: tuple[float, float]) -> Contact | None:
    if axle.inflation is None or axle.kind == "track":
        return None
    asked = axle.recommended if axle.recommended is not None else axle.inflation
    return contact(axle.each, axle.width, axle.diameter, axle.inflation, asked, axle.beside, _ASKED, factors)


def _down_to(depths: Floats, stress: Floats, bears: float) -> float:
    """Give the depth in cm down to which a stress is over what the ground bears; 0 where it nowhere is."""
    over = np.flatnonzero(stress > bears)
    if not over.size:
        return 0.0
    last = int(over[-1])
    if last + 1 == depths.size:
        return float(depths[-1])
    share = (stress[last] - bears) / (stress[last] - stress[last + 1])
    return float(depths[last] + share * (depths[last + 1] - depths[last]))


def section(axle: Axle, concentration: float) -> Section:
    """Give the stress under a wheel and its neighbours over a grid across and down."""
    area = float(np.sqrt(axle.area[0] * axle.area[1]))
    across = np.linspace(-_HALF_ACROSS, _HALF_ACROSS, _ACROSS)
    down = np.linspace(_PICTURE_DEEP / _DOWN, _PICTURE_DEEP, _DOWN)
    kpa = sum(_even(axle.each, area, concentration, across - middle, down) for middle in (0.0, *axle.beside))
    return Section(axle.name, across, down, np.asarray(kpa))


def _even(load: float, area: float, concentration: float, aside: Floats, down: Floats) -> Floats:
    """Add up points of a round contact that bears a load (kN) evenly: kPa[down, aside], places in m."""
    radius = np.sqrt(area / np.pi)
    rings = radius * np.sqrt((np.arange(_RINGS) + 0.5) / _RINGS)  # of equal area
    turns = 2 * np.pi * (np.arange(2 * _RINGS) + 0.5) / (2 * _RINGS)
    x, y = (np.outer(rings, part).ravel() for part in (np.cos(turns), np.sin(turns)))
    far = np.sqrt((aside[:, None] - x) ** 2 + y**2)
    each = precompression.stress_beside_load.bare(load / x.size, concentration, down[:, None, None], far)
    return np.asarray(each.sum(axis=-1), float)
