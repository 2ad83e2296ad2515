"""The engine side: from what the axles take back to the engine, and what that burns."""

from __future__ import annotations

from typing import Any

from rigcalc.equations import fuel
from rigcalc.models.machine.statics import Use, plain


def burn(rated_pto: Any, load: Any, engine_speed: Any, use: Use = plain) -> Any:
    """Give fuel in L/h. load: share of rated power (kW at the power take-off) in use; engine_speed: share of rated speed."""
    return use(fuel.fuel_rate, rated_pto, load) * use(fuel.partial_throttle_multiplier, load, engine_speed)


def saved_by_throttling(load: Any, engine_speed: Any) -> Any:
    """Give the share of fuel that the same work at a lower engine speed saves."""
    return 1 - plain(fuel.partial_throttle_multiplier, load, engine_speed)
