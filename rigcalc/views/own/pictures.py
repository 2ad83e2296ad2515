"""Small pictures for choices: running gear, points, ground in section. No machine that is sold."""

from __future__ import annotations

_INK, _SOIL, _LINE = "#1b1f22", "#b08d57", 5
_DRAWN = f'fill="none" stroke="{_INK}"'
_PAPER = '<rect width="160" height="80" rx="4" fill="#fff"/>'  # dark lines on dark screens too


def _svg(*inside: str) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 160 80">{_PAPER}{"".join(inside)}</svg>'


def _wheel(x: float, radius: float) -> str:
    return (
        f'<circle cx="{x}" cy="{72 - radius}" r="{radius - 3}" fill="none" stroke="{_INK}" stroke-width="{radius / 3.2:.1f}"/>'
    )


def _belt(x: float, length: float, height: float = 24) -> str:
    return (
        f'<rect x="{x}" y="{72 - height}" width="{length}" height="{height}" rx="{height / 2}" fill="none" stroke="{_INK}" '
        f'stroke-width="7"/>'
    )


def _path(d: str, colour: str = _INK, fill: str = "none", width: float = _LINE) -> str:
    return (
        f'<path d="{d}" fill="{fill}" stroke="{colour}" stroke-width="{width}" stroke-linejoin="round" stroke-linecap="round"/>'
    )


_CAB = _path("M44 44 L48 10 H80 L86 40")
_HOOD = _path("M86 34 L140 38 V54 H36")
_MIDDLE = _path("M56 44 L60 10 H92 L96 44 M20 40 H142 V54 H20 Z")
GEARS = {
    "2WD": _svg(_CAB, _HOOD, _wheel(46, 25), _wheel(132, 13)),
    "MFWD": _svg(_CAB, _HOOD, _wheel(46, 25), _wheel(128, 19)),
    "4WD": _svg(_MIDDLE, _wheel(40, 22), _wheel(120, 22)),
    "two": _svg(_path("M54 40 L58 8 H92 L96 34 M96 30 L138 34 V44 H34"), _belt(26, 112, 26)),
    "four": _svg(_MIDDLE, _belt(14, 52), _belt(94, 52)),
}


def _point(d: str) -> str:
    shank = _path("M60 6 C108 4 116 30 96 58", width=8)
    return _svg(shank, _path(d, fill=_INK, width=2))


POINTS = {
    "chisel_straight": _point("M96 58 L82 76 L92 78 L102 60 Z"),
    "chisel_shovel_or_sweep": _point("M98 52 L66 76 L96 72 L122 76 Z"),
    "chisel_twisted": _point("M98 52 C84 60 76 70 84 78 L96 78 C92 70 100 64 106 58 Z"),
    "subsoiler_narrow": _svg(_path("M84 4 V58", width=12), _path("M84 58 L62 76 H86 L92 58 Z", fill=_INK, width=2)),
    "subsoiler_winged": _svg(_path("M84 4 V56", width=12), _path("M84 54 L36 76 L84 70 L132 76 Z", fill=_INK, width=2)),
}


def _ground(top: str, marks: str) -> str:
    return _svg(f'<path d="{top} V80 H0 Z" fill="{_SOIL}"/>', _path(marks, width=3))


SURFACES = {
    "hard": _ground("M0 44 H160", "M10 44 L24 62 L18 76 M66 44 L74 58 L66 76 M118 44 L108 60 L120 76 M0 44 H160"),
    "firm": _ground("M0 44 H160", "M0 44 H160 M14 44 V30 M34 44 V34 M54 44 V28 M74 44 V32 M94 44 V30 M114 44 V34 M134 44 V28"),
    "tilled": _ground(
        "M0 44 Q10 30 22 42 Q32 52 44 38 Q56 28 66 42 Q78 52 90 38 Q100 28 112 42 Q122 52 134 40 Q146 30 160 44",
        "M0 44 Q10 30 22 42 Q32 52 44 38 Q56 28 66 42 Q78 52 90 38 Q100 28 112 42 Q122 52 134 40 Q146 30 160 44",
    ),
    "soft": _ground("M0 40 H50 C56 66 104 66 110 40 H160", "M0 40 H50 C56 66 104 66 110 40 H160 M62 30 A18 18 0 0 0 98 30"),
}
