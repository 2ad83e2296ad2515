"""Measured rows (tests/published/measured_*.toml) beside prediction and band, by the code path of the answer."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np

from rigcalc.core.tables import table
from rigcalc.core.units import factor, parse
from rigcalc.equations import draft as draft_book
from rigcalc.equations import draft_shift
from rigcalc.models.machine.curves import best_slip
from rigcalc.models.machine.draft_force import draft_force
from rigcalc.models.machine.draws import READING, Draws, draws, likely, number
from rigcalc.models.machine.engine import burn
from rigcalc.models.machine.operating_point import slip_sweep
from rigcalc.models.machine.statics import plain
from rigcalc.models.machine.sure import HIGH, LOW
from rigcalc.models.machine.tines import wedge
from rigcalc.models.rig.bare import bare, ratio, soil_factor
from rigcalc.models.rig.file import demo_rig, replaced


@dataclass(frozen=True)
class Compared:
    """One measured row. Numbers are bare, in `unit`; predicted is None for a row that can't be compared (`skip` says why).

    low, high: the 8-in-10 band of the prediction; None where none is claimed. measured_low, measured_high: that of the
    measurements, where many stand behind one figure. used_for: what the row was used to choose ("" for evidence that is free).
    drawn: the predictions drawn, in rising order, of a row with a band.
    """

    kind: str
    name: str
    source: str
    where: str
    measured: float
    unit: str
    predicted: float | None = None
    low: float | None = None
    high: float | None = None
    measured_low: float | None = None
    measured_high: float | None = None
    used_for: str = ""
    note: str = ""
    skip: str = ""
    drawn: Any = None

    @property
    def inside(self) -> bool | None:
        """Whether measurement and prediction agree: in our band, or our figure in theirs; None where neither has a band."""
        if self.predicted is None:
            return None
        if self.low is not None and self.high is not None:
            return self.low <= self.measured <= self.high
        if self.measured_low is not None and self.measured_high is not None:
            return self.measured_low <= self.predicted <= self.measured_high
        return None


def compared(folder: Path, reading: str = READING) -> tuple[Compared, ...]:
    """Compare every row of every measured_*.toml in a folder. reading: of the draft rows' printed range, see READINGS."""
    out = []
    for path in sorted(folder.glob("measured_*.toml")):
        page = tomllib.loads(path.read_text(encoding="utf-8"))
        out += [_compare(page["kind"], row, reading) for row in page["row"]]
        out += [_third(row, reading) for row in page["row"] if page["kind"] == "draft" and _is_tine(row)]
    return tuple(out)


def _compare(kind: str, row: dict[str, Any], reading: str) -> Compared:
    measured, unit = parse(row["measured"])
    ends = {name: parse(row[name])[0] for name in ("measured_low", "measured_high") if name in row}
    made = Compared(
        kind, row["id"], row["source"], row["where"], measured, unit or "1", used_for=row.get("set", ""),
        note=row.get("note", ""), skip=row.get("skip", ""), **ends,
    )  # fmt: skip
    if made.skip:
        return made
    predicted, drawn, own_unit = _PREDICT[row.get("compare", kind)](row["given"], reading)
    scale = 1.0 if own_unit == made.unit else factor(own_unit, made.unit)
    if drawn is None:
        return replace(made, predicted=predicted * scale)
    drawn = np.sort(drawn) * scale
    low, high = (float(drawn[int(level * drawn.size)]) for level in (LOW, HIGH))
    return replace(made, predicted=predicted * scale, low=low, high=high, drawn=drawn)


def _is_tine(row: dict[str, Any]) -> bool:
    """Say whether a measured draft is of a narrow tine with its inputs, so that the wedge has a voice on it."""
    tools = {each["tool"] for each in table("tine_points")}
    return "skip" not in row and row.get("compare", "draft") == "draft" and row["given"].get("tool") in tools


def _third(row: dict[str, Any], reading: str) -> Compared:
    """Compare a measured draft with the wedge, which no row has set anything of."""
    return _compare("wedge", {name: row[name] for name in row if name not in ("set", "compare")}, reading)


def _wedge(given: dict[str, str], reading: str) -> tuple[float, Any, str]:
    """Draft by the wedge before narrow tines; the ground is taken as moist, and the width of the points isn't stated."""
    texture = {"ground.texture": given["texture"], "ground.sand": None, "ground.clay": None}
    tool = {"implement.tool": given["tool"], "implement.tools": int(given["tools"]), "implement.point_width": None}
    found = wedge(replaced(demo_rig(), {**texture, **tool, "work.depth": given["depth"], "work.speed": given["speed"]}), None)
    assert found is not None
    return found[0].likely, found[0].drawn, "kN"


def _value(given: dict[str, str], name: str, unit: str) -> float:
    value, own = parse(given[name])
    return value if (own or "1") == unit else value * factor(own, unit)


def _draft(given: dict[str, str], reading: str) -> tuple[float, Any, str]:
    """Draft of a job behind an unknown tractor: nothing is said of its wheels."""
    row = table("d497_draft")[given["tool"]]
    drawn = draws(row["range_percent"] / 100, number("cone_range"), 0, reading=reading)
    if row["width_unit"] != "tool":
        return _draft_by_width(given, drawn)
    texture = {"ground.texture": given["texture"], "ground.sand": None, "ground.clay": None}
    work = {"implement.tool": given["tool"], "implement.tools": int(given["tools"]), "work.depth": given["depth"]}
    b = bare(replaced(demo_rig(), {**texture, **work, "work.speed": given["speed"]})).at(covered_width=None)
    return float(draft_force(b, plain)), draft_force(b, plain, drawn), "kN"


def _draft_by_width(given: dict[str, str], drawn: Draws) -> tuple[float, Any, str]:
    row, groups = table("d497_draft")[given["tool"]], table("soil_groups")[given["texture"]]
    taken, other = (soil_factor(row, groups[name]) for name in ("group", "farm_usage"))
    work = (_value(given, "speed", "km/h"), _value(given, "width", "m"), _value(given, "depth", "cm"))

    def force(factor_: Any) -> Any:
        return draft_book.implement_draft_by_width.bare(factor_, row["a_si"], row["b_si"], row["c_si"], *work) / 1000

    return float(force(taken)), force(taken + drawn.texture * (other - taken)) * drawn.row, "kN"


def _wheel_tracks(given: dict[str, str], reading: str) -> tuple[float, Any, str]:
    """Total draft with wheel tracks over that without, for the share of tines that run in them."""
    covered, usual = _value(given, "covered", "1"), likely().usual
    shift = draft_shift.draft_with_wheel_tracks.bare
    drawn = draws(0.5, number("cone_range"), 0, reading=reading)

    def rise(behind: Any) -> Any:
        return shift(1.0, covered, usual, behind) / shift(1.0, 0.0, usual, behind)

    return float(rise(likely().behind)), rise(drawn.behind), "1"


def _fuel(given: dict[str, str], reading: str) -> tuple[float, Any, str]:
    rated = _value(given, "rated", "kW")
    b = bare(demo_rig()).at(rated_pto=rated)
    return float(burn(b, _value(given, "power", "kW") / rated, 1.0)), None, "L/h"


def _power_ratio(given: dict[str, str], reading: str) -> tuple[float, Any, str]:
    return ratio("drawbar_from_pto", given["drive"], given["surface"]), None, "1"


def _traction(given: dict[str, str], reading: str) -> tuple[float, Any, str]:
    """Best tractive efficiency of the two-axle demo rig on the running gear and surface of the row."""
    gear = {f"tractor.{axle}.kind": given["gear"] for axle in ("front", "rear")}
    b = bare(replaced(demo_rig("front_wheel_assist"), {**gear, "ground.surface": given["surface"]}))
    slip = np.array([best_slip(b)[1]])
    pull, force = slip_sweep(b, slip)
    return float((pull / force * (1 - slip))[0]), None, "1"


_PREDICT: dict[str, Callable[[dict[str, str], str], tuple[float, Any, str]]] = {
    "draft": _draft, "wedge": _wedge, "wheel_tracks": _wheel_tracks,
    "fuel": _fuel, "power_ratio": _power_ratio, "traction": _traction,
}  # fmt: skip
