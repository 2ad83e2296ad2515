"""The season's pictures: where the clock day goes, the chance of being done by each date, and cost against chance."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rigcalc.models.season.abreast import NOW, RIG
from rigcalc.models.season.plan import choice
from rigcalc.models.season.reading_plan import day_text
from rigcalc.views.season.parts import AboutSeason, Source, season_model
from rigcalc.widgets.figure import Picture
from rigcalc.widgets.html import table
from rigcalc.widgets.plot import Twin, axis, blank, layout
from rigcalc.words.numbers import System, percent
from rigcalc.words.season import SeasonWords
from rigcalc.words.season.abreast import HEADS, Shown, axes
from rigcalc.words.season.sentence import of_seasons

_IN_FIELD = ("in_field", "overlap", "turns", "setting")
_COLOURS = {"work": "@ink", **dict.fromkeys(_IN_FIELD, "@scale2")}
_AIM = 100 * choice("go")
_NONE = "<p>There is no answer to show.</p>"


class _Shown(AboutSeason, Picture):
    """Base of them: a picture of the season's words, and the table that says the same."""

    title = ""
    told_so = ""

    def __init__(self, source: Source = None, **traits: Any):
        traits.setdefault("note", self.told_so)
        text = traits.pop("label", self.title)
        model = season_model(source)
        Picture.__init__(self, model, self.description, text, write_twin=self.same_as_table, **traits)
        self.watch(self.told, self.title)

    def drawn(self, words: SeasonWords) -> Mapping[str, Any]:
        """Describe the picture of a season."""
        raise NotImplementedError

    def in_rows(self, words: SeasonWords) -> Twin:
        """Give the table that says the same."""
        raise NotImplementedError

    def description(self) -> Mapping[str, Any]:
        """Describe the picture; a few words where there is no answer."""
        return self.drawn(self.found.words) if self.found is not None else blank()

    def same_as_table(self) -> str:
        """Give the table that says the same, as HTML."""
        if self.found is None:
            return _NONE
        found = self.in_rows(self.found.words)
        return table(found.caption, found.heads, found.rows)


class SeasonDay(_Shown):
    """Where the hours of a clock day go: at work, in the field beside that, and everything that keeps the rig out of it."""

    title = "Where the day goes"
    told_so = "Dark: at full width. Lighter: turns, overlap and setting, in the field too. The rest is no field hour."

    def drawn(self, words: SeasonWords) -> Mapping[str, Any]:
        """Describe a bar for each part of the first rig's day."""
        one = words.answer.rigs[0]
        bars = words.bars(one)
        if not bars:
            return blank("this rig has no field hours")
        hours = list(one.day.parts.values())
        bar = {
            "type": "bar", "orientation": "h", "x": hours, "y": [each.title for each in bars],
            "text": [each.text for each in bars],
            "textposition": "auto", "cliponaxis": False, "hovertemplate": "%{y}: %{text}<extra></extra>",
            "marker": {"color": [_COLOURS.get(each.name, "@signal/60") for each in bars]}, "showlegend": False,
        }  # fmt: skip
        x = axis(
            "hours of the clock day", range=[0, 1.06 * max(hours)]
        )  # said: after a page without an answer plotly keeps its own
        y = axis("", autorange="reversed", showgrid=False, automargin=True)
        return {
            "data": [bar],
            "layout": layout(x, y, margin={"l": 190, "r": 24, "t": 20, "b": 56}, showlegend=False),
            "ground": 0,
        }

    def in_rows(self, words: SeasonWords) -> Twin:
        """Give every part with its hours and its share."""
        rows = [(bar.title, bar.text, percent(bar.share)) for bar in words.bars(words.answer.rigs[0])]
        return Twin("Where the hours of a clock day go", ("Part", "Hours", "Of the clock day"), rows)


class SeasonDone(_Shown):
    """The chance that the work is done by each date, up to the deadline, and the chance that a plan is made for."""

    title = "Done by when"
    told_so = f"Line: seasons of 100 in which it is done by that day. Dashed: {_AIM:.0f}, the chance that plans are made for."

    def drawn(self, words: SeasonWords) -> Mapping[str, Any]:
        """Describe the chance over the dates; later passes are left out of the line and counted in the answer."""
        found = words.answer
        days = list(range(found.start, found.by + 1))
        line = {
            "type": "scatter", "mode": "lines", "x": days, "y": [100 * float(share) for share in found.finish.done],
            "line": {"color": "@ink", "width": 3}, "fill": "tozeroy", "fillcolor": "@scale2/40", "showlegend": False,
            "text": [day_text(day) for day in days], "hovertemplate": "%{y:.0f} in 100 by %{text}<extra></extra>",
        }  # fmt: skip
        step = max((len(days) + 5) // 6, 1)
        ticks = days[::step]
        x = axis("", tickvals=ticks, ticktext=[day_text(day) for day in ticks], range=[days[0] - 0.5, days[-1] + 0.5])
        y = axis("seasons in 100", range=[0, 104])
        aim = {"type": "line", "x0": 0, "x1": 1, "xref": "paper", "y0": _AIM, "y1": _AIM,
               "line": {"color": "@signal", "width": 2, "dash": "dash"}}  # fmt: skip
        return {"data": [line], "layout": layout(x, y, shapes=[aim], showlegend=False), "ground": 0}

    def in_rows(self, words: SeasonWords) -> Twin:
        """Give the chance at the end of each week, and at the deadline."""
        found = words.answer
        ends = sorted({*range(6, len(found.finish.done), 7), len(found.finish.done) - 1})
        rows = [(day_text(found.start + at), of_seasons(float(found.finish.done[at]), found.autumn)) for at in ends]
        return Twin("In how many seasons it is done by each date", ("By", "Done in"), rows)


_MARKS = {NOW: ("star", "@signal", 17), RIG: ("square", "@ink", 12)}
_CHANGED, _PASSED = ("diamond", "@scale4", 12), ("x", "@signal", 11)
_APART = 8.5  # seasons in 100 between two labels, so that they don't lie on each other
_ROOM = 0.75  # of the spread of costs, kept free beside the points for their labels


class SeasonCost(_Shown):
    """Cost against chance: the season as it stands, each of several rigs alone, and each change, all in one picture."""

    title = "Cost against chance"
    told_so = (
        "Up is safer, left is cheaper. Star: as it stands. Squares: a rig alone. Diamonds: one change each; a cross passes a "
        "hard limit."
    )

    def drawn(self, words: SeasonWords) -> Mapping[str, Any]:
        """Describe the points, each joined to its name; a few words where no prices are typed."""
        return costs_drawn(words.abreast, words.units) or blank(words.no_prices)

    def in_rows(self, words: SeasonWords) -> Twin:
        """Give every point with its chance and its cost."""
        return Twin("Cost against chance", HEADS, [each.row for each in words.abreast])


def spaced(heights: Sequence[float]) -> list[float]:
    """Give the heights of labels beside points: as near to the points as leaves room between the labels."""
    order = sorted(range(len(heights)), key=lambda at: -heights[at])
    placed: dict[int, float] = {}
    above = 104.0 + _APART
    for at in order:
        above = placed[at] = min(heights[at], above - _APART)
    below = -_APART
    for at in reversed(order):
        below = placed[at] = max(placed[at], below + _APART)
    return [placed[at] for at in range(len(heights))]


def costs_drawn(points: Sequence[Shown], units: System) -> Mapping[str, Any] | None:
    """Describe cost against chance, each point joined to its name; None where no point has a cost."""
    shown = [each for each in points if each.an_area is not None]
    if not shown:
        return None
    costs = [float(each.an_area or 0.0) for each in shown]
    spread = max(max(costs) - min(costs), 0.05 * max(max(costs), 1.0))
    edge = max(costs) + 0.12 * spread
    heights = [100 * each.point.chance for each in shown]
    lines: dict[str, list[Any]] = {"x": [], "y": []}
    for cost, height, place in zip(costs, heights, spaced(heights), strict=True):
        lines["x"] += [cost, edge, None]
        lines["y"] += [height, place, None]
    joined = {"type": "scatter", "mode": "lines", **lines, "line": {"color": "@line/60", "width": 1}, "showlegend": False,
              "hoverinfo": "skip"}  # fmt: skip
    marks = [_PASSED if not each.point.holds else _MARKS.get(each.point.name, _CHANGED) for each in shown]
    dots = {
        "type": "scatter", "mode": "markers", "x": costs, "y": heights, "showlegend": False, "cliponaxis": False,
        "marker": {"symbol": [mark[0] for mark in marks], "color": [mark[1] for mark in marks],
                   "size": [mark[2] for mark in marks], "line": {"color": "@ink", "width": 1.5}},
        "text": [f"{each.title}: {each.done}, {each.cost}" for each in shown],
        "hovertemplate": "%{text}<extra></extra>",
    }  # fmt: skip
    named = {
        "type": "scatter", "mode": "text", "x": [edge] * len(shown), "y": spaced(heights), "showlegend": False,
        "text": [each.short for each in shown], "textposition": "middle right", "textfont": {"size": 13, "color": "@ink"},
        "hoverinfo": "skip", "cliponaxis": False,
    }  # fmt: skip
    across, up = axes(units)
    x = axis(across, range=[min(costs) - 0.1 * spread, edge + _ROOM * spread])
    y = axis(up, range=[-3, 106])
    aim = {"type": "line", "x0": 0, "x1": 1, "xref": "paper", "y0": _AIM, "y1": _AIM,
           "line": {"color": "@signal", "width": 2, "dash": "dash"}}  # fmt: skip
    return {"data": [joined, dots, named], "layout": layout(x, y, shapes=[aim], showlegend=False), "ground": 0}
