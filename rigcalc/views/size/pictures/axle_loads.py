"""Picture 4: the load on each axle at rest and under pull, against its limits."""

from __future__ import annotations

from typing import Any

from rigcalc.models.machine.limits import STEER_PULL_SHARE
from rigcalc.widgets.plot import Twin, axis, layout, scaled, unit_of
from rigcalc.words.numbers import number, say
from rigcalc.words.size import SizeWords


def loads(words: SizeWords) -> list[tuple[str, float, float, float | None, float | None]]:
    """Give (axle, at rest, under pull, most, least to steer) for each axle, kN; None where no limit is known."""
    p, caps, b = words.answer.point.bare, words.answer.caps, words.answer.bare_rig
    rear = ("rear axle" if b.front else "both tracks", float(p.rear_load_at_rest), float(p.rear_load), caps.rear_load, None)
    if b.front is None:
        return [rear]
    least = STEER_PULL_SHARE * b.weight
    return [("front axle", float(p.front_load_at_rest), float(p.front_load), caps.front_load, least), rear]


def describe(words: SizeWords) -> dict[str, Any]:
    """Describe the picture: two bars for each axle, marks for its limits."""
    system, axles = words.units, loads(words)
    names = [name for name, *_ in axles]
    data: list[dict[str, Any]] = []
    for title, index, colour in (("at rest", 1, "@scale2"), ("under pull", 2, "@scale4")):
        data.append(
            {
                "type": "bar",
                "name": title,
                "x": names,
                "y": scaled([axle[index] for axle in axles], "kN", system).tolist(),
                "text": [number(float(scaled(axle[index], "kN", system))) for axle in axles],
                "textposition": "outside",
                "cliponaxis": False,
                "textfont": {"color": "@ink"},
                "marker": {"color": colour, "line": {"color": "@ink", "width": 2}},
                "hoverinfo": "skip",
            }
        )
    for title, index, dash in (("most it may carry", 3, "line-ew"), ("least, to steer", 4, "line-ew")):
        known = [axle for axle in axles if axle[index] is not None]
        if known:
            data.append(
                {
                    "type": "scatter",
                    "mode": "markers",
                    "name": title,
                    "x": [axle[0] for axle in known],
                    "y": scaled([axle[index] for axle in known], "kN", system).tolist(),
                    "hoverinfo": "skip",
                    "marker": {
                        "symbol": dash,
                        "size": 70,
                        "color": "@signal" if index == 3 else "@ink",
                        "line": {"width": 5 if index == 3 else 3, "color": "@signal" if index == 3 else "@ink"},
                    },
                }
            )
    return {
        "data": data,
        "layout": layout(
            axis("", showgrid=False),
            axis(f"load, {unit_of('kN', system)}", rangemode="tozero"),
            barmode="group",
            bargap=0.3,
        ),
    }


def twin(words: SizeWords) -> Twin:
    """Give the same as a table."""
    system = words.units

    def text(value: float | None) -> str:
        return "not known" if value is None else say(value, "kN", system)

    rows = [
        (name, say(rest, "kN", system), say(pull, "kN", system), text(most), "" if least is None else text(least))
        for name, rest, pull, most, least in loads(words)
    ]
    return Twin("Axle loads", ("Axle", "At rest", "Under pull", "Most it may carry", "Least to steer"), rows)
