"""At which angle the soil breaks before each of many tines: the angle with the least weight factor, found for all at once.

With x, the cotangent of the angle, the factor of McKyes and Ali has no angle left in it but those that are given: a ratio of
polynomials and one root. The least of a few values in each tine's span starts Newton's steps, which are held in their bracket.
"""

from __future__ import annotations

import os
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import numpy as np

STEEPEST, FLATTEST = 89.0, 3.0  # deg: between these the soil is taken to break
_THINNEST = 1e6  # depth over width: what is thinner is a slip
_MANY = 100_000  # from where threads pay
_STARTS, _STEPS, _BLOCK = 10, 6, 8192  # found by trial: the error stays under 1e-9 of the factor


def failure_angle(rake: Any, friction_angle: Any, metal_friction: Any, slenderness: Any) -> Any:
    """Give the angle (deg) at which soil breaks before a narrow tine.

    rake, friction_angle, metal_friction: in deg; slenderness: depth over width. Arrays of one shape, or numbers. NaN where
    rake isn't above 0 and up to 90, an angle of friction isn't 0 to under 90, the three together reach 180, or the slenderness
    isn't 0 to a million: such a tine has no wedge before it.
    """
    given = np.broadcast_arrays(*(np.asarray(each, float) for each in (rake, friction_angle, metal_friction, slenderness)))
    a, f, m, k = (each.reshape(-1) for each in given)
    out = np.empty(a.size)

    def fill(at: int) -> None:
        cut = slice(at, at + _BLOCK)
        out[cut] = _block(a[cut], f[cut], m[cut], k[cut])

    starts = range(0, a.size, _BLOCK)
    if a.size < _MANY:
        for at in starts:
            fill(at)
    else:
        with ThreadPoolExecutor(os.cpu_count()) as pool:
            list(pool.map(fill, starts))
    return out.reshape(given[0].shape)[()]


def _block(rake: Any, friction: Any, metal: Any, slender: Any) -> Any:
    good = (rake > 0) & (rake <= 90) & (friction >= 0) & (friction < 90) & (metal >= 0) & (metal < 90)
    good &= (rake + friction + metal < 180) & (slender >= 0) & (slender <= _THINNEST)
    a, f, m = (np.deg2rad(np.where(good, each, other)) for each, other in ((rake, 45.0), (friction, 30.0), (metal, 20.0)))
    cot, tan, k = 1 / np.tan(a), np.tan(f), np.where(good, slender, 1.0) * (2 / 3)
    along, across = np.cos(a + m), np.sin(a + m)
    rise, base = along * tan + across, along - across * tan  # the wedge holds while base + rise * x is above nothing
    low = np.maximum(1 / np.tan(np.deg2rad(STEEPEST)), 1.000001 * np.maximum(-base / rise, 0.0) + 1e-6)
    high = np.maximum(1 / np.tan(np.deg2rad(FLATTEST)), 1.01 * low)

    def factor(x: Any) -> Any:
        return (cot + x) * (1 + tan * x) / (base + rise * x) * (1 + k * np.sqrt(x * (x + 2 * cot)))

    # Places lie closer near the low end, where the factor bends most.
    shares = (np.arange(_STARTS + 1) / _STARTS) ** 3
    wide = high - low
    place = 1 + factor(low + shares[1:, None] * wide).argmin(axis=0)
    left, right = low + shares[place - 1] * wide, low + shares[np.minimum(place + 1, _STARTS)] * wide
    x = low + shares[place] * wide
    for _ in range(_STEPS):
        root = np.sqrt(x * (x + 2 * cot))
        sum_, one, two, side = x + cot, 1 + tan * x, base + rise * x, 1 + k * root
        per_root = k / (root * side)
        slope = 1 / sum_ + tan / one - rise / two + per_root * sum_
        bend = (rise / two) ** 2 - 1 / sum_**2 - (tan / one) ** 2
        bend = bend + per_root * (1 - sum_**2 * (1 + 2 * k * root) / (root**2 * side))
        up = slope > 0
        right, left = np.where(up, x, right), np.where(up, left, x)
        step = np.where(bend > 0, slope / np.where(bend > 0, bend, 1.0), np.inf)
        aim = x - step
        x = np.where((aim >= left) & (aim <= right), aim, (left + right) / 2)
    x = np.where(factor(low) < factor(x), low, x)  # steeper than any place above
    return np.where(good, np.rad2deg(np.arctan2(1.0, x)), np.nan)
