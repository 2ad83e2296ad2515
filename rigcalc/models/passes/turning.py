"""A turn at the end of a pass, from the circle that the rig drives: how long, how deep into the headland, how many seconds."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from rigcalc.core.tables import table

_HEADLAND = ("rounds", "turn_speed", "lift", "behind")  # the others are those of the season, of which there is one table


@cache
def choice(name: str) -> float:
    """Give a number of the tables of choices, in the unit that its note names: of the headland, or of the season."""
    return float(_row(name)["value"])


@cache
def span(name: str) -> tuple[float, float]:
    """Give what can be argued for of a choice: its low and its high end."""
    return float(_row(name)["low"]), float(_row(name)["high"])


def _row(name: str) -> Any:
    return table("headland_choices" if name in _HEADLAND else "season_choices")[name]


@dataclass(frozen=True)
class Turn:
    """One turn. seconds: tool out to tool in; rounds: along the boundary that it needs, None where no circle is known; length,
    deep: m driven, and m that it reaches beyond the end of the pass, None likewise."""

    seconds: float
    rounds: int | None = None
    length: float | None = None
    deep: float | None = None


def turn_on(radius: float, spacing: float, width: float) -> Turn:
    """Give the turn into the next pass on arcs of a radius. radius, spacing of the passes, width of the tool: m.

    A half circle and a straight piece where the next pass is two radii away or more; else a loop that first swings out, three
    arcs of the same radius. Arcs without a transition are the shortest that can be: real turns are a little longer.
    """
    if spacing >= 2 * radius:
        length, deep = spacing + (np.pi - 2) * radius, radius
    else:
        length = radius * (3 * np.pi - 4 * np.arcsin((2 * radius + spacing) / (4 * radius)))
        deep = radius + np.sqrt(4 * radius**2 - (radius + spacing / 2) ** 2)
    need = deep + choice("behind") + width / 2
    seconds = length / (choice("turn_speed") / 3.6) + choice("lift")
    return Turn(float(seconds), int(np.ceil(need / spacing - 1e-9)), float(length), float(deep))
