"""Picture 3: pull and efficiency against slip, with the working point, its band and the slip that the ground asks for."""

from __future__ import annotations

from typing import Any

import numpy as np

from rigcalc.models.machine.curves import slip_curve
from rigcalc.widgets.plot import Twin, axis, layout, scaled, unit_of
from rigcalc.words.numbers import percent, say
from rigcalc.words.size import SizeWords


def curve(words: SizeWords) -> tuple[Any, Any, Any]:
    """Give slip, net pull (kN) and tractive efficiency at the axle loads of the answer; empty where there is no grip."""
    found = slip_curve(words.answer.bare_rig)
    good = np.isfinite(found.net_pull) & (found.net_pull >= 0)
    return found.slip[good], found.net_pull[good], found.efficiency[good]


def describe(words: SizeWords) -> dict[str, Any]:
    """Describe the picture."""
    answer, system = words.answer, words.units
    p = answer.point.bare
    slip, pull, efficiency = curve(words)
    force = scaled(pull, "kN", system)
    unit = unit_of("kN", system)
    low, _, high, _ = answer.sure.bands["slip"]
    data: list[dict[str, Any]] = [
        {
            "type": "scatter",
            "mode": "lines",
            "x": 100 * slip,
            "y": force,
            "name": f"pull, {unit}",
            "line": {"color": "@ink", "width": 3},
            "hovertemplate": "slip %{x:.1f} %<br>pull %{y:,.0f}<extra></extra>"
            if system == "us"
            else "slip %{x:.1f} %<br>pull %{y:.1f}<extra></extra>",
        },
        {
            "type": "scatter",
            "mode": "lines",
            "x": 100 * slip,
            "y": 100 * efficiency,
            "name": "efficiency, %",
            "yaxis": "y2",
            "line": {"color": "@scale4", "width": 3, "dash": "dash"},
            "hovertemplate": "slip %{x:.1f} %<br>efficiency %{y:.0f} %<extra></extra>",
        },
    ]
    if low is not None and slip.size:
        inside = (slip >= low) & (slip <= (high if high is not None else 1.0))
        data.append(
            {
                "type": "scatter",
                "mode": "lines",
                "x": 100 * slip[inside],
                "y": force[inside],
                "name": "8 in 10",
                "line": {"color": "@signal", "width": 9},
                "opacity": 0.55,
                "hoverinfo": "skip",
            }
        )
    needed = float(scaled(p.net_pull, "kN", system))
    if np.isfinite(needed):
        # What the job needs is a line, what grip gives a curve: slip is where they cross, and where they don't there is none.
        data.append(
            {
                "type": "scatter",
                "mode": "lines",
                "x": [0, 100],
                "y": [needed, needed],
                "name": "pull needed",
                "line": {"color": "@signal", "width": 2, "dash": "dot"},
                "hoverinfo": "skip",
            }
        )
    if np.isfinite(float(p.slip)):
        data.append(
            {
                "type": "scatter",
                "mode": "markers",
                "x": [100 * float(p.slip)],
                "y": [needed],
                "name": "here",
                "marker": {"size": 18, "color": "@paper", "line": {"width": 4, "color": "@signal"}},
                "hoverinfo": "skip",
            }
        )
    band = {
        "type": "rect",
        "xref": "x",
        "yref": "paper",
        "x0": 100 * answer.caps.slip_low,
        "x1": 100 * answer.caps.slip_high,
        "y0": 0,
        "y1": 1,
        "fillcolor": "@scale2/45",
        "line": {"width": 0},
        "layer": "below",
    }
    note = {
        "text": "slip to aim for",
        "x": 50 * (answer.caps.slip_low + answer.caps.slip_high),
        "xref": "x",
        "y": 0.03,
        "yref": "paper",
        "showarrow": False,
        "textangle": -90,
        "yanchor": "bottom",
        "font": {"size": 12, "color": "@ink"},
    }
    right = axis("efficiency, %", overlaying="y", side="right", range=[0, 100], showgrid=False, tickmode="linear", dtick=20)
    end = 100 * float(slip[-1]) if slip.size else 40
    return {
        "data": data,
        "layout": layout(
            axis("slip, %", range=[0, max(20, min(end, 40))]),
            axis(f"pull, {unit}", rangemode="tozero"),
            yaxis2=right,
            shapes=[band],
            annotations=[note],
            margin={"l": 64, "r": 64, "t": 34, "b": 56},
        ),
    }


def twin(words: SizeWords) -> Twin:
    """Give pull and efficiency at a few slips, and the working point."""
    slip, pull, efficiency = curve(words)
    p, units = words.answer.point.bare, words.units
    rows = []
    for at in (0.02, 0.05, 0.08, 0.10, 0.12, 0.15, 0.20, 0.30):
        if slip.size and slip[0] <= at <= slip[-1]:
            force = float(np.interp(at, slip, pull))
            rows.append((percent(at), say(force, "kN", units), percent(np.interp(at, slip, efficiency))))
    if np.isfinite(float(p.slip)):
        rows.append((f"here: {percent(p.slip)}", say(p.net_pull, "kN", units), percent(p.tractive_efficiency)))
    return Twin("Pull and efficiency against slip", ("Slip", "Pull", "Efficiency"), rows or [("no grip at this load", "", "")])
