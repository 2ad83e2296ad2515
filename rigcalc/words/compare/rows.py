"""The rows of a comparison in words: a title, a cell for each rig, and the line of what is the same in all."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from rigcalc.models.compare.answer import Comparison
from rigcalc.models.compare.figures import FIGURES, Value
from rigcalc.models.size.verdict import Judgement
from rigcalc.words.limits import limit_title
from rigcalc.words.numbers import System, chance_short, number, percent, percent_number, say, to_shown
from rigcalc.words.quantities import OUT_OF_REACH, QUANTITY_TITLES
from rigcalc.words.size.sentence import JUDGEMENTS
from rigcalc.words.tools import pieces

_TITLES = {
    "verdict": "Verdict",
    "chance_works": "Every limit holds in",
    "chance_pulls": "Grip and engine are enough in",
    "gives_out_first": "Gives out first",
    "used_of_it": "Used of that limit",
    "fails_most": "Gives out in most fields",
    "wheel_tracks": "Of its width in wheel tracks",
    "engine_power": "Engine power taken",
    "power_per_tool": "Engine power a {piece}",
    "power_per_width": "Engine power by width",
    "deepest": "Deepest at this speed",
    "fastest": "Fastest at this depth",
    "most_tools": "Most {pieces}",
    "critical_depth": "Critical depth of the point",
    "depth": "Depth",
    "speed": "Speed",
    "tools": "Number of {pieces}",
    "tool": "Row of the draft table",
    "texture": "Soil texture",
    "surface": "Ground",
    "cone_index": "Cone index",
    "grade": "Slope",
    "drive": "Drive",
    "rated_power": "Rated power",
    "power_rating": "Which power that is",
    "tractor_mass": "Tractor weight",
}
_CHANCES = ("chance_works", "chance_pulls")
_NONE = {"fails_most": "nothing", "deepest": "none works", "fastest": "none works", "most_tools": "none works"}
_NOT_KNOWN = "not known"
_BY_WIDTH = "by width"  # a tool that isn't counted
_COUNTED = frozenset(["tools", "most_tools", "power_per_tool"])


@dataclass(frozen=True)
class RowWords:
    """One row: the figure's name, its title, a cell for each rig in order, and whether the cells differ."""

    name: str
    title: str
    cells: tuple[str, ...]

    @property
    def differs(self) -> bool:
        """True where not every rig has the same, as it is shown."""
        return len(set(self.cells)) > 1


def row_words(comparison: Comparison, units: System) -> tuple[RowWords, ...]:
    """Give every row in words, in the order of the figures."""
    return tuple(
        RowWords(
            figure.name,
            title(figure.name, comparison),
            tuple(
                _BY_WIDTH
                if figure.name in _COUNTED and side.answer.bare_rig.by_width
                else cell(figure.name, figure.unit, side.figures[figure.name], units)
                for side in comparison.rigs
            ),
        )
        for figure in FIGURES
    )


def title(name: str, comparison: Comparison) -> str:
    """Give the title of a figure; pieces of the tool are called by their word where all rigs have the same tool's."""
    counted = {pieces(side.answer.rig.implement.tool) for side in comparison.rigs}
    many = counted.pop() if len(counted) == 1 else "tools"
    text = _TITLES.get(name) or QUANTITY_TITLES[name]
    return text.format(pieces=many, piece=many.removesuffix("s"))


def cell(name: str, unit: str, value: Value, units: System) -> str:
    """Give a figure in words, with its unit."""
    if value is None:
        return _NONE.get(name, _NOT_KNOWN)
    if isinstance(value, str):
        return key_text(name, value)
    if not math.isfinite(value):
        return OUT_OF_REACH
    if name in _CHANCES:
        return chance_short(value)
    if name in ("tools", "most_tools"):
        return number(value)
    return percent(value) if unit == "1" else say(value, unit, units)


def key_text(name: str, value: str) -> str:
    """Give a name of our own or a word of the rig file as it is shown."""
    if name == "verdict":
        return JUDGEMENTS[Judgement(value)]
    if name in ("gives_out_first", "fails_most"):
        return limit_title(value)
    return value.replace("_", " ") if name == "tool" else value


def shown_figure(name: str, unit: str, value: Value, units: System) -> tuple[float | str | None, str]:
    """Give a figure and its unit for a table of numbers: unrounded, in the unit shown, shares in percent; None for nothing."""
    if isinstance(value, str):
        return key_text(name, value), ""
    counts = name in ("tools", "most_tools")
    shown = "" if counts else "%" if unit == "1" else to_shown(1.0, unit, units)[1]
    if value is None or not math.isfinite(value):
        return None, "" if unit == "key" else shown
    return (value if counts else 100 * value if unit == "1" else to_shown(value, unit, units)[0]), shown


def same_text(rows: Iterable[RowWords]) -> str:
    """Say in one line what is the same in all; empty where nothing is."""
    parts = [f"{row.title[:1].lower()}{row.title[1:]} {row.cells[0]}" for row in rows if not row.differs]
    return f"The same in all: {'; '.join(parts)}." if parts else ""


def in_hundred(share: float) -> str:
    """Give a chance as a number of fields in 100, without claiming more than a range can carry."""
    return "99+" if share > 0.99 else "under 1" if share < 0.01 else percent_number(share)
