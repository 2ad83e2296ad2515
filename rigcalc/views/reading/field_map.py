"""A map of a log as a picture in a file: the passes as they were driven, darker and wider where the number is higher."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
from markupsafe import escape

from rigcalc.models.reading.field_map import FieldMap
from rigcalc.views.rig.maps import CLASSES, EDGE, MOST_HIGH, WIDE, class_ends, measure
from rigcalc.widgets.colours import LIGHT
from rigcalc.words.numbers import System
from rigcalc.words.reading.field_map import said, scale_lines, title

_LEGEND = 150


def field_map_svg(found: FieldMap, units: System, name: str) -> str:
    """Give the map as SVG, north up, of one size however long the log. name: of the log, for the title."""
    pieces, limits = found.pieces, class_ends(found.worked)
    x, y = pieces[:, [0, 2]], pieces[:, [1, 3]]
    wide, tall = max(float(np.ptp(x)), 1.0), max(float(np.ptp(y)), 1.0)
    scale = min((WIDE - 2 * EDGE) / wide, (MOST_HIGH - 2 * EDGE) / tall)
    high = tall * scale + 2 * EDGE + _LEGEND
    left = (WIDE - wide * scale) / 2
    shown = np.stack([left + (x - x.min()) * scale, EDGE + (y.max() - y) * scale], axis=2)
    place = np.where(np.isfinite(found.values), np.clip(np.searchsorted(limits, found.values, side="right") - 1, 0, 4), -1)
    parts = [_lines("way", shown[place < 0], "line", 1.0)]
    for at, (colour, width) in enumerate(CLASSES):  # the highest last, so that it lies on top
        parts.append(_lines(f"class{at + 1}", shown[place == at], colour, width))
    parts += _legend(found, limits, units, high - _LEGEND + 30)
    parts += measure(scale, units, high - 24)
    named = escape(f"{name}: {title(found)}")
    paper = f'<rect width="{WIDE}" height="{high:.0f}" fill="{LIGHT["paper"]}"/>'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE} {high:.0f}" role="img" aria-labelledby="t d" '
        f'font-family="sans-serif" font-size="18" fill="{LIGHT["ink"]}"><title id="t">{named}</title>'
        f'<desc id="d">{escape(said(found, units))}</desc>{paper}{"".join(parts)}</svg>\n'
    )


def _lines(name: str, ends: Any, colour: str, width: float) -> str:
    """Draw the pieces of one class, which run on where one begins as the last one ended."""
    path, pen = [], None
    for (x, y), (to_x, to_y) in np.round(ends, 1).tolist():
        if pen != (x, y):
            path.append(f"M{x:g} {y:g}")
        path.append(f"L{to_x:g} {to_y:g}")
        pen = (to_x, to_y)
    if not path:
        return ""
    return (f'<path class="{name}" d="{"".join(path)}" fill="none" stroke="{LIGHT[colour]}" stroke-width="{width}" '
            'stroke-linecap="round"/>')  # fmt: skip


def _legend(found: FieldMap, limits: Any, units: System, y: float) -> Iterator[str]:
    yield f'<text x="{EDGE}" y="{y:.0f}" font-weight="bold">{escape(title(found))}</text>'
    if not found.worked.size:
        return
    step = (WIDE - 2 * EDGE) / len(CLASSES)
    for at, ((colour, width), text) in enumerate(zip(CLASSES, scale_lines(found, limits.tolist(), units), strict=True)):
        x = EDGE + at * step
        yield (f'<path d="M{x:.0f} {y + 28:.0f}h40" stroke="{LIGHT[colour]}" stroke-width="{width}" stroke-linecap="round"/>'
               f'<text x="{x + 50:.0f}" y="{y + 34:.0f}">{escape(text)}</text>')  # fmt: skip
