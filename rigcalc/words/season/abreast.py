"""Cost against chance in words: what each point of the picture is, in full and short."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigcalc.core.units import factor
from rigcalc.models.season.abreast import NOW, RIG, Point, points
from rigcalc.models.season.answer import SeasonAnswer
from rigcalc.models.season.change import DRIVER, FASTER, FASTER_BY, FEWER, HELPER, HOUR, SECOND, SHALLOWER, SHALLOWER_BY, WIDER
from rigcalc.words.numbers import System, chance, say
from rigcalc.words.season.sentence import change_text

HEADS = ("", "done in time", "cost", "")
_SHORT = {HOUR: "+1 h a day", HELPER: "fuel helper", DRIVER: "driver more", WIDER: "2 tools more", SECOND: "a second rig",
          FEWER: "1/10 less area"}  # fmt: skip
_LONGEST = 16  # letters of a label beside a point: more leave no room for the points on a phone


@dataclass(frozen=True)
class Shown:
    """One point: what it is, the same short enough to stand in the picture, its chance and its cost as text, the cost as a
    number in the unit shown (None without prices), and what stands against it (empty where nothing does)."""

    point: Point
    title: str
    short: str
    done: str
    cost: str
    an_area: float | None
    against: str

    @property
    def row(self) -> tuple[str, str, str, str]:
        """The row of a table with the heads `HEADS`."""
        return self.title, self.done, self.cost, self.against


def shown_points(found: SeasonAnswer, names: Sequence[str], units: System, changes: bool = True) -> tuple[Shown, ...]:
    """Give every point with its words. names: what each rig is called; changes: whether those are among them."""
    area, unit = (1.0, "a hectare") if units == "si" else (factor("ha", "acre"), "an acre")
    made = []
    for point in points(found, changes):
        title, short = _titles(point, found, names, units)
        cost = None if point.cost is None else point.cost / area
        made.append(Shown(
            point, title, short, chance(point.chance), "-" if cost is None else f"{cost:,.2f} {unit}", cost,
            "" if point.holds else "a hard limit is passed",
        ))  # fmt: skip
    return tuple(made)


def _titles(point: Point, found: SeasonAnswer, names: Sequence[str], units: System) -> tuple[str, str]:
    if point.name == NOW:
        return (
            "as it stands" if len(found.rigs) == 1 else f"the {len(found.rigs)} rigs together, as it stands"
        ), "as it stands"
    if point.name == RIG:
        name = names[point.place]
        return f"{name} alone", name if len(name) <= _LONGEST else f"{name[: _LONGEST - 1].rstrip()}…"
    change = point.change
    assert change is not None
    if change.name == SHALLOWER:
        return change_text(change, units), f"{say(SHALLOWER_BY[change.metric], 'cm', units, 2)} shallower"
    if change.name == FASTER:
        return change_text(change, units), f"{say(FASTER_BY[change.metric], 'km/h', units, 2)} faster"
    return change_text(change, units), _SHORT[change.name]


def axes(units: System) -> tuple[str, str]:
    """Give the titles of the two axes: cost, chance."""
    return f"cost of {'an acre' if units == 'us' else 'a hectare'}, in your money", "seasons in 100 done in time"
