"""The sheet's picture: the chance that it works against depth, as a plain SVG with black lines alone."""

from __future__ import annotations

from typing import Any

import numpy as np

from rigcalc.models.machine.sure import chance_over
from rigcalc.widgets.html import esc
from rigcalc.words.numbers import System, number, say, to_shown
from rigcalc.words.size import SizeWords

WIDTH, HEIGHT = 320, 150
_LEFT, _RIGHT, _TOP, _BOTTOM = 34, 24, 20, 24
_COUNT = 33
_STEPS = (0.5, 1, 2, 5, 10, 20, 50)


def chance_svg(words: SizeWords) -> str:
    """Draw the chance that every limit is kept (thick) and that grip and engine are enough (dashed) against depth."""
    answer, units = words.answer, words.units
    depth = float(answer.point.bare.depth)
    low, high = 0.4 * depth, min(1.7 * depth, 150.0)
    depths = np.linspace(low, high, _COUNT)
    pulls, works = chance_over(answer.bare_rig, answer.caps, depths)

    def across(depth: float) -> float:
        return _LEFT + (WIDTH - _LEFT - _RIGHT) * (depth - low) / (high - low)

    def up(share: float) -> float:
        return HEIGHT - _BOTTOM - (HEIGHT - _TOP - _BOTTOM) * share

    def line(shares: Any, style: str) -> str:
        points = " ".join(f"{across(d):.1f},{up(round(float(s), 3)):.1f}" for d, s in zip(depths, shares, strict=True))
        return f'<polyline points="{points}" fill="none" stroke="#000" {style}/>'

    parts = [_rule(_LEFT, up(share), WIDTH - _RIGHT, up(share), 0.6) for share in (0, 0.5, 1)]
    parts += [_label(_LEFT - 4, up(share) + 4, f"{100 * share:.0f}", "end") for share in (0, 0.5, 1)]
    parts += [_label(across(d), HEIGHT - 8, text, "middle") + _rule(across(d), up(0), across(d), up(0) + 4, 1)
              for d, text in _ticks(low, high, units)]  # fmt: skip
    x = across(depth)
    parts += [line(pulls, 'stroke-width="1.6" stroke-dasharray="5 4"'), line(works, 'stroke-width="3"')]
    parts += [_rule(x, _TOP - 3, x, up(0), 1.6), f'<path d="M{x - 5:.1f} {_TOP - 10}h10l-5 8z" fill="#000"/>']
    parts.append(_label(x + 8, _TOP - 7, say(depth, "cm", units), "start", bold=True))
    inside = "\n".join(parts)
    label = 'role="img" aria-label="Chance against depth"'
    size = f'viewBox="0 0 {WIDTH} {HEIGHT}" width="{WIDTH}" height="{HEIGHT}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {label} {size}>\n{inside}\n</svg>\n'


def _ticks(low: float, high: float, units: System) -> list[tuple[float, str]]:
    """Give (depth in cm, its text) at round depths of the units shown, four to eight of them."""
    scale, unit = to_shown(1.0, "cm", units)
    first, last = low * scale, high * scale
    step = next((s for s in _STEPS if (last - first) / s <= 8), last - first)
    marks = np.arange(np.ceil(first / step), np.floor(last / step) + 1) * step
    texts = [number(float(mark)) for mark in marks]
    if texts:
        texts[-1] += f" {unit}"
    return [(float(mark) / scale, text) for mark, text in zip(marks, texts, strict=True)]


def _rule(x1: float, y1: float, x2: float, y2: float, width: float) -> str:
    return f'<line x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" stroke="#000" stroke-width="{width}"/>'


def _label(x: float, y: float, text: str, anchor: str, bold: bool = False) -> str:
    weight = ' font-weight="bold"' if bold else ""
    font = 'font-family="DejaVu Sans, Arial, sans-serif" font-size="11.5"'
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" {font}{weight}>{esc(text)}</text>'
