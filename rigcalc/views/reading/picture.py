"""Before and after in one picture: the band of draft above, the chance that every limit holds below, over depth."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

import numpy as np

from rigcalc.models.machine.limits import Caps
from rigcalc.models.reading.before_after import over_depth
from rigcalc.models.rig.bare import BareRig
from rigcalc.views.reading.model import FieldModel
from rigcalc.views.reading.parts import AboutReadings, Source, field_model
from rigcalc.widgets.figure import Picture
from rigcalc.widgets.html import table
from rigcalc.widgets.plot import Twin, axis, blank, even_depths, layout, scaled, unit_of
from rigcalc.words.numbers import System, chance, say
from rigcalc.words.size import SizeWords

_DEPTHS = np.linspace(10, 60, 26)  # cm
_ROOM = 0.06  # of the height, between the two


class BeforeAfter(AboutReadings, Picture):
    """Draft and the chance that every limit holds, over depth: by the table, and by the readings of this field."""

    model: FieldModel
    title = "Before and after"

    def __init__(self, source: Source = None, **traits: Any):
        traits.setdefault(
            "note", "Dashed: by the table. Solid: by the readings. Upright: depth of the job; rings: depths read."
        )
        text = traits.pop("label", self.title)
        Picture.__init__(self, field_model(source), self.description, text, write_twin=self.same_as_table, **traits)
        self.watch(self.told, self.title)

    def description(self) -> Mapping[str, Any]:
        """Describe the picture; a few words where there is no answer."""
        words = self.found.words if self.found is not None else None
        return describe(words) if words is not None else blank()

    def same_as_table(self) -> str:
        """Give the table that says the same, as HTML."""
        words = self.found.words if self.found is not None else None
        if words is None:
            return "<p>There is no answer to show.</p>"
        found = twin(words)
        return table(found.caption, found.heads, found.rows)


def describe(words: SizeWords) -> dict[str, Any]:
    """Describe the picture; without readings there is the table's alone."""
    system, answer = words.units, words.answer
    sides = [(answer.bare_rig.at(told=None), False)]
    if answer.before is not None:
        sides.append((answer.bare_rig, True))
    lines = [line for b, after in sides for line in _lines(b.at(depth=0.0), answer.caps, system, after)]
    depth = float(scaled(answer.point.bare.depth, "cm", system))
    marks = [{"type": "line", "x0": depth, "x1": depth, "y0": 0, "y1": 1, "yref": "paper",
              "line": {"color": "@signal", "width": 2}}]  # fmt: skip
    told = answer.bare_rig.told
    for each in told.seen if told is not None else ():
        x = float(scaled(each.rig.depth, "cm", system))
        marks.append({"type": "circle", "xsizemode": "pixel", "ysizemode": "pixel", "xanchor": x, "yanchor": 0, "yref": "paper",
                      "x0": -6, "x1": 6, "y0": -6, "y1": 6, "fillcolor": "@paper",
                      "line": {"color": "@signal", "width": 3}})  # fmt: skip
    ends = scaled(_DEPTHS[[0, -1]], "cm", system).tolist()
    along = axis(f"depth, {unit_of('cm', system)}", range=ends, anchor="y2")
    y = axis(f"draft, {unit_of('kN', system)}", domain=[0.5 + _ROOM / 2, 1], rangemode="tozero")
    below = axis("fields in 100", domain=[0, 0.5 - _ROOM / 2], range=[0, 107], anchor="x")
    return {"data": lines, "layout": layout(along, y, yaxis2=below, shapes=marks), "ground": len(lines)}


def twin(words: SizeWords) -> Twin:
    """Give both at a few depths."""
    system, answer, depths = words.units, words.answer, even_depths(words.units)
    columns = [_columns(answer.bare_rig.at(told=None), answer.caps, depths, system)]
    heads = ["Depth", "Draft by the table", "Every limit holds by the table"]
    if answer.before is not None:
        columns.append(_columns(answer.bare_rig, answer.caps, depths, system))
        heads += ["Draft by the readings", "Every limit holds by the readings"]
    rows = [(say(depth, "cm", system), *(cell for column in columns for cell in column[at]))
            for at, depth in enumerate(depths)]  # fmt: skip
    return Twin("Draft in 8 of 10 cases, and the chance that every limit holds, at each depth", heads, rows)


def _columns(b: BareRig, caps: Caps, depths: Any, system: System) -> list[tuple[str, str]]:
    found = over_depth(b, caps, depths)
    return [(f"{say(low, 'kN', system)} to {say(high, 'kN', system)}", chance(float(share)))
            for low, high, share in zip(found.low, found.high, found.chance, strict=True)]  # fmt: skip


@lru_cache(maxsize=16)
def _lines(b: BareRig, caps: Caps, system: System, after: bool) -> tuple[dict[str, Any], ...]:
    found = over_depth(b, caps, _DEPTHS)
    x, y = scaled(_DEPTHS, "cm", system), [scaled(ends, "kN", system) for ends in (found.low, found.high)]
    name = "by the readings" if after else "by the table"
    line = {"color": "@ink", "width": 3} if after else {"color": "@ink", "width": 2, "dash": "dash"}
    base = {"type": "scatter", "mode": "lines", "x": x, "name": name, "legendgroup": name, "line": line}
    hover = "%{y:.3s} at %{x:.1f}<extra>" + name + "</extra>"
    fill = {"fill": "tonexty", "fillcolor": "@signal/30" if after else "@scale2/40"}
    return (
        {**base, "y": y[0], "showlegend": False, "hovertemplate": hover},
        {**base, **fill, "y": y[1], "hovertemplate": hover},
        {**base, "y": 100 * found.chance, "yaxis": "y2", "showlegend": False,
         "hovertemplate": "%{y:.0f} in 100 at %{x:.1f}<extra>" + name + "</extra>"},
    )  # fmt: skip
