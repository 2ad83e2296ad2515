"""Fields as JSON-ready data: stable names, every number with its unit; what there isn't is null. Passes as GeoJSON."""

from __future__ import annotations

from typing import Any

from rigcalc.models.passes.heading import Driven, Way
from rigcalc.models.passes.zoned import FieldZone
from rigcalc.views.json.numbers import number
from rigcalc.views.json.said import said_data
from rigcalc.words.passes import FieldWords

VERSION = 1  # raised when a name or a unit changes


def field_data(words: FieldWords) -> dict[str, Any]:
    """Give nested dicts and lists."""
    found, said, d = words.answer, words.said, words.answer.driving
    return {
        "version": VERSION,
        **said_data(said),
        "verdict": found.judgement.value,
        "limit": found.limit,
        "taken": list(found.taken),
        "width": number(d.width, "m"),
        "spacing": number(d.spacing, "m"),
        "speed": number(3.6 * d.speed, "km/h"),
        "turn_time": number(d.turn, "s"),
        "turn_known": found.turn_known,
        "turn_length": number(found.turn.length, "m"),
        "rounds": d.rounds,
        "area": number(found.area, "ha"),
        "hours": number(found.hours, "h"),
        "field_efficiency": number(found.efficiency, "1"),
        "row_length": number(found.row_length, "m"),
        "order": [found.fields[at].boundary.name for at in found.order],
        "way_between": number(found.way, "km"),
        "shared": [{"fields": [found.fields[a].boundary.name, found.fields[b].boundary.name], "area": number(area, "ha")}
                   for a, b, area in found.doubled],
        "zones": None if found.zoned is None else [_zone(zone) for zone in found.zoned.each],
        "fields": [_field(each, found.way_of(each)) for each in found.fields],
        "notes": list(words.notes),
    }  # fmt: skip


def _zone(zone: FieldZone) -> dict[str, Any]:
    return {
        "zone": zone.name,
        "area": number(zone.area, "ha"),
        "wheeled": number(zone.wheeled, "1"),
        "draft": {name: number(end, "1") for name, end in zip(("low", "likely", "high"), zone.rise, strict=True)},
        "hold": zone.hold,
        "depth": number(zone.depth, "cm"),
        "speed": number(zone.speed, "km/h"),
        "limit": zone.limit,
        "hours_more": number(zone.more, "h"),
    }


def _field(each: Driven, shown: Way) -> dict[str, Any]:
    lon, lat = each.boundary.middle
    return {
        "name": each.boundary.name,
        "area": number(each.boundary.area, "ha"),
        "inside_area": number(each.inside.area, "ha"),
        "longitude": number(lon, "deg"),
        "latitude": number(lat, "deg"),
        "rounds": each.inside.rounds,
        "driven": _way(shown),
        "best": _way(each.best),
        "compared": {name: _way(way) for name, way in each.also.items()},
        "headings": [{"heading": number(way.heading, "deg"), "hours": number(way.hours, "h")} for way in each.ways],
    }


def _way(way: Way) -> dict[str, Any]:
    return {
        "heading": number(way.heading, "deg"),
        "passes": way.passes,
        "turns": way.turns,
        "length": number(way.length, "km"),
        "rounds_length": number(way.edges, "km"),
        "travel": number(way.travel, "km"),
        "point_rows": number(way.ends, "ha"),
        "overlap": number(way.lap, "ha"),
        "hours": number(way.hours, "h"),
        "parts": {name: number(value, "h") for name, value in way.parts.items()},
    }


def passes_geojson(words: FieldWords) -> dict[str, Any]:
    """Give the passes and rounds as a GeoJSON feature collection of lines, each with its field, place in the order and kind."""
    features = []
    for each in (words.answer.fields[at] for at in words.answer.order):
        plane, name = each.boundary.plane, each.boundary.name
        lines = [("round", ring) for ring in each.inside.rings] + [("pass", line) for line in each.laid.lines]
        for place, (kind, line) in enumerate(lines, 1):
            lon, lat = plane.to_degrees(line)
            features.append({
                "type": "Feature", "properties": {"field": name, "kind": kind, "place": place},
                "geometry": {"type": "LineString", "coordinates": [[round(float(x), 8), round(float(y), 8)]
                                                                   for x, y in zip(lon, lat, strict=True)]},
            })  # fmt: skip
    return {"type": "FeatureCollection", "features": features}
