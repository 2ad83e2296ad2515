"""The rig from the side over a slice of soil, to scale, as SVG text: what the tractor carries, pulls and slips.

Plain numbers in (metres, and loads only as shares of the greatest), plain text out. The silhouettes are generic: boxes
and circles with the sizes typed, no machine that is sold. `lines_of` gives the same content as lines of text.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from rigcalc.widgets.html import esc

ROOM_ABOVE = 3.75  # m above the ground that is drawn
FRAME = 0.80  # m, height of the implement's frame when it works
RANK = 0.75  # m from one row of shanks to the next, as it is usually built (common practice)


@dataclass(frozen=True)
class Running:
    """Wheels or tracks of one axle from the side: `radius` of a tyre in m, or `length` of a track in m."""

    radius: float = 0.0
    length: float = 0.0
    driven: bool = True


@dataclass(frozen=True)
class Side:
    """Everything that the drawing shows. Lengths in m; loads and pull as shares of the greatest; labels as text."""

    wheelbase: float
    rear: Running
    front: Running | None
    hitch_behind: float
    drawbar_height: float
    depth: float
    critical_depth: float | None = None
    ranks: int = 3
    front_share: float = 0.0
    rear_share: float = 0.0
    pull_share: float = 0.0
    lit: str = ""  # engine, wheels, front, rear, hitch or shanks: the part that gives out first
    labels: Mapping[str, str] = field(default_factory=dict)
    title: str = ""


def side_view(side: Side, colours: Mapping[str, str] | None = None) -> str:
    """Draw it. Without `colours` the page's own are used; with them the SVG stands alone, as in a sheet."""
    reach = side.rear.length / 2 if side.front is None else side.wheelbase
    nose = reach + (_half(side.front) if side.front else 1.8) + 0.55  # the speed stands clear of a cab that reaches far ahead
    # The depth stands behind the last shank, and needs more room as "55.9 cm" than as "12 in".
    behind = 1.3 + 0.28 * max(len(side.labels.get("depth", "")) - 5, 0)
    tail = min(-(side.hitch_behind + 1.5 + RANK * side.ranks + behind), nose - 10.5)
    below = max(1.15, side.depth + 0.4, (side.critical_depth or 0) + 0.3)
    width, height = 100 * (nose - tail), 100 * (ROOM_ABOVE + below)
    view = _View(-tail, ROOM_ABOVE)
    lit = {part: " lit" if side.lit == part else "" for part in ("engine", "wheels", "front", "rear", "hitch", "shanks")}
    parts = [
        _ground(side, view, width, height),
        _implement(side, view, lit),
        _tractor(side, view, lit, reach),
        _axles(side, view, lit, reach),
        _pull(side, view, lit),
        _depths(side, view, tail, lit),
        _heading(side, view, nose, tail),
    ]
    description = esc(" ".join(lines_of(side)))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="rig-side" viewBox="0 0 {width:.0f} {height:.0f}" role="img" '
        f'aria-label="{esc(side.title)}"><title>{esc(side.title)}</title><desc>{description}</desc>'
        f"<style>{_style(colours)}</style>{''.join(parts)}</svg>"
    )


def lines_of(side: Side) -> list[str]:
    """Give what the drawing shows as lines of text."""
    order = ("speed", "depth", "critical", "pull", "front", "front_rest", "rear", "rear_rest", "slip", "first")
    says = {
        **{"speed": "Travel speed", "depth": "Working depth", "critical": "Critical depth of the point"},
        **{"pull": "Pull at the hitch", "slip": "Slip", "first": "Gives out first"},
        **{"front": "Front axle, working", "front_rest": "Front axle, standing still"},
        **{"rear": "Rear axle, working", "rear_rest": "Rear axle, standing still"},
    }
    return [f"{says[name]}: {side.labels[name]}." for name in order if side.labels.get(name)]


@dataclass(frozen=True)
class _View:
    """Turns metres (x forward from the rear axle, y up from the ground) into the drawing's centimetres."""

    left: float
    top: float

    def at(self, x: float, y: float) -> str:
        return f"{100 * (x + self.left):.1f},{100 * (self.top - y):.1f}"

    def x(self, x: float) -> float:
        return 100 * (x + self.left)

    def y(self, y: float) -> float:
        return 100 * (self.top - y)

    def poly(self, points: list[tuple[float, float]], kind: str) -> str:
        return f'<polygon class="{kind}" points="{" ".join(self.at(*point) for point in points)}"/>'

    def line(self, x1: float, y1: float, x2: float, y2: float, kind: str) -> str:
        return f'<path class="{kind}" d="M{self.at(x1, y1)} L{self.at(x2, y2)}"/>'

    def box(self, x1: float, y1: float, x2: float, y2: float, kind: str) -> str:
        return self.poly([(x1, y1), (x2, y1), (x2, y2), (x1, y2)], kind)

    def text(self, x: float, y: float, text: str, anchor: str = "middle", kind: str = "t") -> str:
        return f'<text class="{kind}" x="{self.x(x):.1f}" y="{self.y(y):.1f}" text-anchor="{anchor}">{esc(text)}</text>'


def _style(colours: Mapping[str, str] | None) -> str:
    def c(name: str) -> str:
        return colours[name] if colours else f"var(--{name})"

    font = "system-ui,'DejaVu Sans',sans-serif" if colours is None else "DejaVu Sans"
    ink, paper, signal, soil = c("ink"), c("paper"), c("signal"), c("soil-line")
    round_ = "stroke-linejoin:round;stroke-linecap:round"
    rules = {
        ".t,.s": f"font:700 36px {font};fill:{ink};paint-order:stroke;stroke:{paper};stroke-width:7px;{round_}",
        ".u,.us": f"font:700 36px {font};fill:{ink};paint-order:stroke;stroke:{c('soil')};stroke-width:12px;{round_}",
        ".h": "stroke:none",
        ".s,.us": "font-size:30px;font-weight:500",
        ".body": f"fill:{paper};stroke:{ink};stroke-width:7;{round_}",
        ".glass": f"fill:{c('scale2')};stroke:{ink};stroke-width:6;{round_}",
        ".tyre": f"fill:{ink};stroke:{ink};stroke-width:4",
        ".hub": f"fill:{paper};stroke:{ink};stroke-width:4",
        ".steel": f"fill:none;stroke:{ink};stroke-width:15;{round_}",
        ".beam": f"fill:{ink}",
        ".soil": f"fill:{c('soil')}",
        ".loose": f"fill:{paper};fill-opacity:.6;stroke:{soil};stroke-width:4;stroke-dasharray:3 9;{round_}",
        ".top": f"stroke:{soil};stroke-width:8",
        ".grain": f"stroke:{soil};stroke-width:4;opacity:.45;{round_}",
        ".measure": f"fill:none;stroke:{ink};stroke-width:5",
        ".critical": f"fill:none;stroke:{ink};stroke-width:6;stroke-dasharray:22 14",
        ".arrow": f"fill:{ink};stroke:{paper};stroke-width:4;{round_}",
        ".body.lit": f"fill:{c('wash')};stroke:{signal};stroke-width:13",
        ".tyre.lit,.arrow.lit,.t.lit,.u.lit,.us.lit": f"fill:{signal}",
        ".tyre.lit": f"stroke:{signal}",
        ".steel.lit": f"stroke:{signal};stroke-width:21",
    }
    # Every rule stays inside this drawing: the page has classes of its own. Where there is little room the letters grow.
    phone = (
        "@container rig (max-width:600px){.rig-side .t,.rig-side .u{font-size:46px}.rig-side .s,.rig-side .us{font-size:40px}"
        ".rig-side .u.h{font-size:36px}.rig-side .us.h{font-size:30px}}"
    )
    rules_text = "".join(
        ",".join(f".rig-side {one}" for one in names.split(",")) + "{" + rule + "}" for names, rule in rules.items()
    )
    return rules_text + ("" if colours else phone)


def _half(running: Running) -> float:
    return running.length * 0.62 if running.length else running.radius


def _ground(side: Side, view: _View, width: float, height: float) -> str:
    top = view.y(0)
    out = [f'<rect class="soil" x="0" y="{top:.1f}" width="{width:.0f}" height="{height - top:.1f}"/>']
    step = 97
    for row in range(1, int((height - top) / 46) + 1):
        for column in range(int(width / step) + 1):
            x, y = column * step + (row * 41) % step, top + row * 46 - 8
            if y < height - 6:
                out.append(f'<path class="grain" d="M{x},{y:.0f} l14,0"/>')
    return "".join(out)


def _shank_places(side: Side) -> list[float]:
    first = -(side.hitch_behind + 1.5)
    return [first - RANK * rank for rank in range(side.ranks)]


def _implement(side: Side, view: _View, lit: Mapping[str, str]) -> str:
    places = _shank_places(side)
    firm = min(side.depth, side.critical_depth) if side.critical_depth else side.depth
    out = []
    # Loosened soil: from the surface down to the point, or to the critical depth with only a slot below it.
    for x in places:
        ahead, behind = x + 0.12 + firm * 0.9, x - 0.32
        out.append(view.poly([(behind, 0), (ahead, 0), (x + 0.12, -firm), (x - 0.12, -firm)], "loose"))
        if firm < side.depth:
            out.append(view.box(x - 0.05, -firm, x + 0.1, -side.depth, "loose"))
    out.append(f'<path class="top" d="M0,{view.y(0):.1f} L{view.x(99):.0f},{view.y(0):.1f}"/>')
    hitch = -side.hitch_behind
    out.append(view.line(hitch, side.drawbar_height, places[0] + 0.95, FRAME, f"steel{lit['hitch']}"))
    out.append(view.box(places[-1] - 0.45, FRAME - 0.07, places[0] + 1.0, FRAME + 0.09, "beam"))
    for x in places:
        # A shank in the shape of a C, its point at working depth, leaning forward.
        d = (f"M{view.at(x + 0.18, FRAME)} C{view.at(x - 0.30, FRAME + 0.02)} {view.at(x - 0.42, -side.depth * 0.55)} "
             f"{view.at(x + 0.05, -side.depth)}")  # fmt: skip
        out.append(f'<path class="steel{lit["shanks"]}" d="{d}"/>')
        out.append(view.line(x - 0.03, -side.depth + 0.03, x + 0.12, -side.depth, f"steel{lit['shanks']}"))
    wheel = places[0] + 0.72
    out.append(view.line(wheel, FRAME, wheel, 0.34, "steel"))
    for kind, radius in (("tyre", 34), ("hub", 13)):
        out.append(f'<circle class="{kind}" cx="{view.x(wheel):.1f}" cy="{view.y(0.34):.1f}" r="{radius}"/>')
    return "".join(out)


def _tractor(side: Side, view: _View, lit: Mapping[str, str], reach: float) -> str:
    hitch, low, deck = -side.hitch_behind, 0.75, 1.55
    even = side.front is None or _half(side.front) > 0.88 * _half(side.rear)
    nose = reach + 0.55 if side.front is not None else reach + 0.2
    cab_from, cab_to = (0.30 * reach, 0.30 * reach + 1.45) if even and side.front else (-0.55, 0.95)
    out = [view.line(hitch, side.drawbar_height, 0.3, side.drawbar_height + 0.05, f"steel{lit['hitch']}")]
    out.append(view.poly([(-0.75, low), (nose - 0.3, low), (nose - 0.3, deck), (-0.75, deck)], "body"))
    hood = [(cab_to - 0.1, 1.15), (nose, 1.15), (nose, 2.0), (nose - 0.12, 2.12), (cab_to - 0.1, 2.3)]
    out.append(view.poly(hood, f"body{lit['engine']}"))
    cab = [
        (cab_from, deck),
        (cab_from + 0.08, 3.25),
        (cab_from + 0.2, 3.38),
        (cab_to - 0.1, 3.38),
        (cab_to + 0.05, 2.3),
        (cab_to, deck),
    ]
    out.append(view.poly(cab, "body"))
    glass = [(cab_from + 0.17, 2.15), (cab_from + 0.22, 3.12), (cab_to - 0.2, 3.12), (cab_to - 0.12, 2.15)]
    out.append(view.poly(glass, "glass"))
    out.append(view.line(cab_to + 0.35, 2.25, cab_to + 0.35, 2.95, "steel"))
    return "".join(out)


def _axles(side: Side, view: _View, lit: Mapping[str, str], reach: float) -> str:
    out = []
    axles = [("rear", 0.0, side.rear, side.rear_share)]
    if side.front is not None:
        axles.append(("front", reach, side.front, side.front_share))
    for name, x, running, share in axles:
        mark = lit[name] or (lit["wheels"] if running.driven else "")
        out.append(_running(view, x, running, mark))
        # The load as an arrow into the soil, as long as its share; its number beneath, standing still in small.
        length = 0.16 + 0.34 * share
        tip, wide = -0.10 - length, 0.13
        out.append(view.poly([(x - wide / 2, -0.06), (x + wide / 2, -0.06), (x + wide / 2, tip + 0.15), (x + wide, tip + 0.15),
                              (x, tip), (x - wide, tip + 0.15), (x - wide / 2, tip + 0.15)], f"arrow{lit[name]}"))  # fmt: skip
        out.append(view.text(x, -0.92, side.labels.get(name, ""), kind=f"u{lit[name]}"))
    slip = side.labels.get("slip", "")
    if slip and side.rear.length:
        out.append(view.text(0, 0.26, f"{slip} slip", kind=f"us{lit['wheels']}"))
    elif slip:
        out.append(view.text(0, side.rear.radius - 0.02, slip, kind=f"u h{lit['wheels']}"))
        out.append(view.text(0, side.rear.radius - 0.32, "slip", kind="us h"))
    return "".join(out)


def _running(view: _View, x: float, running: Running, mark: str) -> str:
    if running.length:
        half, top = running.length / 2, running.length * 0.42
        d = (f"M{view.at(x - half, 0)} L{view.at(x + half, 0)} "
             f"Q{view.at(x + half + 0.34, 0.08)} {view.at(x + half + 0.22, 0.42)} "
             f"L{view.at(x + 0.3, top + 0.14)} Q{view.at(x, top + 0.32)} {view.at(x - 0.3, top + 0.14)} "
             f"L{view.at(x - half - 0.22, 0.42)} Q{view.at(x - half - 0.34, 0.08)} {view.at(x - half, 0)} Z")  # fmt: skip
        inner = (f"M{view.at(x - half + 0.1, 0.14)} L{view.at(x + half - 0.1, 0.14)} L{view.at(x + 0.3, top)} "
                 f"Q{view.at(x, top + 0.14)} {view.at(x - 0.3, top)} Z")  # fmt: skip
        return f'<path class="tyre{mark}" d="{d}"/><path class="hub" d="{inner}"/>'
    r = 100 * running.radius
    cx, cy = view.x(x), view.y(running.radius)
    return (f'<circle class="tyre{mark}" cx="{cx:.1f}" cy="{cy:.1f}" r="{r:.1f}"/>'
            f'<circle class="hub" cx="{cx:.1f}" cy="{cy:.1f}" r="{max(r - 34, r * 0.55):.1f}"/>')  # fmt: skip


def _pull(side: Side, view: _View, lit: Mapping[str, str]) -> str:
    text = side.labels.get("pull", "")
    if not text:
        return ""
    start, y = -side.hitch_behind - 0.15, FRAME + 0.72
    end, wide = start - 0.7 - 1.7 * side.pull_share, 0.16
    arrow = [(start, y + wide / 2), (end + 0.26, y + wide / 2), (end + 0.26, y + wide), (end, y), (end + 0.26, y - wide),
             (end + 0.26, y - wide / 2), (start, y - wide / 2)]  # fmt: skip
    return view.poly(arrow, f"arrow{lit['hitch']}") + view.text(start, y + 0.28, f"pull {text}", "end")


def _depths(side: Side, view: _View, tail: float, lit: Mapping[str, str]) -> str:
    last = _shank_places(side)[-1]
    x = last - 0.62
    out = [view.line(x, 0, x, -side.depth, "measure"), view.line(x - 0.14, 0, x + 0.14, 0, "measure"),
           view.line(x - 0.14, -side.depth, last, -side.depth, "measure")]  # fmt: skip
    out.append(view.text(x + 0.1, 0.16, side.labels.get("depth", ""), "end", f"t{lit['shanks']}"))
    if side.critical_depth:
        first = _shank_places(side)[0] + 0.9
        out.append(view.line(tail, -side.critical_depth, first, -side.critical_depth, "critical"))
        below = max(side.depth, side.critical_depth) + 0.34
        # From the left edge on, so that it stays clear of the load under the rear axle on a phone, where letters are larger.
        out.append(view.text(tail + 0.12, -below, side.labels.get("critical_short", ""), "start", "us"))
    return "".join(out)


def _heading(side: Side, view: _View, nose: float, tail: float) -> str:
    out = []
    speed = side.labels.get("speed", "")
    if speed:
        y = 3.58
        arrow = [(-0.2, 0.0), (-0.5, 0.17), (-0.5, 0.06), (-1.1, 0.06), (-1.1, -0.06), (-0.5, -0.06), (-0.5, -0.17)]
        arrow = [(nose + ahead, y + up) for ahead, up in arrow]
        out.append(view.poly(arrow, "arrow") + view.text(nose - 0.2, y - 0.53, speed, "end"))
    first = side.labels.get("first", "")
    if first:
        out.append(view.text(tail + 0.12, 3.4, "Gives out first", "start", "s"))
        out.append(view.text(tail + 0.12, 2.93, first, "start", "t lit"))
        second = side.labels.get("first_used", "")
        out.append(view.text(tail + 0.12, 2.5, second, "start", "s"))
    return "".join(out)
