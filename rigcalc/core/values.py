"""What may come in at an equation's edge: real numbers inside their bounds, in units that convert."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import canonical_unit, factor

FINITE = sys.float_info.max
CHECKED_UP_TO = 4096  # values: larger arrays are checked for their kind and units alone
REAL = "iuf"  # kinds of array that are held to bounds: neither complex, objects, texts, dates nor flags


_ndarray = np.ndarray


def fits(value: Any, least: float, most: float) -> bool:
    """Say whether an equation takes a bare value: one within its bounds, or an array of real numbers too large to look at."""
    if value.__class__ is _ndarray and value.size > CHECKED_UP_TO:
        return value.dtype.kind in REAL
    return within(value, least, most)


def within(value: Any, least: float, most: float) -> bool:
    """Say whether a number, or every number of an array, lies between two bounds; what is lazy isn't looked at."""
    if value.__class__ is np.ndarray:
        if value.dtype.kind not in REAL:
            return False
        # NaN in an array is a gap and stays one; fmin and fmax skip gaps. docs/decisions/0001 says why size matters.
        if not value.ndim:
            return bool(least <= value <= most)
        if not value.size:
            return True
        low, high = np.fmin.reduce(value, axis=None), np.fmax.reduce(value, axis=None)
        return not (low < least or high > most)
    if isinstance(value, (int, float, np.integer, np.floating)):
        return bool(least <= value <= most)
    return hasattr(value, "dask")


def factor_of(quantity: Any, to: str) -> float:
    """Give the factor for a quantity that a user built: any unit that its registry knows, as long as it has no offset."""
    home = quantity._REGISTRY
    target = home.Unit(canonical_unit(to))
    if quantity.dimensionality != target.dimensionality or _is_angle(quantity.units) != _is_angle(target):
        raise InputError([Fault("unit", str(quantity.units), f"a unit that converts to {to}")])
    if not all(home._units[name].is_multiplicative for name in quantity._units):
        raise InputError([Fault("unit", str(quantity.units), "a unit without an offset")])
    return float(home.Quantity(1, quantity.units).to(target).magnitude)


def in_unit(value: Any, to: str) -> Any:
    """Give the bare numbers of a quantity, or labelled data of bare numbers, in `to`. Raises InputError, or AttributeError."""
    if not is_labelled(value):
        return scaled(value._magnitude, factor_of(value, to))
    if hasattr(value.data, "_units"):
        return value.copy(data=value.data.magnitude * factor_of(value.data, to))
    return value * factor(str(value.attrs.get("units", "")), to)


def is_quantity(value: Any) -> bool:
    """Whether a value is a pint quantity, of whatever registry."""
    return hasattr(value, "_units") and hasattr(value, "_magnitude")


def is_labelled(value: Any) -> bool:
    """Whether a value is an xarray DataArray, or acts as one."""
    return hasattr(value, "dims") and hasattr(value, "coords")


def _is_angle(unit: Any) -> bool:
    """Whether a unit is an angle: pint counts those as plain numbers, so that 10 deg would pass for a slip."""
    home = unit._REGISTRY
    return bool(unit.dimensionless) and "radian" in home.Quantity(1, unit).to_root_units()._units


def apart(where: str, shapes: Mapping[str, tuple[int, ...]]) -> Fault | None:
    """Give the fault of arrays, by name, that don't go together; None where they do."""
    arrays = {name: shape for name, shape in shapes.items() if shape}
    try:
        np.broadcast_shapes(*arrays.values())
    except ValueError:
        got = ", ".join(f"{name} of shape {shape}" for name, shape in arrays.items())
        return Fault(where, got, "shapes that go together by numpy's rules of broadcasting",
                     f"{next(iter(arrays))}[:, None] in its place for every pair")  # fmt: skip
    return None


def as_typed(value: Any) -> str:
    """Give a value as its user typed it, for an error."""
    return shown(value.item() if isinstance(value, np.generic) else value)


def scaled(value: Any, scale: float | None) -> Any:
    """Give a value times a factor; one that can't be multiplied as it is."""
    try:
        return value if scale is None else value * scale
    except (TypeError, OverflowError):
        return value  # a Decimal, say, or a whole number beyond all floats: held to its bounds it is refused in words
