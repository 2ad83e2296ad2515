"""The boundary lines of all rigs on one picture of depth and speed; each by its own dash and number, none by colour alone."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

import numpy as np

from rigcalc.models.compare.answer import Compared
from rigcalc.models.machine.curves import limits_map
from rigcalc.models.machine.limits import Caps
from rigcalc.models.rig.bare import BareRig
from rigcalc.views.compare.model import CompareModel
from rigcalc.views.compare.parts import AboutComparison, Source, compare_model
from rigcalc.widgets.figure import Picture
from rigcalc.widgets.html import table
from rigcalc.widgets.plot import Twin, axis, blank, even_depths, label, layout, ring, scaled, unit_of
from rigcalc.words.compare import CompareWords
from rigcalc.words.compare.names import LETTERS
from rigcalc.words.numbers import System, say

_DEPTHS = np.linspace(5, 60, 56)  # cm
_SPEEDS = np.linspace(3, 15, 49)  # km/h
# Dash, width and ink of each line. Neighbours differ in all three; the letter on the line says which it is.
_LINES = (
    ("solid", 4, "@ink"), ("10px,5px", 4, "@scale4"), ("3px,4px", 4, "@ink"), ("14px,4px,3px,4px", 4, "@scale4"),
    ("solid", 2, "@scale4"), ("20px,6px", 2.5, "@ink"), ("14px,4px,3px,4px,3px,4px", 2.5, "@ink"), ("2px,7px", 4, "@scale4"),
)  # fmt: skip


class CompareLimits(AboutComparison, Picture):
    """The limits of every rig over depth and speed: how deep at which speed, and where each is asked to work."""

    model: CompareModel
    title = "How deep at which speed"

    def __init__(self, source: Source = None, **traits: Any):
        traits.setdefault("note", "Above its line a rig keeps every limit; rings: what is asked, ✕ where a limit is passed.")
        text = traits.pop("label", self.title)
        Picture.__init__(self, compare_model(source), self.description, text, write_twin=self.same_as_table, **traits)
        self.watch(self.told, self.title)

    def description(self) -> Mapping[str, Any]:
        """Describe the picture; a few words where there is nothing to compare."""
        return describe(self.words) if self.words is not None else blank()

    def same_as_table(self) -> str:
        """Give the table that says the same, as HTML."""
        if self.words is None:
            return "<p>There is nothing to compare yet.</p>"
        found = twin(self.words)
        return table(found.caption, found.heads, found.rows)


def describe(words: CompareWords) -> dict[str, Any]:
    """Describe the picture: a line for each rig, one for rigs whose lines are the same; a ring for each point."""
    system, sides = words.units, words.comparison.rigs
    deepest = max(60.0, *(float(side.answer.point.bare.depth) for side in sides))
    groups, marks = _alike(sides), []
    found = [
        _line(one.bare_rig.at(depth=0.0, speed=0.0), one.caps, system, deepest, at, _key(places, sides))
        for at, places in enumerate(groups) for one in (sides[places[0]].answer,)
    ]  # fmt: skip
    lines = [line for line, _ in found]
    where = _apart([edge for _, edge in found])
    for places, column, (line, edge) in zip(groups, where, found, strict=True):
        if column is not None:
            text = f"<b>{_letters(places)}</b>"
            marks.append(label(text, float(line["x"][column]), float(edge[column]), bordercolor="@ink", borderwidth=1))
    points, shapes = _points(sides), []
    for (speed, depth), places in points.items():
        x, y = float(scaled(speed, "km/h", system)), float(scaled(depth, "cm", system))
        works = [sides[place].answer.works for place in places]
        shapes += ring(x, y, all(works))
        if len(points) > 1:
            marks.append(label(_letters(places), x, y, yshift=24))
    ends, deep = scaled(_SPEEDS[[0, -1]], "km/h", system), scaled(np.array([deepest, _DEPTHS[0]]), "cm", system)
    speed_axis = axis(f"speed, {unit_of('km/h', system)}", range=ends.tolist())
    depth_axis = axis(f"depth, {unit_of('cm', system)}", range=deep.tolist())
    return {"data": lines, "layout": layout(speed_axis, depth_axis, annotations=marks, shapes=shapes), "ground": len(lines)}


def twin(words: CompareWords) -> Twin:
    """Give, for a few depths, the fastest speed in the picture up to which each rig keeps every limit."""
    system, sides = words.units, words.comparison.rigs
    depths = even_depths(system)
    columns = [_fastest(side, depths, system) for side in sides]
    rows = [(say(depth, "cm", system), *(column[row] for column in columns)) for row, depth in enumerate(depths)]
    return Twin("How fast each works at each depth", ("Depth", *(side.name for side in sides)), rows)


def _fastest(side: Compared, depths: Any, system: System) -> list[str]:
    found = limits_map(side.answer.bare_rig.at(depth=0.0, speed=0.0), side.answer.caps, depths, _SPEEDS)
    out = []
    for row in np.broadcast_to(found.worst, (len(depths), _SPEEDS.size)):
        fails = np.flatnonzero(row > 1)
        end = fails[0] - 1 if fails.size else _SPEEDS.size - 1
        out.append("no speed in the picture" if end < 0 else say(_SPEEDS[end], "km/h", system, 2))
    return out


def _alike(sides: tuple[Compared, ...]) -> list[list[int]]:
    """Give the places of the rigs, those together whose lines are the same: the same rig at another depth or speed."""
    found: dict[tuple[BareRig, Caps], list[int]] = {}
    for place, side in enumerate(sides):
        found.setdefault((side.answer.bare_rig.at(depth=0.0, speed=0.0), side.answer.caps), []).append(place)
    return list(found.values())


def _points(sides: tuple[Compared, ...]) -> dict[tuple[float, float], list[int]]:
    found: dict[tuple[float, float], list[int]] = {}
    for place, side in enumerate(sides):
        p = side.answer.point.bare
        found.setdefault((round(float(p.speed), 3), round(float(p.depth), 3)), []).append(place)
    return found


@lru_cache(maxsize=32)
def _line(b: BareRig, caps: Caps, system: System, deepest: float, at: int, name: str) -> tuple[dict[str, Any], Any]:
    """Give a rig's line, and its depth at each speed in the unit shown; NaN where no limit is passed in the picture."""
    depths = np.append(_DEPTHS, deepest) if deepest > _DEPTHS[-1] else _DEPTHS
    share = np.broadcast_to(limits_map(b, caps, depths, _SPEEDS).worst, (depths.size, _SPEEDS.size))
    x, y = scaled(_SPEEDS, "km/h", system), scaled(depths, "cm", system)
    dash, width, ink = _LINES[at]
    trace = {
        **{"type": "contour", "x": x, "y": y, "z": np.minimum(share, 2.0), "name": name, "showlegend": True},
        **{"hoverinfo": "skip", "showscale": False, "line": {"width": width, "color": ink, "dash": dash}},
        "contours": {"coloring": "none", "start": 1, "end": 1, "size": 1},
    }
    return trace, _edge(share, y)


def _edge(share: Any, y: Any) -> Any:
    inside = (share[:-1] <= 1) & (share[1:] > 1)
    row = np.argmax(inside, axis=0)
    columns = np.arange(share.shape[1])
    low, high = share[row, columns], share[row + 1, columns]
    with np.errstate(invalid="ignore", divide="ignore"):
        part = np.where(np.isfinite(high), (1 - low) / (high - low), 0.5)
    return np.where(inside.any(axis=0), y[row] + part * (y[row + 1] - y[row]), np.nan)


def _apart(edges: list[Any]) -> list[int | None]:
    """Give, for each line, the speed at which its letter stands: where it is far from the other lines and from the letters
    that stand already; None where it has no place in the picture."""
    out: list[int | None] = []
    steps = np.arange(_SPEEDS.size)
    for at, edge in enumerate(edges):
        gap = np.full(_SPEEDS.size, 4.0)  # shown units: farther than this from a line is far enough
        for other in (other for place, other in enumerate(edges) if place != at):
            gap = np.fmin(gap, np.abs(edge - other))
        near = [np.abs(steps - column) for column in out if column is not None]
        room = np.minimum.reduce([np.full(_SPEEDS.size, 8), *near])
        score = np.where(np.isfinite(edge), gap + 0.5 * room - 0.01 * steps, -1.0)
        score[[0, 1, 2, -3, -2, -1]] = np.fmin(score[[0, 1, 2, -3, -2, -1]], 0.0)  # half of it would be cut off there
        best = int(np.argmax(score))
        out.append(best if np.isfinite(edge[best]) else None)
    return out


def _key(places: list[int], sides: tuple[Compared, ...]) -> str:
    return f"{_letters(places)}  {', '.join(sides[place].name for place in places)}"


def _letters(places: list[int]) -> str:
    return ", ".join(LETTERS[place] for place in places)
