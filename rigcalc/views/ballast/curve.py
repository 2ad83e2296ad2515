"""The picture of mass: power delivered, slip, fuel and stress in the soil over the tractor's mass; and its table."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.widgets.plot import Twin, axis, label, layout, scaled, unit_of
from rigcalc.words.numbers import percent, say

_ROWS = ((0.79, 1.0), (0.53, 0.74), (0.27, 0.48), (0.0, 0.22))  # where the four curves stand, from the top


def depths(answer: BallastAnswer) -> Any:
    """Give the deeper of the two axles' depths of stress, m; NaN where it can't pull."""
    curve = answer.curve
    deep = np.fmax(curve.front_depth, curve.rear_depth)
    return np.where(np.isfinite(curve.delivery), deep, np.nan)


def describe(answer: BallastAnswer) -> dict[str, Any]:
    """Describe the picture: four curves over one axis of mass, the band that is as good, marks for now and the plan."""
    curve, system = answer.curve, answer.units
    mass = scaled(curve.mass, "kg", system)
    rows = (
        ("power delivery, %", 100 * curve.delivery),
        ("slip, %", 100 * np.where(curve.slip < 0.4, curve.slip, np.nan)),
        (f"fuel, {unit_of('L/ha', system)}", scaled(curve.fuel_per_area, "L/ha", system)),
        (f"stress of 50 kPa reaches down to, {unit_of('cm', system)}", scaled(100 * depths(answer), "cm", system)),
    )
    data: list[Any] = []
    axes: dict[str, Any] = {}
    notes: list[Any] = []
    for place, ((title, values), domain) in enumerate(zip(rows, _ROWS, strict=True), 1):
        name = "" if place == 1 else str(place)
        data.append(
            {
                **{"type": "scatter", "mode": "lines", "x": mass, "y": values, "yaxis": f"y{name}", "showlegend": False},
                **{"line": {"color": "@ink", "width": 3}, "hovertemplate": "%{x:,.0f}: %{y:.3g}<extra></extra>"},
            }
        )
        axes[f"yaxis{name}"] = axis("", domain=list(domain), nticks=4, **({"rangemode": "tozero"} if place != 1 else {}))
        notes.append(label(title, 0, domain[1], xref="paper", yref="paper", xanchor="left", yanchor="bottom"))
    shapes = []
    best = curve.best
    if best is not None:
        low, high = (float(scaled(min(max(m, curve.mass[0]), curve.mass[-1]), "kg", system)) for m in (best.low, best.high))
        shapes.append(
            {
                **{"type": "rect", "xref": "x", "yref": "paper", "x0": low, "x1": high, "y0": 0, "y1": 1},
                **{"fillcolor": "@scale2/55", "line": {"width": 0}, "layer": "below"},
            }
        )
        data.append(_legend("as good", symbol="square", size=14, color="@scale2"))
    for title, at, delivery, slip, look in marks(answer):
        x = float(scaled(at, "kg", system))
        colour = "@signal" if look == "plan" else "@ink"
        shapes.append(
            {
                **{"type": "line", "xref": "x", "yref": "paper", "x0": x, "x1": x, "y0": 0, "y1": 1},
                "line": {"color": colour, "width": 3, "dash": "solid" if look == "plan" else "dot"},
            }
        )
        symbol = "diamond" if look == "plan" else "circle"
        mark = {"symbol": symbol, "size": 13, "color": "@paper", "line": {"width": 3, "color": colour}}
        for y, on in ((100 * delivery, "y"), (100 * slip, "y2")):
            if math.isfinite(y):
                data.append(
                    {
                        **{"type": "scatter", "mode": "markers", "x": [x], "y": [y], "yaxis": on, "marker": mark},
                        **{"showlegend": False, "hoverinfo": "skip"},
                    }
                )
        data.append(_legend(title, **mark))
    across = axis(f"mass of the tractor, {unit_of('kg', system)}", anchor="y4", domain=[0, 1], tickformat=",", nticks=6)
    found = layout(across, axes.pop("yaxis"), **axes, shapes=shapes, annotations=notes, height=640,
                   margin={"l": 64, "r": 16, "t": 92, "b": 56})  # fmt: skip
    found["legend"] = {**found["legend"], "y": 1.06}
    return {"data": data, "layout": found, "top": 34}


def _legend(title: str, **marker: Any) -> dict[str, Any]:
    return {"type": "scatter", "mode": "markers", "x": [None], "y": [None], "name": title, "marker": marker}


def marks(answer: BallastAnswer) -> list[tuple[str, float, float, float, str]]:
    """Give (title, kg, delivery, slip, look) for the tractor now and with the plan, where the plan changes something."""
    plan = answer.plan
    found = [("now", plan.now, "now")]
    after = plan.chosen or plan.nearest
    if after is not None and after.changes:
        found.append(("with the plan" if plan.chosen else "nearest set", after, "plan"))
    return [(title, s.front_mass + s.rear_mass, s.delivery, s.slip, look) for title, s, look in found]


def twin(answer: BallastAnswer) -> Twin:
    """Give the same as a table: round steps over the picture, the best mass, now and the plan."""
    curve, system, deep = answer.curve, answer.units, depths(answer)
    rows = []
    for place in range(0, curve.mass.size, 10):
        rows.append((curve.mass[place], "", curve.delivery[place], curve.slip[place], curve.fuel_per_area[place], deep[place]))
    rows += [(mass, f", {title}", delivery, slip, math.nan, math.nan) for title, mass, delivery, slip, _ in marks(answer)]
    if curve.best is not None:
        best = curve.best
        rows.append((best.mass, ", the best", best.delivery, best.slip, math.nan, math.nan))
        ends = ((best.low, ", as good from here"), (best.high, ", as good up to here"))
        rows += [(mass, word, 0.99 * best.delivery, math.nan, math.nan, math.nan) for mass, word in ends]
    rows.sort(key=lambda row: row[0])
    heads = ("Mass", "Power delivery", "Slip", "Fuel", "50 kPa down to")
    return Twin("Over the tractor's mass", heads, [_row(row, answer, system) for row in rows])


def _row(row: Any, answer: BallastAnswer, system: Any) -> tuple[str, ...]:
    mass, word, delivery, slip, fuel, deep = row
    if not word and not math.isfinite(delivery):
        return (say(mass, "kg", system), "can't pull", "", "", "")
    return (
        say(mass, "kg", system) + word,
        percent(delivery) if math.isfinite(delivery) else "can't pull",
        percent(slip) if math.isfinite(slip) else "",
        say(fuel, "L/ha", system) if math.isfinite(fuel) else "",
        "" if not math.isfinite(deep) else say(100 * deep, "cm", system, 2) if deep > 0 else "nowhere",
    )
