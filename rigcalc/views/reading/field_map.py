"""A map of a log as a picture in a file: the passes as they were driven, darker and wider where the number is higher."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
from markupsafe import escape

from rigcalc.core.units import factor
from rigcalc.models.reading.field_map import FieldMap
from rigcalc.widgets.colours import LIGHT
from rigcalc.words.numbers import System, number
from rigcalc.words.reading.field_map import said, scale_lines, title

_WIDE, _MOST_HIGH, _EDGE, _LEGEND = 1200, 1100, 40, 150
_CLASSES = (("scale2", 2.0), ("scale3", 3.0), ("scale4", 4.2), ("scale5", 5.6), ("ink", 7.2))  # colour, and width of the line
_LENGTHS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000)


def field_map_svg(found: FieldMap, units: System, name: str) -> str:
    """Give the map as SVG, north up, of one size however long the log. name: of the log, for the title."""
    pieces, limits = found.pieces, _limits(found.worked)
    x, y = pieces[:, [0, 2]], pieces[:, [1, 3]]
    wide, tall = max(float(np.ptp(x)), 1.0), max(float(np.ptp(y)), 1.0)
    scale = min((_WIDE - 2 * _EDGE) / wide, (_MOST_HIGH - 2 * _EDGE) / tall)
    high = tall * scale + 2 * _EDGE + _LEGEND
    left = (_WIDE - wide * scale) / 2
    shown = np.stack([left + (x - x.min()) * scale, _EDGE + (y.max() - y) * scale], axis=2)
    place = np.where(np.isfinite(found.values), np.clip(np.searchsorted(limits, found.values, side="right") - 1, 0, 4), -1)
    parts = [_lines("way", shown[place < 0], "line", 1.0)]
    for at, (colour, width) in enumerate(_CLASSES):  # the highest last, so that it lies on top
        parts.append(_lines(f"class{at + 1}", shown[place == at], colour, width))
    parts += _legend(found, limits, units, high - _LEGEND + 30)
    parts += _measure(scale, units, high - 24)
    named = escape(f"{name}: {title(found)}")
    paper = f'<rect width="{_WIDE}" height="{high:.0f}" fill="{LIGHT["paper"]}"/>'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDE} {high:.0f}" role="img" aria-labelledby="t d" '
        f'font-family="sans-serif" font-size="18" fill="{LIGHT["ink"]}"><title id="t">{named}</title>'
        f'<desc id="d">{escape(said(found, units))}</desc>{paper}{"".join(parts)}</svg>\n'
    )


def _limits(values: Any) -> Any:
    """Give the six ends of five classes: each fifth of the way that was worked, or even steps where fifths fall together."""
    if not values.size:
        return np.linspace(0.0, 1.0, 6)
    limits = np.quantile(values, np.linspace(0, 1, 6))
    if (np.diff(limits) <= 1e-9 * max(abs(limits[-1]), 1e-9)).any():
        low, high = float(limits[0]), float(limits[-1])
        limits = np.linspace(low, high if high > low else low + max(abs(low), 1.0) * 0.01, 6)
    return limits


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
    yield f'<text x="{_EDGE}" y="{y:.0f}" font-weight="bold">{escape(title(found))}</text>'
    if not found.worked.size:
        return
    step = (_WIDE - 2 * _EDGE) / len(_CLASSES)
    for at, ((colour, width), text) in enumerate(zip(_CLASSES, scale_lines(found, limits.tolist(), units), strict=True)):
        x = _EDGE + at * step
        yield (f'<path d="M{x:.0f} {y + 28:.0f}h40" stroke="{LIGHT[colour]}" stroke-width="{width}" stroke-linecap="round"/>'
               f'<text x="{x + 50:.0f}" y="{y + 34:.0f}">{escape(text)}</text>')  # fmt: skip


def _measure(scale: float, units: System, y: float) -> Iterator[str]:
    """Draw a length to measure by, a round one that takes about a sixth of the width, and which way is north."""
    unit = "ft" if units == "us" else "m"
    one = factor(unit, "m") * scale
    length = max((each for each in _LENGTHS if each * one <= _WIDE / 5), default=_LENGTHS[0])
    yield (f'<path d="M{_EDGE} {y - 8:.0f}v8h{length * one:.1f}v-8" fill="none" stroke="{LIGHT["ink"]}" stroke-width="2"/>'
           f'<text x="{_EDGE + length * one + 10:.0f}" y="{y:.0f}">{number(length, 5)} {unit}</text>')  # fmt: skip
    yield (f'<path class="north" d="M{_WIDE - _EDGE} {y:.0f}v-34m-7 10l7 -12l7 12" fill="none" stroke="{LIGHT["ink"]}" '
           f'stroke-width="2"/><text x="{_WIDE - _EDGE - 14}" y="{y:.0f}" text-anchor="end">N</text>')  # fmt: skip
