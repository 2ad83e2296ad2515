"""What the pictures share: axes in ink, units of the chosen system, the table beside each picture."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from textwrap import wrap
from typing import Any

import numpy as np

from rigcalc.core.units import factor
from rigcalc.words.numbers import SHOWN, System

_LINE = 36  # letters of a line that a phone has room for


@dataclass(frozen=True)
class Twin:
    """The table that says the same as a picture: caption, headings, rows of text."""

    caption: str
    heads: Sequence[str]
    rows: Sequence[Sequence[str]]


def unit_of(book_unit: str, system: System) -> str:
    """Give the unit in which a book unit is shown."""
    return SHOWN[book_unit][0 if system == "us" else 1]


def scaled(values: Any, book_unit: str, system: System) -> Any:
    """Convert bare numbers of any shape from the unit of the book into the one that is shown."""
    unit = unit_of(book_unit, system)
    return np.asarray(values, float) * (1.0 if unit == book_unit else factor(book_unit, unit))


def even_depths(system: System) -> Any:
    """Give depths in cm that are round in the unit shown, for tables."""
    return np.arange(4, 25, 2) * factor("in", "cm") if system == "us" else np.arange(10.0, 61, 5)


def axis(title: str, **more: Any) -> dict[str, Any]:
    """Give an axis: title, ink lines, quiet grid. Its room is the layout's margin: plotly would measure it at every move."""
    return {
        **{"title": {"text": title, "standoff": 8}, "gridcolor": "@faint", "linecolor": "@ink", "linewidth": 2},
        **{
            "ticks": "outside",
            "tickcolor": "@ink",
            "showline": True,
            "zeroline": False,
            "fixedrange": True,
        },
        **more,
    }


def layout(x: dict[str, Any], y: dict[str, Any], **more: Any) -> dict[str, Any]:
    """Give the layout of a picture: legend above, room at the edges."""
    return {
        **{"xaxis": x, "yaxis": y, "margin": {"l": 64, "r": 16, "t": 34, "b": 56}, "hovermode": "closest"},
        "legend": {
            "orientation": "h",
            "x": 0,
            "y": 1.02,
            "yanchor": "bottom",
            "bgcolor": "rgba(0,0,0,0)",
            "entrywidth": 0.48,
            "entrywidthmode": "fraction",
            "font": {"size": 12},
        },
        "hoverlabel": {"bgcolor": "@paper", "bordercolor": "@ink", "font": {"color": "@ink"}},
        **more,
    }


def blank(text: str = "no answer yet") -> dict[str, Any]:
    """Describe a picture of which there is nothing to show but a few words: no axes, which would mean nothing."""
    hidden = {"visible": False, "range": [0, 1], "fixedrange": True}
    words = {
        "text": "<br>".join(wrap(text, _LINE)),
        "x": 0.5,
        "y": 0.5,
        "xref": "paper",
        "yref": "paper",
        "showarrow": False,
        "font": {"color": "@ink"},
    }
    return {"data": [], "layout": layout(hidden, hidden, showlegend=False, annotations=[words])}


def label(text: str, x: Any, y: Any, **more: Any) -> dict[str, Any]:
    """Give a label in the picture, on paper so that it reads on any ground."""
    return {
        **{"text": text, "x": x, "y": y, "showarrow": False, "bgcolor": "@paper/85", "borderpad": 3},
        "font": {"color": "@ink"},
        **more,
    }


def ring(x: float, y: float, works: bool = True) -> list[dict[str, Any]]:
    """Give the mark of the chosen point as shapes: a ring with a cross, or with an X where it doesn't work.

    Shapes, not a trace: when only the point moves, plotly has nothing to work out anew.
    """
    place = {"xsizemode": "pixel", "ysizemode": "pixel", "xanchor": x, "yanchor": y, "layer": "above"}
    circle = {"type": "circle", "x0": -12, "x1": 12, "y0": -12, "y1": 12, "fillcolor": "@paper/80"}
    reach = 7
    ends = (
        [(-reach, 0, reach, 0), (0, -reach, 0, reach)]
        if works
        else [(-reach, -reach, reach, reach), (-reach, reach, reach, -reach)]
    )
    lines = [{"type": "line", "x0": x0, "y0": y0, "x1": x1, "y1": y1} for x0, y0, x1, y1 in ends]
    return [{**shape, **place, "line": {"color": "@signal", "width": 4}} for shape in (circle, *lines)]
