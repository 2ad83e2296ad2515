"""A log over time as a picture in a file: speed, load, slip, draft, and below them what was done when, by pattern and word."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np
from markupsafe import escape

from rigcalc.models.reading.log import STATES, Passes, slip_of
from rigcalc.widgets.colours import LIGHT
from rigcalc.words.numbers import System, number, to_shown
from rigcalc.words.reading.field_map import drafts_by
from rigcalc.words.reading.log import DONE

_WIDE, _LEFT, _STRIP, _GAP = 1200, 150, 110, 34
_COLUMNS = 1000  # places along the width; each shows the least and the most of its time
_STRIPS = (("speed", "km/h", "Speed"), ("load", "1", "Engine load"), ("torque", "1", "Torque"),
           ("fuel_rate", "L/h", "Fuel rate"), ("slip", "1", "Slip"),
           ("draft", "kN", "Draft"))  # fmt: skip
# What a state looks like: how tall its bar is and its colour; what counts is tallest and darkest.
_LOOKS = {"steady": (1.0, "ink"), "headland": (0.8, "signal"), "unsteady": (0.6, "scale2"), "short": (0.6, "scale2"),
          "turning": (0.35, "line"), "stopped": (0.15, "line"), "no_data": (0.0, "line")}  # fmt: skip


def time_line(log: Mapping[str, Any], found: Passes, units: System, title: str, drafts: Any = None, by: str = "") -> str:
    """Give the picture as SVG. log: arrays as `read_log` gives them; found: the same taken apart; drafts: in kN of each row,
    and the column that tells them, as `worked_drafts` gives them. A log of any length gives a picture of the same size."""
    time = (log["time"] - log["time"][0]) / 60
    values = dict(log) | ({} if drafts is None else {"draft": drafts})
    if (slip := slip_of(log)) is not None:
        values["slip"] = slip
    strips = [strip for strip in _STRIPS if strip[0] in values and np.isfinite(values[strip[0]]).any()]
    strips = [strip for strip in strips if not (strip[0] in ("torque", "fuel_rate") and "load" in values)]
    count = max(min(_COLUMNS, time.size // 2), 1)  # a short log has fewer, so that none lies between two rows
    place = np.minimum((time / max(time[-1], 1e-9) * count).astype(int), count - 1)
    high = _GAP + (len(strips) + 1) * (_STRIP + _GAP) + 60
    parts = [part for at, (name, unit, what) in enumerate(strips)
             for part in _strip(values[name], place, count, unit, what, units, _GAP + at * (_STRIP + _GAP))]  # fmt: skip
    if by and strips[-1][0] == "draft":
        parts.append(f'<text x="8" y="{_GAP + (len(strips) - 1) * (_STRIP + _GAP) + 84}" font-size="15">{drafts_by(by)}</text>')
    parts += _done(found.states, place, count, _GAP + len(strips) * (_STRIP + _GAP))
    parts += _minutes(float(time[-1]), high - 66)
    said = "; ".join(f"{DONE[state]} {seconds / 60:.1f} min" for state, seconds in found.seconds.items() if seconds > 0)
    paper = f'<rect width="{_WIDE}" height="{high}" fill="{LIGHT["paper"]}"/>'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDE} {high}" role="img" aria-labelledby="t d" '
        f'font-family="sans-serif" font-size="18" fill="{LIGHT["ink"]}"><title id="t">{escape(title)}</title>'
        f'<desc id="d">{escape(said)}</desc>{paper}{"".join(parts)}</svg>\n'
    )


def _strip(values: Any, place: Any, count: int, unit: str, what: str, units: System, top: int) -> Iterator[str]:
    """Draw one quantity: at each place along the width the span of what it was there."""
    factor, shown = (100.0, "%") if unit == "1" else to_shown(1.0, unit, units)
    kept = np.isfinite(values)
    scaled, at = np.clip(values[kept] * factor, 0, None), place[kept]
    most = float(np.quantile(scaled, 0.999)) * 1.05 or 1.0
    low, high = np.full(count, np.inf), np.zeros(count)
    np.minimum.at(low, at, scaled)
    np.maximum.at(high, at, scaled)
    step, foot = (_WIDE - _LEFT - 20) / count, top + _STRIP
    foots, tops = (foot - np.minimum(ends / most, 1) * _STRIP for ends in (low, high))
    path = "".join(f"M{_LEFT + (x + 0.5) * step:.1f} {foots[x] + 1:.1f}V{tops[x] - 1:.1f}"
                   for x in np.flatnonzero(np.isfinite(low)).tolist())  # fmt: skip
    yield f'<text x="8" y="{top + 62}" font-weight="bold">{escape(what)}</text>'
    yield f'<text x="{_LEFT - 8}" y="{top + 14}" text-anchor="end">{number(most)} {escape(shown)}</text>'
    yield f'<text x="{_LEFT - 8}" y="{foot}" text-anchor="end">0</text>'
    yield f'<path d="M{_LEFT} {top}V{foot}H{_WIDE - 20}" fill="none" stroke="{LIGHT["line"]}"/>'
    yield f'<path d="{path}" fill="none" stroke="{LIGHT["ink"]}" stroke-width="{step + 0.4:.2f}"/>'


def _done(states: Any, place: Any, columns: int, top: int) -> Iterator[str]:
    """Draw what was done when, and what each bar means."""
    step, foot = (_WIDE - _LEFT - 20) / columns, top + _STRIP - 30
    count = np.zeros((len(STATES), columns), int)
    np.add.at(count, (states, place), 1)
    there, most = count.sum(axis=0) > 0, count.argmax(axis=0)
    yield f'<text x="8" y="{top + 20}" font-weight="bold">What was done</text>'
    edges = np.flatnonzero(np.diff(np.where(there, most, -1), prepend=-2, append=-2))
    for first, end in zip(edges[:-1].tolist(), edges[1:].tolist(), strict=True):
        if there[first]:
            name = STATES[most[first]]
            tall, colour = _LOOKS[name]
            yield (f'<rect class="{name}" x="{_LEFT + first * step:.1f}" y="{foot - tall * 70:.1f}" '
                   f'width="{(end - first) * step:.1f}" height="{tall * 70:.1f}" fill="{LIGHT[colour]}"/>')  # fmt: skip
    x = _LEFT
    for name in (state for place, state in enumerate(STATES) if count[place].any() and state not in ("short", "no_data")):
        tall, colour = _LOOKS[name]
        yield f'<rect x="{x}" y="{foot + 34 - tall * 20:.1f}" width="18" height="{tall * 20:.1f}" fill="{LIGHT[colour]}"/>'
        yield f'<text x="{x + 24}" y="{foot + 34}">{escape(DONE[name])}</text>'
        x += 40 + 10 * len(DONE[name])


def _minutes(whole: float, y: int) -> Iterator[str]:
    """Write minutes along the foot."""
    every = next((step for step in (1, 2, 5, 10, 20, 30, 60, 120, 240) if whole / step <= 10), 480)
    for minute in range(0, int(whole) + 1, every):
        x = _LEFT + minute / max(whole, 1e-9) * (_WIDE - _LEFT - 20)
        yield f'<text x="{x:.1f}" y="{y + 34}" text-anchor="middle">{minute}{" min" if minute == 0 else ""}</text>'
