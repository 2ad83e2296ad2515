"""The engine side: what an engine speed gives, by straight lines of torque between known points, and what work burns."""

from __future__ import annotations

from typing import Any

import numpy as np

from rigcalc.equations import engine as book
from rigcalc.equations import fuel
from rigcalc.models.machine.statics import Use, plain
from rigcalc.models.rig.bare import BareRig

OVER_TEST = 0.146  # the book's relation over one official test, middle of four loads (tractor_test_963; docs/how_good.md)
TURNING_LOAD = 0.2  # share of rated power while turning with the tool raised: the lowest load that the relation is given for


def burn(b: BareRig, load: Any, engine_speed: Any, use: Use = plain) -> Any:
    """Give fuel in L/h. load: share of rated power (kW at the power take-off) in use; engine_speed: share of rated speed.

    By the tractor's own test report where the rig file has one, by the relation of the book otherwise.
    """
    if b.test_idle is not None and b.test_slope is not None:
        full = use(fuel.fuel_rate_by_test, b.test_idle, b.test_slope, load * b.rated_pto)
    else:
        full = use(fuel.fuel_rate, b.rated_pto, load)
    return full * use(fuel.partial_throttle_multiplier, load, engine_speed)


def saved_by_throttling(load: Any, engine_speed: Any) -> Any:
    """Give the share of fuel that the same work at a lower engine speed saves."""
    return 1 - plain(fuel.partial_throttle_multiplier, load, engine_speed)


def torque_at(b: BareRig, speed: Any) -> Any:
    """Give full-load torque at an engine speed (share of rated), as a multiple of the torque at rated power."""
    at_maximum = b.maximum_pto / b.rated_pto / b.maximum_power_speed
    peak = most_torque(b)
    to_rated = book.full_load_torque.bare(at_maximum, 1.0, b.maximum_power_speed, 1.0, speed)
    to_maximum = book.full_load_torque.bare(peak, at_maximum, b.torque_peak_speed, b.maximum_power_speed, speed)
    under_peak = book.torque_below_peak.bare(peak, speed, b.torque_peak_speed)
    torque = np.where(speed >= b.maximum_power_speed, to_rated, np.where(speed >= b.torque_peak_speed, to_maximum, under_peak))
    return torque[()]


def most_torque(b: BareRig) -> Any:
    """Give the most torque that the engine gives at any speed, as a multiple of the torque at rated power."""
    return np.maximum(1 + b.torque_rise, b.maximum_pto / b.rated_pto / b.maximum_power_speed)


def available_pto(b: BareRig) -> Any:
    """Give the most power at the power take-off, kW, at the engine speed that is set.

    From the speed of maximum power up the governor lets the engine lug down to that speed, so all of the maximum is there.
    Below it, power is torque times speed.
    """
    speed = b.engine_speed_share
    there = book.power_at_engine_speed.bare(b.rated_pto, torque_at(b, speed), speed)
    return np.where(speed >= b.maximum_power_speed, b.maximum_pto, np.minimum(there, b.maximum_pto))[()]


def load_over_share(b: BareRig, of: str) -> Any:
    """Give an engine load as it is shown, over the share of rated power (at the power take-off) in use.

    of: "available" (of what the engine gives at its speed), "rated" (of rated power) or "torque" (the torque as a share of the
    most that the engine gives at any speed, which is taken for the reference torque of the bus).
    """
    if of == "available":
        return b.rated_pto / available_pto(b)
    return 1 / (b.engine_speed_share * most_torque(b)) if of == "torque" else 1.0
