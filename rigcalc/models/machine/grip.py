"""Grip: what the running gear of all axles adds up to, for the kernel, and gross traction at a slip.

`Grip` asks the book for every figure. `QuickGrip` gives the same numbers to rounding for large arrays: it reads the few
constants of the traction equations off the book once, and takes one exponential where the book's way takes several.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from rigcalc.core.equation import Equation
from rigcalc.equations import traction_track, traction_wheel
from rigcalc.models.machine.kernel import net_pull, peak_mixed, peak_one, solve_slip_mixed, solve_slip_one
from rigcalc.models.machine.kernel_track import peak_track, solve_slip_track
from rigcalc.models.machine.once import once
from rigcalc.models.machine.statics import Use, plain
from rigcalc.models.rig.bare import BareGear, BareRig

# Rate at which gross traction builds up with slip: the exponent in the two gross traction equations of the book.
RATE = {"radial": 9.5, "bias": 7.5}
_GROSS = {"radial": traction_wheel.gross_traction_ratio_radial, "bias": traction_wheel.gross_traction_ratio_bias}
_MOTION = {"radial": traction_wheel.motion_resistance_ratio_radial, "bias": traction_wheel.motion_resistance_ratio_bias}
NO_REACH, DRAG_RATE = 0.0, 1.0  # an axle that only holds back: any rate gives the same
_LIFTED = 1e-9  # kN: an axle lifted off the ground still gets this load, so that its ratios stay finite


class Grip:
    """What the running gear of all axles adds up to: coefficients for the kernel, then gross traction at the slip found."""

    def __init__(self, use: Use):
        self.use = use
        self.wheels: list[tuple[Any, Any, Any]] = []
        self.tracks: list[tuple[Any, Any]] = []
        self.resistance: Any = 0.0
        self.front_mobility: Any = np.nan
        self.rear_mobility: Any = np.nan
        self._driven: list[tuple[Equation, Any, Any]] = []
        self._start: Any = 0.0
        self._belt: Any = 0.0
        self._shear: list[tuple[Any, Any, Any]] = []

    def axle(self, b: BareRig, gear: BareGear, load: Any, cone: Any) -> Any:
        """Add one axle. Gives its mobility number."""
        load = np.maximum(load, _LIFTED)
        if gear.kind == "track":
            return self._track(b, gear, load, cone)
        mobility = self.use(
            traction_wheel.mobility_number, cone, gear.width, gear.length, load / gear.count, gear.deflection_ratio
        )
        self._wheel(gear, load, mobility)
        return mobility

    def _wheel(self, gear: BareGear, load: Any, mobility: Any) -> None:
        gross, motion = _GROSS[gear.kind], _MOTION[gear.kind]
        at_rest = motion.bare(mobility, 0.0)
        if not gear.driven:
            self.resistance = self.resistance + load * at_rest
            return
        # The book's own equations give the coefficients: gross traction from no slip to endless slip, and so on.
        start = gross.bare(mobility, 0.0)
        reach = load * (gross.bare(mobility, np.inf) - start)
        drag = load * (motion.bare(mobility, 1.0) - at_rest)
        self.wheels.append((reach, drag, RATE[gear.kind]))
        self.resistance = self.resistance + load * (at_rest - start)
        self._start = self._start + load * start
        self._driven.append((gross, mobility, load))

    def _track(self, b: BareRig, gear: BareGear, load: Any, cone: Any) -> Any:
        mobility = self.use(traction_track.belt_mobility_number, b.area_factor, cone, gear.contact_area, load)
        soil = (mobility, b.belt_rolling, b.belt_drag)
        at_rest = self.use(traction_track.belt_resistance_ratio, *soil, 0.0)
        belt = self.use(traction_track.belt_loss, b.belt_ratio, load)
        self.resistance = self.resistance + load * at_rest
        if not gear.driven:
            self.resistance = self.resistance + belt
            return mobility
        limit = self.use(traction_track.belt_thrust_limit, mobility, b.belt_ceiling, b.belt_decay, load)
        self.tracks.append((limit, b.shear_modulus / gear.length))
        # Sinking by slip is a drag without a reach of its own: an axle of the kernel that only holds back.
        drag = load * (traction_track.belt_resistance_ratio.bare(*soil, 1.0) - at_rest)
        self.wheels.append((NO_REACH, drag, DRAG_RATE))
        self._shear.append((limit, b.shear_modulus, gear.length))
        self._belt = self._belt + belt
        return mobility

    @property
    def rolling(self) -> Any:
        """What free rolling uses up, kN: the resistance, and what driven tyres and belts lose inside."""
        return self.resistance + self._start + self._belt

    @once
    def _one_rate(self) -> tuple[Any, Any, Any] | None:
        """Reach, drag and rate of all driven wheels as if they were one axle; None where rates differ or tracks pull."""
        if self.tracks or len({rate for _, _, rate in self.wheels}) != 1:
            return None
        return sum(reach for reach, _, _ in self.wheels), sum(drag for _, drag, _ in self.wheels), self.wheels[0][2]

    @once
    def peak(self) -> tuple[Any, Any]:
        """Slip at the peak and the peak pull in kN."""
        return self._peak()

    def _peak(self) -> tuple[Any, Any]:
        if self._one_rate:
            reach, drag, rate = self._one_rate
            return peak_one(reach, self.resistance, drag, rate)
        return peak_mixed(self.wheels, self.tracks, self.resistance)

    def slip(self, net_pull: Any) -> Any:
        """Give the slip at which the running gear gives a net pull in kN; NaN where it can't."""
        if self._one_rate:
            reach, drag, rate = self._one_rate
            return solve_slip_one(net_pull, reach, self.resistance, drag, rate)
        return solve_slip_mixed(net_pull, self.wheels, self.tracks, self.resistance)

    def pull(self, slip: Any) -> Any:
        """Give the net pull of all axles at a slip, kN."""
        return net_pull(slip, self.wheels, self.tracks, self.resistance)

    def force_in_pull(self, slip: Any, net_pull: Any) -> Any:
        """Give gross traction of all driven axles at the slip that a net pull takes, kN."""
        return self.axle_force(slip)

    def axle_force(self, slip: Any) -> Any:
        """Give gross traction of all driven axles at a slip, kN."""
        total = self._belt + 0.0 * slip
        for gross, mobility, load in self._driven:
            total = total + load * self.use(gross, mobility, slip)
        for limit, modulus, length in self._shear:
            total = total + self.use(traction_track.track_thrust, limit, modulus, length, np.maximum(slip, 1e-12))
        return total


@dataclass(frozen=True)
class _Fit:
    """Constants of one kind of tyre: gross traction = start + reach (1 - exp(-decay Bn)) (1 - exp(-rate s)), and motion
    resistance = floor + rolling / Bn + drag s / sqrt(Bn)."""  # fmt: skip

    start: float
    reach: float
    decay: float
    floor: float
    rolling: float
    drag: float


@cache
def fit(kind: str) -> _Fit:
    """Read the constants of "radial" or "bias" tyres off the book's equations."""
    gross, motion = _GROSS[kind].bare, _MOTION[kind].bare
    start, floor, at_one = gross(np.inf, 0.0), motion(np.inf, 0.0), motion(1.0, 0.0)
    reach = gross(np.inf, np.inf) - start
    decay = -np.log1p(-(gross(1.0, np.inf) - start) / reach)
    return _Fit(*map(float, (start, reach, decay, floor, at_one - floor, motion(1.0, 1.0) - at_one)))


class QuickGrip(Grip):
    """The same for large arrays. A test holds it to `Grip` over all kinds of running gear."""

    def __init__(self, use: Use = plain):
        super().__init__(use)

    def _wheel(self, gear: BareGear, load: Any, mobility: Any) -> None:
        f = fit(gear.kind)
        if not gear.driven:
            self.resistance = self.resistance + load * (f.rolling / mobility + f.floor)
            return
        # In place where it can be: what isn't written anew stays in the cache.
        reach = np.exp(mobility * -f.decay)
        reach *= -f.reach
        reach += f.reach
        reach *= load
        drag = load / np.sqrt(mobility)
        drag *= f.drag
        self.wheels.append((reach, drag, RATE[gear.kind]))
        lost = load / mobility
        lost *= f.rolling
        self.resistance = self.resistance + (lost if f.floor == f.start else lost + load * (f.floor - f.start))
        self._driven.append((_GROSS[gear.kind], mobility, load))
        self._start = self._start + load * f.start

    @once
    def _one_stretch(self) -> tuple[Any, Any, Any] | None:
        """Thrust, stretch and drag of all driven tracks as if they were one; None where stretches differ or wheels pull."""
        if not self.tracks or any(reach is not NO_REACH for reach, _, _ in self.wheels):
            return None
        first = self.tracks[0][1]
        if not all(stretch is first or np.array_equal(stretch, first) for _, stretch in self.tracks):
            return None
        return sum(thrust for thrust, _ in self.tracks), first, sum(drag for _, drag, _ in self.wheels)

    def _peak(self) -> tuple[Any, Any]:
        if self._one_stretch:
            thrust, stretch, drag = self._one_stretch
            return peak_track(thrust, self.resistance, stretch, drag)
        return super()._peak()

    def slip(self, net_pull: Any) -> Any:
        """Give the slip at which the running gear gives a net pull in kN; NaN where it can't."""
        if self._one_stretch:
            thrust, stretch, drag = self._one_stretch
            return solve_slip_track(net_pull, thrust, self.resistance, stretch, drag)
        return super().slip(net_pull)

    def force_in_pull(self, slip: Any, net_pull: Any) -> Any:
        """Give gross traction of all driven axles at the slip that a net pull takes, kN.

        No exponential is needed: in steady pull it is what pull, resistance and the drag of this slip take, and at no slip
        what there is from the start.
        """
        drag = sum(drag for _, drag, _ in self.wheels)
        return np.maximum(net_pull + self.resistance, 0.0) + (self._start + self._belt) + drag * slip
