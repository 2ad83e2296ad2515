"""The file that is taken along: for the edge of a field, and for a classroom without anything."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
from markupsafe import Markup

from rigcalc.models.machine.field import in_field
from rigcalc.models.machine.operating_point import UNITS
from rigcalc.models.size.around import FIGURES, JUDGED, Around, around
from rigcalc.views.sheet import sheet_html
from rigcalc.views.size.side import picture_of
from rigcalc.widgets.colours import LIGHT
from rigcalc.widgets.templates import render
from rigcalc.words.field import by_readings, sure_of
from rigcalc.words.limits import limit_title
from rigcalc.words.numbers import System, chance_short, number, to_shown
from rigcalc.words.rig_name import rig_name
from rigcalc.words.size import SizeWords
from rigcalc.words.size.sentence import JUDGEMENTS

_SCRIPT = Path(__file__).parents[2] / "widgets" / "browser" / "along.js"
_TITLES = {
    **{"slip": "Slip", "engine_share": "Engine load, of rated", "drawbar_pull": "Drawbar pull", "field_capacity": "Area"},
    **{"fuel_per_area": "Fuel", "front_load": "Front axle load", "rear_load": "Rear axle load"},
}
_EXACT = 1e-9  # of the greatest value
_GROUND = {
    **{"ground_wet": "the ground, too wet to work", "ground_frozen": "the ground, which is frozen"},
    **{"ground_near": "the ground, near its limit of wetness", "ground_hard": "the ground, dry and hard"},
}
_STEPS = {"in": 0.25, "cm": 0.5, "mph": 0.1, "km/h": 0.2}
_PLACES = {"in": 2, "cm": 1, "mph": 2, "km/h": 2}


def take_along(words: SizeWords, progress: Callable[[float], None] | None = None) -> str:
    """Give an answer as one HTML file that needs nothing else; the same answer gives the same text.

    progress: told the share that is done, some hundred answers, and may raise to stop.
    """
    found = around(words.answer.rig, progress)
    data = table_of(found, words.units)
    # Between script tags only "<" could end the text early.
    table = json.dumps(data, separators=(",", ":")).replace("<", "\\u003c")
    scripts = (
        f'<script type="application/json" id="table">{table}</script>\n<script>{_SCRIPT.read_text(encoding="utf-8")}</script>'
    )
    return str(
        render(
            __file__, "page.html.j2", title=rig_name(words.answer.rig, words.units), words=words,
            figures=list(enumerate(data["figures"])), by=_by(found), off=_off(found, words.units), count=found.judged.size,
            scripts=Markup(scripts), colours=LIGHT,  # noqa: S704 (our own file, and a table in which no "<" stands)
            picture=Markup(picture_of(words, tuple(LIGHT.items()))), sheet=sheet_html(words, working=True),  # noqa: S704 (its maker escapes)
        )
    )  # fmt: skip


def _by(found: Around) -> str:
    """Say on which readings of the field every answer of the table stands; empty where there are none."""
    told = in_field(found.rig).told
    return "" if told is None else by_readings(told)


def table_of(found: Around, units: System) -> dict[str, Any]:
    """Give the table as the page's script reads it, in the units of the page; None where nothing is pulled."""
    limits = sorted(set(found.nearest.ravel().tolist()))
    said = [[chance_short(float(share)) for share in row] for row in found.chance]
    chances = sorted({text for row in said for text in row})
    return {
        "axes": [_axis(found.depths, "cm", found.rig.work.depth.to("cm"), units),
                 _axis(found.speeds, "km/h", found.rig.work.speed.to("km/h"), units)],
        "judged": found.judged.tolist(),
        "chance": [[round(float(share), 4) for share in row] for row in found.chance],
        "limits": [_GROUND.get(name) or limit_title(name) for name in limits],
        "fields": sure_of(in_field(found.rig).told),
        "nearest": [[limits.index(name) for name in row] for row in found.nearest.tolist()],
        "chances": chances,
        "chance_said": [[chances.index(text) for text in row] for row in said],
        "figures": [_figure(name, found.figures[name], units) for name in FIGURES],
        "words": [JUDGEMENTS[judgement] for judgement in JUDGED],
    }  # fmt: skip


def _axis(values: Any, book: str, start: float, units: System) -> dict[str, Any]:
    unit = to_shown(1.0, book, units)[1]
    shown = [to_shown(float(value), book, units)[0] for value in (*values, start)]
    return {
        **{"values": [round(value, 6) for value in shown[:-1]], "start": round(shown[-1], 6), "unit": unit},
        **{"step": _STEPS[unit], "digits": _PLACES[unit]},
    }


def _figure(name: str, values: Any, units: System) -> dict[str, Any]:
    factor, unit = _scale(name, units)
    return {
        **{"title": _TITLES[name], "unit": unit},
        "values": [[float(f"{value * factor:.6g}") if np.isfinite(value) else None for value in row] for row in values],
    }


def _scale(name: str, units: System) -> tuple[float, str]:
    if UNITS[name] == "1":
        return 100.0, "%"
    return to_shown(1.0, UNITS[name], units)


def _off(found: Around, units: System) -> list[str]:
    """Say how far reading between the points is off, for each figure that isn't read exactly."""
    out = []
    for name in FIGURES:
        if found.off[name] <= _EXACT * np.nanmax(np.abs(found.figures[name]), initial=0.0):
            continue  # a figure that goes straight, such as area over speed: what is left is the last digit of a sum
        factor, unit = _scale(name, units)
        out.append(f"{_TITLES[name].lower()} {number(found.off[name] * factor, 2)} {unit}")
    return out
