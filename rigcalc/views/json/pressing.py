"""What the axles press together, and the residue that is left, as JSON-ready data: every number with its unit."""

from __future__ import annotations

from typing import Any

import numpy as np

from rigcalc.models.ground.contact import Contact
from rigcalc.models.ground.loss import Loss
from rigcalc.models.ground.pressing import Pressed, Pressing
from rigcalc.models.ground.residue import Residue
from rigcalc.views.json.numbers import array, number, span


def residue_data(left: Residue) -> dict[str, Any]:
    """Give the cover before and after each pass."""
    return {
        "kind": left.kind,
        "before": number(left.before, "1"),
        "keep": number(left.keep, "1"),
        "after": span(left.after, "1"),
        "verdict": None if left.judgement is None else left.judgement.value,
        "lost_at": None if left.lost_at is None else left.lost_at.operation,
        "passes": [
            {"operation": one.operation, "left": span(one.left, "1"), "cover": span(one.cover, "1"), "sure": one.sure}
            for one in left.passes
        ],
    }


def loss_data(found: Loss) -> dict[str, Any]:
    """Give shares of the yield where wheels ran; figures is False where there are none for such axles."""
    return {
        **{"figures": found.known, "typed": list(found.typed), "wheeled": number(found.wheeled, "1")},
        **{"first_year": span(found.first, "1"), "lasting": span(found.lasting, "1"), "fades_in": span(found.fades, "year")},
        "year": found.years.astype(int).tolist(),
        "loss": {"low": array(found.low, "1"), "high": array(found.high, "1")},
    }


def pressing_data(found: Pressing) -> dict[str, Any]:
    """Give what the ground bears, each axle's stress over depth, and the section under the axle that presses most."""
    held = found.bearing
    return {
        "verdict": None if found.judgement is None else found.judgement.value,
        "bears": None if held.kpa is None else span(held.kpa, "kPa"),
        "water_read": held.measured,
        "by": [
            {"name": one.name, "bears": span(one.kpa, "kPa"), "holds": one.holds, "decides": one.decides} for one in held.each
        ],
        "concentration_factor": span(found.concentration, "1"),
        "depth": array(found.depths, "cm"),
        "axles": [_axle(found, one) for one in found.axles],
        "section": {
            "axle": found.section.axle,
            "across": array(found.section.across, "m"),
            "down": array(found.section.down, "m"),
            "stress": {"values": np.round(found.section.kpa, 3).tolist(), "unit": "kPa"},
        },
    }


def _axle(found: Pressing, one: Pressed) -> dict[str, Any]:
    axle = one.axle
    return {
        "name": axle.name,
        "when": axle.when,
        "mass": number(axle.mass, "kg"),
        "kind": axle.kind,
        "count": axle.count,
        "contact_area": span(axle.area, "m**2"),
        "pressure": span(axle.pressure, "kPa"),
        "stress": {"low": array(one.low, "kPa"), "high": array(one.high, "kPa")},
        "contact_model": None if one.contact is None else _contact(one.contact),
        "yields": {"sure": number(one.sure, "cm"), "perhaps": number(one.maybe, "cm")},
        "keeps_50_50": found.rule(one),
        "over_10_t": one.over_axle_rule,
    }


def _contact(found: Contact) -> dict[str, Any]:
    """Give the second opinion by the tyres' pressure; stress is null where the load doesn't close."""
    return {
        **{"inflation": number(found.pressure, "kPa"), "recommended": number(found.recommended, "kPa")},
        **{"greatest_in_contact": number(found.peak, "kPa"), "length": number(found.length, "m")},
        **{"load_closed": number(found.closed, "kN"), "load": number(found.load, "kN"), "holds": found.holds},
        "depth": array(found.depths, "cm"),
        "stress": None
        if found.low is None or found.high is None
        else {"low": array(found.low, "kPa"), "high": array(found.high, "kPa")},
    }
