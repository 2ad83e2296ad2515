"""Picture 1: the limits over depth and speed. Where it works, which limit stops it where, and how sure the edge is."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np

from rigcalc.models.machine.curves import limits_map
from rigcalc.models.machine.field import draft_factor_at
from rigcalc.models.machine.limits import Caps, shares, worst
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.sure import HIGH, LOW
from rigcalc.models.rig.bare import BareRig
from rigcalc.widgets.plot import Twin, axis, even_depths, label, layout, ring, scaled, unit_of
from rigcalc.words.limits import limit_title
from rigcalc.words.numbers import System, percent, say
from rigcalc.words.size import SizeWords

_DEPTHS = np.linspace(5, 60, 45)  # cm
_SPEEDS = np.linspace(3, 15, 49)  # km/h


def describe(words: SizeWords) -> dict[str, Any]:
    """Describe the picture: share of the tightest limit, its edge, lines of equal slip and power, the chosen point.

    All but the point stays the same objects while only depth and speed are moved: that many traces are its `ground`.
    """
    answer, system = words.answer, words.units
    chosen = answer.point.bare
    traces, notes, ends = _ground(answer.bare_rig.at(depth=0.0, speed=0.0), answer.caps, system, max(60.0, float(chosen.depth)))
    across, down = float(scaled(chosen.speed, "km/h", system)), float(scaled(chosen.depth, "cm", system))
    speed = axis(f"speed, {unit_of('km/h', system)}", range=ends[0])
    depth = axis(f"depth, {unit_of('cm', system)}", range=ends[1])
    marked = layout(speed, depth, annotations=notes, shapes=ring(across, down, answer.works))
    return {"data": traces, "layout": marked, "ground": len(traces), "point": [across, down]}


@lru_cache(maxsize=8)
def _ground(b: BareRig, caps: Caps, system: System, deepest: float) -> tuple[list[Any], list[Any], Any]:
    """Give (traces, labels, ends of the axes) of a rig whatever its depth and speed."""
    depths = np.append(_DEPTHS, deepest) if deepest > _DEPTHS[-1] else _DEPTHS
    found = limits_map(b, caps, depths, _SPEEDS)
    x, y = scaled(_SPEEDS, "km/h", system), scaled(depths, "cm", system)
    base = {"x": x, "y": y, "hoverinfo": "skip", "showscale": False}
    # Beyond the edge one even colour: which limit it is stands there in words, and every line keeps its contrast.
    scale = [[0, "@scale1"], [0.8, "@scale2"], [0.8, "@scale3"], [1, "@scale3"]]
    traces = [
        {
            **{**base, "type": "heatmap", "z": np.minimum(found.worst, 1.25), "zmin": 0, "zmax": 1.25},
            **{"zsmooth": "fast", "colorscale": scale},
        },
        _lines(base, 100 * found.slip, "slip, %", "dash"),
        _lines(base, 100 * np.where(np.isfinite(found.slip), found.engine_share, np.nan), "engine load, %", "dot", 25),
        *_edges(b, caps, base, depths),
        _edge(base, found.worst, 5, "as far as it goes", "solid"),
    ]
    if caps.critical_depth:
        at = float(scaled(caps.critical_depth, "cm", system))
        line = {"color": "@ink", "width": 2, "dash": "longdashdot"}
        traces.append(
            {
                **{"type": "scatter", "mode": "lines", "x": [x[0], x[-1]], "y": [at, at], "name": "critical depth"},
                **{"line": line, "hoverinfo": "skip"},
            }
        )
    return traces, _names(found.worst, found.binding, x, y), ([x[0], x[-1]], [y[-1], y[0]])


def _lines(base: dict[str, Any], z: Any, name: str, dash: str, step: float | None = None) -> dict[str, Any]:
    """Give lines of equal value at round numbers; without `step`, so that about four fall into the picture."""
    values = np.broadcast_to(z, (base["y"].size, base["x"].size))
    most = float(np.nanmax(values)) if np.isfinite(values).any() else 1.0
    step = step or next((each for each in (1, 2, 5, 10) if most / each < 5), 10)
    return {
        **{**base, "type": "contour", "z": values, "name": name, "showlegend": True},
        "contours": {
            **{"coloring": "none", "showlabels": True, "start": step, "end": (4 if step == 25 else 10) * step, "size": step},
            "labelfont": {"size": 12, "color": "@ink"},
        },
        "line": {"width": 1.5, "dash": dash, "color": "@ink"},
    }


def _edge(base: dict[str, Any], share: Any, width: float, name: str, dash: str, legend: bool = True) -> dict[str, Any]:
    return {
        **base,
        "type": "contour",
        "z": np.minimum(share, 2.0),
        "name": name,
        "showlegend": legend,
        "contours": {"coloring": "none", "start": 1, "end": 1, "size": 1},
        "line": {"width": width, "color": "@signal", "dash": dash},
    }


def _edges(rig: BareRig, caps: Caps, base: dict[str, Any], depths: Any) -> list[dict[str, Any]]:
    """Give the edge in the field that pulls harder than 9 in 10 and in the one that pulls lighter than 9 in 10."""
    out = []
    b = rig.at(depth=depths[:, None], speed=_SPEEDS[None, :])
    for level in (HIGH, LOW):
        harder = solve(b, draft_factor=draft_factor_at(b, level))
        share = np.broadcast_to(worst(shares(b, harder, caps))[0], (depths.size, _SPEEDS.size))
        out.append(_edge(base, share, 2, "edge, 8 in 10", "dot", legend=level == HIGH))
    return out


def _names(share: Any, names: Any, x: Any, y: Any) -> list[dict[str, Any]]:
    """Label each part beyond the edge with the limit that stops it there, if the part is big enough to read in.

    Each stands near the middle of its part, on a line of its own, so that long names never lie on each other.
    """
    out: list[dict[str, Any]] = []
    beyond, apart, taken = share > 1, 0.12 * share.shape[0], np.empty(0)
    parts = [(name, *np.nonzero(beyond & (names == name))) for name in np.unique(names[beyond])]
    for name, rows, columns in sorted(parts, key=lambda part: part[1].size):
        if rows.size < 0.02 * share.size:
            continue
        away = (rows - rows.mean()) ** 2 + (columns - columns.mean()) ** 2
        crowded = (abs(rows[:, None] - taken) < apart).any(axis=1)
        middle = np.argmin(away + share.size * crowded)
        taken = np.append(taken, rows[middle])
        across = columns[middle] / share.shape[1]
        anchor = "right" if across > 0.7 else "left" if across < 0.3 else "center"
        text = f"✕ {limit_title(str(name))}"
        out.append(label(text, float(x[columns[middle]]), float(y[rows[middle]]), xanchor=anchor))
    return out


def twin(words: SizeWords) -> Twin:
    """Give, for a few depths, the fastest speed that works and what stops it beyond."""
    answer, system = words.answer, words.units
    depths = even_depths(system)
    b = answer.bare_rig.at(depth=depths[:, None], speed=_SPEEDS[None, :])
    share, names = (np.broadcast_to(part, (depths.size, _SPEEDS.size)) for part in worst(shares(b, solve(b), answer.caps)))
    near = int(np.argmin(abs(_SPEEDS - answer.point.bare.speed)))
    rows = []
    for row, depth in enumerate(depths):
        fails = np.flatnonzero(share[row] > 1)
        end = fails[0] - 1 if fails.size else _SPEEDS.size - 1
        stop = limit_title(str(names[row, fails[0]])) if fails.size else "nothing in the picture"
        fastest = "no speed in the picture" if end < 0 else say(_SPEEDS[end], "km/h", system, 2)
        rows.append((say(depth, "cm", system), fastest, stop, percent(share[row, near])))
    return Twin(
        "How fast it works at each depth", ("Depth", "Works up to", "Then stopped by", "Used at the chosen speed"), rows
    )
