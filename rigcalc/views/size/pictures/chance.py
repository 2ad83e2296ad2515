"""Picture 5: how sure. The chance that it pulls, and that it works well, against depth."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np

from rigcalc.models.machine.limits import Caps
from rigcalc.models.machine.sure import chance_over
from rigcalc.models.rig.bare import BareRig
from rigcalc.widgets.plot import Twin, axis, even_depths, layout, ring, scaled, unit_of
from rigcalc.words.numbers import System, chance, say
from rigcalc.words.size import SizeWords

_DEPTHS = np.linspace(5, 60, 45)  # cm


def chances(words: SizeWords, depths: Any = _DEPTHS) -> tuple[Any, Any]:
    """Give (chance that it pulls, chance that it works well) at each depth in cm."""
    return chance_over(words.answer.bare_rig, words.answer.caps, np.asarray(depths))


def describe(words: SizeWords) -> dict[str, Any]:
    """Describe the picture; its lines stay the same objects while only the depth is moved."""
    system, answer = words.units, words.answer
    lines = _lines(answer.bare_rig.at(depth=0.0), answer.caps, system)
    depth = float(scaled(answer.point.bare.depth, "cm", system))
    upright = {"type": "line", "x0": depth, "x1": depth, "y0": 0, "y1": 1, "yref": "paper"}
    marks = [{**upright, "line": {"color": "@signal", "width": 2}}, *ring(depth, 100 * answer.sure.chance_works, answer.works)]
    x, y = axis(f"depth, {unit_of('cm', system)}"), axis("fields in 100", range=[0, 107])
    return {"data": lines, "layout": layout(x, y, shapes=marks), "ground": len(lines)}


@lru_cache(maxsize=8)
def _lines(b: BareRig, caps: Caps, system: System) -> list[dict[str, Any]]:
    pulls, works = chance_over(b, caps, _DEPTHS)
    base = {"type": "scatter", "mode": "lines", "x": scaled(_DEPTHS, "cm", system)}
    base["hovertemplate"] = "%{y:.0f} in 100 at %{x:.1f}<extra></extra>"
    return [
        {**base, "y": 100 * pulls, "name": "can pull", "line": {"color": "@ink", "width": 3, "dash": "dash"}},
        {
            **{**base, "y": 100 * works, "name": "all limits hold", "line": {"color": "@ink", "width": 3}},
            **{"fill": "tozeroy", "fillcolor": "@scale2/40"},
        },
    ]


def twin(words: SizeWords) -> Twin:
    """Give the chances at a few depths."""
    answer, units = words.answer, words.units
    depths = even_depths(units)
    pulls, works = chances(words, depths)
    rows = [
        (say(depth, "cm", units), chance(float(one)), chance(float(other)))
        for depth, one, other in zip(depths, pulls, works, strict=True)
    ]
    chosen = (
        f"here: {say(answer.point.bare.depth, 'cm', units)}",
        chance(answer.sure.chance_pulls),
        chance(answer.sure.chance_works),
    )
    return Twin("How sure it is at each depth", ("Depth", "Grip and engine are enough", "Every limit holds"), [*rows, chosen])
