"""Grip: what the running gear of all axles adds up to, for the kernel, and gross traction at a slip."""

from __future__ import annotations

from typing import Any

import numpy as np

from rigcalc.core.equation import Equation
from rigcalc.equations import traction_track, traction_wheel
from rigcalc.models.machine.kernel import net_pull, peak_mixed, peak_one, solve_slip_mixed, solve_slip_one
from rigcalc.models.rig.bare import BareGear, BareRig

# Rate at which gross traction builds up with slip: the exponent in the two gross traction equations of the book.
RATE = {"radial": 9.5, "bias": 7.5}
_GROSS = {"radial": traction_wheel.gross_traction_ratio_radial, "bias": traction_wheel.gross_traction_ratio_bias}
_MOTION = {"radial": traction_wheel.motion_resistance_ratio_radial, "bias": traction_wheel.motion_resistance_ratio_bias}
_LIFTED = 1e-9  # kN: an axle lifted off the ground still gets this load, so that its ratios stay finite


class Grip:
    """What the running gear of all axles adds up to: coefficients for the kernel, then gross traction at the slip found."""

    def __init__(self, use: Any):
        self.use = use
        self.wheels: list[tuple[Any, Any, Any]] = []
        self.tracks: list[tuple[Any, Any]] = []
        self.resistance: Any = 0.0
        self._driven: list[tuple[Equation, Any, Any]] = []
        self._belt: Any = 0.0
        self._shear: list[tuple[Any, float, float]] = []

    def axle(self, b: BareRig, gear: BareGear, load: Any, cone: Any) -> Any:
        """Add one axle. Gives its mobility number (NaN for tracks)."""
        load = np.maximum(load, _LIFTED)
        return self._track(b, gear, load) if gear.kind == "track" else self._wheel(gear, load, cone)

    def _wheel(self, gear: BareGear, load: Any, cone: Any) -> Any:
        gross, motion = _GROSS[gear.kind], _MOTION[gear.kind]
        mobility = self.use(
            traction_wheel.mobility_number, cone, gear.width, gear.length, load / gear.count, gear.deflection_ratio
        )
        at_rest = motion.bare(mobility, 0.0)
        if not gear.driven:
            self.resistance = self.resistance + load * at_rest
            return mobility
        # The book's own equations give the coefficients: gross traction from no slip to endless slip, and so on.
        start = gross.bare(mobility, 0.0)
        reach = load * (gross.bare(mobility, np.inf) - start)
        drag = load * (motion.bare(mobility, 1.0) - at_rest)
        self.wheels.append((reach, drag, RATE[gear.kind]))
        self.resistance = self.resistance + load * (at_rest - start)
        self._driven.append((gross, mobility, load))
        return mobility

    def _track(self, b: BareRig, gear: BareGear, load: Any) -> Any:
        pressure = self.use(traction_track.ground_pressure, load, gear.contact_area)
        sinkage = self.use(
            traction_track.track_sinkage, pressure, b.cohesive_modulus, b.frictional_modulus, gear.width, b.sinkage_exponent
        )
        pressing = self.use(
            traction_track.compaction_resistance,
            gear.count, gear.width, b.cohesive_modulus, b.frictional_modulus, b.sinkage_exponent, sinkage,
        )  # fmt: skip
        belt = self.use(traction_track.belt_loss, b.belt_ratio, load)
        if gear.driven:
            limit = self.use(traction_track.track_thrust_limit, gear.contact_area, b.cohesion, load, b.friction_angle)
            self.tracks.append((limit, b.shear_modulus / gear.length))
            self._shear.append((limit, b.shear_modulus, gear.length))
            self._belt = self._belt + belt
            self.resistance = self.resistance + pressing
        else:
            self.resistance = self.resistance + pressing + belt
        return np.nan

    def slip(self, net_pull: Any, threads: int) -> tuple[Any, Any, Any]:
        """Give slip, slip at the peak and the peak pull."""
        if not self.tracks and len({rate for _, _, rate in self.wheels}) == 1:
            reach = sum(reach for reach, _, _ in self.wheels)
            drag = sum(drag for _, drag, _ in self.wheels)
            rate = self.wheels[0][2]
            peak = peak_one(reach, self.resistance, drag, rate)
            return solve_slip_one(net_pull, reach, self.resistance, drag, rate, threads=threads), *peak
        peak = peak_mixed(self.wheels, self.tracks, self.resistance, threads=threads)
        return solve_slip_mixed(net_pull, self.wheels, self.tracks, self.resistance, threads=threads), *peak

    def pull(self, slip: Any) -> Any:
        """Give the net pull of all axles at a slip, kN."""
        return net_pull(slip, self.wheels, self.tracks, self.resistance)

    def axle_force(self, slip: Any) -> Any:
        """Give gross traction of all driven axles at a slip, kN."""
        total = self._belt + 0.0 * slip
        for gross, mobility, load in self._driven:
            total = total + load * self.use(gross, mobility, slip)
        for limit, modulus, length in self._shear:
            total = total + self.use(traction_track.track_thrust, limit, modulus, length, np.maximum(slip, 1e-12))
        return total
