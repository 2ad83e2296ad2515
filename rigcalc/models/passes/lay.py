"""Passes laid into a field: rounds along the boundary, and straight passes at a heading inside them, in driving order.

A strip as wide as the tool is laid across the inside at the spacing; where it lies inside, from the first to the last of it,
the tool is in the ground: so the union of passes covers the inside, and a slanted end is driven until the whole width is past.
With a round or more along the boundary a pass leaves the field by no more than what passes overlap: rounds keep the inside a
spacing away from it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

from rigcalc.models.land.boundary import geometry
from rigcalc.models.land.sides import drawn_in

HAIR = 0.005  # m: what lies no deeper in a strip than that is left to the one beside it
LEFT_OVER = 0.1  # m beside the last pass that nobody turns round for: less than a shank's share, our choice
SHORTEST = 0.1  # m of a pass that nobody turns round for: our choice
CORNER = 45.0  # degrees from which a round is broken off and begun anew at a corner: our choice


@dataclass(frozen=True, eq=False)
class Inside:
    """A field parted into its headland and the rest. inner: polygons in metres; rounds: how many there is room for, none more
    than asked for; edges: m driven along the boundary; corners: of those, at which the tool is lifted; rings: their lines."""

    inner: Any = field(repr=False)
    rounds: int
    edges: float
    corners: int
    rings: tuple[Any, ...] = field(repr=False)

    @property
    def area(self) -> float:
        """Area inside the headland, ha."""
        return float(self.inner.area) / 1e4


@dataclass(frozen=True, eq=False)
class Laid:
    """Passes at one heading. heading: degrees clockwise from north, 0 to 180; lines: array (n, 2, 2) of starts and ends in
    metres, in driving order; length, travel: m with the tool in the ground and m between passes beyond a turn; ends: ha of
    passes beyond their own part of the inside, lap: ha that two passes share."""

    heading: float
    lines: Any = field(repr=False)
    length: float
    travel: float
    ends: float
    lap: float

    @property
    def count(self) -> int:
        """How many passes."""
        return len(self.lines)


def inside(polygon: Any, width: float, spacing: float, rounds: int) -> Inside:
    """Part a field into headland and inside. width: of the tool, spacing: of the passes, m. Where there is no room for so many
    rounds there are fewer; none where even one leaves nothing."""
    shapely = geometry()
    for count in range(rounds, -1, -1):
        parts = drawn_in(polygon, count * spacing)
        if parts or not count:
            break
    rings = [ring for number in range(count) for ring in _rings(shapely, polygon, width / 2 + number * spacing)]
    return Inside(
        inner=shapely.MultiPolygon(parts),
        rounds=count,
        edges=float(sum(ring.length for ring in rings)),
        corners=sum(_corners(shapely, ring, width) for ring in rings),
        rings=tuple(shapely.get_coordinates(ring) for ring in rings),
    )


def _rings(shapely: Any, polygon: Any, within: float) -> list[Any]:
    return [shapely.LinearRing(ring.coords) for part in drawn_in(polygon, within)
            for ring in (part.exterior, *part.interiors)]  # fmt: skip


def _corners(shapely: Any, ring: Any, width: float) -> int:
    """Count the corners of a round that are too sharp to drive round with the tool in the ground."""
    points = shapely.get_coordinates(shapely.LineString(ring.coords).simplify(width / 8))[:-1]
    along = np.roll(points, -1, axis=0) - points
    bearing = np.arctan2(along[:, 1], along[:, 0])
    turn = (np.roll(bearing, -1) - bearing + np.pi) % (2 * np.pi) - np.pi
    return int((np.abs(turn) > np.deg2rad(CORNER)).sum())


def lay(inner: Any, heading: float, width: float, spacing: float) -> Laid:
    """Lay passes at a heading (degrees clockwise from north) into the inside of a field. width, spacing: m."""
    angle = np.deg2rad(heading)
    along, across = np.array([np.sin(angle), np.cos(angle)]), np.array([-np.cos(angle), np.sin(angle)])
    one, other = _edges(inner, np.stack([along, across], axis=1))
    low, high = min(one[:, 1].min(), other[:, 1].min()), max(one[:, 1].max(), other[:, 1].max())
    count = max(int(np.ceil((high - low - width - LEFT_OVER) / spacing)) + 1, 1)
    foot = low + np.arange(count) * spacing
    strip, first, last, area = _strips(one, other, foot, spacing, width)
    order, back = _driven(strip, first, last, foot + width / 2)
    start, end = (np.where(back, last[order], first[order]), np.where(back, first[order], last[order]))
    middle = foot[strip[order]] + width / 2
    begin, finish = (np.outer(place, along) + np.outer(middle, across) for place in (start, end))
    between = np.linalg.norm(begin[1:] - finish[:-1], axis=1)
    length = float((last - first).sum())
    return Laid(
        heading=heading % 180,
        lines=np.stack([begin, finish], axis=1),
        length=length,
        travel=float(np.maximum(between - spacing, 0).sum()),
        ends=max(length * width - area, 0.0) / 1e4,
        lap=max(area - float(inner.area), 0.0) / 1e4,
    )


def _edges(inner: Any, turn: Any) -> tuple[Any, Any]:
    """Give both ends of every edge of every ring, turned so that passes run along the first axis."""
    shapely = geometry()
    rings = shapely.get_rings(shapely.get_parts(inner))
    points, ring = shapely.get_coordinates(rings, return_index=True)
    points = points @ turn
    same = ring[1:] == ring[:-1]
    return points[:-1][same], points[1:][same]


def _strips(one: Any, other: Any, foot: Any, spacing: float, width: float) -> tuple[Any, Any, Any, float]:
    """Give, strip by strip, from where to where there is something of the field in it, and the area in all strips, m².

    At a place along a strip there is something where its upper or its lower side lies in the field, or an edge comes between.
    """
    flip = one[:, 1] > other[:, 1]
    down, up = np.where(flip[:, None], other, one), np.where(flip[:, None], one, other)
    base = foot[0]
    edge, strip = _pairs(np.ceil((down[:, 1] - base - width + HAIR) / spacing), np.floor((up[:, 1] - base - HAIR) / spacing),
                         foot.size)  # fmt: skip
    ends = [_across(down[edge], up[edge], np.clip(foot[strip] + at, down[edge, 1], up[edge, 1])) for at in (HAIR, width - HAIR)]
    # Area between two levels is the sum of x dy over the edges there: what is cut runs level and adds nothing.
    edge_a, strip_a = _pairs(np.ceil((down[:, 1] - base - width) / spacing), np.floor((up[:, 1] - base) / spacing), foot.size)
    levels = [np.clip(foot[strip_a] + at, down[edge_a, 1], up[edge_a, 1]) for at in (0.0, width)]
    cut = [_across(down[edge_a], up[edge_a], level) for level in levels]
    area = float((np.where(flip, -1.0, 1.0)[edge_a] * (cut[0] + cut[1]) / 2 * (levels[1] - levels[0])).sum())
    found = [(strip, np.minimum(*ends), np.maximum(*ends))]
    for at in (HAIR, width - HAIR):
        found.append(_level(down, up, base + at, spacing, foot.size))
    strips, first, last = (np.concatenate(each) for each in zip(*found, strict=True))
    return *_joined(strips, first, last), abs(area)


def _pairs(first: Any, last: Any, count: int) -> tuple[Any, Any]:
    """Give (edge, strip) for every strip from an edge's first to its last, of those that there are."""
    first, last = np.clip(first, 0, count).astype(int), np.clip(last, -1, count - 1).astype(int)
    many = np.maximum(last - first + 1, 0)
    edge = np.repeat(np.arange(many.size), many)
    return edge, np.arange(edge.size) - np.repeat(np.cumsum(many) - many, many) + first[edge]


def _across(down: Any, up: Any, level: Any) -> Any:
    """Give where edges are at a level between their ends; a level edge is at its lower end, then at its upper one."""
    high = up[:, 1] - down[:, 1]
    share = np.divide(level - down[:, 1], high, out=np.zeros_like(high), where=high > 0)
    return down[:, 0] + share * (up[:, 0] - down[:, 0])


def _level(down: Any, up: Any, base: float, spacing: float, count: int) -> tuple[Any, Any, Any]:
    """Give (strip, from, to) where a line at `base` and every spacing above it lies in the field."""
    edge, strip = _pairs(np.ceil((down[:, 1] - base) / spacing), np.ceil((up[:, 1] - base) / spacing) - 1, count)
    place = _across(down[edge], up[edge], base + strip * spacing)
    order = np.lexsort((place, strip))
    strip, place = strip[order], place[order]
    return strip[0::2], place[0::2], place[1::2]


def _joined(strip: Any, first: Any, last: Any) -> tuple[Any, Any, Any]:
    """Join what overlaps in a strip: the tool passes it at once. What is shorter than a hand isn't turned round for."""
    order = np.lexsort((first, strip))
    strip, first, last = strip[order], first[order], last[order]
    apart = 4 * (np.abs(first).max() + np.abs(last).max() + 1)  # lays strips behind each other on one line
    so_far = np.maximum.accumulate(last + apart * strip)
    new = np.append(True, first[1:] + apart * strip[1:] > so_far[:-1])
    begins = np.flatnonzero(new)
    ends = so_far[np.append(begins[1:] - 1, len(strip) - 1)] - apart * strip[begins]
    kept = ends - first[begins] > SHORTEST
    if not kept.any():
        kept[:] = True
    return strip[begins][kept], first[begins][kept], ends[kept]


def _driven(strip: Any, first: Any, last: Any, middle: Any) -> tuple[Any, Any]:
    """Give the order of driving, and which passes run back. Passes beside each other make a block, driven to and fro; after a
    block comes the one whose corner is nearest."""
    blocks = _blocks(strip, first, last)
    tops = np.array([(block[0], block[-1]) for block in blocks])
    sides = np.stack([first[tops], last[tops]], axis=2)  # block, lower or upper pass, either end
    left = np.ones(len(blocks), bool)
    order: list[int] = []
    back: list[bool] = []
    at = (0, 0)  # block and corner: from the lower left one of the first
    for _ in blocks:
        if order:
            end = order[-1]
            way = np.hypot(
                sides - (first[end] if back[-1] else last[end]), (middle[strip[tops]] - middle[strip[end]])[..., None]
            )
            way[~left] = np.inf
            at = divmod(int(way.argmin()), 4)
        number, upside, reverse = at[0], *divmod(at[1], 2)
        left[number] = False
        block = blocks[number][::-1] if upside else blocks[number]
        order += block
        back += [bool((reverse + step) % 2) for step in range(len(block))]
    return np.array(order, int), np.array(back, bool)


def _blocks(strip: Any, first: Any, last: Any) -> list[list[int]]:
    """Chain passes to the one beside them in the next strip, where each has but one beside it."""
    above: list[list[int]] = [[] for _ in strip]
    below = [0] * len(strip)
    start = np.searchsorted(strip, np.arange(strip[-1] + 2)) if len(strip) else np.zeros(1, int)
    firsts, lasts, strips = first.tolist(), last.tolist(), strip.tolist()
    for one, number in enumerate(strips):
        if number + 2 >= len(start):
            continue
        for other in range(start[number + 1], start[number + 2]):
            if firsts[other] < lasts[one] and firsts[one] < lasts[other]:
                above[one].append(other)
                below[other] += 1
    blocks: list[list[int]] = []
    taken = [False] * len(strips)
    for one in range(len(strips)):
        if taken[one]:
            continue
        block = [one]
        taken[one] = True
        while len(above[block[-1]]) == 1 and below[above[block[-1]][0]] == 1:
            block.append(above[block[-1]][0])
            taken[block[-1]] = True
        blocks.append(block)
    return blocks
