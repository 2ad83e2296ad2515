"""Picture 2: where the power goes on its way from the engine into the soil."""

from __future__ import annotations

from typing import Any

from rigcalc.models.machine.curves import power_flow
from rigcalc.widgets.plot import Twin, axis, blank, layout, scaled, unit_of
from rigcalc.words.numbers import number, percent, say
from rigcalc.words.quantities import FLOW_TITLES
from rigcalc.words.size import SizeWords


def losses(words: SizeWords) -> list[tuple[str, float]]:
    """Give (where, kW) from the engine to the soil; the parts after the first add up to the first. Empty without grip."""
    flow = power_flow(words.answer.bare_rig, words.answer.point.bare)
    return [(FLOW_TITLES[part.name], part.power) for part in flow if abs(part.power) > 1e-9 or part.name in ("engine", "soil")]


def describe(words: SizeWords) -> dict[str, Any]:
    """Describe the picture: one bar for each part, with power and per cent of the engine's."""
    system, parts = words.units, losses(words)
    if not parts:
        return blank("no power reaches the soil: it can't pull")
    engine = parts[0][1]
    kept = engine
    starts = []
    for index, (_, part) in enumerate(parts):
        last = index in (0, len(parts) - 1)
        kept -= 0 if last else part
        starts.append(0.0 if last else kept)
    colours = ["@scale3", *["@scale4"] * max(len(parts) - 2, 0), "@ink"][: len(parts)]
    most = float(scaled(max(engine, 1e-9), "kW", system))
    bars = {
        **{
            "type": "bar",
            "orientation": "h",
            "y": [name for name, _ in parts],
            "base": scaled(starts, "kW", system).tolist(),
        },
        **{
            "x": scaled([part for _, part in parts], "kW", system).tolist(),
            "hoverinfo": "skip",
            "width": 0.38,
            "offset": 0.1,
        },
        "marker": {"color": colours, "line": {"color": "@ink", "width": 2}},
    }
    labels = {
        **{"type": "scatter", "mode": "text", "x": [0.0] * len(parts), "y": [name for name, _ in parts], "hoverinfo": "skip"},
        "text": [
            f" {name}: <b>{say(part, 'kW', system)}</b>, {percent(part / engine) if engine > 0 else ''}" for name, part in parts
        ],
        **{"textposition": "top right", "cliponaxis": False, "textfont": {"color": "@ink"}},
    }
    x = axis(f"power, {unit_of('kW', system)}", range=[0, 1.02 * most])
    y = axis("", autorange="reversed", showgrid=False, showticklabels=False, ticks="")
    return {
        "data": [bars, labels],
        "layout": layout(x, y, showlegend=False, margin={"l": 14, "r": 14, "t": 14, "b": 56}),
    }


def twin(words: SizeWords) -> Twin:
    """Give the same as a table."""
    parts = losses(words)
    engine = parts[0][1] if parts else 1.0
    rows = [(name, say(part, "kW", words.units), percent(part / engine) if engine > 0 else "") for name, part in parts]
    return Twin(
        "Where the power goes",
        ("Part", "Power", "Of the engine's"),
        rows or [("nowhere: the grip is not enough", number(0), "")],
    )
