"""Fields as a picture in a file: boundary, headland, passes, order, north, a scale; for one field its hours at each heading."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
from markupsafe import escape

from rigcalc.models.passes.heading import Driven
from rigcalc.models.passes.zoned import HEADLAND, LANES
from rigcalc.widgets.colours import LIGHT
from rigcalc.words.numbers import System, number, to_shown
from rigcalc.words.passes import FieldWords
from rigcalc.words.passes.sentence import bearing, hours
from rigcalc.words.passes.zones import legend

_WIDE, _EDGE, _HIGH, _CURVE = 1200, 30, 0.75, 300
_MOST_LINES = 6_000  # passes drawn one by one; a farm with more shows a few of each field
_KEY = 26  # px a row of the legend
_IN_LANE = f'fill="none" stroke="{LIGHT["ink"]}" stroke-width="3" stroke-dasharray="12 5"'
_HATCH = (
    '<defs><pattern id="hatch" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    f'<rect width="8" height="8" fill="{LIGHT["soil"]}"/><path d="M0 0V8" stroke="{LIGHT["soil-line"]}" stroke-width="1.5"/>'
    "</pattern></defs>"
)
_ROUND = (1, 2, 5)  # times a power of ten: lengths of the scale


def field_picture(words: FieldWords, wide: int = _WIDE) -> str:
    """Give the picture as SVG, `wide` px; however many passes there are, it stays of a size that a browser shows."""
    found = words.answer
    rings, edges, lines = _laid(found.fields)
    every = np.concatenate([ring for each in rings for ring in each])
    low, high = every.min(axis=0), every.max(axis=0)
    scale = min((wide - 2 * _EDGE) / max(high[0] - low[0], 1.0), (_HIGH * wide - 2 * _EDGE) / max(high[1] - low[1], 1.0))
    deep = int((high[1] - low[1]) * scale) + 2 * _EDGE
    keys = list(_keys(words))
    below = deep + 60 + _KEY * len(keys)
    tall = below + (_CURVE if len(found.fields) == 1 else 10)

    def at(points: Any) -> Any:
        """Give places on the paper: east to the right, north up."""
        return np.stack([_EDGE + (points[..., 0] - low[0]) * scale, deep - _EDGE - (points[..., 1] - low[1]) * scale], axis=-1)

    stride = max(int(np.ceil(sum(len(each) for each in lines) / _MOST_LINES)), 1)
    thick = float(np.clip(0.3 * found.driving.spacing * stride * scale, 0.25, 1.5))  # ground shows between lines on a farm too
    parts: list[str] = []
    lanes = found.zoned.in_lane if found.zoned is not None else [np.zeros(len(each), bool) for each in lines]
    for outline, inner, passes, lane in zip(rings, edges, lines, lanes, strict=True):
        parts += _field(outline, inner, passes[::stride], lane[::stride], at, thick)
    if len(found.fields) > 1:
        parts += _order(words, at)
    parts += _frame(scale, deep, words.units, wide)
    some = f"every {stride}th pass is drawn" if stride > 1 else "lines: passes"
    for row, (kind, text) in enumerate(keys):
        parts += _key(kind, text if kind != "rest" else f"{some}{text}", deep + 46 + _KEY * row)
    if len(found.fields) == 1:
        parts += _curve(found.fields[0], below, wide)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {tall}" role="img" aria-labelledby="t d" '
        f'font-family="sans-serif" font-size="18" fill="{LIGHT["ink"]}"><title id="t">{escape(_title(words))}</title>'
        f'<desc id="d">{escape(str(words))}</desc><rect width="{wide}" height="{tall}" fill="{LIGHT["paper"]}"/>{_HATCH}'
        f"{''.join(parts)}</svg>\n"
    )


def _title(words: FieldWords) -> str:
    fields = words.answer.fields
    return f"{fields[0].boundary.name} and its passes" if len(fields) == 1 else f"{len(fields)} fields and their passes"


def _laid(fields: tuple[Driven, ...]) -> tuple[list[list[Any]], list[list[Any]], list[Any]]:
    """Give rings, inner edges of the headland and passes of every field in metres on one plane, that of the first."""
    first = fields[0].boundary.plane
    rings, edges, lines = [], [], []
    for each in fields:
        own, polygon = each.boundary.plane, each.boundary.polygon

        def laid(points: Any, own: Any = own) -> Any:
            return points if own == first else first.to_metres(*own.to_degrees(np.asarray(points)))

        rings.append([laid(np.array(ring.coords)) for ring in (polygon.exterior, *polygon.interiors)])
        inner = each.inside.inner.geoms if each.inside.rounds else ()
        edges.append([laid(np.array(ring.coords)) for part in inner for ring in (part.exterior, *part.interiors)])
        lines.append(laid(each.laid.lines))
    return rings, edges, lines


def _field(rings: list[Any], inner: list[Any], passes: Any, lane: Any, at: Any, thick: float) -> Iterator[str]:
    shape = "".join(_path(at(ring)) + "Z" for ring in rings)
    yield f'<path d="{shape}" fill="url(#hatch)" fill-rule="evenodd" stroke="{LIGHT["ink"]}" stroke-width="2"/>'
    if inner:
        hollow = "".join(_path(at(ring)) + "Z" for ring in inner)
        yield f'<path class="inside" d="{hollow}" fill="{LIGHT["paper"]}" fill-rule="evenodd" stroke="none"/>'
    yield f'<path class="passes" d="{_lines(at(passes))}" fill="none" stroke="{LIGHT["scale4"]}" stroke-width="{thick:.2f}"/>'
    if lane.any():
        yield f'<path class="lanes" d="{_lines(at(passes[lane]))}" {_IN_LANE}/>'


def _lines(ends: Any) -> str:
    return "".join(f"M{a:.1f} {b:.1f}L{c:.1f} {d:.1f}" for a, b, c, d in ends.reshape(-1, 4).tolist())


def _path(points: Any) -> str:
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points.tolist())


def _order(words: FieldWords, at: Any) -> Iterator[str]:
    """Draw the order of the fields, and each one's number and name."""
    fields = words.answer.fields
    first = fields[0].boundary.plane
    middles = [at(first.to_metres(*each.boundary.middle)) for each in fields]
    order = words.answer.order
    way = _path(np.array([middles[place] for place in order]))
    yield f'<path class="order" d="{way}" fill="none" stroke="{LIGHT["signal"]}" stroke-width="2.5" stroke-dasharray="9 6"/>'
    named = len(fields) <= 40
    for number_, place in enumerate(order, 1):
        x, y = middles[place]
        text = f"{number_} {fields[place].boundary.name}" if named else str(number_)
        yield (f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="middle" font-weight="bold" stroke="{LIGHT["paper"]}" '
               f'stroke-width="4" paint-order="stroke">{escape(text)}</text>')  # fmt: skip


def _keys(words: FieldWords) -> Iterator[tuple[str, str]]:
    """Give the rows of the legend: what is drawn so, and what it is; zones with what wheels do to their draft."""
    zoned = words.answer.zoned
    if zoned is None:
        yield HEADLAND, "headland, worked in rounds"
        yield "rest", ""
        return
    for zone in zoned.each:
        text = legend(zone, zoned, words.units)
        yield zone.name, f"; {text}" if zone.name == "rest" else text


def _key(kind: str, text: str, y: int) -> Iterator[str]:
    """Draw a row of the legend: hatched, dashed or plain, so that no row is told by its colour alone."""
    if kind == HEADLAND:
        yield f'<rect x="{_EDGE}" y="{y}" width="34" height="16" fill="url(#hatch)" stroke="{LIGHT["ink"]}"/>'
    elif kind == LANES:
        yield f'<path d="M{_EDGE} {y + 8}h34" {_IN_LANE}/>'
    else:
        yield f'<path d="M{_EDGE} {y + 8}h34" stroke="{LIGHT["scale4"]}" stroke-width="1.5"/>'
    yield f'<text class="key" x="{_EDGE + 44}" y="{y + 14}">{escape(text)}</text>'


def _frame(scale: float, deep: int, units: System, wide: int) -> Iterator[str]:
    """Draw north and a scale."""
    factor, unit = to_shown(1.0, "m", units)
    whole = (wide / 5) / scale * factor
    base = 10 ** np.floor(np.log10(whole))
    length = max(base * step for step in _ROUND if base * step <= whole)
    x, y = _EDGE, deep + 20
    end, stroke = length / factor * scale, f'stroke="{LIGHT["ink"]}" stroke-width="2" fill="none"'
    yield f'<path d="M{x} {y - 7}v14m0 -7h{end:.1f}m0 -7v14" {stroke}/>'
    yield f'<text x="{x + end + 10:.1f}" y="{y + 6}">{escape(number(float(length)))} {escape(unit)}</text>'
    yield f'<path d="M{wide - 60} {y + 16}v-34m-8 10l8 -12l8 12" {stroke}/>'
    yield f'<text x="{wide - 46}" y="{y + 6}">N</text>'


def _curve(one: Driven, top: int, wide: int) -> Iterator[str]:
    """Draw the hours at each heading, the best one and the one that is asked for marked."""
    left, right, foot, high = 90, wide - _EDGE, top + _CURVE - 60, top + 30
    degrees = np.array([way.heading for way in one.ways] + [180.0])
    taken = np.array([way.hours for way in one.ways] + [one.ways[0].hours])
    least, most = float(taken.min()), float(taken.max())
    room = max(most - least, 0.02 * most)
    floor = max(least - 0.4 * room, 0.0)

    def place(heading: Any, value: Any) -> Any:
        return left + heading / 180 * (right - left), foot - (value - floor) / (most + 0.1 * room - floor) * (foot - high)

    line = _path(np.stack(place(degrees, taken), axis=1))
    yield f'<text x="8" y="{top + 14}" font-weight="bold">Hours at each heading</text>'
    yield f'<path d="M{left} {high}V{foot}H{right}" fill="none" stroke="{LIGHT["line"]}"/>'
    yield f'<path class="hours" d="{line}" fill="none" stroke="{LIGHT["ink"]}" stroke-width="2.5"/>'
    for value in (least, most):
        x, y = place(0.0, value)
        yield f'<text x="{left - 8}" y="{y + 6:.1f}" text-anchor="end">{escape(hours(value))}</text>'
    for heading in range(0, 181, 30 if wide >= _WIDE else 60):
        yield f'<text x="{place(float(heading), floor)[0]:.1f}" y="{foot + 24}" text-anchor="middle">{heading}°</text>'
    for way, name in _marks(one):
        x, y = place(way.heading, way.hours)
        yield f'<circle class="{name}" cx="{x:.1f}" cy="{y:.1f}" r="7" fill="{LIGHT["signal"]}"/>'
        anchor = "start" if way.heading < 90 else "end"
        yield (f'<text x="{x + (12 if anchor == "start" else -12):.1f}" y="{y + 24:.1f}" text-anchor="{anchor}">{name}: '
               f"{escape(bearing(way.heading))}, {escape(hours(way.hours))}</text>")  # fmt: skip


def _marks(one: Driven) -> list[tuple[Any, str]]:
    return [(one.best, "best"), *([(one.also["asked"], "asked")] if "asked" in one.also else [])]
