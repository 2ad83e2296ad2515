"""Picture 5: how sure. The chance that it pulls, and that it works well, against depth."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np

from rigcalc.models import Answer
from rigcalc.models.shown import chance, say
from rigcalc.models.sure import chance_over
from rigcalc.views.figures.common import Twin, axis, even_depths, layout, shown, unit_of

_DEPTHS = np.linspace(5, 60, 45)  # cm


def chances(answer: Answer, depths: Any = _DEPTHS) -> tuple[Any, Any]:
    """Give (chance that it pulls, chance that it works well) at each depth in cm. Kept while only the depth is moved."""
    return _kept(answer.bare_rig.at(depth=0.0), answer.caps, tuple(float(depth) for depth in depths))


@lru_cache(maxsize=8)
def _kept(b: Any, caps: Any, depths: tuple[float, ...]) -> tuple[Any, Any]:
    return chance_over(b, caps, np.array(depths))


def describe(answer: Answer) -> dict[str, Any]:
    """Describe the picture."""
    system = answer.units
    pulls, works = chances(answer)
    depths = shown(_DEPTHS, "cm", system)
    here = float(shown(answer.point.bare.depth, "cm", system))
    hover = "%{y:.0f} in 100 at %{x:.1f}<extra></extra>"
    data = [
        {
            "type": "scatter",
            "mode": "lines",
            "x": depths,
            "y": 100 * pulls,
            "name": "can pull",
            "line": {"color": "@ink", "width": 3, "dash": "dash"},
            "hovertemplate": hover,
        },
        {
            "type": "scatter",
            "mode": "lines",
            "x": depths,
            "y": 100 * works,
            "name": "all limits hold",
            "line": {"color": "@ink", "width": 3},
            "hovertemplate": hover,
            "fill": "tozeroy",
            "fillcolor": "@scale2/40",
        },
        {
            "type": "scatter",
            "mode": "markers",
            "x": [here],
            "y": [100 * answer.sure.chance_works],
            "name": "here",
            "hoverinfo": "skip",
            "marker": {"size": 18, "color": "@paper", "line": {"width": 4, "color": "@signal"}},
        },
    ]
    line = {"type": "line", "x0": here, "x1": here, "y0": 0, "y1": 1, "yref": "paper", "line": {"color": "@signal", "width": 2}}
    return {
        "data": data,
        "layout": layout(axis(f"depth, {unit_of('cm', system)}"), axis("fields in 100", range=[0, 105]), shapes=[line]),
    }


def twin(answer: Answer) -> Twin:
    """Give the chances at a few depths."""
    depths = even_depths(answer.units)
    pulls, works = chances(answer, depths)
    rows = [
        (say(depth, "cm", answer.units), chance(float(one)), chance(float(other)))
        for depth, one, other in zip(depths, pulls, works, strict=True)
    ]
    here = (
        f"here: {say(answer.point.bare.depth, 'cm', answer.units)}",
        chance(answer.sure.chance_pulls),
        chance(answer.sure.chance_works),
    )
    return Twin("How sure it is at each depth", ("Depth", "Grip and engine are enough", "Every limit holds"), [*rows, here])
