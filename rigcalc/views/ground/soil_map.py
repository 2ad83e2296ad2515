"""A map of soil samples as a picture in a file: a mark a sample, darker and larger where the number is higher."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
from markupsafe import escape

from rigcalc.core.tables import table
from rigcalc.models.ground.soil_map import SoilMap
from rigcalc.models.machine.wetness import number_of
from rigcalc.views.rig.maps import CLASSES, EDGE, MOST_HIGH, WIDE, class_ends, measure
from rigcalc.widgets.colours import LIGHT
from rigcalc.words.ground.soil_map import map_said, map_title, scale_lines, unknown_line, value_line
from rigcalc.words.numbers import System

_LEGEND, _ROW = 130, 34
_COLOURS = tuple(colour for colour, _ in CLASSES)
_SIZES = (0.55, 0.66, 0.77, 0.88, 1.0)  # of the largest mark
_LARGEST, _SMALLEST = 16.0, 2.5  # radius of the largest mark, where there is room and where there is none
_SHAPES = ("circle", "square", "triangle")  # a second and a third round of five classes has another shape


def soil_map_svg(found: SoilMap, kind: str, units: System, name: str) -> str:
    """Give a map as SVG, north up. kind: one of KINDS. name: of the file of samples, for the title."""
    place, labels = _classes(found, kind, units)
    wide, tall = (max(float(np.ptp(each)), 1.0) for each in (found.east, found.north))
    scale = min((WIDE - 2 * EDGE - 2 * _LARGEST) / wide, (MOST_HIGH - 2 * EDGE - 2 * _LARGEST) / tall)
    legend = _LEGEND + _ROW * ((len(labels) + 3) // 4)
    high = max(tall * scale, 4 * _LARGEST) + 2 * (EDGE + _LARGEST) + legend
    x = (WIDE - wide * scale) / 2 + (found.east - found.east.min()) * scale
    y = EDGE + _LARGEST + (found.north.max() - found.north) * scale
    radius = _radius(wide * scale, tall * scale, found.count)
    parts = [_mark(at, spot, radius) for at, spot in zip(place.tolist(), np.stack([x, y], 1).tolist(), strict=True)]
    parts += _legend(found, kind, labels, bool((place < 0).any()), high - legend + 20)
    parts += measure(scale, units, high - 24)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE} {high:.0f}" role="img" aria-labelledby="t d" '
        f'font-family="sans-serif" font-size="18" fill="{LIGHT["ink"]}"><title id="t">'
        f'{escape(f"{name}: {map_title(found, kind)}")}</title><desc id="d">{escape(map_said(found, kind, units))}</desc>'
        f'<rect width="{WIDE}" height="{high:.0f}" fill="{LIGHT["paper"]}"/>{"".join(parts)}</svg>\n'
    )


def _classes(found: SoilMap, kind: str, units: System) -> tuple[Any, list[str]]:
    """Give the class of each sample, -1 for none, and what each class is called."""
    values = found.values(kind)
    if kind == "texture":
        names = sorted((each.texture for each in found.classes), key=lambda name: table("texture_middles")[name]["clay"])
        return np.array([names.index(name) for name in values.tolist()]), names
    known = np.isfinite(values)
    if kind == "room":  # the wettest last, so that it is the darkest
        doubt = number_of("limit_scatter")
        labels = scale_lines(kind, (), units)[::-1]
        place = 3 - np.searchsorted([-doubt, 0.0, doubt], values, side="right")
    elif (few := np.unique(values[known])).size <= len(CLASSES):
        labels = [value_line(value, kind, units) for value in few.tolist()]
        place = np.searchsorted(few, values)
    else:
        ends = class_ends(values[known])
        labels = scale_lines(kind, ends.tolist(), units)
        place = np.clip(np.searchsorted(ends, values, side="right") - 1, 0, len(CLASSES) - 1)
    return np.where(known, place, -1), labels


def _radius(wide: float, tall: float, count: int) -> float:
    """Give the radius of the largest mark: so that marks spread evenly wouldn't touch."""
    return float(np.clip(0.4 * np.sqrt(max(wide * tall, 1.0) / count), _SMALLEST, _LARGEST))


def _mark(at: int, spot: Sequence[float], largest: float) -> str:
    x, y = spot
    if at < 0:
        r = 0.5 * largest
        cross = f"M{x - r:.1f} {y:.1f}h{2 * r:.1f}M{x:.1f} {y - r:.1f}v{2 * r:.1f}"
        return f'<path class="none" d="{cross}" stroke="{LIGHT["line"]}"/>'
    step, shape = at % len(CLASSES), _SHAPES[min(at // len(CLASSES), len(_SHAPES) - 1)]
    r = largest * _SIZES[step]
    look = f'class="class{at + 1}" fill="{LIGHT[_COLOURS[step]]}" stroke="{LIGHT["soft"]}" stroke-width="0.7"'
    if shape == "circle":
        return f'<circle {look} cx="{x:.1f}" cy="{y:.1f}" r="{r:.1f}"/>'
    if shape == "square":
        return f'<rect {look} x="{x - r:.1f}" y="{y - r:.1f}" width="{2 * r:.1f}" height="{2 * r:.1f}"/>'
    return f'<path {look} d="M{x - r:.1f} {y + r:.1f}h{2 * r:.1f}l{-r:.1f} {-2 * r:.1f}z"/>'


def _legend(found: SoilMap, kind: str, labels: list[str], some_unknown: bool, y: float) -> Iterator[str]:
    yield f'<text x="{EDGE}" y="{y:.0f}" font-weight="bold">{escape(map_title(found, kind))}</text>'
    named = [*enumerate(labels), *([(-1, unknown_line())] if some_unknown else [])]
    step = (WIDE - 2 * EDGE) / 4
    for at, (place, text) in enumerate(named):
        across, down = EDGE + (at % 4) * step, y + 34 + _ROW * (at // 4)
        yield _mark(place, (across + 12, down - 6), 12.0)
        yield f'<text x="{across + 32:.0f}" y="{down:.0f}">{escape(text)}</text>'
