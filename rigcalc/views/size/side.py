"""What the drawing of the rig shows for an answer: sizes, shares and labels in the units of the answer."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from rigcalc.models.rig.bare import BareGear
from rigcalc.views.rig.drawing import Running, Side, lines_of, side_view
from rigcalc.words.numbers import percent, say
from rigcalc.words.size import SizeWords
from rigcalc.words.tools import counted

# Which part of the drawing lights up for a limit.
_LIT = {
    **{"engine": "engine", "grip": "wheels", "slip": "wheels", "front_load": "front", "front_pressure": "front"},
    **{"steering": "front", "rear_load": "rear", "rear_pressure": "rear", "hitch_load": "hitch", "tool_depth": "shanks"},
    **{"tool_power": "shanks", "critical_depth": "shanks", "extreme_depth": "shanks"},
}


def side_of(words: SizeWords) -> Side:
    """Collect what the drawing shows."""
    answer, units = words.answer, words.units
    p, b, work = answer.point.bare, answer.bare_rig, answer.rig
    greatest = max(float(p.front_load), float(p.rear_load), float(p.front_load_at_rest), float(p.rear_load_at_rest), 1e-9)
    grips = bool(np.isfinite(float(p.slip)))
    first = answer.nearest
    critical = answer.caps.critical_depth
    labels = {
        "speed": say(p.speed, "km/h", units),
        "depth": say(p.depth, "cm", units),
        "pull": say(p.drawbar_pull, "kN", units),
        "front": say(p.front_load, "kN", units) if b.front else "",
        "front_rest": say(p.front_load_at_rest, "kN", units) if b.front else "",
        "rear": say(p.rear_load, "kN", units),
        "rear_rest": say(p.rear_load_at_rest, "kN", units),
        "slip": percent(p.slip) if grips else "full",
        "critical": say(critical, "cm", units) if critical else "",
        "critical_short": f"critical depth {say(critical, 'cm', units)}" if critical else "",
        "first": "critical depth" if first.name == "critical_depth" else words.nearest.title,
        "first_used": f"{words.nearest.used} used" if words.nearest.used else "out of reach",
    }
    name = work.tractor.name or "the tractor"
    return Side(
        wheelbase=b.wheelbase,
        rear=_running(b.rear),
        front=_running(b.front) if b.front else None,
        hitch_behind=max(b.hitch_behind, 0.3),
        drawbar_height=b.drawbar_height,
        depth=float(p.depth) / 100,
        critical_depth=critical / 100 if critical else None,
        ranks=min(4, max(1, round(float(p.tools) / 5))),
        front_share=max(float(p.front_load) / greatest, 0.0),
        rear_share=max(float(p.rear_load) / greatest, 0.0),
        pull_share=min(max(float(p.drawbar_pull) / greatest, 0.0), 1.0),
        lit=_LIT.get(first.name, ""),
        labels=labels,
        title=f"{name} with {counted(work)} {labels['depth']} deep, from the side",
    )


def picture_of(words: SizeWords, colours: tuple[tuple[str, str], ...] | None = None) -> str:
    """Draw the rig. `colours` (pairs of name and colour) make a picture that stands alone."""
    return side_view(side_of(words), dict(colours) if colours else None)


def side_words(words: SizeWords) -> list[str]:
    """Give the drawing as lines of text."""
    return lines_of(side_of(words))


@lru_cache(maxsize=64)
def _running(gear: BareGear) -> Running:
    if gear.kind == "track":
        return Running(length=gear.length, driven=gear.driven)
    return Running(radius=gear.length / 2, driven=gear.driven)
