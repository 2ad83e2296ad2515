"""What is laid side by side: the figures of one answer, each with its unit, in the order in which they are read."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from rigcalc.core.units import mass_of
from rigcalc.models.machine.draft_force import covered_share
from rigcalc.models.rig.bare import texture_of
from rigcalc.models.size.answer import Answer, Margin
from rigcalc.models.size.failing import fails_most
from rigcalc.models.size.verdict import State

Value = float | str | None


@dataclass(frozen=True)
class Figure:
    """One row: its name, its unit ("key" for a name or a word of the rig file), and how an answer gives it."""

    name: str
    unit: str
    of: Callable[[Answer], Any]


def _point(name: str, unit: str) -> Figure:
    return Figure(name, unit, lambda answer: getattr(answer.point.bare, name))


def _furthest(name: str, question: str, unit: str) -> Figure:
    return Figure(name, unit, lambda answer: answer.furthest(question).value)


# States that come from a matter which counts among no limits that bind.
_OF_STATE = {State.TOO_DEEP: "critical_depth", State.LIGHT_FRONT: "steering", State.PUSHED: "holding"}


def first_limit(answer: Answer) -> Margin:
    """Give what gives out first: the matter that the verdict stands on where it names one, else the limit that binds."""
    return answer.margin(_OF_STATE.get(answer.verdict.state, "")) or answer.binding


def _power_over(answer: Answer, what: str) -> float:
    """Give engine power over the tools or over the width in m."""
    p = answer.point.bare
    return float(p.engine_power) / float(getattr(p, what))


FIGURES: tuple[Figure, ...] = (
    Figure("verdict", "key", lambda answer: answer.verdict.judgement.value),
    Figure("chance_works", "1", lambda answer: answer.sure.chance_works),
    Figure("chance_pulls", "1", lambda answer: answer.sure.chance_pulls),
    Figure("gives_out_first", "key", lambda answer: first_limit(answer).name),
    Figure("used_of_it", "1", lambda answer: first_limit(answer).used),
    Figure("fails_most", "key", fails_most),
    _point("slip", "1"),
    _point("engine_share", "1"),
    _point("draft", "kN"),
    Figure("wheel_tracks", "1", lambda answer: covered_share(answer.bare_rig)),
    _point("engine_power", "kW"),
    Figure("power_per_tool", "kW", lambda answer: None if answer.bare_rig.by_width else _power_over(answer, "tools")),
    Figure("power_per_width", "kW/m", lambda answer: _power_over(answer, "width")),
    _point("field_capacity", "ha/h"),
    _point("fuel_per_area", "L/ha"),
    _point("fuel_rate", "L/h"),
    _point("front_load", "kN"),
    _point("rear_load", "kN"),
    _furthest("deepest", "deepest", "cm"),
    _furthest("fastest", "fastest", "km/h"),
    Figure("most_tools", "1", lambda answer: None if answer.bare_rig.by_width else answer.furthest("most tools").value),
    Figure("critical_depth", "cm", lambda answer: answer.caps.critical_depth),
    _point("depth", "cm"),
    _point("speed", "km/h"),
    Figure("tools", "1", lambda answer: None if answer.bare_rig.by_width else answer.rig.implement.tools),
    _point("width", "m"),
    Figure("tool", "key", lambda answer: answer.rig.implement.tool),
    Figure("texture", "key", lambda answer: texture_of(answer.rig)),
    Figure("surface", "key", lambda answer: answer.rig.ground.surface),
    Figure("cone_index", "kPa", lambda answer: answer.bare_rig.cone_index),
    Figure("grade", "deg", lambda answer: answer.rig.ground.grade.to("deg")),
    Figure("drive", "key", lambda answer: answer.rig.tractor.drive),
    Figure("rated_power", "kW", lambda answer: answer.rig.tractor.rated_power.to("kW")),
    Figure("power_rating", "key", lambda answer: answer.rig.tractor.power_rating),
    Figure("tractor_mass", "kg", lambda answer: mass_of(answer.bare_rig.weight)),
)  # fmt: skip
UNITS = {figure.name: figure.unit for figure in FIGURES}


def figures(answer: Answer) -> dict[str, Value]:
    """Give every figure of an answer by its name: a bare number in its unit, a text, NaN where nothing is pulled, None where
    nothing is known or nothing does."""
    return {figure.name: _plain(figure.of(answer)) for figure in FIGURES}


def same(one: Value, other: Value) -> bool:
    """Say whether two figures are the same; what can't be pulled is the same as what can't be pulled."""
    if isinstance(one, float) and isinstance(other, float):
        return one == other or (math.isnan(one) and math.isnan(other))
    return one == other


def _plain(value: Any) -> Value:
    return value if value is None or isinstance(value, str) else float(value)
