"""The soil in one picture: what shanks loosen and wheels press; the layer at each flag, before and after; a line of depth."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from rigcalc.models.ground.answer import GroundAnswer
from rigcalc.models.ground.depth import probing
from rigcalc.models.ground.layers import Layers
from rigcalc.models.ground.readings import Profiles
from rigcalc.models.machine.judgement import Judgement
from rigcalc.views.ground.model import GroundModel
from rigcalc.views.ground.parts import AboutGround, Source, ground_model
from rigcalc.views.rig.fields import setting
from rigcalc.views.rig.stepped import stepped
from rigcalc.widgets.figure import Picture
from rigcalc.widgets.html import table
from rigcalc.widgets.plot import Twin, axis, blank, even_depths, label, layout, ring, scaled, unit_of
from rigcalc.words.ground import GroundWords
from rigcalc.words.ground.sentence import under_text
from rigcalc.words.numbers import System, percent, say

_HALF = 100.0  # cm to either side of the middle of the slice
_SHALLOWEST = 60.0  # cm that are drawn at least
_FLAGS_DRAWN = 60
_SMOOTH = 0.1  # m: above it single points of the contact show in the sum, where there is none in the ground
_ACROSS = np.linspace(-_HALF, _HALF, 201)
# of the width: the slice; flags; flags after the pass
_PLACES = (((0.0, 1.0),), ((0.0, 0.46), (0.54, 1.0)), ((0.0, 0.4), (0.48, 0.72), (0.78, 1.0)))
_STEP: dict[System, float] = {"us": 2.5, "si": 20.0}  # between lines of stress, psi and kPa


class SoilPicture(AboutGround, Picture):
    """A slice of the soil: loosened section, ridges and stress, and the layer at each flag; drag the line to set the depth."""

    model: GroundModel
    title = "The soil, and how deep"

    def __init__(self, source: Source = None, **traits: Any):
        traits.setdefault("note", "Drag the ring, or tap, to set the depth. Hatched flags: the layer stays; circles: no layer.")
        text = traits.pop("label", self.title)
        Picture.__init__(self, ground_model(source), self.description, text, self.tap, self.same_as_table, **traits)
        self.watch(self.told, self.title)

    def description(self) -> Mapping[str, Any]:
        """Describe the picture; a few words where there is no answer."""
        return describe(self.words) if self.words is not None else blank()

    def tap(self, _across: float, depth: float, live: bool = False) -> None:
        """Set the rig's depth to a place of the picture, in its own unit; while it is `live` all steps are one for undo."""
        if self.words is None:  # the picture has no axes then
            return
        system, field = self.model.system, setting()[0].fields[0]
        self.model.edit({"work.depth": stepped(field, depth, unit_of("cm", system), system)}, live)

    def same_as_table(self) -> str:
        """Give the table that says the same, as HTML."""
        if self.words is None:
            return "<p>There is no answer to show.</p>"
        found = twin(self.words)
        return table(found.caption, found.heads, found.rows)


def describe(words: GroundWords) -> dict[str, Any]:
    """Describe the picture: the slice alone where nobody probed."""
    answer, system = words.answer, words.units
    deepest = _deepest(answer)
    depth, bottom = (float(scaled(each, "cm", system)) for each in (answer.shanks.work, deepest))
    ends = scaled([-_HALF, _HALF], "cm", system).tolist()
    unit = unit_of("cm", system)
    shown = [each for each in (answer.layers, answer.layers_after) if each is not None]
    places = _PLACES[len(shown)]
    across = axis(f"across, {unit}", range=ends, domain=list(places[0]))
    down = axis(f"depth, {unit}", range=[bottom, 0])
    line = {"type": "line", "xref": "paper", "x0": 0, "x1": 1, "y0": depth, "y1": depth}
    shapes = [*_layer_band(answer, system, ends), {**line, "line": {"color": "@signal", "width": 3}}]
    shapes += ring(0.0, depth, answer.depth is None or answer.depth.judgement is not Judgement.DONT)
    notes = [label(say(answer.shanks.work, "cm", system), ends[0], depth, xanchor="left", yanchor="bottom")]
    data = [_loosened(answer, system), _stress(answer, system, deepest), *_critical(answer, system, ends)]
    more: dict[str, Any] = {}
    for at, layers in enumerate(shown):
        data += _flags(answer, layers, f"x{at + 2}", system, deepest)
        count = min(len(layers), _FLAGS_DRAWN)
        title = "flag" if len(shown) == 1 else ("flag before", "flag after")[at]
        ends_at = {"range": [0.4, count + 0.6], "domain": list(places[at + 1]), "anchor": "y"}
        more[f"xaxis{at + 2}"] = axis(title, **ends_at, dtick=_tick(count * len(shown)))
        notes += _share(words, count, depth) if at == 0 else []
    return {
        "data": data,
        "layout": layout(across, down, shapes=shapes, annotations=notes, barmode="overlay", bargap=0.25, **more),
        "point": [0.0, depth],
    }


def _deepest(answer: GroundAnswer) -> float:
    need = answer.depth.need[1] if answer.depth is not None and answer.depth.need is not None else 0.0
    return max(_SHALLOWEST, 1.15 * answer.shanks.work, 1.15 * need)


def _tick(count: int) -> int:
    return 1 if count <= 6 else 2 if count <= 12 else 5 if count <= 30 else 10


def _loosened(answer: GroundAnswer, system: System) -> dict[str, Any]:
    found = answer.shanks
    to = found.loosened_to(_ACROSS, found.places(_HALF, answer.rig.implement.tools))
    return {
        **{"type": "scatter", "mode": "lines", "x": scaled(_ACROSS, "cm", system), "y": scaled(to, "cm", system)},
        **{"name": "loosened", "line": {"color": "@ink", "width": 2}, "fill": "tozeroy", "fillcolor": "@soil-line/35"},
        "hovertemplate": "loosened to %{y:.1f}<extra></extra>",
    }


def _stress(answer: GroundAnswer, system: System, deepest: float) -> dict[str, Any]:
    """Give lines of equal stress under the axle that presses most; how much each is, in the unit shown."""
    cut = answer.pressing.section
    shown = (cut.down >= _SMOOTH) & (cut.down * 100 <= deepest)
    return {
        **{"type": "contour", "x": scaled(100 * cut.across, "cm", system), "y": scaled(100 * cut.down[shown], "cm", system)},
        "z": scaled(cut.kpa[shown], "kPa", system),
        **{"name": f"stress, {unit_of('kPa', system)}", "showscale": False, "showlegend": True, "hoverinfo": "skip"},
        "contours": {
            **{"coloring": "none", "showlabels": True, "labelfont": {"color": "@ink", "size": 12}},
            **{"start": _STEP[system], "end": 20 * _STEP[system], "size": _STEP[system]},
        },
        "line": {"color": "@scale4", "width": 2, "dash": "dash"},
    }


def _critical(answer: GroundAnswer, system: System, ends: list[float]) -> list[dict[str, Any]]:
    found = answer.shanks.critical
    if found is None:
        return []
    at = float(scaled(sum(found) / 2, "cm", system))
    return [{
        **{"type": "scatter", "mode": "lines", "x": ends, "y": [at, at], "name": "critical depth", "hoverinfo": "skip"},
        "line": {"color": "@ink", "width": 2, "dash": "longdashdot"},
    }]  # fmt: skip


def _layer_band(answer: GroundAnswer, system: System, ends: list[float]) -> list[dict[str, Any]]:
    """Give the layer in the slice: from the middle of its tops to the middle of its bottoms."""
    if answer.depth is None or not np.isfinite(answer.depth.bottom[1]):
        return []
    top, bottom = (float(scaled(each[1], "cm", system)) for each in (answer.depth.top, answer.depth.bottom))
    band = {"type": "rect", "x0": ends[0], "x1": ends[1], "y0": top, "y1": bottom, "layer": "below"}
    return [{**band, "fillcolor": "@scale3/45", "line": {"width": 0}}]


def _flags(answer: GroundAnswer, layers: Layers, panel: str, system: System, deepest: float) -> list[dict[str, Any]]:
    """Give what was read at each flag as a column, and its layer as a bar: solid where the depth gets under, else hatched.

    After the pass every layer stays, and readings have no columns.
    """
    later = layers is answer.layers_after
    shown = np.unique(np.linspace(0, len(layers) - 1, min(len(layers), _FLAGS_DRAWN)).astype(int))
    place = np.arange(1, shown.size + 1)
    top, bottom = layers.top[shown], np.where(layers.open_below, deepest, layers.bottom)[shown]
    there = layers.found[shown]
    got = ~layers.open_below[shown] & (bottom + probing("below_low", "cm") <= answer.shanks.work + 1e-9)
    under = there & got & (not later)
    out = []
    profiles = answer.readings.profiles if answer.readings is not None and not later else None
    if profiles is not None:
        out.append(_columns(profiles, shown, answer.limit, system))
    names = np.array([layers.names[at] for at in shown])
    stays = "layer after the pass" if later else "layer that stays"
    kinds = ((stays, there & ~under, "/", "@paper"), ("layer got under", under, "", "@scale4/60"))
    for name, which, shape, own in kinds:
        colour = own if profiles is None else "@paper/10"  # what was read shows through
        if which.any():
            out.append({
                **{"type": "bar", "xaxis": panel, "x": place[which], "base": scaled(top[which], "cm", system)},
                **{"y": scaled((bottom - top)[which], "cm", system), "name": name},
                **{"text": names[which], "textposition": "none"},
                "width": 0.7,
                "marker": {"color": colour, "line": {"color": "@ink", "width": 2},
                           "pattern": {"shape": shape, "fgcolor": "@ink", "bgcolor": "@paper/40", "solidity": 0.3}},
                "hovertemplate": "%{text}: %{base:.3g} on<extra>" + name + "</extra>",
            })  # fmt: skip
    if (~there).any():
        out.append({
            **{"type": "scatter", "mode": "markers", "xaxis": panel, "x": place[~there], "name": "no layer"},
            **{"hoverinfo": "skip", "showlegend": False, "y": np.full(int((~there).sum()), float(scaled(2.0, "cm", system)))},
            "marker": {"symbol": "circle-open", "size": 8, "color": "@ink", "line": {"width": 2}},
        })  # fmt: skip
    return out


def _columns(profiles: Profiles, shown: Any, limit: float, system: System) -> dict[str, Any]:
    """Give what was read over depth as a column a site; sites written by hand have none."""
    held = shown[shown < len(profiles)]
    last = float(np.nanmax(profiles.depth))
    grid = np.linspace(0, last, 41)
    z = np.full((grid.size, held.size), np.nan)
    for column, at in enumerate(held):
        known = np.isfinite(profiles.reading[at])
        depth = profiles.depth[at][known]
        z[:, column] = np.interp(grid, depth, profiles.reading[at][known], right=np.nan)
        z[grid < depth[0] / 2, column] = np.nan
    scale = [[0, "@paper"], [0.5, "@scale2"], [0.5, "@scale3"], [1, "@scale5"]]
    return {
        **{"type": "heatmap", "xaxis": "x2", "x": np.arange(1, held.size + 1), "y": scaled(grid, "cm", system)},
        **{"z": scaled(z, "kPa", system), "zmin": 0, "zmax": float(scaled(2 * limit, "kPa", system)), "showscale": False},
        **{"colorscale": scale, "hoverongaps": False, "name": "read"},
        "hovertemplate": "%{z:.0f} " + unit_of("kPa", system) + " at %{y:.3g}<extra>flag %{x}</extra>",
    }


def _share(words: GroundWords, count: int, depth: float) -> list[dict[str, Any]]:
    advice = words.answer.depth
    if advice is None or not advice.with_layer:
        return []
    short = f"under {round(advice.at_work * advice.with_layer)} of {advice.with_layer}"
    return [label(short, count + 0.6, depth, xref="x2", xanchor="right", yanchor="bottom")]


def twin(words: GroundWords) -> Twin:
    """Give, at a few depths, what is loosened, the ridge, the most stress under the worst axle, the flags got under."""
    answer, system = words.answer, words.units
    shanks, pressing, advice = answer.shanks, answer.pressing, answer.depth
    depths = [float(d) for d in even_depths(system) if shanks.depths[0] <= d <= shanks.depths[-1]]
    heads = ["Depth", "Section loosened", "Ridge between", f"Stress under {pressing.section.axle}, at the worst"]
    rows = []
    for depth in sorted({*depths, shanks.work}):
        name = f"{say(depth, 'cm', system)}{' (the rig)' if depth == shanks.work else ''}"
        stress = pressing.at(next(one for one in pressing.axles if one.axle.name == pressing.section.axle), depth)[1]
        row = [
            name,
            percent(shanks.at(depth, "loosened")),
            say(shanks.at(depth, "ridge"), "cm", system),
            say(stress, "kPa", system),
        ]
        rows.append([*row, under_text(advice, advice.under(depth))] if advice is not None else row)
    if advice is not None:
        heads.append("Gets under the layer at")
    return Twin("The soil at each depth", heads, rows)
