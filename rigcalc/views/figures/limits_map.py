"""Picture 1: the limits over depth and speed. Where it works, which limit stops it where, and how sure the edge is."""

from __future__ import annotations

from statistics import NormalDist
from typing import Any

import numpy as np

from rigcalc.models import Answer
from rigcalc.models.curves import limits_map
from rigcalc.models.limits import LIMITS, shares, worst
from rigcalc.models.operating_point import solve
from rigcalc.models.shown import percent, say
from rigcalc.views.figures.common import Twin, axis, even_depths, label, layout, shown, unit_of

_DEPTHS = np.linspace(5, 60, 45)  # cm
_SPEEDS = np.linspace(3, 15, 49)  # km/h


def describe(answer: Answer) -> dict[str, Any]:
    """Describe the picture: share of the tightest limit, its edge, lines of equal slip and power, the chosen point."""
    system = answer.units
    depths = np.unique(np.append(_DEPTHS, answer.point.bare.depth)) if answer.point.bare.depth > 60 else _DEPTHS
    found = limits_map(answer.bare_rig, answer.caps, depths, _SPEEDS)
    speeds, share, names = _SPEEDS, found.worst, found.binding
    x, y = shown(speeds, "km/h", system), shown(depths, "cm", system)
    base = {"x": x, "y": y, "hoverinfo": "skip", "showscale": False}
    chosen = answer.point.bare
    px, py = float(shown(chosen.speed, "km/h", system)), float(shown(chosen.depth, "cm", system))
    state = "works" if answer.works else "does not work as it stands"
    data = [
        {
            **base,
            "type": "heatmap",
            "z": np.minimum(share, 1.25),
            "zmin": 0,
            "zmax": 1.25,
            "zsmooth": "best",
            "colorscale": [[0, "@scale1"], [0.8, "@scale3"], [0.8, "@scale4"], [1, "@scale5"]],
        },
        _lines(base, 100 * found.slip, "slip, %", "dash"),
        _lines(base, 100 * np.where(np.isfinite(found.slip), found.engine_share, np.nan), "rated power, %", "dot", 25),
        *_edges(answer, base, depths, speeds),
        _edge(base, share, 5, "as far as it goes", "solid"),
        {
            "type": "scatter",
            "mode": "markers",
            "x": [px],
            "y": [py],
            "showlegend": False,
            "marker": {
                "size": 22,
                "symbol": "circle-cross" if answer.works else "x",
                "color": "@paper",
                "line": {"width": 4, "color": "@signal"},
            },
            "hovertemplate": f"here it {state}<extra></extra>",
        },
    ]
    notes = _names(share, names, x, y)
    if answer.caps.critical_depth:
        at = float(shown(answer.caps.critical_depth, "cm", system))
        data.append(
            {
                "type": "scatter",
                "mode": "lines",
                "x": [x[0], x[-1]],
                "y": [at, at],
                "name": "critical depth",
                "line": {"color": "@ink", "width": 2, "dash": "longdashdot"},
                "hoverinfo": "skip",
            }
        )
    return {
        "data": data,
        "layout": layout(
            axis(f"speed, {unit_of('km/h', system)}", range=[x[0], x[-1]]),
            axis(f"depth, {unit_of('cm', system)}", range=[y[-1], y[0]]),
            annotations=notes,
        ),
    }


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


def _edges(answer: Answer, base: dict[str, Any], depths: Any, speeds: Any) -> list[dict[str, Any]]:
    """Give the edge in the field that pulls harder than 9 in 10 and in the one that pulls lighter than 9 in 10."""
    out = []
    b = answer.bare_rig.at(depth=depths[:, None], speed=speeds[None, :])
    reach = NormalDist().inv_cdf(0.9) * b.draft_range / 2
    for sign in (1, -1):
        harder = solve(b, draft_factor=1 + sign * reach)
        share = np.broadcast_to(worst(shares(b, harder, answer.caps))[0], (depths.size, speeds.size))
        out.append(_edge(base, share, 2, "edge, 8 fields in 10", "dot", legend=sign > 0))
    return out


def _names(share: Any, names: Any, x: Any, y: Any) -> list[dict[str, Any]]:
    """Label each part beyond the edge with the limit that stops it there, if the part is big enough to read in."""
    out = []
    beyond = share > 1
    for name in np.unique(names[beyond]):
        rows, columns = np.nonzero(beyond & (names == name))
        if rows.size < 0.02 * share.size:
            continue
        middle = np.argmin((rows - rows.mean()) ** 2 + (columns - columns.mean()) ** 2)
        across = columns[middle] / share.shape[1]
        anchor = "right" if across > 0.7 else "left" if across < 0.3 else "center"
        text = f"✕ {LIMITS[str(name)].title}"
        out.append(label(text, float(x[columns[middle]]), float(y[rows[middle]]), xanchor=anchor))
    return out


def twin(answer: Answer) -> Twin:
    """Give, for a few depths, the fastest speed that works and what stops it beyond."""
    system = answer.units
    depths = even_depths(system)
    b = answer.bare_rig.at(depth=depths[:, None], speed=_SPEEDS[None, :])
    share, names = (np.broadcast_to(part, (depths.size, _SPEEDS.size)) for part in worst(shares(b, solve(b), answer.caps)))
    near = int(np.argmin(abs(_SPEEDS - answer.point.bare.speed)))
    rows = []
    for row, depth in enumerate(depths):
        fails = np.flatnonzero(share[row] > 1)
        end = fails[0] - 1 if fails.size else _SPEEDS.size - 1
        stop = LIMITS[str(names[row, fails[0]])].title if fails.size else "nothing in the picture"
        fastest = "no speed in the picture" if end < 0 else say(_SPEEDS[end], "km/h", system, 2)
        rows.append((say(depth, "cm", system), fastest, stop, percent(share[row, near])))
    return Twin(
        "How fast it works at each depth", ("Depth", "Works up to", "Then stopped by", "Used at the chosen speed"), rows
    )
