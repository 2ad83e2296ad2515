"""What the axles press together, and the residue that is left, as JSON-ready data: every number with its unit."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from rigcalc.models.ground.contact import Contact
from rigcalc.models.ground.loss import Loss
from rigcalc.models.ground.pressing import Pressed, Pressing
from rigcalc.models.ground.residue import Residue


def residue_data(left: Residue) -> dict[str, Any]:
    """Give the cover before and after each pass."""
    return {
        "kind": left.kind,
        "before": _number(left.before, "1"),
        "keep": None if left.keep is None else _number(left.keep, "1"),
        "after": _span(left.after, "1"),
        "verdict": None if left.judgement is None else left.judgement.value,
        "lost_at": None if left.lost_at is None else left.lost_at.operation,
        "passes": [
            {"operation": one.operation, "left": _span(one.left, "1"), "cover": _span(one.cover, "1"), "sure": one.sure}
            for one in left.passes
        ],
    }


def loss_data(found: Loss) -> dict[str, Any]:
    """Give shares of the yield where wheels ran; figures is False where there are none for such axles."""
    return {
        **{"figures": found.known, "typed": list(found.typed), "wheeled": _number(found.wheeled, "1")},
        **{"first_year": _span(found.first, "1"), "lasting": _span(found.lasting, "1"), "fades_in": _span(found.fades, "year")},
        "year": found.years.astype(int).tolist(),
        "loss": {"low": _array(found.low, "1"), "high": _array(found.high, "1")},
    }


def pressing_data(found: Pressing) -> dict[str, Any]:
    """Give what the ground bears, each axle's stress over depth, and the section under the axle that presses most."""
    held = found.bearing
    return {
        "verdict": None if found.judgement is None else found.judgement.value,
        "bears": None if held.kpa is None else _span(held.kpa, "kPa"),
        "water_read": held.measured,
        "by": [
            {"name": one.name, "bears": _span(one.kpa, "kPa"), "holds": one.holds, "decides": one.decides} for one in held.each
        ],
        "concentration_factor": _span(found.concentration, "1"),
        "depth": _array(found.depths, "cm"),
        "axles": [_axle(found, one) for one in found.axles],
        "section": {
            "axle": found.section.axle,
            "across": _array(found.section.across, "m"),
            "down": _array(found.section.down, "m"),
            "stress": {"values": np.round(found.section.kpa, 3).tolist(), "unit": "kPa"},
        },
    }


def _axle(found: Pressing, one: Pressed) -> dict[str, Any]:
    axle = one.axle
    return {
        "name": axle.name,
        "when": axle.when,
        "mass": _number(axle.mass, "kg"),
        "kind": axle.kind,
        "count": axle.count,
        "contact_area": _span(axle.area, "m**2"),
        "pressure": _span(axle.pressure, "kPa"),
        "stress": {"low": _array(one.low, "kPa"), "high": _array(one.high, "kPa")},
        "contact_model": None if one.contact is None else _contact(one.contact),
        "yields": {"sure": _number(one.sure, "cm"), "perhaps": _number(one.maybe, "cm")},
        "keeps_50_50": found.rule(one),
        "over_10_t": one.over_axle_rule,
    }


def _contact(found: Contact) -> dict[str, Any]:
    """Give the second opinion by the tyres' pressure; stress is null where the load doesn't close."""
    return {
        **{"inflation": _number(found.pressure, "kPa"), "recommended": _number(found.recommended, "kPa")},
        **{"greatest_in_contact": _number(found.peak, "kPa"), "length": _number(found.length, "m")},
        **{"load_closed": _number(found.closed, "kN"), "load": _number(found.load, "kN"), "holds": found.holds},
        "depth": _array(found.depths, "cm"),
        "stress": None
        if found.low is None or found.high is None
        else {"low": _array(found.low, "kPa"), "high": _array(found.high, "kPa")},
    }


def _span(span: tuple[float, float], unit: str) -> dict[str, Any]:
    return {"low": _number(span[0], unit), "high": _number(span[1], unit)}


def _array(values: Any, unit: str) -> dict[str, Any]:
    return {"values": np.asarray(values, float).tolist(), "unit": unit}


def _number(value: float, unit: str) -> dict[str, Any] | None:
    return {"value": float(value), "unit": unit} if math.isfinite(value) else None
